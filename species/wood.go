package species

import (
	"fmt"
	"slices"
	"strings"
	"sync"

	"crossgrain/tables"
)

// The two groups of woods.
const (
	Hardwood = "hardwood"
	Softwood = "softwood"
)

// Alias is another name of a wood, in the language given by its two-letter code (en, fr, de, it,
// es, nl; la is a botanical name).
type Alias struct{ Language, Name string }

// Wood is one wood: names, group and, through its methods, its values.
type Wood struct {
	Key       string // as in table woods: oak_european
	Name      string // English trade name
	Botanical string // one or more, joined by "; "; may be empty
	Group     string // Hardwood or Softwood
	Aliases   []Alias
	Note      string // what to keep in mind, may be empty

	row   tables.Row
	props []Property
	stand *Wood // relative that is offered when a value is lacking, or nil
	taken func() taken
}

// languages are the columns of table woods that hold names.
var languages = [...]string{"en", "fr", "de", "it", "es", "nl"}

// library is all woods, the woods by folded name, and every name for hints.
type library struct {
	woods  []*Wood
	byName map[string]*Wood
	names  []string
}

var load = sync.OnceValue(newLibrary)

func newLibrary() *library {
	lib := &library{byName: map[string]*Wood{}}
	byKey := map[string]*Wood{}
	for _, r := range tables.MustRead("woods").Rows {
		w := newWood(r)
		lib.woods = append(lib.woods, w)
		byKey[w.Key] = w
	}
	for _, w := range lib.woods {
		w.stand = byKey[w.row.Text("stand_in")]
		w.props = w.collect()
		w.taken = sync.OnceValue(w.take)
	}
	for _, w := range lib.woods { // trade names first: an alias never hides one
		lib.add(w.Name, w)
		lib.add(w.Key, w)
	}
	for _, w := range lib.woods {
		for _, a := range w.Aliases {
			lib.add(a.Name, w)
		}
	}
	return lib
}

func (lib *library) add(name string, w *Wood) {
	key := Fold(name)
	if _, taken := lib.byName[key]; taken {
		return
	}
	lib.byName[key] = w
	lib.names = append(lib.names, name)
}

func newWood(r tables.Row) *Wood {
	w := &Wood{
		Key: r.Text("key"), Name: r.Text("name"), Botanical: r.Text("botanical"),
		Group: r.Text("group"), Note: r.Text("note"), row: r,
	}
	for _, lang := range languages {
		for _, n := range list(r.Text(lang)) {
			w.Aliases = append(w.Aliases, Alias{lang, n})
		}
	}
	for _, n := range list(w.Botanical) {
		w.Aliases = append(w.Aliases, Alias{"la", n})
	}
	return w
}

// list splits a cell of several names.
func list(cell string) []string {
	if cell == "" {
		return nil
	}
	return strings.Split(cell, "; ")
}

// All returns all woods in the order of table woods: woods of panels first. The slice is the
// caller's, the woods are not to be changed.
func All() []*Wood { return slices.Clone(load().woods) }

// Lookup finds a wood by trade name (English, French, German, Italian, Spanish, Dutch), botanical
// name or key; capitals and accents do not matter. An unknown name gives an *[UnknownError].
func Lookup(name string) (*Wood, error) {
	lib := load()
	if w, ok := lib.byName[Fold(name)]; ok {
		return w, nil
	}
	return nil, &UnknownError{Name: name, Near: near(Fold(name), lib.names)}
}

// UnknownError reports a name that no wood has, with the nearest names known (best first, at most
// three, perhaps none).
type UnknownError struct {
	Name string
	Near []string
}

func (e *UnknownError) Error() string {
	s := fmt.Sprintf("unknown wood %q", e.Name)
	switch len(e.Near) {
	case 0:
		return s
	case 1:
		return s + fmt.Sprintf(", did you mean %q", e.Near[0])
	}
	return s + ", did you mean one of " + quoted(e.Near)
}

func quoted(names []string) string {
	out := make([]string, len(names))
	for i, n := range names {
		out[i] = fmt.Sprintf("%q", n)
	}
	return strings.Join(out, ", ")
}
