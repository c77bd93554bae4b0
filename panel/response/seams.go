package response

import (
	"cmp"
	"fmt"
	"math"
	"slices"

	"crossgrain/panel/fracture"
	"crossgrain/panel/internal/plan"
	"crossgrain/panel/restraint"
	"crossgrain/species"
)

// seam is the open stretch of a join, a split or a check: where it is open its sides go their own ways, and press where they
// meet. Open from end to end it parts the panel; open from one face it is a hinge.
type seam struct {
	line   int // of the case
	parted bool
	restraint.Seam
}

// Of seams, working choices.
const (
	// seamPlaces is at how many places along the grain the sides of a seam can press at most; seamEach is the length, of the
	// panel's, that each stands for.
	seamPlaces, seamEach = 12, 1.0 / 24
	// seamEnds is the share of the panel's length that a line must be open for to part it.
	seamEnds = 0.995
	// shallow is the share of the thickness below which a check is not felt: it lets a strip as wide as ten thicknesses bend by a hundredth
	// more.
	shallow = 0.1
	// deep is the share from which next to nothing is left.
	deep = 0.95
	// seamApart is the least distance across the grain between two lines and from the edge of a board, mm: nearer ones are one.
	seamApart = 1.0
)

// seams lists them from the left and upwards. Their gap is taken as measured, at whatever humidity that was; what is filled
// presses at once.
func (c *Case) seams(w *whole) (out []seam, err error) {
	var edges []float64
	for _, p := range w.slabs[:len(w.slabs)-1] {
		edges = append(edges, p.to)
	}
	for i := range c.lines {
		l := &c.lines[i]
		if l.end-l.start < seamApart || l.depth < shallow {
			continue
		}
		q := seam{line: i, Seam: restraint.Seam{Name: l.part, X: l.x, From: max(l.start, 0), To: min(l.end, c.o.Along), Gap: l.gap}}
		if l.filled {
			q.Gap = 0
		}
		if q.To-q.From >= seamEnds*c.o.Along {
			q.From, q.To = 0, c.o.Along
		}
		for _, x := range edges {
			if math.Abs(x-q.X) < seamApart {
				q.X = x
			}
		}
		for k := range out {
			if math.Abs(out[k].X-q.X) < seamApart {
				q.X = out[k].X
			}
		}
		if open, err := c.hinged(w, l, &q); err != nil {
			return nil, fmt.Errorf("%s: %w", l.part, err)
		} else if !open {
			continue
		}
		if q.parted = q.Hinge == nil && q.To-q.From >= c.o.Along; c.glued && !q.parted {
			continue
		}
		q.places(c.o.Along)
		out = append(out, q)
	}
	slices.SortStableFunc(out, func(a, b seam) int { return cmp.Or(cmp.Compare(a.X, b.X), cmp.Compare(a.From, b.From)) })
	kept := out[:0]
	for _, q := range out { // of two that overlap the lower one stands for both
		if n := len(kept); n > 0 && kept[n-1].X == q.X && q.From < kept[n-1].To {
			continue
		}
		kept = append(kept, q)
	}
	return kept, nil
}

// places sets where the sides can press: up to the end of the panel where the seam reaches it.
func (q *seam) places(along float64) {
	n := seamPlaces
	if !q.parted {
		n = int(min(max(math.Round((q.To-q.From)/(seamEach*along)), 2), seamPlaces))
	}
	h := (q.To - q.From) / float64(n)
	for k := range n {
		y := q.From + h*(float64(k)+0.5)
		switch {
		case q.parted || q.From > 0 && q.To < along:
		case q.To >= along && q.From > 0:
			y = q.From + h*float64(k+1)
		case q.From <= 0:
			y = q.From + h*float64(k)
		}
		q.At = append(q.At, y)
	}
}

// hinged sets how far the faces lie from the middle, and the hinge of a seam that is open from one face, or behind which a
// member of a cradle goes on across it; false where such a member lies over the open face.
func (c *Case) hinged(w *whole, l *line, q *seam) (open bool, err error) {
	weak, thin, rib := math.Inf(1), math.Inf(1), math.Inf(1)
	var at *board
	for _, x := range [2]float64{q.X - 1e-3, q.X + 1e-3} {
		p := &w.slabs[w.slabAt(x)]
		b := &c.boards[p.board]
		thin, rib = min(thin, b.Thickness+p.rib), min(rib, p.rib)
		if b.stiff < weak {
			weak, at = b.stiff, b
		}
	}
	q.Face = thin / 2
	share, back := l.depth*(thin-rib)/thin, l.back
	if rib > 0 && l.depth < 1 && back {
		return false, nil
	}
	if share >= deep {
		return true, nil // next to nothing is left
	}
	nn, nm, mm, err := fracture.LineSpring(share, weak, c.through(at))
	if err != nil {
		return false, err
	}
	if back {
		nm = -nm
	}
	q.Hinge = &plan.Hinge{Across: nn, Both: nm, Turn: mm, Left: 1 - share}
	return true, nil
}

// through is E* of a crack that grows through the thickness of a board, MPa.
func (c *Case) through(b *board) float64 {
	n := b.Wood.At(b.used)
	thick := species.RingAngle(90-math.Abs(float64(b.Ring))).Modulus(n) * b.StiffnessReduction
	return fracture.ModeOneModulus(thick, b.stiff, b.Wood.NuRT*thick/max(b.stiff, thick), b.Wood.GRT*b.StiffnessReduction)
}

// seamOf returns the place among the seams of line i; false where it is none.
func (w *whole) seamOf(i int) (int, bool) {
	k := slices.IndexFunc(w.seams, func(q seam) bool { return q.line == i })
	return k, k >= 0
}

// stands says that a line stands open over a part of its length: what the elements say along it is what gathers at its tips.
func (w *whole) stands(part string) bool {
	return slices.ContainsFunc(w.seams, func(q seam) bool { return q.Name == part && !q.parted })
}

// parted says that the panel is in pieces.
func (w *whole) parted() bool {
	return slices.ContainsFunc(w.seams, func(q seam) bool { return q.parted })
}

// comeApart is how far the sides of line i have come apart, mm, beside any gap: in the mean of its places where it parts the
// panel, else at its widest, and not below 0; false where it is no seam.
func (c *Case) comeApart(i int, s *standing) (float64, bool) {
	move, q := c.jumps(i, s)
	if q == nil {
		return 0, false
	}
	sum, most := 0.0, 0.0
	for _, v := range move {
		sum, most = sum+v, max(most, v)
	}
	if q.parted {
		return sum / float64(len(move)), true
	}
	return most, true
}

// jumps are the movements of the places of line i; nil where it is no seam.
func (c *Case) jumps(i int, s *standing) ([]float64, *seam) {
	if c.planned == nil || s == nil || len(s.st.Move) == 0 {
		return nil, nil
	}
	k, ok := c.planned.seamOf(i)
	if !ok {
		return nil, nil
	}
	q := &c.planned.seams[k]
	return s.st.Move[c.planned.a.Seam(k):][:q.Pins()], q
}

// seamOpening is how far apart the sides of line i stand with its gap, mm; false where it is no seam.
func (c *Case) seamOpening(i int, s *standing) (float64, bool) {
	wide, ok := c.comeApart(i, s)
	if !ok {
		return 0, false
	}
	k, _ := c.planned.seamOf(i)
	q := &c.planned.seams[k]
	if move, _ := c.jumps(i, s); wide == 0 { // what is left of the gap
		wide = slices.Max(move)
	}
	return math.Max(0, q.Gap+wide), true
}
