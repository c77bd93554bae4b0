package profile

import (
	"errors"
	"fmt"

	"crossgrain/moisture"
)

var errNoInverse = errors.New("a tabulated branch has no inverse")

// Solver holds the moisture in one board and moves it through time. It is not safe for use by two
// goroutines at once; make one each.
type Solver struct {
	mesh
	wall Wall
	o    Options
	face [2]Face
	// sheet is set for a board given by its diffusion coefficient: humidity is then moisture content.
	sheet *Sheet

	c      *curves
	b      moisture.Branches // tabulated
	warmth [warmthSpan + 1]float64

	h, u  []float64       // at the start of the step
	trial []float64       // iterate
	scan  []moisture.Scan // memory of turning points
	piece []piece         // curves about the present state
	rode  []float64       // differential rule: moisture content on the curve, kg/kg

	base, su, sdu, sp, sdp, c1, e1 []float64 // work
	flow                           []float64 // at the faces and between the levels, m/s
	air                            drive
}

// New makes a solver for a board. The error lists, in words, everything out of range. [Solver.Start]
// must follow.
func New(w Wall, o Options) (*Solver, error) {
	o = o.filled()
	if err := errors.Join(o.valid(), w.valid(o.Memory)); err != nil {
		return nil, fmt.Errorf("moisture profile: %w", err)
	}
	if w.Storage.Mean == nil {
		w.Storage.Mean = moisture.HailwoodHorrobin{}
	}
	s := &Solver{wall: w, o: o, face: [2]Face{w.Back, w.Front}}
	potential := func(h float64) (float64, float64) { return w.Transport.potential(h), w.Transport.conductivity(h) }
	if o.Memory == Mean {
		s.c = tabulate(ofIsotherm(w.Storage.Mean, w.Storage.T), nil, potential)
	} else {
		b := w.Storage.Branches
		s.c = tabulate(ofIsotherm(b.Ads, b.T), ofIsotherm(b.Des, b.T), potential)
		s.b = moisture.Branches{Ads: branch{s.c, false}, Des: branch{s.c, true}, Closure: b.Closure, T: b.T}
	}
	s.fillWarmth()
	s.allocate()
	return s, nil
}

// allocate makes the levels and every buffer, so that a step needs none.
func (s *Solver) allocate() {
	back, front := false, false
	if s.o.Graded {
		back, front = s.wall.open()
	}
	s.mesh = newMesh(s.o.Cells, s.wall.Thickness, back, front)
	n := len(s.z)
	for _, p := range []*[]float64{&s.h, &s.u, &s.trial, &s.rode, &s.base, &s.su, &s.sdu, &s.sp, &s.sdp, &s.c1, &s.e1,
		&s.air.psat, &s.air.gc, &s.air.gt} {
		*p = make([]float64, n)
	}
	s.flow = make([]float64, n+1)
	s.piece = make([]piece, n)
	if s.o.Memory == Turning {
		s.scan = make([]moisture.Scan, n)
	}
}

// open tells which faces a graded mesh is made finer at: those that resist less than half the board
// does, at 50 % RH and 20 °C.
func (w Wall) open() (back, front bool) {
	delta := DeltaAir(20)
	half := w.Thickness / 2000 / (delta * w.Transport.conductivity(0.5))
	is := func(f Face) bool { return !f.Sealed && f.resistance(delta) < half }
	return is(w.Back), is(w.Front)
}

// Start puts the board in balance with the air: the same moisture throughout, or the steady slope
// between faces of unlike temperature. With memory the wood lies between its branches as
// Storage.Position says; 0 is the state that small loops settle to. The error names a value out of
// range; nothing is changed then.
func (s *Solver) Start(c Climate) error {
	if err := c.valid(); err != nil {
		return err
	}
	s.setAir(&c)
	s.begin()
	return nil
}

// begin fills the state from the air.
func (s *Solver) begin() {
	d := &s.air
	at := d.rest()
	for i := range s.h {
		s.h[i] = at
		if s.sheet == nil {
			s.h[i] = min(at*d.psat[0]/d.psat[i], 1)
		}
	}
	if d.tilted {
		s.steady()
	}
	share := (1 + s.wall.Storage.Position) / 2
	for i, h := range s.h {
		switch s.o.Memory {
		case Turning:
			s.scan[i] = moisture.StartShare(&s.b, h, share)
			s.piece[i].read(&s.scan[i])
		case Differential:
			s.rode[i] = s.between(h, share)
			s.piece[i] = piece{at: h}
		}
	}
	s.eval(s.h)
	for i := range s.u {
		s.u[i] = s.su[i]
	}
}

// between is the moisture content at a share of the way from wetting to drying.
func (s *Solver) between(h, share float64) float64 {
	i, t := place(h)
	ua, _ := at(&s.c.k[i].a, t)
	ud, _ := at(&s.c.k[i].d, t)
	return ua + share*max(ud-ua, 0)
}

// steady finds the slope of humidity through the board that lets the same flow pass everywhere, by
// stepping very far on the first curve without memory.
func (s *Solver) steady() {
	keep := s.o.Memory
	s.o.Memory = Mean
	copy(s.trial, s.h)
	s.eval(s.h)
	copy(s.base, s.su)
	s.solve(1e14)
	copy(s.h, s.trial)
	s.o.Memory = keep
}
