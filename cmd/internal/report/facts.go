package report

import (
	"math"
	"strings"
	"time"

	"crossgrain/moisture/record"
	"crossgrain/panel/assessment"
	"crossgrain/panel/response"
	"crossgrain/tables"
)

// period says a time in the unit a reader would use, to one or two digits.
func period(d time.Duration) string {
	switch h := d.Hours(); {
	case h < 36:
		return say("period.hours", "n", twoDigits(h))
	case h < 24*21:
		return say("period.days", "n", twoDigits(h/24))
	case h < 24*100:
		return say("period.weeks", "n", twoDigits(h/24/7))
	case h < 24*365*3:
		return say("period.months", "n", twoDigits(h/24/30.44))
	}
	return say("period.years", "n", twoDigits(d.Hours()/24/365.25))
}

// Magnification is how many times the warp of the section is enlarged in its drawing: a round number
// that makes the largest warp a twelfth of the width.
func Magnification(r *assessment.Result) float64 {
	var largest float64
	for _, s := range r.States {
		for _, z := range s.Profile {
			largest = math.Max(largest, math.Abs(z))
		}
	}
	if largest == 0 {
		return 1
	}
	want := r.Object.Across / 12 / largest
	for _, m := range [...]float64{50, 20, 10, 5, 2} {
		if want >= m {
			return m
		}
	}
	return 1
}

// handling is the panel carried level on its two edges along the grain, its battens not counted.
func handling(r *assessment.Result) []Fact {
	w := r.Carried
	words := say("handling.bears")
	if w.Stress > w.Strength {
		words = say("handling.beyond")
	}
	estimate := tables.Estimate.String()
	return []Fact{
		{say("handling.weight"), w.WeightKg, "kg", estimate, say("handling.weight.words")},
		{say("handling.sag"), w.Sag, "mm", estimate, say("handling.sag.words")},
		{say("handling.stress"), w.Stress, "MPa", estimate, words},
	}
}

// frame is the room the panel needs in its frame over the range.
func frame(r *assessment.Result) []Fact {
	if r.Object.Frame == nil || len(r.States) == 0 {
		return nil
	}
	var wide, warp, thick float64
	for _, s := range r.States {
		wide = math.Max(wide, s.Width)
		now := r.Object.Warp
		warp = math.Max(warp, math.Max(math.Abs(now+s.CupLow), math.Abs(now+s.CupHigh)))
	}
	for _, b := range r.Object.Boards {
		thick = math.Max(thick, b.Thickness)
	}
	estimate := tables.Estimate.String()
	out := []Fact{
		{say("frame.width"), r.Object.Across + wide, "mm", estimate, say("frame.width.words")},
		{say("frame.depth"), thick + warp, "mm", estimate, say("frame.depth.words")},
	}
	if held, deep := asItStands(r); deep > 0 {
		out = append(out, Fact{say("frame.stands"), thick + deep + held, "mm", estimate, say("frame.stands.words", "deep", millimetres(deep))})
	}
	return out
}

// asItStands returns the largest warp of the panel on what lies behind it, and how deep the deepest of that is, mm; 0 where
// nothing does or the elements do not tell.
func asItStands(r *assessment.Result) (warp, deep float64) {
	for _, b := range r.Object.Battens {
		if !b.Empty && b.Side == "back" {
			deep = math.Max(deep, b.Depth)
		}
	}
	if k := r.Object.Cradle; k != nil {
		deep = math.Max(deep, math.Max(k.FixedDepth, k.SliderDepth))
	}
	for _, s := range r.States {
		if s.Shape == nil {
			return 0, 0
		}
		warp = math.Max(warp, math.Abs(r.Object.Warp+s.Shape.Warp))
	}
	return warp, deep
}

// warnings are remarks on where the calculation is stretched.
func warnings(r *assessment.Result, a *Assess) []Remark {
	var out []Remark
	add := func(code, part, text string) { out = append(out, Remark{code, part, text}) }
	warp, thin := 0.0, math.Inf(1)
	for _, s := range r.States {
		warp = math.Max(warp, math.Abs(r.Object.Warp+s.Cup))
	}
	for _, b := range r.Object.Boards {
		thin = math.Min(thin, b.Thickness)
		if b.PithKnown && b.PithAcross > 0 && b.PithAcross < b.Width && b.PithBehind < 0 && -b.PithBehind < b.Thickness {
			add("pith_inside", "board."+b.Name, say("warn.pith_inside", "part", the("board."+b.Name)))
		}
		if b.Sorption.Borrowed != "" {
			add("curve_borrowed", "board."+b.Name, say("warn.curve_borrowed", "part", the("board."+b.Name), "name", b.Sorption.Borrowed))
		}
	}
	for _, l := range a.Lines {
		if l.LengthMM >= 0.995*r.Object.Along && l.Kind != "check" {
			add("in_pieces", l.Part, say("warn.in_pieces", "part", the(l.Part)))
		}
	}
	if warp > thin {
		add("large_warp", "panel", say("warn.large_warp", "mm", whole(warp), "t", whole(thin)))
	}
	if r.Low < 0.05 || r.High > 0.95 {
		add("outside_table", "panel", say("warn.outside_table"))
	}
	if a.againstHistory() {
		n := a.CalculatedRange.Nominal
		add("against_history", "panel", say("warn.against_history", "range", between(n.LowRHPct, n.HighRHPct),
			"lived", between(a.Lived.LowRHPct, a.Lived.HighRHPct)))
	}
	return out
}

// recordOf says what was used of a record.
func recordOf(r *assessment.Result, rec *record.Record) *Record {
	if rec == nil {
		return nil
	}
	st := rec.Stats()
	out := &Record{
		File: rec.Name, Rows: st.Readings, First: civil(rec, 0), Last: civil(rec, len(rec.Times)-1),
		MeanPct: 100 * st.MeanRH, Words: say("record.words"),
	}
	for i, b := range r.Windows {
		row := RecordBoard{Part: "board." + b.Name, WindowDays: b.Window.Hours() / 24}
		for _, s := range r.States {
			switch s.Label {
			case "driest":
				row.LowPct = s.BoardRH[i].Percent()
			case "middle":
				row.MidPct = s.BoardRH[i].Percent()
			case "dampest":
				row.HighPct = s.BoardRH[i].Percent()
			}
		}
		out.Boards = append(out.Boards, row)
	}
	return out
}

// civil writes the time of a reading as clocks at the place show it.
func civil(rec *record.Record, i int) string {
	if i < 0 || i >= len(rec.Times) {
		return "–"
	}
	return rec.Civil(i).Format("2 Jan 2006 15:04")
}

// bibliography lists the published sources of what was used, in the order of the bibliography.
func bibliography(r *assessment.Result) []Source {
	used := map[string]bool{}
	for _, k := range response.Sources() {
		used[k] = true
	}
	for _, b := range r.Object.Boards {
		for key := range strings.SplitSeq(b.Sorption.Source, ";") {
			used[strings.TrimSpace(key)] = true
		}
	}
	var out []Source
	for _, row := range tables.MustRead("sources").Rows {
		if key := row.Text("key"); used[key] {
			out = append(out, Source{key, say("source.entry", "author", row.Text("author"), "year", row.Text("year"), "title", row.Text("title"))})
		}
	}
	return out
}
