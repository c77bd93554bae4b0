package assessment

import (
	"cmp"
	"math"
	"slices"

	"crossgrain/moisture"
	"crossgrain/panel/internal/chance"
)

// Count is how many of 100 such panels, with the standard error that comes from having tried so many and no more.
type Count struct{ Of100, Error float64 }

func count(w []float64, hit []bool) Count {
	share, err := chance.Share(w, hit)
	return Count{100 * share, 100 * err}
}

// PartCount is how many of 100 such panels reach the limit of one part.
type PartCount struct {
	key
	Count
}

// RangeFor is a range inside which at most Chance of 100 such panels reach a limit; what stands at its ends.
type RangeFor struct {
	Chance        float64 // asked for, of 100
	Low, High     moisture.RH
	LowBy, HighBy string // mode:part that most panels reach first there, "cap", or "lived" where evidence ends
	None          bool   // more reach a limit at the humidity it is used to already
	Count         Count  // at those ends
	Trusts        bool   // the ends rest on what the panel has lived through, against the calculation alone
}

// crossing is where a realisation first reaches a limit on one side, +-Inf where it does not up to the cap.
type crossing struct {
	rh  float64
	key int
}

// limited holds for every realisation where it reaches a limit on the dry and on the damp side.
type limited struct {
	h         *held
	w         *weighed
	used      int // place in the grid
	dry, damp []crossing
}

// newLimited finds the crossings; straight lines between the humidities of the grid.
func newLimited(h *held, ones []*one, w *weighed, used moisture.RH) *limited {
	l := &limited{h: h, w: w}
	for g, rh := range h.grid {
		if math.Abs(float64(rh-used)) < math.Abs(float64(h.grid[l.used]-used)) {
			l.used = g
		}
	}
	for _, o := range ones {
		l.dry = append(l.dry, l.cross(o, -1))
		l.damp = append(l.damp, l.cross(o, 1))
	}
	return l
}

// cross walks from the used-to humidity in one direction of the grid.
func (l *limited) cross(o *one, step int) crossing {
	best := crossing{math.Inf(step), -1}
	for j, k := range l.h.keys {
		if !k.SetsRange() {
			continue
		}
		if o.share[l.used][j] >= 1 {
			return crossing{float64(l.h.grid[l.used]), j}
		}
		for g := l.used + step; g >= 0 && g < len(l.h.grid); g += step {
			s, was := o.share[g][j], o.share[g-step][j]
			if s < 1 {
				continue
			}
			a, b := float64(l.h.grid[g-step]), float64(l.h.grid[g])
			rh := a + (b-a)*(1-was)/(s-was)
			if float64(step)*(rh-best.rh) < 0 {
				best = crossing{rh, j}
			}
			break
		}
	}
	return best
}

// inside says whether a humidity is one that the panel has passed and that counts as evidence.
func (l *limited) inside(rh moisture.RH) bool {
	e := l.w.evidence
	return e.Survival && rh >= e.Lived.Low-1e-9 && rh <= e.Lived.High+1e-9
}

// side counts those that reach a limit between the used-to humidity and a humidity on one side. What the panel has lived through
// counts for that climate alone, not for a drier or damper one.
func (l *limited) side(rh moisture.RH, step int) Count {
	w := l.w.beyond
	if l.inside(rh) {
		w = l.w.inside
	}
	return count(w, l.hits(rh, step))
}

func (l *limited) hits(rh moisture.RH, step int) []bool {
	at := l.dry
	if step > 0 {
		at = l.damp
	}
	hit := make([]bool, len(at))
	for i, c := range at {
		hit[i] = float64(step)*(float64(rh)-c.rh) >= -1e-12
	}
	return hit
}

// between counts those that reach a limit anywhere from low to high. Where evidence covers one end only, the two sides are added.
func (l *limited) between(low, high moisture.RH) Count {
	if l.inside(low) == l.inside(high) {
		w := l.w.beyond
		if l.inside(low) {
			w = l.w.inside
		}
		hit, damp := l.hits(low, -1), l.hits(high, 1)
		for i := range hit {
			hit[i] = hit[i] || damp[i]
		}
		return count(w, hit)
	}
	a, b := l.side(low, -1), l.side(high, 1)
	return Count{min(100, a.Of100+b.Of100), math.Hypot(a.Error, b.Error)}
}

// byPart counts for every part those that reach its limit from low to high, most first; those that nobody reaches are left out.
func (l *limited) byPart(ones []*one, low, high moisture.RH) []PartCount {
	w := l.w.beyond
	if l.inside(low) && l.inside(high) {
		w = l.w.inside
	}
	var out []PartCount
	for j, k := range l.h.keys {
		hit := make([]bool, len(ones))
		for i, o := range ones {
			for g, rh := range l.h.grid {
				hit[i] = hit[i] || rh >= low-1e-9 && rh <= high+1e-9 && o.share[g][j] >= 1
			}
		}
		if c := count(w, hit); c.Of100 > 0 && k.SetsRange() {
			out = append(out, PartCount{k, c})
		}
	}
	slices.SortStableFunc(out, func(a, b PartCount) int { return cmp.Compare(b.Of100, a.Of100) })
	return out
}

// fineStep is the step in which ends of a range are looked for: half a point, finer than any is told.
const fineStep = moisture.RH(0.005)

// rangeFor finds the range for a chance of n in 100: both sides go outward together, each to half of the chance, and then the side
// that has room goes on until the whole is used up.
func (l *limited) rangeFor(n float64, low, high moisture.RH) RangeFor {
	used := l.h.grid[l.used]
	r := RangeFor{Chance: n, Low: used, High: used}
	if l.between(used, used).Of100 > n {
		r.None = true
		r.Count = l.between(used, used)
		return r
	}
	fits := func(lo, hi moisture.RH) bool { return l.between(lo, hi).Of100 <= n+1e-9 }
	out := func(from, to moisture.RH, ok func(moisture.RH) bool) moisture.RH {
		step := fineStep
		if to < from {
			step = -step
		}
		for at := from; ; {
			next := at + step
			if (to-next)*step <= 0 {
				next = to
			}
			if !ok(next) {
				return at
			}
			if at = next; at == to {
				return at
			}
		}
	}
	r.Low = out(used, low, func(rh moisture.RH) bool { return l.side(rh, -1).Of100 <= n/2 && fits(rh, used) })
	r.High = out(used, high, func(rh moisture.RH) bool { return fits(r.Low, rh) })
	r.Low = out(r.Low, low, func(rh moisture.RH) bool { return fits(rh, r.High) })
	r.Count = l.between(r.Low, r.High)
	r.LowBy, r.HighBy = l.stands(r.Low, low, -1), l.stands(r.High, high, 1)
	r.Trusts = l.trusts(r, n)
	return r
}

// stands names what stands at an end of a range: what most realisations reach first just beyond it.
func (l *limited) stands(rh, limit moisture.RH, step int) string {
	if rh == limit {
		return "cap"
	}
	at, w := l.dry, l.w.beyond
	if step > 0 {
		at = l.damp
	}
	votes := make([]float64, len(l.h.keys))
	for i, c := range at {
		if c.key < 0 || float64(step)*(c.rh-float64(rh)-0.05*float64(step)) > 0 {
			continue // not within five points beyond
		}
		weight := 1.0
		if w != nil {
			weight = w[i]
		}
		votes[c.key] += weight
	}
	best := -1
	for j, v := range votes {
		if v > 0 && (best < 0 || v > votes[best]*(1+1e-9)) {
			best = j
		}
	}
	if best < 0 {
		return "cap"
	}
	return string(l.h.keys[best].Mode) + ":" + l.h.keys[best].Part
}

// trusts says that without the evidence of survival the range would be narrower.
func (l *limited) trusts(r RangeFor, n float64) bool {
	if !l.w.evidence.Survival {
		return false
	}
	hit, damp := l.hits(r.Low, -1), l.hits(r.High, 1)
	for i := range hit {
		hit[i] = hit[i] || damp[i]
	}
	return count(l.w.beyond, hit).Of100 > n+1e-9
}
