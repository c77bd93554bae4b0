package restraint

import (
	"fmt"
	"math"
	"slices"

	"crossgrain/panel/internal/plan"
)

// System is one bar on a panel. It owns its working memory: one goroutine at a time.
type System struct {
	flex    *plan.Flex
	bar     Bar
	fix     []Fixing  // from the left
	order   []int     // order[i] = place of fix[i] in the caller's list
	c       []float64 // flexibility of panel, bar and lever, n x n, freed of the shift
	gamma   float64
	reach   []float64 // n x pieces: length of the piece left of the fixing, freed of the shift
	bend    []float64 // EI shared with each piece, as the share EI/(D+EI); 1 when held flat
	cells   []cell
	scratch State
	work
}

// work is memory reused by every step.
type work struct {
	free, s, f, r, ds, df, a, y1, y2, axial []float64
	act, at                                 []int
	laws                                    []law
}

// Build joins a panel with a bar and its fixings, which must be those the panel was condensed to
// (any order). No fixing at all is allowed: the panel then moves freely.
func Build(f *plan.Flex, bar Bar, fix []Fixing) (*System, error) {
	if err := bar.valid(); err != nil {
		return nil, err
	}
	n := len(fix)
	s := &System{bar: bar, order: make([]int, n)}
	for i := range s.order {
		s.order[i] = i
	}
	slices.SortStableFunc(s.order, func(a, b int) int {
		switch {
		case fix[a].X < fix[b].X:
			return -1
		case fix[a].X > fix[b].X:
			return 1
		}
		return 0
	})
	for _, o := range s.order {
		if err := fix[o].valid(); err != nil {
			return nil, err
		}
		s.fix = append(s.fix, fix[o])
	}
	s.allocate(n)
	return s, s.Refit(f)
}

func (s *System) allocate(n int) {
	mem := make([]float64, 9*n+n*n)
	for _, p := range []*[]float64{&s.free, &s.s, &s.f, &s.r, &s.ds, &s.df, &s.y1, &s.y2, &s.axial} {
		*p, mem = mem[:n:n], mem[n:]
	}
	s.a = mem
	s.act, s.at, s.laws = make([]int, 0, n), make([]int, n), make([]law, n)
}

// Refit gives the system a panel of other stiffness at the same patches: after relaxation, or at
// another moisture. States carry over.
func (s *System) Refit(f *plan.Flex) error {
	n := len(s.fix)
	if len(f.X) != n {
		return fmt.Errorf("panel is condensed to %d patches, the batten has %d fixings", len(f.X), n)
	}
	for i, x := range s.fix {
		if math.Abs(f.X[i]-x.X) > 1e-6 || math.Abs(f.Foot[i]-x.Footprint) > 1e-6 {
			return fmt.Errorf("panel is condensed to a patch at %g mm (footprint %g), the fixing is at %g mm (footprint %g)",
				f.X[i], f.Foot[i], x.X, x.Footprint)
		}
	}
	s.flex = f
	ei, soft, a := s.bar.bending(), s.bar.soft(), s.bar.Offset
	s.bend = s.bend[:0]
	for _, p := range f.Pieces {
		h := 1.0
		if !s.bar.HoldsFlat {
			h = ei / (p.D + ei)
			if math.IsInf(ei, 1) {
				h = 1
			}
		}
		s.bend = append(s.bend, h)
	}
	s.c = f.Chain(func(p plan.Piece) float64 {
		if s.bar.HoldsFlat {
			return soft
		}
		return soft + a*a/(p.D+ei) // Newmark's lever
	})
	for i := range s.c {
		s.c[i] += f.U[i]
	}
	s.centre(n)
	s.lengths()
	s.makeCells()
	return nil
}

// centre takes the shift out of the flexibility, so that it is the same seen from either side.
func (s *System) centre(n int) {
	if n == 0 {
		return
	}
	row, all := make([]float64, n), 0.0
	for i := range n {
		for j := range n {
			row[i] += s.c[i*n+j] / float64(n)
		}
		all += row[i] / float64(n)
	}
	s.gamma = 0
	for i := range n {
		for j := range i + 1 {
			v := (s.c[i*n+j]+s.c[j*n+i])/2 - row[i] - row[j] + all
			s.c[i*n+j], s.c[j*n+i] = v, v
		}
		s.gamma += s.c[i*n+i] / float64(n)
	}
	if n == 1 {
		s.c[0] = 0
	}
	if !(s.gamma > 0) {
		s.gamma = 1
	}
}

// lengths fills reach.
func (s *System) lengths() {
	np := len(s.flex.Pieces)
	s.reach = make([]float64, len(s.fix)*np)
	for q, p := range s.flex.Pieces {
		mean := 0.0
		for i, x := range s.fix {
			v := max(0, min(x.X, p.To)-p.From)
			s.reach[i*np+q] = v
			mean += v / float64(len(s.fix))
		}
		for i := range s.fix {
			s.reach[i*np+q] -= mean
		}
	}
}

// movement fills free with the slip that each fixing would show if nothing held.
func (s *System) movement(d plan.Drive) {
	np := len(s.flex.Pieces)
	for i := range s.free {
		s.free[i] = 0
	}
	for q, p := range s.flex.Pieces {
		e := s.rate(d, q, p)
		for i := range s.free {
			s.free[i] += s.reach[i*np+q] * e
		}
	}
}

// rate is the slip per length in a piece without force: e - e_bar - a kappa.
func (s *System) rate(d plan.Drive, q int, p plan.Piece) float64 {
	e, _ := d.Of(p.Board)
	return e - d.BarStrain - s.bar.Offset*s.curvature(d, q, p, 0)
}

// curvature is the one shared by panel and bar in a piece under the axial force n:
//
//	kappa = (D kappa_panel + EI kappa_bar - a N) / (D + EI),   0 when held flat
func (s *System) curvature(d plan.Drive, q int, p plan.Piece, n float64) float64 {
	if s.bar.HoldsFlat {
		return 0
	}
	_, k := d.Of(p.Board)
	h := s.bend[q]
	return k*(1-h) + d.BarCurvature*h - s.bar.Offset*n*(1-h)/p.D
}
