package fracture

import (
	"math"

	"crossgrain/species"
)

// ProcessZone is the length (mm) below which a crack does not yet meet its full toughness, so that
// strength decides beside it: 20.2 to 26.9 mm in spruce (Kunecky and others 2025).
const ProcessZone = 25.0

// Criterion names what decides.
type Criterion string

// The criteria.
const (
	ByToughness Criterion = "toughness" // energy release against toughness
	ByStress    Criterion = "stress"    // stress against short tests
	ByStrain    Criterion = "strain"    // strain held for long against slow tests
)

// Demand is what one criterion asks: Share is demand over capacity, growing with the strain.
type Demand struct {
	By    Criterion
	Share float64
}

// Decides returns the greater demand; of two alike the first.
func Decides(a, b Demand) Demand {
	if b.Share > a.Share || math.IsNaN(b.Share) {
		return b
	}
	return a
}

// SoundWood returns what decides about sound wood from which the strain held is withheld: the whole
// of it against the limit from slow tests, or the part that relaxation has left as stress (left, 0
// to 1) against the strength by ring angle from fast ones (species.Numbers.FastBreak). Pressed wood
// asks nothing of either.
func SoundWood(held species.HeldStrain, slow species.SlowLimit, left float64, fast species.FastLimit) Demand {
	h := max(0, held)
	return Decides(
		Demand{ByStrain, h.Share(slow)},
		Demand{ByStress, species.ElasticStrain(left * float64(h)).Share(fast)},
	)
}

// JoinShare returns the demand on a closed glued join over what it can bear: the strain held across
// it against the slow limit of sound wood times the strength of the join relative to sound wood (0 to
// 1). No strength of aged animal glue is published, so relative is always an assumption. A join that
// is pressed asks nothing; one of no strength gives +Inf when it is pulled.
func JoinShare(held species.HeldStrain, limit species.SlowLimit, relative float64) float64 {
	if !(held > 0) {
		return 0
	}
	return held.Share(limit) / relative
}

// Stress returns the demand of a held strain on the strength (MPa, short tests): the stress is Left E0
// eps, what relaxation has left. Pressed wood asks nothing of it.
func (d Drive) Stress(eps, strength float64) Demand {
	return Demand{ByStress, max(0, d.Left*d.E0*eps) / strength}
}

// Demand returns the demand of the crack as it is on the toughness gc (N/mm): the root of energy over
// toughness, which goes with the strain as the other shares do.
func (c Curve) Demand(gc float64) Demand {
	return Demand{ByToughness, math.Sqrt(c.Now().Slow / gc)}
}

// Governs returns what decides about a crack of the given length: toughness, or for one shorter than
// the [ProcessZone] the worse of toughness and stress.
func Governs(length float64, toughness, stress Demand) Demand {
	if length < ProcessZone {
		return Decides(toughness, stress)
	}
	return toughness
}
