// Package verify is the one form in which published values are held against computed ones; the
// tests and the command "verify" run the same rows.
package verify

import (
	"fmt"
	"math"
	"strings"

	"crossgrain/tables"
)

// Kind says what a row is compared with.
type Kind string

// The kinds of check.
const (
	Printed  Kind = "printed table or worked example" // of a handbook or paper
	Closed   Kind = "closed form"                     // worked out apart from the program
	Measured Kind = "measured wood"                   // an experiment
)

// Row is one check. A row without a Source is refused by Run and by the tests.
type Row struct {
	ID, What, Unit, Source string
	Kind                   Kind
	Want, Tol              float64 // Tol absolute, or a fraction of Want when Relative
	Relative               bool
	Got                    func() (float64, error)
	// Band, when set, predicts the low and high end for a measured value; the row passes when Want
	// lies inside and High/Low is at most MaxRatio (a band too wide to fail is no check).
	Band     func() (low, high float64, err error)
	MaxRatio float64
}

// Result is one check carried out.
type Result struct {
	Row  Row
	Got  float64
	Low  float64 // of the band, if any
	High float64
	Pass bool
	Err  error
}

// Run carries out the rows in order.
func Run(rows []Row) []Result {
	out := make([]Result, len(rows))
	for i, r := range rows {
		out[i] = r.run()
	}
	return out
}

func (r Row) run() Result {
	res := Result{Row: r, Got: math.NaN()}
	if r.Source == "" {
		res.Err = fmt.Errorf("check %s has no source", r.ID)
		return res
	}
	if r.Got != nil {
		if res.Got, res.Err = r.Got(); res.Err != nil {
			return res
		}
	}
	if r.Band != nil {
		if res.Low, res.High, res.Err = r.Band(); res.Err != nil {
			return res
		}
		res.Pass = res.Low <= r.Want && r.Want <= res.High &&
			(r.MaxRatio == 0 || res.High <= r.MaxRatio*res.Low)
		return res
	}
	res.Pass = math.Abs(res.Got-r.Want) <= r.Tolerance()
	return res
}

// Tolerance returns the tolerance as an absolute number in the row's unit.
func (r Row) Tolerance() float64 {
	if r.Relative {
		return r.Tol * math.Abs(r.Want)
	}
	return r.Tol
}

// toPrinted widens a tolerance that is tighter than the print: closed forms are printed to six
// significant digits, so half a unit of the sixth is the least that can be asked of them.
func (r Row) toPrinted(printed string) Row {
	mantissa, _, _ := strings.Cut(printed, "e")
	digits := len(strings.TrimLeft(strings.Map(onlyDigits, mantissa), "0"))
	half := 0.5000001 * math.Pow(10, math.Floor(math.Log10(math.Abs(r.Want)))-5)
	if r.Want != 0 && digits <= 6 && r.Tolerance() < half {
		r.Tol, r.Relative = half, false
	}
	return r
}

// onlyDigits drops sign and point.
func onlyDigits(c rune) rune {
	if c >= '0' && c <= '9' {
		return c
	}
	return -1
}

// FromTable makes rows from a table of expected values with the columns id, what, inputs,
// expected, unit, tolerance, relative, kind and source. got gives the function for each id;
// ids without one are skipped, so that a table may hold values that wait for a later model.
func FromTable(t *tables.Table, got map[string]func() (float64, error)) ([]Row, error) {
	var out []Row
	used := 0
	for _, r := range t.Rows {
		f, ok := got[r.Text("id")]
		if !ok {
			continue
		}
		used++
		want, ok1 := r.Float("expected")
		tol, ok2 := r.Float("tolerance")
		if !ok1 || !ok2 {
			return nil, fmt.Errorf("%s:%d: expected and tolerance must be numbers", t.Name, r.Line)
		}
		what := r.Text("what")
		if in := r.Text("inputs"); in != "" {
			what += " [" + in + "]"
		}
		out = append(out, Row{
			ID: r.Text("id"), What: what, Unit: r.Text("unit"), Kind: Kind(r.Text("kind")),
			Source: r.Text("source"), Want: want, Tol: tol, Relative: r.Text("relative") == "yes", Got: f,
		}.toPrinted(r.Text("expected")))
	}
	if used != len(got) {
		return nil, fmt.Errorf("%s: %d functions given, %d ids found", t.Name, len(got), used)
	}
	return out, nil
}
