package report

// seldomShown is the share of buckling below which standing is told in one sentence.
const seldomShown = 0.1

func (w *OwnWeight) table() Table {
	t := Table{Align: "lrrrl", Head: []string{
		say("ownweight.head.how"), say("ownweight.head.sag"), say("ownweight.head.long"), say("ownweight.head.stress"), say("ownweight.head.share"),
	}}
	for _, r := range w.Lying {
		slots := []string{}
		if len(r.BearersMM) > 0 {
			slots = []string{"mm", whole(r.BearersMM[0])}
		}
		how := say("ownweight.how."+r.How, slots...)
		long := "–"
		if n := len(r.LongMM); n > 0 {
			long = span(millimetres(r.LongMM[0]), millimetres(r.LongMM[n-1]))
		}
		share := "–"
		if r.Share != nil {
			share = tenths(r.Share)
		}
		if r.outside {
			share += "; " + say("ownweight.outside")
		}
		t.Rows = append(t.Rows, []string{how, millimetres(r.SagMM), long, small(r.StressMPa), share})
	}
	return t
}

// small gives a stress to one digit below 0.1 MPa.
func small(mpa float64) string {
	switch {
	case mpa < 0.005:
		return say("ownweight.small")
	case mpa < 0.095:
		return plain(float64(int(mpa*100+0.5)) / 100)
	}
	return oneDecimal(mpa)
}

func (w *OwnWeight) lead() string {
	now, long := oneDecimal(w.BearsMPa[0]), oneDecimal(w.BearsMPa[1])
	if now == long {
		return say("ownweight.lead.alike", "kg", oneDecimal(w.WeightKg), "part", the(w.Line), "mpa", now)
	}
	return say("ownweight.lead", "kg", oneDecimal(w.WeightKg), "part", the(w.Line), "now", now, "long", long)
}

// words say how it stands.
func (w *OwnWeight) words() []string {
	out := []string{say("ownweight.creep", "low", oneDecimal(w.Grown[0]), "high", oneDecimal(w.Grown[1]))}
	for _, s := range w.Standing {
		key := "ownweight.stands.turned"
		if s.AsIs {
			key = "ownweight.stands"
		} else if s.LongShare < seldomShown {
			continue // nobody stands it so
		}
		start := say(key, "grain", s.Grain)
		switch {
		case s.LongMM == nil:
			out = append(out, start+" "+say("ownweight.gives"))
		case s.outside:
			out = append(out, start+" "+say("ownweight.bends.outside", "mm", millimetres(*s.LongMM)))
		default:
			out = append(out, start+" "+say("ownweight.bends", "mm", millimetres(*s.LongMM), "times", atLeast(1/s.LongShare)))
		}
	}
	return append(out, say("ownweight.stays"))
}

// atLeast gives a multiple to two digits, cut off at 100.
func atLeast(v float64) string {
	if v > 100 {
		return say("ownweight.times.far")
	}
	return twoDigits(v)
}

func (w *OwnWeight) text(t *textPage) {
	if w == nil {
		return
	}
	t.title("ownweight")
	t.paras(w.lead())
	t.rows(w.table())
	t.paras(w.words()...)
}

func (w *OwnWeight) sections() []section {
	if w == nil {
		return nil
	}
	t := w.table()
	return []section{{ID: "ownweight", Title: say("ownweight.title"), Lead: w.lead(), Table: &t, Paras: w.words(), Whole: true}}
}

// ripples say where a thin panel would ripple between its glued members; nothing when no part does.
func ripples(bays []BayRow) []string {
	if len(bays) == 0 || bays[0].RHPct[0] == nil { // those that ripple first stand in front
		return nil
	}
	b := bays[0]
	slots := []string{"width", whole(b.ToMM - b.FromMM), "height", whole(b.HeightMM), "thick", millimetres(b.ThicknessMM), "low", whole(*b.RHPct[0])}
	s := ""
	switch high := b.RHPct[1]; {
	case high == nil:
		s = say("ripple.from", slots...)
	case whole(*high) == whole(*b.RHPct[0]):
		s = say("ripple.at", slots...)
	default:
		s = say("ripple.between", append(slots, "high", whole(*high))...)
	}
	return []string{s, say("ripple.only")}
}

// weightText writes what the workshop may build, its own weight and where it ripples.
func weightText(t *textPage, w *Workshop, o *OwnWeight, bays []BayRow) {
	w.text(t)
	o.text(t)
	if r := ripples(bays); len(r) > 0 {
		t.title("ripple")
		t.paras(r...)
	}
}

// weightSections are the same for a page.
func weightSections(w *Workshop, o *OwnWeight, bays []BayRow) []section {
	out := append(w.sections(), o.sections()...)
	if r := ripples(bays); len(r) > 0 {
		s := begin("ripple")
		s.Paras = r
		out = append(out, s)
	}
	return out
}
