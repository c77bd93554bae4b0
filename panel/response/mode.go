package response

import (
	"math"

	"crossgrain/tables"
)

// Mode is a way in which a part reaches its limit. The names are closed: files and later programs
// rely on them.
type Mode string

// The modes.
const (
	JoinTension    Mode = "join_tension"
	WoodSplit      Mode = "wood_split"
	CheckGrowth    Mode = "check_growth"
	CompressionSet Mode = "compression_set"
	Rippling       Mode = "rippling"
	GroundCracking Mode = "ground_cracking"
	GroundCleavage Mode = "ground_cleavage"
	FixingOverload Mode = "fixing_overload"
	SlotExhausted  Mode = "slot_exhausted"
	FrameBound     Mode = "frame_bound"
	Handling       Mode = "handling"
)

// Modes lists all modes in the order of reports.
var modes = [...]Mode{
	JoinTension, WoodSplit, CheckGrowth, CompressionSet, Rippling, GroundCracking,
	GroundCleavage, FixingOverload, SlotExhausted, FrameBound, Handling,
}

// Modes returns all modes in the order of reports.
func Modes() []Mode { return modes[:] }

// SetsRange says whether the mode takes part in the calculated range. Ground and paint do not
// (their data are too weak), nor does handling (it does not depend on humidity).
func (m Mode) SetsRange() bool {
	return m != GroundCracking && m != GroundCleavage && m != Handling
}

// Demand is what one mode asks of one part, against what the part can bear.
type Demand struct {
	Mode     Mode
	Part     string // path in the panel file: join.a, batten.upper
	Value    float64
	Capacity float64 // +Inf: no limit known or none applies
	Unit     string
	Grade    tables.Grade // evidence of the capacity
}

// Share returns demand over capacity; 0 where there is no limit.
func (d Demand) Share() float64 {
	if math.IsInf(d.Capacity, 1) {
		return 0
	}
	return d.Value / d.Capacity
}

// Unlimited says that no capacity applies.
func (d Demand) Unlimited() bool { return math.IsInf(d.Capacity, 1) }
