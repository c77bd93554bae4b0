package fracture

import (
	"strings"

	"crossgrain/species"
	"crossgrain/tables"
	"crossgrain/tables/verify"
)

type value = func() (float64, error)

func is(v float64) value { return func() (float64, error) { return v, nil } }

// Checks returns the closed forms and independently computed values this package is held against.
func Checks() ([]verify.Row, error) {
	got := map[string]value{
		"STRIP-G-0.004": is(StripRelease(0.004, 693, 200) * 1000), "STRIP-G-0.01": is(StripRelease(0.01, 693, 200) * 1000),
		"STRIP-EPS-0.1": is(StripLimit(0.2, 693, 100)), "STRIP-EPS-0.8": is(StripLimit(0.2, 693, 800)),
		"DCB-G": is(Cantilevers(10, 100, 12000, 20, 10)),
	}
	intensities(got)
	holes(got)
	leftOut(got)
	sheets(got)
	return verify.FromTable(tables.MustRead("checks_mechanics"), got)
}

func intensities(got map[string]value) {
	got["SIF-SENT-POLY-0.1"], got["SIF-SENT-POLY-0.2"], got["SIF-SENT-POLY-0.3"] = is(EdgeTension(0.1)), is(EdgeTension(0.2)), is(EdgeTension(0.3))
	got["SIF-SENT-POLY-0.5"], got["SIF-SENT-POLY-0.6"] = is(EdgeTension(0.5)), is(EdgeTension(0.6))
	got["SIF-SENT-TADA-0.1"], got["SIF-SENT-TADA-0.2"] = is(EdgeTensionTada(0.1)), is(EdgeTensionTada(0.2))
	got["SIF-SENT-TADA-0.3"], got["SIF-SENT-TADA-0.5"] = is(EdgeTensionTada(0.3)), is(EdgeTensionTada(0.5))
	got["SIF-CCT-0.2"], got["SIF-CCT-0.6"] = is(CentreTension(0.2)), is(CentreTension(0.6))
	got["SIF-DENT-0.2"], got["SIF-DENT-0.4"] = is(DoubleEdgeTension(0.2)), is(DoubleEdgeTension(0.4))
	got["SIF-BEND-0.1"], got["SIF-BEND-0.3"], got["SIF-BEND-0.5"] = is(EdgeBending(0.1)), is(EdgeBending(0.3)), is(EdgeBending(0.5))
	got["SIF-K"] = is(Intensity(EdgeTension(0.1), 2, 10))
}

func holes(got map[string]value) {
	got["HOLE-KT-T"] = is(Hole(species.Ortho{E1: 693, E2: 14070, Nu12: 0.547 * 693 / 14070, G12: 1531}))
	got["HOLE-KT-L"] = is(Hole(species.Ortho{E1: 14070, E2: 693, Nu12: 0.547, G12: 1531}))
	got["HOLE-KT-RT"] = is(Hole(species.Ortho{E1: 693, E2: 1046, Nu12: 0.285, G12: 54}))
}

// leftOut computes the rows of the strip tables from the tables without the point that the row gives:
// with it they would only repeat themselves. Two points cannot be left out and met within their own
// tolerance (end 0.25: -5 %, inside 0.5: -2.2 %, the gap becomes twice as wide); a test says so.
func leftOut(got map[string]value) {
	for id, x := range map[string]float64{
		"EDGE-0.125": 0.125, "EDGE-0.75": 0.75, "EDGE-1.0": 1, "EDGE-2.0": 2,
		"CENTRE-0.125": 0.125, "CENTRE-0.25": 0.25, "CENTRE-1.0": 1,
	} {
		all := endClampedNodes()
		if strings.HasPrefix(id, "CENTRE") {
			all = insideNodes()
		}
		got["STRIP-FE-"+id] = is(without(all, x).at(x))
	}
}

// without is the table less its point at x.
func without(all []node, x float64) *curveOf {
	var rest []node
	for _, n := range all {
		if n.x != x {
			rest = append(rest, n)
		}
	}
	return fit(rest)
}
