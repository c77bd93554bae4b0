package report

import (
	"strconv"
	"strings"
)

// readTable says how each file was read.
func (r RoomRecord) readTable() Table {
	t := Table{Align: "lrll", Head: []string{
		say("recread.head.file"), say("recread.head.rows"), say("recread.head.time"), say("recread.head.as"),
	}}
	for _, f := range r.Files {
		t.Rows = append(t.Rows, []string{
			fileWords(f.Name), whole(float64(f.Rows)), say("range.cell", "low", timeWords(f.First), "high", timeWords(f.Last)), readAs(f),
		})
	}
	return t
}

// readAs says the layout of a file in a few words.
func readAs(f RecordFile) string {
	parts := nonEmpty(f.Encoding, f.Delimiter)
	if f.Decimal != "" {
		parts = append(parts, say("recread.decimal", "sign", f.Decimal))
	}
	if f.Dates != "" {
		parts = append(parts, say("recread.dates", "order", f.Dates))
	}
	if f.Zone != "" {
		parts = append(parts, say("recread.zone", "zone", f.Zone))
	}
	if f.Unit != "" {
		parts = append(parts, "°"+f.Unit)
	}
	return strings.Join(parts, "; ")
}

func (r RoomRecord) asideTable() Table {
	t := Table{Align: "llrl", Head: []string{
		say("recaside.head.file"), say("recaside.head.why"), say("recaside.head.rows"), say("recaside.head.lines"),
	}}
	for _, s := range r.SetAside {
		var lines []string
		for _, n := range s.Lines {
			lines = append(lines, strconv.Itoa(n))
		}
		first := strings.Join(lines, ", ")
		if s.Count > len(s.Lines) && len(lines) > 0 {
			first += " …"
		}
		t.Rows = append(t.Rows, []string{fileWords(s.File), s.Reason, whole(float64(s.Count)), first})
	}
	return t
}

func (r RoomRecord) statsTable() Table {
	t := Table{Align: "lrrrrrr", Head: []string{
		say("recstats.head.what"), say("recstats.head.mean"), say("recstats.head.low"), say("recstats.head.p7"),
		say("recstats.head.p50"), say("recstats.head.p93"), say("recstats.head.high"),
	}}
	row := func(name string, v ...float64) {
		cells := []string{name}
		for _, x := range v {
			cells = append(cells, fixedOne(x))
		}
		t.Rows = append(t.Rows, cells)
	}
	h := r.RH
	row(say("recstats.rh"), h.MeanPct, h.MinPct, h.P7Pct, h.P50Pct, h.P93Pct, h.MaxPct)
	if c := r.Temperature; c != nil {
		row(say("recstats.t"), c.MeanC, c.MinC, c.P7C, c.P50C, c.P93C, c.MaxC)
	}
	return t
}

func (r RoomRecord) hoursTable() Table {
	t := Table{Align: "lrr", Head: []string{say("rechours.head.what"), say("rechours.head.hours"), say("rechours.head.share")}}
	if r.Hours.Covered <= 0 {
		return t
	}
	for _, x := range []struct {
		what  string
		hours float64
	}{
		{say("rechours.above"), r.Hours.Above75}, {say("rechours.below"), r.Hours.Below25}, {say("rechours.inside"), r.Hours.In40To60},
	} {
		t.Rows = append(t.Rows, []string{x.what, whole(x.hours), ofHundred(100 * x.hours / r.Hours.Covered)})
	}
	return t
}

func (r RoomRecord) changesTable() Table {
	c := r.Changes
	t := Table{Align: "lrlr", Head: []string{
		say("recchange.head.within"), say("recchange.head.points"), say("recchange.head.when"), say("recchange.head.k"),
	}}
	for _, x := range []struct {
		key  string
		v, k *float64
		at   string
	}{{"recchange.hour", c.Max1h, c.Max1hK, c.Max1hAt}, {"recchange.day", c.Max24h, c.Max24hK, c.Max24hAt}, {"recchange.week", c.Max7d, c.Max7dK, c.Max7dAt}} {
		if x.v == nil {
			continue
		}
		t.Rows = append(t.Rows, []string{say(x.key), pointsWords(x.v), timeWords(x.at), pointsWords(x.k)})
	}
	return t
}

// readingsTable shows how large the daily change is by the other readings of "in 24 h".
func (r RoomRecord) readingsTable() Table {
	t := Table{Align: "lrl", Head: []string{say("recreading.head.reading"), say("recreading.head.points"), say("recreading.head.when")}}
	for _, o := range r.Changes.Others {
		t.Rows = append(t.Rows, []string{o.Words, pointsWords(o.Max24h), timeWords(o.At)})
	}
	return t
}

// fullMonth is the share of a month, in per cent, from which it counts as covered in the table.
const fullMonth = 99

// monthsTable lists the months that are not fully covered.
func (r RoomRecord) monthsTable() Table {
	t := Table{Align: "lr", Head: []string{say("recmonths.head.month"), say("recmonths.head.covered")}}
	for _, m := range r.Months {
		if m.CoveredPct < fullMonth {
			t.Rows = append(t.Rows, []string{monthWords(m.Month), ofHundred(m.CoveredPct)})
		}
	}
	return t
}

// gapsShown is how many gaps the table lists, the longest first.
const gapsShown = 7

func (r RoomRecord) gapsTable() (t Table, rest int) {
	t = Table{Align: "llr", Head: []string{say("recgaps.head.from"), say("recgaps.head.to"), say("recgaps.head.length")}}
	for _, g := range longestGaps(r.Gaps) {
		t.Rows = append(t.Rows, []string{timeWords(g.From), timeWords(g.To), lengthWords(g.Hours)})
	}
	if len(t.Rows) > gapsShown {
		rest, t.Rows = len(t.Rows)-gapsShown, t.Rows[:gapsShown]
	}
	return t, rest
}

func (r RoomRecord) bandTable() Table {
	b := r.Band
	t := Table{Align: "lr", Head: []string{say("fact.head.what"), say("fact.head.value")}}
	if !b.Applies {
		return t
	}
	t.Rows = [][]string{
		{say("recband.mean"), say("recband.rh", "v", fixedOne(b.MeanPct))},
		{say("recband.moving"), say("recband.rh", "v", span(fixedOne(b.MovingLowPct), fixedOne(b.MovingHighPct)))},
		{say("recband.low"), say("recband.points", "v", fixedOne(-b.LowDeparture))},
		{say("recband.high"), say("recband.points", "v", fixedOne(b.HighDeparture))},
	}
	return t
}

// bandWords are the paragraphs beneath the band: the choices made, and the caution.
func (r RoomRecord) bandWords() []string {
	b := r.Band
	if !b.Applies {
		return []string{say("recband.none", "why", b.WhyNot), say("recband.caution")}
	}
	out := []string{}
	if b.Floor {
		out = append(out, say("recband.floored", "low", fixedOne(-b.CalculatedLow), "high", fixedOne(b.CalculatedHigh)))
	} else if b.LowDeparture > -10 || b.HighDeparture < 10 {
		out = append(out, say("recband.nofloor"))
	}
	return append(nonEmpty(append(out, b.Rule)...), say("recband.caution"))
}

func (r RoomRecord) termsTable(x RecordTerms) Table {
	t := Table{Align: "lrrll", Head: []string{
		say("recterms.head.clause"), say("recterms.head.inside"), say("recterms.head.longest"), say("recterms.head.from"), say("recterms.head.worst"),
	}}
	for _, c := range x.Clauses {
		row := []string{c.Words, ofHundred(c.InsidePct), say("recterms.never"), "", worstWords(c)}
		switch {
		case c.WhyNot != "":
			row[2] = "–"
		case !c.kept():
			row[2], row[3] = lengthWords(c.LongestHours), timeWords(c.LongestFrom)
		}
		t.Rows = append(t.Rows, row)
	}
	return t
}

func worstWords(c RecordClause) string {
	v := fixedOne(c.Worst)
	if v == "–" {
		return v
	}
	return say("recterms.worst", "v", v, "unit", c.Unit, "when", timeWords(c.WorstAt))
}

// termsWords are the remarks on one set of terms: where its figures come from and how they were read.
func termsWords(x RecordTerms) []string {
	var out []string
	if x.Source != "" {
		out = append(out, say("recterms.source", "source", x.Source, "evidence", x.Evidence))
	}
	if strings.Contains(x.Evidence, "memory") {
		key := "recterms.memory.confirmed"
		if !x.Confirmed {
			key = "recterms.memory.open"
		}
		out = append(out, say(key))
	}
	if x.Reading != "" {
		out = append(out, say("recterms.reading", "reading", x.Reading))
	}
	for _, c := range x.Clauses {
		if c.WhyNot != "" {
			out = append(out, say("recterms.whynot", "clause", c.Words, "why", c.WhyNot))
		}
	}
	for _, r := range x.Remarks {
		out = append(out, say("recterms.remark", "remark", r))
	}
	return out
}

// Note says in a few words how a clause was kept.
func (c RecordClause) Note() string {
	switch {
	case c.WhyNot != "":
		return say("recterms.note.none")
	case c.kept():
		return say("recterms.note.kept")
	}
	return say("recterms.note", "n", ofHundred(100-c.InsidePct), "length", lengthWords(c.LongestHours))
}

func (r RoomRecord) flagsTable() Table {
	t := Table{Align: "lrlll", Head: []string{
		say("recflags.head.what"), say("recflags.head.rows"), say("recflags.head.from"), say("recflags.head.to"), say("recflags.head.removed"),
	}}
	for i, f := range r.Flags {
		if i == flagsShown {
			break
		}
		done := say("recflags.kept")
		if f.Removed {
			done = say("recflags.removed")
		}
		t.Rows = append(t.Rows, []string{f.Words, whole(float64(f.Count)), timeWords(f.From), timeWords(f.To), done})
	}
	return t
}

// flagsShown is how many flags the table lists.
const flagsShown = 12

func (r RoomRecord) woodTable() Table {
	t := Table{Align: "lr", Head: []string{say("fact.head.what"), say("fact.head.value")}}
	if w := r.Wood; w != nil {
		t.Rows = [][]string{
			{say("recwood.mean"), span(fixedOne(w.MeanLow), fixedOne(w.MeanHigh))},
			{say("recwood.loop"), span(fixedOne(w.LoopLow), fixedOne(w.LoopHigh))},
		}
	}
	return t
}
