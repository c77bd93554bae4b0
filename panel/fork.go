package panel

import "maps"

// Fork is something that was not found out and has few answers, which part the results rather than widen them.
type Fork struct {
	Path, Part string
	Question   string // whole sentence
	Ways       []Way  // two answers
	Means      string
	Minutes    float64
	By         string // who may find out
}

// Way is one answer to a fork.
type Way struct {
	Value string // as in the file
	Words string // a clause: "if it slides"
}

// conservator is who may try what moves.
const conservator = "conservator"

// Forks lists what parts the results: whether a cradle or a batten that should slide does.
func (p *Panel) Forks() []Fork {
	var out []Fork
	add := func(path, part, what string) {
		t, _ := lookTable("cradle", false)
		k, _ := t.key("moves")
		out = append(out, Fork{
			Path: path, Part: part, Question: "Does " + what + " slide?", Means: k.means, Minutes: k.minutes, By: conservator,
			Ways: []Way{{"by hand", "if " + what + " slides"}, {"seized", "if " + what + " is stuck"}},
		})
	}
	if p.Has("cradle") && p.word("cradle.moves") == "" {
		add("cradle.moves", "cradle", "the cradle")
	}
	for _, name := range p.Names("batten") {
		switch p.word("batten." + name + ".fixing") {
		case "sliding dovetail", "slotted", "held by keepers":
			if path := "batten." + name + ".moves"; p.word(path) == "" {
				add(path, "batten."+name, "batten "+name)
			}
		}
	}
	return out
}

// With returns the panel as if the file had the word under a path. The part must be in the file and the word be one of
// its key, as those of [Panel.Forks] are.
func (p *Panel) With(path, word string) *Panel {
	q := &Panel{parts: p.parts, values: maps.Clone(p.values)}
	q.values[path] = value{kind: wordKind, text: word, toml: quote(word)}
	q.settle()
	return q
}

// WithLength returns the panel as if the file had the length under a path such as panel.thickness_mm, in mm, as one
// measured number. The part must be in the file and the length lie within the range of its key.
func (p *Panel) WithLength(path string, mm float64) *Panel {
	q := &Panel{parts: p.parts, values: maps.Clone(p.values), changedWhy: p.changedWhy}
	q.values[path] = value{kind: lengthKind, low: mm, high: mm, toml: showNumber(mm)}
	q.settle()
	return q
}
