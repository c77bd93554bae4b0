package report

import "math"

func (a Assess) assumedTable() Table {
	t := Table{Align: "lrrl", Head: []string{
		say("assumed.head.what"), say("assumed.head.value"), say("assumed.head.range"), say("assumed.head.evidence"),
	}}
	for _, x := range a.Assumed {
		value, could := withUnit(plain(x.Value), x.Unit), ""
		switch {
		case x.Low != x.High:
			could = say("range.cell", "low", plain(x.Low), "high", plain(x.High))
		case x.Value == 0 && x.Text != "":
			value = x.Text
		}
		t.Rows = append(t.Rows, []string{x.What, value, could, x.Evidence})
	}
	return t
}

func (a Assess) boardTable() Table {
	t := Table{Align: "llrlrll", Head: []string{
		say("board.head.part"), say("board.head.wood"), say("board.head.size"), say("board.head.ring"),
		say("board.head.per"), say("board.head.follow"), say("board.head.evidence"),
	}}
	for _, b := range a.Boards {
		t.Rows = append(t.Rows, []string{
			PartWords(b.Part), b.Wood, whole(b.WidthMM) + " × " + millimetres(b.ThicknessMM), b.Ring,
			plain(10 * b.PerPct), b.Response, b.Evidence,
		})
	}
	return t
}

// contentTable gives moisture content in parts per thousand: per cent belongs to humidity.
func (a Assess) contentTable() Table {
	t := Table{Align: "rr", Head: []string{say("states.head.rh"), say("states.head.mc")}}
	for _, s := range a.States {
		t.Rows = append(t.Rows, []string{stateName(s), whole(10 * s.EMCPct)})
	}
	return t
}

func (a Assess) fixingTable() Table {
	t := Table{Align: "lrrlrl", Head: []string{
		say("fixings.head.part"), say("fixings.head.x"), say("fixings.head.dry"), say("fixings.head.does"), say("fixings.head.damp"), say("fixings.head.does"),
	}}
	for _, r := range a.Restraints {
		if r.idle() {
			continue
		}
		for i, f := range r.Fixings {
			part := ""
			if i == 0 {
				part = PartWords(r.Part)
			}
			t.Rows = append(t.Rows, []string{part, whole(f.XMM), twoSigned(f.DryN), f.Dry, twoSigned(f.WetN), f.Damp})
		}
	}
	return t
}

// twoSigned gives two digits and the sign, with a real minus.
func twoSigned(v float64) string {
	switch {
	case math.IsNaN(v) || math.IsInf(v, 0):
		return "–"
	case math.Abs(v) < 0.5:
		return "0"
	case v < 0:
		return "−" + twoDigits(-v)
	}
	return twoDigits(v)
}

func (a Assess) recordTable() Table {
	t := Table{Align: "lrrrr", Head: []string{
		say("record.head.part"), say("record.head.window"), say("record.head.low"), say("record.head.mid"), say("record.head.high"),
	}}
	for _, b := range a.Record.Boards {
		t.Rows = append(t.Rows, []string{
			PartWords(b.Part), plain(b.WindowDays), whole(b.LowPct), whole(b.MidPct), whole(b.HighPct),
		})
	}
	return t
}

func (a Assess) recordLead() string {
	r := a.Record
	return say("record.lead", "file", r.File, "rows", whole(float64(r.Rows)), "first", r.First, "last", r.Last,
		"mean", whole(r.MeanPct))
}

// traceTable says what the numbers came from.
func (a Assess) traceTable() Table {
	return Table{Head: []string{say("trace.head.what"), say("trace.head.value")}, Rows: [][]string{
		{say("trace.version"), a.Version},
		{say("trace.digest"), a.PanelDigest},
		{say("trace.setting"), a.Setting},
		{say("trace.seed"), whole(float64(a.Seed))},
		{say("trace.format"), a.Kind + " " + whole(float64(a.Format))},
	}}
}
