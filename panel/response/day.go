package response

import (
	"math"
	"slices"
	"time"

	"crossgrain/moisture"
)

// day gathers what happens between two midnights.
type day struct {
	Day
	open                      bool
	wide, hollow, round       moment // at the greatest change of width, the least and the greatest warp
	wideAt, hollowAt, roundAt time.Time
	wideBy                    float64
}

func (d *day) init(c *Case) { d.wide, d.hollow, d.round = c.still(), c.still(), c.still() }

// over says that t belongs to another day than what was gathered.
func (d *day) over(t time.Time) bool {
	if !d.open {
		return false
	}
	y, m, n := d.Time.Date()
	a, b, c := t.Date()
	return y != a || m != b || n != c
}

// keep copies a moment.
func (m *moment) keep(from *moment) {
	copy(m.rh, from.rh)
	copy(m.mc, from.mc)
	copy(m.loop, from.loop)
	copy(m.bend, from.bend)
	copy(m.set, from.set)
	if from.stood != nil {
		if m.stood == nil {
			m.stood = &standing{}
		}
		m.stood.keep(from.stood)
	}
}

// note takes the state after a step into the day and into the year of each board.
func (f *follower) note(t time.Time, s Stretch, i int, fresh bool) {
	c, d := f.c, &f.day
	if !d.open {
		nan := math.NaN()
		d.Day = Day{
			Time: t, RH: [2]float64{1, 0}, T: [2]float64{nan, nan},
			Width: nothing(), Warp: nothing(), WidthMemory: nothing(), WarpMemory: nothing(), New: fresh,
		}
		d.open, d.wideBy = true, -1
	}
	d.RH = [2]float64{min(d.RH[0], s.RH[i]), max(d.RH[1], s.RH[i])}
	if s.T != nil && !math.IsNaN(s.T[i]) {
		if math.IsNaN(d.T[0]) {
			d.T = [2]float64{s.T[i], s.T[i]}
		}
		d.T = [2]float64{min(d.T[0], s.T[i]), max(d.T[1], s.T[i])}
	}
	f.notes(t)
	width, remembered := f.width[0], f.width[1]
	widen(&d.Width, width)
	widen(&d.WidthMemory, remembered)
	if !f.brief {
		widen(&d.WarpMemory, f.warp.of(f.now.loop, f.memoryBend()))
	}
	if by := math.Abs(width); by > d.wideBy {
		d.wideBy, d.wideAt = by, t
		d.wide.keep(&f.now)
	}
	warp := f.warp.of(f.now.mc, f.now.bend)
	if warp < d.Warp[0] {
		d.Warp[0], d.hollowAt = warp, t
		d.hollow.keep(&f.now)
	}
	if warp > d.Warp[1] {
		d.Warp[1], d.roundAt = warp, t
		d.round.keep(&f.now)
	}
	d.Mean, d.Skin, d.Painted, d.Set = 0, 0, 0, c.overWidth(f.now.set)
	for k := range c.boards {
		w, share := f.woods[f.which[k]], c.boards[k].Width/c.o.Across
		d.Mean += f.now.mc[k] * moisture.MC(share)
		d.Skin += moisture.MC(w.mean.Skin() * share)
		d.Painted += moisture.MC(w.mean.Painted() * share)
		b := &f.year.Boards[k]
		b.MeanMC = [2]moisture.MC{min(b.MeanMC[0], f.now.mc[k]), max(b.MeanMC[1], f.now.mc[k])}
		skin := moisture.MC(w.mean.Skin())
		b.SkinMC = [2]moisture.MC{min(b.SkinMC[0], skin), max(b.SkinMC[1], skin)}
	}
	if !f.brief {
		f.snap(t, s.RH[i], warp)
	}
}

// nothing is a range that holds no value yet.
func nothing() [2]float64 { return [2]float64{math.Inf(1), math.Inf(-1)} }

func widen(r *[2]float64, v float64) { r[0], r[1] = min(r[0], v), max(r[1], v) }

// memoryBend is the free curvature of each board with wood that remembers, without creep.
func (f *follower) memoryBend() []float64 {
	for k := range f.c.boards {
		b, w := &f.c.boards[k], f.woods[f.which[k]]
		s := w.mean
		if w.memory != nil {
			s = w.memory
		}
		_, m1 := s.Moments()
		f.bend[k] = b.per * m1 * (1 + b.SorptionShift)
	}
	return f.bend
}

// moment fills in what drives the present state, but for the humidities, and returns the free change of
// width along the mean curve and with memory.
func (f *follower) moment() (width, loop float64) {
	var kept float64
	for k := range f.c.boards {
		b := &f.c.boards[k]
		mean, memory := f.woods[f.which[k]].ends()
		f.now.mc[k] = moisture.MC(b.of(mean, f.c.o.UsedTo, f.c.o.Temperature))
		f.now.loop[k] = moisture.MC(b.of(memory, f.c.o.UsedTo, f.c.o.Temperature))
		f.now.bend[k] = f.strips[k].free.Now().Kappa
		both := f.strips[k].set()
		f.now.set[k] = min(both[0], both[1])
		if f.on != nil {
			f.now.set[k] *= f.reach[k]
		}
		kept += f.now.set[k] * b.Width
	}
	return f.warp.width(f.now.mc, f.now.bend) + kept, f.warp.width(f.now.loop, f.now.bend) + kept
}

// close ends a day: its states go to the sink.
func (f *follower) close(k Sink) error {
	d := &f.day
	if !d.open {
		return nil
	}
	d.open = false
	f.year.Days = append(f.year.Days, d.Day)
	if f.brief {
		if !f.standsOut() {
			return nil
		}
	} else if err := f.oneStiffness(); err != nil {
		return err
	}
	seen := make([]time.Time, 0, 3)
	for _, at := range [...]struct {
		m *moment
		t time.Time
	}{{&d.wide, d.wideAt}, {&d.hollow, d.hollowAt}, {&d.round, d.roundAt}} {
		if slices.Contains(seen, at.t) {
			continue
		}
		seen = append(seen, at.t)
		s, err := f.state(at.m, at.t)
		if err != nil {
			return err
		}
		f.ranges(&s)
		if err := k.Take(&s); err != nil {
			return err
		}
	}
	return nil
}

// state computes a kept moment.
func (f *follower) state(m *moment, t time.Time) (State, error) {
	for k := range m.rh {
		b := &f.c.boards[k]
		bare := float64(m.mc[k]) / (1 + b.SorptionShift)
		m.rh[k] = f.woods[f.which[k]].sorption(bare)
	}
	s, err := f.c.at(*m)
	s.Time = t
	return s, err
}

// ranges keeps what is open of the warp where it is least and greatest so far.
func (f *follower) ranges(s *State) {
	if s.Cup < f.hollow {
		f.hollow, f.year.Hollow = s.Cup, [2]float64{s.CupLow, s.CupHigh}
	}
	if s.Cup > f.round {
		f.round, f.year.Round = s.Cup, [2]float64{s.CupLow, s.CupHigh}
	}
}

// noMovement is the free strain below which no share of it is told.
const noMovement = 0.002

// oneStiffness notes how wrong a single stiffness through the thickness would be at the end of a day.
func (f *follower) oneStiffness() error {
	e := f.c.grain
	if e == nil {
		return nil
	}
	for i, l := range f.strips {
		m, at := &f.profile, 0.0
		m.At, m.R, m.Stiff = m.At[:0], m.R[:0], m.Stiff[:0]
		for k, h := range l.size {
			next := min(1, at+h/total(l.size))
			m.At = append(m.At, at, next)
			m.R = append(m.R, l.in.Free[k], l.in.Free[k])
			m.Stiff = append(m.Stiff, l.in.Stiffness[k], l.in.Stiffness[k])
			at = next
		}
		m.At[len(m.At)-1] = 1
		m.T = m.R
		model := e.models[0][0]
		if len(e.loads[i]) != model.Loads(i) {
			e.loads[i] = make([]float64, model.Loads(i))
		}
		a, err := model.Fill(e.loads[i], i, m)
		if err != nil {
			return err
		}
		y := &f.year.OneStiffness
		if math.Abs(mean(l.in.Free)) > noMovement {
			y[0] = max(y[0], math.Abs(a.Movement))
		}
		y[1] = max(y[1], math.Abs(l.in.Stiffness[0]-1), math.Abs(l.in.Stiffness[len(l.size)-1]-1))
	}
	return nil
}
