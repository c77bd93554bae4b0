package intake

import (
	"fmt"
	"slices"
	"strings"

	"crossgrain/species"
	"crossgrain/tables/problem"
)

// How says how a column was matched.
type How string

// The ways in which a column is matched.
const (
	ByName     How = "by name"
	AsNamed    How = "as named" // by the one who asked, now or earlier
	KeptAsNote How = "kept as note"
)

// Column is one column of the list.
type Column struct {
	Heading string
	Field   Field
	Unit    string // of its lengths: mm, cm, m, in; empty: each cell carries its own
	How     How
}

// units are the names of units of length as they are typed, and what a panel file calls them.
var units = map[string]string{
	"mm": "mm", "millimetre": "mm", "millimetres": "mm", "millimeter": "mm", "millimeters": "mm",
	"cm": "cm", "centimetre": "cm", "centimetres": "cm", "centimeter": "cm", "centimeters": "cm", "zentimeter": "cm",
	"m": "m", "metre": "m", "metres": "m", "meter": "m",
	"in": "in", "inch": "in", "inches": "in", "zoll": "in", "pouce": "in", "pouces": "in", "pollici": "in", "pulgadas": "in", "duim": "in", `"`: "in", "″": "in", "”": "in",
}

// fieldOf finds the field and the unit that a heading names; false when it names none.
func fieldOf(heading string) (f Field, unit string, ok bool) {
	words := strings.Fields(species.Fold(heading))
	if len(words) > 1 {
		if u, is := units[words[len(words)-1]]; is {
			unit, words = u, words[:len(words)-1]
		}
	}
	if f, ok = fieldNamed(strings.Join(words, " ")); ok {
		return f, unit, true
	}
	bare := words[:0:0]
	for _, w := range words {
		if !fillers[w] {
			bare = append(bare, w)
		}
	}
	f, ok = fieldNamed(strings.Join(bare, " "))
	return f, unit, ok
}

func fieldNamed(folded string) (Field, bool) {
	if folded == "" {
		return "", false
	}
	for _, v := range vocabulary {
		if species.Fold(string(v.field)) == folded {
			return v.field, true
		}
	}
	for _, v := range vocabulary {
		for _, w := range v.words {
			if w == folded {
				return v.field, true
			}
		}
	}
	return "", false
}

// ParseColumn reads what a column was named as: "height", or with the unit of its lengths, "height cm".
func ParseColumn(s string) (Field, string, error) {
	name, unit, _ := strings.Cut(strings.TrimSpace(s), " ")
	u := ""
	if unit = strings.TrimSpace(unit); unit != "" {
		if u = units[strings.ToLower(unit)]; u == "" {
			return "", "", fmt.Errorf("the unit must be mm, cm, m or in, got %q", unit)
		}
	}
	for _, v := range vocabulary {
		if string(v.field) == name && v.field != asked {
			return v.field, u, nil
		}
	}
	near := ""
	if n := problem.Nearest(name, Fields()); n != "" {
		near = ", did you mean " + n + "?"
	}
	return "", "", fmt.Errorf("no column is called %q%s (there are %s)", name, near, strings.Join(Fields(), ", "))
}

// match gives every heading its column. A field is held by the first column that names it; later ones
// are kept as notes.
func match(headings []string, named map[string]string) ([]Column, error) {
	out := make([]Column, len(headings))
	taken := map[Field]bool{}
	for i, h := range headings { // what was named comes before what is guessed
		out[i] = Column{Heading: h, Field: Note, How: KeptAsNote}
		if as, ok := lookNamed(named, h); ok {
			f, unit, err := ParseColumn(as)
			if err != nil {
				return nil, fmt.Errorf("column %q: %w", h, err)
			}
			if taken[f] && f != Note {
				if slices.Contains(headings[:i], h) {
					continue // the same heading once more
				}
				return nil, fmt.Errorf("column %q: another column is named %s already", h, f)
			}
			out[i].Field, out[i].Unit, out[i].How = f, unit, AsNamed
			taken[f] = true
		}
	}
	for i, h := range headings {
		if f, unit, ok := fieldOf(h); ok && out[i].How != AsNamed && (!taken[f] || f == Note) {
			out[i] = Column{Heading: h, Field: f, Unit: unit, How: ByName}
			taken[f] = true
		}
	}
	return out, nil
}

// lookNamed finds a heading among those that were named, letter for letter or folded.
func lookNamed(named map[string]string, heading string) (string, bool) {
	if as, ok := named[heading]; ok {
		return as, true
	}
	for h, as := range named {
		if f := species.Fold(h); f != "" && f == species.Fold(heading) {
			return as, true
		}
	}
	return "", false
}
