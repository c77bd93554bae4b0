package report

import (
	"fmt"
	"strings"
	"unicode"

	"crossgrain/panel/survey"
)

// per100 says how many of 100, one number or two.
func per100(few, many *float64) string {
	if few == nil || many == nil {
		return "–"
	}
	return span(hundred(*few), hundred(*many))
}

// stands says where a panel stands.
func (d *Survey) stands(store, rack string) string {
	if rack == "" {
		return d.title(store)
	}
	if saysWhat(rack) {
		return say("survey.stands.place", "store", d.title(store), "place", plainLine(rack))
	}
	return say("survey.stands", "store", d.title(store), "rack", plainLine(rack))
}

// named is the number and title of a panel.
func (p SurveyPanel) named() string {
	if t := plainLine(p.Title); t != "" {
		return say("survey.named", "number", plainLine(p.Accession), "title", t)
	}
	return plainLine(p.Accession)
}

func (p SurveyPanel) facts() string {
	return say("survey.facts", "n", fmt.Sprint(p.Known), "of", fmt.Sprint(p.Of))
}

// groupTable lists the panels of a group; of those by count the well described and the others stand in tables of their own.
func (d *Survey) groupTable(g survey.Group, described bool) Table {
	tb := Table{Align: "llrl", Head: []string{say("survey.col.panel"), say("survey.col.stands"), say("survey.col.per100"), say("survey.col.why"), say("survey.col.facts")}}
	if g == survey.Untold {
		tb.Align, tb.Head = "lll", []string{say("survey.col.panel"), say("survey.col.stands"), say("survey.col.why"), say("survey.col.facts")}
	}
	for _, p := range d.Panels {
		switch {
		case p.Group != string(g):
		case g == survey.Untold:
			tb.Rows = append(tb.Rows, []string{plainLine(p.Accession), d.stands(p.Store, p.Rack), p.Why, p.facts()})
		case p.AsFound == described:
			tb.Rows = append(tb.Rows, []string{plainLine(p.Accession), d.stands(p.Store, p.Rack), per100(p.Few, p.Many), p.Why, p.facts()})
		}
	}
	return tb
}

// groupKey is where the words of a group's section stand.
func groupKey(g survey.Group) string {
	switch g {
	case survey.First:
		return "survey.look_first"
	case survey.Next:
		return "survey.next"
	case survey.Wait:
		return "survey.can_wait"
	}
	return "survey.cannot_tell"
}

// groups are the four groups, what is known and what rests on assumptions kept apart.
func (d *Survey) groups() []section {
	var c gathered
	for _, g := range survey.Groups {
		key := groupKey(g)
		if g == survey.Untold {
			c.table(key, d.groupTable(g, true))
			continue
		}
		for _, described := range []bool{true, false} {
			tb := d.groupTable(g, described)
			if len(tb.Rows) == 0 {
				continue
			}
			s := begin(key)
			if !described {
				s.ID, s.Title, s.Lead = key+"-assumed", say("survey.assumed", "group", s.Title), say("survey.assumed.lead")
			}
			s.Table, s.Whole = &tb, len(tb.Rows) <= longTable
			c = append(c, s)
		}
	}
	return c
}

// saysWhat says whether the name of a place tells what it is, as "shelf 2" does and "B 2" does not.
func saysWhat(place string) bool {
	word, _, _ := strings.Cut(strings.TrimSpace(place), " ")
	return len([]rune(word)) > 2 && !strings.ContainsFunc(word, func(r rune) bool { return !unicode.IsLetter(r) })
}

func (d *Survey) storesTable() Table {
	tb := Table{Align: "llrrrrrrrr", Head: []string{say("survey.col.store"), say("survey.col.wood"), say("survey.first"), say("survey.next"), say("survey.wait"), say("survey.untold"),
		say("survey.col.places"), say("survey.col.placed"), say("survey.col.last"), say("survey.col.more")}}
	gain := func(v *float64) string {
		if v == nil || d.Unplaced != "" {
			return "–"
		}
		return oneDecimal(max(*v, 0))
	}
	for _, s := range d.Stores {
		wood, placed := "–", "–"
		if s.LowPct != nil {
			wood = between(*s.LowPct, *s.HighPct)
		}
		if d.Unplaced == "" {
			placed = fmt.Sprint(s.Placed)
		}
		c := s.Counts
		tb.Rows = append(tb.Rows, []string{plainLine(s.Title), wood, fmt.Sprint(c.First), fmt.Sprint(c.Next), fmt.Sprint(c.Wait), fmt.Sprint(c.Untold),
			fmt.Sprint(s.Places), placed, gain(s.Last), gain(s.Next)})
	}
	return tb
}

func (d *Survey) moveTable() Table {
	tb := Table{Align: "lllrr", Head: []string{say("survey.col.panel"), say("survey.col.from"), say("survey.col.to"), say("survey.col.was"), say("survey.col.is")}}
	for _, m := range d.Placement {
		tb.Rows = append(tb.Rows, []string{plainLine(m.Accession), d.title(m.From), d.title(m.To), hundred(m.Was), hundred(m.Is)})
	}
	return tb
}

// planTable is how each panel that would stand better elsewhere is brought there.
func (d *Survey) planTable() Table {
	tb := Table{Align: "lll", Head: []string{say("survey.col.panel"), say("survey.col.to"), say("survey.col.plan")}}
	for i := range d.Placement {
		m := &d.Placement[i]
		tb.Rows = append(tb.Rows, []string{plainLine(m.Accession), d.title(m.To), m.plan()})
	}
	return tb
}

func (d *Survey) curveTable() Table {
	tb := Table{Align: "rlrl", Head: []string{say("survey.col.width"), say("survey.col.band"), say("survey.col.need"), say("survey.col.joining")}}
	for _, s := range d.Curve {
		tb.Rows = append(tb.Rows, []string{whole(s.Width), between(s.LowPct, s.HighPct), fmt.Sprint(s.Need), plainLine(strings.Join(s.New, ", "))})
	}
	return tb
}

func (d *Survey) dayTable() Table {
	tb := Table{Align: "lllrl", Head: []string{say("survey.col.panel"), say("survey.col.stands"), say("survey.col.what"), say("survey.col.minutes"), say("survey.col.by")}}
	for _, t := range d.Day {
		what := plainLine(t.What)
		if m := plainLine(t.Means); m != "" {
			what = say("survey.what", "what", what, "means", m)
		}
		tb.Rows = append(tb.Rows, []string{plainLine(t.Accession), d.stands(t.Store, t.Rack), what, whole(t.Minutes), plainLine(t.By)})
	}
	return tb
}

// after are the sections that follow the groups.
func (d *Survey) after() []section {
	var c gathered
	c.table("surveystores", d.storesTable())
	if tb := d.moveTable(); len(tb.Rows) > 0 {
		c.table("surveyplace", tb, say("surveyplace.cost"))
		c.table("surveyplan", d.planTable(), say("surveyplan.note"))
	} else {
		s := begin("surveyplace")
		s.Lead, s.Paras = "", []string{say("survey.open.stay")}
		if d.Unplaced != "" {
			s.Paras = []string{d.unplaced()}
		}
		c = append(c, s)
	}
	c.table("surveyday", d.dayTable())
	if tb := d.curveTable(); len(tb.Rows) > 0 {
		c.table("surveycurve", tb, say("surveycurve.of", "n", fmt.Sprint(d.CurveOf), "middle", whole(d.Middle)))
	}
	var asks []string
	for _, t := range d.Twins {
		asks = append(asks, say("survey.twin", "number", plainLine(t.Accession), "files", plainLine(strings.Join(t.Files, ", "))))
	}
	for _, n := range d.Missing {
		asks = append(asks, say("survey.missing", "number", plainLine(n)))
	}
	for _, g := range d.PartedGroups {
		asks = append(asks, say("survey.parted", "group", plainLine(g)))
	}
	for _, s := range d.Stores {
		if s.Record != "" {
			asks = append(asks, say("survey.record", "store", plainLine(s.Title), "from", loanDay(s.From), "to", loanDay(s.To)))
		}
	}
	c.list("surveyfiles", asks)
	return c
}
