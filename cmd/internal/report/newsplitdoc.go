package report

import (
	"slices"

	"crossgrain/panel/assessment"
	"crossgrain/panel/response"
)

// NewSplit is the place of a board at which a new split would begin first, at the humidity where that asks most.
type NewSplit struct {
	Part        string  `json:"part"`
	At          string  `json:"at"`           // middle, fixing, end, insert, channel, sapwood, back
	Of          string  `json:"of,omitempty"` // part; of sapwood left or right
	RHPct       float64 `json:"rh_pct"`
	Strain      float64 `json:"strain"` // held over a season
	Bears       float64 `json:"bears_strain"`
	Share       float64 `json:"share"`
	ClosedShare float64 `json:"closed_share"` // by the closed forms at the same place
}

func newSplitsOf(r *assessment.Result) []NewSplit {
	out := []NewSplit{}
	for _, s := range r.States {
		for i, n := range s.Splits {
			row := NewSplit{n.Part, string(n.At), n.Of, s.RH.Percent(), n.Strain, n.Bears, n.Share(), n.Closed}
			switch {
			case i >= len(out):
				out = append(out, row)
			case row.Share > out[i].Share:
				out[i] = row
			}
		}
	}
	return out
}

// newSplitWords tell of each board that would split elsewhere than in the middle between what holds it; shares under a tenth are left out.
func (a Assess) newSplitWords() []string {
	var out []string
	for _, n := range a.NewSplits {
		if n.At == string(response.SplitMiddle) || n.Share < 0.1 {
			continue
		}
		of := n.Of
		if n.At != string(response.SplitSapwood) {
			of = the(of)
		}
		var where string
		if n.At == string(response.SplitBack) {
			where = say("newsplit.back")
		} else {
			where = say("newsplit."+n.At, "of", of)
		}
		key := "newsplit.elements"
		if a.HeldBy != "elements" {
			key = "newsplit.closed"
		}
		pairs := []string{"part", the(n.Part), "where", where, "rh", whole(n.RHPct), "share", shareWords(&n.Share)}
		if key == "newsplit.elements" {
			pairs = append(pairs, "closed", tenthsOf(n.ClosedShare))
		}
		out = append(out, say(key, pairs...))
	}
	return out
}

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
	return slices.Concat(out, a.newSplitWords(), nonEmpty(a.EndChecks.words(a.UsedTo.RHPct)))
}
