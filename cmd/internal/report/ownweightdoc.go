package report

import (
	"math"

	"crossgrain/panel/response"
)

// OwnWeight is what its own weight does to the panel without battens, as soft throughout as its
// softest board.
type OwnWeight struct {
	WeightKg float64       `json:"weight_kg"`
	Line     string        `json:"weakest_line"`
	BearsMPa []float64     `json:"bears_mpa"` // stress that its weakest line is taken to bear: briefly, for a season
	Grown    []float64     `json:"grown"`     // sag after two weeks and after a season of lying, over that at once
	Lying    []LyingRow    `json:"lying"`
	Standing []StandingRow `json:"standing"`
}

// LyingRow is one way to lie or to be carried level.
type LyingRow struct {
	How       string    `json:"how"`        // two_bearers, three_bearers, four_edges, by_ends, by_sides_with_battens
	BearersMM []float64 `json:"bearers_mm"` // from the left edge, along the grain
	SagMM     float64   `json:"sag_mm"`     // largest, at once
	LongMM    []float64 `json:"long_mm"`    // after two weeks and after a season; of four edges after a season; empty when carried
	StressMPa float64   `json:"stress_mpa"` // across the grain; along it when carried by the ends
	Share     *float64  `json:"share"`      // of what the weakest line bears, for a season or, carried, briefly; null along the grain
	Reach     string    `json:"reach"`      // how far the largest of the sags may be relied on
	outside   bool
}

// StandingRow is the panel standing on one edge, its foot resting, its top held, leaning by 10 degrees.
type StandingRow struct {
	Grain     string   `json:"grain"` // upright or level
	AsIs      bool     `json:"as_is"` // the way its picture stands
	PressMPa  float64  `json:"press_mpa"`
	Share     float64  `json:"share_of_buckling"`        // weight over the weight at which it gives way sideways
	LongShare float64  `json:"share_of_buckling_season"` // standing for a season
	MoreMM    *float64 `json:"bends_more_mm"`            // at once; null when it gives way
	LongMM    *float64 `json:"bends_more_season_mm"`     // in a season; null when it gives way
	ThinMM    float64  `json:"gives_way_below_mm"`       // thickness, standing for a season
	Reach     string   `json:"reach"`                    // how far the season's bending may be relied on
	outside   bool
}

// ownWeightOf turns the panel's own weight into its document; nil without it.
func ownWeightOf(w *response.OwnWeight) *OwnWeight {
	if w == nil {
		return nil
	}
	out := &OwnWeight{WeightKg: w.WeightKg, Line: w.Part, BearsMPa: w.Bears[:], Grown: w.Grown[:]}
	names := []string{"two_bearers", "three_bearers"}
	for i, b := range w.Bearers {
		out.add(LyingRow{How: names[i], BearersMM: b.At, SagMM: math.Abs(b.Short.Deflection), LongMM: []float64{math.Abs(b.Sag[0]), math.Abs(b.Sag[1])},
			StressMPa: b.Short.Stress, Share: number(b.Short.Stress / w.Bears[1])}, b.Reach)
	}
	out.add(LyingRow{How: "four_edges", SagMM: w.Edges[0].Deflection, LongMM: []float64{w.Edges[1].Deflection},
		StressMPa: w.Edges[0].StressAcross, Share: number(w.Edges[0].StressAcross / w.Bears[1])}, w.Edges[1].Reach)
	if b := w.Battens; b.Deflection > 0 {
		out.add(LyingRow{How: "by_sides_with_battens", SagMM: b.Deflection, StressMPa: b.Stress, Share: number(b.Stress / w.Bears[0])}, b.Reach)
	}
	out.add(LyingRow{How: "by_ends", SagMM: w.Ends.Deflection, StressMPa: w.Ends.Stress}, w.Ends.Reach)
	for _, s := range w.Standing {
		row := StandingRow{
			Grain: "upright", AsIs: s.AsIs, PressMPa: s.Now.Press, Share: s.Now.Share, LongShare: s.Season.Share, MoreMM: number(s.Now.More),
			LongMM: number(s.Season.More), ThinMM: s.Season.Critical, Reach: s.Season.Reach.String(), outside: s.Season.Reach == response.Outside,
		}
		if s.Level {
			row.Grain = "level"
		}
		out.Standing = append(out.Standing, row)
	}
	return out
}

func (w *OwnWeight) add(r LyingRow, reach response.Reach) {
	if r.BearersMM == nil {
		r.BearersMM = []float64{}
	}
	if r.LongMM == nil {
		r.LongMM = []float64{}
	}
	r.Reach, r.outside = reach.String(), reach == response.Outside
	w.Lying = append(w.Lying, r)
}

// BayRow is a piece of the panel between two members glued to it.
type BayRow struct {
	Part        string     `json:"part"`    // cradle, or the two glued battens
	FromMM      float64    `json:"from_mm"` // across the grain from the left edge
	ToMM        float64    `json:"to_mm"`
	HeightMM    float64    `json:"height_mm"` // along the grain
	ThicknessMM float64    `json:"thickness_mm"`
	Strain      []float64  `json:"critical_strain"` // held swelling at which it ripples: members that turn, members that do not
	RHPct       []*float64 `json:"ripples_rh_pct"`  // where all swelling from the used-to humidity held back is as much; null = not below 100
}

func baysOf(bays []response.Bay) []BayRow {
	out := []BayRow{}
	for _, b := range bays {
		out = append(out, BayRow{
			Part: b.Part, FromMM: b.From, ToMM: b.To, HeightMM: b.High - b.Low, ThicknessMM: b.Thickness,
			Strain: []float64{b.Ripples[0].Critical, b.Ripples[1].Critical},
			RHPct:  []*float64{number(b.At[0].Percent()), number(b.At[1].Percent())},
		})
	}
	return out
}
