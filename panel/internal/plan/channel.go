package plan

import (
	"fmt"
	"math"
)

// Channel is a strip across the grain that has been cut out of the back: what is left there is thinner, and its middle lies
// nearer the painted face. It couples stretching and bending, so that the model is one matrix.
type Channel struct {
	Y, Width float64 // its centre line and size along the grain, mm
	From, To float64 // across the grain, mm
	Depth    float64 // below the back, mm; less than any board is thick
}

func (q Channel) valid(plates []Plate) error {
	if !(q.Width > 0 && q.From < q.To && q.Depth > 0) || math.IsInf(q.Y+q.Width+q.From+q.To, 0) || math.IsNaN(q.Y) {
		return fmt.Errorf("channel at %g mm must have a width, a length and a depth above 0 mm, got %g, %g to %g and %g", q.Y, q.Width, q.From, q.To, q.Depth)
	}
	at := 0.0
	for i, p := range plates {
		if from := at; q.Depth >= p.Thickness && q.To > from && q.From < from+p.Width {
			return fmt.Errorf("channel at %g mm must leave wood: it is %g mm deep in board %d of %g mm", q.Y, q.Depth, i+1, p.Thickness)
		}
		at += p.Width
	}
	return nil
}

// holds tells whether a place lies in the channel.
func (q Channel) holds(x, y float64) bool {
	return x > q.From && x < q.To && math.Abs(y-q.Y) < q.Width/2
}

// thinned is what the channel leaves of a board.
func (q Channel) thinned(p Plate) Plate {
	p.Thickness, p.Centre = p.Thickness-q.Depth, p.Centre+q.Depth/2
	return p
}

// marks are the mesh lines that follow the channels.
func (l *Layout) marks() (across, along []Mark) {
	for _, q := range l.Channels {
		across = append(across, Mark{At: q.From}, Mark{At: q.To})
		along = append(along, Mark{At: q.Y - q.Width/2}, Mark{At: q.Y + q.Width/2})
	}
	return across, along
}

// cut tells in which channel a cell lies, from 1; 0 = in none. The deepest counts.
func (m *Model) cut(c, r int) int {
	g, best := m.Grid, 0
	x, y := (g.X[c]+g.X[c+1])/2, (g.Y[r]+g.Y[r+1])/2
	for i, q := range m.channels {
		if q.holds(x, y) && (best == 0 || q.Depth > m.channels[best-1].Depth) {
			best = i + 1
		}
	}
	return best
}

// cutPlate is a board as it is in a channel, 0 = in none.
func (m *Model) cutPlate(p Plate, cut int) Plate {
	if cut == 0 {
		return p
	}
	return m.channels[cut-1].thinned(p)
}

// lam is the stiffness of a cell.
func (m *Model) lam(c, r int) *laminate {
	return &m.laminae[m.Grid.Board[c]*(1+len(m.channels))+m.cut(c, r)]
}
