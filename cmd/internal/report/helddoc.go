package report

import (
	"math"

	"crossgrain/panel/assessment"
	"crossgrain/panel/response"
)

// Stands is the panel as it stands on its members at mid-length, by the elements.
type Stands struct {
	WidthMM     float64 `json:"width_change_mm"`
	FreeWidthMM float64 `json:"width_change_free_mm"` // if nothing held it, as the plan has it
	WarpMM      float64 `json:"warp_mm"`              // positive: painted face rounded
	FreeWarpMM  float64 `json:"warp_free_mm"`
	WidthHeld   float64 `json:"width_held_pct"` // share of the movement that is held, 0 to 100
	WarpHeld    float64 `json:"warp_held_pct"`
	Open        int     `json:"fixings_undetermined"` // held by friction ever since they were fixed
	MisfitMM    float64 `json:"misfit_mm"`            // of the balance: largest gap between movements
	MisfitN     float64 `json:"misfit_n"`             // and largest force left over
	// OpenN is the greatest force at one fixing where friction leaves it open, if none rubs and if all lock; null where
	// it does not.
	OpenN []float64 `json:"open_n"`
}

func standsOf(s *response.Shape) *Stands {
	if s == nil {
		return nil
	}
	out := &Stands{
		WidthMM: s.Width, FreeWidthMM: s.Free, WarpMM: s.Warp, FreeWarpMM: s.FreeWarp,
		WidthHeld: heldBack(s.Width, s.Free), WarpHeld: heldBack(s.Warp, s.FreeWarp), Open: s.Open, MisfitMM: s.Misfit[0], MisfitN: s.Misfit[1],
	}
	if s.Bracket != nil {
		out.OpenN = s.Bracket[:]
	}
	return out
}

// heldBack is the share of a free movement that is held, in parts of 100.
func heldBack(held, free float64) float64 {
	if math.Abs(free) < 1e-3 {
		return 0
	}
	return 100 * math.Max(0, 1-math.Abs(held/free))
}

// Binds is where a slot, a slider or a frame side comes to its end.
type Binds struct {
	Part  string  `json:"part"`
	RHPct float64 `json:"rh_pct"` // nearest to the humidity the panel is used to
}

// bindsOf finds at which humidity each free play is used up.
func bindsOf(r *assessment.Result) []Binds {
	out := []Binds{}
	seen := map[string]bool{}
	for _, s := range r.Sweep {
		for _, d := range s.Demands {
			if d.Mode != response.SlotExhausted && d.Mode != response.FrameBound || seen[d.Part] {
				continue
			}
			seen[d.Part] = true
			if rh := nearest(r, string(d.Mode), d.Part, 0); rh != nil {
				out = append(out, Binds{d.Part, *rh})
			}
		}
	}
	return out
}

// heldBy names by what the members were worked out.
func heldBy(r *assessment.Result) string {
	for _, s := range r.States {
		if s.Shape != nil {
			return "elements"
		}
	}
	return "closed forms"
}

// standsTable sets the panel as it stands beside the panel that nothing holds.
func (a Assess) standsTable() Table {
	t := Table{Align: "rrrrl", Head: []string{
		say("stands.head.rh"), say("stands.head.width"), say("stands.head.warp"), say("stands.head.free"), say("stands.head.held"),
	}}
	if len(a.Restraints) == 0 {
		return t
	}
	for _, s := range a.States {
		if q := s.Stands; q != nil {
			t.Rows = append(t.Rows, []string{
				stateName(s), short(moved(q.WidthMM, q.WidthMM)), short(warped(q.WarpMM)), short(warped(q.FreeWarpMM)),
				say("stands.held", "width", share100(q.WidthHeld, q.FreeWidthMM), "warp", share100(q.WarpHeld, q.FreeWarpMM)),
			})
		}
	}
	return t
}

// share100 gives a share of 100 of a movement, a stroke where there is none.
func share100(pct, free float64) string {
	if math.Abs(free) < 0.05 {
		return "–"
	}
	return whole(pct)
}

// standsWords say what the elements cannot: where friction leaves the answer open, and where the panel bends
// too far for them.
func (a Assess) standsWords() []string {
	open, far := 0, 0.0
	low, high, rh := 0.0, 0.0, 0.0
	for _, s := range a.States {
		if s.Stands == nil {
			continue
		}
		open, far = max(open, s.Stands.Open), math.Max(far, math.Abs(a.presentWarp()+s.Stands.WarpMM))
		if b := s.Stands.OpenN; b != nil && b[1] > high {
			low, high, rh = b[0], b[1], s.RHPct
		}
	}
	var out []string
	if w := a.Panel.PresentWarpMM; w != nil && len(a.standsTable().Rows) > 0 {
		out = append(out, say("stands.present", "warp", warped(*w)))
	}
	if open > 0 {
		out = append(out, plural("stands.open", open))
	}
	if high > 0 {
		out = append(out, say("stands.bracket", "rh", whole(rh), "low", force(low), "high", force(high)))
	}
	if t := a.Panel.ThicknessMM; far > t && t > 0 {
		out = append(out, say("stands.far", "warp", millimetres(far), "t", millimetres(t)))
	}
	return out
}

// presentWarp is that of the panel as it was found, 0 where it was not measured, mm.
func (a Assess) presentWarp() float64 {
	if w := a.Panel.PresentWarpMM; w != nil {
		return *w
	}
	return 0
}

// twoWaysTable sets the elements beside the closed form of each member by itself.
func (a Assess) twoWaysTable() Table {
	t := Table{Align: "lrrrrrr", Head: []string{
		say("twoways.head.part"), say("twoways.head.rh"), say("twoways.head.force"), say("twoways.head.closed"), say("twoways.head.held"),
		say("twoways.head.closedheld"), say("twoways.head.sag"),
	}}
	for _, r := range a.Restraints {
		if len(r.SagMM) == 0 || r.Part == "frame" {
			continue
		}
		for k, i := range a.ends() {
			part := PartWords(r.Part)
			if k > 0 {
				part = ""
			}
			t.Rows = append(t.Rows, []string{
				part, whole(a.States[i].RHPct), twoSigned(at(r.ForceN, i)), twoSigned(at(r.ClosedN, i)),
				whole(at(r.HeldPct, i)), whole(at(r.ClosedHeldPct, i)), signedMM(at(r.SagMM, i)),
			})
		}
	}
	return t
}

// signedMM gives millimetres with their sign.
func signedMM(v float64) string {
	if math.IsNaN(v) {
		return "–"
	}
	if v <= -0.05 {
		return "−" + millimetres(-v)
	}
	return millimetres(math.Abs(v))
}
