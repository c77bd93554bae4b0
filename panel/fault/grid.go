package fault

import (
	"cmp"
	"math"
	"slices"

	"crossgrain/moisture"
	"crossgrain/panel/assessment"
)

// Action is what to do.
type Action int

// The actions, from the mildest on.
const (
	Wait Action = iota // half of no limit is reached
	Call               // half of a limit is reached: call a conservator
	Act                // a limit is reached
)

// String returns the closed name of the action.
func (a Action) String() string { return [...]string{"wait", "call", "act"}[a] }

// Row is a row of readings: from Low up to High. The driest row begins at 0, the dampest ends at 1.
type Row struct{ Low, High moisture.RH }

// Readings are the rows of every card, the driest first: five points wide between 20 and 80 % RH.
func Readings() []Row {
	out := []Row{{0, 0.2}}
	for p := 20.0; p < 80; p += 5 {
		out = append(out, Row{moisture.Percent(p), moisture.Percent(p + 5)})
	}
	return append(out, Row{0.8, 1})
}

// Hours are the columns: up to how long a reading has stood.
func Hours() []float64 { return []float64{2, 8, 24, 72, 168} }

// Grid says for every row of readings after how many hours to call and to act; +Inf: not within the
// times of the chart, three months.
type Grid struct {
	Rows  []Row
	Until []Until
	// FromDry and FromDamp are where the wood stands when the climate fails.
	FromDry, FromDamp moisture.RH
}

// Until is when to call and when to act, in hours, by the quick end of the doubt.
type Until struct{ Call, Act float64 }

// sooner takes the earlier of each.
func (u Until) sooner(v Until) Until { return Until{min(u.Call, v.Call), min(u.Act, v.Act)} }

// At returns what to do once a reading has stood so many hours.
func (u Until) At(hours float64) Action {
	switch {
	case hours >= u.Act:
		return Act
	case hours >= u.Call:
		return Call
	}
	return Wait
}

// Cells returns what to do in every row and column.
func (g *Grid) Cells() [][]Action {
	out := make([][]Action, len(g.Rows))
	for i, u := range g.Until {
		for _, h := range Hours() {
			out[i] = append(out[i], u.At(h))
		}
	}
	return out
}

// gridOf reads the rows off a chart of waiting times. A row counts as both of its ends: the one that is
// farther from where the wood stands, and, in the row where it stands, the worse of the two.
func gridOf(w *assessment.Wait) *Grid {
	g := &Grid{Rows: Readings(), FromDry: w.FromDry, FromDamp: w.FromDamp}
	for _, r := range g.Rows {
		g.Until = append(g.Until, upTo(w, r.Low).sooner(upTo(w, r.High)))
	}
	return g
}

// upTo returns the least hours of all levels of a chart from where the wood stands up to a reading, so
// that no reading waits longer than a nearer one.
func upTo(w *assessment.Wait, rh moisture.RH) Until {
	const near = 1e-9
	out := never()
	for _, l := range w.Levels {
		dry := l.RH < w.FromDry && l.RH >= rh-near
		damp := l.RH > w.FromDamp && l.RH <= rh+near
		if dry || damp {
			out = out.sooner(Until{l.Call.Quick, l.Act.Quick})
		}
	}
	return out
}

func never() Until { return Until{math.Inf(1), math.Inf(1)} }

// worse takes the earlier of both in every row; nil is no grid.
func (g *Grid) worse(o *Grid) *Grid {
	if g == nil || o == nil {
		return cmp.Or(g, o)
	}
	out := *g
	out.FromDry, out.FromDamp = min(g.FromDry, o.FromDry), max(g.FromDamp, o.FromDamp)
	out.Until = slices.Clone(g.Until)
	for i := range out.Until {
		out.Until[i] = out.Until[i].sooner(o.Until[i])
	}
	return &out
}
