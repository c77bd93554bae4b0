package report

import (
	"fmt"
	"html/template"
	"io"
	"strings"
)

// dict gives a part of the template several values by name.
func dict(pairs ...any) (map[string]any, error) {
	out := map[string]any{}
	for i := 0; i+1 < len(pairs); i += 2 {
		name, ok := pairs[i].(string)
		if !ok {
			return nil, fmt.Errorf("name %d of a part is no text", i)
		}
		out[name] = pairs[i+1]
	}
	return out, nil
}

// faultPage is what the template of the cards, of the door sheet and of the event sheet shows.
type faultPage struct {
	shell
	Jump     []faultJump
	Cards    []faultCardView
	Door     *faultDoorView
	Event    *eventView
	Actions  []string
	Words    []string
	Cautions []string
}

type faultJump struct{ To, Name string }

// faultGridView is a grid with its words.
type faultGridView struct {
	Stood string
	Heads []string
	Rows  []faultRowView
}

type faultRowView struct {
	Name  string
	Cells []faultCell
	More  string
}

type faultCell struct{ Class, Word string }

type faultCardView struct {
	ID, Name, Title, Place, Reading, Foot string
	Grid                                  *faultGridView
	Once, How                             []string
}

type faultDoorView struct {
	Title, Foot string
	AtOnce      string
	Grid        *faultGridView
	Once        []faultJump // panel, why
	Rows        []string
	Panels      []faultPlaceView
}

type faultPlaceView struct {
	Place, Name string
	Cells       [][]string
}

type eventView struct {
	Title, Foot string
	About       []string
	Long        string
	Panels      []eventPanelView
	Failed      []string
}

type eventPanelView struct {
	Name, Title, Start string
	Gates              []string
	Table              Table
	Boxes, Slow        []string
}

// WriteHTML writes the cards, and the door sheet of a store, as one page: no script, nothing fetched.
// On paper each card takes two A5 sheets, front and back, the door sheet A4.
func (f Fault) WriteHTML(w io.Writer, fontCSS string) error {
	p := &faultPage{
		shell:   shell{Title: say("fault.page.title", "name", plainLine(f.Name)), Invented: f.Invented},
		Actions: firstActions(), Words: actionWords(), Cautions: f.Cautions,
	}
	if f.Door != nil {
		p.Door = f.doorView()
		p.Jump = append(p.Jump, faultJump{"door", p.Door.Title})
	}
	for i, c := range f.Cards {
		v := c.view(i, f.Version)
		p.Cards = append(p.Cards, v)
		p.Jump = append(p.Jump, faultJump{v.ID, where(v.Place, v.Name) + ": " + v.Reading})
	}
	return p.write(w, fontCSS)
}

func (c FaultCard) view(i int, version string) faultCardView {
	v := faultCardView{
		ID: fmt.Sprintf("card-%d", i+1), Name: c.name(), Place: plainLine(c.Place), Reading: c.readingWords(),
		Foot: say("fault.foot", "version", version, "digest", shortDigest(c.Digest)), Once: c.CallAtOnce, How: c.how(),
	}
	if t := plainLine(c.Title); t != v.Name {
		v.Title = t
	}
	if len(c.Rows) > 0 {
		v.Grid = c.grid(nil)
	}
	return v
}

// shortDigest is the beginning of a digest, enough to tell files apart.
func shortDigest(s string) string { return s[:min(len(s), 12)] }

func (g FaultGrid) grid(more func(int) string) *faultGridView {
	v := &faultGridView{Stood: say("fault.head.stood")}
	for _, h := range g.ColumnsH {
		v.Heads = append(v.Heads, stood(h))
	}
	for i, r := range g.Rows {
		row := faultRowView{Name: r.words()}
		for _, c := range g.Cells[i] {
			row.Cells = append(row.Cells, faultCell{c, actionWord(c)})
		}
		if more != nil {
			row.More = more(i)
		}
		v.Rows = append(v.Rows, row)
	}
	return v
}

func (f Fault) doorView() *faultDoorView {
	d := f.Door
	v := &faultDoorView{
		Title: say("fault.door.title", "name", plainLine(f.Name)),
		Foot:  say("fault.foot", "version", f.Version, "digest", shortDigest(f.PanelDigest)),
	}
	if len(d.Rows) > 0 {
		v.Grid = d.grid(d.firstOf)
	}
	for _, r := range d.Rows {
		v.Rows = append(v.Rows, r.words())
	}
	for _, p := range d.Panels {
		if len(p.AtOnce) > 0 {
			v.Once = append(v.Once, faultJump{where(plainLine(p.Place), p.Accession), strings.Join(p.AtOnce, " ")})
			continue
		}
		v.Panels = append(v.Panels, faultPlaceView{plainLine(p.Place), p.Accession, p.turns()})
	}
	if n := len(v.Once); n > 0 {
		v.AtOnce = plural("fault.door.once", n)
	}
	return v
}

// WriteHTML writes the event sheet as one page, by the rules of [Fault.WriteHTML].
func (f FaultEvent) WriteHTML(w io.Writer, fontCSS string) error {
	name := say("event.title") + ": " + plainLine(f.Name)
	v := &eventView{
		Title: name, About: f.Record.about(), Long: f.Record.tooLong(),
		Foot: say("fault.foot", "version", f.Version, "digest", shortDigest(f.PanelDigest)),
	}
	for _, p := range f.Panels {
		view := eventPanelView{Name: where(p.Place, p.name()), Start: p.start(f.Record), Table: p.table(), Boxes: boxes(), Slow: p.slow()}
		if t := plainLine(p.Title); t != p.name() {
			view.Title = t
		}
		for _, g := range p.Gates {
			view.Gates = append(view.Gates, say("event.gate", "reason", g))
		}
		v.Panels = append(v.Panels, view)
	}
	for _, x := range f.Failed {
		v.Failed = append(v.Failed, say("event.failed", "file", x.File, "why", firstLine(x.Why)))
	}
	p := &faultPage{shell: shell{Title: name, Invented: f.Invented, Paper: f.Paper}, Event: v, Cautions: f.Cautions}
	return p.write(w, fontCSS)
}

func (p *faultPage) write(w io.Writer, fontCSS string) error {
	p.Running = p.running()
	return p.shell.write(w, "fault.html", "fault.css", "", fontCSS, p)
}

// running is what stands on every A4 sheet: the mark of an invented example, and of an event sheet its
// number.
func (p *faultPage) running() template.CSS {
	out := ""
	if p.Invented {
		out += "@top-right{content:" + cssString(say("invented.mark")) + "}"
	}
	if p.Event != nil {
		out += "@bottom-right{content:" + sheetOf() + "}"
	}
	if p.Paper != nil {
		out += "@bottom-left{content:" + cssString(p.Paper.Running()+". "+p.Paper.Rests()) + "}"
	}
	return template.CSS("@page sheet{" + out + "}")
}
