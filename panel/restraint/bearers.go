package restraint

import (
	"fmt"
	"math"
	"slices"
)

// Borne is a panel lying level on bearers that run along the grain.
type Borne struct {
	Reaction     []float64 // of each bearer, N per mm along the grain; 0 where the panel lifts off
	Lifted       []int     // bearers it lifts off, by number from 0
	Deflection   float64   // the largest, mm, down positive (negative: an edge that rises)
	DeflectionAt float64   // mm from the left edge
	Moment       float64   // of largest size, N mm per mm, positive = lower face in tension
	MomentAt     float64   // mm from the left edge
	Stress       float64   // at the faces across the grain, MPa
	Strain       float64
	Reach        Reach
}

// EvenBearers returns the places of n bearers, mm from the left edge: the outermost inset from the
// edges, the others evenly between, one alone in the middle. n must be 1 or more, width above 0,
// inset 0 to below half the width, mm. An inset of 0.207 of the width gives the least moment on two.
func EvenBearers(n int, width, inset float64) ([]float64, error) {
	if n < 1 || !(width > 0) || !(inset >= 0 && inset < width/2) {
		return nil, fmt.Errorf("bearers need 1 or more, a width above 0 and an inset below half of it, got %d, %g mm, %g mm", n, width, inset)
	}
	if n == 1 {
		return []float64{width / 2}, nil
	}
	at := make([]float64, n)
	for i := range at {
		at[i] = inset + (width-2*inset)*float64(i)/float64(n-1)
	}
	return at, nil
}

// On returns the sag of the panel lying level, such as face down during treatment, on bearers along
// the grain at the places at, mm from the left edge, rising, inside the width. Bearers only push: one
// that would have to pull is left out and named in Lifted. One bearer alone must stand in the
// middle. Lie is not used. Bending moments over the bearers by the theorem of three moments:
//
//	M_(i-1) h_i + 2 M_i (h_i + h_(i+1)) + M_(i+1) h_(i+1) = -q (h_i^3 + h_(i+1)^3)/4
//
// with M = -q c^2/2 over the outermost for an overhang c (S. Timoshenko, Strength of Materials,
// part I). E short for the moment, lowered for weeks of lying: with constant load the sag grows by
// the creep factor, the stress does not. Errors as for [Weight.Bend].
func (w Weight) On(at []float64) (Borne, error) {
	if !(w.E > 0 && w.T > 0 && w.Span > 0 && w.Density > 0 && w.G >= 0) {
		return Borne{}, fmt.Errorf("modulus, thickness, width and density must be above 0 MPa, mm, mm and kg/m3, got %g, %g, %g, %g", w.E, w.T, w.Span, w.Density)
	}
	for i, x := range at {
		if !(x >= 0 && x <= w.Span) || (i > 0 && x <= at[i-1]) {
			return Borne{}, fmt.Errorf("bearers must stand in rising order between 0 and %g mm, got %g as number %d", w.Span, x, i+1)
		}
	}
	use := make([]int, len(at))
	for i := range use {
		use[i] = i
	}
	for len(use) > 0 {
		c, err := w.continuous(at, use)
		if err != nil {
			return Borne{}, err
		}
		worst := -1
		for k, r := range c.reaction {
			if r < 0 && (worst < 0 || r < c.reaction[worst]) {
				worst = k
			}
		}
		if worst < 0 {
			return c.result(len(at), use), nil
		}
		use = slices.Delete(slices.Clone(use), worst, worst+1)
	}
	return Borne{}, fmt.Errorf("panel needs 1 or more bearers, got none")
}

// continuous is a beam 1 mm wide on several bearers.
type continuous struct {
	w        Weight
	q, d     float64
	at       []float64
	m        []float64 // over the bearers
	reaction []float64
}

func (w Weight) continuous(at []float64, use []int) (*continuous, error) {
	c := &continuous{w: w, q: w.load(), d: w.E * cube(w.T) / 12}
	for _, i := range use {
		c.at = append(c.at, at[i])
	}
	n, last := len(c.at), len(c.at)-1
	c.m, c.reaction = make([]float64, n), make([]float64, n)
	left, right := c.at[0], w.Span-c.at[last]
	c.m[0], c.m[last] = -c.q*left*left/2, -c.q*right*right/2
	if n == 1 {
		if math.Abs(left-right) > 1e-6*w.Span {
			return nil, fmt.Errorf("panel tips over one bearer: it must stand in the middle at %g mm, got %g (add a second)", w.Span/2, left)
		}
		c.reaction[0] = c.q * w.Span
		return c, nil
	}
	c.moments()
	for i := range n {
		if i > 0 {
			h := c.at[i] - c.at[i-1]
			c.reaction[i] += c.q*h/2 + (c.m[i-1]-c.m[i])/h
		}
		if i < last {
			h := c.at[i+1] - c.at[i]
			c.reaction[i] += c.q*h/2 + (c.m[i+1]-c.m[i])/h
		}
	}
	c.reaction[0] += c.q * left
	c.reaction[last] += c.q * right
	return c, nil
}

// moments solves the three-moment equations by elimination.
func (c *continuous) moments() {
	last := len(c.at) - 1
	diag, rhs := make([]float64, last+1), make([]float64, last+1)
	for i := 1; i < last; i++ {
		h, k := c.at[i]-c.at[i-1], c.at[i+1]-c.at[i]
		diag[i], rhs[i] = 2*(h+k), -c.q*(cube(h)+cube(k))/4
		if i == 1 {
			rhs[i] -= c.m[0] * h
		} else {
			f := h / diag[i-1]
			diag[i] -= f * h
			rhs[i] -= f * rhs[i-1]
		}
	}
	for i := last - 1; i > 0; i-- {
		c.m[i] = (rhs[i] - (c.at[i+1]-c.at[i])*c.m[i+1]) / diag[i]
	}
}

// deflection returns the sag at x, mm, down positive.
func (c *continuous) deflection(x float64) float64 {
	last := len(c.at) - 1
	switch {
	case x < c.at[0]:
		return c.overhang(c.at[0]-x, c.at[0], c.slope(0, true))
	case x > c.at[last]:
		return c.overhang(x-c.at[last], c.w.Span-c.at[last], c.slope(last, false))
	}
	i, _ := slices.BinarySearch(c.at, x)
	if i == 0 {
		return 0
	}
	h, s := c.at[i]-c.at[i-1], x-c.at[i-1]
	ma, mb := c.m[i-1], c.m[i]
	return (c.q*s*(cube(h)-2*h*s*s+cube(s))/24 + s*(h-s)*(ma*(2*h-s)+mb*(h+s))/(6*h)) / c.d
}

// slope returns how fast the panel sinks outwards at an outermost bearer.
func (c *continuous) slope(i int, left bool) float64 {
	if len(c.at) == 1 {
		return 0
	}
	j := i - 1
	if left {
		j = i + 1
	}
	h := math.Abs(c.at[j] - c.at[i])
	return -(c.q*cube(h)/24 + c.m[i]*h/3 + c.m[j]*h/6) / c.d
}

// overhang returns the sag at s outside an outermost bearer, the overhang being long, mm.
func (c *continuous) overhang(s, long, slope float64) float64 {
	return slope*s + c.q*s*s*(6*long*long-4*long*s+s*s)/(24*c.d)
}

// result finds the largest sag and moment.
func (c *continuous) result(n int, use []int) Borne {
	b := Borne{Reaction: make([]float64, n)}
	for k, i := range use {
		b.Reaction[i] = c.reaction[k]
	}
	for i := range n {
		if !slices.Contains(use, i) {
			b.Lifted = append(b.Lifted, i)
		}
	}
	edges := slices.Concat([]float64{0}, c.at, []float64{c.w.Span})
	for i := 1; i < len(edges); i++ {
		if edges[i] > edges[i-1] {
			x := c.deepest(edges[i-1], edges[i])
			if d := c.deflection(x); math.Abs(d) > math.Abs(b.Deflection) {
				b.Deflection, b.DeflectionAt = d, x
			}
		}
	}
	for i, x := range c.at {
		c.moment(&b, c.m[i], x)
		if i > 0 {
			h := x - c.at[i-1]
			s := h/2 + (c.m[i]-c.m[i-1])/(c.q*h)
			if s > 0 && s < h {
				c.moment(&b, c.m[i-1]*(1-s/h)+c.m[i]*s/h+c.q*s*(h-s)/2, c.at[i-1]+s)
			}
		}
	}
	b.Stress = 6 * math.Abs(b.Moment) / (c.w.T * c.w.T)
	b.Strain = b.Stress / c.w.E
	b.Reach = ReachOf(b.Deflection, c.w.T)
	return b
}

func (c *continuous) moment(b *Borne, m, x float64) {
	if math.Abs(m) > math.Abs(b.Moment)*(1+1e-12) {
		b.Moment, b.MomentAt = m, x
	}
}

// deepest returns where between two places the sag is largest in size.
func (c *continuous) deepest(from, to float64) float64 {
	const n = 32
	size := func(x float64) float64 { return math.Abs(c.deflection(x)) }
	h, best := (to-from)/n, from
	for i := range n + 1 {
		if x := from + h*float64(i); size(x) > size(best) {
			best = x
		}
	}
	lo, hi := max(from, best-h), min(to, best+h)
	for range 60 {
		a, b := lo+(hi-lo)/3, hi-(hi-lo)/3
		if size(a) < size(b) {
			lo = a
		} else {
			hi = b
		}
	}
	return (lo + hi) / 2
}
