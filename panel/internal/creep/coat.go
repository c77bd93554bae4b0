package creep

import (
	"fmt"
	"math"
)

// Coat is a layer glued to a face that stays elastic: a ground, or a batten smeared over the width
// that it serves. Thickness 0 = none.
type Coat struct {
	E, Thickness float64 // MPa; mm
}

// coat is a Coat in its state.
type coat struct {
	Coat
	zero              Move    // of its middle, when it carries nothing
	arm, factor, free float64 // mm; stiffness over the reference; free strain
	strain, curvature float64 // elastic, in its middle
	was, before       float64 // factor and free strain before the step
}

func (c *coat) axial() float64   { return c.E * c.factor * c.Thickness }
func (c *coat) bending() float64 { return c.axial() * c.Thickness * c.Thickness / 12 }

// Coats glues elastic layers to the painted face and the back, in place of those there were. Before
// Start they count from the state in which the wood does, after it from the state the strip is in:
// they carry nothing yet. Coat{} takes one off; the strip moves in the next step, which may be of
// 0 s.
func (s *Strip) Coats(front, back Coat) error {
	for _, c := range []Coat{front, back} {
		if !(c.E >= 0) || !(c.Thickness >= 0) || math.IsInf(c.E+c.Thickness, 1) {
			return fmt.Errorf("strip: coat must have a modulus of 0 MPa and a thickness of 0 mm or more, got %g and %g", c.E, c.Thickness)
		}
	}
	s.drop(&s.front)
	s.drop(&s.back)
	s.front = s.glued(front, (s.h+front.Thickness)/2)
	s.back = s.glued(back, -(s.h+back.Thickness)/2)
	return nil
}

func (s *Strip) glued(c Coat, arm float64) coat {
	return coat{
		Coat: c, arm: arm, factor: 1, was: 1,
		zero: Move{s.at.Eps + s.at.Kappa*arm, s.at.Kappa},
	}
}

// drop takes a coat off with what is stored in it, and leaves to the rest what it carried.
func (s *Strip) drop(c *coat) {
	n, m := c.axial()*c.strain, c.bending()*c.curvature
	stored := (n*c.strain + m*c.curvature) / 2
	s.energy.Elastic -= stored
	s.energy.Support -= stored
	s.was.N -= n
	s.was.M -= n*c.arm + m
}

func (c *coat) take(in CoatIn) {
	c.was, c.before = c.factor, c.free
	c.free, c.factor = in.Free, in.Stiffness
	if in.Stiffness == 0 {
		c.factor = 1
	}
}
