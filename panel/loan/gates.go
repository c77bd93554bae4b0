package loan

import (
	"fmt"
	"slices"

	"crossgrain/panel"
	"crossgrain/panel/assessment"
)

// Gate is a finding that leaves a panel without figures, and what must be answered.
type Gate struct {
	ID, Part string
	Text     string // whole sentences; of gates of the loan they are in the catalogue, and this is ""
	Open     bool   // an answer in the loan file is enough
}

// gates lists what stands before the figures: the panel's own findings, and open joins and splits for
// which nobody has answered (panels with open splits are not thought fit to travel unrepaired).
func gates(p *panel.Panel, o *panel.Object, answered []string) (out []Gate) {
	for _, g := range p.Gates() {
		if g.NoFigures {
			out = append(out, Gate{ID: g.ID, Part: g.Part, Text: g.Text})
		}
	}
	open := func(id, part string) {
		if !slices.Contains(answered, part) {
			out = append(out, Gate{ID: id, Part: part, Open: true})
		}
	}
	for _, j := range o.Joins {
		if j.Open() > 0 {
			open("open_join", "join."+j.Name)
		}
	}
	for _, s := range o.Splits {
		if s.Through {
			open("open_split", "split."+s.Name)
		}
	}
	if p.Text("used_to.unchanged") == "no" {
		open("changed", "used_to")
	}
	return out
}

// depends is the finding that an unknown parts the answer and that in one of its ways no figures may be
// given, as of a cradle that may be seized; nil where that is not so.
func depends(d *assessment.Doubt) *Gate {
	if d == nil || d.Fork == nil {
		return nil
	}
	for i := range d.Ways {
		if len(d.Ways[i].Ranges) == 0 {
			return &Gate{ID: "depends", Part: d.Fork.Part}
		}
	}
	return nil
}

// strayAnswers returns the parts that were answered for and are not in the panel file.
func strayAnswers(o *panel.Object, answered []string) error {
	parts := []string{"used_to"}
	for _, j := range o.Joins {
		parts = append(parts, "join."+j.Name)
	}
	for _, s := range o.Splits {
		parts = append(parts, "split."+s.Name)
	}
	for _, a := range answered {
		if !slices.Contains(parts, a) {
			return fmt.Errorf("answered names %q, which is no join or split of the panel; %s", a, hint(a, parts))
		}
	}
	return nil
}
