package scenario

import (
	"fmt"
	"time"

	"crossgrain/moisture"
	"crossgrain/moisture/record"
	"crossgrain/tables"
	"crossgrain/tables/problem"
)

// Climate is a state of air.
type Climate struct {
	RH moisture.RH      // fraction, 0 to 1
	T  moisture.Celsius // -40 to 60 °C
}

func (c Climate) String() string { return fmt.Sprintf("%v, %v", c.RH, c.T) }

// The temperatures for which climates are made, °C.
const (
	coldest = -40.0
	hottest = 60.0
)

func (c Climate) validate(what string) error {
	if err := tables.InRange("relative humidity "+what, c.RH.Percent(), 0, 100, "%", ""); err != nil {
		return err
	}
	return tables.InRange("temperature "+what, float64(c.T), coldest, hottest, "°C", "")
}

// vapour is the vapour pressure in Pa; the temperature must have been looked at before.
func (c Climate) vapour() float64 { return float64(c.RH) * saturation(float64(c.T)) }

// saturation is the saturation pressure in Pa at t in °C, inside the range of the formula.
func saturation(t float64) float64 {
	p, _ := moisture.Sonntag1994.Pressure(moisture.Celsius(t))
	return p
}

// Clock says when a made record begins and how far apart its readings stand. The zero value begins
// on 1 January 2001, 00:00 UTC (a year without a leap day, chosen for no other reason), hourly.
type Clock struct {
	Start time.Time
	Step  time.Duration // 1 min to 1 day; 0 stands for 1 h
}

func (c Clock) orDefault() (Clock, error) {
	if c.Start.IsZero() {
		c.Start = time.Date(2001, 1, 1, 0, 0, 0, 0, time.UTC)
	}
	if c.Step == 0 {
		c.Step = time.Hour
	}
	return c, tables.InRange("step", c.Step.Minutes(), 1, 24*60, "min", "")
}

// mostReadings bounds a made record: ten years at one minute.
const mostReadings = 5_270_400

// made fills a record from 0 to length; at gives the climate after that many hours.
func (c Clock) made(name string, length time.Duration, at func(hours float64) Climate) (*record.Record, error) {
	n := int(length/c.Step) + 1
	if err := tables.InRange("number of readings", float64(n), 2, mostReadings, "", "length over step"); err != nil {
		return nil, err
	}
	r := blank(name, n)
	for i := range n {
		d := time.Duration(i) * c.Step
		x := at(d.Hours())
		r.Times = append(r.Times, c.Start.Add(d))
		r.RH = append(r.RH, float64(x.RH))
		r.T = append(r.T, float64(x.T))
	}
	return r, nil
}

func blank(name string, n int) *record.Record {
	return &record.Record{Name: name, Times: make([]time.Time, 0, n), RH: make([]float64, 0, n), T: make([]float64, 0, n)}
}

// note adds a remark to a made record.
func note(r *record.Record, part, format string, a ...any) {
	r.Notes.Add(problem.Problem{File: r.Name, Part: part, Msg: fmt.Sprintf(format, a...)})
}
