package report

import (
	"math"
	"time"

	"crossgrain/panel/assessment"
	"crossgrain/panel/response"
)

// Paint is what movement asks of the ground on one face. It sets neither a range nor a rank: the law of swings is from
// memory, and no ground of an old panel was ever measured so.
type Paint struct {
	Part          string       `json:"part"`
	Kind          string       `json:"kind"` // whole, unknown, islands, cloth, loose
	Ground        string       `json:"ground"`
	Stretch       float64      `json:"stretch_strain"` // greatest, mechanical
	StretchAt     string       `json:"stretch_at,omitempty"`
	Press         float64      `json:"press_strain"` // greatest, negative
	PressAt       string       `json:"press_at,omitempty"`
	BrittleHours  float64      `json:"beyond_brittle_h"` // stretched beyond 0.0025
	YieldHours    float64      `json:"beyond_yield_h"`   // and beyond 0.004
	Cycles        []PaintCycle `json:"cycles"`
	DamageLow     float64      `json:"damage_low"` // share of the swings it is taken to bear, by a law from memory
	DamageHigh    float64      `json:"damage_high"`
	DaySwings     float64      `json:"share_of_swings_to_3_days"`
	WeekSwings    float64      `json:"share_of_swings_to_45_days"`
	SeasonSwings  float64      `json:"share_of_longer_swings"`
	LawFromMemory bool         `json:"law_from_memory"`
	EdgeJM2       float64      `json:"edge_energy_j_m2"` // set free were it to let go of the wood at a free edge
	EdgePressed   bool         `json:"edge_pressed"`     // when it is pressed; else when it is stretched
	followed      bool
}

// PaintCycle is how many swings of the ground's strain fall in a class.
type PaintCycle struct {
	Low    float64  `json:"low_strain"`
	High   *float64 `json:"high_strain"` // null: no upper end
	Cycles float64  `json:"cycles"`
}

// PaintLine is the ground above a join or split.
type PaintLine struct {
	Part    string  `json:"part"`
	Face    string  `json:"face"`
	BearsMM float64 `json:"bears_mm"` // opening that a ground without a crack there bears
	OpensMM float64 `json:"opens_mm"`
	Cracks  bool    `json:"cracks"`
	Lifts   bool    `json:"lifts"` // pressed there, it can rise like a tent
}

func paintOf(r *assessment.Result) []Paint {
	out := []Paint{}
	for _, y := range r.Paint {
		p := Paint{
			Part: y.Part, Kind: string(y.Kind), Ground: y.Ground, Stretch: y.Stretch.Strain, StretchAt: isoTime(y.Stretch.At),
			Press: y.Press.Strain, PressAt: isoTime(y.Press.At), BrittleHours: hoursOf(y.Beyond[0]), YieldHours: hoursOf(y.Beyond[1]),
			DamageLow: y.Damage.Low, DamageHigh: y.Damage.High, DaySwings: y.Swings[0], WeekSwings: y.Swings[1], SeasonSwings: y.Swings[2],
			LawFromMemory: y.Limits.FromMemory, Cycles: []PaintCycle{}, followed: r.Year != nil,
			EdgeJM2: 1000 * y.Edge.Energy, EdgePressed: y.Edge.Lifts,
		}
		for _, c := range y.Classes {
			p.Cycles = append(p.Cycles, PaintCycle{c.Low, number(c.High), c.Cycles})
		}
		out = append(out, p)
	}
	return out
}

func hoursOf(d time.Duration) float64 { return d.Hours() }

func paintLines(r *assessment.Result) []PaintLine {
	out := []PaintLine{}
	for _, g := range r.AtLines {
		out = append(out, PaintLine{g.Part, g.Face, g.Bears, g.Opens, g.Cracks, g.Edge.Lifts})
	}
	return out
}

// thousandths gives a strain without its sign.
func thousandths(v float64) string { return oneDecimal(1000 * math.Abs(v)) }

func (a Assess) paintTable() Table {
	t := Table{Align: "lrlrl", Head: []string{
		say("paint.head.face"), say("paint.head.stretch"), say("paint.head.on"), say("paint.head.press"), say("paint.head.on"),
	}}
	for _, p := range a.Paint {
		if p.Kind == string(response.PaintLoose) {
			continue
		}
		t.Rows = append(t.Rows, []string{PartWords(p.Part), thousandths(p.Stretch), day(p.StretchAt), thousandths(p.Press), day(p.PressAt)})
	}
	return t
}

func day(iso string) string {
	if iso == "" {
		return "–"
	}
	return dated(iso)
}

// paintWords say what the numbers are worth on each face, and what meets the ground above lines.
func (a Assess) paintWords() []string {
	var out []string
	for _, p := range a.Paint {
		out = append(out, say("paint.kind."+p.Kind, "face", upperFirst(PartWords(p.Part))))
		if p.EdgeJM2 >= 0.05 {
			key := "paint.edge.pulled"
			if p.EdgePressed {
				key = "paint.edge.pressed"
			}
			out = append(out, say(key, "face", the(p.Part), "energy", twoDigits(p.EdgeJM2)))
		}
		if !p.followed || p.DamageHigh == 0 {
			continue
		}
		out = append(out, say("paint.swings", "face", the(p.Part), "low", part100(p.DamageLow), "high", part100(p.DamageHigh), "most", p.longest()))
	}
	for _, l := range a.PaintLines {
		if l.Cracks {
			out = append(out, say("paint.line.cracks", "part", the(l.Part), "face", l.Face, "opens", millimetres(l.OpensMM), "bears", hundredths(l.BearsMM)))
		}
	}
	return out
}

// part100 is a share as parts of 100, below 1 in words.
func part100(v float64) string {
	switch {
	case v < 0.01:
		return say("of100.under")
	case v >= 1:
		return say("paint.all")
	}
	return whole(100 * v)
}

// hundredths gives a length of hundredths of a millimetre.
func hundredths(v float64) string {
	if v < 0.005 {
		return "0.01"
	}
	return twoDigits(v)
}

// longest names the swings that do most.
func (p Paint) longest() string {
	switch {
	case p.SeasonSwings >= max(p.DaySwings, p.WeekSwings):
		return say("paint.most.season")
	case p.WeekSwings >= p.DaySwings:
		return say("paint.most.week")
	}
	return say("paint.most.day")
}
