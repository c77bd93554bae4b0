package panel

import (
	"fmt"
	"strings"
)

// Gate is a finding that stands before any number.
type Gate struct {
	ID, Part  string
	Text      string // whole sentences
	NoFigures bool   // no calculated range, allowance or loan proposal is given
}

// thinnest is the thickness under which no range is given, mm: such panels warp and ripple by more
// than their own thickness, outside the model.
const thinnest = 4

// Gates lists what must be said before any number, in a fixed order. Each sentence says what can
// still be said.
func (p *Panel) Gates() []Gate {
	var out []Gate
	add := func(id, part, text string) { out = append(out, Gate{id, part, text, true}) }
	for _, side := range []string{"front", "back"} {
		p.paintGates("face."+side, add)
	}
	for _, pt := range p.parts {
		switch pt.table {
		case "split":
			p.splitGate(pt, add)
		case "board":
			p.boardGates(pt, add)
		case "batten":
			if p.word(pt.at("fixing")) == "nothing" && p.word(pt.at("empty")) != "yes" {
				add("loose_batten", pt.path(), fmt.Sprintf("Batten %s lies loose: nothing fixes it, and it may fall or scrape. "+
					"Have it made safe before the panel is moved; movement of the boards is still calculated, without this batten.", pt.name))
			}
		case "support":
			p.supportGate(add)
		}
	}
	p.wholeGates(add)
	return out
}

type addGate func(id, part, text string)

func (p *Panel) paintGates(face string, add addGate) {
	paint, ground := p.word(face+".paint"), p.word(face+".ground_state")
	switch {
	case paint == "flaking":
		add("flaking", face, "The paint is flaking. Secure the paint first: loose paint answers the air within hours, and this report says nothing about it. "+
			"Movement of the wood and load on joins are still calculated.")
	case paint == "blind cleavage":
		add("blind_cleavage", face, "Paint has come away from what is beneath without flaking yet. Secure the paint first: this report says nothing about it. "+
			"Movement of the wood and load on joins are still calculated.")
	case ground == "lifting":
		add("lifting_ground", face, "The ground is lifting. Secure it first: this report says nothing about loose ground. "+
			"Movement of the wood and load on joins are still calculated.")
	}
}

func (p *Panel) splitGate(pt part, add addGate) {
	step, ok := p.Number(pt.at("step_mm"))
	if _, check := p.Number(pt.at("depth_mm")); !check && ok && step.High > 0 {
		add("split_with_step", pt.path(), fmt.Sprintf("Split %s goes through and its sides stand %s mm out of level, so they move apart in a way that is not calculated. "+
			"A panel with such a split should not travel before a conservator has seen it; the rest is still calculated.", pt.name, showNumber(step.High)))
	}
}

func (p *Panel) boardGates(pt part, add addGate) {
	switch {
	case p.word(pt.at("insects_active")) == "yes":
		add("active_insects", pt.path(), fmt.Sprintf("Board %s has live insects or fresh frass. Keep the panel apart and have it treated; "+
			"the strength of the wood cannot be told, its movement is still calculated.", pt.name))
	case p.word(pt.at("insects")) == "friable":
		add("friable_wood", pt.path(), fmt.Sprintf("The wood of board %s crumbles. Its strength cannot be told; its movement is still calculated, as of sound wood.", pt.name))
	}
	if p.word(pt.at("impregnated")) == "yes" {
		add("impregnated", pt.path(), fmt.Sprintf("The wood of board %s is impregnated, which changes how it takes up water and how stiff it is. "+
			"There is no model for that; figures for it are those of plain wood, for comparison only.", pt.name))
	}
	if p.word(pt.at("grain")) == "across" {
		add("crossing_grain", pt.path(), fmt.Sprintf("The grain of board %s crosses that of the others, so each holds the other back. "+
			"There is no model for that; only the free movement of each board can be told.", pt.name))
	}
}

func (p *Panel) supportGate(add addGate) {
	what := p.word("support.kind")
	if what == "" || what == "other" {
		what = "a second support"
	} else {
		what = "a second support (" + what + ")"
	}
	add("second_support", "support", "This panel has "+what+" glued over its back. There is no model for it and no range is given. "+
		"What can be said: how much the boards would move if they were free, which the support holds back in part.")
}

// wholeGates are the gates of the panel as a whole.
func (p *Panel) wholeGates(add addGate) {
	if p.word("cradle.moves") == "seized" {
		add("seized_cradle", "cradle", "The cradle is seized: the panel cannot move behind it, and a change of humidity goes into the wood, the joins and the paint. "+
			"Ask a conservator whether it can be freed; the load is still calculated as if every member held.")
	}
	if thin, part := p.thinnest(); part != "" {
		add("thin", part, fmt.Sprintf("The wood is only %s mm thick, under %d mm. So thin a panel warps by more than its thickness and answers the air in hours, which is outside the model; "+
			"free movement is still calculated.", showNumber(thin), thinnest))
	}
	if p.word("panel.transferred") == "yes" {
		add("transferred", "panel", "The paint has been moved to another support, so its layers are not those of a painted panel. Nothing is said about the paint; "+
			"movement of the wood is still calculated.")
	}
	if o := p.word("panel.outline"); o != "" && o != "rectangular" {
		add("outline", "panel", "The panel is "+map[string]string{"other": "not rectangular", "curved": "curved on purpose"}[o]+
			map[string]string{"arched": "arched", "round": "round"}[o]+
			", and the model takes a flat rectangle. Movement across the grain at its widest is still calculated.")
	}
	p.lookedGates(add)
	p.frameGates(add)
}

// thinnest returns the least thickness recorded where it is under the limit, and where.
func (p *Panel) thinnest() (float64, string) {
	least, where := float64(thinnest), ""
	look := func(path, part string) {
		if q, ok := p.Number(path); ok && q.Low < least {
			least, where = q.Low, part
		}
	}
	every := len(p.Names("board")) > 0
	for _, b := range p.Names("board") {
		own := false
		for _, k := range []string{"thickness_mm", "thickness_left_mm", "thickness_right_mm"} {
			look("board."+b+"."+k, "board."+b)
			own = own || p.Known("board."+b+"."+k) != Assumed
		}
		every = every && own
	}
	if !every {
		look("panel.thickness_mm", "panel")
	}
	return least, where
}

func (p *Panel) frameGates(add addGate) {
	var engaged, stuck []string
	for _, side := range p.Names("frame") {
		if side == "" {
			continue
		}
		if p.word("frame."+side+".kind") == "engaged" {
			engaged = append(engaged, side)
		} else if p.word("frame."+side+".fit") == "stuck" {
			stuck = append(stuck, side)
		}
	}
	if len(engaged) > 0 {
		add("engaged_frame", "frame", "The frame is fixed to the panel ("+strings.Join(engaged, ", ")+") and holds it like battens under the paint. "+
			"There is no model for that yet; figures are those of the panel without it, and the load is greater in truth.")
	}
	if len(stuck) > 0 {
		add("stuck_in_frame", "frame", "The panel is stuck in its frame ("+strings.Join(stuck, ", ")+"). There is no model for that yet; "+
			"figures are those of the panel free to move, and the load is greater in truth.")
	}
}
