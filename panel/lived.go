package panel

import (
	"strconv"
	"strings"

	"crossgrain/moisture"
)

// Lived is the climate that the panel is known to have passed unharmed in its present state. It is evidence only where Why is empty.
type Lived struct {
	Low, High        moisture.RH // 0, 0: not recorded
	Since, Inspected string
	Why              string // why it is no evidence: a whole sentence
}

// Lived tells what the panel has lived through, and whether that may count as evidence: it must have been looked at and found
// unchanged, nothing may be on the move, and nothing may have been changed since.
func (p *Panel) Lived() Lived {
	l := Lived{Since: p.word("used_to.since"), Inspected: p.word("used_to.last_inspected")}
	q, ok := p.Number("used_to.lived_through_rh_pct")
	if !ok {
		return l
	}
	l.Low, l.High = moisture.Percent(q.Low), moisture.Percent(q.High)
	if l.Why = p.changedWhy; l.Why != "" {
		return l
	}
	switch year, known := yearOf(l.Inspected); {
	case p.word("used_to.unchanged") == "no":
		l.Why = "It was found changed when it was last looked at."
	case p.word("used_to.unchanged") != "yes":
		l.Why = "Whether it was found unchanged is not recorded."
	case !known:
		l.Why = "When it was last looked at closely is not recorded."
	default:
		l.Why = p.moving()
		if l.Why == "" {
			l.Why = p.changed(l.Since, year)
		}
	}
	return l
}

// moving says what is on the move, "" for nothing.
func (p *Panel) moving() string {
	for _, side := range [...]string{"front", "back"} {
		if w := p.word("face." + side + ".paint"); w == "flaking" || w == "blind cleavage" {
			return "Paint is coming away, so it does not bear that climate unharmed."
		}
		if p.word("face."+side+".ground_state") == "lifting" {
			return "Ground is lifting, so it does not bear that climate unharmed."
		}
	}
	for _, name := range p.Names("split") {
		if p.word("split."+name+".age") == "fresh" {
			return "Split " + name + " is fresh, so it does not bear that climate unharmed."
		}
	}
	for _, name := range p.boards {
		if p.word("board."+name+".insects_active") == "yes" {
			return "Board " + name + " has live insects, so its strength is not what it was."
		}
	}
	return ""
}

// changed says what was changed since the panel came to where it is, "" for nothing. A treatment without a year may have
// come after.
func (p *Panel) changed(since string, inspected int) string {
	from, known := yearOf(since)
	for _, name := range p.Names("treated") {
		year, ok := yearOf(p.word("treated." + name + ".year"))
		switch {
		case !ok:
			return "A treatment (" + name + ") has no year, so it may have changed since."
		case !known:
			return "Since when it has lived there is not recorded, so treatment " + name + " may have come after."
		case year > inspected:
			return "It was treated (" + name + ") after it was last looked at."
		case year >= from:
			return "It was treated (" + name + ") after it came there, so what it bore before counts no more."
		}
	}
	return ""
}

// yearOf reads the year at the start of a date.
func yearOf(when string) (int, bool) {
	digits, _, _ := strings.Cut(when, "-")
	y, err := strconv.Atoi(strings.TrimSpace(digits))
	return y, err == nil && y > 0
}
