package creep

import (
	"math"
	"slices"
)

// Stored is the movement that a support holds back, by when it comes back once the support is
// taken off at the moisture of the moment: what a strip without history would do, less what this
// one does.
type Stored struct {
	AtOnce Move // elastic
	Weeks  Move // as the Kelvin chain runs back, at no stress from outside
	Cycles Move // only as the moisture comes and goes: the moisture-driven part
	Never  Move // set, and what an element without an end has taken up
}

func (m Move) minus(o Move) Move { return Move{m.Strain - o.Strain, m.Curvature - o.Curvature} }

// Release returns what would come back, and when, if the support were taken off now; the coats
// stay. The strip itself is left as it is. It takes memory: ask at dates, not each hour.
func (s *Strip) Release() (Stored, error) {
	c := s.clone()
	in := c.still()
	held := Move{c.at.Eps, c.at.Kappa}
	c.support, c.spec.Limit = Support{}, math.Inf(1)
	if _, err := c.advance(0, in); err != nil {
		return Stored{}, err
	}
	loose := Move{c.at.Eps, c.at.Kappa}
	if err := c.rested(in); err != nil {
		return Stored{}, err
	}
	late := Move{c.at.Eps, c.at.Kappa}
	if err := c.cycled(in); err != nil {
		return Stored{}, err
	}
	end := Move{c.at.Eps, c.at.Kappa}
	fresh, err := c.unmarked(in)
	return Stored{
		AtOnce: loose.minus(held), Weeks: late.minus(loose), Cycles: end.minus(late), Never: fresh.minus(end),
	}, err
}

// still is the state of the moment as an input.
func (s *Strip) still() In {
	f := make([]float64, len(s.arm))
	for i := range f {
		f[i] = s.modulus[i] / s.spec.E
	}
	return In{
		Moisture: make([]float64, len(s.arm)), Free: slices.Clone(s.free), Stiffness: f,
		Front: CoatIn{s.front.free, s.front.factor}, Back: CoatIn{s.back.free, s.back.factor},
	}
}

// rested lets the chains run to their end.
func (s *Strip) rested(in In) error {
	end := 0.0
	for _, tau := range s.spec.Pull.Tau {
		end = max(end, 100*tau)
	}
	for dt := 60.0; dt < end; dt *= 2 {
		if _, err := s.advance(dt, in); err != nil {
			return err
		}
	}
	return nil
}

// cycled lets the moisture go to and fro until the moisture-driven elements have run to their end,
// the chains following at leisure.
func (s *Strip) cycled(in In) error {
	end, year := 0.0, 365*day
	for _, m := range s.spec.Moist {
		if m.Path < 1e3 { // else it has no end
			end = max(end, 100*m.Path)
		}
	}
	for way := 1e-3; way < end; way *= 1.5 {
		for i := range s.way {
			s.way[i] = way
		}
		for range 3 {
			if _, err := s.advance(20*year, in); err != nil {
				return err
			}
		}
	}
	return nil
}

// unmarked returns where the same strip would be without any history.
func (s *Strip) unmarked(in In) (Move, error) {
	c := s.clone()
	for _, v := range [][]float64{c.kelvin, c.moist, c.elastic, c.set} {
		clear(v)
	}
	_, err := c.advance(0, in)
	return Move{c.at.Eps, c.at.Kappa}, err
}

// clone copies the strip with all its state.
func (s *Strip) clone() *Strip {
	c := *s
	for _, v := range []*[]float64{
		&c.q, &c.c, &c.kelvin, &c.moist, &c.mq, &c.mc, &c.elastic, &c.modulus, &c.stress, &c.free, &c.free0,
		&c.set, &c.held, &c.base, &c.pull, &c.press, &c.crush, &c.way, &c.next, &c.share, &c.gone,
	} {
		*v = slices.Clone(*v)
	}
	c.turn, c.mode = slices.Clone(c.turn), slices.Clone(c.mode)
	return &c
}
