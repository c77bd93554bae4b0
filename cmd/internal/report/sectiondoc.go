package report

import (
	"math"

	"crossgrain/panel/assessment"
	"crossgrain/panel/response"
)

// Section is the cross-section at one humidity by finite elements, nothing holding it, beside the closed
// forms. Stresses are read next to the faces of the wood and away from the ends of joins.
type Section struct {
	ClosedCupMM    float64       `json:"closed_cup_mm"`
	ClosedWidthMM  float64       `json:"closed_width_change_mm"`
	WidthFrontMM   float64       `json:"width_change_front_mm"`
	WidthBackMM    float64       `json:"width_change_back_mm"`
	GroundShare    float64       `json:"ground_share"` // 0 as if there were none, 1 as stiff as it can be
	FrontPullMPa   float64       `json:"front_pull_mpa"`
	FrontPressMPa  float64       `json:"front_press_mpa"` // negative
	BackPullMPa    float64       `json:"back_pull_mpa"`
	BackPressMPa   float64       `json:"back_press_mpa"`
	BowPerM        float64       `json:"bow_per_m"`   // curvature along the grain
	TwistPerM      float64       `json:"twist_per_m"` // of boards free of one another
	Joins          []SectionJoin `json:"joins"`
	StraightBoards []string      `json:"straight_boards"` // taken with straight rings
}

// SectionJoin is what the boards at a join do to one another.
type SectionJoin struct {
	Name     string  `json:"name"`
	PullMPa  float64 `json:"pull_mpa"`
	SlideMPa float64 `json:"slide_mpa"`
}

func sectionOf(s *response.Section) *Section {
	if s == nil {
		return nil
	}
	out := &Section{
		ClosedCupMM: s.ClosedCup, ClosedWidthMM: s.ClosedWidth, WidthFrontMM: s.WidthFront, WidthBackMM: s.WidthBack, GroundShare: s.Ground,
		FrontPullMPa: math.Max(0, s.Front.Pull), FrontPressMPa: math.Min(0, s.Front.Press), BackPullMPa: math.Max(0, s.Back.Pull), BackPressMPa: math.Min(0, s.Back.Press),
		BowPerM: 1000 * s.Bow, TwistPerM: 1000 * s.Twist, Joins: []SectionJoin{}, StraightBoards: []string{},
	}
	for _, j := range s.Joins {
		out.Joins = append(out.Joins, SectionJoin{j.Name, j.Pull, j.Slide})
	}
	out.StraightBoards = append(out.StraightBoards, s.Straight...)
	return out
}

// sectionTable sets the elements and the closed forms side by side, over the states that are reported.
func (a Assess) sectionTable() Table {
	t := Table{Align: "rrrrrr", Head: []string{
		say("section.head.rh"), say("section.head.warp"), say("section.head.closedwarp"), say("section.head.width"), say("section.head.closedwidth"), say("section.head.stress"),
	}}
	for _, s := range a.States {
		if s.Section == nil {
			continue
		}
		t.Rows = append(t.Rows, []string{
			stateName(s), short(warped(s.CupMM)), short(warped(s.Section.ClosedCupMM)), short(moved(s.WidthChangeMM, s.WidthChangeMM)),
			short(moved(s.Section.ClosedWidthMM, s.Section.ClosedWidthMM)),
			say("section.stress", "press", oneDecimal(-s.Section.FrontPressMPa), "pull", oneDecimal(s.Section.FrontPullMPa)),
		})
	}
	return t
}

// sectionWords say what the boards do to one another, and why the two ways differ where they do.
func (a Assess) sectionWords() []string {
	if a.SectionWhy != "" {
		return []string{say("section.why", "why", a.SectionWhy)}
	}
	var out []string
	join, pull, rh := "", 0.0, 0.0
	ground, apart, narrower := false, 0.0, 0.0
	var straight []string
	for _, s := range a.States {
		if s.Section == nil {
			continue
		}
		for _, j := range s.Section.Joins {
			if j.PullMPa > pull {
				join, pull, rh = j.Name, j.PullMPa, s.RHPct
			}
		}
		ground = ground || s.Section.GroundShare != 0
		if size := math.Max(math.Abs(s.CupMM), math.Abs(s.Section.ClosedCupMM)); size > 0.5 {
			apart = math.Max(apart, math.Abs(s.CupMM-s.Section.ClosedCupMM)/size)
		}
		if w := s.Section.ClosedWidthMM; math.Abs(w) > 0.2 {
			narrower = math.Max(narrower, 1-s.WidthChangeMM/w)
		}
		straight = s.Section.StraightBoards
	}
	switch {
	case apart > 0.03 && ground:
		out = append(out, say("section.apart.ground", "n", whole(100*apart)))
	case apart > 0.03:
		out = append(out, say("section.apart.boards", "n", whole(100*apart)))
	case apart > 0:
		out = append(out, say("section.agree"))
	}
	if ground && narrower > 0.03 {
		out = append(out, say("section.width", "n", whole(100*narrower)))
	}
	if pull >= 0.05 {
		out = append(out, say("section.join", "join", PartWords("join."+join), "pull", oneDecimal(pull), "rh", whole(rh)))
	}
	for _, b := range straight {
		out = append(out, say("section.straight", "board", PartWords("board."+b)))
	}
	return out
}

// sectionBy names by what the cross-section was worked out.
func sectionBy(r *assessment.Result) string {
	if r.Setting == response.Quick || r.Closed != "" {
		return "closed forms"
	}
	return "elements"
}
