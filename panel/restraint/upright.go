package restraint

import (
	"fmt"
	"math"

	"gonum.org/v1/gonum/mat"
)

// Stand says how a panel that stands upright on its lower edge is kept from falling.
type Stand int

// The ways of standing.
const (
	HeldAtTop  Stand = iota // its foot rests and its top is held, both free to turn: an easel, a frame with two clips
	FootOnly                // its foot is gripped, the top stands free
	HeldAround              // all four edges are kept in their plane, free to turn: a frame
)

// Upright is a panel standing on its lower edge.
type Upright struct {
	Plate          // its sides are told apart by Level
	Level  bool    // grain level: the height runs across the grain, with the soft modulus
	How    Stand   // how it is held
	Own    float64 // density, kg/m3, above 0
	Bow    float64 // departure from a plane along the height, mm: at mid-height, or at a free top
	LeanBy float64 // degrees from upright, 0 to 90; a leaning panel bends under its weight as well
}

// Stood is what the weight does to a panel that stands.
type Stood struct {
	Press    float64 // on the lower edge, MPa, above 0 = pressing
	Share    float64 // weight as a share of the weight at which it gives way sideways
	Critical float64 // thickness below which it gives way under its own weight, mm
	More     float64 // added to the bow by the weight, mm; +Inf when it gives way
	Tension  float64 // at a face along the height, MPa, the weight's; +Inf when it gives way
	Buckles  bool    // it gives way sideways: it does not stand without help
	Reach    Reach
}

// selfWeight holds q H^3/D of a column of height H under its own weight q for each way of standing:
// gripped at the foot 7.837 (A. G. Greenhill 1881, as quoted in en.wikipedia.org/wiki/Self-buckling:
// 7.8373), hinged at both ends 18.57 (S. Timoshenko and J. Gere, Theory of Elastic Stability, 2nd ed.
// 1961: memory; both worked out by a power series in the tests).
func (s Stand) selfWeight() float64 {
	if s == FootOnly {
		return 7.837
	}
	return 18.57
}

// Stands returns what its own weight does to a panel that stands upright or leans. The bow of its own
// grows by 1/(1 - share) (Timoshenko and Gere 1961, section 1.12: a half sine, or a quarter cosine
// with a gripped foot), and a lean adds the bending of the weight's part across the panel. The
// weight at which it gives way is that of a column under its own weight or, held all around, of an
// orthotropic plate. Bow is of either sign. Moduli short; for long standing give the lowered modulus
// across the grain. Errors name what is out of range.
func (u Upright) Stands() (Stood, error) {
	if err := u.Plate.valid(); err != nil {
		return Stood{}, err
	}
	if !(u.Own > 0) || !(u.LeanBy >= 0 && u.LeanBy <= 90) || math.IsNaN(u.Bow) || math.IsInf(u.Bow, 0) {
		return Stood{}, fmt.Errorf("density must be above 0 kg/m3, lean 0 to 90 degrees and bow finite, got %g, %g and %g mm", u.Own, u.LeanBy, u.Bow)
	}
	if u.How < HeldAtTop || u.How > HeldAround {
		return Stood{}, fmt.Errorf("way of standing must be 0, 1 or 2, got %d", int(u.How))
	}
	h, _, e := u.up()
	q := Weight{Density: u.Own, T: u.T}.load()
	lean := u.LeanBy * math.Pi / 180
	var s Stood
	s.Press = Standing(u.Own, h) * math.Cos(lean)
	crit := u.critical()
	s.Share = q * math.Cos(lean) / crit
	s.Critical = u.T * math.Sqrt(s.Share) // weight goes with t, stiffness with t^3
	if s.Share >= 1 {
		s.More, s.Tension, s.Buckles, s.Reach = math.Inf(1), math.Inf(1), true, Outside
		return s, nil
	}
	sag, moment := u.leaning(q * math.Sin(lean))
	grow := 1 / (1 - s.Share)
	s.More = math.Abs(u.Bow)*(grow-1) + sag*grow
	wave := math.Pi / h
	if u.How == FootOnly {
		wave /= 2
	}
	s.Tension = e*u.T/2*wave*wave*(s.More-sag) + 6*moment/(u.T*u.T)
	s.Reach = ReachOf(s.More, u.T)
	return s, nil
}

// up returns height, breadth and the modulus along the height.
func (u Upright) up() (h, b, e float64) {
	if u.Level {
		return u.Across, u.Along, u.EAcross
	}
	return u.Along, u.Across, u.EAlong
}

// critical returns the weight for each mm2 of face, N/mm2, at which the panel gives way.
func (u Upright) critical() float64 {
	h, b, e := u.up()
	if u.How != HeldAround {
		return u.How.selfWeight() * e * cube(u.T) / 12 / cube(h)
	}
	dx, dy, _, d3 := u.rigidity()
	up, side := dy, dx
	if u.Level {
		up, side = dx, dy
	}
	return selfWeightPlate(h, b, up, side, d3)
}

// selfWeightPlate returns the weight q, N/mm2, at which a plate of height h and breadth b hinged on
// four edges buckles under its own weight, q (h - y) at the height y. Ritz with sines: for n half
// waves sideways and m, k upwards
//
//	K_mm = [Du (m pi/h)^4 + 2 D3 (m pi/h)^2 (n pi/b)^2 + Ds (n pi/b)^4] h/2
//	G_mk = (m pi/h)(k pi/h) Int (h - y) cos(m pi y/h) cos(k pi y/h) dy
//
// and 1/q is the largest eigenvalue of G against K; one half wave sideways is the least. Twelve terms
// give 18.57 for the broad plate to five digits. S. G. Lekhnitskii, Anisotropic Plates, 2nd ed. (form of
// the strain energy: memory); derived here.
func selfWeightPlate(h, b, up, side, d3 float64) float64 {
	const n = 12
	s := math.Pi / b
	root := make([]float64, n)
	for i := range root {
		m := math.Pi * float64(i+1) / h
		root[i] = math.Sqrt((up*m*m*m*m + 2*d3*m*m*s*s + side*s*s*s*s) * h / 2)
	}
	g := mat.NewSymDense(n, nil)
	for i := range n {
		for j := i; j < n; j++ {
			m, k := float64(i+1), float64(j+1)
			part := h * h / 4
			switch {
			case (i+j)%2 == 1: // Int y cos cos: -(h/pi)^2 [1/(m-k)^2 + 1/(m+k)^2]
				part = h * h / (math.Pi * math.Pi) * (1/((m-k)*(m-k)) + 1/((m+k)*(m+k)))
			case i != j:
				part = 0
			}
			g.SetSym(i, j, m*k*math.Pi*math.Pi/(h*h)*part/(root[i]*root[j]))
		}
	}
	var eig mat.EigenSym
	if !eig.Factorize(g, false) {
		return math.NaN()
	}
	return 1 / eig.Values(nil)[n-1]
}

// leaning returns sag, mm, and moment, N mm per mm, under a load q across the panel, N/mm2.
func (u Upright) leaning(q float64) (sag, moment float64) {
	h, _, e := u.up()
	d := e * cube(u.T) / 12
	switch u.How {
	case HeldAtTop:
		return 5 * q * h * cube(h) / (384 * d), q * h * h / 8
	case FootOnly:
		return q * h * cube(h) / (8 * d), q * h * h / 2
	}
	w, mx, my := u.navier(q)
	if u.Level {
		return w, mx
	}
	return w, my
}
