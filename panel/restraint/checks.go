package restraint

import (
	"math"

	"crossgrain/panel/internal/plan"
	"crossgrain/tables"
	"crossgrain/tables/verify"
)

// Checks returns the published and independently computed values that this package is held to.
func Checks() ([]verify.Row, error) {
	got := map[string]func() (float64, error){
		"RES-FULL":        plain(func() float64 { return Rigid(693, -0.01) }),
		"RES-SPRING-100":  plain(func() float64 { return Support(-0.01, 400, 100, 693*20*600) }),
		"RES-SPRING-1000": plain(func() float64 { return Support(-0.01, 400, 1000, 693*20*600) }),

		"BAT-GLUE-K":         glued(func(c Composite, _ Layer) float64 { return math.Abs(c.Bow) }),
		"BAT-GLUE-S2_BOT":    glued(func(c Composite, b Layer) float64 { return c.Stress(b, b.Z+10) }),
		"BAT-GLUE-S2_TOP":    glued(func(c Composite, b Layer) float64 { return c.Stress(b, b.Z-10) }),
		"BAT-GLUE-FLAT":      plain(func() float64 { return GluedFlat(-0.01, checkPanel, checkBar) / (20 * 300) }),
		"BAT-GLUE-FLAT-F":    systemMax(gluedWhole),
		"BAT-LAG-N-700-100":  plain(func() float64 { return lagOf(700, 100).N(-0.01, 0) }),
		"BAT-LAG-Q-700-100":  plain(func() float64 { return lagOf(700, 100).End(-0.01) }),
		"BAT-LAG-Q-700-50":   plain(func() float64 { return lagOf(700, 50).End(-0.01) }),
		"BAT-LAG-N-3469-100": plain(func() float64 { return lagOf(3469, 100).N(-0.01, 0) }),
		"BAT-LAG-Q-3469-100": plain(func() float64 { return lagOf(3469, 100).End(-0.01) }),
		"BAT-NAIL7-END":      sevenNails(func(r Result) float64 { return -r.Force[0] }),
		"BAT-NAIL7-MID":      sevenNails(func(r Result) float64 { return r.Max }),
		"BAT-NAIL2":          plain(func() float64 { return TwoFasteners(-0.01, 600, 700, checkPanel, checkBar) }),
		"KSER-NAIL-420-4":    plain(func() float64 { return SlipNailDriven(420, 4) }),
		"KSER-NAIL-450-3":    plain(func() float64 { return SlipNailDriven(450, 3) }),
		"KSER-NAIL-700-3":    plain(func() float64 { return SlipNailDriven(700, 3) }),
		"KSER-NAIL-DIN":      plain(func() float64 { return SlipNailDIN(350, 4) }),
		"GAMMA-1":            plain(func() float64 { return checkBeam().Gamma() }),
		"GAMMA-EI":           plain(func() float64 { return checkBeam().Exact() }),
		"GAMMA-RIGID":        plain(func() float64 { return checkBeam().WithGamma(1) }),
		"GAMMA-NONE":         plain(func() float64 { return checkBeam().None() }),
		"BAT-DEFL":           plain(func() float64 { return MidLoad(10, 500, 11000, 30, 6) }),
		"BAT-DEFL-HALF":      plain(func() float64 { return MidLoad(10, 500, 11000, 30, 3) / MidLoad(10, 500, 11000, 30, 6) }),
		"TOPPLE":             plain(func() float64 { return Topple(700, 40, 1000, 25.4) }),
		"BUCKLE":             func() (float64, error) { return Rippling(5, 150, 0) },
		"FRIC-CUP-P":         plain(func() float64 { return Flatten(693*300*cube(20)/12, 1e-4, 600) }),
	}
	memberChecks(got)
	solidChecks(got)
	rows, err := verify.FromTable(tables.MustRead("checks_mechanics"), got)
	return append(rows, measuredChecks()...), err
}

// The panel strip and batten of the rows BAT-*: 20 x 300 mm, E 693; 20 x 40 mm, E 11000.
const (
	checkPanel = 693.0 * 20 * 300
	checkBar   = 11000.0 * 20 * 40
)

func plain(f func() float64) func() (float64, error) {
	return func() (float64, error) { return f(), nil }
}

func lagOf(k, s float64) Lag {
	return NewLag(k/s, checkPanel, checkBar, 0, 1, 600)
}

func glued(f func(Composite, Layer) float64) func() (float64, error) {
	return func() (float64, error) {
		panel := Layer{E: 693, Width: 300, Thickness: 20, Z: 10, Strain: -0.01}
		bar := Layer{E: 11000, Width: 40, Thickness: 20, Z: -10}
		c, err := NewComposite([]Layer{panel, bar})
		return f(c, bar), err
	}
}

// checkSystem is the pair of the rows BAT-* on any fixings, held flat.
func checkSystem(fix []Fixing) (Result, error) {
	f, err := plan.Strip([]plan.StripBoard{{Width: 700, Thickness: 20, E: 693}}, 300, Patches(fix))
	if err != nil {
		return Result{}, err
	}
	s, err := Build(f, Bar{E: 11000, Width: 40, Depth: 20, HoldsFlat: true}, fix)
	if err != nil {
		return Result{}, err
	}
	return s.Solve(plan.Drive{Strain: []float64{-0.01}})
}

func sevenNails(f func(Result) float64) func() (float64, error) {
	return func() (float64, error) {
		fix := make([]Fixing, 7)
		for i := range fix {
			fix[i] = Fixing{X: 50 + 100*float64(i), Slip: 700, Yield: math.Inf(1)}
		}
		r, err := checkSystem(fix)
		if err != nil {
			return 0, err
		}
		return f(r), nil
	}
}

func gluedWhole() ([]Fixing, error) { return Glued(50, 650, 12, math.Inf(1), 40) }

func systemMax(make func() ([]Fixing, error)) func() (float64, error) {
	return func() (float64, error) {
		fix, err := make()
		if err != nil {
			return 0, err
		}
		r, err := checkSystem(fix)
		return r.Max, err
	}
}

// checkBeam is the beam of the rows GAMMA-*.
func checkBeam() Layered {
	return Layered{E1: 11000, B1: 100, H1: 50, E2: 11000, B2: 50, H2: 200, Slip: 1000, Spacing: 100, Span: 4000}
}
