package fracture

import "math"

// GroundEdge is a ground on wood near an edge of its own, as a crack of it above a join or split that
// opens: what it is pulled or pressed by there goes into the wood by shear.
type GroundEdge struct {
	E, G      float64 // moduli of the ground, MPa
	Thickness float64 // of the ground, mm
	WoodE     float64 // of the wood across the grain, MPa
	Wood      float64 // its thickness, mm
	Free      float64 // half the length from this edge to the next crack, mm; +Inf = far
}

// EdgeShear is what a strain of the ground, away from the edge, asks of the bond near it.
type EdgeShear struct {
	Reach  float64 // over which the force goes over into the wood, mm: 1/lam
	Shear  float64 // greatest, at the edge, MPa; without its sign
	Energy float64 // released by each mm of bond that lets go, N/mm (times 1000: J/m2)
	Lifts  bool    // the ground is pressed: it can rise like a tent; pulled, its edge can curl
}

// At returns what the strain (stretched positive) asks of the bond. By shear lag without bending,
//
//	1/P = 1/(E t) + 1/(Ew tw),  k = 2 G/t,  lam = sqrt(k/P),
//	tau = k |eps| tanh(lam l)/lam,  energy = P eps^2/2
//
// with half the ground's thickness as the layer that shears (assumption). Form: Volkersen (1938), as in
// textbooks of bonded joins; the energy is the strain energy of a strip that is set free. Singular
// stress and peeling at the edge itself are left out: a sign with its size, not a strength. A ground
// of no thickness or stiffness asks nothing.
func (g GroundEdge) At(strain float64) EdgeShear {
	if !(g.E > 0 && g.G > 0 && g.Thickness > 0) {
		return EdgeShear{}
	}
	p, lam := g.lag()
	k := 2 * g.G / g.Thickness
	return EdgeShear{
		Reach: 1 / lam, Shear: k * math.Abs(strain) * math.Tanh(lam*g.Free) / lam,
		Energy: p * strain * strain / 2, Lifts: strain < 0,
	}
}

func (g GroundEdge) lag() (p, lam float64) {
	p = 1 / (1/(g.E*g.Thickness) + 1/(g.WoodE*g.Wood))
	return p, math.Sqrt(2 * g.G / g.Thickness / p)
}

// Bridges returns the opening, mm, that a sound ground across a line bears before it reaches the strain
// limit there: what it stretches goes into the wood on both sides over the reach,
//
//	w = 2 eps/lam
//
// 0 for no ground.
func (g GroundEdge) Bridges(limit float64) float64 {
	if !(g.E > 0 && g.G > 0 && g.Thickness > 0 && limit > 0) {
		return 0
	}
	_, lam := g.lag()
	return 2 * limit / lam
}
