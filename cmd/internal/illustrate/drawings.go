package illustrate

import (
	"fmt"
	"math"

	"crossgrain/cmd/internal/figure"
	"crossgrain/cmd/internal/report"
	"crossgrain/moisture"
	"crossgrain/panel/assessment"
)

// sectionFigure draws the section as it is used to be, and at the driest and dampest state.
func sectionFigure(meta figure.Meta, doc *report.Assess, r *assessment.Result) figure.Figure {
	f := figure.Section{Meta: meta, Magnification: doc.Shape.Magnification, GrainLevel: r.Object.GrainLevel}
	assumed := map[string]bool{}
	for _, a := range doc.Assumed {
		assumed[a.Path] = true
	}
	for i, b := range r.Object.Boards {
		path := "board." + b.Name
		s := figure.SectionBoard{
			Name: b.Name, WidthMM: b.Width, ThicknessMM: b.Thickness, RingKnown: true,
			RingDeg: math.Abs(float64(b.Ring)), LeanLeft: b.Ring < 0,
			Assumed: assumed[path+".ring_angle_deg"] || !b.HeartKnown,
		}
		if w := r.Windows[i]; w.Curved {
			s.Curved, s.PithAcrossMM, s.PithAboveBackMM = true, w.PithX, w.PithZ
		}
		f.Boards = append(f.Boards, s)
	}
	if n := len(r.States); n > 0 {
		f.Shapes = []figure.SectionShape{
			shapeOf(r, r.States[0]),
			{Label: fmt.Sprintf("used to, %.0f %% RH", doc.UsedTo.RHPct), UsedTo: true},
			shapeOf(r, r.States[n-1]),
		}
		f.Shapes[1].XMM = f.Shapes[0].XMM
		f.Shapes[1].DxMM, f.Shapes[1].DzMM = make([]float64, len(f.Shapes[0].XMM)), make([]float64, len(f.Shapes[0].XMM))
	}
	return f.Draw()
}

func shapeOf(r *assessment.Result, s assessment.State) figure.SectionShape {
	word := "damp"
	if s.RH < r.Object.UsedTo {
		word = "dry"
	}
	out := figure.SectionShape{
		Label: fmt.Sprintf("%s, %.0f %% RH", word, s.RH.Percent()), XMM: s.Stations, DzMM: s.Profile,
		CupLowMM: s.CupLow, CupHigh: s.CupHigh,
	}
	i, before := 0, 0.0
	boards := r.Object.Boards
	for k, x := range s.Stations {
		for i+1 < len(boards) && (x > boards[i+1].Left || x == boards[i+1].Left && k > 0 && s.Stations[k-1] == x) {
			before += s.BoardChange[i]
			i++
		}
		out.DxMM = append(out.DxMM, before+(x-boards[i].Left)/boards[i].Width*s.BoardChange[i])
	}
	return out
}

// rangeFigure draws what the panel knows, what is asked and what is calculated on one scale.
func rangeFigure(meta figure.Meta, doc *report.Assess, r *assessment.Result) figure.Figure {
	f := figure.Range{
		Meta: meta, UsedToPct: doc.UsedTo.RHPct,
		Asked: figure.Span{LowPct: doc.Range.LowRHPct, HighPct: doc.Range.HighRHPct},
	}
	if l := doc.Lived; l != nil {
		f.Lived, f.LivedWords = figure.Span{LowPct: l.LowRHPct, HighPct: l.HighRHPct}, "unharmed, by the panel's file"
	}
	switch doc.Range.From {
	case "default":
		f.AskedWords = "20 points either side"
	case "record":
		f.AskedWords = "what of the record reaches the wood"
		if rec := doc.Record; rec != nil {
			f.Records = []figure.RecordStrip{{
				Name: "record", All: figure.Span{LowPct: rec.MinPct, HighPct: rec.MaxPct},
				Middle: figure.Span{LowPct: rec.P7Pct, HighPct: rec.P93Pct},
			}}
		}
	}
	c := doc.CalculatedRange
	if c.Nominal != nil {
		f.Nominal = figure.Span{LowPct: c.Nominal.LowRHPct, HighPct: c.Nominal.HighRHPct}
		f.LowCause, f.HighCause = RangeEnd(c.Nominal.LowBy), RangeEnd(c.Nominal.HighBy)
	} else {
		f.Why = doc.WhyNoRange()
	}
	if c.Unfavourable != nil {
		f.Unfavourable = figure.Span{LowPct: c.Unfavourable.LowRHPct, HighPct: c.Unfavourable.HighRHPct}
	} else if words, low, high, ok := doc.OnlyWay(); ok {
		f.Title = "Is the range asked for inside what it knows and can bear, " + words + "?"
		f.Unfavourable = figure.Span{LowPct: low, HighPct: high}
	}
	return f.Draw()
}

// RangeEnd is what stands at the end of a range, or nothing where no limit was met.
func RangeEnd(by string) string {
	if by == "cap" {
		return ""
	}
	return report.CauseWords(by)
}

// energy draws the energy release of a line over its length at up to four humidities.
func energy(meta figure.Meta, l report.Line, r *assessment.Result) figure.Energy {
	meta.ID = "energy-" + safeID(l.Part)
	f := figure.Energy{Meta: meta, Name: report.PartWords(l.Part), NowMM: l.LengthMM}
	for _, s := range pickStates(r) {
		for _, q := range s.Lines {
			if q.Part != l.Part {
				continue
			}
			length, slow := q.Energies()
			if len(length) == 0 || !anyPositive(slow) {
				continue
			}
			for i := range slow {
				slow[i] *= 1000
			}
			f.LengthMM = length
			f.ToughnessJM2, f.HighJM2 = 1000*q.Toughness, 1000*q.Plateau
			f.LowJM2 = f.ToughnessJM2
			f.Curves = append(f.Curves, figure.EnergyCurve{RHPct: s.RH.Percent(), JM2: slow})
		}
	}
	return f
}

func anyPositive(v []float64) bool {
	for _, x := range v {
		if x > 0 {
			return true
		}
	}
	return false
}

// pickStates returns the driest state, the dampest and the ones half way to the used-to humidity.
func pickStates(r *assessment.Result) []assessment.State {
	n := len(r.States)
	if n < 4 {
		return r.States
	}
	return []assessment.State{r.States[0], r.States[n/4], r.States[3*n/4], r.States[n-1]}
}

// sorption draws the moisture curves of each wood once.
func sorption(meta figure.Meta, set figure.Setting, r *assessment.Result) []figure.Sorption {
	var out []figure.Sorption
	seen := map[string]bool{}
	for _, b := range r.Object.Boards {
		if seen[b.WoodName] {
			continue
		}
		seen[b.WoodName] = true
		m := meta
		m.ID = "moisture-" + safeID(b.WoodName)
		f := figure.Sorption{Meta: m, Setting: set, Wood: b.WoodName}
		curve := func(name string, iso moisture.Isotherm) {
			if iso == nil {
				return
			}
			c := figure.SorptionCurve{Name: name}
			for _, rh := range f.RHPct {
				c.MCPct = append(c.MCPct, iso.MC(moisture.Percent(rh), r.Object.Temperature).Percent())
			}
			f.Curves = append(f.Curves, c)
		}
		for rh := 5.0; rh <= 95; rh += 2.5 {
			f.RHPct = append(f.RHPct, rh)
		}
		curve("wetting", b.Sorption.Branches.Ads)
		curve("mean, used here", b.Sorption.Mean)
		curve("drying", b.Sorption.Branches.Des)
		out = append(out, f)
	}
	return out
}
