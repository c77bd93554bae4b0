package panel

import (
	"fmt"
	"math"
	"strings"

	"crossgrain/moisture"
	"crossgrain/species"
	"crossgrain/tables"
)

// guess is a default: what is taken when the file does not say, with its spread and where both
// come from.
type guess struct {
	nominal, low, high float64
	dist               Dist
	grade              tables.Grade
	why                string // where it comes from, or "assumption"
	what, unit, group  string // of a value that has no key in the file
}

// draft puts one object together and notes which values were uncertain or assumed on the way.
type draft struct {
	p       *Panel
	vals    map[string]float64 // drawn values by path; empty = nominal
	inputs  []Input
	assumed []Assumption
	seen    map[string]bool // inputs and assumptions by path
	o       *Object
	woods   map[string]drawnWood
	used    float64 // used-to humidity, %
	nominal float64 // its nominal value
}

func newDraft(p *Panel, vals map[string]float64) *draft {
	return &draft{p: p, vals: vals, seen: map[string]bool{}, woods: map[string]drawnWood{}}
}

// number returns the value of a key of a part: from the file, or the default; moved where drawn.
func (d *draft) number(pt part, name, group string, g guess) float64 {
	path := pt.at(name)
	t, _ := lookTable(pt.table, pt.name != "")
	k, _ := t.key(name)
	g.what, g.unit, g.group = whatOf(pt, k), k.unit, group
	q, ok := d.p.Number(path)
	if !ok {
		return d.clip(d.assume(path, g, k), k)
	}
	if q.Known == Between {
		d.input(path, guess{q.Nominal, q.Low, q.High, Uniform, q.Grade, q.Source, g.what, g.unit, group}, k)
	}
	return d.clip(d.drawn(path, q.Nominal), k)
}

// assume registers a default and returns its value.
func (d *draft) assume(path string, g guess, k key) float64 {
	d.note(Assumption{
		Path: path, What: g.what, Value: g.nominal, Low: g.low, High: g.high, Unit: g.unit,
		Text: assumedText(g), Grade: g.grade,
	})
	if g.low < g.high {
		d.input(path, g, k)
	}
	return d.drawn(path, g.nominal)
}

// hidden registers an uncertain value that is no key of the file.
func (d *draft) hidden(path string, g guess) float64 {
	d.input(path, g, key{})
	return d.drawn(path, g.nominal)
}

func (d *draft) drawn(path string, nominal float64) float64 {
	if v, ok := d.vals[path]; ok {
		return v
	}
	return nominal
}

func (d *draft) clip(v float64, k key) float64 {
	if k.low < k.high {
		return math.Min(math.Max(v, k.low), k.high)
	}
	return v
}

func (d *draft) input(path string, g guess, k key) {
	if d.seen["in:"+path] {
		return
	}
	d.seen["in:"+path] = true
	d.inputs = append(d.inputs, Input{
		Path: path, What: g.what, Unit: g.unit, Group: g.group, Dist: g.dist,
		Low: g.low, Nominal: g.nominal, High: g.high, Grade: g.grade,
		Measurable: k.minutes > 0, Means: k.means, Minutes: k.minutes,
		TouchesObject: touches(k.means),
	})
}

// touches says whether a means of measuring brings a tool to the panel.
func touches(means string) bool {
	for _, w := range []string{"look", "count", "readings"} {
		if strings.Contains(means, w) {
			return false
		}
	}
	return means != ""
}

func (d *draft) note(a Assumption) {
	if d.seen["as:"+a.Path] {
		return
	}
	d.seen["as:"+a.Path] = true
	d.assumed = append(d.assumed, a)
}

// words returns the words of a key of a part, or what is taken instead.
func (d *draft) words(pt part, name, instead, why string) string {
	if w := d.p.word(pt.at(name)); w != "" {
		return w
	}
	t, _ := lookTable(pt.table, pt.name != "")
	k, _ := t.key(name)
	how := "not recorded"
	if d.p.Text(pt.at(name)) == cannotTell {
		how = "could not be told"
	}
	d.note(Assumption{
		Path: pt.at(name), What: whatOf(pt, k), Grade: tables.Estimate,
		Text: fmt.Sprintf("%s: %s, taken as %s (%s)", whatOf(pt, k), how, instead, why),
	})
	return instead
}

// yes says whether a yes-or-no key of a part says yes; anything else counts as no.
func (d *draft) yes(pt part, name string) bool { return d.p.word(pt.at(name)) == "yes" }

// humidity returns a humidity at which something was fixed or measured: from the file, or near the
// used-to humidity, moving with it.
func (d *draft) humidity(pt part, name, group string, points float64, why string) moisture.RH {
	if _, ok := d.p.Number(pt.at(name)); ok {
		return moisture.Percent(d.number(pt, name, group, guess{}))
	}
	if points == 0 {
		return moisture.Percent(d.used)
	}
	v := d.number(pt, name, group, guess{
		nominal: d.nominal, low: math.Max(1, d.nominal-points), high: math.Min(100, d.nominal+points),
		dist: Triangular, grade: tables.Estimate, why: why,
	})
	return moisture.Percent(math.Min(100, math.Max(1, v+d.used-d.nominal)))
}

// unitTails are the units at the end of key names, longest first.
var unitTails = []string{"_n_per_mm", "_rh_pct", "_sd_m", "_deg", "_pct", "_mm", "_kg", "_c", "_n", "_l"}

// whatOf names a value in words: thickness_mm of board.left is "board left, thickness".
func whatOf(pt part, k key) string {
	name := k.name
	for _, tail := range unitTails {
		if short, ok := strings.CutSuffix(name, tail); ok {
			name = short
			if tail == "_rh_pct" {
				name += " RH"
			}
			break
		}
	}
	switch {
	case k.name == "rh_pct":
		name = "RH"
	case pt.table == "face" && k.name == "ground_mm":
		name = "thickness of the ground"
	case pt.table == "face" && k.name == "vapour_sd_m":
		name = "resistance to vapour"
	}
	where := pt.table
	if pt.table == "used_to" {
		where = "used-to climate"
	}
	if pt.name != "" {
		where += " " + pt.name
	}
	return where + ", " + strings.ReplaceAll(name, "_", " ")
}

func assumedText(g guess) string {
	unit := ""
	if g.unit != "" {
		unit = " " + g.unit
	}
	s := fmt.Sprintf("%s: not recorded, taken as %s%s", g.what, showNumber(g.nominal), unit)
	if g.low < g.high {
		s += fmt.Sprintf(", somewhere from %s to %s%s", showNumber(g.low), showNumber(g.high), unit)
	}
	return s + " (" + g.why + ")"
}

// drawnWood is a wood with one draw of its numbers.
type drawnWood struct {
	name          string
	numbers       species.Numbers
	sorption      species.Sorption
	shift, branch float64
	err           error
}

// wood returns a wood by name with its numbers drawn. A wood is drawn once, so boards of one wood
// move together.
func (d *draft) wood(name string) (drawnWood, error) {
	if w, ok := d.woods[name]; ok {
		return w, w.err
	}
	w := d.draw(name)
	d.woods[name] = w
	return w, w.err
}

func (d *draft) draw(name string) drawnWood {
	w, err := species.Lookup(name)
	if err != nil {
		return drawnWood{err: err}
	}
	if err := w.Movable(); err != nil {
		return drawnWood{err: fmt.Errorf("panel: %w", err)}
	}
	out := drawnWood{name: w.Name, sorption: w.Sorption()}
	at := "wood." + w.Key + "."
	one := func(what string, grade tables.Grade) float64 {
		return d.hidden(at+what, guess{0, -z95, z95, Normal, grade, "species", w.Name + ", " + what, "standard deviations", "wood"})
	}
	draw := species.Draw{
		Swelling: one("swelling", tables.Several), Density: one("density", tables.Several),
		Strength: one("strength", tables.Estimate), Stiffness: one("stiffness", tables.One),
		Toughness: one("toughness", tables.Estimate), Diffusion: one("diffusion", tables.Estimate),
	}
	out.shift = math.Max(-0.5, d.hidden(at+"sorption_shift", sorptionShift(w.Name)))
	out.branch = math.Min(1, math.Max(-1, d.hidden(at+"branch", sorptionBranch(w.Name))))
	var gaps []species.Gap
	out.numbers, gaps = w.Numbers(draw)
	d.gaps(w, gaps)
	return out
}

// gaps notes what a wood lacks and what was taken from another.
func (d *draft) gaps(w *species.Wood, gaps []species.Gap) {
	for _, g := range gaps {
		prop := strings.TrimSpace(g.Property + " " + g.Direction)
		path := "wood." + w.Key + "." + strings.ReplaceAll(prop, " ", "_")
		prop = strings.ReplaceAll(prop, "_", " ")
		a := Assumption{
			Path: path, What: w.Name + ", " + prop, Unit: g.Unit, Grade: g.Grade,
			Text: fmt.Sprintf("%s has no %s of its own and nothing stands in for it", w.Name, prop),
		}
		if g.From != "" {
			a.Value, a.Low, a.High = g.Value, g.Value, g.Value
			a.Text = fmt.Sprintf("%s has no %s of its own: %s from %s", w.Name, prop, strings.TrimSpace(showNumber(g.Value)+" "+g.Unit), g.From)
		}
		d.note(a)
	}
}
