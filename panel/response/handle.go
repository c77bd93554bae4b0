package response

import (
	"math"

	"crossgrain/panel/restraint"
	"crossgrain/tables"
)

// handle adds the demand of carrying the panel level on its two long edges across the grain, the
// worst ordinary way, battens not counted.
func (c *Case) handle(s *State) error {
	w, err := c.Carried()
	if err != nil {
		return err
	}
	s.Demands = append(s.Demands, Demand{Handling, "panel", w.Stress, w.Strength, "MPa", tables.Estimate})
	return nil
}

// Load is the panel under its own weight, carried level on two edges with the grain.
type Load struct {
	Sag      float64 // mm at the middle
	Strain   float64 // at the face
	Stress   float64 // MPa
	Strength float64 // of the weakest wood or join, MPa, short
	WeightKg float64
}

// Carried returns the sag and stress of the panel carried level on its two edges along the grain.
func (c *Case) Carried() (Load, error) {
	weakest, strength, mass := math.Inf(1), math.Inf(1), 0.0
	var thick float64
	for i := range c.boards {
		b := &c.boards[i]
		weakest = math.Min(weakest, b.stiff)
		strength = math.Min(strength, b.Ring.Tension(b.Wood)*b.StiffnessReduction)
		mass += b.Wood.Density * (1 - b.DensityLoss) * b.Width * b.Thickness * c.o.Along * 1e-9
		thick += b.Thickness * b.Width / c.o.Across
	}
	for _, j := range c.o.Joins {
		sound := math.Min(c.boards[j.Left].Ring.Tension(c.boards[j.Left].Wood), c.boards[j.Right].Ring.Tension(c.boards[j.Right].Wood))
		open := 1 - j.Open()/c.o.Along
		strength = math.Min(strength, sound*j.StrengthOfSound*math.Max(open, 1e-3))
	}
	if c.o.WeightKg > 0 {
		mass = c.o.WeightKg
	}
	density := mass / (c.o.Across * thick * c.o.Along * 1e-9)
	r, err := restraint.Weight{E: weakest, T: thick, Span: c.o.Across, Density: density}.Bend()
	return Load{Sag: r.Deflection, Strain: r.Strain, Stress: r.Stress, Strength: strength, WeightKg: mass}, err
}
