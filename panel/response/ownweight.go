package response

import (
	"fmt"
	"math"

	"crossgrain/panel/internal/creep"
	"crossgrain/panel/restraint"
)

// How a panel stands and lies where nothing is said; assumptions, printed by reports.
const (
	leanBy     = 10.0  // degrees from upright, as on an easel
	bowShare   = 0.005 // of the height: departure from a plane
	twoInset   = 0.207 // of the width: two bearers with the least moment, (sqrt 2 - 1)/2
	threeInset = 0.145 // likewise of three (see the tests)
	lyingFor   = 14 * 24 * 3600.0
)

// OwnWeight is what its own weight does to the panel, without battens.
type OwnWeight struct {
	WeightKg float64
	Density  float64                  // kg/m3, of the whole
	Modulus  float64                  // across the grain, MPa, short, of its softest board in the mean thickness
	Grown    [2]float64               // sag after two weeks and after a season of lying, over the sag at once
	Bears    [2]float64               // stress that its weakest line is taken to bear, MPa: briefly, for a season
	Part     string                   // which line
	Standing [2]WeightStanding        // grain upright, grain level
	Bearers  []WeightLying            // lying level on two and on three bearers along the grain
	Edges    [2]restraint.OnFourEdges // lying on all four edges, at once and after a season
	Sides    restraint.Carried        // carried level by the two edges along the grain, without battens
	Battens  restraint.Carried        // the same with its battens, which lie beside it; zero without
	Ends     restraint.Carried        // carried level by its two ends
}

// WeightStanding is the panel standing upright, its foot resting and its top held, leaning by 10 degrees and
// bowed by 1/200 of its height.
type WeightStanding struct {
	Level  bool // grain level
	AsIs   bool // the way its picture stands
	Height float64
	Bow    float64 // of its own, mm
	Now    restraint.Stood
	Season restraint.Stood // with the modulus left across the grain after a season
}

// WeightLying is the panel lying level, such as face down, on bearers along the grain.
type WeightLying struct {
	At []float64 // mm from the left edge
	restraint.Lain
}

// OwnWeight returns what its weight does to the panel standing, lying and carried. It is taken as soft
// throughout as its softest board (E (t/T)^3). Along the grain wood creeps little; that modulus stays.
// Sources as in package restraint; it returns an error for a panel outside what the closed forms take.
func (c *Case) OwnWeight() (OwnWeight, error) {
	p := c.plate()
	load, err := c.Carried()
	if err != nil {
		return OwnWeight{}, err
	}
	w := c.weakest()
	r := OwnWeight{
		WeightKg: c.mass(), Modulus: p.EAcross, Grown: c.grown(), Part: w.Part,
		Bears: [2]float64{load.Strength, w.Stress},
	}
	r.Density = r.WeightKg / (p.Across * p.Along * p.T * 1e-9)
	if err := c.stood(&r, p); err != nil {
		return r, fmt.Errorf("response: standing: %w", err)
	}
	if err := c.lain(&r, p); err != nil {
		return r, fmt.Errorf("response: lying: %w", err)
	}
	if r.Sides, err = p.Carried(r.Density, restraint.ByTheSides, 0); err != nil {
		return r, err
	}
	var all float64
	for _, m := range c.crossing() {
		all += m.ends()[0] * m.width * m.depth * m.depth * m.depth / 12
	}
	if all > 0 {
		if r.Battens, err = p.Carried(r.Density, restraint.ByTheSides, all); err != nil {
			return r, err
		}
	}
	r.Ends, err = p.Carried(r.Density, restraint.ByTheEnds, 0)
	return r, err
}

func (c *Case) stood(r *OwnWeight, p restraint.Plate) error {
	for i, level := range []bool{false, true} {
		s := WeightStanding{Level: level, AsIs: level == c.o.GrainLevel, Height: p.Along}
		if level {
			s.Height = p.Across
		}
		s.Bow = bowShare * s.Height
		u := restraint.Upright{Plate: p, Level: level, How: restraint.HeldAtTop, Own: r.Density, Bow: s.Bow, LeanBy: leanBy}
		var err error
		if s.Now, err = u.Stands(); err != nil {
			return err
		}
		u.EAcross *= c.meanLeft()
		if s.Season, err = u.Stands(); err != nil {
			return err
		}
		r.Standing[i] = s
	}
	return nil
}

func (c *Case) lain(r *OwnWeight, p restraint.Plate) error {
	w := restraint.Weight{E: p.EAcross, T: p.T, Span: p.Across, Density: r.Density}
	for i, inset := range []float64{twoInset, threeInset} {
		at, err := restraint.EvenBearers(2+i, p.Across, inset*p.Across)
		if err != nil {
			return err
		}
		l, err := w.Lain(at, r.Grown)
		if err != nil {
			return err
		}
		r.Bearers = append(r.Bearers, WeightLying{at, l})
	}
	var err error
	if r.Edges[0], err = p.Lying(r.Density); err != nil {
		return err
	}
	p.EAcross *= c.meanLeft()
	r.Edges[1], err = p.Lying(r.Density)
	return err
}

// grown returns by how much the sag under a lasting load grows, after two weeks and after a season.
func (c *Case) grown() [2]float64 {
	r, t := creep.Left(creep.Radial, creep.Tension, lyingFor), creep.Left(creep.Tangential, creep.Tension, lyingFor)
	least, most := math.Inf(1), 1.0
	for i := range c.boards {
		cos2 := math.Pow(math.Cos(c.boards[i].Ring.Theta()), 2)
		least = math.Min(least, 1/(r*cos2+t*(1-cos2)))
		most = math.Max(most, 1/c.boards[i].left)
	}
	return [2]float64{least, most}
}

// plate returns the panel as one plate, as soft across the grain as its softest board.
func (c *Case) plate() restraint.Plate {
	p := restraint.Plate{
		Across: c.o.Across, Along: c.o.Along, T: c.meanThickness(), EAcross: c.folded()[0], EAlong: math.Inf(1), G: c.meanGLT(),
	}
	for i := range c.boards {
		b := &c.boards[i]
		p.EAlong = math.Min(p.EAlong, b.Wood.EL*b.StiffnessReduction)
		p.Nu = math.Max(p.Nu, b.Wood.NuLT)
	}
	return p
}

// folded returns the modulus across the grain of the softest and the stiffest board as if each were of
// the mean thickness, MPa: E (t/T)^3 keeps the bending stiffness.
func (c *Case) folded() [2]float64 {
	e, mean := [2]float64{math.Inf(1), 0}, c.meanThickness()
	for i := range c.boards {
		t := c.boards[i].Thickness / mean
		v := c.boards[i].stiff * t * t * t
		e[0], e[1] = math.Min(e[0], v), math.Max(e[1], v)
	}
	return e
}

func (c *Case) meanThickness() (t float64) {
	for i := range c.boards {
		t += c.boards[i].Thickness * c.boards[i].Width / c.o.Across
	}
	return t
}

func (c *Case) thickest() (t float64) {
	for i := range c.boards {
		t = math.Max(t, c.boards[i].Thickness)
	}
	return t
}

func (c *Case) meanLeft() (left float64) {
	for i := range c.boards {
		left += c.boards[i].left * c.boards[i].Width / c.o.Across
	}
	return left
}

// mass returns the weight of the panel, kg, as recorded or from its density.
func (c *Case) mass() (kg float64) {
	if c.o.WeightKg > 0 {
		return c.o.WeightKg
	}
	for i := range c.boards {
		b := &c.boards[i]
		kg += b.Wood.Density * (1 - b.DensityLoss) * b.Width * b.Thickness * c.o.Along * 1e-9
	}
	return kg
}
