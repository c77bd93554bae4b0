package page

import (
	"fmt"
	"slices"
	"strings"

	"github.com/BurntSushi/toml"

	"crossgrain/panel"
	"crossgrain/tables/edit"
	"crossgrain/tables/problem"
)

// group is one table of the panel file as it stands in the form.
type group struct {
	Path   string // of the file: board.left, cradle, check.top
	Table  string // of the schema: split for check.top
	Name   string // of the part; "" for a table without names
	Title  string
	Doc    string
	There  bool // it stands in the file
	Named  bool
	Free   bool // its name may be chosen
	Fields []field
	Wrong  []string // problems of the group as a whole
}

// Given counts the fields with an answer.
func (g group) Given() int {
	n := 0
	for _, f := range g.Fields {
		if f.Value != "" {
			n++
		}
	}
	return n
}

// At returns the fields of one depth; those that have an answer or a problem come with the first two.
func (g group) At(depth panel.Depth) []field {
	var out []field
	for _, f := range g.Fields {
		d := f.Depth
		if d == panel.Workshop && (f.Value != "" || f.Wrong != "") {
			d = panel.ByRuler
		}
		if d == depth {
			out = append(out, f)
		}
	}
	return out
}

// field is one key of the panel file as it stands in the form.
type field struct {
	panel.AskedKey
	Path  string // of the file: board.left.thickness_mm
	Label string
	Value string // as a person would type it
	Wrong string // what is wrong with it; "" nothing
	Help  string // the drawing that stands beside it; "" none
}

// ID is the field's id in the page; anchors lead to it.
func (f field) ID() string { return "k-" + strings.NewReplacer(".", "-", " ", "_").Replace(f.Path) }

// Chosen says whether the answer is that word.
func (f field) Chosen(word string) bool { return f.Value == word }

// Odd says whether the answer is none of the words, which are all the form offers.
func (f field) Odd() bool {
	return f.Value != "" && f.Value != "?" && !slices.Contains(f.Choices(), f.Value)
}

// Choices are the words of a question with few answers.
func (f field) Choices() []string {
	if f.Answer == panel.YesNo {
		return []string{"yes", "no"}
	}
	return f.Words
}

// Picks says whether the answer is picked from few words.
func (f field) Picks() bool { return f.Answer == panel.Choice || f.Answer == panel.YesNo }

// Long says whether the answer may need several lines.
func (f field) Long() bool {
	return f.Answer == panel.Words && (f.Name == "note" || f.Name == "what")
}

// IsWood says whether the answer is the name of a wood.
func (f field) IsWood() bool { return f.Answer == panel.WoodName }

// Form says in a few words what may be typed.
func (f field) Form() string {
	switch f.Answer {
	case panel.Length:
		return "mm, or with a unit"
	case panel.Lengths:
		return "mm, with commas between"
	case panel.Humidity:
		return "% RH"
	case panel.Spread:
		return "% RH, lowest to highest"
	case panel.When:
		return "a year or a date"
	case panel.Two:
		return "two names, with a comma between"
	case panel.Whole:
		return "a whole number"
	}
	return f.Unit
}

// form is the whole panel file as a form.
type form struct {
	Groups []group
	Rest   []string // problems that belong to no field
}

// formOf lays a panel file out as a form: every table that stands in it with all keys it could have, and every table without a name.
func formOf(t *edit.Text, problems problem.List) form {
	wrong, claimed := map[string][]string{}, map[string]bool{}
	for _, p := range problems {
		wrong[p.Part] = append(wrong[p.Part], told(p))
	}
	here := map[string]bool{}
	names := map[string][]string{}
	for _, path := range t.Tables() {
		here[strings.Join(path, ".")] = true
		if len(path) == 2 && !slices.Contains(names[path[0]], path[1]) {
			names[path[0]] = append(names[path[0]], path[1])
		}
	}
	var out form
	add := func(a panel.Asked, as, name string) {
		path := as
		if name != "" {
			path += "." + name
		}
		g := group{Path: path, Table: a.Path, Name: name, Title: titleOf(a, name), Doc: a.Doc, There: here[path], Named: a.Named, Free: a.Named && len(a.Names) == 0, Wrong: wrong[path]}
		claimed[path] = true
		for _, k := range a.Keys {
			at := path + "." + k.Name
			claimed[at] = true
			f := field{AskedKey: k, Path: at, Label: labelOf(a.Path, k), Help: helps[a.Path+"."+k.Name], Wrong: strings.Join(wrong[at], "; ")}
			if raw, ok := rawAt(t, strings.Split(path, "."), k.Name); ok {
				f.Value = shownAs(raw)
			}
			g.Fields = append(g.Fields, f)
		}
		out.Groups = append(out.Groups, g)
	}
	for _, a := range panel.Asking() {
		switch {
		case !a.Named:
			add(a, a.Path, "")
		case len(a.Names) > 0:
			for _, n := range a.Names {
				add(a, a.Path, n)
			}
		default:
			for _, as := range []string{a.Path, a.Also} {
				for _, n := range names[as] {
					if as != "" {
						add(a, as, n)
					}
				}
			}
		}
	}
	for _, p := range problems {
		if !claimed[p.Part] {
			out.Rest = append(out.Rest, lineOf(p)+told(p))
		}
	}
	return out
}

// rawAt is the value of a key as typed; the end grain may stand at the top of the file.
func rawAt(t *edit.Text, table []string, key string) (string, bool) {
	if len(table) == 1 && table[0] == "ends" && key == "state" {
		if raw, ok := t.Raw("ends"); ok && !strings.HasPrefix(strings.TrimSpace(raw), "{") {
			return raw, true
		}
	}
	return t.Raw(append(slices.Clone(table), key)...)
}

// told is a problem in words, without file and line.
func told(p problem.Problem) string {
	if p.Hint == "" {
		return p.Msg
	}
	return p.Msg + " (" + p.Hint + ")"
}

// lineOf names the part of a problem that no field has, and its line.
func lineOf(p problem.Problem) string {
	switch {
	case p.Part != "" && p.Line > 0:
		return fmt.Sprintf("%s (line %d): ", p.Part, p.Line)
	case p.Line > 0:
		return fmt.Sprintf("line %d: ", p.Line)
	case p.Part != "":
		return p.Part + ": "
	}
	return ""
}

// shownAs writes a literal of the file as a person would type it: [10, 15] as "10 to 15", words without quotes.
func shownAs(raw string) string {
	var doc struct{ X any }
	if _, err := toml.Decode("X = "+raw, &doc); err != nil {
		return raw
	}
	switch x := doc.X.(type) {
	case string:
		return x
	case bool:
		if x {
			return "yes"
		}
		return "no"
	case []any:
		parts, numbers := make([]string, len(x)), true
		for i, e := range x {
			parts[i] = fmt.Sprint(e)
			if s, ok := e.(string); ok {
				parts[i] = s
				numbers = numbers && strings.ContainsAny(s, "0123456789")
			}
		}
		if len(parts) == 2 && numbers {
			return parts[0] + " to " + parts[1]
		}
		return strings.Join(parts, ", ")
	}
	return strings.TrimSpace(raw)
}
