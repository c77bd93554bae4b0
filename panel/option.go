package panel

import (
	"bytes"
	"cmp"
	"slices"
	"strings"
)

// Option is something that might be done, as the file describes it: the panel as it would be, and what was changed for that.
type Option struct {
	Name       string
	Does, Note string // as written; "" not said
	Reach      string // enclose, ease, fit, remove, reglue, support
	Reversible string // yes, in part, no; "" not said
	Touches    string // original wood: yes, no; "" not said
	AtRH       Quantity
	HasRH      bool
	Removed    []string // parts and keys that go
	Added      []string // parts that are new
	Reglued    []string // joins and splits
	Changed    []string // keys that are given anew, as batten.upper.depth_mm
	Structural bool     // more than surroundings change
	Panel      *Panel   // as it would be

	changes []change
}

// change is one table of an option.
type change struct {
	of   part
	keys map[string]value
}

// Reaches lists how far options go, in the order in which they are told.
func Reaches() []string { return slices.Clone(reaches) }

// Options lists what might be done, those that go least far first and otherwise in the order of the file.
func (p *Panel) Options() []Option {
	out := slices.Clone(p.options)
	slices.SortStableFunc(out, func(a, b Option) int {
		return cmp.Compare(slices.Index(reaches, a.Reach), slices.Index(reaches, b.Reach))
	})
	return out
}

// afterChange is why what was seen of a panel is no evidence of one that was changed since.
const afterChange = "This is the panel after a change, so what it bore before counts no more."

// surroundings are the tables that belong to what is around a panel.
var surroundings = []string{"enclosure", "frame"}

// structural says whether anything but the surroundings changes.
func (o *Option) structural() bool {
	for _, path := range slices.Concat(o.Removed, o.Added, o.Reglued, o.Changed) {
		if t, _, _ := strings.Cut(path, "."); !slices.Contains(surroundings, t) {
			return true
		}
	}
	return false
}

// reach is how far the changes go: the farthest of them.
func (o *Option) reach() string {
	far := 0
	to := func(word string) { far = max(far, slices.Index(reaches, word)) }
	for _, path := range o.Changed {
		switch t, _, _ := strings.Cut(path, "."); {
		case t == "frame":
			to("fit")
		case t != "enclosure":
			to("ease")
		}
		if strings.HasSuffix(path, ".empty") {
			to("remove")
		}
	}
	for _, path := range o.Removed {
		if n := strings.Count(path, "."); n < 2 && !strings.HasPrefix(path, "frame") && path != "enclosure" {
			to("remove")
		}
	}
	if len(o.Reglued) > 0 {
		to("reglue")
	}
	for _, path := range o.Added {
		if t, _, _ := strings.Cut(path, "."); !slices.Contains(surroundings, t) {
			to("support")
		}
	}
	return reaches[far]
}

// write writes the option as tables of a file.
func (o *Option) write(b *bytes.Buffer) {
	for _, c := range o.changes {
		head := header(part{table: "option", name: o.Name})
		if c.of.table != "option" {
			head = strings.TrimSuffix(head, "]") + "." + strings.TrimPrefix(header(c.of), "[")
		}
		b.WriteString("\n" + head + "\n")
		t, _ := lookTable(c.of.table, c.of.name != "")
		for _, k := range t.keys {
			if v, ok := c.keys[k.name]; ok {
				b.WriteString(k.name + " = " + v.toml + "\n")
			}
		}
	}
}
