package report

import (
	"slices"

	"crossgrain/panel/assessment"
)

// EndChecks is where checks could start in the end grain when the air falls at once. It sets no range.
type EndChecks struct {
	Ends   string     `json:"ends"`   // bare, coated, covered
	Boards []EndCheck `json:"boards"` // empty where the ends are coated or covered
}

// EndCheck is one board.
type EndCheck struct {
	Part  string   `json:"part"`
	RHPct *float64 `json:"rh_pct"` // at and below it; null: not even in air without moisture
}

func endChecksOf(r *assessment.Result) EndChecks {
	out := EndChecks{Ends: r.Object.Ends, Boards: []EndCheck{}}
	if r.Case == nil {
		return out
	}
	for _, e := range r.Case.EndChecks() {
		row := EndCheck{Part: e.Part}
		if e.RH > 0 {
			row.RHPct = number(e.RH.Percent())
		}
		out.Boards = append(out.Boards, row)
	}
	return out
}

// words say it of the board whose ends check first.
func (e EndChecks) words(used float64) string {
	switch e.Ends {
	case "":
		return ""
	case "bare":
	default:
		return say("endcheck.closed", "ends", e.Ends)
	}
	var first *EndCheck
	for i := range e.Boards {
		b := &e.Boards[i]
		if b.RHPct != nil && (first == nil || *b.RHPct > *first.RHPct) {
			first = b
		}
	}
	switch {
	case len(e.Boards) == 0:
		return ""
	case first == nil:
		return say("endcheck.none")
	}
	return say("endcheck.first", "part", the(first.Part), "rh", whole(*first.RHPct), "used", whole(used))
}

// lineWords tell of each join and split, what reaches its limit first, and where new ones could start.
func (a Assess) lineWords() []string {
	var out []string
	if len(a.Lines) > 0 {
		out = slices.Concat(a.linesInWords(), a.orderWords())
	}
	return append(out, nonEmpty(a.EndChecks.words(a.UsedTo.RHPct))...)
}
