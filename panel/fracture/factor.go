package fracture

import (
	"math"
	"sync"

	"gonum.org/v1/gonum/interp"
)

// Edges says how the long edges of the strip are held along the grain.
type Edges int

// The ways.
const (
	Clamped Edges = iota // held in both directions: glued battens, a frame
	Sliding              // held across the grain only
)

// Place says where the crack lies along the panel.
type Place int

// The places.
const (
	FromEnd Place = iota // it begins at the end grain; a is its length
	Inside               // both ends lie in the panel; a is half its length
)

// node is one point of a table: a/H and G over that of a long crack.
type node struct{ x, g float64 }

// Tables of G/G_inf: finite elements worked out apart from the program (incompatible-mode rectangles,
// virtual crack closure, elements H/40), spruce at 65 % RH: E_L 14070, E_T 693, nu_LT 0.547, G_LT 1531
// MPa. Mesh error about 1 % from a/H = 0.25 on, 10 to 15 % at the shortest cracks.
func endClampedNodes() []node {
	return []node{{0.125, 0.3598}, {0.25, 0.6555}, {0.5, 0.925}, {0.75, 0.9818}, {1, 0.9901}, {1.5, 0.995}, {2, 0.9982}}
}

func endSlidingNodes() []node {
	return []node{{0.125, 0.41}, {0.25, 0.72}, {0.5, 0.966}, {1, 0.963}, {2, 0.983}}
}

func insideNodes() []node {
	return []node{{0.05, 0.12}, {0.125, 0.3337}, {0.25, 0.626}, {0.375, 0.82}, {0.5, 0.9351}, {0.75, 1.009}, {1, 1.0121}}
}

// The tables made ready, once.
var (
	endClamped = sync.OnceValue(func() *curveOf { return fit(endClampedNodes()) })
	endSliding = sync.OnceValue(func() *curveOf { return fit(endSlidingNodes()) })
	inside     = sync.OnceValue(func() *curveOf { return fit(insideNodes()) })
)

// tableSpread is E_T/G_LT of the wood of the tables.
const tableSpread = 693.0 / 1531

// Factor returns the energy release of a crack of length a (half length when inside) over that of a
// long one, between the held edges of a strip of height H. Between the points of the table it runs
// monotone (Fritsch & Butland 1984); below the first it falls straight to 0 at a = 0, as G does for a
// crack that is short against everything; beyond the last its value is kept. Inside serves both
// kinds of edges with the table for clamped ones. Negative or undefined a/H gives 0.
//
// For another wood than that of the tables scale a by [LengthScale] first.
func Factor(p Place, e Edges, aOverH float64) float64 {
	switch {
	case p == Inside:
		return inside().at(aOverH)
	case e == Sliding:
		return endSliding().at(aOverH)
	}
	return endClamped().at(aOverH)
}

// LengthScale returns the factor by which a crack in a wood with the moduli E across the grain and G
// in shear (MPa, short; both above 0) counts as longer than in the wood of the tables:
//
//	sqrt( (E/G) / (693/1531) )
//
// With stiff grain the movement across obeys E u_xx + G u_yy = 0, so lengths along the grain go with
// sqrt(G/E) times those across. G = 0 (not known) gives 1. Approximation: held against the
// independent case with E/G = 1 in the tests, within 11 % (unscaled: 26 %).
func LengthScale(E, G float64) float64 {
	if !(G > 0) || !(E > 0) {
		return 1
	}
	return math.Sqrt(E / G / tableSpread)
}

// curveOf is a table made ready.
type curveOf struct {
	first node
	fit   interp.FritschButland
}

func fit(nodes []node) *curveOf {
	x, y := make([]float64, len(nodes)), make([]float64, len(nodes))
	for i, n := range nodes {
		x[i], y[i] = n.x, n.g
	}
	c := &curveOf{first: nodes[0]}
	if err := c.fit.Fit(x, y); err != nil {
		panic(err) // a fault of the tables above, seen by every test
	}
	return c
}

func (c *curveOf) at(x float64) float64 {
	if !(x > 0) {
		return 0
	}
	if x < c.first.x {
		return c.first.g * x / c.first.x
	}
	return c.fit.Predict(x)
}
