package assessment

import (
	"math"
	"time"

	"crossgrain/moisture"
	"crossgrain/panel"
	"crossgrain/panel/response"
)

// key names a mode of failure of a part.
type key struct {
	response.Mode
	Part string
}

// held is what is asked of every realisation by the closed forms: shares of limit, warp and width at each humidity of the grid,
// and what would have been measured.
type held struct {
	p    *panel.Panel
	q    Question
	grid []moisture.RH
	keys []key
	seen []sight
	// ratio turns a share by the closed forms into one as finer models have it for the panel as described, [grid][key]; 0: the
	// difference is added instead.
	ratio, add [][]float64
	bend       []float64 // the same for the warp at each humidity of the grid
	lived      panel.Lived
	from       moisture.RH   // with which the wood is in balance when the air leaves; 0: what it is used to
	hold       time.Duration // for which each humidity is held
}

// one is a realisation by the closed forms.
type one struct {
	share       [][]float64 // [grid][key]
	warp, width []float64   // [grid], nothing holding it, mm
	open        [][]float64 // [grid][line] opening of joins and splits, mm, by the closed forms
	seen        []float64   // as held.seen
	past        float64     // greatest share of what sets a range, held for a season where it has lived
}

// newHeld makes the questions ready from the panel as described: plain by the closed forms, fine as it is told.
func newHeld(p *panel.Panel, q Question, plain []response.State, fine []State) *held {
	h := &held{p: p, q: q, lived: p.Lived(), hold: q.hold()}
	for _, d := range plain[0].Demands {
		h.keys = append(h.keys, key{d.Mode, d.Part})
	}
	for g := range plain {
		h.grid = append(h.grid, plain[g].RH)
		ratio, add := make([]float64, len(h.keys)), make([]float64, len(h.keys))
		for j, d := range plain[g].Demands {
			rough, best := d.Share(), find(fine[g].Demands, j, d).Share()
			ratio[j], add[j] = against(rough, best)
		}
		h.ratio, h.add = append(h.ratio, ratio), append(h.add, add)
		bend := 1.0
		if math.Abs(plain[g].Cup) > 1e-6 {
			bend = min(max(fine[g].Cup/plain[g].Cup, 0), 3)
		}
		h.bend = append(h.bend, bend)
	}
	return h
}

// against is how the share of a rougher model becomes that of a better one: by a factor where both are above nothing and
// within a factor of ten of one another, else by a difference.
func against(rough, best float64) (ratio, add float64) {
	const nothing = 1e-3
	if rough > nothing && best > nothing && best < 10*rough && rough < 10*best {
		return best / rough, 0
	}
	return 0, best - rough
}

func apply(share, ratio, add float64) float64 {
	if ratio > 0 {
		return share * ratio
	}
	return max(0, share+add)
}

// at works one realisation out.
func (h *held) at(z []float64) (*one, error) {
	c, err := h.q.realised(h.p, z, response.Quick)
	if err != nil {
		return nil, err
	}
	o := &one{}
	for g, rh := range h.grid {
		states, err := h.states(c, rh)
		if err != nil {
			return nil, err
		}
		share := make([]float64, len(h.keys))
		last := &states[len(states)-1]
		for i := range states {
			for j, k := range h.keys {
				d := find(states[i].Demands, j, response.Demand{Mode: k.Mode, Part: k.Part})
				share[j] = max(share[j], apply(d.Share(), h.ratio[g][j], h.add[g][j]))
			}
		}
		o.share = append(o.share, share)
		o.warp = append(o.warp, last.Cup*h.bend[g])
		o.width = append(o.width, last.Width)
		open := make([]float64, len(last.Lines))
		for i := range last.Lines {
			open[i] = last.Lines[i].Opening
		}
		o.open = append(o.open, open)
		if err := h.pass(c, o, g, rh); err != nil {
			return nil, err
		}
	}
	o.seen, err = h.look(c)
	return o, err
}

// steps are the parts of a humidity's time at which it is judged, when that is shorter than a season.
var steps = [...]float64{0.125, 0.25, 0.5, 1}

// states are the states to judge of a humidity held for the time that is asked about.
func (h *held) states(c *response.Case, rh moisture.RH) ([]response.State, error) {
	from := h.from
	if from == 0 {
		from = c.UsedTo()
	}
	if h.hold == season || rh == from {
		return c.Settle([]moisture.RH{rh})
	}
	times := make([]time.Duration, len(steps))
	for i, f := range steps {
		times[i] = time.Duration(f * float64(h.hold))
	}
	return c.Excursion(from, rh, times)
}

// pass notes what a humidity that the panel has lived through asks of it over a season.
func (h *held) pass(c *response.Case, o *one, g int, rh moisture.RH) error {
	if h.lived.Low == 0 || rh < h.lived.Low-1e-9 || rh > h.lived.High+1e-9 {
		return nil
	}
	share := o.share[g]
	if h.hold != season {
		states, err := c.Settle([]moisture.RH{rh})
		if err != nil {
			return err
		}
		share = make([]float64, len(h.keys))
		for j, k := range h.keys {
			share[j] = apply(find(states[0].Demands, j, response.Demand{Mode: k.Mode, Part: k.Part}).Share(), h.ratio[g][j], h.add[g][j])
		}
	}
	for j, k := range h.keys {
		if k.SetsRange() {
			o.past = max(o.past, share[j])
		}
	}
	return nil
}
