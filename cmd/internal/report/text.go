package report

import (
	"fmt"
	"io"
	"strings"
)

// WriteText writes the assessment for a terminal, no line over 80 columns: the three sentences
// first, then what stands before any number, the calculated range, and small tables.
func (a Assess) WriteText(w io.Writer) error {
	t := &textPage{}
	a.textHead(t)
	a.textRange(t)
	a.textWorst(t)
	a.textDoubt(t)
	t.table("move", a.moveTable())
	t.table("section", a.sectionTable())
	t.paras(a.sectionWords()...)
	t.table("restraint", a.restraintTable())
	t.paras(a.binds()...)
	t.table("stands", a.standsTable())
	t.paras(a.standsWords()...)
	t.table("line", a.lineTable())
	if words := a.lineWords(); len(a.Lines) > 0 {
		t.line("")
		t.paras(words...)
	} else if len(words) > 0 {
		t.title("line")
		t.paras(words...)
	}
	t.table("reglue", a.reglueTable())
	t.paras(a.reglueWords()...)
	if len(a.Paint) > 0 {
		t.title("paint")
		t.paras(say("paint.lead"))
		if tb := a.paintTable(); len(tb.Rows) > 0 {
			t.rows(tb)
		}
		t.paras(a.paintWords()...)
	}
	t.table("handling", factTable(a.Handling))
	t.table("frame", factTable(a.Frame))
	if a.Record != nil {
		t.title("record")
		t.paras(a.recordLead(), a.Record.Words)
		t.rows(a.recordTable())
	}
	if y := a.Year; y != nil {
		t.title("year")
		t.paras(y.Words...)
		t.rows(y.table())
		t.table("yearmember", y.memberTable())
		if y.LetGo != nil {
			t.title("letgo")
			t.paras(y.LetGo.paras()...)
			t.rows(y.LetGo.table())
		}
	}
	if w := a.Wait; w != nil {
		t.title("wait")
		t.paras(w.paras()...)
		t.rows(w.table())
		room, words := w.roomTable()
		t.paras(words)
		t.rows(room)
	}
	weightText(t, a.Workshop, a.OwnWeight, a.Bays)
	t.table("assumed", a.assumedTable())
	t.list("notused", a.NotUsed)
	t.list("warnings", a.remarks())
	t.list("cautions", a.Cautions)
	if a.Invented {
		t.line("")
		t.paras(say("invented.mark") + ". " + say("invented.sentence"))
	}
	return t.to(w)
}

func (a Assess) textHead(t *textPage) {
	if a.Invented {
		t.paras(say("invented.mark") + ". " + say("invented.sentence"))
		t.line("")
	}
	name := a.title()
	if acc := plainLine(a.Panel.Accession); acc != "" && acc != name {
		name += " (" + acc + ")"
	}
	t.paras(name, a.about())
	t.paras(a.climate()...)
	t.paras(a.basis())
	t.line("")
	for i, s := range a.opening() {
		t.hang(fmt.Sprintf("%3d  ", i+1), s)
	}
	if len(a.Gates) > 0 {
		t.title("gates")
		t.paras(say("gates.lead"))
		for _, g := range a.Gates {
			t.hang("  ! ", g.Text)
		}
	}
}

func (a Assess) textRange(t *textPage) {
	t.title("range")
	if tb := a.rangeTable(); len(tb.Rows) > 0 {
		t.paras(say("range.lead"))
		t.rows(tb)
	}
	if why := a.WhyNoRange(); why != "" {
		t.paras(why)
	}
	t.paras(a.rangeWords()...)
}

// textDoubt writes how many of 100 reach a limit, what the panel itself has shown, and what to find out.
func (a Assess) textDoubt(t *textPage) {
	if a.Doubt == nil || len(a.Doubt.Ways) == 0 {
		return
	}
	t.title("doubt")
	t.paras(a.doubtParas()...)
	t.rows(a.doubtTable())
	t.paras(a.modelParas()...)
	if p := a.evidenceParas(); len(p) > 0 {
		t.title("evidence")
		t.paras(p...)
		t.rows(a.seenTable())
	}
	if tb, p := a.findTable(), a.findParas(); len(tb.Rows)+len(p) > 0 {
		t.title("find")
		t.paras(p...)
		t.rows(tb)
	}
}

func (a Assess) textWorst(t *textPage) {
	shown, rest := a.shownWorst()
	if len(shown) == 0 {
		return
	}
	tb := Table{Align: "llrlr", Head: []string{
		say("worst.head.part"), say("worst.head.mode"), say("worst.head.rh"), say("worst.head.bar"), say("worst.head.share"),
	}}
	for _, m := range shown {
		what := ModeWords(m.Mode)
		if m.At != nil {
			what += ", " + dated(m.At.Time)
		}
		tb.Rows = append(tb.Rows, []string{
			PartWords(m.Part), what, whole(m.RHPct), Bar(m.Share, m.ShareHigh), tenthsDoubt(m),
		})
	}
	t.title("worst")
	t.paras(say("worst.lead"), say("worst.legend"))
	t.rows(tb)
	if rest > 0 {
		t.paras(plural("worst.rest", rest))
	}
}

// remarks are the warnings in words.
func (a Assess) remarks() []string {
	var out []string
	for _, r := range a.Warnings {
		s := r.Text
		if r.Part != "" {
			s = upperFirst(PartWords(r.Part)) + ": " + s
		}
		out = append(out, s)
	}
	return out
}

// textPage collects lines of at most 80 columns.
type textPage struct{ b strings.Builder }

func (t *textPage) line(s string) { t.b.WriteString(strings.TrimRight(s, " ") + "\n") }

// paras writes each text wrapped; empty ones are left out.
func (t *textPage) paras(texts ...string) {
	for _, s := range texts {
		if plainLine(s) == "" {
			continue
		}
		for _, l := range wrap(s, columns) {
			t.line(l)
		}
	}
}

// hang writes a text whose later lines stand under its first word.
func (t *textPage) hang(mark, s string) {
	for i, l := range wrap(s, columns-displayWidth(mark)) {
		if i > 0 {
			mark = strings.Repeat(" ", displayWidth(mark))
		}
		t.line(mark + l)
	}
}

// title begins a section named key.title.
func (t *textPage) title(key string) { t.titled(say(key + ".title")) }

// titled begins a section with a heading of its own.
func (t *textPage) titled(heading string) {
	t.line("")
	for _, l := range wrap(strings.ToUpper(heading), columns) {
		t.line(l)
	}
}

// table writes a section with its lead, when the table has rows.
func (t *textPage) table(key string, tb Table) {
	if len(tb.Rows) == 0 {
		return
	}
	t.title(key)
	if known(key + ".lead") {
		t.paras(say(key + ".lead"))
	}
	t.rows(tb)
}

func (t *textPage) rows(tb Table) {
	if len(tb.Rows) == 0 {
		return
	}
	for _, l := range tb.lines(columns) {
		t.line(l)
	}
}

// list writes a section of hanging lines, when there are any.
func (t *textPage) list(key string, items []string) {
	if len(items) == 0 {
		return
	}
	t.title(key)
	if known(key + ".lead") {
		t.paras(say(key + ".lead"))
	}
	for _, s := range items {
		t.hang("  - ", s)
	}
}

// to writes the page out.
func (t *textPage) to(w io.Writer) error {
	_, err := io.WriteString(w, t.b.String())
	return err
}
