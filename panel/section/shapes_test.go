package section

import (
	"errors"
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"crossgrain/species"
	"crossgrain/tables"
)

// Rings that lean to the right going up shear a drying board: its front moves to the left of its back. Straight rings
// and rings of a pith far away agree.
func TestLean(t *testing.T) {
	for _, ring := range []species.RingAngle{45, -45, 20} {
		_, _, g := straight(ring, -0.01, -0.02) // change of angle, rotation of the strains
		if ring > 0 {
			require.Negative(t, g)
		}
		for _, r := range []float64{1e6, math.Inf(1)} {
			b := Timber{Board: Board{Width: 150, Thickness: 16, Ring: ring, RingRadius: r}, Wood: caseWood}
			m, err := Build([]Timber{b}, Options{})
			require.NoError(t, err)
			f, err := m.Field(fill(t, m, even(-0.01, -0.02)))
			require.NoError(t, err)
			p := m.parts[0]
			shift := f[0].DX[p.g.corner(0, p.g.front())] - f[0].DX[p.g.corner(0, p.g.back())]
			assert.InDelta(t, g*16, shift, 1e-4, "%v %g", ring, r)
		}
	}
}

func TestShapesAndSizes(t *testing.T) {
	f := even(-0.01, -0.02)
	for _, w := range []float64{20, 150, 900} {
		for _, h := range []float64{3, 20, 120} {
			for _, ring := range []species.RingAngle{0, 45, -45, 90} {
				b := Timber{Board: Board{Width: w, Thickness: h, Ring: ring, RingRadius: math.Max(400, w)}, Wood: caseWood}
				_, o := run(t, []Timber{b, b}, Options{}, f)
				assert.Negative(t, o.Width, "drying shrinks: %g %g %v", w, h, ring)
				assert.False(t, math.IsNaN(o.Cup))
			}
		}
	}
	many := make([]Timber, 40)
	for i := range many {
		many[i] = timber(50, 12, 25, -100)
	}
	_, o := run(t, many, Options{}, f)
	one, err := many[0].Free(-0.01, -0.02)
	require.NoError(t, err)
	assert.InEpsilon(t, 40*one.Width, o.Width, 0.01)
	wedge := timber(200, 15, 100, -80)
	wedge.ThicknessLeft, wedge.ThicknessRight = 10, 20
	bevel := wedge
	bevel.BevelLeft, bevel.BevelRight = Bevel{Width: 30, Edge: 4}, Bevel{Width: 20, Edge: 6}
	for _, b := range []Timber{wedge, bevel} {
		for _, fl := range []Flush{FlushFront, FlushBack} {
			m, err := Build([]Timber{b}, Options{Fineness: Fine, Flush: fl})
			require.NoError(t, err)
			fd, err := m.Field(fill(t, m, f))
			require.NoError(t, err)
			for _, p := range fd[0].Points {
				assert.Less(t, math.Abs(p.XX), 0.01, "the exact map holds no stress in any outline")
			}
		}
	}
}

func TestRefusedInWords(t *testing.T) {
	var inside *PithInsideError
	var size *tables.RangeError
	_, err := Build([]Timber{timber(200, 20, 100, 10)}, Options{})
	require.True(t, errors.As(err, &inside))
	_, err = Build(nil, Options{})
	require.True(t, errors.As(err, &size))
	_, err = Build([]Timber{timber(2, 20, 100, -10)}, Options{})
	require.True(t, errors.As(err, &size))
	b := timber(200, 20, 100, -60)
	b.Front = []Coat{{Thickness: 25, E: 3000, Nu: 0.3}}
	_, err = Build([]Timber{b}, Options{})
	require.ErrorContains(t, err, "thicker than the wood")
	b = timber(200, 20, 100, -60)
	b.Wood.GRT = 0
	_, err = Build([]Timber{b}, Options{})
	require.ErrorContains(t, err, "rolling shear modulus")
	b = timber(200, 20, 100, -60)
	up := b
	up.Proud = 25
	_, err = Build([]Timber{b, up}, Options{})
	require.ErrorContains(t, err, "meet over")
	_, err = Build([]Timber{b, b}, Options{Joins: []Link{{OpenTo: 1}}})
	require.ErrorContains(t, err, "two panels")
	_, err = Build([]Timber{b, b}, Options{Joins: []Link{{}, {}}})
	require.ErrorContains(t, err, "one fewer")
	m, err := Build([]Timber{b}, Options{})
	require.NoError(t, err)
	require.Error(t, m.Eval(m.NewOut(), nil))
	_, err = m.Fill(make([]float64, m.Loads(0)), 0, &Movement{At: []float64{0, 1}, R: []float64{0, math.NaN()}, T: []float64{0, 0}})
	require.ErrorContains(t, err, "finite")
}
