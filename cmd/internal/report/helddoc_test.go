package report

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
)

// The present warp is told once, beside the warps that come on top of it, and counts towards what lies outside the calculation.
func TestPresentWarpInWords(t *testing.T) {
	words := func(present *float64, warp float64) string {
		a := invented()
		a.Panel.PresentWarpMM = present
		a.States[0].Stands = &Stands{WarpMM: warp}
		return strings.Join(a.standsWords(), "\n")
	}
	assert.Empty(t, words(nil, 8))
	assert.Equal(t, "All these warps come on top of the shape it has at the humidity it is used to: 4.0 mm hollow.", words(ptr(-4), 8))
	assert.Contains(t, words(ptr(4), 8), "A warp of 12 mm", "the panel is 11.3 mm thick")
	assert.Contains(t, words(ptr(0), 8), "used to: flat.")
}
