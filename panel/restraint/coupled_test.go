package restraint

import (
	"fmt"
	"math"
	"os"
	"strconv"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"crossgrain/panel/internal/plan"
	"crossgrain/tables/tabletest"
)

// coupled is an invented panel of three glued boards on two battens behind it, told in the terms that a solid and a
// plate have in common. Its numbers are synthetic.
type coupled struct {
	plates        []plan.Plate
	length        float64
	strain, curve []float64 // free, across the grain, of each board; 1/mm
	along         float64   // share of it along the grain
	battens       []coupledBatten
	foot          float64 // side of a fixing's patch, mm
	// What the plate's side leaves out, added to see whether it explains the rest: what wood yields under a patch on
	// the face beyond a plate's, per unit force: slip by slip, slip by lift, lift by lift.
	yields [][3]float64 // of each board
}

type coupledBatten struct {
	y, from, to  float64 // centre line on the panel and ends across it, mm
	width, depth float64
	strain       float64 // free, along
	ex, ez, gxz  float64 // along, across, and shear between them, MPa
	fix          []coupledFixing
}

// coupledFixing pushes back as Hold says: a slot with play in slip, a face that presses only in lift.
type coupledFixing struct {
	x          float64
	slip, lift Hold
}

// coupledCase returns the case; gaps puts in the slots and the faces that only press.
func coupledCase(gaps bool) coupled {
	c := coupled{length: 600, strain: []float64{-0.004, -0.005, -0.003}, curve: []float64{0, 2e-4, 0}, along: 0.03, foot: 20}
	for i, e := range []float64{450, 700, 550} {
		g := []float64{120, 200, 150}[i]
		c.plates = append(c.plates, plan.Plate{Width: []float64{150, 180, 150}[i], Thickness: 15, EX: e, EL: 11000, GXL: 700, GXZ: g, GLZ: 800, NuLX: 0.4})
	}
	for k, y := range []float64{150, 440} {
		b := coupledBatten{y: y, from: 10, to: 470, width: 40, depth: 20, strain: -0.0003, ex: 10000, ez: 600, gxz: 700}
		play := [][]float64{{0.3, 0, 0, 0.2, 0.25}, {0, 0.15, 0, 0, 0.4}}[k]
		press := [][]bool{{false, true, false, true, true}, {true, false, true, false, true}}[k]
		for i, x := range []float64{40, 120, 240, 360, 440} {
			f := coupledFixing{x: x, slip: Hold{Stiff: 500, Yield: inf}, lift: Hold{Stiff: 3000, Yield: inf}}
			if gaps {
				f.slip.Play, f.lift.Presses = play[i], press[i]
			}
			b.fix = append(b.fix, f)
		}
		c.battens = append(c.battens, b)
	}
	return c
}

// coupledShapeAt are the places where the panel's shape is read, mm.
var coupledShapeAt = [][2]float64{
	{75, 0}, {240, 0}, {405, 0}, {0, 150}, {150, 150}, {240, 150}, {330, 150}, {480, 150},
	{75, 300}, {240, 300}, {405, 300}, {0, 440}, {240, 440}, {480, 440}, {240, 600}, {480, 600},
}

// coupledWidthAt are the heights at which the width is read, mm.
var coupledWidthAt = []float64{150, 300}

// coupledSections are where a batten's moment is read, between its fixings, mm across the panel.
var coupledSections = []float64{80, 180, 300, 400}

// coupledAnswer is what is compared, by kind: the same names from the solid and from the plate.
type coupledAnswer map[string][]float64

// coupledKinds are the kinds and their units, in the order in which they are stored.
var coupledKinds = [][2]string{{"slip_force", "N"}, {"lift_force", "N"}, {"slip", "mm"}, {"lift", "mm"},
	{"batten_moment", "N mm"}, {"batten_deflection", "mm"}, {"height", "mm"}, {"width", "mm"}}

// coupledVariants are the stored solids: gaps or none, patches on the back face or spread through the thickness.
var coupledVariants = map[string]coupledSolid{
	"linear_face":   {cell: 50, foot: 2, layers: 2, face: true},
	"linear_spread": {cell: 50, foot: 2, layers: 2},
	"gaps_face":     {cell: 50, foot: 2, layers: 2, gaps: true, face: true},
	"gaps_spread":   {cell: 50, foot: 2, layers: 2, gaps: true},
}

// read turns slips and lifts into the fixings' forces.
func (c *coupled) read(a coupledAnswer) {
	i := 0
	for _, b := range c.battens {
		for _, f := range b.fix {
			a["slip_force"] = append(a["slip_force"], f.slip.stop(0, a["slip"][i]))
			a["lift_force"] = append(a["lift_force"], f.lift.stop(0, a["lift"][i]))
			i++
		}
	}
}

// coupledApart logs two answers side by side and returns the largest difference of each kind as a share of the largest
// value.
func coupledApart(t *testing.T, solid, plate coupledAnswer) map[string]float64 {
	t.Helper()
	out := map[string]float64{}
	for _, k := range coupledKinds {
		name := k[0]
		require.NotEmpty(t, solid[name], name)
		require.Len(t, plate[name], len(solid[name]), name)
		top, worst, line := 0.0, 0.0, ""
		for i, v := range solid[name] {
			top, worst = math.Max(top, math.Abs(v)), math.Max(worst, math.Abs(v-plate[name][i]))
			line += fmt.Sprintf(" %.4g/%.4g", v, plate[name][i])
		}
		out[name] = worst / top
		t.Logf("%s: %.2f %% of %.4g %s; solid/plate%s", name, 100*worst/top, top, k[1], line)
	}
	return out
}

// readCoupled reads the stored answers of the solid by variant; the quantities of "yield" are numbers of boards.
func readCoupled(t *testing.T) map[string]coupledAnswer {
	t.Helper()
	src, err := os.ReadFile("../../testdata/solvers/case_i.csv")
	require.NoError(t, err)
	out := map[string]coupledAnswer{}
	for _, row := range tabletest.Cells(t, src) {
		v, err := strconv.ParseFloat(row[3], 64)
		require.NoError(t, err)
		if out[row[0]] == nil {
			out[row[0]] = coupledAnswer{}
		}
		out[row[0]][row[1]] = append(out[row[0]][row[1]], v)
	}
	return out
}

// The plate, its battens and its fixings against the solid, within 3 % of the largest value of each kind, with what
// the face yields under a patch put in, which the plate's side leaves out.
func TestCoupledSolid(t *testing.T) {
	stored := readCoupled(t)
	for _, name := range []string{"linear_spread", "linear_face", "gaps_spread", "gaps_face"} {
		t.Run(name, func(t *testing.T) {
			how := coupledVariants[name]
			c := coupledCase(how.gaps)
			if how.face {
				y := stored["yield"]
				for i := range c.plates {
					c.yields = append(c.yields, [3]float64{y["slip_slip"][i], y["slip_lift"][i], y["lift_lift"][i]})
				}
			}
			for kind, share := range coupledApart(t, stored[name], coupledPlate(t, c, 20)) {
				assert.Less(t, share, 0.03, kind)
			}
		})
	}
}

// The program as it stands, without what wood yields under a patch on its face, which a plate does not show: at
// fixings as soft as these forces and shape stay within 3 % all the same.
func TestCoupledSolidAsItIs(t *testing.T) {
	stored := readCoupled(t)
	for _, name := range []string{"linear_face", "gaps_face"} {
		t.Run(name, func(t *testing.T) {
			apart := coupledApart(t, stored[name], coupledPlate(t, coupledCase(coupledVariants[name].gaps), 20))
			for kind, share := range apart {
				most := 0.03
				if kind == "batten_deflection" {
					most = 0.05 // the yielding under the patches makes the rest: see above
				}
				assert.Less(t, share, most, kind)
			}
		})
	}
}
