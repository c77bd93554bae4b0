package restraint

import "fmt"

// Edges says by which two edges a panel is carried level.
type Edges int

// The pairs of edges.
const (
	ByTheSides Edges = iota // the two edges along the grain: it bends across the grain, the soft way
	ByTheEnds               // the two ends across the grain: it bends along the grain
)

// Carried is a panel carried level on two edges.
type Carried struct {
	Sag
	Reach Reach
}

// Carried returns the sag of the panel carried level on two edges, density in kg/m3, above 0. battens is
// the bending stiffness of all battens together, N mm2, which help only when they span between the
// hands: those across the grain when it is carried by the sides. They are taken as lying beside the panel,
// not glued to it:
//
//	w = 5 W L^3/[384 (E t^3 b/12 + Sum E I)]
//
// The stress is the panel's part of it. Beam theory ([Weight.Bend]); errors name what is out of range.
func (p Plate) Carried(density float64, by Edges, battens float64) (Carried, error) {
	if err := p.valid(); err != nil {
		return Carried{}, err
	}
	if by != ByTheSides && by != ByTheEnds {
		return Carried{}, fmt.Errorf("edges must be 0 (sides) or 1 (ends), got %d", int(by))
	}
	if !(battens >= 0) {
		return Carried{}, fmt.Errorf("stiffness of the battens must be 0 N mm2 or more, got %g", battens)
	}
	e, span, breadth := p.EAcross, p.Across, p.Along
	if by == ByTheEnds {
		e, span, breadth = p.EAlong, p.Along, p.Across
	}
	s, err := Weight{E: e, T: p.T, Span: span, Density: density}.Bend()
	if err != nil {
		return Carried{}, err
	}
	own := e * cube(p.T) / 12 * breadth
	part := own / (own + battens)
	s.Deflection, s.Stress, s.Strain, s.Moment = s.Deflection*part, s.Stress*part, s.Strain*part, s.Moment*part
	return Carried{s, ReachOf(s.Deflection, p.T)}, nil
}

// Lain is a panel that has lain on bearers for a while.
type Lain struct {
	Short Borne      // at once
	Sag   [2]float64 // after the while, mm, low and high
	Reach Reach      // of the higher
}

// Lain returns the sag on bearers (see [Weight.On]) at once and after lying so long that the creep factor
// of the wood across the grain under constant load has reached grown, low and high, each 1 or more: the
// strain at the end over the strain at once. About 2 to 3 for weeks (chain of spruce across the
// grain, 65 % RH: 1.95 + 1 at its end in tangential, 1.12 + 1 in radial tension; Ferrara and Wittel 2025). Of
// one material that creeps evenly the stress and the reactions stay as they were (principle of
// correspondence). E is the short modulus.
func (w Weight) Lain(at []float64, grown [2]float64) (Lain, error) {
	if !(grown[0] >= 1 && grown[1] >= grown[0]) {
		return Lain{}, fmt.Errorf("creep factors must be 1 or more, low before high, got %g", grown)
	}
	b, err := w.On(at)
	if err != nil {
		return Lain{}, err
	}
	l := Lain{Short: b, Sag: [2]float64{b.Deflection * grown[0], b.Deflection * grown[1]}}
	l.Reach = ReachOf(l.Sag[1], w.T)
	return l, nil
}
