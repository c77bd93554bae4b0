package moisture

import "math"

// Start says on which curve a piece of wood begins.
type Start int

// The starts.
const (
	// Settled lies midway between wetting and drying, reached by wetting from the drying curve. With
	// turning-point memory small loops close wherever they begin; swinging humidity leaves wood
	// about midway (Glass and Zelinka 2010, Wood Handbook ch. 4, p. 4-4), so that state is chosen.
	Settled Start = iota
	Ads           // wetted from dry
	Des           // dried from saturation
)

// loops is how many open loops one Scan can hold: twice as many turning points.
const loops = 8

// loop is one pair of turning points that is still remembered: an upper one, then a lower one.
type loop struct {
	top  float64 // RH of the upper turning point
	full float64 // wetting curve there, kg/kg (closure value for the outermost)
	low  float64 // RH of the lower turning point
	kept float64 // retained share at low
	sum  float64 // water held by the loops outside this one, kg/kg
}

// Scan is the moisture content of one point of wood together with the turning points of humidity it
// still remembers, by the similarity form of independent domains: moisture content is an explicit
// rising function of humidity, small loops close, and a swing wipes out the memory of every smaller
// one before it. At most 16 turning points are kept; a seventeenth merges the two loops that change
// the curve least, without a jump of moisture content. Make one with [StartAt]; copy it freely.
//
// Above the closure there is no hysteresis: wood stays at the same share of the way between the
// branches. Memory is of humidity at the one temperature of the Branches.
//
// Source: Peralta 1995, Wood and Fiber Science, independent domains for wood; similarity form after
// Mualem 1974 (memory).
type Scan struct {
	loops  [loops]loop
	n      int
	at     float64 // RH, not above the closure
	raw    float64 // RH as committed
	ads    float64 // wetting curve at at, kg/kg
	close  closure
	rising bool // last direction
}

// StartAt returns wood in balance at humidity h (0..1, clipped) on the chosen curve.
func StartAt(b *Branches, h float64, from Start) Scan {
	share := 0.5
	switch from {
	case Ads:
		share = 0
	case Des:
		share = 1
	}
	return StartShare(b, h, share)
}

// StartShare returns wood in balance at humidity h (0..1, clipped) at the given share of the way
// from the wetting curve (0) to the drying curve (1; clipped): reached by wetting from the drying
// curve, or by drying when the share is 1.
func StartShare(b *Branches, h, share float64) Scan {
	h, share = clipRH(h), clipRH(share)
	c := b.join()
	s := Scan{n: 1, raw: h, at: min(h, c.h), close: c, rising: share < 1}
	s.ads = b.ads(s.at)
	out := loop{top: math.Inf(1), full: c.us}
	switch {
	case share >= 1:
		out.low, out.kept = s.at, b.retained(c, s.at)
	case share > 0:
		out.kept = b.retained(c, s.at) * share
		out.low = b.dryness(c, out.kept, 0, s.at)
	}
	s.loops[0] = out
	return s
}

// At returns the moisture content u (kg/kg) and its slope du/dh (kg/kg per unit of RH, never
// negative) that the wood would have after going straight to humidity h. It does not move. h is
// clipped to 0..1; NaN gives NaN. At the present humidity the slope is that of the last direction.
func (s *Scan) At(b *Branches, h float64) (u, slope float64) {
	h = clipRH(h)
	if math.IsNaN(h) || h <= s.close.h {
		return s.inside(b, h)
	}
	uc, _ := s.inside(b, s.close.h)
	ua, share := b.ads(s.close.h), 0.5
	if width := s.close.us - ua; width > 1e-9 {
		share = (uc - ua) / width
	}
	return b.between(share, h)
}

// Humidity returns the humidity (0..1) of the last Commit.
func (s *Scan) Humidity() float64 { return s.raw }

// Piece is a stretch of curve along which moisture content follows one formula in humidity, with the
// wetting curve H and the retained share L = (D-H)/(us-H), held between 0 and 1:
//
//	u = H + Sum + Kept (Full - H)      wetting, from the present humidity up to End
//	u = H + Sum + L (Full - H)         drying, from the present humidity down to End
//
// Kept is not used when drying. Beyond End, [Scan.At] knows the rest.
type Piece struct{ Sum, Kept, Full, End float64 }

// Pieces returns the two pieces that meet at the present humidity at (not above the closure): what a
// solver needs that asks for many trial humidities in one step. rising is the last direction.
func (s *Scan) Pieces() (at float64, rising bool, up, down Piece) {
	in := &s.loops[s.n-1]
	up = Piece{Sum: in.sum, Kept: in.kept, Full: in.full, End: min(in.top, s.close.h)}
	if s.at > in.low {
		down = Piece{Sum: in.sum + in.kept*(in.full-s.ads), Full: s.ads, End: in.low}
		return s.at, s.rising, up, down
	}
	down = Piece{Sum: in.sum, Full: in.full}
	if s.n > 1 {
		down.End = s.loops[s.n-2].low
	}
	return s.at, s.rising, up, down
}

// Closure returns the humidity (0..1) at which the branches meet for this piece of wood, and the
// moisture content there, kg/kg.
func (s *Scan) Closure() (h, us float64) { return s.close.h, s.close.us }

// inside is At below the closure.
func (s *Scan) inside(b *Branches, h float64) (u, slope float64) {
	ua, da := b.ads(h), b.Ads.Slope(RH(h), b.T)
	if h > s.at || (h == s.at && s.rising) {
		l := &s.loops[s.climb(h)]
		return ua + l.sum + l.kept*(l.full-ua), (1 - l.kept) * da
	}
	sum, full := s.fall(h)
	ud, us := b.des(h), s.close.us
	k := kept(ua, ud, us)
	dk := 0.0
	if k > 0 && k < 1 {
		dk = (b.Des.Slope(RH(h), b.T)*(us-ua) - da*(us-ud)) / ((us - ua) * (us - ua))
	}
	return ua + sum + k*(full-ua), max((1-k)*da+dk*(full-ua), 0)
}

// climb returns the index of the loop that holds the wood after rising to h.
func (s *Scan) climb(h float64) int {
	k := s.n - 1
	for k > 0 && h >= s.loops[k].top {
		k--
	}
	return k
}

// fall returns the water of the outer loops and the wetting curve at the upper turning point from
// which wood dries that has come down to h.
func (s *Scan) fall(h float64) (sum, full float64) {
	k := s.n - 1
	if in := &s.loops[k]; s.at > in.low && h > in.low {
		return in.sum + in.kept*(in.full-s.ads), s.ads
	}
	for k > 0 && h <= s.loops[k-1].low {
		k--
	}
	return s.loops[k].sum, s.loops[k].full
}

// Commit moves the wood to humidity h (clipped to 0..1; NaN is ignored) and remembers the turning
// point, if there was one.
func (s *Scan) Commit(b *Branches, h float64) {
	if math.IsNaN(h) {
		return
	}
	h = clipRH(h)
	if h != s.raw {
		s.rising = h > s.raw
	}
	s.raw = h
	x := min(h, s.close.h)
	switch {
	case x > s.at:
		s.n = s.climb(x) + 1
	case x < s.at:
		s.turn(b, x)
	default:
		return
	}
	s.at, s.ads = x, b.ads(x)
}

// turn records the way down to x.
func (s *Scan) turn(b *Branches, x float64) {
	if in := s.loops[s.n-1]; s.at > in.low && x > in.low {
		if s.n == loops {
			s.merge(b)
		}
		sum, full := s.fall(x)
		s.loops[s.n] = loop{top: s.at, full: full, sum: sum}
		s.n++
	}
	for s.n > 1 && x <= s.loops[s.n-2].low {
		s.n--
	}
	in := &s.loops[s.n-1]
	in.low, in.kept = x, b.retained(s.close, x)
}

// merge joins the two neighbouring loops whose difference matters least into one that holds the
// same water.
func (s *Scan) merge(b *Branches) {
	best, least := 0, math.Inf(1)
	for j := range s.n - 1 {
		end := s.ads
		if j+2 < s.n {
			end = s.loops[j+2].full
		}
		if loss := (s.loops[j].full - end) * (s.loops[j+1].kept - s.loops[j].kept); loss < least {
			best, least = j, loss
		}
	}
	p, q := &s.loops[best], s.loops[best+1]
	end := s.ads
	if best+2 < s.n {
		end = s.loops[best+2].full
	}
	if width := p.full - end; width > 0 {
		k := (p.kept*(p.full-q.full) + q.kept*(q.full-end)) / width
		p.low = b.dryness(s.close, k, p.low, q.low)
		p.kept = k
	}
	copy(s.loops[best+1:s.n-1], s.loops[best+2:s.n])
	s.n--
}

// Loop returns the moisture content reached from the settled state at humidity used by going
// straight to humidity to (both 0..1, clipped).
func Loop(b *Branches, used, to RH) MC {
	s := StartAt(b, float64(used), Settled)
	u, _ := s.At(b, float64(to))
	return MC(u)
}
