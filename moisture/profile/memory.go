package profile

import "crossgrain/moisture"

// piece holds the two stretches of curve that meet at the present humidity of a level.
type piece struct {
	at          float64 // where the curve bends
	sum, left   float64 // wetting: u = sum + left*H
	top         float64
	dsum, dfull float64 // drying: u = H + dsum + L (dfull - H)
	low         float64
	rising      bool // last direction
	up          bool // side taken in the last evaluation
}

func (p *piece) read(s *moisture.Scan) {
	var u, d moisture.Piece
	p.at, p.rising, u, d = s.Pieces()
	p.sum, p.left, p.top = u.Sum+u.Kept*u.Full, 1-u.Kept, u.End
	p.dsum, p.dfull, p.low = d.Sum, d.Full, d.End
}

// leastSlope keeps the storage rising where a printed drying curve is flat, kg/kg per unit of RH.
const leastSlope = 1e-6

// eval fills su, sdu (storage with its slope) and sp, sdp (potential with its slope) for the trial
// humidities.
func (s *Solver) eval(h []float64) {
	switch s.o.Memory {
	case Mean:
		s.evalMean(h)
	case Turning:
		s.evalTurning(h)
	default:
		s.evalDifferential(h)
	}
}

func (s *Solver) evalMean(h []float64) {
	n, heat, k := len(h), s.air.heat, &s.c.k
	su, sdu, sp, sdp := s.su[:n], s.sdu[:n], s.sp[:n], s.sdp[:n]
	for j, x := range h {
		i, t := place(x)
		c := &k[i]
		u, du := at(&c.a, t)
		p, dp := at(&c.p, t)
		if x < 0 || x > 1 {
			out := x - min(max(x, 0), 1)
			u, p = u+du*out, p+dp*out
		}
		su[j], sdu[j], sp[j], sdp[j] = u*heat, du*heat, p, dp
	}
}

func (s *Solver) evalTurning(h []float64) {
	n, heat, k := len(h), s.air.heat, &s.c.k
	su, sdu, sp, sdp, pieces := s.su[:n], s.sdu[:n], s.sp[:n], s.sdp[:n], s.piece[:n]
	_, us := s.scan[0].Closure()
	for j, x := range h {
		i, t := place(x)
		c, q := &k[i], &pieces[j]
		p, dp := at(&c.p, t)
		sp[j], sdp[j] = p, dp
		q.up = x > q.at || (x == q.at && q.rising)
		var u, du float64
		switch {
		case q.up && x < q.top:
			a, da := at(&c.a, t)
			u, du = q.sum+q.left*a, q.left*da
		case !q.up && x > q.low:
			a, da := at(&c.a, t)
			d, dd := at(&c.d, t)
			u, du = drying(q, us, a, da, d, dd)
		default:
			u, du = s.far(j, x)
		}
		su[j], sdu[j] = u*heat, max(du, leastSlope)*heat
	}
	s.stretch(h)
}

// drying is the stretch down: u = H + sum + L (full - H), L = (D-H)/(us-H) held to 0..1.
func drying(q *piece, us, a, da, d, dd float64) (u, du float64) {
	width := us - a
	if width <= 0 || d >= us {
		return q.dsum + q.dfull, 0
	}
	if d <= a {
		return a + q.dsum, da
	}
	r := 1 / width
	l := (d - a) * r
	return a + q.dsum + l*(q.dfull-a), (1-l)*da + ((dd-da)+l*da)*r*(q.dfull-a)
}

// far asks the memory itself: beyond the two stretches, or beyond 0 and 1.
func (s *Solver) far(j int, x float64) (u, du float64) { return s.scan[j].At(&s.b, x) }

// stretch carries every curve on in a straight line beyond 0 and 1.
func (s *Solver) stretch(h []float64) {
	for j, x := range h {
		if x < 0 || x > 1 {
			out := x - min(max(x, 0), 1)
			s.su[j] += s.sdu[j] * out
			s.sp[j] += s.sdp[j] * out
		}
	}
}

// remember moves the memory of every level to its new humidity.
func (s *Solver) remember() {
	for i, x := range s.h {
		p := &s.piece[i]
		switch s.o.Memory {
		case Turning:
			if d := x - p.at; d < deadBand && d > -deadBand {
				continue
			}
			s.scan[i].Commit(&s.b, x)
			p.read(&s.scan[i])
		case Differential:
			s.rode[i], _ = s.follow(i, x)
			p.at, p.rising = x, x > p.at
		}
	}
}

// deadBand is the movement of humidity that is not yet remembered: a hundredth of the default
// tolerance. It adds up until it is.
const deadBand = 1e-6

func (s *Solver) evalDifferential(h []float64) {
	for j, x := range h {
		i, t := place(x)
		s.sp[j], s.sdp[j] = at(&s.c.k[i].p, t)
		s.piece[j].up = x > s.piece[j].at
		u, du := s.follow(j, min(max(x, 0), 1))
		s.su[j], s.sdu[j] = u*s.air.heat, max(du, leastSlope)*s.air.heat
	}
	s.stretch(h)
}

// follow integrates the differential rule from the state of level j to humidity x with one step of
// Heun's rule; see [moisture.Rode].
func (s *Solver) follow(j int, x float64) (u, slope float64) {
	p := &s.piece[j]
	d := x - p.at
	k1 := s.rule(p.at, s.rode[j], d > 0)
	k2 := s.rule(x, s.rode[j]+d*k1, d > 0)
	return s.rode[j] + d*(k1+k2)/2, k2
}

// rule is the slope of the differential rule: Rode 1990 (memory).
func (s *Solver) rule(h, u float64, rising bool) float64 {
	i, t := place(h)
	ua, da := at(&s.c.k[i].a, t)
	ud, dd := at(&s.c.k[i].d, t)
	return moisture.RodeSlope(min(max(u, ua), max(ua, ud)), ua, ud, da, dd, rising)
}
