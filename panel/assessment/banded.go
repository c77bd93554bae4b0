package assessment

import (
	"slices"

	"crossgrain/moisture"
)

// band gives states and worst moments the bands of the realisations in place of those of single inputs. Realisations held for less
// than a season say nothing of settled states, which keep theirs.
func (r *Result) band() {
	season, record := r.Doubt.For >= season, r.Doubt.Asked[1] > 0
	if season || record {
		for i := range r.Worst {
			w := &r.Worst[i]
			if b, ok := r.Doubt.worst(key{w.Mode, w.Part}); ok {
				w.Band = b
			}
		}
	}
	if !season {
		return
	}
	for i := range r.Sweep {
		r.Doubt.at(&r.Sweep[i])
	}
	for i := range r.States {
		r.Doubt.at(&r.States[i])
	}
	if r.Range.Nominal == nil {
		return
	}
	if u := r.Doubt.unfavourable(); u != nil {
		r.Range.Unfavourable, r.Range.WhyUnfavourable = u, ""
	} else if r.Doubt.Fork != nil {
		r.Range.Unfavourable, r.Range.WhyUnfavourable = nil, "fork: "+r.Doubt.Fork.Path
	}
}

// at fills the bands of one state in, over all ways.
func (d *Doubt) at(s *State) {
	first := true
	for i := range d.Ways {
		b := &d.Ways[i].bands
		g, f := place2(b.grid, s.RH)
		mix := func(v func(g int) Band) Band {
			lo, hi := v(g), v(g+1)
			return Band{(1-f)*lo.Low + f*hi.Low, (1-f)*lo.High + f*hi.High}
		}
		warp, width := mix(func(g int) Band { return b.warp[g] }), mix(func(g int) Band { return b.width[g] })
		if first {
			s.WarpBand, s.WidthBand = &warp, &width
		} else {
			*s.WarpBand, *s.WidthBand = s.WarpBand.with(warp), s.WidthBand.with(width)
		}
		for j, dem := range s.Demands {
			k := placeOf(b.keys, j, key{dem.Mode, dem.Part})
			if k < 0 || j >= len(s.Bands) {
				continue
			}
			one := mix(func(g int) Band { return b.share[g][k] })
			if first {
				s.Bands[j] = one
			} else {
				s.Bands[j] = s.Bands[j].with(one)
			}
		}
		first = false
	}
}

// worst is the band of a part over what was asked about, over all ways.
func (d *Doubt) worst(k key) (out Band, ok bool) {
	for i := range d.Ways {
		b := &d.Ways[i].bands
		j := slices.Index(b.asked, k)
		switch {
		case j < 0:
		case ok:
			out = out.with(b.worst[j])
		default:
			out, ok = b.worst[j], true
		}
	}
	return out, ok
}

// place2 is where a humidity lies in a grid: after which place, and how far to the next.
func place2(grid []moisture.RH, rh moisture.RH) (int, float64) {
	if len(grid) < 2 {
		return 0, 0
	}
	i, _ := slices.BinarySearch(grid, rh)
	i = min(max(i-1, 0), len(grid)-2)
	return i, min(max(float64(rh-grid[i])/float64(grid[i+1]-grid[i]), 0), 1)
}

// with is the band that holds both.
func (b Band) with(o Band) Band { return Band{min(b.Low, o.Low), max(b.High, o.High)} }

// unfavourable is the range for 5 of 100 panels, of ways that differ what they have in common; nil where some way has none.
func (d *Doubt) unfavourable() *Limits {
	var out *Limits
	for i := range d.Ways {
		k := slices.IndexFunc(d.Ways[i].Ranges, func(r RangeFor) bool { return r.Chance == 5 && !r.None })
		if k < 0 {
			return nil
		}
		r := &d.Ways[i].Ranges[k]
		if out == nil {
			out = &Limits{r.Low, r.High, r.LowBy, r.HighBy}
			continue
		}
		if r.Low > out.Low {
			out.Low, out.LowBy = r.Low, r.LowBy
		}
		if r.High < out.High {
			out.High, out.HighBy = r.High, r.HighBy
		}
	}
	return out
}

// Curve is the band of a curve over all ways; nil where there is none.
func (d *Doubt) Curve(what, part string) *Curve {
	var out *Curve
	for i := range d.Ways {
		for _, c := range d.Ways[i].Curves {
			switch {
			case c.What != what || c.Part != part:
			case out == nil:
				c.Low, c.High = slices.Clone(c.Low), slices.Clone(c.High)
				out = &c
			default:
				for k := range out.Time {
					out.Low[k], out.High[k] = min(out.Low[k], c.Low[k]), max(out.High[k], c.High[k])
				}
			}
		}
	}
	return out
}
