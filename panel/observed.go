package panel

import "crossgrain/moisture"

// Observation is what was measured on the panel on one day. Lengths mm.
type Observation struct {
	Name string
	When string // date or year as written; "" not recorded
	RH   moisture.RH
	Days float64 // that it had been at about that humidity; 0: not recorded
	// Cup is the warp over the chord Over, painted face rounded positive; Gap is that at the part At; Width is that of the panel across
	// the grain. Each holds only where it was measured.
	Cup, Over, Gap, Width          float64
	At                             string
	HasCup, HasGap, HasWidth       bool
	CupError, GapError, WidthError float64 // of the instrument, one standard deviation
}

// Precision of the instruments where the file does not give it, one standard deviation, mm: straightedge and ruler, feeler
// gauge, steel rule or tape (common practice).
const (
	straightedge = 0.5
	feeler       = 0.1
	tape         = 1.0
)

// Observed lists what was measured, in the order of the file; one whose humidity could not be told says nothing about movement
// and is left out. Of a panel after an option nothing was measured.
func (p *Panel) Observed() []Observation {
	if p.changedWhy != "" {
		return nil
	}
	return p.observed()
}

func (p *Panel) observed() []Observation {
	var out []Observation
	for _, pt := range p.parts {
		if pt.table != "observed" {
			continue
		}
		number := func(key string) (float64, bool) {
			q, ok := p.Number(pt.at(key))
			return q.Nominal, ok
		}
		rh, ok := number("rh_pct")
		if !ok {
			continue
		}
		o := Observation{Name: pt.name, When: p.word(pt.at("date")), RH: moisture.Percent(rh), At: p.word(pt.at("at"))}
		o.Days, _ = number("days_at_this_rh")
		o.Cup, o.HasCup = number("cup_mm")
		o.Gap, o.HasGap = number("gap_mm")
		o.Width, o.HasWidth = number("width_mm")
		if o.Over, ok = number("over_mm"); !ok {
			o.Over = p.Across().Nominal
		}
		o.CupError, o.GapError, o.WidthError = straightedge, feeler, tape
		if e, ok := number("instrument_mm"); ok && e > 0 {
			o.CupError, o.GapError, o.WidthError = e, e, e
		}
		out = append(out, o)
	}
	return out
}
