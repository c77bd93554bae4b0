package report

import (
	"time"

	"crossgrain/panel/response"
)

// YearMember is what one member and its fixings do in the course of a record.
type YearMember struct {
	Part       string       `json:"part"`
	Fixings    []YearFixing `json:"fixings"`
	Slots      bool         `json:"has_play"`
	BoundHours float64      `json:"bound_hours"` // with a slot at its end or a slider squeezed in its notch
	Bound      []Spell      `json:"bound"`
}

// YearFixing is the greatest force on one fixing.
type YearFixing struct {
	XMM     float64 `json:"x_mm"`
	N       float64 `json:"n"` // along the member, without its sign
	At      string  `json:"at"`
	SlipMM  float64 `json:"slip_mm"`  // greatest, without its sign
	AcrossN float64 `json:"across_n"` // across the thickness, without its sign
}

// Spell is a stretch of time.
type Spell struct {
	From string `json:"from"`
	To   string `json:"to"`
}

// LetGo is what happens when everything that lies across the grain comes off at the end of a record: changes
// since that moment, low and high by how much the wood creeps with the moisture.
type LetGo struct {
	At     string      `json:"at"`
	Held   LetGoState  `json:"held"` // from the humidity it is used to
	Steps  []LetGoStep `json:"steps"`
	SetMM  float64     `json:"width_crushed_mm"` // change of width that stays for good
	Nought bool        `json:"nothing"`          // less than can be seen
}

// LetGoState is a warp and a change of width, mm.
type LetGoState struct {
	WarpMM  float64 `json:"warp_mm"`
	WidthMM float64 `json:"width_mm"`
}

// LetGoStep is one stage.
type LetGoStep struct {
	When    string    `json:"when"` // at once, two days, half a year, first year, in the end
	WarpMM  []float64 `json:"warp_mm"`
	WidthMM []float64 `json:"width_mm"`
}

func yearMembers(y *response.Year) []YearMember {
	out := []YearMember{}
	for _, m := range y.Members {
		row := YearMember{Part: m.Part, Slots: m.Slots, Fixings: []YearFixing{}, Bound: []Spell{}}
		for i, x := range m.X {
			row.Fixings = append(row.Fixings, YearFixing{x, m.Fixing[i], isoTime(m.At[i]), m.Slip[i], m.Lift[i]})
		}
		for _, b := range m.Bound {
			row.Bound = append(row.Bound, Spell{isoTime(b.From), isoTime(b.To)})
			row.BoundHours += b.To.Sub(b.From).Hours() + y.Step.Hours()
		}
		out = append(out, row)
	}
	return out
}

func isoTime(t time.Time) string {
	if t.IsZero() {
		return ""
	}
	return t.Format(isoMinute)
}

// LetGoOf turns what happens after release into its document; nil where it is not told.
func LetGoOf(y *response.Year) *LetGo {
	g := y.LetGo
	if g == nil {
		return nil
	}
	out := &LetGo{At: y.To.Format(isoMinute), Held: LetGoState{g.Held.Warp, g.Held.Width}, SetMM: g.Set, Nought: true}
	step := func(when string, a, b response.Stands) {
		s := LetGoStep{
			When:    when,
			WarpMM:  []float64{min(a.Warp, b.Warp) - g.Held.Warp, max(a.Warp, b.Warp) - g.Held.Warp},
			WidthMM: []float64{min(a.Width, b.Width) - g.Held.Width, max(a.Width, b.Width) - g.Held.Width},
		}
		for _, v := range append(s.WarpMM, s.WidthMM...) {
			out.Nought = out.Nought && v < 0.05 && v > -0.05
		}
		out.Steps = append(out.Steps, s)
	}
	step("at_once", g.AtOnce, g.AtOnce)
	step("two_days", g.Hours[0], g.Hours[1])
	step("half_year", g.Weeks[0], g.Weeks[1])
	step("first_year", g.Year[0], g.Year[1])
	step("in_the_end", g.Fresh, g.Fresh)
	return out
}

// Words names a stage.
func (s LetGoStep) Words() string { return say("letgo.when." + s.When) }

func (g *LetGo) table() Table {
	t := Table{Align: "lll", Head: []string{say("letgo.head.when"), say("letgo.head.warp"), say("letgo.head.width")}}
	for _, s := range g.Steps {
		t.Rows = append(t.Rows, []string{s.Words(), changes(s.WarpMM, "letgo.rounder", "letgo.hollower"), changes(s.WidthMM, "letgo.wider", "letgo.narrower")})
	}
	return t
}

// changes gives a range of changes in words.
func changes(v []float64, up, down string) string {
	word := func(x float64) string {
		switch {
		case x >= 0.05:
			return say(up, "mm", millimetres(x))
		case x <= -0.05:
			return say(down, "mm", millimetres(-x))
		}
		return say("letgo.still")
	}
	a, b := word(v[0]), word(v[1])
	switch {
	case a == b:
		return a
	case v[0] >= 0.05:
		return say(up, "mm", span(millimetres(v[0]), millimetres(v[1])))
	case v[1] <= -0.05:
		return say(down, "mm", span(millimetres(-v[1]), millimetres(-v[0])))
	}
	return say("letgo.between", "low", a, "high", b)
}

// paras say what the table is, and what crushing leaves.
func (g *LetGo) paras() []string {
	out := []string{say("letgo.lead", "day", dated(g.At))}
	if g.Nought {
		out = append(out, say("letgo.nought"))
	}
	if g.SetMM <= -0.05 {
		out = append(out, say("letgo.set", "mm", millimetres(-g.SetMM)))
	}
	return append(out, say("letgo.watch"))
}

// memberTable tells which fixing of each member works hardest in the year, and how long slots were bound.
func (y *Year) memberTable() Table {
	t := Table{Align: "lrrrll", Head: []string{
		say("yearmember.head.part"), say("yearmember.head.at"), say("yearmember.head.n"), say("yearmember.head.slip"), say("yearmember.head.day"), say("yearmember.head.bound"),
	}}
	for _, m := range y.Members {
		k := 0
		for i, f := range m.Fixings {
			if h := m.Fixings[k]; f.N > h.N*(1+1e-6) || f.N > h.N*(1-1e-6) && f.SlipMM > h.SlipMM {
				k = i // of fixings at their yield load that which slips most
			}
		}
		if len(m.Fixings) == 0 {
			continue
		}
		f, bound := m.Fixings[k], "–"
		if m.Slots {
			bound = say("yearmember.never")
			if m.BoundHours > 0 {
				bound = say("yearmember.bound", "days", days(m.BoundHours/24), "n", whole(float64(len(m.Bound))))
			}
		}
		t.Rows = append(t.Rows, []string{PartWords(m.Part), whole(f.XMM), force(f.N), millimetres(f.SlipMM), dated(f.At), bound})
	}
	return t
}
