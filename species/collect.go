package species

import (
	"strings"

	"crossgrain/tables"
)

// collect gathers the values of the wood in the fixed order of propertyOrder.
func (w *Wood) collect() []Property {
	var all []Property
	if key := w.row.Text("defaults"); key != "" {
		all = append(all, defaultsOf(key)...)
		all = append(all, longValues(key)...)
		all = append(all, totals(key)...)
	}
	for _, p := range w.handbook() {
		if !holds(all, p.Name, p.Direction) {
			all = append(all, p)
		}
	}
	all = append(all, w.startEnergies(all)...)
	return inOrder(all)
}

func holds(all []Property, name, direction string) bool {
	for _, p := range all {
		if p.Name == name && p.Direction == direction {
			return true
		}
	}
	return false
}

// propertyOrder is the order in which properties are listed.
var propertyOrder = [...]string{
	Density, Swelling, ShrinkageTotal, Modulus, ModulusLong, ShearModulus, ShearModulusLong, Poisson,
	StrengthTension, StrengthCompress, CompressionLimit, RollingShear,
	Toughness, ToughnessStart, ToughnessPlateau, Diffusion,
}

func inOrder(all []Property) []Property {
	out := make([]Property, 0, len(all))
	for _, name := range propertyOrder {
		for _, p := range all {
			if p.Name == name {
				out = append(out, p)
			}
		}
	}
	return out
}

// called tells how a property of panel_wood_defaults is called here ("" for what has no use).
func called(property string) (name string, d Duration) {
	switch property {
	case "density_12":
		return Density, Timeless
	case "diff_swelling":
		return Swelling, Timeless
	case "E_L", "E_R", "E_T":
		return Modulus, Short
	case "G_RT":
		return ShearModulus, Short
	case "nu_RT":
		return Poisson, Timeless
	case "strength_tension_perp":
		return StrengthTension, Timeless
	case "strength_compression":
		return StrengthCompress, Timeless
	case "strength_rolling_shear":
		return RollingShear, Timeless
	case "compression_perp_prop_limit":
		return CompressionLimit, Timeless
	case "K_Ic":
		return Toughness, Timeless
	case "G_Ic":
		return ToughnessPlateau, Timeless
	case "diffusion":
		return Diffusion, Timeless
	}
	return "", Timeless
}

// defaultsOf returns the values of one wood of panel_wood_defaults. A strength printed without a
// direction stands for R and T unless the direction has a row of its own.
func defaultsOf(key string) []Property {
	var own, both []Property
	for _, r := range tables.MustRead("panel_wood_defaults").Rows {
		if r.Text("wood") != key {
			continue
		}
		name, d := called(r.Text("property"))
		if name == "" {
			continue
		}
		p := fromRow(r, name, r.Text("direction"), "panel_wood_defaults")
		p.Duration = d
		if p.Direction == "" && (name == StrengthTension || name == CompressionLimit) {
			both = append(both, p)
			continue
		}
		own = append(own, p)
	}
	for _, p := range both {
		for _, p.Direction = range [...]string{"R", "T"} {
			if !holds(own, p.Name, p.Direction) {
				own = append(own, p)
			}
		}
	}
	return own
}

// fromRow reads a row with the columns value, unit, source, status, evidence and note, and cv if
// the table has it.
func fromRow(r tables.Row, name, direction, locator string) Property {
	v, _ := r.Float("value")
	cv, _ := r.Float("cv")
	g, err := tables.ParseGrade(r.Text("evidence"))
	if err != nil {
		g = tables.Estimate
	}
	p := Property{Name: name, Direction: direction, CV: cv, Datum: tables.Datum{
		Value: v, Unit: r.Text("unit"), Source: r.Text("source"), Locator: locator,
		Status: r.Text("status"), Note: r.Text("note"), Grade: g,
	}}
	return p.spread()
}

// longValues returns the long-term moduli of panel_woods: those whose note calls them relaxed.
func longValues(key string) []Property {
	names := map[string]string{
		"E_L": ModulusLong, "E_R": ModulusLong, "E_T": ModulusLong,
		"G_RT": ShearModulusLong, "G_LR": ShearModulusLong, "G_LT": ShearModulusLong,
	}
	var out []Property
	for _, r := range tables.MustRead("panel_woods").Rows {
		name := names[r.Text("property")]
		v, ok := r.Float("value")
		if name == "" || !ok || r.Text("wood") != key || !strings.HasPrefix(r.Text("note"), "long-term") {
			continue
		}
		g, err := tables.ParseGrade(r.Text("evidence"))
		if err != nil {
			g = tables.Estimate
		}
		p := Property{Name: name, Direction: r.Text("direction"), CV: 0.25, Duration: Long, Datum: tables.Datum{
			Value: v, Unit: r.Text("unit"), Source: r.Text("source"), Locator: "panel_woods",
			Status: r.Text("status"), Note: r.Text("note"), Grade: g,
		}}
		out = append(out, p.spread())
	}
	return out
}
