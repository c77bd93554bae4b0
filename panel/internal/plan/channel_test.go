package plan

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// flexOf returns how much a strip with a channel right across it stretches and turns for each mm of its length, for a unit of
// force and of moment about the middle of the whole thickness, from strips of two lengths.
func flexOf(t *testing.T, depth float64) (nn, nm, mm float64) {
	t.Helper()
	at := func(width float64) (c [4]float64) {
		p := spruceLike(12)
		p.Width, p.NuLX, p.GXL, p.GXZ, p.GLZ = width, 0, 1e5, 1e5, 1e5 // plane sections stay plane
		l := Layout{Plates: []Plate{p}, Length: 100, CellX: 10, CellY: 5}
		if depth > 0 {
			l.Channels = []Channel{{Y: 50, Width: 40, To: width, Depth: depth}}
		}
		q := ends(t, l)
		f := func(i, k int) float64 { return q.F[4*i+k] + q.F[4*(i+1)+k+1] - q.F[4*i+k+1] - q.F[4*(i+1)+k] }
		return [4]float64{f(0, 0), f(0, 2), f(2, 2)}
	}
	a, b := at(300), at(600)
	return (b[0] - a[0]) / 300, (b[1] - a[1]) / 300, (b[2] - a[2]) / 300
}

// A strip with a channel across it stretches and bends as a bar of that section: area, first and second moment about the middle of
// the whole thickness; a shallow channel next to nothing (strength of materials).
func TestChannelIsABarOfThatSection(t *testing.T) {
	const e, length, width, thick = 550.0, 100.0, 40.0, 12.0
	for _, d := range []float64{0, 4, 8} {
		nn, nm, mm := flexOf(t, d)
		z := -(thick - d) / 2 // middle of what is cut out
		a := e * (length*thick - width*d)
		s := -e * width * d * z
		i := e * (length*thick*thick*thick/12 - width*(d*d*d/12+d*z*z))
		det := a*i - s*s
		assert.InEpsilon(t, i/det, nn, 0.01, "depth %g", d)
		assert.InDelta(t, -s/det, nm, 0.02*i/det/thick, "depth %g", d)
		assert.InEpsilon(t, a/det, mm, 0.02, "depth %g", d)
	}
}

// Its gain by yielding is that of the two states, and out of range is said.
func TestChannelRange(t *testing.T) {
	p := spruceLike(12)
	l := Layout{Plates: []Plate{p}, Length: 200, Channels: []Channel{{Y: 100, Width: 40, To: 600, Depth: 6}}}
	s, err := l.Condense(3, onPatches([]Patch{{X: 100, Y: 100, Length: 20}, {X: 500, Y: 100, Length: 20}}, U, W))
	require.NoError(t, err)
	f, err := s.At(3)
	require.NoError(t, err)
	for i := range f {
		assert.InDelta(t, s.Yielded.F[i], f[i], 1e-12*s.Yielded.F[0])
	}
	near, err := s.At(1.05) // from the rates at the start, beside a model of that wood
	require.NoError(t, err)
	m, err := NewModel(l, 1.05)
	require.NoError(t, err)
	targets, err := onPatches([]Patch{{X: 100, Y: 100, Length: 20}, {X: 500, Y: 100, Length: 20}}, U, W)(m)
	require.NoError(t, err)
	c, err := m.Condense(targets)
	require.NoError(t, err)
	assert.InEpsilon(t, c.F[0]-s.Short.F[0], near[0]-s.Short.F[0], 0.1)
	for _, q := range []Channel{{Y: 100, Width: 40, To: 600, Depth: 12}, {Y: 100, To: 600, Depth: 5}, {Y: 100, Width: 40, To: 600}} {
		l.Channels[0] = q
		_, err := NewModel(l)
		assert.ErrorContains(t, err, "channel at 100 mm")
	}
}
