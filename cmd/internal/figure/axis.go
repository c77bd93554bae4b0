package figure

import (
	"math"

	"gonum.org/v1/plot/vg"
)

// scale carries values lo..hi to places a..b on the canvas.
type scale struct {
	lo, hi float64
	a, b   vg.Length
	log    bool // by decades
}

// at is the place of a value; not finite for a value that has none.
func (s scale) at(v float64) vg.Length {
	lo, hi := s.lo, s.hi
	if s.log {
		if v <= 0 {
			return vg.Length(math.NaN())
		}
		v, lo, hi = math.Log10(v), math.Log10(lo), math.Log10(hi)
	}
	return s.a + vg.Length((v-lo)/(hi-lo))*(s.b-s.a)
}

// clamp is the place of a value, or of the nearer end of the scale.
func (s scale) clamp(v float64) vg.Length { return s.at(max(s.lo, min(v, s.hi))) }

// holds reports whether a value lies on the scale.
func (s scale) holds(v float64) bool { return v >= s.lo && v <= s.hi }

// step is a round distance of ticks, 1, 2 or 5 times a power of ten, with at most most of them.
func step(extent float64, most int) float64 {
	if !(extent > 0) || math.IsInf(extent, 0) {
		return 1
	}
	p := math.Pow(10, math.Floor(math.Log10(extent/float64(most))))
	for _, m := range [...]float64{1, 2, 5, 10} {
		if extent/(m*p) <= float64(most) {
			return m * p
		}
	}
	return 10 * p
}

// ticks are the multiples of d from lo to hi.
func ticks(lo, hi, d float64) []float64 {
	var out []float64
	if !(d > 0) || !((hi-lo)/d <= 200) {
		return nil
	}
	for i := math.Ceil(lo/d - 1e-9); i*d <= hi+d*1e-9; i++ {
		out = append(out, i*d)
	}
	return out
}

// decades are the ticks of a scale by decades: 1, 2, 5 over one or two decades, 1 over more.
func decades(lo, hi float64) []float64 {
	var out []float64
	each := []float64{1, 2, 5}
	if hi/lo > 300 {
		each = each[:1]
	}
	for e := math.Floor(math.Log10(lo)); e <= math.Log10(hi) && len(out) < 60; e++ {
		for _, m := range each {
			if v := m * math.Pow(10, e); v >= lo*(1-1e-9) && v <= hi*(1+1e-9) {
				out = append(out, v)
			}
		}
	}
	return out
}

// extent is the range of the usable values; ok is false where there is none.
func extent(series ...[]float64) (lo, hi float64, ok bool) {
	lo, hi = math.Inf(1), math.Inf(-1)
	for _, s := range series {
		for _, v := range s {
			if usable(v) {
				lo, hi = min(lo, v), max(hi, v)
			}
		}
	}
	return lo, hi, lo <= hi
}

// digits are what the ticks of a scale with this step need behind the point.
func digits(d float64) int {
	if d >= 1 || !(d > 0) {
		return 0
	}
	return min(6, int(math.Ceil(-math.Log10(d)-1e-9)))
}

// rhRange is the part of the humidity scale that holds all values: 20..80 %, wider if need be.
func rhRange(series ...[]float64) (lo, hi float64) {
	lo, hi = 20, 80
	if a, b, ok := extent(series...); ok {
		lo = max(0, min(lo, 10*math.Floor(a/10)))
		hi = min(100, max(hi, 10*math.Ceil(b/10)))
	}
	return lo, hi
}

// rhAxis draws the axis of humidity at height y with its name beneath; it takes rhAxisHeight below y.
func (p pen) rhAxis(s scale, y vg.Length) {
	p.bottomAxis(s, y, ticks(s.lo, s.hi, 10), func(v float64) string { return fixed(v, 0) }, rhName)
}

const (
	rhName                     = "Relative humidity / %"
	bottomAxisHeight vg.Length = 28
	tick             vg.Length = 3
)

// bottomAxis draws an axis at height y: line, ticks, numbers, its name in the middle.
func (p pen) bottomAxis(s scale, y vg.Length, at_ []float64, write func(float64) string, name string) {
	p.line(stroke{thin, ink, nil}, at(s.a, y), at(s.b, y))
	last := vg.Length(math.Inf(-1))
	for _, v := range at_ {
		x := s.at(v)
		p.line(stroke{thin, ink, nil}, at(x, y), at(x, y-tick))
		t := write(v)
		w := plainText.width(t)
		if x-w/2 < last+4 {
			continue
		}
		p.text(t, at(x, y-tick-9), plainText, middle)
		last = x + w/2
	}
	p.text(name, at((s.a+s.b)/2, y-tick-21), plainText, middle)
}
