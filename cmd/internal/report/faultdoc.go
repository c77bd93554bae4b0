package report

import (
	"strings"

	"crossgrain/panel"
	"crossgrain/panel/fault"
)

// Fault is the document of the command fault, made beforehand: cards, and the door sheet of a store.
type Fault struct {
	Head
	Invented bool          `json:"invented"`
	Name     string        `json:"name"` // of the panel or the store
	Cards    []FaultCard   `json:"cards"`
	Door     *FaultDoor    `json:"door_sheet"` // null for a panel by itself
	Failed   []FaultUnread `json:"failed"`     // files that could not be read
	Cautions []string      `json:"cautions"`
}

// FaultGrid says what to do by reading and hours: "wait", "call" or "act".
type FaultGrid struct {
	Rows     []FaultRow `json:"rows"`
	ColumnsH []float64  `json:"columns_h"` // up to how long it has stood so
	Cells    [][]string `json:"cells"`
}

// FaultRow is a row of readings, and after how many hours to call and to act; null: not within three
// months. Low is included, high is not; a reading on the border counts in the row farther from the middle.
type FaultRow struct {
	LowRHPct  float64  `json:"low_rh_pct"`
	HighRHPct float64  `json:"high_rh_pct"`
	CallH     *float64 `json:"call_after_h"`
	ActH      *float64 `json:"act_after_h"`
}

// FaultCard is the card of one panel for one logger. Where no hours are given rows, columns and cells
// are empty, and CallAtOnce says why.
type FaultCard struct {
	FaultFiled
	Reading    string     `json:"reading"`        // whose reading: "room" or "case"
	ClosedCase bool       `json:"in_closed_case"` // it is in a closed case
	Case       *FaultCase `json:"case"`
	FromDry    *float64   `json:"from_dry_rh_pct"`
	FromDamp   *float64   `json:"from_damp_rh_pct"`
	CountedMM  *float64   `json:"counted_thickness_mm"` // where none is recorded
	BareBack   bool       `json:"back_counted_as_bare"`
	First      string     `json:"first"` // mode:part that reaches its limit first
	Lived      *Lived     `json:"lived_through"`
	LivedHow   string     `json:"lived_through_counts"` // "counted", "against": it speaks against the calculation and is not; empty: no evidence
	Season     bool       `json:"from_season"`          // counted from the worst season of its home
	Passed     bool       `json:"season_passed_call"`   // not so, because it is past the point to call there by calculation
	SeasonWhy  string     `json:"season_why_not"`       // not so, because its record gives none
	CallAtOnce []string   `json:"call_at_once"`
	Panels     []string   `json:"crate_panels"` // of a crate, with its card for all of them; empty: it is the card of one panel
	Soonest    string     `json:"crate_first"`  // of them, the one that is to be called for soonest
	Notes      []string   `json:"crate_notes"`  // what is assumed or known of which of them, in words
	FaultGrid
}

// FaultFiled is a panel and its file.
type FaultFiled struct {
	Accession string `json:"accession"`
	Title     string `json:"title"`
	Place     string `json:"place"` // folder below that of the store
	File      string `json:"file"`
	Digest    string `json:"panel_digest"`
}

// FaultUnread is a panel that could not be read or worked out, and why.
type FaultUnread struct {
	FaultFiled
	Why string `json:"error"`
}

// FaultCase is a closed case.
type FaultCase struct {
	VolumeL       float64 `json:"volume_l"`
	ChangesPerDay float64 `json:"air_changes_per_day"`
	BufferKg      float64 `json:"buffer_kg"`
}

// FaultDoor is the door sheet: the worst panel of the store by row, and for each row which panels come
// first. Readings are of the room.
type FaultDoor struct {
	Reading string `json:"reading"`
	FaultGrid
	Order  [][]FaultTurn `json:"order"` // by row, fewest hours first
	Panels []FaultTurns  `json:"panels"`
}

// FaultTurn is a panel that has to be called for.
type FaultTurn struct {
	Accession string  `json:"accession"`
	Place     string  `json:"place"`
	CallH     float64 `json:"call_after_h"`
}

// FaultTurns is a panel with the hours of all rows, in the order of the places; at once: no hours are given.
type FaultTurns struct {
	Accession string     `json:"accession"`
	Place     string     `json:"place"`
	AtOnce    []string   `json:"call_at_once"`
	CallH     []*float64 `json:"call_after_h"`
	ActH      []*float64 `json:"act_after_h"`
}

// FaultSource is one panel as it was read and worked out; Err says why it was not.
type FaultSource struct {
	File, Place string
	Panel       *panel.Panel
	Cards       []fault.Card
	Case        *FaultCase
	Err         error
}

// BuildFault makes the document. Sources come in the order of their places; store asks for a door sheet.
func BuildFault(h Head, name string, store bool, sources []FaultSource) Fault {
	h.Format, h.Kind = 1, "fault"
	f := Fault{Head: h, Name: name, Failed: []FaultUnread{}, Cautions: FaultCautions()}
	var grids []*fault.Grid
	var panels []FaultTurns
	for _, s := range sources {
		filed := filedOf(s.File, s.Place, s.Panel)
		if s.Err != nil {
			why := s.Err.Error()
			f.Failed = append(f.Failed, FaultUnread{filed, why})
			grids = append(grids, nil)
			panels = append(panels, FaultTurns{Accession: filed.name(), Place: s.Place, AtOnce: []string{say("fault.once.unread", "why", firstLine(why))}})
			continue
		}
		f.Invented = f.Invented || s.Panel.Invented()
		for _, c := range s.Cards {
			card := cardOf(filed, c, s.Case)
			f.Cards = append(f.Cards, card)
			if !c.ByCase {
				grids = append(grids, c.Grid)
				panels = append(panels, turnsOf(card))
			}
		}
	}
	if store {
		f.Door = doorOf(grids, panels)
	}
	return f
}

func filedOf(file, place string, p *panel.Panel) FaultFiled {
	out := FaultFiled{File: file, Place: place}
	if p != nil {
		out.Accession, out.Title, out.Digest = p.Accession(), p.Title(), p.Digest()
	}
	return out
}

// name is the number, or the file where there is none.
func (f FaultFiled) name() string {
	if a := plainLine(f.Accession); a != "" {
		return a
	}
	return strings.TrimSuffix(fileWords(f.File), ".toml")
}

func cardOf(filed FaultFiled, c fault.Card, in *FaultCase) FaultCard {
	out := FaultCard{
		FaultFiled: filed, Reading: "room", ClosedCase: c.InCase, First: c.First, BareBack: c.BareBack,
		CallAtOnce: []string{}, FaultGrid: gridOf(c.Grid),
		Season: c.Season, Passed: c.Passed, SeasonWhy: c.SeasonWhy, LivedHow: livedHow(c.Outlived),
	}
	if c.InCase {
		out.Case = in
	}
	if c.ByCase {
		out.Reading = "case"
	}
	if c.Panel == nil { // a crate
		if c.Grid != nil {
			out.FromDry, out.FromDamp = number(c.Grid.FromDry.Percent()), number(c.Grid.FromDamp.Percent())
		}
		return out
	}
	if l := c.Panel.Lived(); l.High > 0 && l.Why == "" {
		out.Lived = &Lived{l.Low.Percent(), l.High.Percent()}
	}
	if c.Thin > 0 {
		out.CountedMM = &c.Thin
	}
	if c.Grid != nil {
		out.FromDry, out.FromDamp = number(c.Grid.FromDry.Percent()), number(c.Grid.FromDamp.Percent())
	}
	for _, g := range c.Gates {
		out.CallAtOnce = append(out.CallAtOnce, firstSentence(g.Text))
	}
	if c.Withheld != "" {
		out.CallAtOnce = append(out.CallAtOnce, say("fault.once.thin"))
	}
	return out
}

// firstSentence is the finding of a gate without what can still be said.
func firstSentence(s string) string {
	for _, end := range []string{". ", ": "} {
		if head, _, ok := strings.Cut(s, end); ok {
			s = head
		}
	}
	return strings.TrimSuffix(s, ".") + "."
}

func firstLine(s string) string {
	if head, rest, ok := strings.Cut(s, "\n"); ok {
		s, _, _ = strings.Cut(rest, "\n")
		if s == "" {
			s = head
		}
	}
	return plainLine(s)
}

func gridOf(g *fault.Grid) FaultGrid {
	out := FaultGrid{Rows: []FaultRow{}, ColumnsH: []float64{}, Cells: [][]string{}}
	if g == nil {
		return out
	}
	out.ColumnsH = fault.Hours()
	for i, cells := range g.Cells() {
		r, u := g.Rows[i], g.Until[i]
		out.Rows = append(out.Rows, FaultRow{r.Low.Percent(), r.High.Percent(), number(u.Call), number(u.Act)})
		var words []string
		for _, a := range cells {
			words = append(words, a.String())
		}
		out.Cells = append(out.Cells, words)
	}
	return out
}

func turnsOf(c FaultCard) FaultTurns {
	out := FaultTurns{Accession: c.name(), Place: c.Place, AtOnce: c.CallAtOnce}
	for _, r := range c.Rows {
		out.CallH, out.ActH = append(out.CallH, r.CallH), append(out.ActH, r.ActH)
	}
	return out
}

func doorOf(grids []*fault.Grid, panels []FaultTurns) *FaultDoor {
	worst := fault.Worst(grids)
	d := &FaultDoor{Reading: "room", FaultGrid: gridOf(worst), Order: [][]FaultTurn{}, Panels: panels}
	for row := range d.Rows {
		turns := []FaultTurn{}
		for _, i := range fault.Order(grids, row) {
			turns = append(turns, FaultTurn{panels[i].Accession, panels[i].Place, grids[i].Until[row].Call})
		}
		d.Order = append(d.Order, turns)
	}
	return d
}

// FaultCautions returns what stands on every card and door sheet.
func FaultCautions() []string { return []string{say("fault.caution"), say("fault.loose")} }
