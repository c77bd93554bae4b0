package report

import (
	"encoding/csv"
	"fmt"
	"io"
	"strings"
	"time"

	"crossgrain/moisture/record"
	"crossgrain/panel/fault"
)

// FaultEvent is the document of the command fault with a record: what each panel did in it.
type FaultEvent struct {
	Head
	Paper    *Paper        `json:"paper,omitempty"` // of a paper in a folder
	Invented bool          `json:"invented"`
	Name     string        `json:"name"`
	Record   EventRecord   `json:"record"`
	Panels   []EventPanel  `json:"panels"`
	Failed   []FaultUnread `json:"failed"`
	Cautions []string      `json:"cautions"`
}

// EventRecord is the record of the event.
type EventRecord struct {
	File       string   `json:"file"`
	First      string   `json:"first"`
	Last       string   `json:"last"`
	From       string   `json:"followed_from"` // what was before the first reading of the event led up to it
	Zone       string   `json:"zone"`          // empty: times as the logger wrote them
	Hours      float64  `json:"hours"`
	MinPct     float64  `json:"min_rh_pct"`
	MaxPct     float64  `json:"max_rh_pct"`
	MeanPct    float64  `json:"mean_rh_pct"`
	Most24hPct *float64 `json:"largest_24h_points"`
}

// EventPanel is one panel: the event in Parts, slow change in Slow.
type EventPanel struct {
	FaultFiled
	Gates []string    `json:"look_first"` // findings that stand before any number
	Start float64     `json:"start_rh_pct"`
	Home  bool        `json:"record_is_home"` // long enough to be run in through its first year
	Parts []EventPart `json:"event"`
	Slow  EventSlow   `json:"slow_change"`
}

// EventPart is a part at its worst moment.
type EventPart struct {
	Mode      string  `json:"mode"`
	Part      string  `json:"part"`
	Share     float64 `json:"share_of_limit"`
	ShareLow  float64 `json:"share_low"`
	ShareHigh float64 `json:"share_high"`
	At        string  `json:"at"`
	RHPct     float64 `json:"wood_rh_pct"`          // in balance with the wood then
	First     string  `json:"limit_reached_at"`     // empty: never
	Before    bool    `json:"limit_reached_before"` // it was reached already when the event began
}

// EventSlow is what belongs to months and years.
type EventSlow struct {
	MeanRHPct float64      `json:"mean_rh_pct"`
	Set       float64      `json:"set_strain"`
	Season    []SeasonPart `json:"if_mean_stayed"`
}

// SeasonPart is a part of the event if the mean of the record stayed for a season.
type SeasonPart struct {
	Mode  string  `json:"mode"`
	Part  string  `json:"part"`
	Share float64 `json:"share_of_limit"`
}

// EventSource is one panel as it was followed; Err says why it was not.
type EventSource struct {
	File, Place string
	Event       *fault.Event
	Err         error
}

// BuildEvent makes the document of an event within the whole record that was followed. Panels keep the order of the sources, which is that of their places.
func BuildEvent(h Head, name string, whole, event *record.Record, sources []EventSource) FaultEvent {
	h.Format, h.Kind = 1, "fault_event"
	f := FaultEvent{
		Head: h, Name: name, Record: eventRecordOf(event), Panels: []EventPanel{}, Failed: []FaultUnread{},
		Cautions: []string{say("fault.caution")},
	}
	f.Record.From = whole.Civil(0).Format(isoMinute)
	for _, s := range sources {
		if s.Err != nil {
			f.Failed = append(f.Failed, FaultUnread{filedOf(s.File, s.Place, nil), s.Err.Error()})
			continue
		}
		f.Invented = f.Invented || s.Event.Panel.Invented()
		f.Panels = append(f.Panels, eventPanel(filedOf(s.File, s.Place, s.Event.Panel), s.Event))
	}
	return f
}

func eventRecordOf(rec *record.Record) EventRecord {
	st, n := rec.Stats(), len(rec.Times)
	out := EventRecord{
		File: rec.Name, First: rec.Civil(0).Format(isoMinute), Last: rec.Civil(n - 1).Format(isoMinute),
		Hours: rec.Times[n-1].Sub(rec.Times[0]).Hours(), MinPct: 100 * st.MinRH, MaxPct: 100 * st.MaxRH, MeanPct: 100 * st.MeanRH,
	}
	if rec.Zone != nil {
		out.Zone = rec.Zone.String()
	}
	if out.Hours >= 24 {
		out.Most24hPct = number(100 * rec.Change(record.Humidity, 24*time.Hour, record.WithinWindow).Largest)
	}
	return out
}

func eventPanel(filed FaultFiled, e *fault.Event) EventPanel {
	out := EventPanel{
		FaultFiled: filed, Gates: []string{}, Start: e.Start.Percent(), Home: e.Lived, Parts: []EventPart{},
		Slow: EventSlow{MeanRHPct: e.Slow.Mean.Percent(), Set: e.Slow.Set, Season: []SeasonPart{}},
	}
	for _, g := range e.Gates {
		out.Gates = append(out.Gates, firstSentence(g.Text))
	}
	for _, p := range e.Parts {
		mode := string(p.Demand.Mode)
		part := EventPart{
			Mode: mode, Part: p.Demand.Part, Share: p.Demand.Share(), ShareLow: p.Band.Low, ShareHigh: p.Band.High,
			At: p.Time.Format(isoMinute), RHPct: p.RH.Percent(), Before: p.Before,
		}
		if !p.First.IsZero() {
			part.First = p.First.Format(isoMinute)
		}
		out.Parts = append(out.Parts, part)
		if p.HasSeason {
			out.Slow.Season = append(out.Slow.Season, SeasonPart{mode, p.Demand.Part, p.Season})
		}
	}
	return out
}

// eventLong is the length of a record from which it holds more than an event, hours: two months.
const eventLong = 60 * 24

// about tells of the record.
func (r EventRecord) about() []string {
	out := []string{say("event.record", "file", fileWords(r.File), "first", clockWords(r.First), "last", clockWords(r.Last))}
	if r.Zone == "" {
		out = append(out, say("event.nozone"))
	} else {
		out = append(out, say("event.zone", "zone", r.Zone))
	}
	out = append(out, say("event.readings", "low", whole(r.MinPct), "high", whole(r.MaxPct), "mean", whole(r.MeanPct)))
	if r.Most24hPct != nil {
		out = append(out, say("event.change", "points", whole(*r.Most24hPct)))
	}
	return out
}

// clockWords writes a time of the document: 4 Mar 2025, 14:00.
func clockWords(s string) string {
	t, err := time.Parse(isoMinute, s)
	if err != nil {
		return "–"
	}
	return t.Format("2 Jan 2006, 15:04")
}

// table lists what worked hardest, with what to look for.
func (p EventPanel) table() Table {
	t := Table{Align: "lllrl", Head: []string{
		say("event.head.part"), say("event.head.mode"), say("event.head.at"), say("event.head.share"), say("event.head.first"), say("event.head.look"),
	}}
	for _, e := range p.Parts {
		first := say("event.never")
		switch {
		case e.Before:
			first = say("event.before")
		case e.First != "":
			first = clockWords(e.First)
		}
		t.Rows = append(t.Rows, []string{
			upperFirst(PartWords(e.Part)), ModeWords(e.Mode), clockWords(e.At), e.tenths(), first, lookWords(e.Mode),
		})
	}
	return t
}

func (e EventPart) tenths() string {
	return tenthsDoubt(Mode{Share: &e.Share, ShareLow: &e.ShareLow, ShareHigh: &e.ShareHigh})
}

// lookWords says what to look for.
func lookWords(mode string) string {
	if key := "event.look." + mode; known(key) {
		return say(key)
	}
	return ""
}

// start says where the panel begins.
func (p EventPanel) start(r EventRecord) string {
	if p.Home {
		return say("event.start.home")
	}
	return say("event.start.used", "rh", whole(p.Start), "time", clockWords(r.From))
}

// slow tells of slow change alone.
func (p EventPanel) slow() []string {
	var out, list []string
	for _, s := range p.Slow.Season {
		list = append(list, say("event.slow.item", "part", PartWords(s.Part), "mode", ModeWords(s.Mode), "n", tenths(&s.Share)))
	}
	if len(list) > 0 {
		out = append(out, say("event.slow.mean", "rh", whole(p.Slow.MeanRHPct), "list", strings.Join(list, "; ")))
	}
	if p.Slow.Set > noSet {
		out = append(out, say("event.slow.set", "mm", millimetres(1000*p.Slow.Set)))
	} else {
		out = append(out, say("event.slow.none"))
	}
	return out
}

// tooLong says that a record holds more than an event; empty where it does not.
func (r EventRecord) tooLong() string {
	if r.Hours <= eventLong {
		return ""
	}
	return say("event.slow.long", "time", lasting(r.Hours))
}

// boxes are what is ticked by hand.
func boxes() []string {
	return []string{say("event.boxes.seen"), say("event.boxes.same"), say("event.boxes.changed")}
}

// WriteText writes the event sheet.
func (f FaultEvent) WriteText(w io.Writer) error {
	t := &textPage{}
	if f.Invented {
		t.paras(say("invented.mark") + ". " + say("invented.sentence"))
		t.line("")
	}
	t.paras(say("event.title") + ": " + plainLine(f.Name))
	t.paras(strings.Join(f.Record.about(), " "), say("event.lead"), f.Record.tooLong())
	for _, p := range f.Panels {
		t.titled(where(p.Place, p.name()))
		for _, g := range p.Gates {
			t.hang("  ! ", say("event.gate", "reason", g))
		}
		t.paras(p.start(f.Record))
		t.paras(say("event.short.title") + ":")
		if len(p.Parts) == 0 {
			t.paras(say("event.nothing"))
		}
		t.rows(p.table())
		t.paras("[ ] " + strings.Join(boxes(), "   [ ] ") + " ____   " + say("event.boxes.who") + " ____________")
		t.paras(say("event.slow.title") + ":")
		t.paras(p.slow()...)
	}
	for _, x := range f.Failed {
		t.line("")
		t.hang("  ! ", say("event.failed", "file", x.File, "why", firstLine(x.Why)))
	}
	t.line("")
	t.paras(say("event.slow.title") + ". " + say("event.slow.lead"))
	t.list("cautions", f.Cautions)
	return t.to(w)
}

// WriteCSV writes one row for each panel and part.
func (f FaultEvent) WriteCSV(w io.Writer) error {
	rows := [][]string{{"place_text", "panel_text", "file_text", "mode_text", "part_text", "share_of_limit_1", "share_low_1", "share_high_1",
		"at_local_time", "wood_rh_pct", "limit_reached_at_local_time", "error_text"}}
	for _, p := range f.Panels {
		for _, e := range p.Parts {
			rows = append(rows, []string{cellText(p.Place), cellText(p.name()), cellText(p.File), e.Mode, cellText(e.Part), cellNumber(e.Share),
				cellNumber(e.ShareLow), cellNumber(e.ShareHigh), e.At, cellNumber(e.RHPct), e.First, ""})
		}
		if len(p.Parts) == 0 {
			rows = append(rows, []string{cellText(p.Place), cellText(p.name()), cellText(p.File), "", "", "", "", "", "", "", "", ""})
		}
	}
	for _, x := range f.Failed {
		rows = append(rows, []string{cellText(x.Place), cellText(x.name()), cellText(x.File), "", "", "", "", "", "", "", "", cellText(fmt.Sprint(x.Why))})
	}
	return csv.NewWriter(w).WriteAll(rows)
}
