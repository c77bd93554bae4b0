package section

import (
	"math"

	"crossgrain/panel/internal/fe"
	"crossgrain/tables"
	"crossgrain/tables/verify"
)

type value = func() (float64, error)

// Checks returns the closed forms, printed and independently computed values this package is held
// against. Rows that stand in the checks of species, moisture or restraint are run in the tests only.
func Checks() ([]verify.Row, error) {
	got := map[string]value{
		"CUP-FLAT-EXACT-2": func() (float64, error) { // heart at the back: drying hollows the front
			f, err := overPith(150, 300).Free(-0.012, -0.024)
			return -f.CupFront, err
		},
	}
	flat(got)
	gradients(got)
	layers(got)
	swollen(got)
	rings(got)
	elements(got)
	return verify.FromTable(tables.MustRead("checks_mechanics"), got)
}

// overPith is a board 1 mm thick whose front face lies d mm straight over the pith.
func overPith(d, w float64) Board {
	return Board{Width: w, Thickness: 1, PithKnown: true, PithX: w / 2, PithZ: 1 - d}
}

func is(v float64) value { return func() (float64, error) { return v, nil } }

func flat(got map[string]value) {
	f1, w1 := FlatSawn(-0.012, -0.024, 50, 300)
	f3, w3 := FlatSawn(-0.01, -0.02, 100, 200)
	got["CUP-FLAT-1"], got["CUP-FLAT-WIDTH-1"] = is(-f1), is(w1)
	got["CUP-FLAT-3"], got["CUP-FLAT-WIDTH-3"] = is(-f3), is(w3)
	got["CUP-FLAT-PARAB-1"] = is(-FlatSawnWide(-0.012, -0.024, 50, 300))
	got["CUP-FLAT-PARAB-2"] = is(-FlatSawnWide(-0.012, -0.024, 150, 300))
	got["CUP-FLAT-PARAB-3"] = is(-FlatSawnWide(-0.01, -0.02, 100, 200))
}

func gradients(got map[string]value) {
	const h = 20.0
	line := Gradient(h, func(z float64) float64 { return 0.008 * z / h })
	para := Gradient(h, func(z float64) float64 { return 0.008 * (z / h) * (z / h) })
	got["CUP-GRAD-LIN"], got["CUP-GRAD-LIN-SAG"] = is(line.Curvature), is(Sagitta(line.Curvature, 400))
	got["CUP-GRAD-PAR-K"] = is(para.Curvature)
	got["CUP-GRAD-PAR-FACE"], got["CUP-GRAD-PAR-MID"] = is(para.Stress(700, h, 0.008)), is(para.Stress(700, h/2, 0.002))
	got["CUP-GRAD-QUARTER"] = func() (float64, error) {
		b, err := GradientAt([]float64{0, 15, 15, 20}, []float64{0, 0, 0.008, 0.008})
		return b.Curvature, err
	}
	// a poplar panel freed of its cradle, 10 mm thick: 30 mm over 1625 mm, then 10 mm more or less
	// (Hamilton Kerr Institute 1987)
	curve := func(sag float64) float64 { return sag / Sagitta(1, 1625) }
	got["WARP-HKI-K0"], got["WARP-HKI-DE"] = is(curve(30)), is(curve(10)*10)
}

func layers(got map[string]value) {
	strip := func(e, t, strain float64) Layer { return Layer{E: e, Thickness: t, Width: 1, Strain: strain} }
	bend := func(l ...Layer) value {
		return func() (float64, error) {
			r, err := Stack(l)
			return r.Curvature, err
		}
	}
	got["BIL-TIMO-HYF"] = func() (float64, error) { // the tip of a cantilever goes by kappa L^2/2
		r, err := Stack([]Layer{strip(1, 150, 5e-6*50), strip(1, 150, 10e-6*50)})
		return r.Curvature * 3000 * 3000 / 2, err
	}
	got["BIL-STONEY-TIMO"] = bend(strip(700, 20, 0), strip(3000, 0.5, 0.004))
	got["BIL-STONEY"] = is(6 * 3000 * 0.004 * 0.5 / (700 * 20 * 20))
	const nu = 0.3 // plane strain: E/(1-nu^2), mismatch (1+nu) de
	got["BIL-PSTRAIN"] = bend(strip(700/(1-nu*nu), 15, 0), strip(3000/(1-nu*nu), 1, 0.01*(1+nu)))
}

// swollen is the wood that swells under a ground that does not: the painted face goes hollow.
func swollen(got map[string]value) {
	row := func(f func(Result) float64) value {
		return func() (float64, error) {
			r, err := Stack([]Layer{{E: 700, Thickness: 15, Width: 1, Strain: 0.01}, {E: 3000, Thickness: 1, Width: 1}})
			if err != nil {
				return 0, err
			}
			return f(r), nil
		}
	}
	got["BIL-GESSO-K"] = row(func(r Result) float64 { return -r.Curvature })
	got["BIL-GESSO-SAG"] = row(func(r Result) float64 { return -Sagitta(r.Curvature, 400) })
	got["BIL-GESSO-SINT"] = row(func(r Result) float64 { return r.Stress(1, 15) })
	got["BIL-GESSO-WTOP"] = row(func(r Result) float64 { return r.Stress(0, 15) })
	got["BIL-GESSO-WBOT"] = row(func(r Result) float64 { return r.Stress(0, 0) })
}

func rings(got map[string]value) {
	g := Ring{Inner: 10, Outer: 100, ER: 1046, ET: 693, NuRT: 0.4915, EpsR: -0.012, EpsT: -0.024}
	hoop := func(r float64) value {
		_, _, s := g.At(r)
		return is(s)
	}
	radial := func(r float64) value {
		_, s, _ := g.At(r)
		return is(s)
	}
	got["RING-ST-20"], got["RING-ST-50"], got["RING-ST-75"], got["RING-ST-100"] = hoop(20), hoop(50), hoop(75), hoop(100)
	got["RING-SR-50"], got["RING-SR-75"] = radial(50), radial(75)
	u, _, _ := g.At(math.Nextafter(100, 0))
	got["RING-U-100"] = is(u)
}

// elements are the finite elements by themselves and, in plane strain, under a ground.
func elements(got map[string]value) {
	for id, n := range map[string]int{"COOK-Q8-2": 2, "COOK-Q8-4": 4, "COOK-Q8-16": 16, "COOK-Q8-32": 32} {
		got[id] = func() (float64, error) { return fe.Cook(n) }
	}
}
