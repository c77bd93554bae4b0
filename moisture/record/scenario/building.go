package scenario

import (
	"fmt"
	"slices"
	"strings"

	"crossgrain/tables"
	"crossgrain/tables/problem"
)

// Kind is a kind of building, in the words used for a climate on a panel's sheet.
type Kind string

// The kinds with a row in the table building_climates.
const (
	HeatedHouse    Kind = "heated house"   // not humidified: driest in February, dampest in August
	UnheatedSpace  Kind = "unheated attic" // dampest in November, driest in May
	ServicesChurch Kind = "church heated for services"
	Museum         Kind = "museum, controlled"
	PassiveStore   Kind = "store, passive"
	Outdoors       Kind = "outdoors"
)

// Kinds lists the kinds of building in the order of the table.
func Kinds() []Kind {
	var out []Kind
	for _, r := range tables.MustRead("building_climates").Rows {
		if k := Kind(r.Text("kind")); !slices.Contains(out, k) {
			out = append(out, k)
		}
	}
	return out
}

// Cycle is one quantity over the year and the day. For humidity the numbers are per cent and points,
// for temperature °C and K.
type Cycle struct {
	Mean       float64
	Amplitude  float64 // half of highest minus lowest of the yearly cycle
	HighestDay float64 // when that cycle is highest, days after 1 January 00:00, 0 to 365
	Daily      float64 // highest minus lowest of a day; of humidity also [FollowTemperature]
	PeakHour   float64 // when the day is highest, hours after midnight, 0 to 24
	Grade      tables.Grade
	Source     string // keys of the bibliography
	Status     string // computed, derived, assumption; changed when a caller has set the numbers
}

// FollowTemperature stands for a daily swing of humidity that follows the temperature of the day at
// constant vapour pressure, about the mean of the day.
const FollowTemperature = -1

// Building is what a made year is made of.
type Building struct {
	Kind    Kind
	RH, T   Cycle
	Heating *Heating // sudden rises of temperature; nil: none
}

// Lookup returns the numbers of a kind of building, to be used as they are or changed. Humidity
// follows the day's temperature where the table gives no daily swing for it. An unknown kind is an
// error that names the nearest.
func Lookup(k Kind) (Building, error) {
	b := Building{Kind: k}
	found := 0
	for _, r := range tables.MustRead("building_climates").Rows {
		if Kind(r.Text("kind")) != k {
			continue
		}
		c, err := cycle(r)
		if err != nil {
			return Building{}, err
		}
		if found++; r.Text("quantity") == "t_c" {
			b.T = c
		} else {
			b.RH = c
		}
	}
	if found != 2 {
		return Building{}, unknown(k)
	}
	if k == ServicesChurch {
		h := sundays()
		b.Heating = &h
	}
	return b, nil
}

func cycle(r tables.Row) (Cycle, error) {
	var c Cycle
	for name, v := range map[string]*float64{"mean": &c.Mean, "amplitude": &c.Amplitude,
		"highest_day": &c.HighestDay, "daily_range": &c.Daily, "peak_hour": &c.PeakHour} {
		x, ok := r.Float(name)
		if !ok && name == "daily_range" {
			x, ok = FollowTemperature, true
		}
		if !ok {
			return c, fmt.Errorf("building_climates:%d: %s must be a number, got %q", r.Line, name, r.Text(name))
		}
		*v = x
	}
	c.Source, c.Status = r.Text("source"), r.Text("status")
	var err error
	c.Grade, err = tables.ParseGrade(r.Text("evidence"))
	return c, err
}

func unknown(k Kind) error {
	names := make([]string, 0, 8)
	for _, x := range Kinds() {
		names = append(names, string(x))
	}
	hint := ""
	if n := problem.Nearest(string(k), names); n != "" {
		hint = fmt.Sprintf("; %q is meant?", n)
	}
	return fmt.Errorf("kind of building must be one of %s, got %q%s", strings.Join(names, ", "), k, hint)
}

func (b Building) validate() error {
	r, t := b.RH, b.T
	for _, x := range []struct {
		what         string
		v, low, high float64
		unit         string
	}{
		{"mean humidity", r.Mean, 1, 99, "%"}, {"yearly half-swing of humidity", r.Amplitude, 0, 50, "points"},
		{"daily swing of humidity", r.Daily, FollowTemperature, 60, "points"},
		{"dampest day", r.HighestDay, 0, 365, "days"}, {"dampest hour", r.PeakHour, 0, 24, "h"},
		{"mean temperature", t.Mean, -20, 40, "°C"}, {"yearly half-swing of temperature", t.Amplitude, 0, 25, "K"},
		{"daily swing of temperature", t.Daily, 0, 30, "K"},
		{"warmest day", t.HighestDay, 0, 365, "days"}, {"warmest hour", t.PeakHour, 0, 24, "h"},
	} {
		if err := tables.InRange(x.what, x.v, x.low, x.high, x.unit, ""); err != nil {
			return err
		}
	}
	if r.Daily < 0 && r.Daily != FollowTemperature {
		return fmt.Errorf("daily swing of humidity must lie between 0 and 60 points, or be %d to follow the temperature, got %g", FollowTemperature, r.Daily)
	}
	if b.Heating != nil {
		return b.Heating.validate()
	}
	return nil
}
