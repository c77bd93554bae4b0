package fracture

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"crossgrain/panel/internal/fe"
	"crossgrain/species"
)

// cracked returns what a crack from the face z = t adds to the opening and to the turn of a strip pulled by N = 1 and bent by
// M = 1: by elements of half the strip, its free edge at the far end, the crack in the plane of symmetry; two meshes carried on
// to cells of no size, since the error at a tip goes with the size of a cell.
func cracked(t *testing.T, o fe.Ortho, share float64) (nn, nm, mm float64) {
	t.Helper()
	a, b, c := crackedBy(t, o, share, 16)
	nn, nm, mm = crackedBy(t, o, share, 32)
	return 2*nn - a, 2*nm - b, 2*mm - c
}

func crackedBy(t *testing.T, o fe.Ortho, share float64, nz int) (nn, nm, mm float64) {
	t.Helper()
	const size = 10.0
	nx := 2 * nz
	d, err := o.Stiffness()
	require.NoError(t, err)
	d = d.PlaneStress()
	solve := func(share float64) (out [2][2]float64) {
		m := fe.Block(nx, nz, func(u, v float64) (x, z float64) { return 3 * size * u, size * v })
		held := []int{1} // one node against rising
		for i, x := range m.X {
			if x == 0 && m.Z[i] <= size*(1-share)+1e-9 {
				held = append(held, 2*i)
			}
		}
		b, err := fe.NewBody(m, func(_ int, _, _ float64, out *fe.Stiffness) { *out = d }, held)
		require.NoError(t, err)
		f := make([]float64, 4*len(m.X)) // pull and bending of the far end
		for e := range m.El {
			if e < (nx-1)*nz {
				continue
			}
			el := m.El[e]
			lo := m.Z[el[1]]
			h := m.Z[el[2]] - lo
			for k, n := range [3]int{el[1], el[5], el[2]} {
				w := h * [3]float64{1. / 6, 4. / 6, 1. / 6}[k]
				f[4*n] += w / size
				f[4*n+1] += w * (m.Z[n] - size/2) * 12 / (size * size * size) // exact for a straight run by Simpson's rule
			}
		}
		x := append([]float64(nil), f...)
		require.NoError(t, b.Solve(x, 2))
		for i := 0; i < len(f); i += 2 {
			for a := range 2 {
				for c := range 2 {
					out[a][c] += f[i+a] * x[i+c]
				}
			}
		}
		return out
	}
	with, without := solve(share), solve(0)
	// twice the half; force 1 N/mm, moment 1 N
	e := o.ER
	return 2 * e * (with[0][0] - without[0][0]), 2 * e * size * (with[0][1] - without[0][1]), 2 * e * size * size * (with[1][1] - without[1][1])
}

// The line spring beside elements of the cracked strip, shallow and deep, in plates that are isotropic and in the plane
// across the grain of a wood like spruce.
func TestLineSpringBesideElements(t *testing.T) {
	for _, q := range []struct {
		name string
		o    fe.Ortho
		tol  float64
	}{
		{"isotropic", fe.Isotropic(1000, 0.3), 0.04},
		{"spruce", fe.Ortho{ER: 435, ET: 820, EL: 11000, GRT: 60, NuRT: 0.3, NuLR: 0.4, NuLT: 0.4}, 0.09},
	} {
		star := species.Ortho{E1: q.o.ET, E2: q.o.ER, Nu12: q.o.NuRT * q.o.ET / q.o.ER, G12: q.o.GRT}.ModeI()
		for _, share := range []float64{0.25, 0.5, 0.75} {
			nn, nm, mm, err := LineSpring(share, q.o.ER, star)
			require.NoError(t, err)
			a, b, c := cracked(t, q.o, share)
			assert.InEpsilon(t, a, nn, q.tol, "%s %g", q.name, share)
			assert.InEpsilon(t, b, nm, q.tol, "%s %g", q.name, share)
			assert.InEpsilon(t, c, mm, q.tol, "%s %g", q.name, share)
		}
	}
}

// No depth gives nothing, a deep one turns about what is left, and out of range is said.
func TestLineSpringEnds(t *testing.T) {
	nn, nm, mm, err := LineSpring(0, 1000, 1000)
	require.NoError(t, err)
	assert.Zero(t, nn+nm+mm)
	_, nm, mm, err = LineSpring(0.9, 1000, 1000)
	require.NoError(t, err)
	assert.InDelta(t, -0.45, -nm/mm, 0.04, "the middle of the last tenth, in thicknesses from the middle")
	for _, v := range [][3]float64{{-0.1, 1, 1}, {0.96, 1, 1}, {math.NaN(), 1, 1}, {0.5, 0, 1}, {0.5, 1, 0}} {
		_, _, _, err = LineSpring(v[0], v[1], v[2])
		assert.Error(t, err)
	}
}
