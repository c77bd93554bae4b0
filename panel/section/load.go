package section

import (
	"fmt"
	"math"
)

// Movement is the free movement of one board through its thickness at one time.
type Movement struct {
	// At are heights as shares of the thickness of the wood, from 0 at the back to 1 at the front, rising
	// (two alike for a step); between them all is straight.
	At []float64
	// R, T, L are the free strains, radial, tangential and along the grain, longer positive; L nil = 0.
	R, T, L []float64
	// Stiff is the stiffness across the grain there over that given to Build; nil = 1 everywhere.
	Stiff []float64
	// BackCoats and FrontCoats are the free strains of the coats, from the wood outwards; nil = 0.
	BackCoats, FrontCoats []float64
}

// Approx is how far a stiffness that varies through the thickness took effect, by the layered strip: the
// share by which the movement would be wrong had one stiffness been used, and by which the stress at the
// faces still is (true over given; 1 = exact). The first is put right by Fill, the second is not.
type Approx struct {
	Movement    float64
	Back, Front float64
}

// Loads returns the length of the loads of board i.
func (m *Model) Loads(i int) int { return m.parts[i].loads() }

// Layers returns the edges of the layers of board i, as shares of its thickness from the back.
func (m *Model) Layers(i int) []float64 { return m.parts[i].g.share }

// Fill puts into dst the loads of board i: free stress of each layer of wood as mean and slope, R0 R1 T0 T1 a
// layer, then the free strain of the coats, then L0 L1 a layer. Mean and slope keep the force and the moment of
// the profile in each layer.
//
// Where Stiff varies, the free stress is Stiff times stiffness times strain, and a straight part is added so
// that a layered strip of the given stiffness makes the same stretch and curvature as one of the true stiffness:
//
//	[eps0, kappa] = [Int r, Int r z; Int r z, Int r z^2]^-1 [Int r e, Int r e z]
//
// (composite strip, textbook.) Strains that are not finite, heights that fall or do not run from 0 to 1, and
// lists of unlike length are refused.
func (m *Model) Fill(dst []float64, i int, f *Movement) (Approx, error) {
	ok := Approx{Back: 1, Front: 1}
	if i < 0 || i >= len(m.parts) || len(dst) != m.Loads(i) {
		return ok, fmt.Errorf("loads must be for one of %d boards and of its length", len(m.parts))
	}
	p := m.parts[i]
	if err := f.validate(&p.t); err != nil {
		return ok, wrap(i, err)
	}
	clear(dst)
	var fix [3][2]float64
	n := p.g.layers
	for k, e := range [3][]float64{f.R, f.T, f.L} {
		if e == nil {
			continue
		}
		if f.Stiff != nil {
			a := strip(f.At, e, f.Stiff)
			fix[k] = a.fix
			ok.join(a)
		}
		p.project(dst, f, e, k)
		p.straight(dst, k, fix[k])
	}
	for k, e := range f.BackCoats {
		dst[perLayer*n+k] = e
	}
	for k, e := range f.FrontCoats {
		dst[perLayer*n+len(p.t.Back)+k] = e
	}
	return ok, nil
}

func (a *Approx) join(s stripped) {
	a.Movement = math.Max(a.Movement, s.movement)
	if math.Abs(s.back-1) > math.Abs(a.Back-1) {
		a.Back = s.back
	}
	if math.Abs(s.front-1) > math.Abs(a.Front-1) {
		a.Front = s.front
	}
}

func (f *Movement) validate(t *Timber) error {
	n := len(f.At)
	if n < 2 || len(f.R) != n || len(f.T) != n || (f.L != nil && len(f.L) != n) || (f.Stiff != nil && len(f.Stiff) != n) {
		return fmt.Errorf("profile must give one value a height, at 2 heights or more: got %d heights, %d, %d, %d strains, %d stiffnesses",
			n, len(f.R), len(f.T), len(f.L), len(f.Stiff))
	}
	if math.Abs(f.At[0]) > 1e-9 || math.Abs(f.At[n-1]-1) > 1e-9 {
		return fmt.Errorf("heights of a profile must run from 0 to 1, got %g to %g", f.At[0], f.At[n-1])
	}
	if len(f.BackCoats) > len(t.Back) || len(f.FrontCoats) > len(t.Front) {
		return fmt.Errorf("strains of %d coats at the back and %d at the front, but there are %d and %d",
			len(f.BackCoats), len(f.FrontCoats), len(t.Back), len(t.Front))
	}
	sum := 0.0
	for i := range n {
		if i > 0 && !(f.At[i] >= f.At[i-1]) {
			return fmt.Errorf("heights of a profile must not fall, got %g after %g", f.At[i], f.At[i-1])
		}
		sum += f.R[i] + f.T[i]
		if f.L != nil {
			sum += f.L[i]
		}
		if f.Stiff != nil {
			if !(f.Stiff[i] > 0) {
				return fmt.Errorf("stiffness of a profile must be above 0, got %g", f.Stiff[i])
			}
			sum += f.Stiff[i]
		}
	}
	for _, c := range [2][]float64{f.BackCoats, f.FrontCoats} {
		for _, e := range c {
			sum += e
		}
	}
	if math.IsNaN(sum) || math.IsInf(sum, 0) {
		return fmt.Errorf("strains of a profile must be finite")
	}
	return nil
}

// project adds the free stress of the strain e in the direction k (0 R, 1 T, 2 L), layer by layer. A stretch of
// the profile inside one layer is a polynomial, strain times stiffness times the slope, of degree 3 at most: two
// Gauss points are exact.
func (p *part) project(dst []float64, f *Movement, e []float64, k int) {
	share := p.g.share
	l := 0
	for i := 1; i < len(f.At); i++ {
		for l < p.g.layers {
			a, b := math.Max(f.At[i-1], share[l]), math.Min(f.At[i], share[l+1])
			if b > a {
				m0, m1 := f.moments(e, i, a, b, share[l], share[l+1])
				p.add(dst, k, l, m0, 3*m1)
			}
			if share[l+1] > f.At[i] {
				break
			}
			l++
		}
		if l == p.g.layers {
			break
		}
	}
}

// moments returns mean and first moment over the layer lo to hi, on its own scale from -1 to 1, of the stretch a
// to b of the profile before place i.
func (f *Movement) moments(e []float64, i int, a, b, lo, hi float64) (m0, m1 float64) {
	h := f.At[i] - f.At[i-1]
	w := (b - a) / (2 * (hi - lo))
	g := (b - a) / (2 * math.Sqrt(3))
	for _, z := range [2]float64{(a+b)/2 - g, (a+b)/2 + g} {
		u := (z - f.At[i-1]) / h
		v := e[i-1] + (e[i]-e[i-1])*u
		if f.Stiff != nil {
			v *= f.Stiff[i-1] + (f.Stiff[i]-f.Stiff[i-1])*u
		}
		m0 += w * v
		m1 += w * v * (2*z - lo - hi) / (hi - lo)
	}
	return m0, m1
}

// add adds the stress of the strain mean and slope in direction k to layer l.
func (p *part) add(dst []float64, k, l int, mean, slope float64) {
	at := [3]int{0, 1, 3}[k]
	c := &p.wood
	d := dst[perLayer*l:]
	d[0] += c[0][at] * mean
	d[1] += c[0][at] * slope
	d[2] += c[1][at] * mean
	d[3] += c[1][at] * slope
	y := dst[p.np+2*l:]
	y[0] += c[3][at] * mean
	y[1] += c[3][at] * slope
}

// straight adds the strain fix[0] + fix[1] (share - 1/2) in direction k.
func (p *part) straight(dst []float64, k int, fix [2]float64) {
	if fix == [2]float64{} {
		return
	}
	for l := range p.g.layers {
		lo, hi := p.g.share[l], p.g.share[l+1]
		p.add(dst, k, l, fix[0]+fix[1]*((lo+hi)/2-0.5), fix[1]*(hi-lo)/2)
	}
}

// stripped is a strip of unit thickness whose stiffness r varies.
type stripped struct {
	fix         [2]float64
	movement    float64
	back, front float64
}

// strip solves the layered strip with the strain e and the stiffness r at the heights at, and says what must be
// added to r e for a strip of stiffness 1 to move alike.
func strip(at, e, r []float64) stripped {
	var a0, a1, a2, n0, n1, big float64
	for i := 1; i < len(at); i++ {
		h := at[i] - at[i-1]
		for k, xi := range [3]float64{-math.Sqrt(0.6), 0, math.Sqrt(0.6)} {
			u := (1 + xi) / 2
			w := h * [3]float64{5. / 18, 8. / 18, 5. / 18}[k]
			z := at[i-1] + u*h - 0.5
			s, v := r[i-1]+(r[i]-r[i-1])*u, e[i-1]+(e[i]-e[i-1])*u
			a0 += w * s
			a1 += w * s * z
			a2 += w * s * z * z
			n0 += w * s * v
			n1 += w * s * v * z
		}
	}
	for _, v := range e {
		big = math.Max(big, math.Abs(v))
	}
	out := stripped{back: 1, front: 1}
	if big == 0 {
		return out
	}
	d := a0*a2 - a1*a1
	e0, k := (a2*n0-a1*n1)/d, (a0*n1-a1*n0)/d
	out.fix = [2]float64{e0 - n0, k - 12*n1}
	out.movement = (math.Abs(out.fix[0]) + math.Abs(out.fix[1])/2) / big
	ratio := func(i int, z float64) float64 {
		truly := r[i] * (e0 + k*z - e[i])
		got := e0 + k*z - r[i]*e[i] - out.fix[0] - out.fix[1]*z
		if math.Abs(got) < 1e-3*big {
			return 1
		}
		return truly / got
	}
	out.back, out.front = ratio(0, -0.5), ratio(len(e)-1, 0.5)
	return out
}
