package restraint

import (
	"math"
	"sort"

	"crossgrain/panel/internal/plan"
)

// cell is a length of the panel with one stiffness and one axial force.
type cell struct {
	from, to float64
	piece    int
	seg      int  // the force stands after fixing seg; -1 = before the first
	shared   bool // panel and bar share their curvature here
}

// makeCells cuts the panel at its pieces, its fixings and the ends of the bar's hold.
func (s *System) makeCells() {
	s.cells = s.cells[:0]
	if len(s.flex.Pieces) == 0 {
		return
	}
	var cuts []float64
	for _, p := range s.flex.Pieces {
		cuts = append(cuts, p.From)
	}
	end := s.flex.Pieces[len(s.flex.Pieces)-1].To
	lo, hi := math.Inf(1), math.Inf(-1)
	for _, x := range s.fix {
		lo, hi = min(lo, max(0, x.X-x.Footprint/2)), max(hi, min(end, x.X+x.Footprint/2))
		cuts = append(cuts, x.X)
	}
	if len(s.fix) > 0 {
		cuts = append(cuts, lo, hi)
	}
	cuts = append(cuts, end)
	sort.Float64s(cuts)
	for i := 1; i < len(cuts); i++ {
		a, b := cuts[i-1], cuts[i]
		if b-a < 1e-9 {
			continue
		}
		mid, seg := (a+b)/2, -1
		for k, x := range s.fix {
			if x.X < mid {
				seg = k
			}
		}
		s.cells = append(s.cells, cell{a, b, s.flex.PieceAt(mid), seg, mid > lo && mid < hi})
	}
}

// axialIn returns the force in the panel in a cell.
func axialIn(c cell, r *Result) float64 {
	if c.seg < 0 || c.seg >= len(r.Axial) {
		return 0
	}
	return r.Axial[c.seg]
}

// alongBoards fills what stands per board, the cups, the bar's moment and the share held.
func (s *System) alongBoards(d plan.Drive, r *Result) {
	var held, wanted float64
	bow, free := sagitta{}, sagitta{}
	for _, c := range s.cells {
		p := s.flex.Pieces[c.piece]
		n := axialIn(c, r)
		e, k0 := d.Of(p.Board)
		k := k0
		if c.shared {
			k = s.curvature(d, c.piece, p, n)
			// D (kappa - kappa_0) + M_bar + a N = 0
			if m := p.D*(k0-k) - s.bar.Offset*n; math.Abs(m) > math.Abs(r.Moment) {
				r.Moment = m
			}
		}
		mech, l := n/p.EA, c.to-c.from
		larger(&r.Held[p.Board], mech)
		larger(&r.Front[p.Board], mech+(k-k0)*p.Thickness/2)
		larger(&r.Back[p.Board], mech-(k-k0)*p.Thickness/2)
		r.Mean[p.Board] += mech * l
		if c.seg >= 0 && c.seg < len(r.Axial) {
			held -= mech * l
			wanted += (e - d.BarStrain) * l
		}
		bow.add(l, k)
		free.add(l, k0)
	}
	s.perWidth(r.Mean)
	if wanted != 0 {
		r.Share = min(max(held/wanted, 0), 1)
	}
	// The sagitta needs the chord: a second pass.
	bow.chord()
	free.chord()
	for _, c := range s.cells {
		p := s.flex.Pieces[c.piece]
		_, k0 := d.Of(p.Board)
		k := k0
		if c.shared {
			k = s.curvature(d, c.piece, p, axialIn(c, r))
		}
		bow.follow(c.to-c.from, k)
		free.follow(c.to-c.from, k0)
	}
	r.Cup, r.Free = bow.most, free.most
}

// perWidth divides integrals over boards by the boards' widths.
func (s *System) perWidth(v []float64) {
	for q := 0; q < len(s.flex.Pieces); {
		b, w := s.flex.Pieces[q].Board, 0.0
		for ; q < len(s.flex.Pieces) && s.flex.Pieces[q].Board == b; q++ {
			w += s.flex.Pieces[q].To - s.flex.Pieces[q].From
		}
		v[b] /= w
	}
}

func larger(dst *float64, v float64) {
	if math.Abs(v) > math.Abs(*dst) {
		*dst = v
	}
}

// sagitta integrates w” = -kappa and finds the largest departure from the chord.
type sagitta struct {
	length, slope, w float64
	most             float64
}

func (g *sagitta) add(l, k float64) {
	g.w += g.slope*l - k*l*l/2
	g.slope -= k * l
	g.length += l
}

// chord starts the second pass with the slope that brings the far end to the chord.
func (g *sagitta) chord() {
	if g.length > 0 {
		g.slope = -g.w / g.length
	}
	g.w = 0
}

func (g *sagitta) follow(l, k float64) {
	if k != 0 {
		if x := g.slope / k; x > 0 && x < l { // top or bottom inside
			larger(&g.most, g.w+g.slope*x/2)
		}
	}
	g.w += g.slope*l - k*l*l/2
	g.slope -= k * l
	larger(&g.most, g.w)
}
