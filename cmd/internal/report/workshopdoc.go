package report

import (
	"math"

	"crossgrain/panel/response"
)

// Workshop is what a batten of this panel may be, for battens in whose fixings the panel can slide.
type Workshop struct {
	Range      Limited          `json:"range"`
	Limits     WorkshopLimits   `json:"limits"`
	LeastEI    float64          `json:"least_ei_nmm2"`          // of one batten, for weight and handling; 0 = the panel carries itself
	MostEI     *float64         `json:"most_ei_nmm2"`           // of one batten, upper limit of restraint, ground and heart sides at their worst; null = none
	LooseEI    *float64         `json:"most_ei_described_nmm2"` // the same as described; null = none
	BareSagMM  float64          `json:"bare_sag_mm"`            // carried level by its two edges along the grain, without battens
	BareReach  string           `json:"bare_reach"`             // how far that may be relied on
	Battens    int              `json:"battens"`                // there are, sliders of a cradle with them
	Rows       []WorkshopRow    `json:"rows"`                   // by width of the batten; empty without battens
	Present    []WorkshopBatten `json:"present"`                // each as it is
	Fixings    WorkshopFixings  `json:"fixings"`
	Slots      []WorkshopSlot   `json:"slots"`          // by distance from the fixed point
	Springs    []WorkshopSpring `json:"springs"`        // between panel and batten instead of fixings, by their number
	FrameWidth float64          `json:"frame_width_mm"` // clear width of a rebate across the grain, with margin
	FrameDepth float64          `json:"frame_depth_mm"` // clear depth, with margin
	FrameCover float64          `json:"frame_cover_mm"` // by which each lip has to overlap so that no edge shows when it is dry
}

// Limited is the range of humidity and what the panel does in it when nothing holds it.
type Limited struct {
	LowRHPct    float64   `json:"low_rh_pct"`
	HighRHPct   float64   `json:"high_rh_pct"`
	DescribedMM float64   `json:"described_warp_mm"` // as described, the larger of both ends, without sign
	WarpMM      []float64 `json:"warp_mm"`           // least and greatest, by ground and heart side, positive: painted face rounded
	WidthMM     []float64 `json:"width_change_mm"`   // at its dry and its damp end
}

// WorkshopLimits are the limits kept and what was taken for what is not recorded. All are assumptions.
type WorkshopLimits struct {
	Line          string   `json:"weakest_line"`        // part that bears least when it is bent across the grain
	LineMM        float64  `json:"line_thickness_mm"`   // that bears there
	LineMPa       float64  `json:"line_stress_mpa"`     // it is taken to bear for a season
	LineShare     float64  `json:"line_share"`          // of that which restraint may use
	SagShare      float64  `json:"sag_of_thickness"`    // carried level
	HeldShare     *float64 `json:"held_share"`          // of the warp that may be held; null = not asked
	FixingN       *float64 `json:"fixing_n"`            // largest force at a fixing; null = not asked
	ShankMM       float64  `json:"shank_mm"`            // of a fixing
	PlayMM        float64  `json:"play_mm"`             // margin at each end of a slot and around the panel
	MissedPoints  float64  `json:"missed_points_rh"`    // by which the humidity of fixing may be missed
	FrictionN     float64  `json:"friction_n"`          // at each slotted fixing
	BattenLow     float64  `json:"batten_modulus_low"`  // along the grain, MPa, 5 in 100 pieces lie below; 0 without battens
	BattenHigh    float64  `json:"batten_modulus_high"` // 5 in 100 lie above
	ModulusLow    float64  `json:"panel_modulus_low"`   // across the grain, short, MPa, softest board in the mean thickness
	ModulusHigh   float64  `json:"panel_modulus_high"`  // stiffest board
	LeftAfterTime float64  `json:"modulus_left"`        // part of it left in a season
}

// WorkshopRow is one width of batten.
type WorkshopRow struct {
	WidthMM float64   `json:"width_mm"`
	LeastMM float64   `json:"depth_least_mm"`          // for weight and handling; 0 = no batten is needed for that
	MostMM  *float64  `json:"depth_most_mm"`           // upper limit of restraint, ground and heart sides at their worst; null = none
	LooseMM *float64  `json:"depth_most_described_mm"` // as described; null = none
	Fits    bool      `json:"fits"`                    // a plain batten can keep both
	DepthMM float64   `json:"depth_mm"`                // the next are for this depth: least, or most where least is 0
	Held    []float64 `json:"held_share"`              // of the warp, low and high
	SagMM   []float64 `json:"sag_mm"`                  // carried level, low and high
	ForceN  float64   `json:"fixing_n"`                // at the hardest-working fixing, warp and hanging weight
}

// WorkshopBatten is one batten or slider as it is.
type WorkshopBatten struct {
	Part     string    `json:"part"`
	WidthMM  float64   `json:"width_mm"`
	DepthMM  float64   `json:"depth_mm"`
	EI       []float64 `json:"ei_nmm2"` // low and high
	LeastMM  float64   `json:"depth_least_mm"`
	MostMM   *float64  `json:"depth_most_mm"`
	LooseMM  *float64  `json:"depth_most_described_mm"`
	Above    bool      `json:"above_upper_limit"`
	Below    bool      `json:"below_lower_limit"`
	Stiffer  *float64  `json:"times_upper_limit"` // its E I, high, over the upper limit; null without one
	PlanedMM *float64  `json:"planed_to_mm"`      // depth at which it keeps the upper limit; null where it does or planing alone cannot
	Held     []float64 `json:"held_share"`        // of the warp, low and high
	SagMM    []float64 `json:"sag_mm"`            // carried level, low and high
	Glued    bool      `json:"glued"`             // over its length: first it would have to come free
	Flat     bool      `json:"kept_flat"`         // by the frame, beside its own stiffness
	Slides   bool      `json:"slides"`            // in the notches of a cradle: no fixings, slots or springs
}

// WorkshopFixings is how many fixings each batten needs when it has the size named.
type WorkshopFixings struct {
	There   int     `json:"there"`
	Least   *int    `json:"least"` // null: 41 are not enough, or there is nothing to fix
	WidthMM float64 `json:"width_mm"`
	DepthMM float64 `json:"depth_mm"`
}

// WorkshopSlot is the slot for one fixing.
type WorkshopSlot struct {
	DistanceMM float64 `json:"distance_mm"` // from the fixed point in the middle of the width
	LengthMM   float64 `json:"length_mm"`   // shank and both rooms
	InwardMM   float64 `json:"inward_mm"`   // room towards the fixed point beside the shank
	OutwardMM  float64 `json:"outward_mm"`
}

// WorkshopSpring is one number of springs on each batten of the first batten's size.
type WorkshopSpring struct {
	Count    int      `json:"count"`
	Least    float64  `json:"rate_least_n_per_mm"` // that carries the panel
	Most     *float64 `json:"rate_most_n_per_mm"`  // that keeps the upper limit; null = any
	Fits     bool     `json:"fits"`
	PreloadN float64  `json:"preload_n"` // each presses with at rest so that it stays in touch, for the lower rate
}

// workshopOf turns the design of battens into its document; nil without one.
func workshopOf(e *response.Ease) *Workshop {
	if e == nil {
		return nil
	}
	w := &Workshop{
		Range:   Limited{e.Range[0].Percent(), e.Range[1].Percent(), e.Described, e.Warp[:], e.Swing[:]},
		Limits:  workshopLimits(e),
		LeastEI: e.Bounds.Least, MostEI: number(e.Bounds.Most), LooseEI: number(e.Loose), BareSagMM: e.Bare.Deflection, BareReach: e.Bare.Reach.String(),
		Battens: len(e.Present), FrameWidth: e.Room.Width, FrameDepth: e.Room.Depth, FrameCover: e.Room.Cover,
		Rows: []WorkshopRow{}, Present: []WorkshopBatten{}, Slots: []WorkshopSlot{}, Springs: []WorkshopSpring{},
	}
	for _, r := range e.Rows {
		w.Rows = append(w.Rows, WorkshopRow{r.Width, r.Least, number(r.Most), number(deep(e.Loose, e.Easing.EBatten[1], r.Width)), r.Fits, r.Depth, r.Held[:], r.Sag[:], r.Force})
	}
	for _, p := range e.Present {
		w.Present = append(w.Present, workshopBatten(p, e))
	}
	for _, s := range e.Slots {
		w.Slots = append(w.Slots, WorkshopSlot{s.Distance, s.Length, s.Inward, s.Outward})
	}
	for _, s := range e.Springs {
		w.Springs = append(w.Springs, WorkshopSpring{s.Count, s.Least, number(s.Most), s.Fits, s.Preload})
	}
	if e.Fixings != 0 {
		w.Fixings = WorkshopFixings{There: e.Easing.Fixings, WidthMM: e.Width, DepthMM: e.Depth}
		if e.Fixings > 0 {
			w.Fixings.Least = &e.Fixings
		}
	}
	return w
}

func workshopLimits(e *response.Ease) WorkshopLimits {
	l := WorkshopLimits{
		Line: e.Weakest.Part, LineMM: e.Weakest.Bears, LineMPa: e.Weakest.Stress, LineShare: e.Limits.Line, SagShare: e.Limits.Sag,
		ShankMM: e.Limits.Shank, PlayMM: e.Limits.Play, MissedPoints: 100 * e.Limits.Points, FrictionN: e.Easing.Grip,
		ModulusLow: e.Easing.E[0], ModulusHigh: e.Easing.E[1], LeftAfterTime: e.Easing.Left,
	}
	if e.Limits.Share > 0 {
		l.HeldShare = number(e.Limits.Share)
	}
	if e.Limits.Load > 0 {
		l.FixingN = number(e.Limits.Load)
	}
	if len(e.Present) > 0 {
		l.BattenLow, l.BattenHigh = e.Easing.EBatten[0], e.Easing.EBatten[1]
	}
	return l
}

// deep returns the depth of a batten of the stiffness ei, N mm2, for its modulus and width.
func deep(ei, modulus, width float64) float64 { return math.Cbrt(12 * ei / (modulus * width)) }

func workshopBatten(p response.EaseBatten, e *response.Ease) WorkshopBatten {
	b := e.Bounds
	out := WorkshopBatten{
		Part: p.Part, WidthMM: p.Width, DepthMM: p.Depth, EI: p.Stiffness[:], LeastMM: p.Does.Least, MostMM: number(p.Does.Most), LooseMM: number(p.Depth * math.Cbrt(e.Loose/p.Stiffness[1])),
		Above: p.Above, Below: p.Below, Held: p.Does.Held[:], SagMM: p.Does.Sag[:], Glued: p.Glued, Flat: p.Flat, Slides: p.Slides,
	}
	if b.Most > 0 && !math.IsInf(b.Most, 1) {
		out.Stiffer = number(p.Stiffness[1] / b.Most)
	}
	if p.Above && p.To > 0 {
		out.PlanedMM = number(p.To)
	}
	return out
}
