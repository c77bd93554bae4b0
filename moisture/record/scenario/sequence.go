package scenario

import (
	"errors"
	"fmt"
	"time"

	"crossgrain/moisture"
	"crossgrain/moisture/record"
	"crossgrain/tables"
)

// Leg is a stretch of a sequence: a climate reached, at once or at a rate, and held to its end.
type Leg struct {
	Name    string // home, transit, on show, return, ...
	Lasts   time.Duration
	Climate Climate
	// RatePerDay is how fast the humidity goes there from the leg before, in points per 24 h, 0.1 to
	// 1000; 0 means at once. The temperature goes there evenly in the same time.
	RatePerDay float64
}

// Sequence is a row of legs. The first begins in its own climate; its rate is not used.
type Sequence struct {
	Clock
	Name string
	Legs []Leg
}

// longest is the longest leg, ten years.
const longest = 10 * 366 * 24 * time.Hour

// Record returns the legs one after the other. A jump stands between the last reading before it and
// the first one at or after it. A rate that does not bring a leg to its climate before its end is an
// error, as is any number out of its range.
func (s Sequence) Record() (*record.Record, error) {
	clock, err := s.orDefault()
	if err != nil {
		return nil, err
	}
	if len(s.Legs) == 0 {
		return nil, errors.New("a sequence needs at least one leg, got none")
	}
	length := time.Duration(0)
	for i := range s.Legs {
		if err := s.validate(i); err != nil {
			return nil, fmt.Errorf("leg %d (%s): %w", i+1, s.Legs[i].Name, err)
		}
		length += s.Legs[i].Lasts
	}
	r, err := clock.made(s.name(), length, s.at)
	if err != nil {
		return nil, err
	}
	for _, l := range s.Legs {
		note(r, l.Name, "made climate: %s%s for %s", l.Climate, l.pace(), spell(l.Lasts))
	}
	return r, nil
}

func (s Sequence) name() string {
	if s.Name == "" {
		return "made climate"
	}
	return s.Name
}

func (s Sequence) validate(i int) error {
	l := s.Legs[i]
	if err := l.Climate.validate("of the leg"); err != nil {
		return err
	}
	if err := tables.InRange("length", l.Lasts.Hours(), 1./60, longest.Hours(), "h", ""); err != nil {
		return err
	}
	if l.RatePerDay == 0 || i == 0 {
		return nil
	}
	if err := tables.InRange("rate", l.RatePerDay, 0.1, 1000, "points per 24 h", ""); err != nil {
		return err
	}
	if need := s.approach(i); need > l.Lasts.Hours()+1e-6 {
		return fmt.Errorf("lasts %s, but needs %.3g h at %g points per 24 h to get there", spell(l.Lasts), need, l.RatePerDay)
	}
	return nil
}

// approach is the time leg i takes to reach its climate, h.
func (s Sequence) approach(i int) float64 {
	if i == 0 || s.Legs[i].RatePerDay == 0 {
		return 0
	}
	d := s.Legs[i].Climate.RH.Percent() - s.Legs[i-1].Climate.RH.Percent()
	return max(d, -d) / s.Legs[i].RatePerDay * 24
}

// at is the climate after so many hours.
func (s Sequence) at(hours float64) Climate {
	i := 0
	for i < len(s.Legs)-1 && hours >= s.Legs[i].Lasts.Hours() {
		hours -= s.Legs[i].Lasts.Hours()
		i++
	}
	to, need := s.Legs[i].Climate, s.approach(i)
	if hours >= need {
		return to
	}
	from := s.Legs[i-1].Climate
	return from.between(to, hours/need)
}

// between is the climate at the fraction x of the way to another one.
func (c Climate) between(to Climate, x float64) Climate {
	return Climate{c.RH + (to.RH-c.RH)*moisture.RH(x), c.T + (to.T-c.T)*moisture.Celsius(x)}
}

func (l Leg) pace() string {
	if l.RatePerDay == 0 {
		return ""
	}
	return fmt.Sprintf(" reached at %g points per 24 h", l.RatePerDay)
}

// spell prints a duration in days or hours.
func spell(d time.Duration) string {
	if d >= 48*time.Hour {
		return fmt.Sprintf("%.4g days", d.Hours()/24)
	}
	return fmt.Sprintf("%.4g h", d.Hours())
}

// StepAndHold returns a climate that jumps once: from before, for the time at, then to, for the time
// hold. Errors as [Sequence.Record].
func StepAndHold(c Clock, from, to Climate, at, hold time.Duration) (*record.Record, error) {
	return Sequence{Clock: c, Name: "step and hold", Legs: []Leg{
		{Name: "before", Lasts: at, Climate: from}, {Name: "after the step", Lasts: hold, Climate: to},
	}}.Record()
}

// StepAndReturn returns a climate that goes away for some time and comes back, as in a fault of the
// plant: from for the time before, away for the time gone, from again for the time after. Errors as
// [Sequence.Record].
func StepAndReturn(c Clock, from, away Climate, before, gone, after time.Duration) (*record.Record, error) {
	return Sequence{Clock: c, Name: "step and return", Legs: []Leg{
		{Name: "before", Lasts: before, Climate: from}, {Name: "away", Lasts: gone, Climate: away},
		{Name: "back", Lasts: after, Climate: from},
	}}.Record()
}

// Ramp returns a climate that goes from one to another at a rate in points per 24 h (0.1 to 1000),
// beginning after the time at and holding for the time hold when it is there. Errors as
// [Sequence.Record].
func Ramp(c Clock, from, to Climate, ratePerDay float64, at, hold time.Duration) (*record.Record, error) {
	if err := tables.InRange("rate", ratePerDay, 0.1, 1000, "points per 24 h", ""); err != nil {
		return nil, err
	}
	s := Sequence{Clock: c, Name: "ramp", Legs: []Leg{
		{Name: "before", Lasts: at, Climate: from}, {Name: "ramp", Climate: to, RatePerDay: ratePerDay},
	}}
	s.Legs[1].Lasts = hold + time.Duration(s.approach(1)*float64(time.Hour))
	return s.Record()
}

// points prints a difference of humidity.
func points(p float64) string { return fmt.Sprintf("%.3g points", p) }
