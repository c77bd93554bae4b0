package panel

import (
	"fmt"
	"strings"
	"sync"

	"crossgrain/species"
	"crossgrain/tables"
)

// Panel is a panel as described: what was measured, what lies between two numbers, what is not
// recorded and what could not be told. Read makes it; it does not change afterwards and may be
// used from several goroutines.
type Panel struct {
	parts  []part // in the order of the schema, then of the file
	values map[string]value

	boards  []string       // names in the order across
	boardAt map[string]int // place across by name
	options []Option
	// changedWhy says why what was seen of the panel is no evidence: it is the panel after an option. "" otherwise.
	changedWhy string
	joinAt     map[int]part // first join described between a board and the next, by the board's place

	once    sync.Once // guards the two lists below
	inputs  []Input
	assumed []Assumption
}

// settle fills in what follows from the parts.
func (p *Panel) settle() {
	p.boards = p.Names("board")
	if len(p.boards) == 0 {
		n := 1
		if q, ok := p.Number("panel.boards"); ok {
			n = int(q.Nominal)
		}
		for i := range n {
			p.boards = append(p.boards, fmt.Sprint(i+1))
		}
	}
	p.boardAt, p.joinAt = map[string]int{}, map[int]part{}
	for i, b := range p.boards {
		p.boardAt[b] = i
	}
	for _, pt := range p.parts {
		if v := p.values[pt.at("between")]; pt.table == "join" && len(v.names) == 2 {
			at := min(p.boardIndex(v.names[0]), p.boardIndex(v.names[1]))
			if _, taken := p.joinAt[at]; !taken {
				p.joinAt[at] = pt
			}
		}
	}
}

// boardIndex returns the place of a board across, or -1.
func (p *Panel) boardIndex(name string) int {
	if i, ok := p.boardAt[name]; ok {
		return i
	}
	return -1
}

// Accession returns the number under which the panel is registered.
func (p *Panel) Accession() string { return p.Text("panel.accession") }

// Title returns what the panel is called, or "".
func (p *Panel) Title() string { return p.Text("panel.title") }

// Invented says whether the accession number or the title marks the panel as made up.
func (p *Panel) Invented() bool {
	return strings.Contains(strings.ToLower(p.Accession()+" "+p.Title()), "invented")
}

// Height returns the height as it hangs, mm.
func (p *Panel) Height() Quantity { q, _ := p.Number("panel.height_mm"); return q }

// Width returns the width as it hangs, mm.
func (p *Panel) Width() Quantity { q, _ := p.Number("panel.width_mm"); return q }

// GrainLevel says whether the grain runs level; upright when not recorded.
func (p *Panel) GrainLevel() bool { return p.Text("panel.grain") == "level" }

// Across returns the size across the grain and Along the size along it, mm.
func (p *Panel) Across() Quantity {
	if p.GrainLevel() {
		return p.Height()
	}
	return p.Width()
}

// Along returns the size along the grain, mm.
func (p *Panel) Along() Quantity {
	if p.GrainLevel() {
		return p.Width()
	}
	return p.Height()
}

// Text returns the words under a path such as board.left.wood; "" when not recorded, "?" when it
// could not be told. A yes or no is "yes" or "no".
func (p *Panel) Text(path string) string {
	v, ok := p.values[path]
	if ok && v.cannotTell {
		return cannotTell
	}
	return v.text
}

// word returns Text without the answer "could not tell".
func (p *Panel) word(path string) string {
	if t := p.Text(path); t != cannotTell {
		return t
	}
	return ""
}

// Number returns the number under a path in the unit of its key, and false when the file does not
// give it. Humidities are in per cent here, as in the file.
func (p *Panel) Number(path string) (Quantity, bool) {
	v, ok := p.values[path]
	if !ok || v.cannotTell || v.kind < numberKind || v.kind == listKind || v.kind == whenKind || v.kind >= namesKind {
		return Quantity{Known: Assumed}, false
	}
	q := Quantity{
		Nominal: (v.low + v.high) / 2, Low: v.low, High: v.high,
		Known: Measured, Source: "the file", Grade: tables.MeasuredHere,
	}
	if v.low != v.high {
		q.Known = Between
	}
	return q, true
}

// List returns the lengths under a path such as batten.upper.at_mm, mm; nil when not recorded.
func (p *Panel) List(path string) []float64 { return append([]float64(nil), p.values[path].list...) }

// Known says how the value under a path is known: in the file as one number or word (Measured), as
// two numbers (Between), or not in the file (Assumed).
func (p *Panel) Known(path string) Known {
	v, ok := p.values[path]
	switch {
	case !ok || v.cannotTell:
		return Assumed
	case v.low != v.high:
		return Between
	}
	return Measured
}

// Names lists the parts of a table in the order of the file: Names("board"). A table without
// names gives one empty name when it is in the file.
func (p *Panel) Names(table string) []string {
	var out []string
	for _, pt := range p.parts {
		if pt.table == table {
			out = append(out, pt.name)
		}
	}
	return out
}

// Has says whether the file has a table of that path: Has("cradle").
func (p *Panel) Has(table string) bool { return len(p.Names(table)) > 0 }

// Woods lists the woods of the boards by their names, each once, in the order across.
func (p *Panel) Woods() []string {
	var out []string
	add := func(name string) {
		if name == "" {
			return
		}
		if w, err := species.Lookup(name); err == nil {
			name = w.Name
		}
		for _, o := range out {
			if o == name {
				return
			}
		}
		out = append(out, name)
	}
	for _, b := range p.Names("board") {
		if w := p.word("board." + b + ".wood"); w != "" {
			add(w)
		} else {
			add(p.word("panel.wood"))
		}
	}
	if len(out) == 0 {
		add(p.word("panel.wood"))
	}
	return out
}

// facts are the questions that a description answers first.
var facts = []string{
	"panel.accession", "panel.height_mm", "panel.width_mm", "panel.measured", "panel.wood", "panel.thickness_mm",
	"panel.boards", "panel.end_grain", "panel.weight_kg", "panel.original_thickness", "used_to.rh_pct",
	"used_to.since", "used_to.last_inspected", "used_to.unchanged", "used_to.lived_through_rh_pct",
	"face.front.ground", "face.front.ground_state", "face.front.paint", "ends.state", "back",
}

// Facts says how many of the first questions about a panel its file answers.
func (p *Panel) Facts() (known, of int) {
	for _, f := range facts {
		if p.answers(f) {
			known++
		}
	}
	return known, len(facts)
}

// answers says whether a question is answered, for the panel or for every board.
func (p *Panel) answers(path string) bool {
	boards := p.Names("board")
	every := func(keys ...string) bool {
		for _, b := range boards {
			found := false
			for _, k := range keys {
				found = found || p.Known("board."+b+"."+k) != Assumed
			}
			if !found {
				return false
			}
		}
		return len(boards) > 0
	}
	if p.Known(path) != Assumed {
		return true
	}
	switch path {
	case "panel.wood":
		return every("wood")
	case "panel.thickness_mm":
		return every("thickness_mm", "thickness_left_mm", "thickness_right_mm")
	case "panel.boards":
		return len(boards) > 0
	case "panel.end_grain":
		return every("ring_angle_deg", "pith_across_mm")
	case "used_to.rh_pct":
		return p.Known("used_to.climate") != Assumed
	case "back":
		return p.Has("batten") || p.Has("cradle") || p.Has("frame")
	}
	return false
}
