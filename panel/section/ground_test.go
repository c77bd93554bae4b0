package section

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// poplar of the reviewed example: 15 mm wood, E 490 MPa, tangential; 1 mm ground.
func poplar() Layer { return Layer{E: 490, Thickness: 15, Width: 1} }

func TestGroundAgainstTheStack(t *testing.T) {
	g := Ground{Thickness: 1, ETension: 3000, ECompression: 3000, State: "continuous"}
	r := OnWood(poplar(), g, Ground{}, -0.01)
	s, err := Stack([]Layer{{490, 15, 1, -0.01}, {3000, 1, 1, 0}})
	require.NoError(t, err)
	assert.InDelta(t, s.Curvature, r.Curvature, 1e-15)
	assert.InDelta(t, s.Stress(1, 15.5), r.FrontStress, 1e-9)
	assert.InDelta(t, r.FrontStress/3000, r.FrontStrain, 1e-12)
	assert.True(t, math.IsNaN(r.BackStrain))
}

// Warp over 400 mm of that panel when the wood shrinks 1 %: 12.4, 7.3, 3.0 and 0.3 mm for a ground of
// 3000, 1000, 300 and 30 MPa, worked out apart from this program, printed to 0.1 mm.
func TestGroundStiffnessDecidesTheWarp(t *testing.T) {
	for e, want := range map[float64]float64{3000: 12.4, 1000: 7.3, 300: 3.0, 30: 0.3} {
		r := OnWood(poplar(), Ground{Thickness: 1, ETension: e, ECompression: e, State: "continuous"}, Ground{}, -0.01)
		assert.InDelta(t, want, Sagitta(r.Curvature, 400), 0.06, "E %g", e)
	}
}

func TestGroundSigns(t *testing.T) {
	g := Ground{Thickness: 1, ETension: 300, ECompression: 3000, State: "craquelured"}
	dry := OnWood(poplar(), g, Ground{}, -0.01)
	assert.Positive(t, dry.Curvature, "dry wood under a ground: painted face rounded")
	assert.Negative(t, dry.FrontStrain, "and the ground pressed")
	damp := OnWood(poplar(), g, Ground{}, 0.01)
	assert.Negative(t, damp.Curvature)
	assert.Positive(t, damp.FrontStrain, "damp wood pulls the ground")
	assert.Greater(t, dry.Curvature, -damp.Curvature, "pressed, shut cracks are stiff; pulled, they open")
	back := OnWood(poplar(), Ground{}, g, -0.01)
	assert.InDelta(t, -dry.Curvature, back.Curvature, 1e-15)
	both := OnWood(poplar(), g, g, -0.01)
	assert.InDelta(t, 0, both.Curvature, 1e-15, "painted on both faces: no warp")
	still := OnWood(poplar(), g, Ground{}, 0)
	assert.Zero(t, still.Curvature)
	own := g
	own.Strain = -0.002
	assert.Negative(t, OnWood(poplar(), own, Ground{}, 0).Curvature, "a ground that shrinks by itself hollows the face")
}

func TestGroundStates(t *testing.T) {
	g := Ground{Thickness: 1, ETension: 300, ECompression: 3000}
	width := func(state string) float64 {
		g.State = state
		r := OnWood(poplar(), g, Ground{}, -0.01)
		assert.LessOrEqual(t, r.CurvatureLow, r.Curvature)
		assert.GreaterOrEqual(t, r.CurvatureHigh, r.Curvature)
		return r.CurvatureHigh - r.CurvatureLow
	}
	assert.Greater(t, width("not recorded"), width("craquelured"))
	assert.Greater(t, width("craquelured"), width("continuous"))
	for _, s := range []string{"lifting", "lost"} {
		assert.Zero(t, width(s))
		r := OnWood(poplar(), g, g, -0.01)
		assert.Zero(t, r.Curvature)
		assert.True(t, math.IsNaN(r.FrontStrain))
	}
}

// Two grounds of two slopes each: whatever the load, the answer must agree with the slopes it used.
func TestTwoSlopesAgreeWithThemselves(t *testing.T) {
	for _, front := range []Ground{{Thickness: 1, ETension: 100, ECompression: 3000, State: "craquelured"}, {Thickness: 2, ETension: 500, ECompression: 2000, State: "craquelured", Strain: 0.003}} {
		for _, back := range []Ground{{}, {Thickness: 0.5, ETension: 10, ECompression: 3000, State: "craquelured", Strain: -0.002}} {
			for e := -0.02; e <= 0.02; e += 0.001 {
				r := OnWood(Layer{E: 490, Thickness: 5, Width: 1}, front, back, e)
				want := front.ETension
				if r.FrontStrain < 0 {
					want = front.ECompression
				}
				assert.InDelta(t, want*r.FrontStrain, r.FrontStress, 1e-9, "e %g", e)
			}
		}
	}
}

func BenchmarkOnWood(b *testing.B) {
	g := Ground{Thickness: 1, ETension: 300, ECompression: 3000, State: "craquelured"}
	b.ReportAllocs()
	for b.Loop() {
		OnWood(poplar(), g, g, -0.01)
	}
}
