package panel

import (
	"slices"
	"strings"
)

// Unlooked lists what nobody has told of the panel and what every answer hangs on: whether anything crosses the grain at its back
// (panel.back), and whether it has cracks or open joins (panel.cracks). Each counts as told by its key or by a part that is described;
// "?" counts as not told.
func (p *Panel) Unlooked() []string {
	var out []string
	if w := p.word("panel.back"); w == "" && !p.crossed() {
		out = append(out, "panel.back")
	}
	if w := p.word("panel.cracks"); w == "" && len(p.opened()) == 0 {
		out = append(out, "panel.cracks")
	}
	return out
}

// ToLook is how what [Panel.Unlooked] lists is found out: the question in words, by which means and in how many minutes.
func ToLook(path string) (question, means string, minutes float64) {
	t, _ := lookTable("panel", false)
	k, _ := t.key(strings.TrimPrefix(path, "panel."))
	return map[string]string{
		"panel.back":   "Does anything cross the grain at the back?",
		"panel.cracks": "Are there cracks, or joins that stand open?",
	}[path], k.means, k.minutes
}

// Anyone is who may find out what a look tells.
const Anyone = "anyone who may handle it"

// crossed says whether the file describes something that crosses the grain or holds the whole back.
func (p *Panel) crossed() bool {
	return p.Has("cradle") || p.Has("support") || len(p.Names("batten")) > 0 || len(p.engaged()) > 0 || slices.ContainsFunc(p.Names("insert"), func(n string) bool {
		k := p.word("insert." + n + ".kind")
		return k == "cleat" || k == "breadboard end"
	})
}

// engaged lists the sides of a frame that are fixed to the panel.
func (p *Panel) engaged() []string {
	var out []string
	for _, side := range p.Names("frame") {
		if side != "" && p.word("frame."+side+".kind") == "engaged" {
			out = append(out, side)
		}
	}
	return out
}

// opened lists the splits, and the joins that stand open.
func (p *Panel) opened() []string {
	var out []string
	for _, n := range p.Names("split") {
		out = append(out, "split."+n)
	}
	for _, n := range p.Names("join") {
		at := "join." + n
		_, length := p.Number(at + ".open_mm")
		_, place := p.Number(at + ".start_mm")
		if length || place || p.word(at+".open_from") != "" {
			out = append(out, at)
		}
	}
	return out
}

// looked notes what is taken of back and cracks where nobody has told of them.
func (d *draft) looked() {
	whole := part{table: "panel"}
	for _, path := range d.p.Unlooked() {
		switch path {
		case "panel.back":
			d.words(whole, "back", "nothing", "assumption: free at the back; whether that holds must be looked at")
		case "panel.cracks":
			d.words(whole, "cracks", "none", "assumption: no crack, no open join; whether that holds must be looked at")
		}
	}
}

// lookedAgrees reports words about the whole that the parts gainsay.
func (r *reader) lookedAgrees() {
	p := r.panel
	if p.word("panel.back") == "nothing" && p.crossed() {
		r.add([]string{"panel", "back"}, "panel.back", `says that nothing crosses the grain, and the file describes something that does`, "take the line out; what is described needs no word here")
	}
	if parts := p.opened(); p.word("panel.cracks") == "none" && len(parts) > 0 {
		r.add([]string{"panel", "cracks"}, "panel.cracks", "says that there is none, and the file describes "+parts[0], "take the line out; what is described needs no word here")
	}
}

// lookedGates are findings that are known to be there and not described.
func (p *Panel) lookedGates(add addGate) {
	if p.word("panel.back") == "not described" && !p.crossed() {
		add("back_not_described", "panel", "Something crosses the grain at the back, and it is not described. What it holds back cannot be told, so no figures are given; "+
			"describe it, or say that it is not fixed. How far the boards would move if they were free is still calculated.")
	}
	if p.word("panel.cracks") == "not described" && len(p.opened()) == 0 {
		add("cracks_not_described", "panel", "There are cracks or open joins, and they are not described. A panel with open splits should not travel before a conservator has seen it; "+
			"say where they run and how long they are. Movement of the boards is still calculated.")
	}
}
