package logger_test

import (
	"fmt"
	"math"
	"strconv"
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"crossgrain/moisture/record/logger"
)

// sample is one invented reading: RH in per cent, T in °C, both with one decimal.
type sample struct {
	at    time.Time
	rh, t float64
}

// series is an invented room: a daily swing of both quantities and a slow drift, without repeats of
// the same pair in a row.
func series(start time.Time, n int, step time.Duration) []sample {
	out := make([]sample, n)
	for i := range out {
		h := float64(i) * step.Hours()
		wobble := float64(i*7919%11)/10 - 0.5
		out[i] = sample{
			at: start.Add(time.Duration(i) * step),
			rh: tenth(52 - 6*math.Sin(2*math.Pi*h/24) + 3*math.Sin(2*math.Pi*h/400) + wobble),
			t:  tenth(19.2 + 1.6*math.Sin(2*math.Pi*h/24) + wobble/3),
		}
	}
	return out
}

func tenth(v float64) float64 { return math.Round(10*v) / 10 }

// threeDays begins on the 13th, so that day and month cannot be exchanged.
func threeDays() []sample {
	return series(time.Date(2023, 11, 13, 0, 0, 0, 0, time.UTC), 72, time.Hour)
}

// weeks is 400 h over the end of October, in a clock that is never put back.
func weeks() []sample {
	return series(time.Date(2023, 10, 20, 0, 0, 0, 0, time.UTC), 400, time.Hour)
}

// table writes a series in one layout.
type table struct {
	delim, eol string
	decimal    byte
	head       []string
	stamp      func(time.Time) string // one cell, or several parted by a newline
	cells      func(x table, s sample) []string
	before     []string // lines above the head
	after      []string // lines below the readings
	quoted     bool
	last       string // at the end of every line of data
}

// plain is the layout that all others depart from.
func plain() table {
	return table{
		delim: ",", eol: "\n", decimal: '.',
		head:  []string{"Time", "RH [%]", "T [°C]"},
		stamp: clockForm("2006-01-02 15:04:05"),
		cells: func(x table, s sample) []string { return []string{x.num(s.rh), x.num(s.t)} },
	}
}

// change returns the plain layout with changes.
func change(f func(*table)) table {
	x := plain()
	f(&x)
	return x
}

func clockForm(layout string) func(time.Time) string {
	return func(at time.Time) string { return at.Format(layout) }
}

func (x table) num(v float64) string {
	return strings.Replace(strconv.FormatFloat(v, 'f', 1, 64), ".", string(x.decimal), 1)
}

func (x table) line(cells []string) string {
	if x.quoted {
		for i, c := range cells {
			cells[i] = `"` + c + `"`
		}
	}
	return strings.Join(cells, x.delim)
}

func (x table) row(s sample) string {
	return x.line(append(strings.Split(x.stamp(s.at), "\n"), x.cells(x, s)...)) + x.last
}

func (x table) lines(all []sample) []string {
	out := append([]string{}, x.before...)
	if x.head != nil {
		out = append(out, x.line(append([]string{}, x.head...)))
	}
	for _, s := range all {
		out = append(out, x.row(s))
	}
	return append(out, x.after...)
}

func (x table) text(all []sample) string { return strings.Join(x.lines(all), x.eol) + x.eol }

func (x table) file(all []sample) []logger.File { return textFile(x.text(all)) }

func textFile(s string) []logger.File { return []logger.File{{Name: "made.csv", Data: []byte(s)}} }

// aside is what is expected to be set aside: how many rows, on which lines first, and a word (or one of
// several, parted by |) in the reason.
type aside struct {
	count int
	lines []int
	word  string
}

// made is one variant and its right reading.
type made struct {
	name  string
	files []logger.File
	o     logger.Options
	want  []sample
	noT   bool // no temperature is expected
	aside []aside
	spare int    // lines that are no readings and may be counted or not
	guess string // a word of a sentence that must be said; several parted by |
	tol   float64
	step  time.Duration // for times, 0: exact
}

func runMade(t *testing.T, all []made) {
	t.Helper()
	seen := map[string]bool{}
	for _, m := range all {
		require.False(t, seen[m.name], m.name)
		seen[m.name] = true
		t.Run(m.name, func(t *testing.T) {
			r, how, err := logger.Read(m.files, m.o)
			require.NoError(t, err)
			same(t, m, r.Times, r.RH, r.T)
			require.Len(t, r.Lines, len(r.Times))
			m.setAside(t, how)
			if m.guess != "" {
				assert.True(t, saysOneOf(strings.Join(how.Guesses, "\n"), m.guess), "no guess with %q in %q", m.guess, how.Guesses)
			}
		})
	}
}

// same compares readings and shows the first difference only.
func same(t *testing.T, m made, at []time.Time, rh, temps []float64) {
	t.Helper()
	require.Equal(t, len(m.want), len(at), "readings")
	tol := max(m.tol, 1e-9)
	if m.noT {
		require.True(t, temps == nil, "no temperatures wanted")
	} else {
		require.Equal(t, len(at), len(temps), "temperatures")
	}
	for i, w := range m.want {
		require.LessOrEqual(t, at[i].Sub(w.at).Abs(), m.step, "reading %d: time %s, want %s", i, at[i], w.at)
		require.InDelta(t, w.rh/100, rh[i], tol, "reading %d: humidity", i)
		switch {
		case m.noT:
		case math.IsNaN(w.t):
			require.True(t, math.IsNaN(temps[i]), "reading %d: temperature %g, want none", i, temps[i])
		default:
			require.InDelta(t, w.t, temps[i], max(tol, 1e-6), "reading %d: temperature", i)
		}
	}
}

// setAside requires what is listed, and nothing else but the spare lines.
func (m made) setAside(t *testing.T, how *logger.Reading) {
	t.Helper()
	left := append([]logger.SetAside{}, how.SetAside...)
	for _, a := range m.aside {
		found := -1
		for i, s := range left {
			if s.Count == a.count && saysOneOf(s.Reason, a.word) && (a.lines == nil || fmt.Sprint(a.lines) == fmt.Sprint(s.Lines)) {
				found = i
				break
			}
		}
		if assert.GreaterOrEqual(t, found, 0, "nothing like %+v in %+v", a, left) {
			left = append(left[:found], left[found+1:]...)
		}
	}
	n := 0
	for _, s := range left {
		n += s.Count
	}
	assert.LessOrEqual(t, n, m.spare, "set aside beyond what was expected: %+v", left)
}

// saysOneOf looks for one of several words parted by |, in any case.
func saysOneOf(text, words string) bool {
	for _, w := range strings.Split(words, "|") {
		if strings.Contains(strings.ToLower(text), strings.ToLower(w)) {
			return true
		}
	}
	return false
}

// TestSeries keeps the invented series apart from what a reader has to doubt.
func TestSeries(t *testing.T) {
	for _, all := range [][]sample{threeDays(), weeks()} {
		for i, s := range all {
			assert.True(t, s.rh > 35 && s.rh < 70 && s.t > 15 && s.t < 24, "%d: %+v", i, s)
			assert.False(t, i > 0 && s.rh == all[i-1].rh && s.t == all[i-1].t, "%d repeats", i)
		}
	}
}
