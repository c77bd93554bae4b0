package record

import "time"

// Spell is a stretch of readings without a gap: the first and the last, and the hours for which they
// stand.
type Spell struct {
	From, To time.Time
	Hours    float64
}

// Longest returns the longest stretch of successive readings of a quantity that are marked; a gap, or
// a reading that is not marked, ends it. The zero Spell when none is.
func (r *Record) Longest(q Quantity, marked func(i int) bool) Spell {
	s := r.series(q)
	var best, now Spell
	for k := range s.t {
		i := s.reading(k)
		if s.isGap(k) || !marked(i) {
			now = Spell{}
		}
		if !marked(i) {
			continue
		}
		if now.Hours == 0 {
			now.From = r.Times[i]
		}
		now.To, now.Hours = r.Times[i], now.Hours+s.w[k]/3600
		if now.Hours > best.Hours {
			best = now
		}
	}
	return best
}
