package report

import (
	"fmt"
	"io"
	"math"
	"slices"
	"strings"
)

// WriteText writes the options for a terminal, no line over 80 columns.
func (t Treat) WriteText(w io.Writer) error {
	page := &textPage{}
	if t.Invented {
		page.paras(say("invented.mark") + ". " + say("invented.sentence"))
		page.line("")
	}
	a := t.asAssess()
	name := a.title()
	if acc := plainLine(t.Panel.Accession); acc != "" && acc != name {
		name += " (" + acc + ")"
	}
	page.paras(name, a.about())
	page.paras(a.climate()...)
	page.line("")
	for i, s := range t.Sentences {
		page.hang(fmt.Sprintf("%3d  ", i+1), s)
	}
	if len(t.Gates) > 0 {
		page.title("gates")
		page.paras(say("gates.lead"))
		for _, g := range t.Gates {
			page.hang("  ! ", g.Text)
		}
	}
	for _, s := range append([]section{t.list()}, t.sections()...) {
		page.section(s)
	}
	page.list("cautions", t.Cautions)
	return page.to(w)
}

// WriteHTML writes the options as one self-contained page, by the rules of [Assess.WriteHTML].
func (t Treat) WriteHTML(w io.Writer, figs []Figure, fontCSS string) error {
	a := t.asAssess()
	p := &page{
		shell:     shell{Title: a.title(), Invented: t.Invented, Running: a.running(), Paper: t.Paper},
		Accession: plainLine(t.Panel.Accession), About: a.about(), Basis: say("treat.basis"),
		Climate: a.climate(), Sentences: t.Sentences, Cautions: t.Cautions, Range: t.list(), Sections: t.sections(), Annex: t.annex(),
	}
	for _, g := range t.Gates {
		p.Gates = append(p.Gates, g.Text)
	}
	if err := p.hang(figs); err != nil {
		return err
	}
	return p.write(w, fontCSS)
}

// asAssess is the document as far as it says what an assessment says of the panel.
func (t Treat) asAssess() Assess {
	return Assess{Head: t.Head, Paper: t.Paper, Invented: t.Invented, Panel: t.Panel, UsedTo: t.UsedTo, Range: t.Range}
}

// opening are the three sentences: how it stands as it is, what the options do about that, how to read the rest.
func (t Treat) opening() []string {
	first := say("treatopen.nolimit")
	worst := t.Options[0].hardest()
	if worst != nil {
		first = say("treatopen.now", "part", the(worst.Part), "share", shareWords(worst.Share), "rh", whole(worst.RHPct))
	}
	var under []string
	options := t.done()[1:]
	for _, o := range options {
		if w := o.hardest(); w == nil || *w.Share < 1 {
			under = append(under, o.name())
		}
	}
	second := say("treatopen.alone")
	switch n := len(options); {
	case n == 0:
	case worst == nil || *worst.Share < 1:
		second = plural("treatopen.already", n)
	case len(under) == 0:
		second = plural("treatopen.none", n)
	case len(under) == n:
		second = plural("treatopen.all", n)
	default:
		second = say("treatopen.some", "k", whole(float64(len(under))), "n", whole(float64(n)))
	}
	return []string{first, second, say("treatopen.weigh")}
}

// hardest is the part that sets a range and comes nearest to its limit; nil when none has one.
func (o TreatOption) hardest() *TreatMode {
	var out *TreatMode
	for i := range o.Modes {
		if m := &o.Modes[i]; m.SetsRange && m.Share != nil && (out == nil || *m.Share > *out.Share) {
			out = m
		}
	}
	return out
}

// list is the section that says what the options are.
func (t Treat) list() section {
	s, tb := begin("treatlist"), t.listTable()
	s.Table = &tb
	if t.Standard {
		s.Paras = append(s.Paras, say("treatlist.standard"))
	}
	if slices.ContainsFunc(t.Options, func(o TreatOption) bool { return o.Guessed }) {
		s.Paras = append(s.Paras, say("treatlist.guessed"))
	}
	for _, o := range t.Options {
		if n := plainLine(o.Note); n != "" {
			s.Paras = append(s.Paras, say("treat.note", "name", o.name(), "note", n))
		}
		for _, g := range o.Gates {
			if !slices.Contains(t.Gates, g) {
				s.Paras = append(s.Paras, say("treat.note", "name", o.name(), "note", g.Text))
			}
		}
		if o.Failed != "" {
			s.Paras = append(s.Paras, say("treat.failed", "name", o.name(), "why", plainLine(o.Failed)))
		}
	}
	for _, l := range t.LeftOut {
		s.Paras = append(s.Paras, say("treat.leftout."+l.Why, "name", say("treat.standard."+l.Reach)))
	}
	s.Paras = append(s.Paras, say("treat.thinning"))
	s.Whole = false
	return s
}

// sections are the tables side by side and the sheets.
func (t Treat) sections() []section {
	var c gathered
	c.table("treatsides", t.sidesTable())
	var more []string
	if t.Cases > 0 {
		more = append(more, say("treatmodes.cases", "n", whole(float64(t.Cases))))
	}
	if _, rest := t.shownModes(); rest > 0 {
		more = append(more, plural("treatmodes.rest", rest))
	}
	c.table("treatmodes", t.modeTable(), more...)
	c.table("treatnumbers", t.numberTable(), t.numberWords()...)
	if tb := t.timeTable(); len(tb.Rows) > 0 {
		c.table("treattime", tb, t.timeWords()...)
	} else if t.anyLets("unknown") {
		s := begin("treattime")
		s.Lead, s.Paras = "", []string{say("treattime.unknown")}
		c = append(c, s)
	}
	for i, o := range t.done()[1:] {
		if len(o.Sheet.Rows) == 0 {
			continue
		}
		s, tb := begin("treatsheet"), o.sheetTable()
		s.ID, s.Title, s.Table, s.Paras = fmt.Sprintf("treatsheet-%d", i+1), say("treatsheet.named", "name", o.name()), &tb, o.sheetWords()
		c = append(c, s)
	}
	return c
}

func (t Treat) anyLets(how string) bool {
	return slices.ContainsFunc(t.Options, func(o TreatOption) bool { return o.LetsGo == how })
}

func (t Treat) numberWords() []string {
	var out []string
	if t.NoVolume {
		out = append(out, say("treat.case.novolume"))
	}
	if t.Setting == "quick" {
		out = append(out, say("treat.quick"))
	}
	for i, o := range t.done() {
		c, now := o.Case, t.done()[0].Case
		if c == nil || i > 0 && now != nil && *c == *now { // it stays in the case that it is in
			continue
		}
		half := say("treat.settles.long")
		if d := c.HalfDays; d < 7*longSettling {
			half = plural("treat.days", max(1, int(math.Round(d))))
		}
		s := say("treat.case", "name", o.name(), "litres", plain(c.Litres), "changes", plain(c.Changes), "kg", plain(c.BufferKg), "half", half)
		if c.Guessed {
			s += " " + say("treat.case.guessed")
		}
		out = append(out, s+" "+say("treat.case.season"))
	}
	if slices.ContainsFunc(t.Options, func(o TreatOption) bool {
		return slices.ContainsFunc(o.Reglued, func(p string) bool { return !strings.HasPrefix(p, "join.") })
	}) {
		out = append(out, say("treat.gluedsplit"))
	}
	return append(out, say("treatnumbers.note"))
}

func (t Treat) timeWords() []string {
	var out []string
	if t.anyLets("part") {
		out = append(out, say("treattime.part"))
	}
	return append(out, say("letgo.watch"))
}

// annex is what the options change in the file.
func (t Treat) annex() []section {
	var c gathered
	if len(t.Options) > 1 {
		c.table("treatkeys", t.changesTable())
	}
	return c
}
