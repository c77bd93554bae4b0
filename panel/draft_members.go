package panel

import (
	"math"

	"crossgrain/moisture"
)

// memberWood returns the wood of a batten, cradle member or insert; where it is not recorded or
// its movement is not known, the wood of the first board.
func (d *draft) memberWood(pt part, name string) drawnWood {
	own := d.o.Boards[0].WoodName
	if w, err := d.wood(d.words(pt, name, own, "assumption: as the panel")); err == nil {
		return w
	}
	w, _ := d.wood(own)
	return w
}

func (d *draft) battens() {
	var parts []part
	for _, pt := range d.p.parts {
		if pt.table == "batten" {
			parts = append(parts, pt)
		}
	}
	places := evenly(len(parts), 0, d.o.Along)
	for i, pt := range parts {
		d.o.Battens = append(d.o.Battens, d.batten(pt, round(places[i])))
	}
}

func (d *draft) batten(pt part, place float64) Batten {
	at := func(v float64, why string) guess { return assumption(v, v, v, Triangular, why) }
	if d.yes(pt, "empty") {
		b := Batten{
			Name: pt.name, Empty: true, From: d.known(pt, "from_mm"), To: d.o.Across,
			Y:            d.number(pt, "along_mm", "fixings", at(place, "assumption: spread evenly along the grain")),
			Width:        d.number(pt, "width_mm", "fixings", battenWidth()),
			ChannelDepth: d.number(pt, "channel_depth_mm", "fixings", channelDepth(d.o.Boards[0].Thickness)),
		}
		if d.described(pt, "to_mm") {
			b.To = math.Min(b.To, d.number(pt, "to_mm", "fixings", guess{}))
		}
		return b
	}
	b := Batten{
		Name: pt.name, Wood: d.memberWood(pt, "wood").numbers,
		Y:            d.number(pt, "along_mm", "fixings", at(place, "assumption: spread evenly along the grain")),
		Width:        d.number(pt, "width_mm", "fixings", battenWidth()),
		Depth:        d.number(pt, "depth_mm", "fixings", battenDepth()),
		From:         d.known(pt, "from_mm"),
		To:           d.o.Across,
		Side:         d.words(pt, "side", "back", "common practice"),
		Fixing:       d.words(pt, "fixing", "nailed", "assumption"),
		HoldsFlat:    d.p.word("frame.pressing") == "yes",
		Seized:       d.p.word(pt.at("moves")) == "seized",
		ChannelDepth: d.known(pt, "channel_depth_mm"),
		Fixed:        d.humidity(pt, "fixed_at_rh_pct", "history", fixedPoints, fixedWhy),
	}
	if d.described(pt, "to_mm") {
		b.To = math.Min(b.To, d.number(pt, "to_mm", "fixings", guess{}))
	}
	b.From = math.Min(b.From, b.To-1)
	b.Y = math.Min(b.Y, d.o.Along)
	switch b.Fixing {
	case "glued":
		b.Glued = true
	case "glued at the middle":
		b.GluedMiddle = true
		b.Fixings = []Fixing{d.middle(pt, b.From, b.To)}
	case "nothing":
	default:
		d.fixings(pt, &b)
	}
	return b
}

// middle is the glued patch of a batten that is held at its middle.
func (d *draft) middle(pt part, from, to float64) Fixing {
	l := d.number(pt, "footprint_mm", "fixings", assumption(gluedMiddle, gluedMiddle, gluedMiddle, Triangular, "assumption"))
	return Fixing{
		X: (from + to) / 2, Footprint: math.Min(l, to-from), Slip: math.Inf(1), Yield: math.Inf(1),
		ClearRH: moisture.Percent(d.used),
	}
}

// fixings makes the single fixings of a batten.
func (d *draft) fixings(pt part, b *Batten) {
	g := fixingDefaults(b.Fixing)
	f := Fixing{
		Footprint: d.number(pt, "footprint_mm", "fixings", assumption(g.footprint, g.footprint, g.footprint, Triangular, "assumption")),
		Yield:     math.Inf(1),
		ClearRH:   d.humidity(pt, "measured_at_rh_pct", "fixings", 0, ""),
	}
	slip := "slip_n_per_mm"
	if b.Fixing == "on springs" {
		slip = "spring_n_per_mm"
	}
	f.Slip = d.number(pt, slip, "fixings", g.slip)
	if !g.free || d.described(pt, "yield_n") {
		f.Yield = d.number(pt, "yield_n", "fixings", g.yield)
		if !d.described(pt, "yield_n") { // a stiffer fixing is a stronger one: it gives at about the same slip
			f.Yield *= f.Slip / g.slip.nominal
		}
	}
	f.Clearance = d.unlessNone(pt, "clearance_mm", g.clearance)
	f.Friction = d.unlessNone(pt, "friction", g.friction)
	f.Preload = d.unlessNone(pt, "preload_n", g.preload)
	b.FrictionFactor = f.Friction
	if b.Seized && f.Clearance > 0 { // held where it stands
		f.Clearance = 0
	}
	for _, x := range d.places(pt, b) {
		f.X = math.Min(math.Max(x, 0), d.o.Across)
		b.Fixings = append(b.Fixings, f)
	}
}

// unlessNone is number, but a default of nothing is not listed as an assumption.
func (d *draft) unlessNone(pt part, name string, g guess) float64 {
	if g.nominal == 0 && g.high == 0 && !d.described(pt, name) {
		return 0
	}
	return d.number(pt, name, "fixings", g)
}

// places returns where the fixings are: as listed, or evenly at the spacing, which is rounded so
// that they fill the batten.
func (d *draft) places(pt part, b *Batten) []float64 {
	if at := d.p.List(pt.at("at_mm")); len(at) > 0 {
		return at
	}
	l := b.To - b.From
	g := fixingSpacing(l)
	g.low, g.high = g.nominal, g.nominal
	n := math.Round(l / d.number(pt, "spacing_mm", "fixings", g))
	return evenly(int(math.Min(math.Max(n, 1), 400)), b.From, b.To)
}

func (d *draft) cradle() {
	if !d.p.Has("cradle") {
		return
	}
	pt := part{table: "cradle"}
	g := cradleDefaults(d.o.Across, d.o.Along)
	moves := d.p.word("cradle.moves")
	c := &Cradle{
		FixedCount:  int(d.number(pt, "fixed_count", "fixings", g.fixedCount)),
		FixedWidth:  d.number(pt, "fixed_width_mm", "fixings", g.width),
		FixedDepth:  d.number(pt, "fixed_depth_mm", "fixings", g.depth),
		SliderCount: int(d.number(pt, "slider_count", "fixings", g.sliderCount)),
		SliderWidth: d.number(pt, "slider_width_mm", "fixings", g.width),
		SliderDepth: d.number(pt, "slider_depth_mm", "fixings", g.depth),
		Play:        d.number(pt, "play_mm", "fixings", g.play),
		PlayRH:      d.humidity(pt, "measured_at_rh_pct", "fixings", 0, ""),
		Moves:       orNotRecorded(moves),
		FixedWood:   d.memberWood(pt, "fixed_wood").numbers,
		SliderWood:  d.memberWood(pt, "slider_wood").numbers,
		Fixed:       d.humidity(pt, "fixed_at_rh_pct", "history", fixedPoints, fixedWhy),
	}
	c.FixedX = evenly(c.FixedCount, 0, d.o.Across)
	c.SliderY = evenly(c.SliderCount, 0, d.o.Along)
	c.ShareStuck = d.estimate("cradle.share_stuck", "cradle, how much of it is stuck (0 slides, 1 held)", "", stuckShare(moves))
	c.FrictionForce = d.estimate("cradle.friction_n", "cradle, force that moves a slider in one notch", "N", notchFriction(moves))
	d.o.Cradle = c
}

// estimate registers a default that is no key of the file.
func (d *draft) estimate(path, what, unit string, g guess) float64 {
	g.what, g.unit, g.group = what, unit, "fixings"
	var k key
	if path == "cradle.share_stuck" { // can be found out: does it slide?
		t, _ := lookTable("cradle", false)
		m, _ := t.key("moves")
		k.means, k.minutes = m.means, m.minutes
	}
	return d.assume(path, g, k)
}
