package restraint

import (
	"fmt"
	"math"

	"crossgrain/panel/internal/plan"
)

// Seam is an open stretch of a line along the grain: its sides go their own ways and press where they meet. One that is open
// from end to end parts the panel.
type Seam struct {
	Name     string
	X        float64
	From, To float64   // along the grain, mm
	Gap      float64   // between the sides when nothing has moved, mm
	At       []float64 // places along the grain at which its sides can press
	Face     float64   // of the touching faces from mid-thickness, mm
	// Hinge is what is left of one that is open from one face only, which alone can press; From and To of it are not used.
	Hinge *plan.Hinge
}

// faces are the heights above mid-thickness at which the sides meet, and their names.
func (q *Seam) faces() (height []float64, name []string) {
	switch {
	case q.Hinge == nil:
		return []float64{-q.Face, q.Face}, []string{"back", "front"}
	case q.Hinge.Both > 0:
		return []float64{q.Face}, []string{"front"}
	}
	return []float64{-q.Face}, []string{"back"}
}

// Pins returns the number of rows of a seam: its places, face by face.
func (q *Seam) Pins() int {
	h, _ := q.faces()
	return len(h) * len(q.At)
}

// SeamLines are the lines of the plan that seams open. Seams at one place are parts of one line.
func SeamLines(seams []Seam) (out []plan.Line) {
	for i := range seams {
		q := &seams[i]
		if len(out) == 0 || out[len(out)-1].X != q.X {
			out = append(out, plan.Line{X: q.X})
		}
		l := &out[len(out)-1]
		if q.Hinge == nil {
			l.Open = append(l.Open, [2]float64{q.From, q.To})
			continue
		}
		h := *q.Hinge
		h.From, h.To = q.From, q.To
		l.Hinges = append(l.Hinges, h)
	}
	return out
}

// pins gives the places of a seam their rows and mounts.
func (a *Assembly) pins(q *Seam) {
	height, name := q.faces()
	for _, y := range q.At {
		for i := range height {
			a.mounts = append(a.mounts, Mount{
				Name: q.Name + " at its " + name[i], X: q.X, Y: y,
				Lift: &Hold{Row: a.rows, Stiff: math.Inf(1), Yield: math.Inf(1), Presses: true, Centre: -q.Gap},
			})
			a.sign = append(a.sign, 1)
			a.rows++
		}
	}
}

func (q *Seam) targets(m *plan.Model) (out []plan.Target, err error) {
	height, _ := q.faces()
	for _, y := range q.At {
		for _, h := range height {
			t, err := m.JumpAt(q.X, y, h)
			if err != nil {
				return nil, fmt.Errorf("%s: %w", q.Name, err)
			}
			out = append(out, t)
		}
	}
	return out, nil
}

// Seam returns the first row of a seam.
func (a *Assembly) Seam(i int) int {
	n := a.rows - a.looks
	for k := len(a.seams) - 1; k >= i; k-- {
		n -= a.seams[k].Pins()
	}
	return n
}
