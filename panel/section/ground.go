package section

import "math"

// Ground is the layer of ground on one face. The zero Ground is none.
type Ground struct {
	Thickness    float64 // mm; 0 = none
	ETension     float64 // MPa when pulled, as it acts with its cracks; 0 = cannot pull
	ECompression float64 // MPa when pressed, cracks shut: that of the uncracked ground
	State        string  // continuous, craquelured, lifting, lost; anything else = not known
	Strain       float64 // its own free strain, longer positive
}

// Shares of the uncracked modulus between which a ground acts. 0.03 to 0.5 when craquelured and
// pulled; pressed, from 0.03 (cracks stand open) to 1 (shut). Assumptions: nobody can measure them
// on a painting, and they decide the warp at rest.
const (
	cracksLow  = 0.03
	cracksHigh = 0.5
)

// GroundResult is a free strip of wood with its grounds, in balance.
type GroundResult struct {
	Curvature, CurvatureLow, CurvatureHigh float64 // 1/mm, painted face rounded positive; ends over the stiffness of the grounds
	Strain                                 float64 // of the wood's mid-thickness
	FrontStrain, BackStrain                float64 // mechanical strain at the middle of the ground, pulled positive; NaN without one that holds
	FrontStress, BackStress                float64 // MPa; NaN likewise
}

// OnWood returns the warp of wood that takes up the free strain e (wood.Strain is not read) between
// its grounds, and the strain of the grounds, when nothing else holds the panel. A ground has two
// slopes: ETension while it is pulled, ECompression while it is pressed; the pair that agrees with
// itself is taken. A ground that is lifting or lost carries nothing.
//
// The ends of the curvature run over what the state leaves open: craquelured 0.03 to 0.5 of the
// uncracked modulus pulled, 0.03 to 1 pressed; continuous half to all of it; not known 0 to all
// (assumptions). E and Thickness of the wood must be above 0. Form: [Stack].
func OnWood(wood Layer, front, back Ground, e float64) GroundResult {
	wood.Strain = e
	var s sandwich
	s.wood = wood
	r := s.solve(front.nominal(), back.nominal())
	r.CurvatureLow, r.CurvatureHigh = r.Curvature, r.Curvature
	for _, f := range front.ends() {
		for _, b := range back.ends() {
			k := s.solve(f, b).Curvature
			r.CurvatureLow, r.CurvatureHigh = min(r.CurvatureLow, k), max(r.CurvatureHigh, k)
		}
	}
	return r
}

// slopes is a ground reduced to what acts.
type slopes struct {
	t, strain      float64
	pulled, shoved float64 // moduli
}

func (g Ground) holds() bool {
	return g.Thickness > 0 && g.State != "lifting" && g.State != "lost"
}

func (g Ground) nominal() slopes {
	if !g.holds() {
		return slopes{}
	}
	return slopes{g.Thickness, g.Strain, g.ETension, g.ECompression}
}

// ends returns the softest and the stiffest the ground may be.
func (g Ground) ends() [2]slopes {
	if !g.holds() {
		return [2]slopes{}
	}
	e := math.Max(g.ECompression, g.ETension)
	with := func(pulled, shoved float64) slopes { return slopes{g.Thickness, g.Strain, pulled * e, shoved * e} }
	switch g.State {
	case "continuous":
		return [2]slopes{with(0.5, 0.5), with(1, 1)}
	case "craquelured":
		return [2]slopes{with(cracksLow, cracksLow), with(cracksHigh, 1)}
	}
	return [2]slopes{with(0, 0), with(1, 1)}
}

// sandwich is back ground, wood, front ground.
type sandwich struct {
	wood   Layer
	layers [3]Layer
}

// solve tries the four pairs of slopes and keeps the first whose strains have the signs it assumed,
// or the one that misses by least.
func (s *sandwich) solve(front, back slopes) GroundResult {
	var best GroundResult
	miss := math.Inf(1)
	for try := range 4 {
		fp, bp := try&1 == 0, try&2 == 0
		r := s.balance(front, back, fp, bp)
		m := wrong(r.FrontStrain, fp) + wrong(r.BackStrain, bp)
		if m < miss {
			best, miss = r, m
		}
		if miss == 0 {
			break
		}
	}
	return best
}

// wrong is by how much a strain has the sign that was not assumed; NaN (no ground) is never wrong.
func wrong(strain float64, pulled bool) float64 {
	if pulled {
		strain = -strain
	}
	if strain > 0 {
		return strain
	}
	return 0
}

func (s *sandwich) balance(front, back slopes, frontPulled, backPulled bool) GroundResult {
	s.layers = [3]Layer{back.layer(backPulled, s.wood.Width), s.wood, front.layer(frontPulled, s.wood.Width)}
	r := stack(s.layers[:])
	g := GroundResult{Curvature: r.Curvature, Strain: r.Strain0 + r.Curvature*(r.Middle(1)-r.Centroid)}
	g.BackStrain, g.BackStress = s.inGround(r, 0)
	g.FrontStrain, g.FrontStress = s.inGround(r, 2)
	return g
}

func (s *sandwich) inGround(r Result, i int) (strain, stress float64) {
	l := &s.layers[i]
	if l.Thickness == 0 {
		return math.NaN(), math.NaN()
	}
	strain = r.Strain0 + r.Curvature*(r.Middle(i)-r.Centroid) - l.Strain
	return strain, l.E * strain
}

func (g slopes) layer(pulled bool, width float64) Layer {
	l := Layer{E: g.shoved, Thickness: g.t, Width: width, Strain: g.strain}
	if pulled {
		l.E = g.pulled
	}
	return l
}
