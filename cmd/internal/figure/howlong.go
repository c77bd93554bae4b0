package figure

import (
	"fmt"
	"math"
	"strings"

	"gonum.org/v1/plot/vg"
)

// HowLong asks how long a humidity may stand before something gives: for every length of time, the
// humidity at which to call for help and the one at which to act, on the dry and the damp side. NaN: not
// reached.
type HowLong struct {
	Meta
	Setting
	Hours     []float64
	Call, Act Departure
	Reading   string // whose reading the humidity is: "air at the panel", "room", "case"
	Cause     string // what gives first
}

// Departure is a limit over time on both sides, in % RH: as described, and by the quick and the slow
// end of the doubt. A slow end that is not reached leaves the doubt open.
type Departure struct{ Dry, DryQuick, DrySlow, Damp, DampQuick, DampSlow []float64 }

// Draw lays the figure out.
func (f HowLong) Draw() Figure {
	meta := f.or("how-long", "How long can it wait?")
	words := "Thick lines: as described. Pale: how far it could lie off for the line act. Thin line: call, at its earliest."
	if f.Cause != "" {
		words += " First: " + strings.Replace(clean(f.Cause), ": ", ", ", 1) + "."
	}
	c := chart{meta: meta, words: words, rules: f.levelRules(), empty: "Nothing reaches its limit within three months.", height: 240}
	c.x = timeAxis(f.Hours)
	lo, hi := rhRange(inRange(f.Act.Dry), inRange(f.Act.Damp), inRange(f.Call.DryQuick), inRange(f.Call.DampQuick), []float64{f.UsedToPct})
	c.y = axis{name: "Reading of the " + f.reading() + " / % RH", lo: lo, hi: hi, ticks: ticks(lo, hi, 10), write: rh}
	act, call := stroke{strong, vermilion, nil}, stroke{1.3, blue, []vg.Length{5, 2.5}}
	side(&c, f.Hours, "act", act, f.Act.Damp, f.Act.DampQuick, f.Act.DampSlow, hi)
	side(&c, f.Hours, "call", call, f.Call.Damp, f.Call.DampQuick, f.Call.DampSlow, hi)
	side(&c, f.Hours, "call", call, f.Call.Dry, f.Call.DryQuick, f.Call.DrySlow, lo)
	side(&c, f.Hours, "act", act, f.Act.Dry, f.Act.DryQuick, f.Act.DrySlow, lo)
	return c.figure(f.sentence(), f.desc())
}

func (f HowLong) reading() string {
	if f.Reading == "" {
		return "air at the panel"
	}
	return clean(f.Reading)
}

func (f HowLong) levelRules() []rule {
	if !given(f.UsedToPct) {
		return nil
	}
	return []rule{{at: f.UsedToPct, name: "used to " + rh(f.UsedToPct) + " %", sign: stroke{limit, quiet, nil}}}
}

// side adds one limit: its line, and its doubt; that of acting as a band, which runs to the end of the
// axis where the slow end is not reached, that of calling by its quick end alone.
func side(c *chart, hours []float64, name string, sign stroke, line, quick, slow []float64, end float64) {
	far := make([]float64, len(slow))
	for i, v := range slow {
		far[i] = v
		if !usable(v) {
			far[i] = end
		}
	}
	switch {
	case extremeIndex(quick, 1) < 0:
	case name == "act":
		c.bands = append(c.bands, band{hours, far, quick, stroke{hair, sign.color, sign.dash}})
	default:
		c.curves = append(c.curves, curve{x: hours, y: quick, sign: stroke{thin, sign.color, []vg.Length{2, 2}}})
	}
	if extremeIndex(line, 1) >= 0 {
		c.curves = append(c.curves, curve{name: name, x: hours, y: line, sign: sign})
	}
}

// timeAxis is an axis of hours by decades, its ticks in words.
func timeAxis(hours []float64) axis {
	lo, hi, ok := extent(hours)
	if !ok || !(lo > 0) || !(hi > lo) {
		lo, hi = 1, 2160
	}
	a := axis{name: "Time since it left the humidity it is used to", lo: lo, hi: hi, log: true, write: timeWords}
	for _, h := range [...]float64{1, 3, 8, 24, 72, 168, 336, 720, 2160} {
		if h >= lo*0.999 && h <= hi*1.001 {
			a.ticks = append(a.ticks, h)
		}
	}
	return a
}

// timeWords writes hours as people say them.
func timeWords(h float64) string {
	switch n := int(math.Round(h)); {
	case n < 24:
		return fmt.Sprintf("%d h", n)
	case n < 168:
		return count(int(math.Round(h/24)), "day")
	case n < 700:
		return count(int(math.Round(h/168)), "week")
	default:
		return count(int(math.Round(h/720)), "month")
	}
}

// sentence says what a day and a month allow on the dry side.
func (f HowLong) sentence() string {
	part := func(hours float64) string {
		v := valueAt(f.Hours, f.Act.Dry, hours)
		if !usable(v) {
			return ""
		}
		s := rh(v)
		if a, b := valueAt(f.Hours, f.Act.DryQuick, hours), valueAt(f.Hours, f.Act.DrySlow, hours); usable(a) && usable(b) {
			s += " (" + span(a, b, rh) + ")"
		}
		return "within " + timeWords(hours) + " below " + s + " % RH"
	}
	day, month := part(24), part(720)
	switch {
	case day != "" && month != "":
		return "On the dry side it is time to act " + day + ", and " + month + "."
	case month != "":
		return "On the dry side it is time to act " + month + "; within a day nothing reaches its limit."
	}
	return "On the dry side nothing reaches its limit within a month."
}

func (f HowLong) desc() string {
	return listedTimes("Call, dry side", f.Hours, f.Call.Dry) + listedTimes("Act, dry side", f.Hours, f.Act.Dry) +
		listedTimes("Call, damp side", f.Hours, f.Call.Damp) + listedTimes("Act, damp side", f.Hours, f.Act.Damp)
}

// listedTimes writes a limit over time for readers who do not see it.
func listedTimes(name string, hours, v []float64) string {
	out, any := name+":", false
	for i := range min(len(hours), len(v)) {
		if usable(v[i]) && i%2 == 0 {
			out, any = out+" "+rh(v[i])+" % RH after "+timeWords(hours[i])+",", true
		}
	}
	if !any {
		return name + ": not reached. "
	}
	return out[:len(out)-1] + ". "
}
