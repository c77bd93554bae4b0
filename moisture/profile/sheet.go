package profile

import (
	"errors"
	"fmt"

	"crossgrain/moisture"
	"crossgrain/tables"
)

// Sheet is a board given by its diffusion coefficient on a gradient of moisture content, as text
// books do:
//
//	du/dt = d/dz( D0 exp(K u) du/dz ),   flow in = S (u_air - u_face)
//
// Moisture content and that in balance with the air lie in 0..1.
type Sheet struct {
	Thickness   float64 // mm, 0.1..500
	D0          float64 // m2/s, 1e-14..1e-6
	K           float64 // 0..50; 0 is constant diffusion
	Back, Front float64 // surface coefficients S, m/s, 0 (sealed) .. 1e3
}

// NewSheet makes a solver for a sheet. Memory does not apply, a tolerance of 0 is 1e-7, and the air
// is given to [Solver.StepSheet] as a moisture content. The error lists everything out of range.
func NewSheet(p Sheet, o Options) (*Solver, error) {
	if o.Tol == 0 {
		o.Tol = 1e-7
	}
	o = o.filled()
	o.Memory = Mean
	err := errors.Join(o.valid(),
		tables.InRange("thickness", p.Thickness, 0.1, 500, "mm", ""),
		tables.InRange("diffusion coefficient", p.D0, 1e-14, 1e-6, "m2/s", ""),
		tables.InRange("growth of diffusion with moisture", p.K, 0, 50, "per kg/kg", ""),
		tables.InRange("surface coefficient, back", p.Back, 0, 1e3, "m/s", ""),
		tables.InRange("surface coefficient, front", p.Front, 0, 1e3, "m/s", ""))
	if err != nil {
		return nil, fmt.Errorf("sheet: %w", err)
	}
	s := &Solver{wall: Wall{Thickness: p.Thickness, Density: 1}, o: o, sheet: &p}
	law := Transport{Mu: 1 / p.D0, Growth: p.K}
	law.Mu *= law.conductivity(0) / p.D0 // D0 stands at u = 0
	s.c = tabulate(func(u float64) (float64, float64) { return u, 1 }, nil,
		func(u float64) (float64, float64) { return law.potential(u), law.conductivity(u) })
	s.allocateSheet()
	return s, nil
}

func (s *Solver) allocateSheet() {
	p := s.sheet
	// the mesh is finer at a face whose film resists less than half the sheet
	half := 2 * p.D0 / (p.Thickness / 1000)
	s.allocate()
	s.mesh = newMesh(s.o.Cells, p.Thickness, s.o.Graded && p.Back > half, s.o.Graded && p.Front > half)
	d := &s.air
	d.g, d.heat = [2]float64{p.Back, p.Front}, 1
	for i := range d.psat {
		d.psat[i] = 1
	}
	for i := range s.dx {
		d.gc[i] = 1 / s.dx[i]
	}
}

// StartSheet sets one moisture content (kg/kg, 0..1) throughout.
func (s *Solver) StartSheet(u moisture.MC) error {
	if err := s.isSheet(); err != nil {
		return err
	}
	if err := tables.InRange("moisture content", u.Percent(), 0, 100, "%", ""); err != nil {
		return err
	}
	s.air.press = [2]float64{float64(u), float64(u)}
	s.begin()
	return nil
}

// StepSheet moves a sheet through dt seconds while the moisture content in balance with the air goes
// in a straight line from one value to another (kg/kg, 0..1). Errors as [Solver.Step].
func (s *Solver) StepSheet(dt float64, from, to moisture.MC) (Balance, error) {
	if err := s.isSheet(); err != nil {
		return Balance{}, err
	}
	return s.Step(dt, Climate{RH: moisture.RH(from)}, Climate{RH: moisture.RH(to)})
}

func (s *Solver) isSheet() error {
	if s.sheet == nil {
		return errors.New("this solver was made for a wall: use Start and Step")
	}
	return nil
}
