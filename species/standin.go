package species

import (
	"math"

	"crossgrain/tables"
)

// value returns a property of the wood or what stands in for it, and the name of the stand-in ("" for
// the wood's own). ok is false when there is neither.
func (w *Wood) value(name, dir string) (p Property, from string, ok bool) {
	if p, ok := w.own(name, dir); ok {
		return p, "", true
	}
	return w.standIn(name, dir)
}

// standIn finds a stand-in: for movement the relative only; for everything else a fit on the wood's
// own density when it has one, then the relative, then the fit or the generic value.
func (w *Wood) standIn(name, dir string) (Property, string, bool) {
	if name == Swelling && dir != "L" {
		return w.relative(name, dir)
	}
	if _, dense := w.own(Density, ""); dense {
		if p, from, ok := w.fitted(name, dir); ok {
			return p, from, true
		}
	}
	if p, from, ok := w.relative(name, dir); ok {
		return p, from, true
	}
	if p, from, ok := w.fitted(name, dir); ok {
		return p, from, true
	}
	return w.generic(name, dir)
}

// relative borrows from the related wood. Toughness is not borrowed: it is known for so few woods
// that the value of the group serves better.
func (w *Wood) relative(name, dir string) (Property, string, bool) {
	if w.stand == nil || name == Toughness || name == ToughnessStart || name == ToughnessPlateau {
		return Property{}, "", false
	}
	p, ok := w.stand.own(name, dir)
	if !ok {
		return Property{}, "", false
	}
	return p.borrowed(), w.stand.Name, true
}

// borrowed marks a value of another wood: an estimate with a spread of at least 35 %.
func (p Property) borrowed() Property {
	p.Grade = tables.Estimate
	p.Status = "estimate"
	p.CV = max(p.CV, borrowedCV)
	return p.spread()
}

const borrowedCV = 0.35 // as the borrowed rows of panel_wood_defaults

// fitted evaluates table fits: factor (x/reference)^exponent.
func (w *Wood) fitted(name, dir string) (Property, string, bool) {
	for _, r := range tables.MustRead("fits").Rows {
		if r.Text("property") != name || r.Text("group") != w.Group || !sameDirection(r.Text("direction"), dir) {
			continue
		}
		v, from := w.evaluate(r)
		cv, _ := r.Float("cv")
		p := Property{Name: name, Direction: dir, CV: cv, Datum: tables.Datum{
			Value: v, Unit: r.Text("unit"), Source: r.Text("source"), Locator: "fits", Status: "estimate",
			Note: r.Text("note"), Grade: tables.Estimate,
		}}
		if name == Modulus || name == ShearModulus {
			p.Duration = Short
		}
		return p.spread(), from, true
	}
	return Property{}, "", false
}

func sameDirection(row, dir string) bool {
	return row == dir || row == "" && (dir == "R" || dir == "T")
}

func (w *Wood) evaluate(r tables.Row) (v float64, from string) {
	factor, _ := r.Float("factor")
	reference, _ := r.Float("reference")
	exponent, _ := r.Float("exponent")
	switch r.Text("basis") {
	case "density":
		p, _, _ := w.value(Density, "")
		return factor * math.Pow(p.Value/reference, exponent), "fit on density, " + w.Group + "s"
	case "modulus L":
		p, _, _ := w.value(Modulus, "L")
		return factor * p.Value, "mean ratio to the modulus along the grain, " + w.Group + "s"
	case "strength_tension":
		a, _, _ := w.value(StrengthTension, "R")
		b, _, _ := w.value(StrengthTension, "T")
		return factor * min(a.Value, b.Value), "share of the strength in tension"
	}
	return factor, "value for all " + w.Group + "s"
}

// generic gives toughness and diffusion of the group.
func (w *Wood) generic(name, dir string) (Property, string, bool) {
	from := "all " + w.Group + "s"
	switch name {
	case Toughness, Diffusion:
		for _, p := range defaultsOf(w.Group + "_generic") {
			if p.Name == name && p.Direction == "" {
				p.Direction, p.Grade, p.Status = dir, tables.Estimate, "estimate"
				return p, from, true
			}
		}
	case ToughnessStart:
		k, from, ok := w.value(Toughness, dir)
		if !ok {
			return Property{}, "", false
		}
		o, _ := w.crackPlane(dir)
		return energyOf(name, dir, 1000*Energy(k.Value, o.ModeI()), energyCV(k.CV), k.Source,
			"K of "+orOwn(from)+" squared over E*"), from, true
	case ToughnessPlateau:
		s, _, ok := w.value(ToughnessStart, dir)
		if !ok {
			return Property{}, "", false
		}
		return energyOf(name, dir, 1000*plateau(s.Value/1000), s.CV, "ASSUMPTION",
			"four times the start value, between 200 and 600 J/m2"), "four times the start value", true
	}
	return Property{}, "", false
}

func orOwn(from string) string {
	if from == "" {
		return "the wood itself"
	}
	return from
}

func energyOf(name, dir string, v, cv float64, source, note string) Property {
	return Property{Name: name, Direction: dir, CV: cv, Datum: tables.Datum{
		Value: v, Unit: "J/m2", Source: source, Locator: "fits", Status: "estimate", Note: note, Grade: tables.Estimate,
	}}.spread()
}
