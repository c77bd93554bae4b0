package report

import (
	"encoding/csv"
	"fmt"
	"io"
	"strings"

	"crossgrain/panel/survey"
)

// WriteText writes the survey for a terminal, no line over 80 columns.
func (d Survey) WriteText(w io.Writer) error {
	t := &textPage{}
	if d.Invented {
		t.paras(say("invented.mark") + ". " + say("invented.sentence"))
		t.line("")
	}
	for i, s := range d.Sentences {
		t.hang("  "+whole(float64(i+1))+"  ", s)
	}
	for _, s := range append(d.groups(), d.after()...) {
		t.section(s)
	}
	t.line("")
	t.paras(say("survey.basis", "n", fmt.Sprint(d.Cases)))
	t.paras(d.Cautions...)
	return t.to(w)
}

// WriteCSV writes one row for each panel and store, by the rules of [Assess.WriteCSV].
func (d Survey) WriteCSV(w io.Writer) error {
	rows := [][]string{{
		"panel_text", "title_text", "file_text", "group_text", "reason_text", "why_text", "facts_known_1", "facts_1", "stands_text", "rack_text", "in_store_text",
		"low_rh_pct", "high_rh_pct", "per_100_low_1", "per_100_1", "mode_text", "part_text", "move_here_text", "move_steps_rh_pct", "move_weeks_1",
	}}
	plans := map[[2]string]*SurveyMove{}
	for i := range d.Placement {
		plans[[2]string{d.Placement[i].Accession, d.Placement[i].To}] = &d.Placement[i]
	}
	for _, p := range d.Panels {
		head := []string{cellText(p.Accession), cellText(p.Title), cellText(p.File), p.Group, p.Reason, cellText(p.Why), fmt.Sprint(p.Known), fmt.Sprint(p.Of), cellText(p.Store), cellText(p.Rack)}
		cells := p.Cells
		if len(cells) == 0 {
			cells = []SurveyCell{{}}
		}
		for _, c := range cells {
			rows = append(rows, append(append(head[:len(head):len(head)], cellText(c.Store), cellPointer(c.LowPct), cellPointer(c.HighPct), cellPointer(c.Few), cellPointer(c.Many), c.Mode, cellText(c.Part)), plans[[2]string{p.Accession, c.Store}].cells()...))
		}
	}
	return csv.NewWriter(w).WriteAll(rows)
}

// cells are the plan of a move into the store of a row; empty where the panel is not moved there.
func (m *SurveyMove) cells() []string {
	if m == nil {
		return []string{"", "", ""}
	}
	steps := make([]string, len(m.StepsPct))
	for i, s := range m.StepsPct {
		steps[i] = cellNumber(s)
	}
	return []string{cellText(m.plan()), strings.Join(steps, " "), fmt.Sprint(m.Total)}
}

// overview is what the template shows, all words chosen.
type overview struct {
	shell
	Sentences     []string
	Basis         string
	Groups, After []section
	Heads         []string
	Stores        []overStore
	Cautions      []string
}

type overStore struct {
	ID, Title, Climate string
	Racks              []overRack
}

type overRack struct {
	ID, Title string
	Rows      []overRow
}

type overRow struct {
	ID    string
	Cells []string
}

// WriteHTML writes the survey as one self-contained page, by the rules of [Assess.WriteHTML]: the groups, placement and the day first, then
// every panel by store and rack, each with an anchor of its own.
func (d Survey) WriteHTML(w io.Writer, fontCSS string) error {
	o := &overview{
		shell: shell{
			Title: say("survey.title"), Invented: d.Invented,
			Running: running(say("survey.title"), say("survey.foot", "digest", d.PanelDigest[:min(16, len(d.PanelDigest))], "version", d.Version)+" "+say("caution.foot"), d.Invented),
		},
		Sentences: d.Sentences, Basis: say("survey.basis", "n", fmt.Sprint(d.Cases)),
		Groups: d.groups(), After: d.after(), Stores: d.byRack(), Cautions: d.Cautions,
	}
	o.Heads = []string{say("survey.col.panel"), say("survey.col.group")}
	for _, s := range d.Stores {
		o.Heads = append(o.Heads, say("survey.col.in", "store", plainLine(s.Title)))
	}
	o.Heads = append(o.Heads, say("survey.col.why"), say("survey.col.facts"), say("survey.col.seen"))
	return o.shell.write(w, "survey.html", "page.css", "survey.css", fontCSS, o)
}

// byRack lists every panel by store and rack, in the order of the list of stores; those without a store come last.
func (d Survey) byRack() []overStore {
	taken := map[string]bool{}
	anchor := func(kind, name string) string {
		id := kind + "-" + strings.Map(func(c rune) rune {
			if c >= 'a' && c <= 'z' || c >= '0' && c <= '9' {
				return c
			}
			return '-'
		}, strings.ToLower(name))
		for base, k := id, 2; taken[id]; k++ { // names may look alike so
			id = fmt.Sprintf("%s-%d", base, k)
		}
		taken[id] = true
		return id
	}
	var out []overStore
	for i := range len(d.Stores) + 1 {
		name, s := "", overStore{}
		if i < len(d.Stores) {
			name = d.Stores[i].Name
			if in := &d.Stores[i]; in.LowPct != nil {
				s.Climate = say("survey.climate", "low", whole(*in.LowPct), "high", whole(*in.HighPct))
			}
		}
		s.Title = d.title(name)
		for _, p := range d.Panels {
			if p.Store != name {
				continue
			}
			k := len(s.Racks) - 1
			if k < 0 || s.Racks[k].Title != rackName(p.Rack) {
				s.Racks = append(s.Racks, overRack{ID: anchor("rack", name+" "+p.Rack), Title: rackName(p.Rack)})
				k++
			}
			s.Racks[k].Rows = append(s.Racks[k].Rows, overRow{anchor("panel", p.Accession), d.rackRow(p)})
		}
		if len(s.Racks) > 0 {
			s.ID = anchor("store", name)
			out = append(out, s)
		}
	}
	return out
}

func rackName(rack string) string {
	if rack == "" {
		return say("survey.norack")
	}
	if saysWhat(rack) {
		return upperFirst(plainLine(rack))
	}
	return say("survey.rack", "rack", plainLine(rack))
}

func (d Survey) rackRow(p SurveyPanel) []string {
	row := []string{p.named(), groupWord(p.Group)}
	for i, s := range d.Stores {
		cell := "–"
		if i < len(p.Cells) {
			cell = per100(p.Cells[i].Few, p.Cells[i].Many)
		}
		if s.Name == p.Store && cell != "–" {
			cell = say("survey.here", "n", cell)
		}
		row = append(row, cell)
	}
	return append(row, p.Why, p.facts(), "")
}

func groupWord(g string) string {
	switch survey.Group(g) {
	case survey.First:
		return say("survey.first")
	case survey.Next:
		return say("survey.next")
	case survey.Wait:
		return say("survey.wait")
	}
	return say("survey.untold")
}
