package loan

import (
	"math"

	"crossgrain/moisture"
	"crossgrain/panel/assessment"
)

// Range is a range of humidity and what stands at its ends: mode:part, "cap", or with a panel's name
// before it.
type Range struct {
	Low, High     moisture.RH
	LowBy, HighBy string
}

// and returns what two ranges share; Low above High where they share nothing.
func (r Range) and(o Range) *Range {
	if o.Low > r.Low {
		r.Low, r.LowBy = o.Low, o.LowBy
	}
	if o.High < r.High {
		r.High, r.HighBy = o.High, o.HighBy
	}
	return &r
}

// leastWidth is the narrowest range that is proposed, in points: plant holds 4 or 5 either side
// (Thomson, The Museum Environment, p. 119, as reported); 3 either side is an assumption.
const leastWidth = 6

// Held rounds a range inward to what a room can be asked to hold: to five points, or to whole ones where
// that would leave less than ten. ok is false where less than 6 points are left.
func (r Range) Held() (low, high float64, ok bool) {
	const slack = 1e-6 // points
	in := func(step float64) {
		low = math.Ceil(r.Low.Percent()/step-slack) * step
		high = math.Floor(r.High.Percent()/step+slack) * step
	}
	if in(5); high-low < 10 {
		in(1)
	}
	return low, high, high-low >= leastWidth
}

// changes are the changes within a day that are proposed, points.
var changes = [...]float64{10, 8, 6, 5, 4, 3, 2}

// noChart is the change within a day where no waiting time is given, points: the stricter of the two
// that agreements name (common practice).
const noChart = 5

// changeFor returns the largest change of humidity within 24 hours, in points: from the humidity it is
// used to, held for a day, no part comes to half of its limit by the quick end of the doubt; never more
// than 10 nor than the range is wide. byChart is false where there is no chart; tight says that even the
// least is more than that.
func changeFor(w *assessment.Wait, width float64) (points float64, byChart, tight bool) {
	room := width
	if w != nil && w.Withheld == "" {
		byChart = true
		for i, h := range w.Hours {
			if h != 24 {
				continue
			}
			if d := 100 * float64(w.FromDry-w.Call.DryQuick[i]); !math.IsNaN(d) {
				room = min(room, d)
			}
			if d := 100 * float64(w.Call.DampQuick[i]-w.FromDamp); !math.IsNaN(d) {
				room = min(room, d)
			}
		}
	} else {
		room = min(room, noChart)
	}
	for _, c := range changes {
		if c <= room+1e-6 {
			return c, byChart, false
		}
	}
	return changes[len(changes)-1], byChart, true
}

// Temperatures between which loans are agreed (AICCM, interim text of 2014: 15 to 25 °C), and how far
// from what the panel is used to (assumption).
const (
	coolest, warmest = 15.0, 25.0
	apart            = 3.0
)

// temperatureFor returns the temperatures to be kept, whole °C.
func temperatureFor(used moisture.Celsius) (low, high float64) {
	low, high = math.Round(float64(used)-apart), math.Round(float64(used)+apart)
	if low < coolest {
		low = coolest
		high = max(high, low+2*apart)
	}
	if high > warmest {
		high = warmest
		low = min(low, high-2*apart)
	}
	return low, high
}

// Alarm is one reading and the hours until to call and to act; +Inf where that is not reached.
type Alarm struct {
	RH        moisture.RH
	Call, Act float64
}

// alarmsOf reads the waiting chart by the quick end of its doubt.
func alarmsOf(w *assessment.Wait) (out []Alarm) {
	if w == nil || w.Withheld != "" {
		return nil
	}
	for _, l := range w.Levels {
		out = append(out, Alarm{l.RH, l.Call.Quick, l.Act.Quick})
	}
	return out
}

// lateCall is after how many hours outside what was agreed somebody is called at the latest (assumption).
const lateCall = 24

// heeded brings the calls forward that a chart alone would leave late: within a day outside what is
// proposed, and at once beyond the humidities for which ranges are told.
func heeded(alarms []Alarm, p *Proposal) []Alarm {
	for i := range alarms {
		a := &alarms[i]
		switch rh := a.RH.Percent(); {
		case a.RH < countedLow-1e-9 || a.RH > countedHigh+1e-9:
			a.Call = 0
		case p != nil && (rh < p.Low-1e-9 || rh > p.High+1e-9):
			a.Call = min(a.Call, lateCall)
		}
	}
	return alarms
}
