//go:build long

package restraint

import (
	"flag"
	"fmt"
	"os"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

var updateCoupled = flag.Bool("update-coupled", false, "rewrite the stored answers of the solid")

const coupledHead = `# title:   Reference case I: three glued boards on two battens, solid model
# table:   worked out by CalculiX CrunchiX 2.20 (Debian 2.20-1) on decks written by panel/restraint/coupled_solid_test.go: C3D20R bricks, two through the panel and two by two on a patch, small movements; four through and four by four change nothing by more than 0.6 % of the largest of its kind; go test -tags long -run TestLongCoupledStored -update-coupled. on: 2026-11-25. This project's test data
# inputs:  synthetic, in coupledCase of panel/restraint/coupled_test.go. linear = every fixing holds both ways; gaps = slots with play in slip, faces that only press in lift; face = the patch is the mean of the back face; spread = the movement of the back face as a plate has it, U + z TurnX of means through the thickness. yield = movement at a patch on the face under 1 N there less that of the spread one, at the middle fixings of the first batten, one in each board
# units:   N, mm, N mm. Forces push the panel back; moment positive = the batten's ends bend towards the panel; deflection at the middle against the outer fixings, height above the plane through three corners, both towards the painted face
variant,quantity,place,value,unit,solver,digits
`

// places names the values of each kind.
func (c *coupled) places() map[string][]string {
	out := map[string][]string{}
	add := func(kind, format string, v ...any) { out[kind] = append(out[kind], fmt.Sprintf(format, v...)) }
	for i, b := range c.battens {
		for _, f := range b.fix {
			for _, kind := range []string{"slip_force", "lift_force", "slip", "lift"} {
				add(kind, "batten %d x %g", i+1, f.x)
			}
		}
		for _, x := range coupledSections {
			add("batten_moment", "batten %d x %g", i+1, x)
		}
		add("batten_deflection", "batten %d", i+1)
	}
	for _, p := range coupledShapeAt {
		add("height", "x %g y %g", p[0], p[1])
	}
	for _, y := range coupledWidthAt {
		add("width", "y %g", y)
	}
	return out
}

// The stored answers, all variants, again from CalculiX.
func TestLongCoupledStored(t *testing.T) {
	ccx := needCCX(t)
	var b strings.Builder
	b.WriteString(coupledHead)
	names := []string{"linear_face", "linear_spread", "gaps_face", "gaps_spread"}
	for _, name := range names {
		how := coupledVariants[name]
		a := answerSolid(t, ccx, how)
		c := coupledCase(how.gaps)
		places := c.places()
		for _, k := range coupledKinds {
			require.Len(t, a[k[0]], len(places[k[0]]), k[0])
			for i, v := range a[k[0]] {
				if v < 1e-9 && v > -1e-9 {
					v = 0
				}
				fmt.Fprintf(&b, "%s,%s,%s,%.7g,%s,CalculiX 2.20,6\n", name, k[0], places[k[0]][i], v, k[1])
			}
		}
		if !*updateCoupled {
			for kind, share := range coupledApart(t, readCoupled(t)[name], a) {
				assert.Less(t, share, 1e-4, kind)
			}
		}
	}
	yields := longYields(t, ccx, coupledSolid{cell: 50, foot: 2, layers: 2})
	for k, kind := range []string{"slip_slip", "slip_lift", "lift_lift"} {
		for i, y := range yields {
			fmt.Fprintf(&b, "yield,%s,board %d,%.4g,mm/N,CalculiX 2.20,3\n", kind, i+1, y[k])
			if !*updateCoupled {
				assert.InDelta(t, readCoupled(t)["yield"][kind][i], y[k], 1e-3*yields[i][0])
			}
		}
	}
	if *updateCoupled {
		require.NoError(t, os.WriteFile("../../testdata/solvers/case_i.csv", []byte(b.String()), 0o644))
	}
}

// longYields returns what a patch on the face yields beyond a spread one in each board: slip by slip, slip by lift,
// lift by lift.
func longYields(t *testing.T, ccx string, how coupledSolid) (out [][3]float64) {
	t.Helper()
	var u [2][][3]float64
	for k, face := range []bool{true, false} {
		how.face = face
		d := newProbe(coupledCase(false), how)
		steps, _ := solveSolid(t, ccx, d)
		require.Len(t, steps, 2*len(d.slips))
		for i, p := range d.slips {
			u[k] = append(u[k], [3]float64{steps[2*i][p[0]][0], steps[2*i+1][p[0]][0], steps[2*i+1][p[1]][0]})
		}
	}
	for i, v := range u[0] {
		t.Logf("board %d: on the face %.4g, spread %.4g mm/N", i+1, v, u[1][i])
		out = append(out, [3]float64{v[0] - u[1][i][0], v[1] - u[1][i][1], v[2] - u[1][i][2]})
	}
	return out
}

// A finer solid, four bricks through the panel and four by four on a patch: the stored one is within 0.7 % of it. And one
// whose thickness moves as much as its width, which a plate leaves out: it changes lifts by 2 to 3 % here.
func TestLongCoupledMesh(t *testing.T) {
	ccx := needCCX(t)
	stored := readCoupled(t)
	for kind, share := range coupledApart(t, answerSolid(t, ccx, coupledSolid{cell: 25, foot: 4, layers: 4, face: true}), stored["linear_face"]) {
		assert.Less(t, share, 0.007, kind)
	}
	how := coupledVariants["gaps_face"]
	how.swells = true
	for kind, share := range coupledApart(t, answerSolid(t, ccx, how), stored["gaps_face"]) {
		assert.Less(t, share, 0.04, kind)
	}
}
