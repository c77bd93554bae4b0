package moisture

import (
	"math/rand/v2"
	"testing"

	"github.com/stretchr/testify/assert"
)

// The two pieces that a solver works with must be the memory itself, after any history, up to where
// they end.
func TestPiecesAreTheMemory(t *testing.T) {
	rng := rand.New(rand.NewPCG(3, 4))
	for _, b := range []*Branches{poplar(), oak()} {
		for range 50 {
			s := StartShare(b, rng.Float64(), rng.Float64())
			for range rng.IntN(12) {
				s.Commit(b, rng.Float64())
			}
			at, _, up, down := s.Pieces()
			_, us := s.Closure()
			for range 20 {
				h := rng.Float64()
				wet, dry := b.ads(h), b.des(h)
				want, _ := s.At(b, h)
				switch {
				case h > at && h < up.End:
					assert.InDelta(t, want, wet+up.Sum+up.Kept*(up.Full-wet), 1e-12, "wetting from %g to %g", at, h)
				case h < at && h > down.End && us > wet:
					l := min(max((dry-wet)/(us-wet), 0), 1)
					assert.InDelta(t, want, wet+down.Sum+l*(down.Full-wet), 1e-12, "drying from %g to %g", at, h)
				}
			}
		}
	}
}

// A share of the way between the curves at the start: at the ends the curves, between them straight.
func TestStartShare(t *testing.T) {
	b := poplar() // those of oak cross below saturation
	for _, h := range []float64{0, 0.3, 0.5, 0.8, 1} {
		for _, share := range []float64{-1, 0, 0.25, 0.5, 1, 2} {
			s := StartShare(b, h, share)
			x := min(max(share, 0), 1)
			assert.InDelta(t, b.ads(h)+x*(b.des(h)-b.ads(h)), at(&s, b), 1e-12, "%g at %g", share, h)
		}
	}
}
