package restraint

import "math"

// Lag is a panel strip joined to a bar by a soft connection spread evenly along it, both held flat
// (Volkersen's shear lag) or bending together (Newmark's term).
type Lag struct {
	Flow float64 // kq = K/s, or G_g b/t_g of a glue line, N/mm per mm of slip and mm of length
	P    float64 // 1/P = 1/A_p + 1/A_b (+ a^2/Sum EI when bending), N
	Half float64 // half the length, mm
}

// NewLag joins a panel of stiffness ap and a bar of stiffness ab, N, over the length, mm. a is the
// distance of the centroids, mm, and ei the sum of their bending stiffnesses, N mm2; ei = +Inf or
// a = 0 is held flat. Source: the differential equation of two bars in shear lag (O. Volkersen,
// Luftfahrtforschung 15, 1938: memory); lever term by N. M. Newmark 1951 (memory). Derived here.
func NewLag(flow, ap, ab, a, ei, length float64) Lag {
	return Lag{Flow: flow, P: 1 / (1/ap + 1/ab + a*a/ei), Half: length / 2}
}

// lambda returns sqrt(kq/P), 1/mm.
func (l Lag) lambda() float64 { return math.Sqrt(l.Flow / l.P) }

// N returns the force in the panel at x from the middle, N, tension positive, for a free strain of
// the panel less that of the bar (when bending: less a kappa as well):
//
//	N = -P e [1 - cosh(lam x)/cosh(lam l)],  lam = sqrt(kq/P)
func (l Lag) N(strain, x float64) float64 {
	a, b := l.lambda()*math.Abs(x), l.lambda()*l.Half
	if math.IsInf(b, 1) {
		return -l.P * strain
	}
	ratio := math.Exp(a-b) * (1 + math.Exp(-2*a)) / (1 + math.Exp(-2*b))
	return -l.P * strain * (1 - ratio)
}

// End returns the largest shear flow, at the ends, N/mm: kq |e| tanh(lam l)/lam.
func (l Lag) End(strain float64) float64 {
	lam := l.lambda()
	return l.Flow * math.Abs(strain) * math.Tanh(lam*l.Half) / lam
}
