package species

import (
	"fmt"
	"math"

	"crossgrain/tables"
)

// Duration says for which length of loading a value of stiffness holds.
type Duration int

// The durations. A long value has relaxation inside and refuses any more of it.
const (
	Timeless Duration = iota // loading time does not matter
	Short                    // minutes, as in tests
	Long                     // relaxed, months and more
)

// String returns "", "short" or "long".
func (d Duration) String() string {
	return [...]string{"", "short", "long"}[min(max(d, Timeless), Long)]
}

// Names of properties; the direction in brackets. Moduli are MPa, swelling and total shrinkage per
// cent (swelling per 1 % MC), density kg/m3, toughness J/m2, diffusion m2/s.
const (
	Density          = "density"
	Swelling         = "swelling"             // R, T, L
	ShrinkageTotal   = "shrinkage_total"      // R, T
	Modulus          = "modulus"              // L, R, T; short
	ModulusLong      = "modulus_long"         // L, R, T; relaxation inside
	ShearModulus     = "shear_modulus"        // RT, LR, LT; short
	ShearModulusLong = "shear_modulus_long"   // RT, LR, LT; relaxation inside
	Poisson          = "poisson"              // RT, LT: first letter stress, second strain
	StrengthTension  = "strength_tension"     // R, T
	StrengthCompress = "strength_compression" // R, T: largest stress or 1 % offset
	CompressionLimit = "compression_limit"    // R, T: proportional limit
	RollingShear     = "rolling_shear"        // RT
	Toughness        = "fracture_toughness"   // TL, RL; MPa m^0.5
	ToughnessStart   = "toughness_start"      // TL, RL: energy at the start of a crack
	ToughnessPlateau = "toughness_plateau"    // TL, RL: energy of a running crack
	Diffusion        = "diffusion"            // across the grain
)

// Property is one value of a wood. CV is the coefficient of variation between pieces and sources
// together (a fraction); Low and High of the datum are its 5 and 95 % ends.
type Property struct {
	Name, Direction string
	tables.Datum
	CV       float64
	Duration Duration
}

// width95 is the 95 % point of the normal distribution.
const width95 = 1.6449

// logSigma returns the width of ln x for a log-normal quantity of coefficient of variation cv.
func logSigma(cv float64) float64 { return math.Sqrt(math.Log1p(cv * cv)) }

// spread sets Low and High from the coefficient of variation, log-normal about the value.
func (p Property) spread() Property {
	f := math.Exp(width95 * logSigma(p.CV))
	p.Low, p.High = p.Value/f, p.Value*f
	return p
}

// Relaxed returns the value times a relaxation factor, 0 < factor <= 1. Only a short value may be
// relaxed: a long one gives a *[RelaxedError], a factor outside its range a *tables.RangeError.
func (p Property) Relaxed(factor float64) (float64, error) {
	if p.Duration != Short {
		return math.NaN(), &RelaxedError{Property: p.Name, Direction: p.Direction, Duration: p.Duration}
	}
	if !(factor > 0) {
		return math.NaN(), &tables.RangeError{Quantity: "relaxation factor", Value: factor, Min: 0, Max: 1, Unit: "(above 0)"}
	}
	if err := tables.InRange("relaxation factor", factor, 0, 1, "", ""); err != nil {
		return math.NaN(), err
	}
	return factor * p.Value, nil
}

// RelaxedError reports relaxation asked of a value that has it inside, or that does not relax.
type RelaxedError struct {
	Property, Direction string
	Duration            Duration
}

func (e *RelaxedError) Error() string {
	if e.Duration == Long {
		return fmt.Sprintf("%s %s is a long-term value with relaxation inside, it cannot be relaxed again", e.Property, e.Direction)
	}
	return fmt.Sprintf("%s %s is not a short-term stiffness, it takes no relaxation", e.Property, e.Direction)
}

// MissingError reports a property that a wood lacks and names the stand-in that Numbers would take.
type MissingError struct {
	Wood, Property, Direction string
	StandIn                   string // where a value would come from; "" when nothing stands in
	Value                     float64
	Unit                      string
	Grade                     tables.Grade // evidence of the stand-in
}

func (e *MissingError) Error() string {
	what := e.Property
	if e.Direction != "" {
		what += " " + e.Direction
	}
	s := fmt.Sprintf("%s has no %s", e.Wood, what)
	if e.StandIn == "" {
		return s + " and nothing stands in for it"
	}
	return s + fmt.Sprintf(", %s would stand in: %.3g %s (%s)", e.StandIn, e.Value, e.Unit, e.Grade)
}

// Properties returns all values that belong to the wood itself, in fixed order; nothing borrowed.
func (w *Wood) Properties() []Property { return append([]Property(nil), w.props...) }

// Property returns one value of the wood itself. An empty direction finds a property that has none.
// A missing one gives a *[MissingError].
func (w *Wood) Property(name, direction string) (Property, error) {
	if p, ok := w.own(name, direction); ok {
		return p, nil
	}
	e := &MissingError{Wood: w.Name, Property: name, Direction: direction, Value: math.NaN(), Grade: tables.Estimate}
	if p, from, ok := w.standIn(name, direction); ok {
		e.StandIn, e.Value, e.Unit, e.Grade = from, p.Value, p.Unit, p.Grade
	}
	return Property{}, e
}

func (w *Wood) own(name, direction string) (Property, bool) {
	for _, p := range w.props {
		if p.Name == name && p.Direction == direction {
			return p, true
		}
	}
	return Property{}, false
}

// Movable returns nil when the wood's movement R and T is known, and a *[MissingError] otherwise.
func (w *Wood) Movable() error {
	for _, d := range [...]string{"R", "T"} {
		if _, err := w.Property(Swelling, d); err != nil {
			return err
		}
	}
	return nil
}
