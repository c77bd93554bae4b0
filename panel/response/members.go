package response

import (
	"math"

	"crossgrain/moisture"
	"crossgrain/panel"
	"crossgrain/panel/restraint"
	"crossgrain/species"
)

// joinMembers lists everything that lies across the grain and is joined to the panel, in the order of
// the closed forms first: battens, sliders of a cradle, then small members let in or glued on.
func (c *Case) joinMembers(w *whole) []restraint.Member {
	var out []restraint.Member
	first := 0
	add := func(h holder, m restraint.Member, play func(*Case, moisture.RH, *restraint.Mount)) {
		if len(m.At) == 0 {
			return // it holds nothing: a gate says so
		}
		m.Name = h.part
		if h.glued || len(h.fix) != len(m.At) {
			h.fix = make([]panel.Fixing, len(m.At))
			for i, f := range m.At {
				h.fix[i] = panel.Fixing{X: f.X, Footprint: f.Footprint, Slip: math.Inf(1), Yield: math.Inf(1)}
			}
		}
		w.members = append(w.members, joined{part: h.part, first: first, n: len(m.At), play: play})
		w.holders = append(w.holders, h)
		w.plays = w.plays || play != nil
		steady(m.At)
		for k := range m.At {
			var rh moisture.RH
			if k < len(h.fix) {
				rh = h.fix[k].ClearRH
			}
			w.clear = append(w.clear, rh)
		}
		first += 2 * len(m.At)
		out = append(out, m)
	}
	closed := func(part string, h holder) holder { // with the reach of the closed form
		for k := range c.restraints {
			if c.restraints[k].part == part {
				h.spread = c.restraints[k].spread
			}
		}
		return h
	}
	for i := range c.o.Battens {
		if b := &c.o.Battens[i]; !b.Empty {
			h := battenHolder(b)
			add(closed(h.part, h), c.battenMember(b), nil)
		}
	}
	if k := c.o.Cradle; k != nil {
		for i, y := range k.SliderY {
			h := sliderHolder(k, i, y)
			add(closed(h.part, h), sliderMember(k, y), notchPlay)
		}
	}
	for _, g := range c.gluedOns() {
		add(closed(g.part, g.holder), g.member(c.boards[c.boardAt((g.from+g.to)/2)].Thickness), nil)
	}
	if f := c.o.Frame; f != nil && f.ClearWidth > c.o.Across {
		room := f.ClearWidth - c.o.Across
		h := holder{part: "frame", what: "rebate, taken as rigid", y: c.o.Along / 2, width: c.o.Along}
		m := restraint.Member{Around: true, Y: c.o.Along / 2}
		for _, x := range [2]float64{0, c.o.Across} {
			side := firm()
			side.Presses, side.Play, side.Yield = true, room/2, c.crushes()
			m.At = append(m.At, restraint.Attachment{X: x, Footprint: 1, Along: c.o.Along, Mount: restraint.Mount{Slip: side}})
			h.fix = append(h.fix, panel.Fixing{X: x, Slip: math.Inf(1), Yield: math.Inf(1), ClearRH: f.ClearRH})
		}
		add(h, m, nil)
	}
	return out
}

// crushes is the force, N, with which the weakest board pressed edge to edge over its whole height begins to be crushed for
// good, held for a season.
func (c *Case) crushes() float64 {
	least := math.Inf(1)
	for i := range c.boards {
		b := &c.boards[i]
		least = min(least, species.CompressionSlow().Value*b.stiff*b.left*b.Thickness*c.o.Along)
	}
	return least
}

// slack is the stiffness, N/mm, with which a fixing that may float in its play or off its face is kept in place all the
// same, as by its weight: far too little to matter (a tenth of a newton at ten millimetres), and enough that no member is
// wholly loose (assumption).
const slack = 0.01

func steady(at []restraint.Attachment) {
	for i := range at {
		x := &at[i].Mount
		if h := x.Slip; h != nil && (h.Play > 0 || h.Presses) && h.Spring == 0 {
			h.Spring = slack
		}
		if h := x.Lift; h != nil && (h.Play > 0 || h.Presses) && h.Spring == 0 {
			h.Spring = slack
		}
	}
}

// battenMember is a batten with its fixings.
func (c *Case) battenMember(b *panel.Batten) restraint.Member {
	m := restraint.Member{
		Bar: restraint.Bar{E: b.Wood.EL, G: shearOf(b.Wood), Width: b.Width, Depth: b.Depth, HoldsFlat: b.HoldsFlat},
		Y:   b.Y, Front: b.Side == "front",
	}
	if b.Side == "let in" {
		m.Sunk = min(b.ChannelDepth, b.Depth)
	}
	switch {
	case b.Glued:
		m.At = glueRun(b.From, b.To, b.Width, gluedPoints)
	case b.GluedMiddle:
		f := b.Fixings[0]
		m.At = append(glueRun(f.X-f.Footprint/2, f.X+f.Footprint/2, b.Width, shortRun), c.leansOn(b)...)
	default:
		for _, f := range b.Fixings {
			at := attach(b.Fixing, f)
			if b.Fixing == "held by keepers" { // a straight batten behind a warped panel: it can go back until it meets the batten
				at.Mount.Lift.Play = c.standsOff(b, f.X) / 2
				at.Mount.Lift.Centre = -at.Mount.Lift.Play
			}
			m.At = append(m.At, at)
		}
	}
	return m
}

// shearOf is the shear modulus along the grain of a wood whose rings may lie either way.
func shearOf(n species.Numbers) float64 { return (n.GLR + n.GLT) / 2 }

// glueRun stands for a line of glue: patches that give nothing, side by side, at most so many.
func glueRun(from, to, width float64, most int) []restraint.Attachment {
	n := min(most, max(2, int((to-from)/10)))
	out := make([]restraint.Attachment, n)
	h := (to - from) / float64(n)
	for i := range out {
		out[i] = restraint.Attachment{
			X: from + h*(float64(i)+0.5), Footprint: h, Along: width,
			Mount: restraint.Mount{Slip: firm(), Lift: firm()},
		}
	}
	return out
}

// firm gives nothing, either way.
func firm() *restraint.Hold { return &restraint.Hold{Stiff: math.Inf(1), Yield: math.Inf(1)} }

// leansOn are places at which a batten held only at its middle can press against the panel, once what warp leaves between them
// has closed.
func (c *Case) leansOn(b *panel.Batten) []restraint.Attachment {
	var out []restraint.Attachment
	mid, half := b.Fixings[0].X, b.Fixings[0].Footprint/2
	for _, x := range [...]float64{b.From + 5, (b.From + mid - half) / 2, (b.To + mid + half) / 2, b.To - 5} {
		if math.Abs(x-mid) < half+5 {
			continue
		}
		press := firm()
		press.Presses, press.Centre = true, -c.fallsAway(b, x)
		out = append(out, restraint.Attachment{X: x, Footprint: 10, Along: b.Width, Mount: restraint.Mount{Lift: press}})
	}
	return out
}

// attach is a single fixing by its kind. A nail, a screw or a keeper keeps panel and batten together; only
// on springs may they part.
func attach(kind string, f panel.Fixing) restraint.Attachment {
	m := restraint.Mount{Friction: f.Friction, Preload: f.Preload, Lift: firm()}
	m.Slip = &restraint.Hold{Stiff: f.Slip, Play: f.Clearance, Yield: f.Yield}
	switch kind {
	case "sliding dovetail", "held by keepers", "slotted":
		m.Keeper = true
	case "on springs":
		m.Slip.Spring, m.Slip.Stiff = f.Slip, 0
		m.Lift.Presses, m.Lift.Spring, m.Lift.Pull = true, f.Slip, f.Preload
		m.Preload = 0 // the springs press through the lift
	}
	return restraint.Attachment{X: f.X, Footprint: max(f.Footprint, 1), Mount: m}
}

// sliderMember is a slider in the notches of the glued members.
func sliderMember(k *panel.Cradle, y float64) restraint.Member {
	m := restraint.Member{Within: true, Sunk: k.FixedDepth / 2, Bar: restraint.Bar{E: k.SliderWood.EL, G: shearOf(k.SliderWood), Width: k.SliderWidth, Depth: k.SliderDepth}, Y: y}
	for _, f := range notches(k) {
		lift := firm()
		lift.Play = k.Play / 2
		m.At = append(m.At, restraint.Attachment{
			X: f.X, Footprint: max(f.Footprint, 1), Along: k.SliderWidth,
			Mount: restraint.Mount{
				Slip: &restraint.Hold{Stiff: f.Slip, Yield: f.Yield}, Lift: lift,
				Friction: notchRub, Keeper: true,
			},
		})
	}
	return m
}

// notchRub is the friction of a slider in its notch under what presses it there: wood on wood 0.1 to 0.7
// (Aira et al. 2014 and Villar-Garcia et al. 2020 for pine and chestnut), 0.4 between them.
const notchRub = 0.4

// notchPlay sets the play that a slider has left in its notch at a humidity, by depth, and the force with
// which it is squeezed by width once there is none: its own wood pressed across its grain, by both walls.
func notchPlay(c *Case, rh moisture.RH, x *restraint.Mount) {
	k := c.o.Cradle
	lift, slip := *x.Lift, *x.Slip
	lift.Play = max(0, c.notchLeft(rh, k.SliderDepth)) / 2
	press := min(k.SliderWood.ER, k.SliderWood.ET) * k.SliderDepth * k.FixedWidth / k.SliderWidth
	x.Lift, x.Slip, x.Preload = &lift, &slip, 2*press*max(0, -c.notchLeft(rh, k.SliderWidth))
}

// notchLeft returns what is left of the play of a slider of that size in its notch, mm, negative once it
// is squeezed.
func (c *Case) notchLeft(rh moisture.RH, size float64) float64 {
	k, b := c.o.Cradle, &c.boards[0] // its curve stands for the sliders' wood, which differs little (assumption)
	at := k.PlayRH
	if at == 0 {
		at = c.o.UsedTo
	}
	du := b.mc(rh, c.o.Temperature) - b.mc(at, c.o.Temperature)
	left, _ := restraint.NotchPlay(k.Play, size, (k.SliderWood.SwellR+k.SliderWood.SwellT)/2, float64(du))
	return left
}

// shortRun is how many patches stand for a short line of glue.
const shortRun = 6
