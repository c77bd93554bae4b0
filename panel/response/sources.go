package response

import (
	"crossgrain/panel/internal/creep"
	"crossgrain/panel/internal/plan"
	"crossgrain/panel/restraint"
	"crossgrain/tables/verify"
)

// Sources returns the keys of the bibliography that the closed forms and limits of this package
// rest on, apart from the woods' own.
func Sources() []string {
	return []string{
		"FPL-GTR190",     // moisture, movement, stiffness ratios
		"HOADLEY1998",    // elastic limit pressed, set
		"RICHARD1998",    // strain limits of wood and ground
		"MAAS2026",       // relaxation across the grain
		"KUNECKY2025",    // onset strain and process zone of cracks
		"BARTOLUCCI2020", // toughness
	}
}

// Checks returns the checks of the relaxation that this package applies and of the panel's mesh seen from the
// front, for the command verify.
func Checks() ([]verify.Row, error) {
	rows, err := creep.Checks()
	if err != nil {
		return nil, err
	}
	mesh, err := plan.Checks()
	return append(rows, mesh...), err
}

// Findings returns what measured wood contradicts in the same, or what members on a measured panel leave open.
func Findings() ([]verify.Finding, error) {
	rows, err := creep.Misses()
	if err != nil {
		return nil, err
	}
	return verify.Misses(append(rows, restraint.Misses()...))
}
