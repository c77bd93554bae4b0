package section

import "math"

// Ring is a disc or tube of wood with closed rings, pith inside, shrunk or swollen evenly and
// otherwise free (plane stress): the case in which a section cannot move without stress. It gives
// the size of what a board with the pith in it carries, not the stress of a board.
type Ring struct {
	Inner, Outer float64 // radii, mm; 0 < Inner < Outer
	ER, ET       float64 // MPa
	NuRT         float64 // strain in T over strain in R under stress in R
	EpsR, EpsT   float64 // free strains
}

// At returns the displacement outwards (mm) and the radial and hoop stress (MPa) at radius r:
//
//	u = A r + B r^k + C r^-k,  k = sqrt(ET/ER)
//	sr = Q11 (u' - eR) + Q12 (u/r - eT),  st = Q12 (u' - eR) + Q22 (u/r - eT)
//
// B and C from no radial stress at both radii; ET = ER has r ln r in place of A r. Outside the ring,
// or for radii out of order, the result is NaN. Elastic: creep takes half or more of it.
// Derived here; checks RING were confirmed by a boundary-value solver.
func (g Ring) At(r float64) (u, radial, hoop float64) {
	if !(g.Inner > 0 && g.Outer > g.Inner && r >= g.Inner && r <= g.Outer) {
		return math.NaN(), math.NaN(), math.NaN()
	}
	nuTR := g.NuRT * g.ET / g.ER
	q11, q22 := g.ER/(1-g.NuRT*nuTR), g.ET/(1-g.NuRT*nuTR)
	q12 := nuTR * q11
	k := math.Sqrt(g.ET / g.ER)
	load := (q11-q12)*g.EpsR - (q22-q12)*g.EpsT
	own := func(r float64) (v, slope float64) { return load / (q11 - q22) * r, load / (q11 - q22) }
	if math.Abs(q11-q22) < 1e-6*q11 {
		own = func(r float64) (v, slope float64) {
			a := load / (2 * q11)
			return a * r * math.Log(r), a * (math.Log(r) + 1)
		}
	}
	sr := func(v, slope, r float64) float64 { return q11*slope + q12*v/r }
	free := q11*g.EpsR + q12*g.EpsT
	// two conditions sr = 0 for B and C
	var m [2][2]float64
	var f [2]float64
	for i, a := range [2]float64{g.Inner, g.Outer} {
		m[i][0] = sr(math.Pow(a, k), k*math.Pow(a, k-1), a)
		m[i][1] = sr(math.Pow(a, -k), -k*math.Pow(a, -k-1), a)
		v, s := own(a)
		f[i] = free - sr(v, s, a)
	}
	det := m[0][0]*m[1][1] - m[0][1]*m[1][0]
	b, c := (f[0]*m[1][1]-f[1]*m[0][1])/det, (f[1]*m[0][0]-f[0]*m[1][0])/det
	v, s := own(r)
	u = v + b*math.Pow(r, k) + c*math.Pow(r, -k)
	s += k*b*math.Pow(r, k-1) - k*c*math.Pow(r, -k-1)
	return u, q11*(s-g.EpsR) + q12*(u/r-g.EpsT), q12*(s-g.EpsR) + q22*(u/r-g.EpsT)
}

// SlitOpening returns by how much a slit from bark to pith opens at the radius r, mm, which frees all
// the stress: 2 pi r |eT - eR|, to first order.
func (g Ring) SlitOpening(r float64) float64 { return 2 * math.Pi * r * math.Abs(g.EpsT-g.EpsR) }
