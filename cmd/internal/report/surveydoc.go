package report

import (
	"fmt"
	"slices"
	"strings"
	"time"

	"crossgrain/moisture"
	"crossgrain/panel"
	"crossgrain/panel/survey"
)

// Survey is the document of the command survey: many panels and several stores. There are groups and no ranks.
type Survey struct {
	Head
	Invented     bool           `json:"invented"`
	Cases        int            `json:"cases"`
	Sentences    []string       `json:"sentences"`
	Counts       SurveyCounts   `json:"counts"`
	Stores       []SurveyStore  `json:"stores"`
	Panels       []SurveyPanel  `json:"panels"`
	Placement    []SurveyMove   `json:"placement"`
	Unplaced     string         `json:"placement_why_not"` // no_room, parted, too_many, nothing; empty: it was worked out
	Parted       string         `json:"placement_group"`
	Before       float64        `json:"expected_as_they_stand"` // panels at a limit, of those that can be told
	After        float64        `json:"expected_as_placed"`
	Middle       float64        `json:"curve_middle_rh_pct"`
	CurveOf      int            `json:"curve_panels"`
	Curve        []SurveyStep   `json:"curve"`
	Day          []SurveyTask   `json:"day"`
	DayHours     float64        `json:"day_hours"`
	Settles      int            `json:"day_settles"`
	Twins        []SurveyTwin   `json:"duplicates"`
	Missing      []string       `json:"without_file"`
	PartedGroups []string       `json:"groups_in_several_stores"` // by the panels' own files; they bind no placement
	Cautions     []string       `json:"cautions"`
	names        map[string]int // of stores
}

// SurveyCounts are how many panels are in each group.
type SurveyCounts struct {
	First  int `json:"look_first"`
	Next   int `json:"next"`
	Wait   int `json:"can_wait"`
	Untold int `json:"cannot_tell"`
}

func (c *SurveyCounts) add(g survey.Group) {
	switch g {
	case survey.First:
		c.First++
	case survey.Next:
		c.Next++
	case survey.Wait:
		c.Wait++
	default:
		c.Untold++
	}
}

// SurveyStore is one store.
type SurveyStore struct {
	Name    string       `json:"name"`
	Title   string       `json:"title"`
	Record  string       `json:"record"` // empty: a band
	From    string       `json:"record_from"`
	To      string       `json:"record_to"`
	LowPct  *float64     `json:"low_rh_pct"` // that the wood of its or of other panels comes into balance with; null: of none
	HighPct *float64     `json:"high_rh_pct"`
	Places  int          `json:"places"`
	Held    int          `json:"panels_now"`
	Placed  int          `json:"panels_as_placed"`
	Last    *float64     `json:"last_place_gain"` // expected panels at a limit; null: without it they do not fit
	Next    *float64     `json:"next_place_gain"`
	Counts  SurveyCounts `json:"counts"`
}

// SurveyPanel is one panel.
type SurveyPanel struct {
	Accession string       `json:"accession"`
	Title     string       `json:"title"`
	File      string       `json:"file"`
	Group     string       `json:"group"`
	Store     string       `json:"store"` // empty: not told
	Rack      string       `json:"rack"`
	Few       *float64     `json:"per_100_low"`
	Many      *float64     `json:"per_100"` // the unfavourable answer of an unknown; null: it cannot be told
	Mode      string       `json:"mode"`
	Part      string       `json:"part"`
	Reason    string       `json:"reason"` // count, failed, twice, gate, depends, apart, no_store, no_climate, unlooked
	Why       string       `json:"why"`
	Known     int          `json:"facts_known"`
	Of        int          `json:"facts"`
	AsFound   bool         `json:"mostly_described"` // at least half of the facts are known
	Stays     bool         `json:"stays"`
	Together  string       `json:"together"`
	Cells     []SurveyCell `json:"stores"`
}

// SurveyCell is one panel in one store.
type SurveyCell struct {
	Store   string   `json:"store"`
	LowPct  *float64 `json:"low_rh_pct"`
	HighPct *float64 `json:"high_rh_pct"`
	Few     *float64 `json:"per_100_low"`
	Many    *float64 `json:"per_100"`
	Mode    string   `json:"mode"`
	Part    string   `json:"part"`
	Untold  string   `json:"why_not"`
}

// SurveyMove is one panel that would stand better elsewhere.
type SurveyMove struct {
	Accession string  `json:"accession"`
	From      string  `json:"from"`
	To        string  `json:"to"`
	Was       float64 `json:"per_100_now"`
	Is        float64 `json:"per_100_there"`
	// The plan of the move: months (1 to 12) to begin in, none where neither store has a season; humidities to hold one after the
	// other, none where it may be moved at once; weeks at each and in all; why there is no plan: worse, unknown.
	Start    []int     `json:"start_months"`
	FromPct  float64   `json:"from_rh_pct"`
	ToPct    float64   `json:"to_rh_pct"`
	StepsPct []float64 `json:"steps_rh_pct"`
	Arrives  int       `json:"arrives_month"` // begun in the first of these months; 0: in any season
	Weeks    int       `json:"weeks_each"`
	Total    int       `json:"weeks"`
	PlanWhy  string    `json:"plan_why_not"`
}

func surveyMove(m survey.Move, number, from, to string) SurveyMove {
	p := &m.Plan
	out := SurveyMove{Accession: number, From: from, To: to, Was: m.Was, Is: m.Is, Start: p.Start, FromPct: p.From.Percent(), ToPct: p.To.Percent(),
		Arrives: p.Arrives, Weeks: p.Weeks, Total: p.Total(), PlanWhy: string(p.Why)}
	for _, s := range p.Steps {
		out.StepsPct = append(out.StepsPct, s.Percent())
	}
	return out
}

// plan tells a move in words.
func (m *SurveyMove) plan() string {
	switch {
	case m.PlanWhy != "":
		return say("survey.plan." + m.PlanWhy)
	case len(m.StepsPct) == 0 && len(m.Start) == 0:
		return say("survey.plan.once", "from", whole(m.FromPct), "to", whole(m.ToPct))
	case len(m.StepsPct) == 0:
		return say("survey.plan.once.season", "months", months(m.Start), "from", whole(m.FromPct), "to", whole(m.ToPct))
	}
	steps := make([]string, len(m.StepsPct))
	for i, s := range m.StepsPct {
		steps[i] = whole(s)
	}
	slots := []string{"from", whole(m.FromPct), "steps", strings.Join(steps, ", "), "weeks", plural("survey.weeks", m.Weeks), "total", plural("survey.weeks", m.Total)}
	if len(m.Start) == 0 {
		return say("survey.plan.steps", slots...)
	}
	return say("survey.plan.steps.season", append(slots, "months", months(m.Start), "arrives", time.Month(m.Arrives).String())...)
}

// months names months, the first of them the best.
func months(list []int) string {
	if len(list) == 12 {
		return say("survey.months.any", "best", time.Month(list[0]).String())
	}
	names := make([]string, len(list))
	for i, m := range list {
		names[i] = time.Month(m).String()
	}
	return strings.Join(names, ", ")
}

// SurveyStep is one width of a band.
type SurveyStep struct {
	Width   float64  `json:"width_points"`
	LowPct  float64  `json:"low_rh_pct"`
	HighPct float64  `json:"high_rh_pct"`
	Need    int      `json:"panels"`
	New     []string `json:"joining"`
}

// SurveyTask is one thing to find out.
type SurveyTask struct {
	Accession string  `json:"accession"`
	Store     string  `json:"store"`
	Rack      string  `json:"rack"`
	What      string  `json:"what"`
	Means     string  `json:"means"`
	By        string  `json:"by"`
	Minutes   float64 `json:"minutes"`
	Worth     float64 `json:"worth"`
}

// SurveyTwin is a number that stands in several files.
type SurveyTwin struct {
	Accession string   `json:"accession"`
	Files     []string `json:"files"`
}

// BuildSurvey turns a result into the document of the command survey. digest is of all files that were read.
func BuildSurvey(r *survey.Result, m Meta, digest string) Survey {
	d := Survey{
		Head:     Head{Format: 1, Kind: "survey", Version: m.Version, PanelDigest: digest, Seed: m.Seed, Setting: "quick"},
		Invented: m.Invented, Cases: r.Cases, Unplaced: string(r.Placement.Why), Parted: r.Placement.Who, Before: r.Placement.Before, After: r.Placement.After,
		Middle: r.Curve.Middle.Percent(), CurveOf: r.Curve.Panels, DayHours: r.Day.Minutes / 60, Settles: r.Day.Settles, Missing: r.Missing, PartedGroups: r.Parted,
		Cautions: Cautions(), names: map[string]int{},
	}
	for i, s := range r.Stores.List {
		d.names[s.Name] = i
		d.Stores = append(d.Stores, surveyStore(r, i))
	}
	for i := range r.Rows {
		row := &r.Rows[i]
		d.Counts.add(row.Group)
		if row.Store >= 0 {
			d.Stores[row.Store].Counts.add(row.Group)
		}
		d.Panels = append(d.Panels, d.panel(row))
	}
	for _, p := range r.Placement.Moves {
		d.Placement = append(d.Placement, surveyMove(p, d.Panels[p.Row].Accession, d.Stores[p.From].Name, d.Stores[p.To].Name))
	}
	for _, s := range r.Curve.Steps {
		step := SurveyStep{Width: s.Width.Percent(), LowPct: s.Low.Percent(), HighPct: s.High.Percent(), Need: s.Need}
		for _, i := range s.New {
			step.New = append(step.New, d.Panels[i].Accession)
		}
		d.Curve = append(d.Curve, step)
	}
	for _, t := range r.Day.List {
		p := &d.Panels[t.Row]
		d.Day = append(d.Day, SurveyTask{p.Accession, p.Store, p.Rack, upperFirst(t.What), t.Means, t.By, t.Minutes, t.Worth})
	}
	for _, t := range r.Twins {
		d.Twins = append(d.Twins, SurveyTwin{t.Number, t.Files})
	}
	d.Sentences = d.opening()
	return d
}

func surveyStore(r *survey.Result, i int) SurveyStore {
	s, room := &r.Stores.List[i], &r.Placement.Stores[i]
	out := SurveyStore{Name: s.Name, Title: s.Title, Record: s.File, Places: room.Places, Held: room.Before, Placed: room.After, Last: number(room.Last), Next: number(room.Next)}
	if s.Record != nil && len(s.Record.Times) > 0 {
		out.From, out.To = isoDay(s.Record.Times[0]), isoDay(s.Record.Times[len(s.Record.Times)-1])
	}
	low, high := moisture.RH(1), moisture.RH(0)
	for k := range r.Rows {
		if row := &r.Rows[k]; i < len(row.Cells) && row.Cells[i].Told {
			low, high = min(low, row.Cells[i].Low), max(high, row.Cells[i].High)
		}
	}
	if s.Record == nil {
		low, high = s.Low, s.High
	}
	if low < high {
		out.LowPct, out.HighPct = number(low.Percent()), number(high.Percent())
	}
	return out
}

func (d *Survey) panel(row *survey.Row) SurveyPanel {
	p := SurveyPanel{
		Accession: row.Number, Title: row.Title, File: row.File, Group: string(row.Group), Rack: row.Rack, Reason: string(row.Why), Known: row.Facts, Of: row.Of,
		AsFound: row.Known(), Stays: row.Stays, Together: row.Together,
	}
	if row.Store >= 0 {
		p.Store = d.Stores[row.Store].Name
	}
	figures := row.Why == survey.ByCount || row.Why == survey.Apart || row.Why == survey.NoStore || row.Why == survey.NoClimate
	for i := range row.Cells {
		c := &row.Cells[i]
		cell := SurveyCell{Store: d.Stores[i].Name, Untold: c.Untold}
		if c.Told {
			cell.LowPct, cell.HighPct = number(c.Low.Percent()), number(c.High.Percent())
		}
		if c.Told && figures {
			cell.Few, cell.Many, cell.Mode, cell.Part = number(c.Few), number(c.Many), string(c.Mode), c.Part
		}
		p.Cells = append(p.Cells, cell)
		if i == row.Store {
			p.Few, p.Many, p.Mode, p.Part = cell.Few, cell.Many, cell.Mode, cell.Part
		}
	}
	p.Why = d.why(row, &p)
	return p
}

// why is the one reason in words.
func (d *Survey) why(row *survey.Row, p *SurveyPanel) string {
	question := ""
	if row.Fork != nil {
		question = plainLine(row.Fork.Question)
	}
	switch row.Why {
	case survey.Failed:
		return say("survey.why.failed", "why", plainLine(row.Failed))
	case survey.Twice:
		return say("survey.why.twice", "files", plainLine(strings.Join(row.Also, ", ")))
	case survey.Gated:
		i := slices.IndexFunc(row.Gates, func(g panel.Gate) bool { return g.NoFigures })
		return plainLine(row.Gates[i].Text)
	case survey.Depends:
		return say("survey.why.depends", "question", question)
	case survey.Apart:
		return say("survey.why.apart", "question", question, "few", hundred(*p.Few), "many", hundred(*p.Many))
	case survey.NoStore:
		return say("survey.why.no_store")
	case survey.Unlooked:
		return say("survey.why.unlooked")
	case survey.NoClimate:
		return say("survey.why.no_climate", "store", d.title(p.Store), "why", plainLine(row.Cells[row.Store].Untold))
	}
	c := row.Here()
	low, high := whole(c.Low.Percent()), whole(c.High.Percent())
	if p.Part == "" {
		return say("survey.why.nothing", "low", low, "high", high)
	}
	if p.Group == string(survey.Wait) {
		return say("survey.why.wait", "part", upperFirst(PartWords(p.Part)), "mode", ModeWords(p.Mode), "low", low, "high", high)
	}
	return say("survey.why.count", "part", upperFirst(PartWords(p.Part)), "mode", ModeWords(p.Mode), "low", low, "high", high)
}

// title is a store's name for readers.
func (d *Survey) title(name string) string {
	if i, ok := d.names[name]; ok {
		return plainLine(d.Stores[i].Title)
	}
	return say("survey.nostore")
}

// opening are the three sentences.
func (d *Survey) opening() []string {
	n, c := func(v int) string { return fmt.Sprint(v) }, d.Counts
	out := []string{say("survey.open.groups", "panels", plural("survey.panels", len(d.Panels)), "stores", plural("survey.stores", len(d.Stores)),
		"first", n(c.First), "next", n(c.Next), "wait", n(c.Wait), "untold", n(c.Untold))}
	switch {
	case d.Unplaced != "":
		out = append(out, d.unplaced())
	case len(d.Placement) == 0:
		out = append(out, say("survey.open.stay"))
	default:
		out = append(out, say("survey.open.moves", "moves", plural("survey.moves", len(d.Placement)), "before", oneDecimal(d.Before), "after", oneDecimal(d.After)))
	}
	if len(d.Day) == 0 {
		return append(out, say("survey.open.noday"))
	}
	return append(out, say("survey.open.day", "tasks", plural("survey.tasks", len(d.Day)), "minutes", whole(60*d.DayHours), "settles", n(d.Settles)))
}

// unplaced says why there is no placement.
func (d *Survey) unplaced() string {
	if d.Unplaced == string(survey.Parted) {
		return say("survey.unplaced.parted", "group", plainLine(d.Parted))
	}
	return say("survey.unplaced." + d.Unplaced)
}
