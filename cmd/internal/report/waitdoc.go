package report

import (
	"math"

	"crossgrain/moisture"
	"crossgrain/panel/assessment"
)

// Wait is how long a humidity may stand, by the reading of the air at the panel.
type Wait struct {
	FromDryRHPct  float64       `json:"from_dry_rh_pct"`
	FromDampRHPct float64       `json:"from_damp_rh_pct"`
	Season        bool          `json:"from_season"`                    // of the record
	Passed        bool          `json:"season_passed_call"`             // the season is past the point to call already
	Lived         *Lived        `json:"lived_through,omitempty"`        // inside which its past counts, or speaks against the calculation
	LivedHow      string        `json:"lived_through_counts,omitempty"` // "counted", "against"
	Reading       string        `json:"reading"`                        // "panel": the air at the panel, the case where it is in one
	First         string        `json:"first"`                          // mode:part that reaches its limit first
	Withheld      string        `json:"withheld,omitempty"`
	Rows          []WaitRow     `json:"rows"`
	Readings      []WaitReading `json:"readings"` // the same by reading, the driest first
	ByRoom        *WaitRoom     `json:"by_room,omitempty"`
	Closed        *Closed       `json:"closed,omitempty"`
}

// WaitRoom is the same by the reading of the room around the closed case.
type WaitRoom struct {
	Rows     []WaitRow     `json:"rows"`
	Readings []WaitReading `json:"readings"`
}

// Closed is how long it takes to open a case little by little in another room; Hours is null where Why
// says why there is no time.
type Closed struct {
	RoomRHPct    float64  `json:"room_rh_pct"`
	PointsPerDay float64  `json:"points_per_day"`
	Hours        *float64 `json:"hours"`
	Why          string   `json:"why,omitempty"`
}

// WaitRow is one length of time: at which readings to call and to act, each by the quick end of the
// doubt, as described and by the slow end; null where it is not reached.
type WaitRow struct {
	Hours    float64    `json:"hours"`
	CallDry  []*float64 `json:"call_below_rh_pct"`
	ActDry   []*float64 `json:"act_below_rh_pct"`
	CallDamp []*float64 `json:"call_above_rh_pct"`
	ActDamp  []*float64 `json:"act_above_rh_pct"`
}

// WaitReading is one reading: after how many hours to call and to act, each by the quick end of the
// doubt, as described and by the slow end; null where it is not reached within the times of the rows.
type WaitReading struct {
	RHPct float64    `json:"rh_pct"`
	Call  []*float64 `json:"call_hours"`
	Act   []*float64 `json:"act_hours"`
}

func waitOf(w *assessment.Wait) *Wait {
	if w == nil {
		return nil
	}
	out := &Wait{
		FromDryRHPct: w.FromDry.Percent(), FromDampRHPct: w.FromDamp.Percent(), Season: w.Season, Passed: w.Passed,
		Reading: "panel", First: w.First, Withheld: w.Withheld,
	}
	if out.LivedHow = livedHow(w.Outlived); out.LivedHow != "" {
		out.Lived = &Lived{w.Outlived.Low.Percent(), w.Outlived.High.Percent()}
	}
	if w.Withheld != "" {
		return out
	}
	if room := waitOf(w.ByRoom); room != nil {
		out.Reading, out.ByRoom = "case", &WaitRoom{room.Rows, room.Readings}
	}
	if c := w.Closed; c != nil {
		out.Closed = &Closed{RoomRHPct: c.Room.Percent(), PointsPerDay: c.PerDay, Why: c.Why}
		if c.Why == "" {
			out.Closed.Hours = number(c.Time.Hours())
		}
	}
	ends := func(quick, middle, slow []moisture.RH, i int) []*float64 {
		return []*float64{number(quick[i].Percent()), number(middle[i].Percent()), number(slow[i].Percent())}
	}
	for i, h := range w.Hours {
		c, a := &w.Call, &w.Act
		out.Rows = append(out.Rows, WaitRow{
			Hours:   h,
			CallDry: ends(c.DryQuick, c.Dry, c.DrySlow, i), ActDry: ends(a.DryQuick, a.Dry, a.DrySlow, i),
			CallDamp: ends(c.DampQuick, c.Damp, c.DampSlow, i), ActDamp: ends(a.DampQuick, a.Damp, a.DampSlow, i),
		})
	}
	span := func(s assessment.Span) []*float64 {
		return []*float64{number(s.Quick), number(s.Middle), number(s.Slow)}
	}
	for _, l := range w.Levels {
		out.Readings = append(out.Readings, WaitReading{l.RH.Percent(), span(l.Call), span(l.Act)})
	}
	return out
}

// Table lists for each time the readings of the room at which to call and to act.
func (w *WaitRoom) Table() *Table { return (&Wait{Rows: w.Rows}).Table() }

// Table lists for each of some times the readings at which to call and to act; where the quick end does
// not reach the limit a dash stands.
func (w *Wait) Table() *Table {
	t := &Table{Caption: say("wait.caption"), Align: "rrrrr", Head: []string{
		say("wait.head.time"), say("wait.head.act.dry"), say("wait.head.call.dry"), say("wait.head.call.damp"), say("wait.head.act.damp"),
	}}
	for _, r := range w.Rows {
		t.Rows = append(t.Rows, []string{
			lasting(r.Hours), waitCell(r.ActDry), waitCell(r.CallDry), waitCell(r.CallDamp), waitCell(r.ActDamp),
		})
	}
	return t
}

// waitCell gives a reading as described and both ends of the doubt.
func waitCell(v []*float64) string {
	if v[0] == nil {
		return say("wait.cell.none")
	}
	quick := whole(*v[0])
	switch {
	case v[1] == nil:
		return say("wait.cell.perhaps", "n", quick)
	case v[2] == nil:
		return say("wait.cell.open", "n", whole(*v[1]), "far", quick)
	}
	return say("wait.cell.both", "n", whole(*v[1]), "range", span(whole(min(*v[0], *v[2])), whole(max(*v[0], *v[2]))))
}

// waitFar is how far from the start readings are listed, in points.
const waitFar = 30

// table lists readings and how long each may stand.
func (w *Wait) table() Table {
	t := Table{Align: "rll", Head: []string{say("wait.head.reading"), say("wait.head.call"), say("wait.head.act")}}
	for _, r := range w.Readings {
		if r.Call[0] == nil || w.FromDryRHPct-r.RHPct > waitFar || r.RHPct-w.FromDampRHPct > waitFar {
			continue
		}
		t.Rows = append(t.Rows, []string{whole(r.RHPct), waitTime(r.Call), waitTime(r.Act)})
	}
	return t
}

// waitTime gives the times of a reading.
func waitTime(v []*float64) string {
	switch {
	case v[0] == nil:
		return say("wait.cell.none")
	case v[1] == nil:
		return say("wait.after.perhaps", "from", lasting(*v[0]))
	case v[2] == nil:
		return say("wait.after.open", "time", lasting(*v[1]), "from", lasting(*v[0]))
	}
	quick, slow := lasting(*v[0]), lasting(*v[2])
	if quick == slow {
		return quick
	}
	return say("wait.after.both", "time", lasting(*v[1]), "from", quick, "to", slow)
}

// lasting gives a time as people say it.
func lasting(h float64) string {
	const day, week, month = 24, 168, 720
	switch {
	case h < 1:
		return say("length.hour.under")
	case h < 0.85*day:
		return plural("length.hour", int(math.Round(h)))
	case h < 13*day:
		return plural("length.day", int(math.Round(h/day)))
	case h < 8*week && int(math.Round(h/week)) != 4:
		return plural("length.week", int(math.Round(h/week)))
	}
	return plural("length.month", int(math.Round(h/month)))
}

// paras say where the wood starts from, what gives first and how to read the table.
func (w *Wait) paras() []string {
	if w.Withheld != "" {
		return []string{say("wait.withheld", "why", w.Withheld)}
	}
	var out []string
	switch {
	case w.Season:
		out = append(out, say("wait.from.season", "dry", whole(w.FromDryRHPct), "damp", whole(w.FromDampRHPct)))
	case w.Passed:
		out = append(out, say("wait.from.passed", "rh", whole(w.FromDryRHPct)))
	default:
		out = append(out, say("wait.from.used", "rh", whole(w.FromDryRHPct)))
	}
	if w.First != "" {
		out = append(out, say("wait.first", "cause", CauseWords(w.First)))
	}
	if w.LivedHow != "" {
		out = append(out, say("wait.lived."+w.LivedHow, "low", whole(w.Lived.LowRHPct), "high", whole(w.Lived.HighRHPct)))
	}
	read := "wait.read." + w.Reading
	return append(out, say("wait.read"), say(read), w.closed())
}

// livedHow is whether what the panel has lived through moves how long it can wait; empty: there is no evidence, or it tells nothing.
func livedHow(o *assessment.Outlived) string {
	switch {
	case o == nil:
		return ""
	case o.Against:
		return "against"
	case o.Dry || o.Damp:
		return "counted"
	}
	return ""
}

// leastClosed is the usual least time a case stays closed after a journey, hours: 24 (common practice).
const leastClosed = 24

// closed says how long the case stays closed.
func (w *Wait) closed() string {
	c := w.Closed
	switch {
	case c == nil:
		return ""
	case c.Hours == nil:
		return say("wait.closed.none", "rh", whole(c.RoomRHPct), "points", whole(c.PointsPerDay), "why", c.Why)
	case *c.Hours < leastClosed:
		return say("wait.closed.least", "rh", whole(c.RoomRHPct), "points", whole(c.PointsPerDay), "time", lasting(*c.Hours), "least", whole(leastClosed))
	}
	return say("wait.closed.time", "rh", whole(c.RoomRHPct), "points", whole(c.PointsPerDay), "time", lasting(*c.Hours))
}

// roomTable is the table by the reading of the room, with words; no rows without a case.
func (w *Wait) roomTable() (Table, string) {
	if w.ByRoom == nil {
		return Table{}, ""
	}
	room := *w
	room.Readings = w.ByRoom.Readings
	t := room.table()
	if len(t.Rows) == 0 {
		return t, say("wait.room.never")
	}
	t.Head[0] = say("wait.head.room")
	return t, say("wait.read.room")
}
