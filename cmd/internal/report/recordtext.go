package report

import (
	"fmt"
	"io"
	"slices"
)

// WriteText writes the record for a terminal, no line over 80 columns: the three sentences first, then
// how it was read, the statistics, the band and the terms.
func (r RoomRecord) WriteText(w io.Writer) error {
	t := &textPage{}
	if r.Invented {
		t.paras(say("invented.mark"))
		t.line("")
	}
	t.paras(r.title(), r.about(), r.basis())
	t.line("")
	for i, s := range r.opening() {
		t.hang(fmt.Sprintf("%3d  ", i+1), s)
	}
	for _, s := range append(append([]section{r.read()}, r.sections()...), r.annex()...) {
		if s.ID != "recday" { // 24 lines; they stand in the page and in the data
			t.section(s)
		}
	}
	t.list("cautions", r.Cautions)
	return t.to(w)
}

// section writes a section of the page for a terminal.
func (t *textPage) section(s section) {
	t.titled(s.Title)
	t.paras(s.Lead)
	if s.Table != nil {
		t.rows(*s.Table)
		if len(s.Paras) > 0 {
			t.line("")
		}
	}
	t.paras(s.Paras...)
	for _, x := range s.List {
		t.hang("  - ", x)
	}
}

// read is the section that says how the files were read.
func (r RoomRecord) read() section {
	s, t := begin("recread"), r.readTable()
	s.Table = &t
	return s
}

// sections are the tables that follow the figures.
func (r RoomRecord) sections() []section {
	var c gathered
	c.table("recaside", r.asideTable())
	c.list("recguess", r.Guesses)
	c.table("recflags", r.flagsTable(), r.flagWords()...)
	c.table("recstats", r.statsTable())
	c.table("recchange", r.changesTable(), r.changeWords()...)
	c.table("rechours", r.hoursTable())
	gaps, rest := r.gapsTable()
	more := ""
	if rest > 0 {
		more = plural("recgaps.rest", rest)
	}
	c.table("recgaps", gaps, more)
	c.table("recmonths", r.monthsTable())
	c = append(c, r.band())
	for i, x := range r.Terms {
		c = append(c, r.besideTerms(i, x))
	}
	return c
}

// besideTerms is the section of one set of terms.
func (r RoomRecord) besideTerms(i int, x RecordTerms) section {
	s := begin("recterms")
	s.ID, s.Lead = fmt.Sprintf("recterms-%d", i+1), say("recterms.named", "name", plainLine(x.Name))
	if t := r.termsTable(x); len(t.Rows) > 0 {
		s.Table = &t
	}
	s.Paras = nonEmpty(termsWords(x)...)
	return s
}

// annex is what the engineer and the checker of the figures read.
func (r RoomRecord) annex() []section {
	var c gathered
	if t := r.readingsTable(); len(t.Rows) > 0 {
		c.table("recreading", t)
	}
	c.table("recyear", cycleTable(r.Cycles.Year, say("recyear.head.part"), monthName), r.Cycles.yearWords()...)
	c.table("recday", cycleTable(r.Cycles.Day, say("recday.head.part"), hourName), r.Cycles.dayWords()...)
	if r.Wood != nil {
		c.table("recwood", r.woodTable(), r.woodWords()...)
	}
	return c
}

// band is the section of the historic band.
func (r RoomRecord) band() section {
	s := begin("recband")
	if t := r.bandTable(); len(t.Rows) > 0 {
		s.Table = &t
	} else {
		s.Lead = ""
	}
	s.Paras = r.bandWords()
	return s
}

func (r RoomRecord) changeWords() []string {
	if r.Changes.ReadingIn == "" {
		return nil
	}
	return []string{say("recchange.reading", "reading", r.Changes.ReadingIn)}
}

func (r RoomRecord) flagWords() []string {
	var out []string
	if n := len(r.Flags) - flagsShown; n > 0 {
		out = append(out, plural("recflags.rest", n))
	}
	if r.flagged() > 0 {
		out = append(out, say("recflags.how"))
	}
	return out
}

func (r RoomRecord) woodWords() []string {
	out := []string{say("recwood.limit", "wood", r.Wood.Wood, "days", oneDecimal(r.Wood.WindowDays))}
	if r.Wood.Borrowed != "" {
		out = append(out, say("emc.borrowed", "name", r.Wood.Borrowed))
	}
	return out
}

func (c RecordCycles) yearWords() []string {
	if c.Swing == nil {
		return nil
	}
	return []string{say("recyear.swing", "points", fixedOne(*c.Swing), "day", dayWords(c.Dampest))}
}

func (c RecordCycles) dayWords() []string {
	if c.DayRange == nil || c.DayRangeP90 == nil {
		return nil
	}
	return []string{say("recday.range", "points", fixedOne(*c.DayRange), "nine", fixedOne(*c.DayRangeP90), "days", whole(float64(c.Days)))}
}

func cycleTable(means []RecordMean, head string, name func(int) string) Table {
	t := Table{Align: "lrr", Head: []string{head, say("reccycle.head.rh"), say("reccycle.head.t")}}
	for _, m := range means {
		t.Rows = append(t.Rows, []string{name(m.Part), fixedOne(m.RHPct), fixedOne(m.TC)})
	}
	return t
}

// longestGaps are the gaps in falling order of length.
func longestGaps(g []RecordGap) []RecordGap {
	out := slices.Clone(g)
	slices.SortStableFunc(out, func(a, b RecordGap) int {
		switch {
		case a.Hours > b.Hours:
			return -1
		case a.Hours < b.Hours:
			return 1
		}
		return 0
	})
	return out
}

// dayWords is a day of any year.
func dayWords(s string) string {
	if t, ok := momentOf(s); ok {
		return t.Format("2 January")
	}
	return s
}
