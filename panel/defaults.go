package panel

import (
	"math"

	"crossgrain/tables"
)

// Defaults: what is taken when the file does not say. Each says where it comes from; "assumption"
// is a working choice of this program, "common practice" a fact of the trade without a printed
// source. They move together: a cradle makes it likely that the panel was thinned.

func assumption(nominal, low, high float64, dist Dist, why string) guess {
	return guess{nominal: nominal, low: low, high: high, dist: dist, grade: tables.Estimate, why: why}
}

// thicknessGuess is the thickness of a panel that nobody measured.
func thicknessGuess(cradled bool) guess {
	if cradled {
		return assumption(9, 5, 15, Triangular, "assumption: panels were thinned before they were cradled, common practice")
	}
	return assumption(20, 10, 30, Triangular, "assumption")
}

// ringGuess is the angle between rings and face by what is seen on the end grain.
func ringGuess(endGrain string) guess {
	switch endGrain {
	case "quarter":
		return assumption(80, 65, 90, Triangular, "assumption from end grain: quarter")
	case "flat":
		return assumption(10, 0, 25, Triangular, "assumption from end grain: flat")
	}
	return assumption(45, 0, 90, Triangular, "assumption: any angle")
}

// radiusGuess is the radius of the rings in the middle of a board.
func radiusGuess() guess {
	return assumption(150, 50, 400, LogNormal, "assumption: from small to large trees")
}

// sideGuess is a side that is not known: below 0 one way, above it the other.
func sideGuess(what string) guess {
	g := assumption(0, -1, 1, Uniform, "assumption: either way")
	g.what, g.group = what, "boards"
	return g
}

// sorptionShift is how far the moisture content of a piece departs from its wood's curve: a tenth
// either way, the accuracy stated with the published curves of 17 woods (assumption that it holds
// for old wood).
func sorptionShift(wood string) guess {
	g := assumption(0, -0.10, 0.10, Normal, "assumption")
	g.what, g.unit, g.group = wood+", moisture content against its curve", "fraction", "wood"
	return g
}

// sorptionBranch is where between the wetting and the drying curve a piece stands at the start.
func sorptionBranch(wood string) guess {
	g := assumption(0, -1, 1, Uniform, "assumption: anywhere between the curves")
	g.what, g.group = wood+", place between wetting and drying curve", "wood"
	return g
}

// unnamedWood stands in for a wood that is not recorded: the commonest wood of Italian panels
// (common practice), weak and of large movement, so on the unfavourable side.
const unnamedWood = "poplar"

// insectStiffness is the stiffness and strength left by insects; no measured values were found for
// painted panels.
func insectStiffness(insects string) (guess, bool) {
	switch insects {
	case "scattered":
		return assumption(0.85, 0.7, 0.95, Triangular, "assumption: scattered holes"), true
	case "dense":
		return assumption(0.5, 0.25, 0.75, Triangular, "assumption: dense holes"), true
	case "friable":
		return assumption(0.2, 0.05, 0.4, Triangular, "assumption: friable wood"), true
	}
	return guess{}, false
}

// sapwoodStrength is the strength of a sapwood edge beside the rest of its board where the file does not say how its insects left
// it: insects and decay take sapwood first, while sound sapwood is as strong as heartwood (common practice).
func sapwoodStrength() guess {
	return assumption(0.7, 0.3, 1, Triangular, "assumption: insects and decay take sapwood first, common practice")
}

// lossPerStiffness turns the stiffness lost to insects into the mass lost: galleries weaken wood
// about three times as much as they lighten it (assumption).
const lossPerStiffness = 0.35

// groundGuess is the thickness of a ground; grounds of panels are 0.4 to 2 mm thick (common
// practice).
func groundGuess() guess {
	return assumption(1, 0.4, 2, Triangular, "assumption: grounds of panels, common practice")
}

// groundModulus is the modulus of a ground without cracks. Glue grounds: 2000 MPa measured on
// sized canvas (Heritage Science 2022, doi 10.1186/s40494-022-00794-3), 3000 as a working value.
func groundModulus(ground string) guess {
	if ground == "oil" {
		return assumption(1000, 300, 3000, LogNormal, "assumption: oil ground")
	}
	return assumption(3000, 1500, 5000, LogNormal,
		"assumption around 2000 MPa measured for a ground on canvas (Heritage Science 2022)")
}

// groundShare is the share of that modulus which acts in tension, by state.
func groundShare(state string) guess {
	switch state {
	case "continuous":
		return assumption(1, 0.8, 1, Triangular, "assumption: no cracks")
	case "lifting":
		return assumption(0.03, 0, 0.1, Triangular, "assumption: hardly bonded")
	case "lost":
		return assumption(0, 0, 0, Triangular, "nothing left")
	}
	return assumption(0.15, 0.03, 0.5, LogNormal, "assumption: net of cracks; nobody can measure it")
}

// vapour is the resistance to vapour of a face, metres of air. The ranges span published films:
// linseed paint one coat 0.2 to 0.9, alkyd 3.9 to 7.7, foils above 20 m.
func vapour(painted bool, state, coating string) guess {
	switch coating {
	case "wax", "wax-resin":
		return assumption(3, 0.5, 20, LogNormal, "assumption: wax coat")
	case "acrylic", "varnish":
		return assumption(0.4, 0.1, 1.4, LogNormal, "assumption: thin film")
	case "paper":
		return assumption(0.06, 0.02, 0.2, LogNormal, "assumption: paper")
	case "foil or sheet":
		return assumption(70, 20, 1000, LogNormal, "assumption: foil or sheet, edges sealed")
	case "oil paint":
		return assumption(2, 0.5, 6, LogNormal, "assumption: oil paint")
	}
	switch {
	case painted && state == "continuous":
		return assumption(2, 0.5, 6, LogNormal, "assumption: sound oil paint and varnish on a ground")
	case painted:
		return assumption(0.7, 0.2, 2, LogNormal, "assumption: paint with open fine cracks")
	}
	return assumption(0.01, 0, 0.05, Triangular, "assumption: bare wood with dirt or old size")
}

// joinStrength is the strength of a join beside sound wood. A sound join of animal glue is as
// strong as the wood across the grain (common practice); no strength of aged glue was found.
func joinStrength(glue, condition string) guess {
	g := assumption(0.8, 0.3, 1, Triangular, "assumption: condition of the join not recorded")
	switch {
	case glue == "none":
		g = assumption(0, 0, 0, Triangular, "no glue")
	case condition == "opened before":
		g = assumption(0.5, 0.2, 0.8, Triangular, "assumption: has come apart before")
	case condition == "sound":
		g = assumption(1, 0.5, 1, Triangular, "common practice: as strong as the wood across the grain; no strength of aged glue was found")
	}
	return g
}

// openGuess is the length of an open join or a split of which only the end is recorded.
func openGuess(along float64) guess {
	return assumption(round(0.15*along), round(0.05*along), round(0.4*along), Triangular, "assumption: a sixth of the panel's length or so")
}

// fixedPoints is how far the humidity at which a part was fixed may lie from the used-to one, in
// points (assumption).
const fixedPoints = 10

const fixedWhy = "assumption: within 10 points of the humidity it is used to"

func round(v float64) float64 { return math.Round(v*10) / 10 }

// evenly spreads n places over a length, half a step from the ends.
func evenly(n int, from, to float64) []float64 {
	out := make([]float64, n)
	for i := range out {
		out[i] = from + (float64(i)+0.5)*(to-from)/float64(n)
	}
	return out
}
