package fracture

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
)

// The same sheet by finite differences, half of it, 0.1 mm apart: the stretch in the middle of the channel beside that without one.
func TestUnderChannelByDifferences(t *testing.T) {
	const half, decay, h = 25.0, 120.0, 0.1
	n := int(12 * decay / h)
	middle := func(left float64) float64 {
		at := func(y float64) float64 {
			if y < half {
				return left
			}
			return 1
		}
		// -t(i-1/2) u(i-1) + (t(i-1/2)+t(i+1/2)+h^2 t/decay^2) u(i) - t(i+1/2) u(i+1) = h^2 q, solved from the far end inwards
		over, rest := make([]float64, n+1), make([]float64, n+1) // u(i) = over u(i-1) + rest
		for i := n - 1; i >= 0; i-- {
			y := (float64(i) + 0.5) * h
			lo, hi, q := at(y-h/2), at(y+h/2), 0.0
			if i == 0 {
				lo = 0 // the same on the other side
			}
			if y < half {
				q = h * h
			}
			d := lo + hi + h*h*at(y)/decay/decay - hi*over[i+1]
			over[i], rest[i] = lo/d, (q+hi*rest[i+1])/d
		}
		return rest[0]
	}
	for _, left := range [...]float64{0.1, 0.3, 0.5, 0.8} {
		assert.InEpsilon(t, middle(left)/middle(1), UnderChannel(left, half, decay), 2e-3, "%g left", left)
	}
}

// By hand, half of the thickness left, 40 mm wide, decay 155 mm: x = 0.129, f = (1 - 1/(1.0083+0.0647))/(0.5*0.1210) = 1.125.
// A narrow channel is stretched with the wood beside it, a very wide one takes all by itself; without a channel nothing changes.
func TestUnderChannelLimits(t *testing.T) {
	assert.InDelta(t, 1.125, UnderChannel(0.5, 20, 155), 2e-3)
	assert.InDelta(t, 1, UnderChannel(0.3, 1e-3, 155), 1e-4)
	assert.Equal(t, 1.0, UnderChannel(0.3, 0, 155))
	assert.InDelta(t, 4, UnderChannel(0.25, 1e5, 155), 1e-9)
	for _, half := range [...]float64{1, 20, 300} {
		assert.InDelta(t, 1, UnderChannel(1, half, 155), 1e-12)
	}
	assert.Greater(t, UnderChannel(0.3, 30, 155), UnderChannel(0.3, 20, 155))
	assert.Greater(t, UnderChannel(0.3, 20, 155), UnderChannel(0.5, 20, 155))
	for _, bad := range [...]float64{0, -1, 1.1, math.NaN()} {
		assert.True(t, math.IsNaN(UnderChannel(bad, 20, 155)))
	}
	assert.True(t, math.IsNaN(UnderChannel(0.5, 20, 0)))
}
