package section

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

func TestOpenJoins(t *testing.T) {
	dry := even(-0.0075, -0.015)
	base := caseC()[:2]
	sound, so := run(t, base, Options{}, dry)
	_ = sound
	m, err := Build(base, Options{Joins: []Link{{OpenFrom: 0.6, OpenTo: 1}}})
	require.NoError(t, err)
	loads := fill(t, m, dry)
	out := m.NewOut()
	require.NoError(t, m.Eval(out, loads))
	z := m.JoinHeights(0)
	for i := range z {
		if z[i] > 0.6*18+1e-9 {
			assert.InDelta(t, 0, out.Joins[0].Force[i], 1e-12)
		}
	}
	assert.NotEqual(t, so.Cup, out.Cup)
	// a front that swells shuts the open part: then nothing pulls there and nothing passes through
	push := fill(t, m, Movement{At: []float64{0, 0.8, 1}, R: []float64{0, 0, 0.01}, T: []float64{0, 0, 0.02}})
	n, err := m.Touch(push)
	require.NoError(t, err)
	require.Positive(t, n, "a skin that swells shuts the open front")
	require.NoError(t, m.Eval(out, push))
	pressed := 0.0
	for _, f := range out.Joins[0].Force {
		pressed = math.Min(pressed, f)
	}
	require.Negative(t, pressed)
	for i := range z {
		if m.seams[0].open[i] {
			gap := m.opening(out, 0, i)
			if m.seams[0].shut[i] {
				assert.LessOrEqual(t, out.Joins[0].Force[i], 1e-9)
				assert.InDelta(t, 0, gap, 1e-9)
			} else {
				assert.GreaterOrEqual(t, gap, -1e-9)
			}
		}
	}
	// drying the skin parts the faces again
	pull := fill(t, m, Movement{At: []float64{0, 0.8, 1}, R: []float64{0, 0, -0.01}, T: []float64{0, 0, -0.02}})
	n, err = m.Touch(pull)
	require.NoError(t, err)
	assert.Zero(t, n)
	// a soft glue line gives more than a rigid one under pull
	soft, err := Build(base, Options{Joins: []Link{{Normal: 10, Shear: 5}}})
	require.NoError(t, err)
	un, _, err := soft.Unit()
	require.NoError(t, err)
	ur, _, err := sound.Unit()
	require.NoError(t, err)
	assert.InDelta(t, 1/(10*18.), un.Width-ur.Width, 0.15/(10*18), "pull of 1 N/mm over 18 mm at 10 MPa/mm")
}

// The field is continuous over the joins, and the outputs of an hour are those of the field: what is left out of far
// boards does not show.
func TestFieldAgreesWithOutputs(t *testing.T) {
	b := append(caseC(), timber(60, 18, 30, -40), timber(200, 18, 20, -50))
	m, o := run(t, b, Options{}, Movement{At: []float64{0, 0.5, 1}, R: []float64{-0.01, 0, 0}, T: []float64{-0.02, 0, 0.001}})
	f, err := m.Field(fill(t, m, Movement{At: []float64{0, 0.5, 1}, R: []float64{-0.01, 0, 0}, T: []float64{-0.02, 0, 0.001}}))
	require.NoError(t, err)
	for j := range len(b) - 1 {
		for n, x := range f[j].X {
			if x < m.parts[j+1].g.left-1e-9 {
				continue
			}
			for k, y := range f[j+1].X {
				if y == x && f[j+1].Z[k] == f[j].Z[n] {
					assert.InDelta(t, f[j].DX[n], f[j+1].DX[k], 1e-8)
					assert.InDelta(t, f[j].DZ[n], f[j+1].DZ[k], 1e-8)
				}
			}
		}
	}
	for s, x := range m.Stations() {
		best := math.Inf(1)
		var want float64
		for i, p := range m.parts {
			if x < p.g.left || x > p.g.left+p.t.Width {
				continue
			}
			c, xi := p.g.place(x - p.g.left)
			w := quadratic(xi)
			z := w[0]*f[i].DZ[p.g.corner(c, 0)] + w[1]*f[i].DZ[p.g.middle(c, 0)] + w[2]*f[i].DZ[p.g.corner(c+1, 0)]
			if best > 0 {
				best, want = 0, z
			}
		}
		assert.InDelta(t, want, o.Warp[s], 1e-8)
	}
}
