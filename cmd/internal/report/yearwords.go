package report

import (
	"math"
	"slices"
	"time"
)

// median returns the middle value, 0 of none.
func median(v []float64) float64 {
	if len(v) == 0 {
		return 0
	}
	s := slices.Sorted(slices.Values(v))
	return s[len(s)/2]
}

// noSet is the strain of crushing below which none is told: a fifth of a millimetre on a metre.
const noSet = 0.0002

// inWords explains the year: where it began, which swings reach the wood, when the warp peaks, what
// stays.
func (y *Year) inWords() []string {
	out := []string{y.began()}
	if y.Breaks > 0 {
		out = append(out, plural("year.breaks", y.Breaks))
	}
	out = append(out, y.reaches(), say("year.warp",
		"low", warped(y.Warp.MinMM), "lowrange", warpRange(y.Hollow[0], y.Hollow[1]), "highrange", warpRange(y.Round[0], y.Round[1]), "lowday", dated(y.Warp.MinAt), "high", warped(y.Warp.MaxMM), "highday", dated(y.Warp.MaxAt),
		"day", millimetres(y.Warp.DayMM)))
	if max(-y.Warp.MinMM-y.present, y.Warp.MaxMM+y.present) > y.thinnest && y.thinnest > 0 {
		out = append(out, say("year.far", "t", millimetres(y.thinnest)))
	}
	if e := y.OneStiff; e[1] >= 0.005 {
		out = append(out, say("year.stiffness", "move", whole(100*e[0]), "stress", whole(100*e[1])))
	}
	out = append(out, y.set())
	if s := y.stored(); s != "" && y.LetGo == nil {
		out = append(out, s)
	}
	if y.Open > 0 {
		out = append(out, say("year.open", "n", whole(float64(y.Open))))
	}
	if y.ColdDays > 0 {
		out = append(out, say("year.cold", "n", whole(float64(y.ColdDays)), "coldest", whole(*y.ColdestC)))
	}
	return append(out, say("year.band"))
}

func (y *Year) began() string {
	switch {
	case y.Lived:
		return plural("year.lived", y.RunInYears)
	default:
		return say("year.arrived")
	}
}

// reaches tells of the board that answers quickest.
func (y *Year) reaches() string {
	quick := slices.MinFunc(y.Boards, func(a, b YearBoard) int {
		return int(math.Copysign(1, a.HalfDays-b.HalfDays))
	})
	r := quick.Reaches
	return say("year.reaches", "part", the(quick.Part), "day", of100(r[0]), "week", of100(r[1]), "month", of100(r[2]), "year", of100(r[3]),
		"half", days(quick.HalfDays), "most", days(quick.MostDays))
}

// of100 gives a share as a whole number of 100.
func of100(share float64) string {
	switch n := math.Round(100 * share); {
	case n < 1:
		return say("of100.under")
	case n > 99:
		return say("of100.over")
	default:
		return say("of100.n", "n", whole(n))
	}
}

// days gives a time in hours below two days, else in whole days.
func days(d float64) string {
	if d < 2 {
		return say("length.hours", "n", whole(24*d))
	}
	return say("length.days", "n", whole(d))
}

// set says what crushing leaves, and in which month most of it came.
func (y *Year) set() string {
	if len(y.Months) == 0 {
		return ""
	}
	worst := slices.MinFunc(y.Months, func(a, b YearMonth) int { return int(math.Copysign(1, a.SetStrain-b.SetStrain)) })
	var least, most float64
	for _, b := range y.Boards {
		least, most = min(least, max(b.SetStrain[0], b.SetStrain[1])), min(most, min(b.SetStrain[0], b.SetStrain[1]))
	}
	low, high := perMetre(least), perMetre(most)
	switch {
	case most > -noSet:
		return say("year.set.none")
	case worst.SetStrain <= -noSet/10:
		month := worst.Month
		if t, err := time.Parse("2006-01", month); err == nil {
			month = t.Format("January 2006")
		}
		return say("year.set.month", "month", month, "low", low, "high", high)
	case len(y.RunInSet) == 12:
		m := time.Month(1 + slices.Index(y.RunInSet, slices.Min(y.RunInSet)))
		return say("year.set.before", "month", m.String(), "low", low, "high", high)
	}
	return say("year.set.none")
}

// perMetre gives a strain as millimetres on a metre of width.
func perMetre(strain float64) string { return millimetres(1000 * strain) }

// stored says what would come back if the restraint were taken off at the end.
func (y *Year) stored() string {
	var s YearStored
	for _, b := range y.Boards {
		s.AtOnce, s.Weeks = s.AtOnce+b.Stored.AtOnce, s.Weeks+b.Stored.Weeks
		s.Cycles, s.Never = s.Cycles+b.Stored.Cycles, s.Never+b.Stored.Never
	}
	if math.Abs(s.AtOnce)+math.Abs(s.Weeks)+math.Abs(s.Cycles)+math.Abs(s.Never) < 0.05 {
		return ""
	}
	out := say("year.stored", "once", moves(s.AtOnce), "weeks", moves(s.Weeks), "cycles", moves(s.Cycles))
	if math.Abs(s.Never) >= 0.05 { // what is crushed does not come back: that much is missing
		out += " " + say("year.stored.never", "never", moves(-s.Never))
	}
	return out
}

// moves says a change of width with its direction.
func moves(mm float64) string {
	switch {
	case math.Abs(mm) < 0.05:
		return say("year.move.none")
	case mm < 0:
		return say("year.move.narrower", "mm", millimetres(mm))
	}
	return say("year.move.wider", "mm", millimetres(mm))
}

// yearTable lists the months.
func (y *Year) table() Table {
	t := Table{Align: "lrllr", Head: []string{
		say("year.head.month"), say("year.head.rh"), say("year.head.warp"), say("year.head.width"), say("year.head.set"),
	}}
	for _, m := range y.Months {
		month := m.Month
		if d, err := time.Parse("2006-01", month); err == nil {
			month = d.Format("Jan 2006")
		}
		t.Rows = append(t.Rows, []string{
			month, between(m.RHMinPct, m.RHMaxPct), span(short(warped(m.WarpMinMM)), short(warped(m.WarpMaxMM))),
			short(moved(m.WidthMM, m.WidthMM)), perMetre(min(0, m.SetStrain)),
		})
	}
	return t
}
