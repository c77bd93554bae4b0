package report

import (
	"fmt"
	"html/template"
	"io"
	"slices"
	"strings"
)

// headings is how many headings a schedule has, in a fixed order; those up to firstSheet stand on sheet 1.
const (
	headings   = 19
	firstSheet = 9
)

// sheets are the pages of one schedule or of the covering sheet, all words chosen.
type sheets struct {
	shell
	State    string
	Pages    []sheetPage
	Cautions []string
	Foot     string
}

type sheetPage struct {
	Title string
	Class string // sheet-1, sheet-2, annex; empty: pages that are counted as they come
	Items []sheetItem
}

// numberedSheets puts "Sheet n of 2" at the foot of both sheets of conditions, and the annex apart.
func numberedSheets() template.CSS {
	foot := func(page, words string) string {
		return "@page " + page + "{@bottom-right{content:" + cssString(words) + "}}@media print{.sheet." + page + "{page:" + page + "}}"
	}
	return template.CSS(foot("sheet-1", say("sheet.of", "n", "1", "total", "2")) + foot("sheet-2", say("sheet.of", "n", "2", "total", "2")) +
		foot("annex", say("loan.annex.foot")))
}

// sheetItem is one heading with what stands under it.
type sheetItem struct {
	N       int // 0: without a number
	Title   string
	Strong  []string // lines that are read first
	Lines   []string
	Table   *Table
	Alarms  *alarmTable
	Drawing *figureView
	Sides   []sideView // the panel, small, beside the text
	Sign    []string
	Call    bool // two lines to fill in
}

// sideView is the panel from one side.
type sideView struct {
	Drawing template.HTML
	Words   string
}

// alarmTable has a word for each reading and time.
type alarmTable struct {
	Head []string
	Rows []alarmRow
}

type alarmRow struct {
	Reading string
	Cells   []alarmCell
}

type alarmCell struct{ Word, Class string }

// sheetName is what one panel's schedule is called, as a file may be.
func (d Loan) sheetName(i int) string {
	name := strings.Map(func(c rune) rune {
		if c >= 'a' && c <= 'z' || c >= '0' && c <= '9' || c == '-' {
			return c
		}
		return '-'
	}, strings.ToLower(d.Panels[i].Name))
	for k := range i { // two names may look alike so
		if strings.EqualFold(d.sheetName(k), "schedule-"+name) {
			name = fmt.Sprintf("%s-%d", name, i+1)
		}
	}
	return "schedule-" + name
}

// Sheet is the paper of one panel's schedule: what it rests on is told as far as it belongs to that panel. Without figures it
// stays a draft.
func (d Loan) Sheet(i int) *Paper {
	p := d.Panels[i]
	own := slices.DeleteFunc(slices.Clone(d.Inputs), func(in PaperInput) bool {
		return in.Name != p.File && slices.ContainsFunc(d.Panels, func(o LoanPanel) bool { return o.File == in.Name })
	})
	paper := d.Paper.For(d.sheetName(i), own)
	if p.Terms == nil {
		paper.Status = Draft
	}
	return paper
}

// WriteSchedule writes the schedule of panel i: two sheets with nineteen headings and an annex for what they cannot hold, as one
// page without scripts or requests, by the rules of [Assess.WriteHTML]. figs are the panel from the front and from the back, and
// its range, as drawn.
func (d Loan) WriteSchedule(w io.Writer, i int, figs []Figure, fontCSS string) error {
	p := &d.Panels[i]
	d.Paper = d.Sheet(i)
	d.Status = d.Paper.Status
	s := d.sheets(say("loan.schedule", "panel", p.label()))
	var views []*figureView
	for _, f := range figs {
		svg, err := inlineSVG(f)
		if err != nil {
			return err
		}
		views = append(views, &figureView{f, svg})
	}
	items := d.items(p, views)
	annex := slices.Concat(shorten(items[:firstSheet]), shorten(items[firstSheet:]))
	s.Pages = []sheetPage{{say("loan.sheet.1"), "sheet-1", items[:firstSheet]}, {say("loan.sheet.2"), "sheet-2", items[firstSheet:]}}
	if len(annex) > 0 {
		s.Pages = append(s.Pages, sheetPage{say("loan.annex"), "annex", annex})
	}
	s.Running += numberedSheets()
	return s.write(w, fontCSS)
}

// WriteCover writes the covering sheet of the group.
func (d Loan) WriteCover(w io.Writer, fontCSS string) error {
	d.Paper = d.Paper.For("cover", d.Inputs)
	s := d.sheets(say("loan.cover"))
	t, legs := d.panelTable(), d.legsTable()
	items := []sheetItem{{Title: say("loan.h.3"), Lines: []string{d.parties()}, Table: d.legTable()}, {Title: say("loan.h.5"), Strong: d.Sentences}}
	if d.Proposed != nil && d.OneRoom {
		items = append(items, sheetItem{Title: say("loan.h.6"), Strong: d.Proposed.words()})
	}
	items = append(items, sheetItem{Title: say("loan.text.panels"), Table: &t})
	for _, o := range d.Offers {
		items = append(items, sheetItem{Title: say("loan.text.offer", "text", plainLine(o.Text)), Lines: o.Answer})
	}
	second := []sheetItem{
		{Title: say("loan.text.legs"), Lines: []string{say("loan.legs.lead")}, Table: &legs},
		{Title: say("loan.text.findings"), Lines: withoutLegs(d.Findings)}, {Title: say("loan.text.untold"), Lines: texts(d.Undecided)},
		{Title: say("loan.text.ask"), Lines: texts(d.Ask)}, d.signing(19),
	}
	s.Pages = []sheetPage{{say("loan.cover"), "", items}, {say("loan.cover.2"), "", slices.DeleteFunc(second, func(i sheetItem) bool { return len(i.Lines) == 0 && i.Sign == nil })}}
	return s.write(w, fontCSS)
}

func texts(notes []LoanNote) (out []string) {
	for _, n := range notes {
		out = append(out, n.Text)
	}
	return out
}

func (d Loan) sheets(title string) *sheets {
	s := &sheets{shell: shell{Title: title, Invented: d.Invented, Paper: d.Paper}, State: d.Paper.State(), Cautions: d.Cautions}
	s.Foot = d.Paper.Running() + ". " + d.Paper.Rests()
	s.Running = running(title, s.Foot+" "+say("caution.foot"), d.Invented)
	return s
}

func (s *sheets) write(w io.Writer, fontCSS string) error {
	return s.shell.write(w, "loan.html", "page.css", "loan.css", fontCSS, s)
}
