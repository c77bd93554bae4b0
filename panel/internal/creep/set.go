package creep

import "math"

// Set returns the lasting shortening of wood that wanted to swell by the strain swelling while it
// was held, when it bears limit before it is crushed, and relief of it has crept away meanwhile:
//
//	set = max(0, swelling - limit - relief)
//
// The elastic limit in compression across the grain is 0.005 to 0.010 (Hoadley 1998, p. 18 of The
// Structural Conservation of Panel Paintings).
func Set(swelling, limit, relief float64) float64 { return max(0, swelling-limit-relief) }

// Bar is a piece of wood across the grain held between two fast ends. It bears the strain
// Compression (above 0) before it is crushed, and Tension before it is stretched for good; +Inf
// stands for no limit. Shortened is the set it carries: positive = shorter than it was.
type Bar struct{ Compression, Tension, Shortened float64 }

// Hold brings the bar to the free strain e (swelling positive) and returns the strain it bears, in
// tension positive:
//
//	held = set - e,  kept within -Compression and Tension by more or less set
func (b *Bar) Hold(e float64) (held float64) {
	held = b.Shortened - e
	switch {
	case held < -b.Compression:
		b.Shortened = e - b.Compression
	case held > b.Tension:
		b.Shortened = e + b.Tension
	}
	return b.Shortened - e
}

// Seasons is where a bar held at both ends comes to rest.
type Seasons struct {
	Set      float64 // lasting shortening after the damp season
	Dry      float64 // strain held in the dry season, tension positive
	Damp     float64 // strain held in the damp season
	Lasting  bool    // set no longer changes from year to year
	PerCycle float64 // set made and unmade each year when it does
}

// Settled returns the state of a bar without set at first, after it has seen free strains between
// dry and damp (dry <= damp) often enough. One damp season gives all the set there will be, unless
// the swing is wider than the two limits together; then the wood is crushed and stretched again
// each year.
func (b Bar) Settled(dry, damp float64) Seasons {
	b.Hold(damp)
	b.Hold(dry)
	s := Seasons{Damp: b.Hold(damp), Set: b.Shortened}
	s.Dry = b.Hold(dry)
	s.PerCycle = math.Max(0, damp-dry-b.Compression-b.Tension)
	s.Lasting = s.PerCycle == 0
	return s
}

// Perpetual returns the shortening after n damp seasons of wood that swells by the strain swelling
// each time, in a frame that it can shrink away from, when the share packed (0..1) of each dry gap
// fills up with dirt, fill or by wedging:
//
//	set(n) = (swelling - limit) [ 1 + packed (n-1) ]
//
// With open gaps (packed 0) the first damp season gives all; else it never ends ("perpetual
// shrinkage": Hoadley 1998, p. 18, describes the cycle; the form with a packed share is worked out
// here from the rule of [Set]).
func Perpetual(swelling, limit, packed float64, n int) float64 {
	if n < 1 {
		return 0
	}
	return Set(swelling, limit, 0) * (1 + packed*float64(n-1))
}
