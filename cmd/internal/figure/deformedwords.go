package figure

import (
	"fmt"
	"math"
	"strings"
)

// seenFrom says which side of an end grain is which.
func seenFrom(grainLevel bool) string {
	if grainLevel {
		return "the lower edge at the left"
	}
	return "left is left, seen from the lower end"
}

// words stand over the strips.
func (s strips) words() string {
	out := "End grain, painted face up (dark line), " + seenFrom(s.GrainLevel) + ". Wood to scale; movement "
	if s.times > 1 {
		out += fmt.Sprintf("drawn %s times too large", fixed(s.times, 0))
	} else {
		out += "to scale too"
	}
	return out + ". Dashed: as it is used to. Rings show direction only."
}

func stateName(label string, rhPct float64) string {
	label = clean(label)
	if !given(rhPct) {
		return label
	}
	if label != "" {
		label += ", "
	}
	return label + rh(rhPct) + " % RH"
}

func (s DeformedState) name() string { return stateName(s.Label, s.RHPct) }

// words say warp and width of a state.
func (r stateStrip) words() string {
	switch {
	case r.UsedTo && clean(r.Label) == "":
		return "as it is used to"
	case r.UsedTo:
		return ""
	case !r.known || !usable(r.WarpMM):
		return "movement not known"
	}
	out := "flat at the middle"
	switch {
	case r.WarpMM >= 0.05:
		out = "painted face rounded, " + mm(r.WarpMM) + " mm at the middle"
	case r.WarpMM <= -0.05:
		out = "painted face hollow, " + mm(-r.WarpMM) + " mm at the middle"
	}
	if r.WarpLowMM != r.WarpHighMM && usable(r.WarpLowMM) && usable(r.WarpHighMM) {
		out += " (" + bendRange(min(r.WarpLowMM, r.WarpHighMM), max(r.WarpLowMM, r.WarpHighMM)) + ")"
	}
	if usable(r.LargestMM) && math.Abs(r.LargestMM) > 1.2*math.Abs(r.WarpMM)+0.1 {
		out += ", up to " + strings.Replace(bendWords(r.LargestMM), " ", " mm ", 1) + " elsewhere"
	}
	switch {
	case r.WiderMM >= 0.05 && usable(r.WiderMM):
		out += ", " + mm(r.WiderMM) + " mm wider"
	case r.WiderMM <= -0.05 && usable(r.WiderMM):
		out += ", " + mm(-r.WiderMM) + " mm narrower"
	}
	return out
}

// bendRange names the sense once where both ends have the same.
func bendRange(low, high float64) string {
	if low*high > 0 && min(math.Abs(low), math.Abs(high)) >= 0.05 {
		return "could be " + mm(min(math.Abs(low), math.Abs(high))) + " to " + mm(max(math.Abs(low), math.Abs(high)))
	}
	return "could be " + bendWords(low) + " to " + bendWords(high)
}

func (s strips) sentence() string {
	if s.width == 0 {
		return "No board to draw."
	}
	var out []string
	for _, r := range s.rows {
		if !r.UsedTo {
			out = append(out, strings.TrimPrefix(r.name()+": "+r.words(), ": "))
		}
	}
	if len(out) == 0 {
		return "The end grain as it is used to; no other state was calculated."
	}
	return strings.Join(out, "; ") + "."
}

func (s strips) desc() string {
	return fmt.Sprintf("%s from left to right, %s, one below the other.", count(len(s.Boards), "board"), count(len(s.rows), "state"))
}
