package response

import (
	"math"

	"crossgrain/panel"
	"crossgrain/tables"
)

// Strain limits of grounds: 0.0025 for a brittle traditional gesso (Richard, Mecklenburg & Tumosa
// 1998, p. 528 of The Structural Conservation of Panel Paintings).
const groundLimit = 0.0025

// cover adds the demands on ground and paint. They are told apart and never set a range.
func (c *Case) cover(s *State) {
	for i, f := range [...]panel.Face{c.o.Back, c.o.Front} {
		e := s.GroundStrain[i]
		if math.IsNaN(e) || f.Ground == "none" || f.GroundMM == 0 {
			continue
		}
		part := [...]string{"face.back", "face.front"}[i]
		limit := groundLimit
		if f.GroundState != "continuous" {
			limit = math.Inf(1) // cracked islands follow the wood; no limit was found for them
		}
		s.Demands = append(s.Demands,
			Demand{GroundCracking, part, positive(e), limit, "strain", tables.One},
			Demand{GroundCleavage, part, positive(-e), math.Inf(1), "strain", tables.Estimate})
	}
}
