package assessment

import (
	"context"
	"slices"
	"time"

	"crossgrain/moisture"
)

// SeasonRange is the range for a while in one season of the climate a panel lives in: the air goes from where the wood stands then,
// and stays away for so long.
type SeasonRange struct {
	Damp bool          // the dampest season; else the driest
	From moisture.RH   // with which the wood is in balance then
	For  time.Duration // that each humidity is held
	Of   int           // realisations worked out
	RangeFor
}

// Of seasons, working choices: a humidity is held for a month, on fewer realisations, for one chance.
const (
	seasonHold   = 30 * 24 * time.Hour
	seasonCases  = 300
	seasonChance = 5
)

// seasons fills in the ranges from the driest and from the dampest state of a record that is the climate it lives in.
func (s *study) seasons(ctx context.Context, way *Ways, h *held, z [][]float64, w *weighed) error {
	y, n := s.r.Year, len(s.r.States)
	if y == nil || !y.Lived || n < 2 || len(way.Ranges) == 0 {
		return nil
	}
	low, high := caps(s.r)
	for i, from := range [...]moisture.RH{s.r.States[0].RH, s.r.States[n-1].RH} {
		in := h.startingAt(from, min(seasonHold, s.q.hold()))
		ones := make([]*one, min(seasonCases, len(z)))
		done, err := each(ctx, len(ones), nil, func(k int) (err error) {
			ones[k], err = in.at(z[k])
			return err
		})
		if err != nil {
			return err
		}
		if done < Fewest {
			return nil // stopped: the others stand
		}
		part := &weighed{evidence: w.evidence, inside: firstOf(w.inside, done), beyond: firstOf(w.beyond, done)}
		l := newLimited(in, ones[:done], part, from)
		way.Seasons = append(way.Seasons, SeasonRange{
			Damp: i == 1, From: from, For: in.hold, Of: done, RangeFor: l.rangeFor(seasonChance, min(low, from), max(high, from)),
		})
	}
	return nil
}

// startingAt asks the same of wood in balance with another humidity than it is used to.
func (h *held) startingAt(from moisture.RH, hold time.Duration) *held {
	out := *h
	out.from, out.hold, out.seen = from, hold, nil
	k := nearestOf(h.grid, from)
	if h.grid[k] == from {
		return &out
	}
	at, _ := slices.BinarySearch(h.grid, from)
	out.grid = slices.Insert(slices.Clone(h.grid), at, from)
	out.ratio = slices.Insert(slices.Clone(h.ratio), at, h.ratio[k])
	out.add = slices.Insert(slices.Clone(h.add), at, h.add[k])
	out.bend = slices.Insert(slices.Clone(h.bend), at, h.bend[k])
	return &out
}

// firstOf are the first weights; nil, all alike, stays nil.
func firstOf(w []float64, n int) []float64 {
	if w == nil {
		return nil
	}
	return w[:n]
}
