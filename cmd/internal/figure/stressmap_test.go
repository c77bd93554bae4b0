package figure

import (
	"image/color"
	"math"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"gonum.org/v1/plot/vg"
)

// plank is a net of nx by nz elements over w by t mm.
func plank(w, t float64, nx, nz int) EndGrain {
	var g EndGrain
	at := map[[2]int]int{}
	node := func(i, k int) int {
		n, ok := at[[2]int{i, k}]
		if !ok {
			n = len(g.XMM)
			at[[2]int{i, k}] = n
			g.XMM, g.ZMM = append(g.XMM, w*float64(i)/float64(2*nx)), append(g.ZMM, t*float64(k)/float64(2*nz))
		}
		return n
	}
	for i := 0; i < 2*nx; i += 2 {
		for k := 0; k < 2*nz; k += 2 {
			g.Elements = append(g.Elements, [8]int{node(i, k), node(i+2, k), node(i+2, k+2), node(i, k+2), node(i+1, k), node(i+2, k+1), node(i+1, k+2), node(i, k+1)})
		}
	}
	return g
}

// bending is s (2z/t - 1) at the points of a plank.
func bending(g EndGrain, s, t float64) StressState {
	n := g.net()
	var v [][4]float64
	for _, e := range n.parts {
		var q [4]float64
		for k := range q {
			_, z := n.gauss(e, k)
			q[k] = s * (2*z/t - 1)
		}
		v = append(v, q)
	}
	return StressState{Label: "bent", MPa: [][][4]float64{v}}
}

func shoelace(v view, loops [][]vertex) float64 {
	a := 0.0
	for _, l := range loops {
		q := v.line(l)
		for i := range q {
			r := q[(i+1)%len(q)]
			a += float64(q[i].X*r.Y-r.X*q[i].Y) / 2
		}
	}
	return a
}

// A straight course through the thickness: nodes get it back exactly, and what lies at or above half its
// largest is a quarter of the section (by hand).
func TestRegionsOfAStraightCourse(t *testing.T) {
	g := plank(100, 20, 7, 3)
	n := g.net()
	s := bending(g, 2, 20)
	values := s.nodal(0, n)
	for k := range g.XMM {
		assert.InDelta(t, 2*(g.ZMM[k]/10-1), values[k], 1e-12)
	}
	v := view{x: n.x, z: n.z, kx: 1, kz: 1}
	outline, pieces := n.region(values, 1)
	assert.InDelta(t, 500, shoelace(v, outline), 1e-9)
	assert.InDelta(t, 500, shoelace(v, pieces), 1e-9)
	assert.Len(t, outline, 1)
	outline, _ = n.region(values, 3)
	assert.Empty(t, outline)
}

// A dent in the middle leaves a hole: outline less hole is the area.
func TestRegionWithAHole(t *testing.T) {
	g := plank(100, 100, 20, 20)
	n := g.net()
	values := make([]float64, len(n.x))
	for k := range values {
		values[k] = math.Hypot(n.x[k]-50, n.z[k]-50)
	}
	v := view{x: n.x, z: n.z, kx: 1, kz: 1}
	outline, _ := n.region(values, 30)
	assert.Len(t, outline, 2)
	assert.InEpsilon(t, 1e4-math.Pi*900, shoelace(v, outline), 0.002)
}

func TestHatchIsCutAtTheEdge(t *testing.T) {
	square := []vg.Point{at(0, 0), at(30, 0), at(30, 30), at(0, 30)}
	whole := hatched(weave{gap: 6}, [][]vg.Point{square})
	halves := hatched(weave{gap: 6}, [][]vg.Point{{at(0, 0), at(30, 0), at(30, 30)}, {at(0, 0), at(30, 30), at(0, 30)}})
	require.NotEmpty(t, whole)
	total := func(lines [][]vg.Point) (l float64) {
		for _, q := range lines {
			l += float64(hypot(q[1].Sub(q[0])))
		}
		return l
	}
	assert.InDelta(t, 30*30/6.0, total(whole), 6, "area over the gap")
	assert.InDelta(t, total(whole), total(halves), 1e-9)
	assert.Len(t, halves, len(whole), "joined where two pieces meet")
	for _, w := range []weave{{6, 0, false}, {6, 0, true}} {
		for _, q := range hatched(w, [][]vg.Point{square}) {
			d := q[1].Sub(q[0])
			assert.InDelta(t, 1, math.Abs(float64(d.X/d.Y)), 1e-9)
			assert.Equal(t, w.falls, d.X*d.Y > 0)
			assert.True(t, q[0].X > -1e-9 && q[0].X < 30+1e-9 && q[0].Y > -1e-9 && q[0].Y < 30+1e-9)
		}
	}
}

func TestPeaksStayAwayFromEndsOfJoins(t *testing.T) {
	g := plank(100, 20, 20, 8)
	n := g.net()
	s := bending(g, 2, 20)
	s.MPa[0][7] = [4]float64{50, 50, 50, 50}  // upper left corner
	s.MPa[0][0] = [4]float64{-50, math.NaN()} // lower left corner
	s.MPa[0][80] = [4]float64{1, 1, 1, math.Inf(1)}
	p := s.peaks(0, n)
	outermost := 2 * (1 - (1-1/math.Sqrt(3))/8) // the point next to the face in one of 8 elements
	assert.InDelta(t, outermost, p[0].mpa, 1e-9)
	assert.InDelta(t, -outermost, p[1].mpa, 1e-9)
	assert.True(t, p[0].z > 15 && p[1].z < 5)
	for _, c := range n.corners() {
		assert.InDelta(t, notRead*20, c.r, 1e-9)
	}
}

func TestStressWords(t *testing.T) {
	g := plank(100, 20, 12, 6)
	g.Name = "only"
	s := StressMap{Boards: []EndGrain{g}, States: []StressState{bending(g, 2, 20), {}}}
	s.States[0].RHPct = 40
	f := s.Draw()
	assert.Equal(t, "Bent, 40 % RH: pulled up to 1.9 MPa (board 1), pressed up to 1.9 MPa (board 1); stress not known.", f.Sentence)
	all := strings.Join(texts(f), " ")
	for _, w := range []string{"+1.9", "−1.9", "pulled", "pressed", "mm across", "mm through", "not to be read", "1 only"} {
		assert.Contains(t, all, w)
	}
	s.Thicker = 2
	assert.Contains(t, strings.Join(texts(s.Draw()), " "), "Thickness drawn 2 times too large.")
	s.Thicker = 1
	assert.NotContains(t, strings.Join(texts(s.Draw()), " "), "times too large")
}

// In grey each pull is darker than the one before, and every press lighter than the second pull: what is
// dark and plain is pulled, what is light and hatched is pressed.
func TestFillsAreToldApartInGrey(t *testing.T) {
	light := func(c color.Color) uint8 { return color.GrayModel.Convert(c).(color.Gray).Y }
	for i := range levels {
		if i > 0 {
			assert.Less(t, int(light(pulls(i)))+20, int(light(pulls(i-1))))
			assert.Less(t, light(presses(i)), light(presses(i-1)))
		}
		if i > 1 {
			assert.Less(t, light(pulls(i)), light(presses(levels-1)))
		}
		assert.Greater(t, float64(weaves(i).gap), 2.0)
	}
}

func TestLevelStep(t *testing.T) {
	for v, want := range map[float64]float64{0.48: 0.5, 0.5: 0.5, 0.11: 0.15, 9: 10, 1.01: 1.5, 0.0031: 0.004} {
		assert.InEpsilon(t, want, levelStep(v), 1e-9)
	}
}
