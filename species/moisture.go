package species

import (
	"crossgrain/moisture"
	"crossgrain/tables"
)

// Numbers hold at 12 % MC; At moves them between these moisture contents and no further.
const (
	ReferenceMC moisture.MC = 0.12
	driestMC    moisture.MC = 0.04
	wettestMC   moisture.MC = 0.25
)

// At returns the numbers at a moisture content (kg/kg), from numbers at 12 % MC: straight lines of
// the slopes PerMC. Below 4 % and above 25 % MC the value at that end is kept: no test behind the
// slopes lies outside. Stiffness along the grain and the shear moduli with it (1 % per 1 % MC in
// spruce), Poisson ratios, movement, toughness (sources disagree on its course) and diffusion stay
// as they are. Rolling shear follows the strength in tension T. Calling At twice is a mistake.
//
// Source of the slopes: table moisture_factors.
func (n Numbers) At(u moisture.MC) Numbers {
	d := float64(min(max(u, driestMC), wettestMC) - ReferenceMC)
	s := n.PerMC
	n.ER *= 1 + s.ER*d
	n.ET *= 1 + s.ET*d
	n.GRT *= 1 + s.GRT*d
	n.TensionR *= 1 + s.TensionR*d
	n.TensionT *= 1 + s.TensionT*d
	n.CompressionR *= 1 + s.Compression*d
	n.CompressionT *= 1 + s.Compression*d
	n.Rolling *= 1 + s.TensionT*d
	return n
}

// Factor is how a property changes per unit of MC relative to 12 %, with its band; Own is false when
// the wood takes the percentages of spruce.
type Factor struct {
	Property, Direction string
	tables.Datum
	Own bool
}

// Factors returns the moisture factors of the wood, its own or else those that stand for all woods
// (table moisture_factors), in the order of the table.
func (w *Wood) Factors() []Factor {
	var out []Factor
	for _, r := range tables.MustRead("moisture_factors").Rows {
		if r.Text("wood") != "" {
			continue
		}
		own := false
		for _, q := range tables.MustRead("moisture_factors").Rows {
			if q.Text("wood") == w.Key && q.Text("property") == r.Text("property") && q.Text("direction") == r.Text("direction") {
				r, own = q, true
			}
		}
		out = append(out, factor(r, own || w.Key == "spruce_norway"))
	}
	return out
}

func factor(r tables.Row, own bool) Factor {
	v, _ := r.Float("slope")
	lo, _ := r.Float("low")
	hi, _ := r.Float("high")
	g, err := tables.ParseGrade(r.Text("evidence"))
	if err != nil || !own {
		g = tables.Estimate
	}
	return Factor{Property: r.Text("property"), Direction: r.Text("direction"), Own: own, Datum: tables.Datum{
		Value: v, Low: lo, High: hi, Unit: "per unit of MC", Source: r.Text("source"),
		Locator: "moisture_factors", Status: r.Text("status"), Note: r.Text("note"), Grade: g,
	}}
}

func (w *Wood) perMC() PerMC {
	var p PerMC
	for _, f := range w.Factors() {
		switch f.Property + " " + f.Direction {
		case Modulus + " R":
			p.ER = f.Value
		case Modulus + " T":
			p.ET = f.Value
		case ShearModulus + " RT":
			p.GRT = f.Value
		case StrengthTension + " R":
			p.TensionR = f.Value
		case StrengthTension + " T":
			p.TensionT = f.Value
		case StrengthCompress + " ":
			p.Compression = f.Value
		}
	}
	return p
}
