package illustrate

import (
	"math"

	"crossgrain/cmd/internal/figure"
	"crossgrain/cmd/internal/report"
	"crossgrain/panel/assessment"
	"crossgrain/panel/response"
)

// heldFigures draws what the elements say of the panel on its members; none where the closed forms stand
// alone. The last is for the annex.
func heldFigures(meta figure.Meta, r *assessment.Result) (main []figure.Figure, annex []figure.Figure) {
	if len(r.States) == 0 || r.States[0].Shape == nil || len(r.States[0].Restraints) == 0 {
		return nil, nil
	}
	main = append(main, holdPlan(meta, r).Draw())
	if y := r.Year; y != nil && len(y.Members) > 0 {
		main = append(main, holdYear(meta, r).Draw())
		if y.LetGo != nil {
			main = append(main, letGo(meta, r).Draw())
		}
	}
	if p := pullMap(meta, r); len(p.MPa) > 0 {
		annex = append(annex, p.Draw())
	}
	return main, annex
}

// holdPlan takes of every fixing the greatest force over the states that are told.
func holdPlan(meta figure.Meta, r *assessment.Result) figure.HoldPlan {
	f := figure.HoldPlan{Meta: meta, Panel: backPanel(meta, r)}
	for k, first := range r.States[0].Restraints {
		if first.Part == "frame" {
			continue // its sides are no fixings
		}
		for i, x := range first.X {
			best := figure.HeldFixing{Name: memberName(f.Panel, first), AcrossMM: x, AlongMM: first.Y, N: -1}
			slip := 0.0
			for _, s := range r.States {
				q := &s.Restraints[k]
				n := q.Fixing[i]
				if v := math.Abs(n); v > best.N*(1+1e-6) || v > best.N*(1-1e-6) && math.Abs(q.Slip[i]) > slip {
					best.N, best.RHPct, best.PullAcross, slip = v, s.RH.Percent(), n, math.Abs(q.Slip[i])
					best.Does = holding(q.Does[i])
				}
			}
			f.Fixings = append(f.Fixings, best)
		}
	}
	return f
}

// memberName is the name under which a member stands in the drawing of the panel.
func memberName(p figure.Panel, q response.RestraintState) string {
	for _, m := range p.Members {
		if m.Name == report.PartWords(q.Part) || m.Name != "" && math.Abs((m.AlongFrom+m.AlongTo)/2-q.Y) < 0.5 && m.AlongTo-m.AlongFrom < m.AcrossTo-m.AcrossFrom {
			return m.Name
		}
	}
	return report.PartWords(q.Part)
}

func holding(d response.Holding) figure.Holding {
	switch d {
	case response.Stuck, response.Sliding:
		return figure.Slides
	case response.Bears:
		return figure.Bears
	case response.Yielding:
		return figure.Yields
	}
	return figure.Idle
}

// holdYear is the force on the hardest fixing of each member, day by day.
func holdYear(meta figure.Meta, r *assessment.Result) figure.HoldYear {
	y := r.Year
	f := figure.HoldYear{Meta: meta, Start: y.Days[0].Time, UsedToPct: r.Object.UsedTo.Percent()}
	for i := range y.Days {
		d := &y.Days[i]
		f.Days = append(f.Days, d.Time.Sub(f.Start).Hours()/24)
		f.LowPct, f.HighPct = append(f.LowPct, 100*d.RH[0]), append(f.HighPct, 100*d.RH[1])
	}
	for k, m := range y.Members {
		c := figure.HeldCourse{Name: report.PartWords(m.Part)}
		for i := range y.Days {
			low, high := math.NaN(), math.NaN()
			if h := y.Days[i].Hold; k < len(h) && h[k][0] <= h[k][1] {
				low, high = h[k][0], h[k][1]
			}
			c.LowN, c.HighN = append(c.LowN, low), append(c.HighN, high)
		}
		c.Cases = casesOn(r, assessment.CurveHold, m.Part, midnight(f.Start), f.Days, 1)
		for _, b := range m.Bound {
			c.Binds = append(c.Binds, figure.Interval{FromDay: b.From.Sub(f.Start).Hours() / 24, ToDay: b.To.Sub(f.Start).Hours()/24 + 1, Label: "at the end of its play"})
		}
		f.Members = append(f.Members, c)
	}
	return f
}

func letGo(meta figure.Meta, r *assessment.Result) figure.LetGo {
	f := figure.LetGo{Meta: meta}
	g := report.LetGoOf(r.Year)
	for _, s := range g.Steps {
		f.Steps = append(f.Steps, figure.LetGoStep{
			Label: s.Words(), WarpLow: s.WarpMM[0], WarpHigh: s.WarpMM[1], WidthLow: s.WidthMM[0], WidthHigh: s.WidthMM[1],
		})
	}
	if g.SetMM <= -0.05 {
		f.Steps = append(f.Steps, figure.LetGoStep{
			Label: "never", WarpLow: math.NaN(), WarpHigh: math.NaN(), WidthLow: -g.SetMM, WidthHigh: -g.SetMM, Stays: true,
		})
	}
	return f
}

// pullMap is drawn at the state in which most strain is held.
func pullMap(meta figure.Meta, r *assessment.Result) figure.PullMap {
	worst := &r.States[0]
	for i := range r.States {
		if r.States[i].MaxHeldStrain > worst.MaxHeldStrain {
			worst = &r.States[i]
		}
	}
	m := r.Case.Pull(&worst.State, 48, 48)
	return figure.PullMap{
		Meta: meta, Panel: backPanel(meta, r), AcrossMM: m.X, AlongMM: m.Y, MPa: m.MPa, RHPct: worst.RH.Percent(),
		Label: "pull at the face that is pulled more, held for a season",
	}
}
