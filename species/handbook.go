package species

import (
	"strings"

	"crossgrain/tables"
)

const (
	psi         = 6.894757e-3 // MPa per lbf/in2
	millionPsi  = 1e6 * psi
	waterAt12   = 1.12 * 1000 // kg/m3: eq. 4-14 of the 2021 edition, rho = 1000 G (1 + 12/100)
	shearAllow  = 1.10        // bending modulus to E_L, note of Table 5-1
	middleMC    = 10          // % MC, M_I in eq. 13-3 that gives the coefficients of Table 13-5
	movementCV  = 0.15        // of shrinkage within a species: memory, low confidence
	ratioCV     = 0.25        // of E_R, E_T, G from one set of ratios: assumption
	poissonCV   = 0.15        // assumption
	toughnessCV = 0.25        // of K_Ic, as panel_wood_defaults
	tensionCV   = 0.30        // Table 5-6 prints none across the grain: assumption
)

// Coefficient returns the movement per 1 % MC, in per cent, that follows from the total shrinkage
// S, green to ovendry in per cent (0 < S < 150):
//
//	C = 100 / (3000/S - 20)
//
// Wood Handbook (2010) eq. 13-3 with M_I = 10 %, in the form remembered; it gives back 66 of the 73
// cells of Table 13-5 that can be compared, one more within one unit of the last digit; the other six
// are woods that 13-5 groups with a neighbour.
func Coefficient(s float64) float64 { return 100 / (3000/s - 30 + middleMC) }

// Movement returns the change of a width (any unit of length) for a coefficient per 1 % MC as a
// fraction and a change of moisture content in per cent, positive = wetter and wider. Good between
// about 6 and 14 % MC. Source: Wood Handbook (2010) eq. 13-2.
func Movement(width, coefficient, change float64) float64 { return width * coefficient * change }

// ShrinkageStrain returns the strain of a change of moisture content (per cent, positive = wetter)
// by the rule S/FSP: total shrinkage s in per cent, fibre saturation in per cent.
func ShrinkageStrain(s, fibreSaturation, change float64) float64 {
	return s / 100 * change / fibreSaturation
}

// gradeOf is the evidence of a row of the handbook tables by its status.
func gradeOf(status string) tables.Grade {
	if strings.HasPrefix(status, "read") || status == "secondary" {
		return tables.One
	}
	return tables.General
}

// find returns the row of a table whose column holds the text.
func find(table, column, text string) (tables.Row, bool) {
	if text == "" {
		return tables.Row{}, false
	}
	for _, r := range tables.MustRead(table).Rows {
		if r.Text(column) == text {
			return r, true
		}
	}
	return tables.Row{}, false
}

// printed makes a property from a value of a handbook table.
func printed(name, dir string, v float64, unit, locator, status string, cv float64, note string) Property {
	source := "FPL-GTR190"
	if locator == "Table 5-3b" {
		source = "FPL-GTR282"
	}
	p := Property{Name: name, Direction: dir, CV: cv, Datum: tables.Datum{
		Value: v, Unit: unit, Source: source, Locator: locator, Status: status, Note: note, Grade: gradeOf(status),
	}}
	return p.spread()
}

// handbook gathers what the Wood Handbook prints for the wood.
func (w *Wood) handbook() []Property {
	name := w.row.Text("handbook")
	if name == "" {
		return nil
	}
	out := w.movement(name)
	out = append(out, w.strengths(name)...)
	out = append(out, w.toughnesses()...)
	return out
}

func (w *Wood) movement(name string) []Property {
	table := map[string]string{"4-3": "handbook_2010_t4_3_shrinkage", "4-4": "handbook_2010_t4_4_shrinkage"}[w.row.Text("table")]
	r, ok := find(table, "species", name)
	if !ok {
		return nil
	}
	c, hasC := find("handbook_2010_t13_5_dimension_change", "species", w.row.Text("t13_5"))
	var out []Property
	for _, d := range [...]struct{ dir, shrink, coefficient string }{
		{"R", "radial_pct", "cr_per_pct_mc"}, {"T", "tangential_pct", "ct_per_pct_mc"},
	} {
		s, ok := r.Float(d.shrink)
		if !ok {
			continue
		}
		locator, status := "Table "+w.row.Text("table"), r.Text("status")
		out = append(out, printed(ShrinkageTotal, d.dir, s, "%", locator, status, movementCV, ""))
		p := printed(Swelling, d.dir, Coefficient(s), "%/%MC", locator, status, movementCV, "from total shrinkage by eq. 13-3")
		if hasC && strings.HasPrefix(c.Text("status"), "read") {
			if v, ok := c.Float(d.coefficient); ok {
				p = printed(Swelling, d.dir, 100*v, "%/%MC", "Table 13-5", c.Text("status"), movementCV, "")
			}
		}
		out = append(out, p)
	}
	return out
}

func (w *Wood) strengths(name string) []Property {
	var row tables.Row
	ok := false
	for _, r := range tables.MustRead("handbook_2021_t5_3b_mechanical").Rows {
		if r.Text("species") == name && r.Text("moisture") == "12" {
			row, ok = r, true
		}
	}
	if !ok {
		return nil
	}
	const at = "Table 5-3b"
	st := row.Text("status")
	var out []Property
	if g, ok := row.Float("specific_gravity"); ok {
		out = append(out, printed(Density, "", waterAt12*g, "kg/m3", at, st, 0.10, "1.12 times the specific gravity at 12 % MC, eq. 4-14"))
	}
	if e, ok := row.Float("moe_mpsi"); ok {
		el := shearAllow * millionPsi * e
		p := printed(Modulus, "L", el, "MPa", at, st, 0.22, "bending modulus plus 10 %")
		p.Duration = Short
		out = append(append(out, p), w.ratios(el)...)
	}
	for _, d := range [...]string{"R", "T"} {
		if f, ok := row.Float("tension_perp_psi"); ok {
			out = append(out, printed(StrengthTension, d, psi*f, "MPa", at, st, tensionCV, "R and T not told apart; ASTM block"))
		}
		if f, ok := row.Float("compression_perp_psi"); ok {
			out = append(out, printed(CompressionLimit, d, psi*f, "MPa", at, st, 0.28, "R and T not told apart; plate load"))
		}
	}
	return out
}

// ratios returns the moduli of Tables 5-1 and 5-2 for a modulus along the grain in MPa.
func (w *Wood) ratios(el float64) []Property {
	var out []Property
	if r, ok := find("handbook_2010_t5_1_elastic_ratios", "species", w.row.Text("t5_1")); ok {
		for _, c := range [...]struct{ name, dir, column string }{
			{Modulus, "R", "er_el"}, {Modulus, "T", "et_el"},
			{ShearModulus, "RT", "grt_el"}, {ShearModulus, "LR", "glr_el"}, {ShearModulus, "LT", "glt_el"},
		} {
			if v, ok := r.Float(c.column); ok {
				p := printed(c.name, c.dir, v*el, "MPa", "Table 5-1", r.Text("status"), ratioCV, "ratio times E_L of Table 5-3b")
				p.Duration = Short
				out = append(out, p)
			}
		}
	}
	if r, ok := find("handbook_2010_t5_2_poisson", "species", w.row.Text("t5_1")); ok {
		for _, c := range [...]struct{ dir, column string }{{"RT", "mu_rt"}, {"LT", "mu_lt"}} {
			if v, ok := r.Float(c.column); ok {
				out = append(out, printed(Poisson, c.dir, v, "-", "Table 5-2", r.Text("status"), poissonCV, ""))
			}
		}
	}
	return out
}

func (w *Wood) toughnesses() []Property {
	r, ok := find("handbook_2010_t5_10_fracture", "species", w.row.Text("t5_10"))
	if !ok {
		return nil
	}
	var out []Property
	for _, c := range [...]struct{ dir, column string }{{"TL", "k1_tl_kpa_sqrt_m"}, {"RL", "k1_rl_kpa_sqrt_m"}} {
		if v, ok := r.Float(c.column); ok {
			out = append(out, printed(Toughness, c.dir, v/1000, "MPa m^0.5", "Table 5-10", r.Text("status"), toughnessCV, ""))
		}
	}
	return out
}
