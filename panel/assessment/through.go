package assessment

import (
	"cmp"
	"context"
	"fmt"
	"math"
	"slices"
	"time"

	"crossgrain/panel"
	"crossgrain/panel/internal/chance"
	"crossgrain/panel/response"
)

// Curves of a record as told.
const (
	CurveWidth = "width"
	CurveWarp  = "warp"
	CurveHold  = "hold"
)

// mostCurves is how many curves are kept of each realisation.
const mostCurves = 12

// Curve is the band of a curve over the days of a record: 5 and 95 in 100 of the realisations lie below the least and the greatest
// of each day.
type Curve struct {
	What      string // width, warp: free, mm; hold: force on the hardest fixing of the member Part, N
	Part      string
	Time      []time.Time
	Low, High []float64
}

// coursed are the realisations that were taken through a record.
type coursed struct {
	keys  []key
	share [][]float64 // [realisation][key], the worst of the record
	days  [][]float32 // [realisation]: for each curve, each day, least and greatest
	curve []Curve     // without bands
	kept  []int       // which of the realisations they are; others could not be worked out
}

// fixed hands over a course whose even steps were made once.
type fixed struct {
	course
	even []response.Stretch
}

func (f fixed) Even(time.Duration) ([]response.Stretch, error) { return f.even, nil }

// coarseStep is the step of setting Coarse.
const coarseStep = 3 * time.Hour

// through takes the first realisations through the record at setting Coarse and turns their shares into those of the model
// that is told, by what that says of the panel as described. When ctx ends, those that are done are kept.
func through(ctx context.Context, p *panel.Panel, q Question, z [][]float64, told *along) (*coursed, *along, error) {
	even, err := course{q.Record}.Even(coarseStep)
	if err != nil {
		return nil, nil, err
	}
	rec := fixed{course{q.Record}, even}
	o, err := p.Realise(nil)
	if err != nil {
		return nil, nil, err
	}
	plain, err := Question{Temperature: q.Temperature}.prepareAt(o, response.Coarse)
	if err != nil {
		return nil, nil, err
	}
	plain.Refine()
	nominal := &along{low: 1}
	if nominal.year, err = plain.FollowBriefly(context.WithoutCancel(ctx), rec, nominal); err != nil {
		return nil, nil, err
	}
	s := &coursed{share: make([][]float64, len(z)), days: make([][]float32, len(z))}
	for _, t := range told.worst {
		s.keys = append(s.keys, key{t.Mode, t.Part})
	}
	s.curves(nominal.year)
	rough := s.shares(nominal)
	ratio, add := make([]float64, len(s.keys)), make([]float64, len(s.keys))
	for j, t := range told.worst {
		ratio[j], add[j] = against(rough[j], t.Share())
	}
	lent := plain.Lend()
	done, err := each(ctx, len(z), q.Samples.telling(StageCourse, len(z)), func(i int) error {
		c, err := q.realised(p, z[i], response.Coarse)
		if err != nil {
			return err
		}
		c.RefineLike(lent)
		a := &along{low: 1}
		if a.year, err = c.FollowBriefly(ctx, rec, a); err != nil {
			return ctx.Err() // one that cannot be worked out is left out, and told
		}
		share := s.shares(a)
		for j := range share {
			share[j] = apply(share[j], ratio[j], add[j])
		}
		s.share[i], s.days[i] = share, s.extremes(a.year)
		return nil
	})
	if err != nil && ctx.Err() == nil {
		return nil, nil, err
	}
	for i := range done {
		if s.share[i] != nil {
			s.share[len(s.kept)], s.days[len(s.kept)] = s.share[i], s.days[i]
			s.kept = append(s.kept, i)
		}
	}
	if 10*len(s.kept) < 9*done {
		return nil, nil, fmt.Errorf("%d of %d cases could not be taken through the record", done-len(s.kept), done)
	}
	s.share, s.days = s.share[:len(s.kept)], s.days[:len(s.kept)]
	return s, nominal, nil
}

// shares are the worst shares of a course by key.
func (s *coursed) shares(a *along) []float64 {
	out := make([]float64, len(s.keys))
	for j, k := range s.keys {
		for i := range a.worst {
			if t := &a.worst[i]; t.Mode == k.Mode && t.Part == k.Part {
				out[j] = t.Share()
				break
			}
		}
	}
	return out
}

// curves lists what is kept of each day.
func (s *coursed) curves(y *response.Year) {
	s.curve = []Curve{{What: CurveWidth}, {What: CurveWarp}}
	for _, m := range y.Members {
		if len(s.curve) < mostCurves {
			s.curve = append(s.curve, Curve{What: CurveHold, Part: m.Part})
		}
	}
	for i := range s.curve {
		for _, d := range y.Days {
			s.curve[i].Time = append(s.curve[i].Time, d.Time)
		}
	}
}

// extremes are the least and the greatest of every curve on every day.
func (s *coursed) extremes(y *response.Year) []float32 {
	out := make([]float32, 0, 2*len(s.curve)*len(y.Days))
	for i := range s.curve {
		for _, d := range y.Days {
			v := [2]float64{math.NaN(), math.NaN()}
			switch {
			case i == 0:
				v = d.Width
			case i == 1:
				v = d.Warp
			case i-2 < len(d.Hold):
				v = d.Hold[i-2]
			}
			out = append(out, float32(v[0]), float32(v[1]))
		}
	}
	return out
}

// bands fills in the bands of all curves.
func (s *coursed) bands(w []float64) []Curve {
	n := len(s.days)
	if n == 0 {
		return nil
	}
	low, high := make([]float64, n), make([]float64, n)
	for i := range s.curve {
		c := &s.curve[i]
		for d := range c.Time {
			at := 2 * (i*len(c.Time) + d)
			for k, days := range s.days {
				if at+1 >= len(days) {
					low[k], high[k] = math.NaN(), math.NaN()
					continue
				}
				low[k], high[k] = float64(days[at]), float64(days[at+1])
			}
			c.Low = append(c.Low, chance.Quantile(low, w, 0.05))
			c.High = append(c.High, chance.Quantile(high, w, 0.95))
		}
	}
	return s.curve
}

// hits says of every realisation whether it reaches the limit of a part in the record.
func (s *coursed) hits(j int) []bool {
	hit := make([]bool, len(s.share))
	for i, share := range s.share {
		hit[i] = s.keys[j].SetsRange() && share[j] >= 1
	}
	return hit
}

// record takes the realisations through the record.
func (s *study) record(ctx context.Context, way *Ways, l *limited, z [][]float64, w *weighed) error {
	c, rough, err := through(ctx, s.p, s.q, z[:min(s.out.Asked[1], len(z))], s.told)
	if err != nil {
		return err
	}
	n := len(c.share)
	tried := 0
	if n > 0 {
		tried = c.kept[n-1] + 1
	}
	s.out.Course, s.out.LeftOut = n, s.out.LeftOut+tried-n
	s.out.Partial = s.out.Partial || ctx.Err() != nil
	if n < 2 {
		return ctx.Err()
	}
	weight := w.beyond
	if l.inside(s.r.Low) && l.inside(s.r.High) {
		weight = w.inside
	}
	points := make([][]float64, n)
	for k, i := range c.kept {
		points[k] = z[i]
	}
	if weight != nil {
		of := weight
		weight = make([]float64, n)
		for k, i := range c.kept {
			weight[k] = of[i]
		}
	}
	biases := c.biases(rough, s.fine, weight)
	way.Biases = biases
	refused := map[key]bool{}
	for _, b := range biases {
		refused[b.key] = b.Refused
	}
	worst := make([][]float64, len(c.keys))
	hit := make([]bool, n)
	for j, k := range c.keys {
		for _, share := range c.share {
			worst[j] = append(worst[j], share[j])
		}
		way.bands.worst = append(way.bands.worst, bandOf(worst[j], weight))
		if refused[k] || !k.SetsRange() {
			continue
		}
		own := c.hits(j)
		for i := range hit {
			hit[i] = hit[i] || own[i]
		}
		if n := count(weight, own); n.Of100 > 0 {
			way.Parts = append(way.Parts, PartCount{k, n})
		}
	}
	slices.SortStableFunc(way.Parts, func(a, b PartCount) int { return cmp.Compare(b.Of100, a.Of100) })
	way.bands.asked = c.keys
	way.Count, way.Before = count(weight, hit), count(nil, hit)
	way.Curves = c.bands(weight)
	return s.narrow(way, c.keys, points, worst, weight, nil)
}
