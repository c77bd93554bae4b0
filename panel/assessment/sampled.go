package assessment

import (
	"context"
	"slices"
	"time"

	"crossgrain/moisture"
	"crossgrain/panel"
	"crossgrain/panel/response"
)

// Doubt is the answer by many realisations of the panel as described.
type Doubt struct {
	Held, Course int    // realisations worked out, of each way
	Asked        [2]int // as asked for
	Partial      bool   // stopped early
	LeftOut      int    // realisations that could not be taken through the record
	Seed         uint64
	Inputs       int           // uncertain inputs that were drawn
	For          time.Duration // that each humidity is held for, of ranges
	Ways         []Ways        // one; two where an unknown parts the answer
	Fork         *panel.Fork   // that unknown; nil
	Apart        bool          // the ways differ by more than tenfold: it cannot be told yet
}

// Ways is the answer for one way in which an unknown may turn out.
type Ways struct {
	Words  string // "if the cradle slides"; "" without a fork
	Count  Count  // of 100 such panels reach a limit in what was asked about
	Before Count  // the same before anything that was measured or lived through counted
	Home   *Count // in the climate that it is known to have lived through; nil: not recorded
	Parts  []PartCount
	// Biases are of the model that the realisations went through a record by, Closed of the closed forms that ranges rest on. Parts
	// that Biases refuse are not counted.
	Biases, Closed []Bias
	Moves          Band // mm, free change of width from the driest to the dampest humidity asked about
	Ranges         []RangeFor
	Seasons        []SeasonRange // of a record that is the climate it lives in; none otherwise
	Map            LimitMap
	Evidence       *Evidence
	Causes         []Cause
	Narrow         *Narrow
	Curves         []Curve // of a record
	bands          bands
}

// bands are the shares, the warp and the width of the realisations at the humidities of the grid.
type bands struct {
	grid        []moisture.RH
	keys        []key
	share       [][]Band // [grid][key]
	warp, width []Band   // nothing holding it
	asked       []key
	worst       []Band // [asked], over what was asked about
}

// placeOf is where a part stands among keys; j is where it is likely to stand.
func placeOf(keys []key, j int, k key) int {
	if j < len(keys) && keys[j] == k {
		return j
	}
	return slices.Index(keys, k)
}

// chances are the chances, of 100, for which ranges are told.
var chances = [...]float64{1, 5, 10}

// sampled works the doubt out by realisations. nominal is by the closed forms; told is the course as it is told, nil without one.
func (r *Result) sampled(ctx context.Context, p *panel.Panel, q Question, plain *response.Case, d *doubt, told *along) error {
	if q.Samples.Held <= 0 {
		return nil
	}
	out := &Doubt{Seed: q.Samples.Seed, Asked: [2]int{q.Samples.Held, 0}, Inputs: len(p.Inputs()), For: q.hold()}
	if told != nil {
		out.Asked[1] = min(q.Samples.Course, q.Samples.Held)
	}
	var fine *along
	if out.Asked[1] > 0 {
		fine = told
		if q.Setting != response.Fine {
			var err error
			if fine, err = finest(context.WithoutCancel(ctx), p, q); err != nil {
				return err
			}
		}
	}
	panels := []*panel.Panel{p}
	if fork := parting(p, q, d.grid); fork != nil {
		out.Fork, panels = fork, nil
		for _, w := range fork.Ways {
			panels = append(panels, p.With(fork.Path, w.Value))
		}
	}
	for i, one := range panels {
		s := &study{r: r, p: one, q: q, told: told, fine: fine, out: out}
		if out.Fork != nil {
			s.words = out.Fork.Ways[i].Words
		}
		if err := s.run(ctx, plain, d); err != nil {
			return err
		}
	}
	out.Apart = out.Fork != nil && apart(out.Ways[0].Count, out.Ways[1].Count)
	r.Doubt = out
	r.band()
	return nil
}

// apart says that two counts differ by more than tenfold, fewer than 1 of 100 taken as 1.
func apart(a, b Count) bool {
	lo, hi := max(min(a.Of100, b.Of100), 1), max(a.Of100, b.Of100)
	return hi > 10*lo
}

// parting returns the unknown that parts the answer most, nil where none changes a share by half.
func parting(p *panel.Panel, q Question, grid []moisture.RH) *panel.Fork {
	var best *panel.Fork
	most := 1.05
	for _, f := range p.Forks() {
		var top [2]float64
		for i, w := range f.Ways {
			top[i] = topOf(p.With(f.Path, w.Value), q, grid)
		}
		if by := max(top[0], top[1]) / max(min(top[0], top[1]), 1e-3); by > most {
			best, most = &f, by
		}
	}
	return best
}

// topOf is the greatest share of limit over a grid, for the panel as described, by the closed forms; 0 where it cannot be had.
func topOf(p *panel.Panel, q Question, grid []moisture.RH) (top float64) {
	o, err := p.Realise(nil)
	if err != nil {
		return 0
	}
	c, err := q.prepareAt(o, response.Quick)
	if err != nil {
		return 0
	}
	states, err := c.Settle(grid)
	if err != nil {
		return 0
	}
	for _, s := range states {
		for _, d := range s.Demands {
			if d.Mode.SetsRange() {
				top = max(top, d.Share())
			}
		}
	}
	return top
}

// study is the sampling of one way.
type study struct {
	r          *Result
	p          *panel.Panel
	q          Question
	told, fine *along
	out        *Doubt
	words      string
	best       *response.Case // as it is told
	sweep      []State        // the same at every humidity of the grid
}

// run draws the realisations, weighs them and reads the answers off.
func (s *study) run(ctx context.Context, plain *response.Case, d *doubt) error {
	s.best, s.sweep = s.r.Case, s.r.Sweep
	if s.out.Fork != nil { // as this way has it
		var err error
		if plain, d, err = s.anew(ctx, d.grid); err != nil {
			return err
		}
	}
	h := newHeld(s.p, s.q, plainStates(d.states), s.sweep)
	unused, err := h.sights(plain, s.best, s.r.Object)
	if err != nil {
		return err
	}
	z := d.draw(s.out.Asked[0], s.out.Seed)
	ones := make([]*one, len(z))
	n, err := each(ctx, len(z), s.q.Samples.telling(StageHeld, len(z)), func(i int) (err error) {
		ones[i], err = h.at(z[i])
		return err
	})
	if err != nil {
		return err
	}
	s.out.Partial = s.out.Partial || n < len(z)
	if n < Fewest {
		if ctx.Err() != nil {
			return ctx.Err()
		}
	}
	z, ones = z[:n], ones[:n]
	w, err := h.weigh(ones)
	if err != nil {
		return err
	}
	w.evidence.Unused = unused
	way := Ways{Words: s.words, Evidence: w.evidence, Causes: causes(s.p, z, w.inside)}
	l := newLimited(h, ones, w, s.r.Object.UsedTo)
	s.out.Held = n
	way.bands = s.bandsOf(h, ones, w, l)
	way.Moves = s.moves(h, ones, w.beyond)
	s.ranges(&way, l)
	if err := s.seasons(ctx, &way, h, z, w); err != nil {
		return err
	}
	if err := s.answer(ctx, &way, h, l, z, ones, w); err != nil {
		return err
	}
	s.out.Ways = append(s.out.Ways, way)
	return nil
}

// anew works a way out as the panel itself was.
func (s *study) anew(ctx context.Context, grid []moisture.RH) (*response.Case, *doubt, error) {
	o, err := s.p.Realise(nil)
	if err != nil {
		return nil, nil, err
	}
	plain, err := s.q.prepareAt(o, response.Quick)
	if err != nil {
		return nil, nil, err
	}
	d, err := doubtOver(context.WithoutCancel(ctx), s.p, plain, s.q, grid)
	if err != nil {
		return nil, nil, err
	}
	s.best, s.sweep = plain, d.states
	if s.q.Setting != response.Quick {
		if s.best, err = s.q.prepare(o); err != nil {
			return nil, nil, err
		}
		s.best.Refine()
		if s.sweep, err = d.swept(s.best, grid); err != nil {
			return nil, nil, err
		}
	}
	return plain, d, nil
}

// bandsOf reads the bands at every humidity off. That it has passed its climate counts for shares alone, there alone; how it moves is
// weighed by what was measured.
func (s *study) bandsOf(h *held, ones []*one, w *weighed, l *limited) bands {
	b := bands{grid: h.grid, keys: h.keys}
	x := make([]float64, len(ones))
	read := func(w []float64, f func(*one) float64) Band {
		for i, o := range ones {
			x[i] = f(o)
		}
		return bandOf(x, w)
	}
	for g, rh := range h.grid {
		weight := w.beyond
		if l.inside(rh) {
			weight = w.inside
		}
		row := make([]Band, len(h.keys))
		for j := range h.keys {
			row[j] = sharesBand(ones, weight, g, j)
		}
		b.share = append(b.share, row)
		b.warp = append(b.warp, read(w.beyond, func(o *one) float64 { return o.warp[g] }))
		b.width = append(b.width, read(w.beyond, func(o *one) float64 { return o.width[g] }))
	}
	return b
}

// moves is the free change of width between the ends of what was asked about.
func (s *study) moves(h *held, ones []*one, w []float64) Band {
	lo, hi := nearestOf(h.grid, s.r.Low), nearestOf(h.grid, s.r.High)
	x := make([]float64, len(ones))
	for i, o := range ones {
		x[i] = o.width[hi] - o.width[lo]
	}
	return bandOf(x, w)
}

// ranges fills in the ranges and the map, unless a finding forbids figures.
func (s *study) ranges(way *Ways, l *limited) {
	for _, g := range s.p.Gates() {
		if g.NoFigures {
			return
		}
	}
	low, high := caps(s.r)
	for _, n := range chances {
		way.Ranges = append(way.Ranges, l.rangeFor(n, low, high))
	}
	way.Map = l.limitMap(low, high)
}

// answer counts in what was asked about, and finds what decides and what would narrow it.
func (s *study) answer(ctx context.Context, way *Ways, h *held, l *limited, z [][]float64, ones []*one, w *weighed) error {
	if e := w.evidence; e.Lived.Low > 0 {
		c := l.between(e.Lived.Low, e.Lived.High)
		way.Home = &c
	}
	if s.out.Asked[1] > 0 {
		return s.record(ctx, way, l, z, w)
	}
	before := *l
	before.w = &weighed{evidence: &Evidence{}}
	way.Before = before.between(s.r.Low, s.r.High)
	way.Count = l.between(s.r.Low, s.r.High)
	way.Parts = l.byPart(ones, s.r.Low, s.r.High)
	inside := l.inside(s.r.Low) && l.inside(s.r.High)
	weight := w.beyond
	if inside {
		weight = w.inside
	}
	way.bands.asked = h.keys
	worst := make([][]float64, len(h.keys))
	for j := range h.keys {
		worst[j] = make([]float64, len(ones))
		for i, o := range ones {
			for g, rh := range h.grid {
				if rh >= s.r.Low-1e-9 && rh <= s.r.High+1e-9 {
					worst[j][i] = max(worst[j][i], o.share[g][j])
				}
			}
		}
		way.bands.worst = append(way.bands.worst, bandOf(worst[j], weight))
	}
	s.closed(way, h)
	return s.narrow(way, h.keys, z, worst, weight, func(n *Narrow, x []float64) { s.watched(n, h, ones, x, weight) })
}

// closed sets the closed forms beside what is told, for the panel as described, at the ends of the range.
func (s *study) closed(way *Ways, h *held) {
	if s.q.Setting == response.Quick {
		return
	}
	for j, k := range h.keys {
		if !k.SetsRange() {
			continue
		}
		b := Bias{key: k}
		for g, rh := range h.grid {
			if rh < s.r.Low-1e-9 || rh > s.r.High+1e-9 {
				continue
			}
			told := find(s.sweep[g].Demands, j, response.Demand{Mode: k.Mode, Part: k.Part}).Share()
			if told > b.Fine {
				b.Fine = told
				b.Rough = told / h.ratio[g][j]
				if h.ratio[g][j] == 0 {
					b.Rough = told - h.add[g][j]
				}
			}
		}
		way.Closed = append(way.Closed, b)
	}
}
