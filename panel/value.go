package panel

import (
	"math"
	"strconv"

	"crossgrain/tables/edit"
)

// value is what a file holds under one key, already checked.
type value struct {
	kind       kind
	low, high  float64   // equal where one number was given
	list       []float64 // mm
	names      []string
	text       string // words; yes or no
	cannotTell bool   // "?" was written
	toml       string // as it is written back
	line       int
}

// part is one table of the file.
type part struct {
	table string // path of its schema table
	name  string // "" for a table without names
	as    string // word used in the file for the table, such as check
	line  int
}

// path returns the part's path as shown to a reader: board.left, cradle.
func (p part) path() string {
	if p.name == "" {
		return p.table
	}
	return p.table + "." + p.name
}

func (p part) at(key string) string { return p.path() + "." + key }

// Quote writes a string as a panel file holds it: in quotation marks, with what TOML forbids written out.
func Quote(s string) string { return quote(s) }

func quote(s string) string { return edit.Quote(s) }

// num writes a number in the shortest form that reads back the same.
func num(v float64) string { return strconv.FormatFloat(v, 'f', -1, 64) }

// showNumber writes a number for a message, to six digits.
func showNumber(v float64) string {
	s := strconv.FormatFloat(v, 'g', 6, 64)
	if short, err := strconv.ParseFloat(s, 64); err == nil && math.Abs(v) < 1e12 && math.Abs(v) > 1e-6 {
		return num(short)
	}
	return s
}
