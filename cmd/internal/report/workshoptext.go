package report

import (
	"math"
	"slices"
	"strings"
)

// halves gives a depth in half millimetres, rounded down, or up where more is needed.
func halves(v float64, up bool) string {
	if up {
		return oneDecimal(math.Ceil(2*v-1e-9) / 2)
	}
	return oneDecimal(math.Floor(2*v+1e-9) / 2)
}

func depthLeast(mm float64) string {
	if mm == 0 {
		return say("workshop.depth.none")
	}
	return halves(mm, true)
}

func depthMost(mm *float64) string {
	switch {
	case mm == nil:
		return say("workshop.depth.any")
	case *mm < 0.5:
		return say("workshop.depth.nobatten")
	}
	return halves(*mm, false)
}

// tenthsSpan gives two shares in tenths.
func tenthsSpan(v []float64) string { return span(tenths(&v[0]), tenths(&v[1])) }

func (w *Workshop) table() Table {
	t := Table{Align: "rrrrr", Head: []string{
		say("workshop.head.width"), say("workshop.head.least"), say("workshop.head.most"), say("workshop.head.held"), say("workshop.head.sag"),
	}}
	for _, r := range w.Rows {
		width := whole(r.WidthMM)
		if slices.ContainsFunc(w.Present, func(p WorkshopBatten) bool { return p.WidthMM == r.WidthMM }) {
			width = say("workshop.asis", "mm", width)
		}
		row := []string{width, depthLeast(r.LeastMM), span(depthMost(r.MostMM), depthMost(r.LooseMM)), tenthsSpan(r.Held), span(millimetres(r.SagMM[0]), millimetres(r.SagMM[1]))}
		if r.DepthMM == 0 {
			row[3], row[4] = "–", "–"
		}
		t.Rows = append(t.Rows, row)
	}
	return t
}

func (w *Workshop) springTable() Table {
	t := Table{Align: "rrrr", Head: []string{
		say("workshop.springs.count"), say("workshop.springs.least"), say("workshop.springs.most"), say("workshop.springs.preload"),
	}}
	for _, s := range w.Springs {
		most := say("workshop.depth.any")
		if s.Most != nil {
			most = twoDigits(*s.Most)
		}
		t.Rows = append(t.Rows, []string{whole(float64(s.Count)), twoDigits(s.Least), most, twoDigits(s.PreloadN)})
	}
	return t
}

// lead says which limits the table keeps.
func (w *Workshop) lead() []string {
	l := w.Limits
	low, high := whole(w.Range.LowRHPct), whole(w.Range.HighRHPct)
	if w.Battens == 0 {
		return []string{w.bare()}
	}
	upper := say("workshop.upper", "low", low, "high", high, "part", the(l.Line), "share", whole(10*l.LineShare), "mpa", oneDecimal(l.LineMPa),
		"warp", span(millimetres(w.Range.DescribedMM), millimetres(math.Max(math.Abs(w.Range.WarpMM[0]), math.Abs(w.Range.WarpMM[1])))))
	lower := say("workshop.lower", "share", whole(10*l.SagShare))
	return []string{say("workshop.slides"), upper + " " + lower, say("workshop.columns")}
}

// bare says what carrying a panel without battens needs.
func (w *Workshop) bare() string {
	key := "workshop.bare.itself"
	if w.LeastEI > 0 {
		key = "workshop.bare.support"
	}
	return say("workshop.bare.none") + " " + say(key, "mm", millimetres(w.BareSagMM))
}

// words are the sentences under the table.
func (w *Workshop) words() []string {
	var out []string
	if w.Battens > 0 {
		out = append(w.presentWords(), w.fixingWords()...)
		out = append(out, w.assumed())
	}
	out = append(out, say("workshop.frame", "low", whole(w.Range.LowRHPct), "high", whole(w.Range.HighRHPct), "width", whole(math.Ceil(w.FrameWidth)),
		"depth", whole(math.Ceil(w.FrameDepth)), "cover", whole(math.Ceil(w.FrameCover)), "play", plain(w.Limits.PlayMM)))
	return append(out, say("workshop.never"))
}

// presentWords say where each batten lies; battens alike share a sentence.
func (w *Workshop) presentWords() []string {
	var out []string
	for i := 0; i < len(w.Present); {
		p, names := w.Present[i], []string{}
		for ; i < len(w.Present) && w.Present[i].alike(p); i++ {
			names = append(names, PartWords(w.Present[i].Part))
		}
		out = append(out, upperFirst(joined(names))+", "+say("workshop.size", "width", whole(p.WidthMM), "depth", oneDecimal(p.DepthMM))+" "+p.words(w))
	}
	return out
}

func (p WorkshopBatten) alike(q WorkshopBatten) bool {
	return p.WidthMM == q.WidthMM && p.DepthMM == q.DepthMM && p.EI[0] == q.EI[0] && p.Glued == q.Glued && p.Flat == q.Flat
}

// joined lists names: three or more of one kind by the first and the last.
func joined(names []string) string {
	if n := len(names); n > 2 {
		return say("workshop.names", "first", names[0], "last", names[n-1])
	}
	return strings.Join(names, " "+say("workshop.and")+" ")
}

func (p WorkshopBatten) words(w *Workshop) string {
	s := p.lies(w)
	if p.Glued {
		s += " " + say("workshop.glued")
	}
	if p.Flat {
		s += " " + say("workshop.flat")
	}
	return s
}

func (p WorkshopBatten) lies(w *Workshop) string {
	apart := p.MostMM != nil && p.LeastMM > *p.MostMM
	switch {
	case apart && w.LeastEI > *w.MostEI:
		return say("workshop.conflict")
	case apart:
		return say("workshop.narrow", "low", halves(*p.MostMM, false), "high", halves(p.LeastMM, true))
	case p.Above && p.PlanedMM != nil:
		key := "workshop.above"
		if p.LooseMM == nil || p.DepthMM <= *p.LooseMM {
			key = "workshop.perhaps"
		}
		return say(key, "times", twoDigits(*p.Stiffer), "mm", oneDecimal(*p.PlanedMM))
	case p.Above:
		return say("workshop.beyond")
	case p.Below:
		return say("workshop.below", "mm", millimetres(p.SagMM[1]))
	case w.MostEI == nil:
		return say("workshop.free")
	}
	return say("workshop.between")
}

func (w *Workshop) fixingWords() []string {
	var out []string
	f := w.Fixings
	switch {
	case f.WidthMM == 0:
		return nil
	case f.Least == nil:
		out = append(out, say("workshop.fixings.never", "width", whole(f.WidthMM), "depth", oneDecimal(f.DepthMM)))
	default:
		out = append(out, say("workshop.fixings.least", "n", whole(float64(*f.Least)), "there", whole(float64(f.There)),
			"width", whole(f.WidthMM), "depth", oneDecimal(f.DepthMM)))
	}
	if n := len(w.Slots); n > 0 {
		far := w.Slots[n-1]
		out = append(out, say("workshop.slot", "at", whole(far.DistanceMM), "mm", millimetres(math.Ceil(far.LengthMM)),
			"in", millimetres(far.InwardMM), "out", millimetres(far.OutwardMM), "shank", plain(w.Limits.ShankMM)))
	}
	return out
}

func (w *Workshop) assumed() string {
	l := w.Limits
	s := say("workshop.assumed", "points", whole(l.MissedPoints), "n", twoDigits(l.FrictionN),
		"low", twoDigits(l.BattenLow/1000), "high", twoDigits(l.BattenHigh/1000))
	if len(w.Slots) > 0 {
		s += " " + say("workshop.assumed.slot", "shank", plain(l.ShankMM), "play", plain(l.PlayMM))
	}
	if l.FixingN != nil {
		s += " " + say("workshop.assumed.load", "n", twoDigits(*l.FixingN))
	}
	return s
}

// text writes the section for a terminal.
func (w *Workshop) text(t *textPage) {
	if w == nil {
		return
	}
	t.title("workshop")
	t.paras(w.lead()...)
	t.rows(w.table())
	t.paras(w.words()...)
	if s := w.springTable(); len(s.Rows) > 0 {
		t.paras(say("workshop.springs.lead"))
		t.rows(s)
	}
}

// sections are the same for a page.
func (w *Workshop) sections() []section {
	if w == nil {
		return nil
	}
	s := begin("workshop")
	s.Lead, s.Whole = strings.Join(w.lead(), " "), false
	s.Paras = w.words()
	if t := w.table(); len(t.Rows) > 0 {
		s.Table = &t
	}
	out := []section{s}
	if t := w.springTable(); len(t.Rows) > 0 {
		out = append(out, section{ID: "workshop-springs", Title: say("workshop.springs.title"), Lead: say("workshop.springs.lead"), Table: &t, Whole: true})
	}
	return out
}
