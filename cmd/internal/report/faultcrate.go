package report

import (
	"strings"

	"crossgrain/panel/fault"
)

// BuildCrate makes the document of a crate: one card by the reading inside it and one by that of the room, in every row the panel that
// must be seen first. A panel that could not be read or has no hours is to be called for at once, and so is the crate.
func BuildCrate(h Head, name string, sources []FaultSource) Fault {
	h.Format, h.Kind = 1, "fault"
	f := Fault{Head: h, Name: name, Failed: []FaultUnread{}, Cautions: FaultCautions()}
	var lists [][]fault.Card
	var once []string
	var in *FaultCase
	singles := make([][]FaultCard, len(sources))
	for i, s := range sources {
		filed := filedOf(s.File, s.Place, s.Panel)
		lists = append(lists, s.Cards)
		if s.Err != nil {
			why := s.Err.Error()
			f.Failed = append(f.Failed, FaultUnread{filed, why})
			once = append(once, where(s.Place, filed.name())+": "+say("fault.once.unread", "why", firstLine(why)))
			singles[i] = []FaultCard{{FaultFiled: filed}}
			continue
		}
		f.Invented = f.Invented || s.Panel.Invented()
		in = s.Case
		for _, c := range s.Cards {
			singles[i] = append(singles[i], cardOf(filed, c, s.Case))
		}
		for _, why := range singles[i][0].CallAtOnce {
			once = append(once, where(s.Place, filed.name())+": "+why)
		}
	}
	cards, soonest := fault.CrateCards(lists)
	for side, c := range cards {
		card := cardOf(FaultFiled{Accession: plural("fault.crate", len(sources)), Digest: h.PanelDigest}, c, in)
		card.CallAtOnce = append(card.CallAtOnce, once...)
		card.held(singles)
		if at := soonest[side]; at >= 0 && c.Grid != nil {
			card.Soonest = singles[at][0].name()
		}
		f.Cards = append(f.Cards, card)
	}
	return f
}

// held fills in what is told of the panels in a crate.
func (c *FaultCard) held(singles [][]FaultCard) {
	var names, thin, bare, counted, against []string
	for _, list := range singles {
		p := &list[0]
		name := p.name()
		names = append(names, name)
		if p.CountedMM != nil {
			thin = append(thin, name)
		}
		if p.BareBack {
			bare = append(bare, name)
		}
		if p.Lived != nil && p.LivedHow == "counted" {
			counted = append(counted, say("fault.crate.range", "who", name, "low", whole(p.Lived.LowRHPct), "high", whole(p.Lived.HighRHPct)))
		}
		if p.Lived != nil && p.LivedHow == "against" {
			against = append(against, name)
		}
	}
	c.Panels, c.Title = names, strings.Join(names, ", ")
	for _, n := range []struct {
		key  string
		list []string
	}{{"fault.crate.thin", thin}, {"fault.crate.bare", bare}, {"fault.crate.lived", counted}, {"fault.crate.against", against}} {
		if len(n.list) > 0 {
			c.Notes = append(c.Notes, say(n.key, "who", strings.Join(n.list, ", ")))
		}
	}
}

// crateHow says how to read the card of a crate.
func (c FaultCard) crateHow() []string {
	var out []string
	if len(c.Rows) > 0 {
		from := say("fault.crate.from", "dry", whole(*c.FromDry), "damp", whole(*c.FromDamp))
		if *c.FromDry == *c.FromDamp {
			from = say("fault.how.from", "rh", whole(*c.FromDry))
		}
		out = append(out, say("fault.how.find"), say("fault.how.words"), say("fault.crate.worst"), from)
		if c.First != "" {
			out = append(out, say("fault.crate.first", "who", c.Soonest, "cause", CauseWords(c.First)))
		}
		out = append(out, c.Notes...)
		out = append(out, say("fault.how.quick"))
	}
	return nonEmpty(append(out, say("fault.how.case"), say("fault.crate.wood"), c.caseWords(), airWords())...)
}
