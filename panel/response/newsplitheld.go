package response

import (
	"math"
	"strings"

	"crossgrain/panel/restraint"
)

func (h *holder) insert() bool { return strings.HasPrefix(h.part, "insert.") }

// splitAt is the kind of place beside its fixings.
func (h *holder) splitAt() SplitAt {
	switch {
	case h.insert():
		return SplitInsert
	case h.runs():
		return SplitEnd
	}
	return SplitFixing
}

// runs says that its first fixings stand for a line of glue.
func (h *holder) runs() bool { return h.glued || h.what == "glued at the middle" }

// splitsAt says whether wood beside fixing i is looked at: of a line of glue only its ends, and nothing of a frame, which presses.
func (h *holder) splitsAt(i int) bool {
	if h.part == "frame" {
		return false
	}
	return !h.runs() || i == 0 || !h.touches(i) && h.touches(i-1)
}

// touches says that fixing i is in one line of glue with the next.
func (h *holder) touches(i int) bool {
	if i+1 >= len(h.fix) {
		return false
	}
	return h.glued || math.Abs(h.fix[i+1].X-h.fix[i].X) < 1.01*h.fix[i].Footprint
}

// leaves is the share of a thickness, mm, that the channel it runs in leaves.
func (h *holder) leaves(thickness float64) float64 {
	return max(1-h.channel/thickness, leastLigament)
}

// patch is the size across and along the grain of what fixing i acts through; of a line of points their distance across.
func (h *holder) patch(i int) (across, along float64) {
	across = h.fix[i].Footprint
	if !h.runs() {
		return across, across
	}
	if across == 0 && len(h.fix) > 1 {
		across = h.fix[1].X - h.fix[0].X
	}
	return across, h.width
}

// closedHolding reads the closed forms, every member by itself. The bending that a member brings about is that of its board as a whole.
type closedHolding struct {
	c       *Case
	results []restraint.Result
}

func (h closedHolding) of(k, board int) held {
	r := &h.results[k]
	return held{r.Held[board], r.Front[board], r.Back[board]}
}

// beside goes by equilibrium: what the fixings to its left push the other way, over the strip that works with the member.
func (h closedHolding) beside(k, i int) held {
	r, q := &h.results[k], &h.c.restraints[k]
	x, sum := q.fix[i].X, 0.0
	for j, f := range q.fix {
		if f.X < x {
			sum -= r.Force[j]
		}
	}
	board := h.c.boardAt(x)
	b := &h.c.boards[board]
	mid := (sum - r.Force[i]/2) / (b.stiff * b.left * b.Thickness * q.spread.Width())
	if whole := h.of(k, board); whole.mid > 0 { // bending goes with the pull
		share := min(max(mid/whole.mid, 0), 1)
		return held{mid, mid + share*(whole.front-whole.mid), mid + share*(whole.back-whole.mid)}
	}
	return held{mid, mid, mid}
}

func (h closedHolding) at(x float64, board int) (most held) {
	for k := range h.results {
		if fix := h.c.restraints[k].fix; len(fix) > 0 && x > fix[0].X && x < fix[len(fix)-1].X {
			most.larger(h.of(k, board))
		}
	}
	return most
}

// larger keeps what pulls more.
func (h *held) larger(v held) {
	if v.most() > h.most() {
		*h = v
	}
}

// splitStations are the places of the plan that new splits are looked for at.
type splitStations struct {
	beside [][][]restraint.Station // by member and fixing; on either side, where there is wood
	sap    map[float64][]restraint.Station
}

// splitPlaces sets them.
func (c *Case) splitPlaces(w *whole) {
	s := &w.splits
	for _, h := range w.holders {
		var of [][]restraint.Station
		for i, f := range h.fix {
			var at []restraint.Station
			if h.splitsAt(i) {
				across, _ := h.patch(i)
				d := besideBy(across)
				for _, x := range [2]float64{f.X - d, f.X + d} {
					if x > 0 && x < c.o.Across {
						at = append(at, w.a.Station(x, h.y, w.slabAt(x), false))
					}
				}
			}
			of = append(of, at)
		}
		s.beside = append(s.beside, of)
	}
	s.sap = map[float64][]restraint.Station{}
	for i := range c.boards {
		b := &c.boards[i]
		wide := min(sapwood, b.Width/4) / 2
		for n, x := range [2]float64{b.Left + wide, b.Left + b.Width - wide} {
			if q := [2]float64{b.SapLeft, b.SapRight}[n]; !(q > 0 && q < 1) {
				continue
			}
			for _, h := range w.holders {
				if h.part != "frame" {
					s.sap[x] = append(s.sap[x], w.a.Station(x, h.y, w.slabAt(x), false))
				}
			}
		}
	}
}

// besideBy is how far from a fixing the wood beside it is looked at, mm: where its own pull and pressure, which are left out in the mean of
// both sides, cancel.
func besideBy(footprint float64) float64 { return max(footprint, 10) }

// plannedHolding reads the plan.
type plannedHolding struct {
	c *Case
	s *standing
}

func (h plannedHolding) read(at *restraint.Station) held {
	n, m := at.Read(h.s.force, h.s.load)
	mid, front, back := h.c.heldStrain(at, n, m)
	return held{mid, front, back}
}

// beside takes the mean of both sides; beyond the panel's edge nothing is held.
func (h plannedHolding) beside(k, i int) (v held) {
	for _, at := range h.c.planned.splits.beside[k][i] {
		r := h.read(&at)
		v.mid, v.front, v.back = v.mid+r.mid/2, v.front+r.front/2, v.back+r.back/2
	}
	return v
}

func (h plannedHolding) at(x float64, _ int) (most held) {
	for _, at := range h.c.planned.splits.sap[x] {
		most.larger(h.read(&at))
	}
	return most
}

// splitsOf tells where each board would split first: by elements where they are made, with the share of the closed forms at the same place.
func (c *Case) splitsOf(s *State, m moment, closed, results []restraint.Result) {
	if len(s.Restraints) == 0 {
		return
	}
	var beside []candidates
	if m.stood == nil || c.planned == nil {
		holders := make([]holder, len(closed))
		for k := range holders {
			holders[k] = c.restraints[k].holder
		}
		beside = c.newSplits(closedHolding{c, closed}, holders, closed)
	}
	by := beside
	if c.planned != nil {
		by = c.newSplits(plannedHolding{c, s.stood}, c.planned.holders, results)
	}
	for i := range by {
		n := by[i].worst()
		n.Part = "board." + c.boards[i].Name
		if beside != nil {
			if q := beside[i].like(n); q != nil {
				n.Closed = q.Share()
			}
		}
		s.Splits = append(s.Splits, n)
	}
}
