package illustrate

import (
	"cmp"
	"fmt"
	"math"
	"slices"
	"time"

	"crossgrain/cmd/internal/figure"
	"crossgrain/cmd/internal/report"
	"crossgrain/moisture"
	"crossgrain/panel/assessment"
	"crossgrain/panel/response"
)

// coursePoints is how many points the course of a record is drawn with; longer ones take several days each.
const coursePoints = 1200

// yearFigure draws the course of a record by days; days without readings stay open.
func yearFigure(meta figure.Meta, doc *report.Assess, r *assessment.Result) figure.YearCourse {
	days := r.Year.Days
	first := midnight(days[0].Time)
	f := figure.YearCourse{Meta: meta, Start: first, UsedToPct: doc.UsedTo.RHPct, Every: 1 + (len(days)-1)/coursePoints}
	nan := [2]float64{math.NaN(), math.NaN()}
	for i := 0; i < len(days); {
		d := days[i]
		from, n := courseDay(first, d), 1
		for i+n < len(days) && n < f.Every && courseDay(first, days[i+n]) == from+float64(n) {
			e := &days[i+n]
			for _, p := range [...][2]*[2]float64{{&d.RH, &e.RH}, {&d.Warp, &e.Warp}, {&d.Width, &e.Width}, {&d.WidthMemory, &e.WidthMemory}} {
				*p[0] = [2]float64{min(p[0][0], p[1][0]), max(p[0][1], p[1][1])}
			}
			n++
		}
		if i > 0 && from > courseDay(first, days[i-1])+1 {
			addDay(&f, courseDay(first, days[i-1])+1, nan, nan, nan, nan[0])
		}
		addDay(&f, from+float64(n)/2, [2]float64{100 * d.RH[0], 100 * d.RH[1]}, d.Warp, d.Width, (d.WidthMemory[0]+d.WidthMemory[1])/2)
		i += n
	}
	f.WarpCases, f.WidthCases = casesOn(r, assessment.CurveWarp, "", first, f.Days, f.Every), casesOn(r, assessment.CurveWidth, "", first, f.Days, f.Every)
	f.Moments = moments(doc, first)
	return f
}

// courseDay is the number of whole days since the first.
func courseDay(first time.Time, d response.Day) float64 {
	return math.Round(midnight(d.Time).Sub(first).Hours() / 24)
}

func addDay(f *figure.YearCourse, day float64, rh, warp, width [2]float64, remembered float64) {
	f.Days = append(f.Days, day)
	f.LowPct, f.HighPct = append(f.LowPct, rh[0]), append(f.HighPct, rh[1])
	f.WarpLow, f.WarpHigh = append(f.WarpLow, warp[0]), append(f.WarpHigh, warp[1])
	f.WidthLow, f.WidthHigh = append(f.WidthLow, width[0]), append(f.WidthHigh, width[1])
	f.Remembered = append(f.Remembered, remembered)
}

func midnight(t time.Time) time.Time {
	y, m, d := t.Date()
	return time.Date(y, m, d, 0, 0, 0, 0, time.UTC)
}

// mostMoments is how many worst moments are dated in the drawing.
const mostMoments = 4

// moments are the worst moments of the record, each mode once, by time.
func moments(doc *report.Assess, first time.Time) []figure.Moment {
	var out []figure.Moment
	seen := map[string]bool{}
	for _, m := range doc.Worst {
		if m.At == nil || m.Share == nil || *m.Share < 0.1 || m.Mode == "handling" || seen[m.Mode] || len(out) == mostMoments {
			continue
		}
		t, err := time.Parse("2006-01-02T15:04", m.At.Time)
		if err != nil {
			continue
		}
		seen[m.Mode] = true
		out = append(out, figure.Moment{
			Day:  t.Sub(first).Hours() / 24,
			Name: fmt.Sprintf("%s, %.0f tenths of its limit", ModeName(m), 10**m.Share),
		})
	}
	slices.SortStableFunc(out, func(a, b figure.Moment) int { return cmp.Compare(a.Day, b.Day) })
	return out
}

// thicknessFigure draws the moisture through the first board at the moments that stand out.
func thicknessFigure(meta figure.Meta, r *assessment.Result) figure.Thickness {
	shots := slices.Clone(r.Year.Profiles)
	slices.SortStableFunc(shots, func(a, b response.Snapshot) int { return a.Time.Compare(b.Time) })
	f := figure.Thickness{Meta: meta, Name: report.PartWords(shots[0].Part)}
	var last time.Time
	for _, s := range shots {
		if n := len(f.Curves); n > 0 && s.Time.Equal(last) {
			f.Curves[n-1].Name += ", " + s.Label
			continue
		}
		last = s.Time
		c := figure.ThicknessCurve{Name: s.Time.Format("2 Jan 2006") + ": " + s.Label, ZMM: s.Z}
		for _, u := range s.MC {
			c.MCPct = append(c.MCPct, u.Percent())
		}
		f.Curves = append(f.Curves, c)
	}
	return f
}

// waitFigure draws how long a humidity may stand.
func waitFigure(meta figure.Meta, doc *report.Assess, w *assessment.Wait) figure.HowLong {
	f := figure.HowLong{Meta: meta, Hours: w.Hours, Call: departure(w.Call), Act: departure(w.Act)}
	if w.FromDry == w.FromDamp {
		f.UsedToPct = doc.UsedTo.RHPct
	}
	if w.First != "" {
		f.Cause = report.CauseWords(w.First)
	}
	return f
}

func departure(r assessment.Reach) figure.Departure {
	pct := func(v []moisture.RH) []float64 {
		out := make([]float64, len(v))
		for i, h := range v {
			out[i] = h.Percent()
		}
		return out
	}
	return figure.Departure{
		Dry: pct(r.Dry), DryQuick: pct(r.DryQuick), DrySlow: pct(r.DrySlow),
		Damp: pct(r.Damp), DampQuick: pct(r.DampQuick), DampSlow: pct(r.DampSlow),
	}
}
