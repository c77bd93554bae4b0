package illustrate

import (
	"math"

	"crossgrain/cmd/internal/figure"
	"crossgrain/moisture"
	"crossgrain/panel/assessment"
	"crossgrain/panel/response"
	"crossgrain/panel/section"
)

// endGrainFigures draws the cross-section by elements, moved and under stress, in the driest and dampest
// state that is reported. It returns none where the closed forms stand alone.
func endGrainFigures(meta figure.Meta, r *assessment.Result) (moved, stressed *figure.Figure) {
	ends := driestAndDampest(r)
	if r.Closed != "" || r.Setting == response.Quick || len(ends) == 0 {
		return nil, nil
	}
	d := figure.Deformed{Meta: meta, GrainLevel: r.Object.GrainLevel}
	m := figure.StressMap{Meta: meta, GrainLevel: r.Object.GrainLevel}
	states, err := r.Case.Settle(ends)
	if err != nil {
		return nil, nil
	}
	for i, rh := range ends {
		coarse, err := r.Case.EndGrain(rh, section.Coarse)
		if err != nil {
			return nil, nil
		}
		if d.Boards == nil {
			d.Boards = netOf(r, coarse)
		}
		st := figure.DeformedState{ // the numbers are those of the report; the drawing takes unknown rings straight
			Label: "damp", RHPct: rh.Percent(), WarpMM: states[i].Cup, WarpLowMM: states[i].CupLow, WarpHighMM: states[i].CupHigh,
			LargestMM: largest(states[i].Profile), WiderMM: states[i].Width,
		}
		if rh < r.Object.UsedTo {
			st.Label = "dry"
		}
		for k := range coarse.Field {
			st.DxMM, st.DzMM = append(st.DxMM, coarse.Field[k].DX), append(st.DzMM, coarse.Field[k].DZ)
		}
		if i == 1 || len(ends) == 1 {
			d.States = append(d.States, figure.DeformedState{Label: "used to", RHPct: r.Object.UsedTo.Percent(), UsedTo: true})
		}
		d.States = append(d.States, st)

		fine, err := r.Case.EndGrain(rh, section.Fine)
		if err != nil {
			return nil, nil
		}
		if m.Boards == nil {
			m.Boards = netOf(r, fine)
		}
		m.States = append(m.States, stressOf(st.Label, fine))
	}
	a, b := d.Draw(), m.Draw()
	return &a, &b
}

// largest is the value that is greatest in size.
func largest(v []float64) (most float64) {
	for _, x := range v {
		if math.Abs(x) > math.Abs(most) {
			most = x
		}
	}
	return most
}

// driestAndDampest are the ends of the reported humidities, without the one that the panel is used to.
func driestAndDampest(r *assessment.Result) []moisture.RH {
	var out []moisture.RH
	for _, rh := range [...]moisture.RH{r.Low, r.High} {
		if d := rh - r.Object.UsedTo; d < -0.005 || d > 0.005 {
			out = append(out, rh)
		}
	}
	return out
}

// netOf is the net of elements of every board.
func netOf(r *assessment.Result, e *response.EndGrain) []figure.EndGrain {
	var out []figure.EndGrain
	for i := range e.Field {
		f := &e.Field[i]
		out = append(out, figure.EndGrain{
			Name: r.Object.Boards[i].Name, XMM: f.X, ZMM: f.Z, Elements: f.Elements, Coat: f.Coat, RingMM: e.Rings[i], Assumed: e.Straight[i],
		})
	}
	return out
}

// stressOf is the stress across the grain at the points of every element.
func stressOf(label string, e *response.EndGrain) figure.StressState {
	s := figure.StressState{Label: label, RHPct: e.RH.Percent()}
	for i := range e.Field {
		f := &e.Field[i]
		points := make([][4]float64, len(f.Elements))
		for k := range points {
			for p := range points[k] {
				points[k][p] = f.Points[4*k+p].XX
			}
		}
		s.MPa = append(s.MPa, points)
	}
	return s
}
