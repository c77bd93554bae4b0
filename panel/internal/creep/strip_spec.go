package creep

import (
	"errors"
	"fmt"
	"math"
	"slices"

	"crossgrain/species"
)

// Order says whether crushing or creep comes first in a layer that wants to swell and cannot.
type Order int

// The orders. Nobody has measured which is right: they are the two ends of a bracket.
const (
	SetFirst   Order = iota // the limit holds for all strain held back: creep gives no relief
	CreepFirst              // the limit holds for the elastic strain: what has crept is not crushed
)

// Spec describes a strip.
type Spec struct {
	Layers   []float64        // thicknesses from back to painted face, mm
	E        float64          // reference modulus of short loading across the strip, MPa
	Duration species.Duration // of E: must be species.Short
	Pull     Chain            // Kelvin chain of a layer in tension
	Press    Chain            // and in compression; the same times
	Moist    []MoistureDriven // moisture-driven elements, none to three
	Dead     float64          // turns of moisture below this are not counted, kg/kg; see Threshold
	Limit    float64          // strain borne in compression before crushing, above 0; +Inf = never
	Order    Order            // of crushing and creep
}

// Validate says what is wrong with the description.
func (p Spec) Validate() error {
	if err := validLayers(p.Layers); err != nil {
		return err
	}
	if !(p.E > 0) || math.IsInf(p.E, 1) {
		return fmt.Errorf("modulus must be above 0 MPa and finite, got %g", p.E)
	}
	if p.Duration != species.Short {
		return fmt.Errorf("modulus must be of short loading, got one of %s loading: relaxation would count twice", p.Duration)
	}
	if !(p.Limit > 0) {
		return fmt.Errorf("limit of compression must be a strain above 0, or +Inf for none, got %g", p.Limit)
	}
	if !(p.Dead >= 0) || math.IsInf(p.Dead, 1) {
		return fmt.Errorf("threshold of moisture turns must be 0 kg/kg or more, got %g", p.Dead)
	}
	if p.Order != SetFirst && p.Order != CreepFirst {
		return errors.New("order must be set first or creep first")
	}
	return p.validCreep()
}

func (p Spec) validCreep() error {
	if err := errors.Join(p.Pull.Validate(), p.Press.Validate()); err != nil {
		return err
	}
	if !slices.Equal(p.Pull.Tau, p.Press.Tau) {
		return errors.New("chains of tension and compression must have the same retardation times")
	}
	if len(p.Moist) > 3 {
		return fmt.Errorf("strip takes at most 3 moisture-driven elements, got %d", len(p.Moist))
	}
	for _, m := range p.Moist {
		if !(m.M >= 0) || !(m.Path > 0) || math.IsInf(m.M, 1) || math.IsInf(m.Path, 1) {
			return fmt.Errorf("moisture-driven element must have a ratio of 0 or more and a path above 0 kg/kg, got %g and %g", m.M, m.Path)
		}
	}
	return nil
}
