package restraint

import (
	"fmt"
	"math"

	"crossgrain/panel/internal/plan"
	"crossgrain/tables/verify"
)

const (
	floorSource = "nailed and loose strip flooring of hickory, red oak and two acacias, 80 to 30 to 80 % RH at equilibrium: no practical difference in movement; USDA FPL Research Paper (treesearch 64430), abstract read"
	crossSource = "Cocchi et al. 2017: elastic crossbars of a 16th-century panel, restraining effect about 0.07; https://www.iiconservation.org/node/6937, abstract read; sizes and springs not stated there"
)

// floorMoves returns how much of the movement of loose strips two nailed ones keep that dry from 80 to 30 % RH.
// The strips, apart from one another, lie on three boards of a sub-floor; nails stand at the places told in each
// strip of 57 mm. Assumptions: 19 mm thick, 800 MPa across the grain, shrinking 3 %, nails of 3 mm in wood of 700 kg/m3
// (EN 1995-1-1), times stiff, the sub-floor of 18 x 140 mm softwood that does not move.
func floorMoves(stiff float64, at ...float64) (float64, error) {
	const width, drying = 57.0, -0.03
	strip := plan.Plate{Width: width, Thickness: 19, EX: 800, EL: 12000, GXL: 900, GXZ: 150, GLZ: 900, NuLX: 0.4}
	l := plan.Layout{Plates: []plan.Plate{strip, strip}, Length: 600, CellX: 6, CellY: 30, Lines: []plan.Line{{X: width, Open: [][2]float64{{0, 600}}}}}
	k := stiff * SlipNailDriven(700, 3)
	var floor []Member
	for _, y := range []float64{100, 300, 500} {
		b := Member{Name: "sub-floor", Y: y, Bar: Bar{E: 11000, Width: 140, Depth: 18}}
		for s := range 2 {
			for _, x := range at {
				b.At = append(b.At, Attachment{X: x + width*float64(s), Footprint: 6, Mount: Mount{
					Slip: &Hold{Stiff: k, Yield: math.Inf(1)}, Lift: &Hold{Stiff: k, Yield: math.Inf(1)},
				}})
			}
		}
		floor = append(floor, b)
	}
	const in = 2.0 // from the strip's edges
	a, err := NewAssembly(l, 3, false, floor, nil, []Look{{X: in, Y: 300}, {X: width - in, Y: 300}, {X: width + in, Y: 300}, {X: 2*width - in, Y: 300}})
	if err != nil {
		return 0, err
	}
	free := a.Free(checkLoads(a, map[plan.Load][]float64{plan.StrainX: {drying, drying}}), nil)
	move, _, err := settled(a, free)
	if err != nil {
		return 0, err
	}
	got := move(a.Look(1)) - move(a.Look(0)) + move(a.Look(3)) - move(a.Look(2))
	return got / (2 * (width - 2*in) * drying), nil
}

// crossbars are what has to be assumed of a panel on two crossbars with five fixings each.
type crossbars struct {
	thick, spring float64 // of the panel, mm; of each fixing away from the panel's face, N/mm, +Inf = a keeper
}

// held returns the restraining effect on the warp of the middle: 1 - (with)/(without). Assumptions: poplar of
// 490 MPa, 1000 x 1400 mm, crossbars of 60 x 40 mm softwood, fixings that slide across the grain.
func (c crossbars) held() (float64, error) {
	board := plan.Plate{Width: 1000, Thickness: c.thick, EX: 490, EL: 9800, GXL: 680, GXZ: 100, GLZ: 700, NuLX: 0.4}
	var bars []Member
	for _, y := range []float64{300, 1100} {
		b := Member{Name: "crossbar", Y: y, Bar: Bar{E: 11000, Width: 60, Depth: 40}}
		for i := range 5 {
			lift := &Hold{Spring: c.spring, Yield: math.Inf(1)}
			if math.IsInf(c.spring, 1) {
				lift = &Hold{Stiff: c.spring, Yield: math.Inf(1)}
			}
			b.At = append(b.At, Attachment{X: 100 + 200*float64(i), Footprint: 20, Mount: Mount{Lift: lift}})
		}
		bars = append(bars, b)
	}
	looks := []Look{{X: 0, Y: 700, Out: true}, {X: 500, Y: 700, Out: true}, {X: 1000, Y: 700, Out: true}}
	a, err := NewAssembly(plan.Layout{Plates: []plan.Plate{board}, Length: 1400}, 3, false, bars, nil, looks)
	if err != nil {
		return 0, err
	}
	free := a.Free(checkLoads(a, map[plan.Load][]float64{plan.BendX: {1e-4}}), nil)
	move, _, err := settled(a, free)
	if err != nil {
		return 0, err
	}
	sag := func(at func(int) float64) float64 { return at(a.Look(1)) - (at(a.Look(0))+at(a.Look(2)))/2 }
	return RestrainingEffect(sag(move), sag(func(row int) float64 { return free[row] })), nil
}

// measuredChecks are signs, not proofs: neither source tells the sizes.
func measuredChecks() []verify.Row {
	row := func(id, what, unit, source string, tol float64, f func() (float64, error)) verify.Row {
		return verify.Row{ID: id, What: what, Unit: unit, Kind: verify.Measured, Source: source, Want: 1, Tol: tol, Got: f}
	}
	return []verify.Row{
		row("P14", "strips nailed through their middle dry as loose ones: movement over that of loose ones, within 10 % (sign)", "-", floorSource, 0.1,
			func() (float64, error) { return floorMoves(1, 28.5) }),
		row("P14-two", "the same with two rows of nails of twice the stiffness in each strip, within 10 % (sign)", "-", floorSource, 0.1,
			func() (float64, error) { return floorMoves(2, 8, 49) }),
		row("P22", "crossbars on springs of 5 N/mm hold some warp, less than a quarter, and less than half of what the same bars hold in keepers (sign)", "sign", crossSource, 0, crossSign),
	}
}

func crossSign() (float64, error) {
	soft, err := crossbars{30, 5}.held()
	if err != nil {
		return 0, err
	}
	fast, err := crossbars{30, math.Inf(1)}.held()
	if err != nil {
		return 0, err
	}
	if soft > 0 && soft < 0.25 && soft < fast/2 && fast < 1 {
		return 1, nil
	}
	return -1, nil
}

// Misses returns rows that are known not to be met: what is assumed of a measured panel is open so far that the band
// holds what was seen and is too wide to say that the model gave it.
func Misses() []verify.Row {
	return []verify.Row{{
		ID: "P22-band", What: "restraining effect of crossbars on springs over all that is assumed (springs 2 to 10 N/mm, panel 20 to 40 mm thick), band not wider than threefold",
		Unit: "-", Kind: verify.Measured, Source: crossSource, Want: 0.07, MaxRatio: 3,
		Band: func() (low, high float64, err error) {
			low, high = math.Inf(1), math.Inf(-1)
			for _, c := range []crossbars{{20, 2}, {20, 10}, {40, 2}, {40, 10}} {
				v, err := c.held()
				if err != nil {
					return 0, 0, fmt.Errorf("%+v: %w", c, err)
				}
				low, high = min(low, v), max(high, v)
			}
			return low, high, nil
		},
	}}
}
