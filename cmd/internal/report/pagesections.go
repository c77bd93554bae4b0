package report

import (
	"fmt"
	"html/template"
	"math"
	"strings"
)

// begin starts a section from the catalogue: key.title and, where there is one, key.lead.
func begin(key string) section {
	s := section{ID: key, Title: say(key + ".title"), Whole: true}
	if known(key + ".lead") {
		s.Lead = say(key + ".lead")
	}
	return s
}

// longTable is the number of rows above which a section may run over to the next sheet.
const longTable = 11

// gathered keeps the sections that say something.
type gathered []section

func (c *gathered) table(key string, t Table, paras ...string) {
	if len(t.Rows) == 0 {
		return
	}
	s := begin(key)
	s.Table, s.Paras = &t, nonEmpty(paras...)
	s.Whole = len(t.Rows)+3*len(s.Paras) <= longTable
	*c = append(*c, s)
}

func (c *gathered) list(key string, items []string) {
	if len(items) > 0 {
		s := begin(key)
		s.List, s.Whole = items, 3*len(items) <= longTable
		*c = append(*c, s)
	}
}

// sections are the tables after the figures.
func (a Assess) sections() []section {
	var c gathered
	c = append(c, a.doubtSections()...)
	c.table("move", a.moveTable())
	c.table("section", a.sectionTable(), a.sectionWords()...)
	c.table("restraint", a.restraintTable(), a.binds()...)
	c.table("stands", a.standsTable(), a.standsWords()...)
	if words := a.lineWords(); len(a.Lines) > 0 {
		c.table("line", a.lineTable(), words...)
	} else if len(words) > 0 {
		c = append(c, section{ID: "line", Title: say("line.title"), Paras: words, Whole: true})
	}
	c.table("reglue", a.reglueTable(), a.reglueWords()...)
	if len(a.Paint) > 0 {
		s := begin("paint")
		s.Paras = nonEmpty(a.paintWords()...)
		if t := a.paintTable(); len(t.Rows) > 0 {
			s.Table = &t
		}
		c = append(c, s)
	}
	c.table("handling", factTable(a.Handling))
	c.table("frame", factTable(a.Frame))
	if a.Record != nil {
		s := section{ID: "record", Title: say("record.title"), Lead: a.recordLead(), Paras: nonEmpty(a.Record.Words)}
		if t := a.recordTable(); len(t.Rows) > 0 {
			s.Table = &t
		}
		c = append(c, s)
	}
	if y := a.Year; y != nil {
		t := y.table()
		c = append(c, section{ID: "year", Title: say("year.title"), Paras: nonEmpty(y.Words...), Table: &t})
		c.table("yearmember", y.memberTable())
		if g := y.LetGo; g != nil {
			t := g.table()
			c = append(c, section{ID: "letgo", Title: say("letgo.title"), Paras: g.paras(), Table: &t, Whole: true})
		}
	}
	if w := a.Wait; w != nil {
		s := section{ID: "wait", Title: say("wait.title"), Paras: nonEmpty(w.paras()...), Whole: true}
		if t := w.table(); len(t.Rows) > 0 {
			s.Table = &t
		}
		c = append(c, s)
		if t, words := w.roomTable(); words != "" {
			s := section{ID: "wait-room", Title: say("wait.room.title"), Paras: []string{words}, Whole: true}
			if len(t.Rows) > 0 {
				s.Table = &t
			}
			c = append(c, s)
		}
	}
	c.list("warnings", a.remarks())
	c.list("notused", a.NotUsed)
	return c
}

// doubtSections are how many of 100 reach a limit, what the panel itself has shown, and what to find out.
func (a Assess) doubtSections() (out []section) {
	if a.Doubt == nil || len(a.Doubt.Ways) == 0 {
		return nil
	}
	add := func(key string, t Table, paras []string) {
		if len(t.Rows)+len(paras) == 0 {
			return
		}
		s := section{ID: key, Title: say(key + ".title"), Paras: paras, Whole: len(t.Rows)+3*len(paras) <= longTable}
		if len(t.Rows) > 0 {
			s.Table = &t
		}
		out = append(out, s)
	}
	add("doubt", a.doubtTable(), append(a.doubtParas(), a.modelParas()...))
	if p := a.evidenceParas(); len(p) > 0 {
		add("evidence", a.seenTable(), p)
	}
	add("find", a.findTable(), a.findParas())
	return out
}

// annex is what a checker of the calculation reads.
func (a Assess) annex() []section {
	var c gathered
	c.table("assumed", a.assumedTable())
	c.table("boards", a.boardTable())
	c.table("twoways", a.twoWaysTable())
	c.table("energy", a.energyTable(), a.energyWords()...)
	c.table("fixings", a.fixingTable())
	c = append(c, weightSections(a.Workshop, a.OwnWeight, a.Bays)...)
	c.table("states", a.contentTable())
	if a.Doubt != nil {
		c.table("models", a.modelTable())
	}
	var sources []string
	for _, s := range a.Sources {
		sources = append(sources, s.Text)
	}
	c.list("sources", sources)
	c.table("trace", a.traceTable())
	return c
}

func (a Assess) worstView() worstView {
	shown, rest := a.shownWorst()
	var v worstView
	for _, m := range shown {
		r := worstRow{
			Part: PartWords(m.Part), Mode: ModeWords(m.Mode), RH: whole(m.RHPct), Share: tenthsDoubt(m),
			Evidence: m.Evidence, Bar: barSVG(m.Share, m.ShareHigh),
		}
		r.Note = m.note()
		v.Rows = append(v.Rows, r)
	}
	if rest > 0 {
		v.Rest = plural("worst.rest", rest)
	}
	return v
}

// note says when a mode was worst, of a record, and whether it sets no range.
func (m Mode) note() string {
	var out []string
	if m.At != nil {
		out = append(out, dated(m.At.Time))
	}
	if !m.SetsRange {
		out = append(out, say("worst.notrange"))
	}
	return strings.Join(out, "; ")
}

// barSVG draws a share of limit: dark as described, hatched to the unfavourable end, an upright
// line at the limit. It is made of lines, so it prints without backgrounds.
func barSVG(share, high *float64) template.HTML {
	if share == nil || math.IsNaN(*share) {
		return ""
	}
	const tenth, top = 9.0, 10.0 + barBeyond
	size := func(v float64) float64 { return tenth * min(max(10*v, 0), top) }
	x, far := size(*share), 0.0
	if high != nil {
		far = size(*high)
	}
	var b strings.Builder
	fmt.Fprintf(&b, `<svg class="bar" viewBox="0 0 %g 16" width="%g" height="16" aria-hidden="true">`, tenth*top+6, tenth*top+6)
	fmt.Fprintf(&b, `<path class="axis" d="M0 13.5H%g"/>`, tenth*top)
	for t := 1; t < int(top); t++ {
		fmt.Fprintf(&b, `<path class="axis" d="M%g 13.5v2"/>`, tenth*float64(t))
	}
	fmt.Fprintf(&b, `<path class="fill" d="M0 3H%.1fV11H0z"/>`, x)
	if far > x {
		fmt.Fprintf(&b, `<path class="open" d="M%.1f 3H%.1fV11H%.1f"/>`, x, far, x)
		for h := x + 3; h < far; h += 3 {
			fmt.Fprintf(&b, `<path class="hatch" d="M%.1f 11L%.1f 3"/>`, h-1.5, min(h+1.5, far))
		}
	}
	if high != nil && 10**high > top || 10**share > top {
		fmt.Fprintf(&b, `<path class="more" d="M%g 4l4 3l-4 3"/>`, tenth*top+1)
	}
	fmt.Fprintf(&b, `<path class="limit" d="M%g 0V16"/></svg>`, 10*tenth)
	return template.HTML(b.String())
}
