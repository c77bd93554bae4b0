package page

import (
	"fmt"
	"slices"
)

// section is a part of the form that belongs together.
type section struct {
	ID, Title, Lead string
	Open            bool
	Said            string  // how much is answered
	Extra           []field // keys of the whole panel that are asked here
	Groups          []shownGroup
	Add             []addition
}

// shownGroup is a group as its section shows it.
type shownGroup struct {
	group
	Alone bool // the section's title is its own
}

// addition is a kind of part that may be added.
type addition struct {
	Table, Word, An, Such string
	Named                 bool
}

// plan says which tables stand in which section of the form, in the order in which they are asked: what stops all figures and what
// holds the panel come early, what nobody can measure last.
var plan = []struct {
	id, title, lead string
	extra           []string
	tables          []string
	add             []addition
}{
	{"whole", "The panel as a whole", "Type 600, 62 cm or 24 1/2 in; 10-15 for between; ? for could not tell. Leave empty what nobody has looked at.", nil, []string{"panel"}, nil},
	{"paint", "Paint and ground", "Flaking paint comes before any number.", nil, []string{"face"}, nil},
	{"back", "What crosses the grain at the back", "Say “nothing” where somebody looked and there is nothing.", []string{"panel.back"}, []string{"cradle", "batten"}, []addition{{"batten", "batten", "a batten", "upper", true}, {"cradle", "cradle", "a cradle", "", false}}},
	{"lines", "Joins, splits and repairs", "A split runs in the wood, a join is the line between two boards. Places are measured from the left as seen from the front, heights from below.", []string{"panel.cracks"}, []string{"join", "split", "insert"},
		[]addition{{"split", "split", "a split", "top", true}, {"join", "join", "a join", "left-middle", true}, {"insert", "repair", "a repair", "butterfly", true}}},
	{"boards", "Boards and end grain", "One by one where they differ, from the left as seen from the front (grain upright) or from below (grain level).", nil, []string{"board", "ends"}, []addition{{"board", "board", "a board", "left", true}}},
	{"lives", "Where it lives", "What it has lived through unharmed counts as evidence.", nil, []string{"used_to"}, nil},
	{"measured", "What was measured on one day", "A warp or a gap at two humidities, such as in February and in August, is worth more than any guess.", nil, []string{"observed"}, []addition{{"observed", "measurement", "a measurement", "february", true}}},
	{"around", "Frame, case, and what is glued over the back", "", nil, []string{"frame", "enclosure", "support"}, []addition{{"support", "support", "something glued over the whole back", "", false}}},
	{"treated", "What was done to it", "", nil, []string{"treated"}, []addition{{"treated", "treatment", "a past treatment", "1932", true}}},
}

// helps are the drawings beside fields.
var helps = map[string]string{"panel.end_grain": "end grain", "panel.back": "cradle", "board.heart_side": "heart", "panel.cracks": "split"}

// Sections lays the form out. Single tables that need a decision to be there, such as a cradle, are shown once they are.
func (v sheetView) Sections() []section {
	var out []section
	for i, p := range plan {
		s := section{ID: p.id, Title: p.title, Lead: p.lead, Open: i == 0}
		given, wrong := 0, 0
		for _, path := range p.extra {
			if f := v.Form.field(path); f != nil {
				s.Extra = append(s.Extra, *f)
				given, wrong = given+oneIf(f.Value != ""), wrong+oneIf(f.Wrong != "")
			}
		}
		for _, table := range p.tables {
			for _, g := range v.Form.Groups {
				if g.Table != table || !g.There && (table == "cradle" || table == "support") {
					continue
				}
				g.Fields = without(g.Fields, elsewhere)
				s.Groups = append(s.Groups, shownGroup{group: g, Alone: len(p.tables) == 1 && !g.Named})
				given += g.Given()
				wrong += g.faults()
			}
		}
		for _, a := range p.add {
			if !a.Named && v.Form.has(a.Table) {
				continue
			}
			s.Add = append(s.Add, a)
		}
		s.Open = s.Open || wrong > 0
		switch {
		case wrong > 0:
			s.Said = fmt.Sprintf("%d to mend", wrong)
		case given == 1:
			s.Said = "1 answer"
		case given > 0:
			s.Said = fmt.Sprintf("%d answers", given)
		default:
			s.Said = "nothing recorded"
		}
		out = append(out, s)
	}
	return out
}

func (g group) faults() int {
	n := len(g.Wrong)
	for _, f := range g.Fields {
		if f.Wrong != "" {
			n++
		}
	}
	return n
}

func (f form) has(path string) bool {
	for _, g := range f.Groups {
		if g.Path == path && g.There {
			return true
		}
	}
	return false
}

// elsewhere are keys that are asked in another section than the rest of their table.
var elsewhere = []string{"panel.back", "panel.cracks"}

func without(fields []field, paths []string) []field {
	var out []field
	for _, f := range fields {
		if !slices.Contains(paths, f.Path) {
			out = append(out, f)
		}
	}
	return out
}

func oneIf(yes bool) int {
	if yes {
		return 1
	}
	return 0
}
