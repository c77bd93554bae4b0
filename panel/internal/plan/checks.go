package plan

import (
	"crossgrain/tables"
	"crossgrain/tables/verify"
)

// Checks returns the independently computed values that the mesh is held to: a sheet on six fixings beside
// another finite-element program, and plates beside their series.
func Checks() ([]verify.Row, error) {
	got := map[string]func() (float64, error){}
	addSheetChecks(got)
	addPlateChecks(got)
	return verify.FromTable(tables.MustRead("checks_mechanics"), got)
}
