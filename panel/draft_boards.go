package panel

import (
	"fmt"
	"math"

	"crossgrain/moisture"
	"crossgrain/species"
	"crossgrain/tables"
)

var (
	panelPart = part{table: "panel"}
	homePart  = part{table: "used_to"}
)

// object puts the panel together. The order of the steps is the order of the assumptions.
func (d *draft) object() (*Object, error) {
	d.o = &Object{Accession: d.p.Accession(), Title: d.p.Title(), GrainLevel: d.p.GrainLevel()}
	d.climate()
	d.looked()
	d.size()
	if err := d.boards(); err != nil {
		return nil, err
	}
	d.joins()
	d.splits()
	d.faces()
	d.frame()
	d.battens()
	d.cradle()
	d.inserts()
	d.warp()
	return d.o, nil
}

func (d *draft) climate() {
	h := homeOf(d.p.word("used_to.climate"))
	g := guess{nominal: h.rh, low: h.low, high: h.high, dist: Triangular, grade: h.grade, why: h.source}
	d.nominal = h.rh
	if q, ok := d.p.Number("used_to.rh_pct"); ok {
		d.nominal = q.Nominal
	}
	d.used = d.number(homePart, "rh_pct", "climate", g)
	d.o.UsedTo = moisture.Percent(d.used)
	t := h.temperature
	d.o.Temperature = moisture.Celsius(d.number(homePart, "temperature_c", "climate",
		assumption(t, t, t, Triangular, "assumption for such a place")))
	if q, ok := d.p.Number("used_to.lived_through_rh_pct"); ok {
		d.o.LivedLow, d.o.LivedHigh = moisture.Percent(q.Low), moisture.Percent(q.High)
	}
}

func (d *draft) size() {
	w := d.number(panelPart, "width_mm", "boards", guess{})
	h := d.number(panelPart, "height_mm", "boards", guess{})
	d.o.Across, d.o.Along = w, h
	if d.o.GrainLevel {
		d.o.Across, d.o.Along = h, w
	}
	if q, ok := d.p.Number("panel.weight_kg"); ok {
		d.o.WeightKg = q.Nominal
	}
}

// boards makes the boards in order; the panel's size across the grain is then the sum of their
// widths, which were measured closer.
func (d *draft) boards() error {
	names := d.p.boards
	widths := d.widths(names)
	var left float64
	for i, name := range names {
		b, err := d.board(part{table: "board", name: name}, widths[i])
		if err != nil {
			return err
		}
		b.Left = left
		left += b.Width
		d.o.Boards = append(d.o.Boards, b)
	}
	d.o.Across = left
	return nil
}

// widths returns the width of each board; those without one share what is left.
func (d *draft) widths(names []string) []float64 {
	out := make([]float64, len(names))
	rest, missing := d.o.Across, 0
	for i, name := range names {
		pt := part{table: "board", name: name}
		if d.p.Known(pt.at("width_mm")) == Assumed {
			missing++
			continue
		}
		out[i] = d.number(pt, "width_mm", "boards", guess{})
		rest -= out[i]
	}
	for i, name := range names {
		if out[i] > 0 {
			continue
		}
		out[i] = math.Max(1, rest/float64(missing))
		if len(names) > 1 {
			pt := part{table: "board", name: name}
			d.note(Assumption{
				Path: pt.at("width_mm"), What: "board " + name + ", width", Value: out[i], Low: out[i], High: out[i], Unit: "mm",
				Text:  fmt.Sprintf("board %s, width: not recorded, taken as %s mm (an equal share of what is left)", name, showNumber(round(out[i]))),
				Grade: tables.Estimate,
			})
		}
	}
	return out
}

func (d *draft) board(pt part, width float64) (Board, error) {
	b := Board{Name: pt.name, Width: width, StiffnessReduction: 1}
	w, err := d.wood(d.woodName(pt))
	if err != nil {
		return b, fmt.Errorf("board %s: %w", pt.name, err)
	}
	b.WoodName, b.Wood, b.Sorption = w.name, w.numbers, w.sorption
	b.SorptionShift, b.Branch = w.shift, w.branch
	d.thickness(pt, &b)
	d.rings(pt, &b)
	if q, ok := d.p.Number(pt.at("grain_slope_deg")); ok {
		b.GrainSlope = q.Nominal
	}
	d.weakened(pt, &b)
	b.Impregnated = d.yes(pt, "impregnated")
	return b, nil
}

// woodName returns the wood of a board: its own, the panel's, or a stated stand-in.
func (d *draft) woodName(pt part) string {
	if w := d.p.word(pt.at("wood")); w != "" {
		return w
	}
	return d.words(panelPart, "wood", unnamedWood, "assumption: a common wood of panels, weak and of large movement")
}

func (d *draft) thickness(pt part, b *Board) {
	one := func(key string) (float64, bool) {
		if _, ok := d.p.Number(pt.at(key)); !ok {
			return 0, false
		}
		return d.number(pt, key, "boards", guess{}), true
	}
	mean, okM := one("thickness_mm")
	left, okL := one("thickness_left_mm")
	right, okR := one("thickness_right_mm")
	switch {
	case okL && okR && !okM:
		mean = (left + right) / 2
	case okM && okL && !okR:
		right = math.Max(0.2, 2*mean-left)
	case okM && okR && !okL:
		left = math.Max(0.2, 2*mean-right)
	case okL && !okM:
		mean, right = left, left
	case okR && !okM:
		mean, left = right, right
	case !okM:
		mean = d.number(panelPart, "thickness_mm", "boards", thicknessGuess(d.p.Has("cradle")))
	}
	if !okL && !okR {
		left, right = mean, mean
	}
	b.Thickness, b.ThicknessLeft, b.ThicknessRight = mean, left, right
	if width, ok := one("bevel_width_mm"); ok && width > 0 {
		b.BevelWidth = width
		b.BevelEdge, _ = one("edge_thickness_mm")
	}
}

// rings fills in angle, radius and heart side, from the place of the pith where it is known.
func (d *draft) rings(pt part, b *Board) {
	_, okX := d.p.Number(pt.at("pith_across_mm"))
	_, okZ := d.p.Number(pt.at("pith_behind_mm"))
	if okX && okZ {
		b.PithKnown, b.HeartKnown = true, true
		b.PithAcross = d.number(pt, "pith_across_mm", "boards", guess{})
		b.PithBehind = d.number(pt, "pith_behind_mm", "boards", guess{})
		b.fromPith()
		return
	}
	angle := d.number(pt, "ring_angle_deg", "boards", ringGuess(d.p.word("panel.end_grain")))
	b.Ring = species.RingAngle(angle)
	switch lean := d.p.word(pt.at("lean")); {
	case lean == "left", lean == "" && angle > 5 && angle < 85 && d.side(pt, "lean") < 0:
		b.Ring = -b.Ring
	}
	b.RingRadius = d.number(pt, "ring_radius_mm", "boards", radiusGuess())
	heart := d.p.word(pt.at("heart_side"))
	b.HeartKnown = heart != ""
	b.HeartFront = heart == "front"
	if !b.HeartKnown {
		b.HeartFront = d.side(pt, "heart_side") > 0
		d.note(Assumption{
			Path: pt.at("heart_side"), What: "board " + pt.name + ", heart side", Grade: tables.Estimate,
			Text: "board " + pt.name + ", heart side: not recorded, so the direction in which its rings warp it is not known",
		})
	}
}

// side draws a side that is not known: below 0 one way, above 0 the other, 0 when nominal.
func (d *draft) side(pt part, name string) float64 {
	t, _ := lookTable(pt.table, true)
	k, _ := t.key(name)
	g := sideGuess(whatOf(pt, k))
	d.input(pt.at(name), g, k)
	return d.drawn(pt.at(name), g.nominal)
}

// fromPith works out ring angle, radius and heart side at the middle of the board from the place of
// the pith. The rings are square to the line from the pith.
func (b *Board) fromPith() {
	px, pz := b.PithAcross-b.Width/2, -b.PithBehind-b.Thickness/2 // from the board's middle to the pith
	b.RingRadius = math.Max(1e-3, math.Hypot(px, pz))
	b.HeartFront = pz > 0
	a := math.Atan2(px, -pz)
	if b.HeartFront {
		a = math.Atan2(-px, pz)
	}
	b.Ring = species.RingAngle(a * 180 / math.Pi)
}
