package scenario

import (
	"math"
	"time"

	"crossgrain/moisture"
	"crossgrain/moisture/record"
	"crossgrain/tables"
)

const daysInYear = 365.0

// Yearly returns made years of a kind of building with the numbers of the table; see
// [Building.Years] for other numbers.
func Yearly(k Kind, c Clock, years int) (*record.Record, error) {
	b, err := Lookup(k)
	if err != nil {
		return nil, err
	}
	return b.Years(c, years)
}

// Years returns the given number of years (1 to 10, of 365 days) of the building:
//
//	T(t)  = mean + A cos(2 pi (day - warmest)/365) + (range/2) cos(2 pi (hour - warmest hour)/24)
//	RH(t) = the same of its own where a daily swing is given; otherwise the yearly cycle
//	        times psat of the day's mean over psat(T), scaled so that the mean of the day stays
//
// Heating raises T at the vapour pressure of the moment. A daily swing that would carry humidity out
// of 0 to 100 % is narrowed about the mean of the day; a yearly cycle that would is held at the end.
// The notes say how many readings were touched.
func (b Building) Years(c Clock, years int) (*record.Record, error) {
	clock, err := c.orDefault()
	if err != nil {
		return nil, err
	}
	if err := tables.InRange("number of years", float64(years), 1, 10, "", ""); err != nil {
		return nil, err
	}
	if err := b.validate(); err != nil {
		return nil, err
	}
	y := year{Building: b, start: clock.Start}
	r, err := clock.made("made year, "+string(b.Kind), time.Duration(years)*daysInYear*24*time.Hour, y.at)
	if err != nil {
		return nil, err
	}
	b.notes(r)
	if y.held > 0 {
		note(r, "RH", "the yearly cycle would leave 0 to 100 %% at %d of %d readings and is held at the end", y.held, len(r.RH))
	}
	if y.touched > 0 {
		note(r, "RH", "the daily swing is narrowed at %d of %d readings so as to stay within 0 to 100 %%", y.touched, len(r.RH))
	}
	return r, nil
}

// year makes the readings and counts those it had to hold.
type year struct {
	Building
	start         time.Time
	held, touched int
}

func (y *year) at(hours float64) Climate {
	t0 := y.start
	night := time.Duration(t0.Hour())*time.Hour + time.Duration(t0.Minute())*time.Minute
	day := float64(t0.YearDay()-1) + (night.Hours()+hours)/24
	hour := 24 * (day - math.Floor(day))

	mean := y.T.yearly(day)
	t := mean + y.T.daily(hour)
	h := y.hold(y.RH.yearly(day) / 100)
	h += y.daily(h, mean, hour)
	if y.Heating != nil && t < y.Heating.Target {
		sunday := float64(t0.Weekday())*24 + night.Hours() + hours
		warm := t + y.Heating.share(sunday)*(y.Heating.Target-t)
		h *= saturation(t) / saturation(warm)
		t = warm
	}
	return Climate{moisture.RH(min(max(h, 0), 1)), moisture.Celsius(t)}
}

// daily is the departure of humidity from its mean h of the day, whose temperature has the mean t,
// narrowed where its extremes would leave 0 to 1.
func (y *year) daily(h, t, hour float64) float64 {
	up, down, now := y.RH.Daily/200, y.RH.Daily/200, y.RH.daily(hour)/100
	if y.RH.Daily == FollowTemperature {
		up, down, now = h*y.follow(t, -y.T.Daily/2), -h*y.follow(t, y.T.Daily/2), h*y.follow(t, y.T.daily(hour))
	}
	share := 1.0
	if h+up > 1 {
		share = (1 - h) / up
	}
	if h-down < 0 {
		share = min(share, h/down)
	}
	if share < 1 {
		y.touched++
	}
	return share * now
}

// follow is psat(t)/psat(t+d) over its mean of the day, less 1; the mean is that of eight hours evenly
// apart, which for so smooth a curve is the mean.
func (y *year) follow(t, d float64) float64 {
	sum := 0.0
	for k := range 8 {
		sum += 1 / saturation(t+y.T.Daily/2*math.Cos(math.Pi*float64(k)/4))
	}
	return 8/(saturation(t+d)*sum) - 1
}

func (y *year) hold(h float64) float64 {
	if h < 0 || h > 1 {
		y.held++
	}
	return min(max(h, 0), 1)
}

func (c Cycle) yearly(day float64) float64 {
	return c.Mean + c.Amplitude*math.Cos(2*math.Pi*(day-c.HighestDay)/daysInYear)
}

func (c Cycle) daily(hour float64) float64 {
	return c.Daily / 2 * math.Cos(2*math.Pi*(hour-c.PeakHour)/24)
}

func (b Building) notes(r *record.Record) {
	note(r, "", "made climate of a building, kind %q; no reading was taken", b.Kind)
	daily := "following the temperature of the day at constant vapour pressure"
	if b.RH.Daily != FollowTemperature {
		daily = "daily swing " + points(b.RH.Daily)
	}
	note(r, "RH", "mean %.4g %%, yearly half-swing %s, dampest on day %.0f, %s; %s (%s)",
		b.RH.Mean, points(b.RH.Amplitude), b.RH.HighestDay, daily, b.RH.Status, b.RH.Source)
	note(r, "T", "mean %.4g °C, yearly half-swing %.3g K, warmest on day %.0f, daily swing %.3g K; %s (%s)",
		b.T.Mean, b.T.Amplitude, b.T.HighestDay, b.T.Daily, b.T.Status, b.T.Source)
	if b.Heating != nil {
		note(r, "T", "%s, assumption", b.Heating)
	}
}
