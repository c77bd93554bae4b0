package report

import (
	"math"
	"time"

	"crossgrain/panel/assessment"
	"crossgrain/panel/response"
)

// Reglue is what can be told of closing and regluing an open join, a split or a check.
type Reglue struct {
	Part        string   `json:"part"`
	Closes      string   `json:"closes"`        // at, never, filled, free, unmeasured
	ClosesRH    *float64 `json:"closes_rh_pct"` // null unless it closes at a humidity
	GlueLow     float64  `json:"glue_from_rh_pct"`
	GlueHigh    float64  `json:"glue_to_rh_pct"`
	AtEnd       bool     `json:"at_end_of_range"` // what asks least lies at the end of the range asked about
	PullThen    float64  `json:"pull_share"`      // at the driest, of what wood and join bear for a season
	PressThen   float64  `json:"press_share"`     // at the dampest, of the strain at which wood is slowly crushed
	PullUsed    float64  `json:"pull_share_if_glued_as_used_to"`
	PressUsed   float64  `json:"press_share_if_glued_as_used_to"`
	MoreThan    bool     `json:"more_than_hand_pressure"`
	OpensMM     *float64 `json:"gap_then_mm"`
	NextPart    string   `json:"next_part"`
	NextMode    string   `json:"next_mode"`
	NextShare   float64  `json:"next_share"`
	WaitDays    float64  `json:"wait_days"` // nearly all of a change of humidity has come in
	HalfDays    float64  `json:"half_days"`
	indifferent bool
}

func reglues(r *assessment.Result) []Reglue {
	out := []Reglue{}
	days := func(d time.Duration) float64 { return d.Hours() / 24 }
	for _, g := range r.Reglue {
		row := Reglue{
			Part: g.Part, Closes: string(g.Closes), GlueLow: g.Low.Percent(), GlueHigh: g.High.Percent(), AtEnd: !g.Indoors,
			PullThen: g.At.Pull, PressThen: g.At.Press, PullUsed: g.Used.Pull, PressUsed: g.Used.Press, MoreThan: g.MoreThan,
			OpensMM: number(g.At.Opens), WaitDays: days(g.Most), HalfDays: days(g.Half), indifferent: g.High == 0,
		}
		if g.Closes == response.ClosesAt {
			row.ClosesRH = number(g.ClosesRH.Percent())
		}
		if g.Next.Part != "" {
			row.NextPart, row.NextMode, row.NextShare = g.Next.Part, string(g.Next.Mode), g.Next.Share()
		}
		out = append(out, row)
	}
	return out
}

func (a Assess) reglueTable() Table {
	t := Table{Align: "lllrrl", Head: []string{
		say("reglue.head.part"), say("reglue.head.closes"), say("reglue.head.glue"), say("reglue.head.then"), say("reglue.head.used"), say("reglue.head.wait"),
	}}
	for _, r := range a.Reglue {
		closes := r.closing()
		glue := say("reglue.any")
		if !r.indifferent {
			glue = between(r.GlueLow, r.GlueHigh)
		}
		t.Rows = append(t.Rows, []string{
			PartWords(r.Part), closes, glue, tenthsOf(math.Max(r.PullThen, r.PressThen)), tenthsOf(math.Max(r.PullUsed, r.PressUsed)), days(r.WaitDays),
		})
	}
	return t
}

// closing says how the line closes.
func (r Reglue) closing() string {
	if r.ClosesRH != nil {
		return say("reglue.closes."+r.Closes, "rh", whole(*r.ClosesRH))
	}
	return say("reglue.closes." + r.Closes)
}

// tenthsOf gives a share in whole tenths.
func tenthsOf(v float64) string {
	if v > 0 && v < 0.1 {
		return say("reglue.under")
	}
	return whole(10 * v)
}

// reglueWords say what the table leaves out: force, glue, and what opens next.
func (a Assess) reglueWords() []string {
	if len(a.Reglue) == 0 {
		return nil
	}
	var out []string
	more, end := false, false
	for _, r := range a.Reglue {
		more, end = more || r.MoreThan, end || r.AtEnd && !r.indifferent
		if r.NextPart != "" && r.NextShare >= 0.1 {
			out = append(out, say("reglue.next", "part", the(r.Part), "next", the(r.NextPart), "mode", ModeWords(r.NextMode), "n", whole(10*r.NextShare)))
		}
	}
	if more {
		out = append(out, say("reglue.more"))
	}
	if end {
		out = append(out, say("reglue.end"))
	}
	return append(out, say("reglue.force"), say("reglue.water"))
}
