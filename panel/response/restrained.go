package response

import (
	"fmt"
	"math"
	"slices"

	"crossgrain/moisture"
	"crossgrain/panel"
	"crossgrain/panel/internal/plan"
	"crossgrain/panel/restraint"
)

// holder is one member across the grain.
type holder struct {
	part    string
	what    string // in words
	y       float64
	width   float64 // of the member along the panel's grain
	depth   float64
	channel float64 // depth of the channel it runs in, mm
	glued   bool
	flat    bool // it keeps itself and the panel flat
	fix     []panel.Fixing
	spread  plan.Spread // how far it reaches by the closed form
}

// restrained is one member with a strip of the panel condensed to its fixings, by the closed form.
type restrained struct {
	holder
	system *restraint.System
	ref    []moisture.MC // moisture content of each board at which it holds no strain
}

// gluedPoints is the number of points that stand for a glue line over the whole width.
const gluedPoints = 16

// prepareRestraints makes every batten and slider ready.
func (c *Case) prepareRestraints() error {
	ys := c.memberPlaces()
	for i := range c.o.Battens {
		b := &c.o.Battens[i]
		if b.Empty {
			continue
		}
		r := restrained{holder: battenHolder(b)}
		if b.Glued {
			r.fix = glueLine(b.From, b.To)
		}
		if err := c.prepareMember(&r, ys, b.Wood.EL, b.HoldsFlat, b.Fixed, behind(b.Side)); err != nil {
			return fmt.Errorf("batten %s: %w", b.Name, err)
		}
	}
	if k := c.o.Cradle; k != nil {
		for i, y := range k.SliderY {
			r := restrained{holder: sliderHolder(k, i, y)}
			if err := c.prepareMember(&r, ys, k.SliderWood.EL, false, k.Fixed, 1); err != nil {
				return fmt.Errorf("cradle slider %d: %w", i+1, err)
			}
		}
	}
	for _, g := range c.gluedOns() {
		r := restrained{holder: g.holder}
		if err := c.prepareMember(&r, ys, g.el, false, g.fixed, g.side); err != nil {
			return fmt.Errorf("%s: %w", r.part, err)
		}
	}
	return nil
}

func battenHolder(b *panel.Batten) holder {
	return holder{
		part: "batten." + b.Name, what: b.Fixing, y: b.Y, width: b.Width, depth: b.Depth,
		channel: b.ChannelDepth, glued: b.Glued, flat: b.HoldsFlat, fix: b.Fixings,
	}
}

func sliderHolder(k *panel.Cradle, i int, y float64) holder {
	return holder{
		part: fmt.Sprintf("cradle.slider %d", i+1), what: "slider", y: y,
		width: k.SliderWidth, depth: k.SliderDepth, fix: notches(k),
	}
}

// behind returns 1 for a member at the back, -1 in front and 0 when it is let in to mid-thickness.
func behind(side string) float64 {
	switch side {
	case "front":
		return -1
	case "let in":
		return 0
	}
	return 1
}

// memberPlaces lists where along the grain members lie, in order.
func (c *Case) memberPlaces() []float64 {
	var ys []float64
	for _, b := range c.o.Battens {
		if !b.Empty {
			ys = append(ys, b.Y)
		}
	}
	if c.o.Cradle != nil {
		ys = append(ys, c.o.Cradle.SliderY...)
	}
	slices.Sort(ys)
	return ys
}

// reach returns the distances along the grain that a member at y has to itself: to the panel's end,
// or half way to its neighbour.
func (c *Case) reach(ys []float64, y float64) (below, above float64) {
	below, above = y, c.o.Along-y
	for _, other := range ys {
		if other < y {
			below = math.Min(below, (y-other)/2)
		}
		if other > y {
			above = math.Min(above, (other-y)/2)
		}
	}
	return math.Max(below, 1), math.Max(above, 1)
}

func (c *Case) prepareMember(r *restrained, ys []float64, el float64, flat bool, fixed moisture.RH, where float64) error {
	if len(r.fix) == 0 {
		return nil // it holds nothing: a gate says so
	}
	below, above := c.reach(ys, r.y)
	sheet := plan.Sheet{GLT: c.meanGLT(), Below: below, Above: above}
	var thick float64
	for i := range c.boards {
		b := &c.boards[i]
		sheet.Boards = append(sheet.Boards, plan.StripBoard{Width: b.Width, Thickness: b.Thickness, E: b.stiff * b.left})
		thick += b.Thickness * b.Width / c.o.Across
		u := b.used + StoredShare*(b.mc(fixed, c.o.Temperature)-b.used)
		if fixed == 0 {
			u = b.used
		}
		r.ref = append(r.ref, u)
	}
	var fix []restraint.Fixing
	along := 0.0 // a nail is as long along the grain as across; a glue line as the member is wide
	if r.glued {
		along = r.width
	}
	for _, f := range r.fix {
		fix = append(fix, restraint.Fixing{
			X: f.X, Footprint: f.Footprint, Along: along, Slip: f.Slip, Yield: f.Yield,
			Clearance: f.Clearance, Friction: f.Friction, Preload: f.Preload,
		})
	}
	var err error
	if r.spread, err = sheet.Spread(); err != nil {
		return err
	}
	if l := r.fix[len(r.fix)-1].X - r.fix[0].X; r.glued && l < c.o.Across/2 { // a short piece reaches as far as it is long
		if r.spread, err = plan.NewSpread(l, c.overWidth(c.seasonModuli()), sheet.GLT, below, above); err != nil {
			return err
		}
	}
	var flex *plan.Flex
	if r.glued { // a whole line holds the strip evenly; only single fixings yield locally
		flex, err = plan.Strip(sheet.Boards, r.spread.Width(), restraint.Patches(fix))
	} else {
		flex, err = sheet.Flex(restraint.Patches(fix))
	}
	if err != nil {
		return err
	}
	bar := restraint.Bar{
		E: el, Width: r.width, Depth: r.depth, Offset: where * (thick + r.depth) / 2, HoldsFlat: flat,
	}
	if r.system, err = restraint.Build(flex, bar, fix); err != nil {
		return err
	}
	c.restraints = append(c.restraints, *r)
	return nil
}

// seasonModuli returns the modulus across each board that is left over a season.
func (c *Case) seasonModuli() []float64 {
	out := make([]float64, len(c.boards))
	for i := range out {
		out[i] = c.boards[i].stiff * c.boards[i].left
	}
	return out
}

// meanGLT returns the shear modulus along the grain, mean over the width.
func (c *Case) meanGLT() float64 {
	var g float64
	for i := range c.boards {
		b := &c.boards[i]
		cos2 := math.Pow(math.Cos(b.Ring.Theta()), 2) // share of R across the width
		g += (cos2*b.Wood.GLR + (1-cos2)*b.Wood.GLT) * b.Width / c.o.Across
	}
	return g
}

// glueLine stands for a batten glued along its whole length: points that do not slip.
func glueLine(from, to float64) []panel.Fixing {
	out := make([]panel.Fixing, gluedPoints)
	for i := range out {
		out[i] = panel.Fixing{
			X: from + (to-from)*float64(i)/(gluedPoints-1), Slip: math.Inf(1), Yield: math.Inf(1),
		}
	}
	return out
}

// notches are the places where a slider may stick: free it moves against friction alone, seized it
// is held; in between the force at which it gives grows without limit.
func notches(k *panel.Cradle) []panel.Fixing {
	out := make([]panel.Fixing, 0, len(k.FixedX))
	foot := k.FixedWidth
	for i := 1; i < len(k.FixedX); i++ { // members so close that they touch
		foot = min(foot, 0.99*(k.FixedX[i]-k.FixedX[i-1]))
	}
	for _, x := range k.FixedX {
		f := panel.Fixing{X: x, Footprint: foot, Slip: notchSlip, Yield: math.Inf(1)}
		if k.ShareStuck < 1 {
			f.Yield = k.FrictionForce / (1 - k.ShareStuck)
		}
		out = append(out, f)
	}
	return out
}

// notchSlip is the slip stiffness of a slider stuck in the notch of a glued member, N/mm: stiff
// beside nails (200 to 1500 N/mm); assumption.
const notchSlip = 5000
