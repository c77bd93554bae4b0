package panel

import "math"

// weakened fills in what insects have left of a board: of the whole, of its back half, or of its sapwood edges. In the last case the
// rest is taken as sound; edges that are not named are both taken to have sapwood.
func (d *draft) weakened(pt part, b *Board) {
	insects, edge, where := d.p.word(pt.at("insects")), d.p.word(pt.at("sapwood_edge")), d.p.word(pt.at("where"))
	left := 1.0
	if g, ok := insectStiffness(insects); ok {
		g.what, g.group = "board "+pt.name+", stiffness left by insects", "boards"
		left = d.assume(pt.at("insects"), g, key{low: 0.01, high: 1})
	}
	sap := 1.0
	switch {
	case left == 1:
	case where == "sapwood edge":
		sap = left
		if edge == "" || edge == "none" {
			edge = d.words(pt, "sapwood_edge", "both", "assumption: the holes are in sapwood")
		}
	case where == "back":
		b.StiffnessReduction = (1 + left) / 2 // of two halves side by side
		b.WeakBack = left / b.StiffnessReduction
	default:
		b.StiffnessReduction = left
	}
	b.DensityLoss = lossPerStiffness * (1 - b.StiffnessReduction)
	if edge == "" || edge == "none" {
		return
	}
	if sap == 1 && insects != "none" {
		g := sapwoodStrength()
		g.what, g.group = "board "+pt.name+", strength of its sapwood edge", "boards"
		sap = math.Min(1, d.assume(pt.at("sapwood_edge"), g, key{low: 0.01, high: 1}))
	}
	if edge != "right" {
		b.SapLeft = sap
	}
	if edge != "left" {
		b.SapRight = sap
	}
}
