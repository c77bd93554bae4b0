package response

import (
	"math"

	"crossgrain/panel/restraint"
)

// seam is a join or split open from end to end: the panel is in pieces there, which press where they meet.
type seam struct {
	line int // of the case
	restraint.Seam
}

// seamPlaces is at how many places along the grain the sides of a seam can press.
const seamPlaces = 6

// seams lists them. Their gap is taken as measured, at whatever humidity that was.
func (c *Case) seams() (out []seam) {
	for i := range c.lines {
		l := &c.lines[i]
		if l.depth < 1 || l.end-l.start < 0.995*c.o.Along {
			continue
		}
		q := seam{line: i, Seam: restraint.Seam{Name: l.part, X: l.x, Gap: l.gap}}
		if l.filled {
			q.Gap = 0
		}
		thin := math.Inf(1)
		for _, x := range [2]float64{l.x - 1e-3, l.x + 1e-3} {
			thin = min(thin, c.boards[c.boardAt(x)].Thickness)
		}
		q.Face = thin / 2
		for k := range seamPlaces {
			q.At = append(q.At, c.o.Along*(float64(k)+0.5)/seamPlaces)
		}
		out = append(out, q)
	}
	return out
}

// seamOpening is how far apart the sides of line i stand, in the mean of its places, mm; false where it is no seam.
func (c *Case) seamOpening(i int, s *standing) (float64, bool) {
	if c.planned == nil || s == nil || len(s.st.Move) == 0 {
		return 0, false
	}
	for k, q := range c.planned.seams {
		if q.line != i {
			continue
		}
		row, sum := c.planned.a.Seam(k), 0.0
		for p := range 2 * len(q.At) {
			sum += s.st.Move[row+p]
		}
		return math.Max(0, q.Gap+sum/float64(2*len(q.At))), true
	}
	return 0, false
}
