package response

import (
	"math"

	"crossgrain/panel"
	"crossgrain/panel/fracture"
)

// GroundAtLine is what the ground over a join or split meets where that opens.
type GroundAtLine struct {
	Part, Face string
	Bears      float64 // opening that a sound ground across it bears before it cracks there, mm
	Opens      float64 // greatest opening beyond the least over the states, mm
	Cracks     bool
	Edge       fracture.EdgeShear // at the greatest press of the ground, else at its greatest stretch
}

// Moduli of a ground in shear by E/2(1+nu) with nu 0.2 (assumption; no shear modulus of a ground was found).
const groundNu = 0.2

// GroundAtLines tells for each face with a ground what meets it at every open join and split, over states in
// balance: the opening that a ground across it bears, and the shear by which its edge there is held. Low
// confidence: moduli of grounds are estimates and no strength of the bond was found. Loose paint is left out.
func (c *Case) GroundAtLines(states []State) []GroundAtLine {
	law, err := fracture.Gesso()
	if err != nil || len(states) == 0 {
		return nil
	}
	var out []GroundAtLine
	for i, f := range [...]panel.Face{c.o.Front, c.o.Back} {
		if f.Ground == "none" || f.GroundMM == 0 || paintKind(f) == PaintLoose || !(f.GroundEIntact > 0) {
			continue
		}
		strain := 0.0
		for k := range states {
			e := states[k].GroundStrain[1-i]
			if e < 0 && (strain >= 0 || e < strain) || e > 0 && strain >= 0 && e > strain {
				strain = e
			}
		}
		for l := range c.lines {
			b := &c.boards[c.lines[l].board]
			edge := groundOn(b, &f)
			g := GroundAtLine{Part: c.lines[l].part, Face: [...]string{"front", "back"}[i], Bears: edge.Bridges(law.Brittle), Edge: edge.At(strain)}
			least, most := math.Inf(1), 0.0
			for k := range states {
				if l < len(states[k].Lines) {
					o := states[k].Lines[l].Opening
					least, most = math.Min(least, o), math.Max(most, o)
				}
			}
			g.Opens = math.Max(0, most-least)
			g.Cracks = g.Opens > g.Bears
			out = append(out, g)
		}
	}
	return out
}

// groundOn is a ground without cracks on a board, near an edge of its own and far from the next.
func groundOn(b *board, f *panel.Face) fracture.GroundEdge {
	return fracture.GroundEdge{
		E: f.GroundEIntact, G: f.GroundEIntact / (2 * (1 + groundNu)), Thickness: f.GroundMM, WoodE: b.stiff * b.left, Wood: b.Thickness, Free: math.Inf(1),
	}
}

// groundEdge is what a face's greatest strains ask of the bond at a free edge of the ground, above the board where more energy
// could lift it. Pressed, a ground acts whole, its islands against one another; stretched, the islands between its cracks are pulled by their
// share only, that of its moduli.
func (c *Case) groundEdge(face int, y *PaintYear) (most fracture.EdgeShear) {
	f := [...]*panel.Face{&c.o.Back, &c.o.Front}[face]
	if y.Kind == PaintLoose {
		return most
	}
	if !(f.GroundEIntact > 0) {
		return most
	}
	for i := range c.boards {
		for _, strain := range [...]float64{y.Press.Strain, y.Stretch.Strain * f.GroundE / f.GroundEIntact} {
			if e := groundOn(&c.boards[i], f).At(strain); e.Energy > most.Energy {
				most = e
			}
		}
	}
	return most
}
