package report

import (
	"fmt"
	"html/template"
	"io"
	"regexp"
	"strings"
	"sync"
	"unicode"
)

// Figure is one picture for the page: its title is the question it answers, the sentence beneath
// is made from its own numbers and is also its description, the table holds them. Annex figures
// stand apart, at the end.
type Figure struct {
	ID, Title, Sentence, SVG string
	Annex                    bool
	Table                    *Table
}

// WriteHTML writes the assessment as one self-contained page: drawings inline, no script, no
// request to anywhere; light and dark on the screen, A4 or Letter on paper. fontCSS holds the
// @font-face rules of the drawings' letters and may be empty. All text of the document is
// escaped. It returns an error when a drawing holds more than drawing; then nothing is written.
func (a Assess) WriteHTML(w io.Writer, figs []Figure, fontCSS string) error {
	p, err := a.page(figs)
	if err != nil {
		return err
	}
	return p.write(w, fontCSS)
}

func (p *page) write(w io.Writer, fontCSS string) error {
	return p.shell.write(w, "page.html", "page.css", "", fontCSS, p)
}

// running is what stands at the head and foot of every sheet of paper.
func (a Assess) running() template.CSS {
	name := plainLine(a.Panel.Accession)
	if name == "" {
		name = a.title()
	}
	if a.Paper == nil {
		return running(name, say("caution.foot"), a.Invented)
	}
	return running(name, a.Paper.Running()+". "+a.Paper.Rests()+" "+say("caution.foot"), a.Invented)
}

func running(name, foot string, invented bool) template.CSS {
	mark := ""
	if invented {
		mark = "@top-right{content:" + cssString(say("invented.mark")) + "}"
	}
	return template.CSS("@page{@top-left{content:" + cssString(name) + "}" + mark +
		"@bottom-left{content:" + cssString(foot) + "}@bottom-right{content:" + sheetOf() + "}}")
}

// sheetOf numbers the sheets of paper.
func sheetOf() string {
	return strings.NewReplacer("%n", `" counter(page) "`, "%t", `" counter(pages) "`).
		Replace(`"` + say("sheet.of", "n", "%n", "total", "%t") + `"`)
}

// cssString quotes s for a style sheet: everything but letters, digits and spaces is written as
// a number, so that no text can end the string or the style.
func cssString(s string) string {
	var b strings.Builder
	b.WriteByte('"')
	for _, r := range s {
		if r == ' ' || unicode.IsLetter(r) || unicode.IsDigit(r) {
			b.WriteRune(r)
			continue
		}
		fmt.Fprintf(&b, `\%x `, r)
	}
	return b.String() + `"`
}

// keepUnits puts unbreakable spaces between a number and its unit and inside "% RH".
func keepUnits(html string) string {
	html = strings.ReplaceAll(html, " % RH", "\u00a0%\u00a0RH")
	return unitAfterNumber().ReplaceAllString(html, "$1\u00a0$2")
}

// unitAfterNumber finds a space that must not break a line.
var unitAfterNumber = sync.OnceValue(func() *regexp.Regexp {
	return regexp.MustCompile(`(\d) (mm|N|kg|°C|J/m2|MPa|days)\b`)
})

// page is what the template shows, all words chosen.
type page struct {
	shell
	Accession, About, Basis   string
	Climate, Sentences, Gates []string
	Range                     section
	Figures, AnnexFigures     []figureView
	Worst                     worstView
	Sections, Annex           []section
	Cautions                  []string
}

// section is a heading with a lead, a table and paragraphs or a list beneath it.
type section struct {
	ID, Title, Lead string
	Whole           bool // not parted over two sheets of paper
	Table           *Table
	Paras, List     []string
}

type figureView struct {
	Figure
	Drawing template.HTML
}

type worstView struct {
	Rows []worstRow
	Rest string
}

type worstRow struct {
	Part, Mode, RH, Share, Evidence string
	Bar                             template.HTML
	Note                            string
}

func (a Assess) page(figs []Figure) (*page, error) {
	p := &page{
		shell:     shell{Title: a.title(), Invented: a.Invented, Running: a.running(), Paper: a.Paper},
		Accession: plainLine(a.Panel.Accession), About: a.about(), Basis: a.basis(), Climate: a.climate(), Sentences: a.opening(), Cautions: a.Cautions,
		Sections: a.sections(), Annex: a.annex(), Worst: a.worstView(),
	}
	for _, g := range a.Gates {
		p.Gates = append(p.Gates, g.Text)
	}
	p.Range = section{ID: "range", Whole: true, Title: say("range.title"), Paras: nonEmpty(a.WhyNoRange())}
	if t := a.rangeTable(); len(t.Rows) > 0 {
		p.Range.Table, p.Range.Lead = &t, say("range.lead")
	}
	return p, p.hang(figs)
}

// hang puts the figures into the page, those of the annex apart.
func (p *page) hang(figs []Figure) error {
	for _, f := range figs {
		svg, err := inlineSVG(f)
		if err != nil {
			return err
		}
		if f.Annex {
			p.AnnexFigures = append(p.AnnexFigures, figureView{f, svg})
		} else {
			p.Figures = append(p.Figures, figureView{f, svg})
		}
	}
	return nil
}

func nonEmpty(texts ...string) []string {
	var out []string
	for _, s := range texts {
		if s != "" {
			out = append(out, s)
		}
	}
	return out
}
