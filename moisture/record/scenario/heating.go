package scenario

import (
	"fmt"
	"math"

	"crossgrain/tables"
)

// Heating warms a building from time to time, as a church for its services: the air rises towards
// Target while it is on and falls back afterwards, each by an exponential. No water is added.
type Heating struct {
	Target  float64 // air temperature aimed at, 0 to 30 °C; nothing happens while it is warmer
	Weekday int     // 0 Sunday to 6 Saturday
	Hour    float64 // when it begins, 0 to 24 h
	Lasts   float64 // 0.5 to 24 h
	Rise    float64 // time constant while on, 0.1 to 24 h
	Fall    float64 // time constant after, 0.1 to 24 h
}

// sundays is heating for one service a week. Target: winter heating of churches to 12 °C (Padfield,
// conservationphysics.org/gsm/gsm3.html); the rest: assumption.
func sundays() Heating { return Heating{Target: 12, Weekday: 0, Hour: 7, Lasts: 5, Rise: 1, Fall: 3} }

func (h Heating) validate() error {
	for _, x := range []struct {
		what         string
		v, low, high float64
		unit         string
	}{
		{"temperature of heating", h.Target, 0, 30, "°C"}, {"weekday of heating", float64(h.Weekday), 0, 6, "(0 = Sunday)"},
		{"hour of heating", h.Hour, 0, 24, "h"}, {"length of heating", h.Lasts, 0.5, 24, "h"},
		{"time constant of heating", h.Rise, 0.1, 24, "h"}, {"time constant of cooling", h.Fall, 0.1, 24, "h"},
	} {
		if err := tables.InRange(x.what, x.v, x.low, x.high, x.unit, ""); err != nil {
			return err
		}
	}
	return nil
}

const week = 7 * 24.0 // h

// share is how much of the way to the target the air has gone, since hours after Sunday 00:00.
// What is left from the service before (under e-27 with the default) is left out.
func (h Heating) share(hours float64) float64 {
	since := math.Mod(hours-24*float64(h.Weekday)-h.Hour, week)
	if since < 0 {
		since += week
	}
	if since <= h.Lasts {
		return 1 - math.Exp(-since/h.Rise)
	}
	return (1 - math.Exp(-h.Lasts/h.Rise)) * math.Exp(-(since-h.Lasts)/h.Fall)
}

func (h Heating) String() string {
	return fmt.Sprintf("heated to %g °C for %g h once a week", h.Target, h.Lasts)
}
