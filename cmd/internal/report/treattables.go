package report

import (
	"math"
	"slices"
	"strings"
)

// name is what the columns call the option.
func (o TreatOption) name() string {
	if o.nothing {
		return say("treat.nothing")
	}
	if n := plainLine(o.Name); known("treat.standard." + n) {
		return say("treat.standard." + n)
	} else if n != "" {
		return n
	}
	return say("treat.unnamed")
}

// does says what would be done: as the file says it, by the standard option, or by what changes.
func (t Treat) does(o TreatOption) string {
	const most = 4 // changes that are named
	switch d := plainLine(o.Does); {
	case o.nothing:
		return say("treat.does.nothing")
	case d != "":
		return upperFirst(d)
	case t.Standard:
		return say("treat.does." + o.Reach)
	}
	var what []string
	for _, path := range o.Removed {
		what = append(what, say("treat.without", "part", PartWords(path)))
	}
	for _, path := range o.Added {
		what = append(what, say("treat.with", "part", PartWords(path)))
	}
	for _, path := range o.Reglued {
		what = append(what, say("treat.glued", "part", PartWords(path)))
	}
	for _, path := range o.ownChanges() {
		what = append(what, say("treat.key", "key", path))
	}
	if rest := len(what) - most; rest > 0 {
		what = append(what[:most], plural("treat.more", rest))
	}
	return upperFirst(strings.Join(what, ", "))
}

// ownChanges are the keys that an option gives anew; of new parts every key is new.
func (o TreatOption) ownChanges() []string {
	return slices.DeleteFunc(slices.Clone(o.Changed), func(key string) bool {
		return slices.ContainsFunc(o.Added, func(part string) bool { return strings.HasPrefix(key, part+".") })
	})
}

// done are the options that could be worked out.
func (t Treat) done() []TreatOption {
	return slices.DeleteFunc(slices.Clone(t.Options), func(o TreatOption) bool { return o.Failed != "" })
}

// heads are the heads of a table with the options as columns.
func heads(first string, options []TreatOption) []string {
	out := []string{first}
	for _, o := range options {
		out = append(out, o.name())
	}
	return out
}

// listTable tells what the options are.
func (t Treat) listTable() Table {
	tb := Table{Align: "lllll", Head: []string{
		say("treatlist.head.option"), say("treatlist.head.does"), say("treatlist.head.undone"), say("treatlist.head.wood"), say("treatlist.head.settles"),
	}}
	for _, o := range t.Options {
		undone, wood := say("treat.reversible."+yesNo(o.Reversible)), say("treat.touches."+yesNo(o.Touches))
		settles := o.settles()
		if o.nothing {
			undone, wood, settles = "–", "–", "–"
		}
		tb.Rows = append(tb.Rows, []string{o.name(), t.does(o), undone, wood, settles})
	}
	return tb
}

// yesNo makes an answer of the file fit for a key.
func yesNo(s string) string {
	switch s {
	case "yes", "no":
		return s
	case "in part":
		return "part"
	}
	return "unknown"
}

// longSettling is the number of weeks beyond which no number is told.
const longSettling = 104

func (o TreatOption) settles() string {
	switch w := o.SettleWeek; {
	case w <= 0:
		return "–"
	case w > longSettling:
		return say("treat.settles.long")
	default:
		return plural("treat.settles", max(1, int(math.Ceil(w))))
	}
}

// changed puts an arrow and a word behind a cell: the arrow says which way the number goes, the word what that means.
func changed(cell, change string, up bool) string {
	switch change {
	case "same", "":
		return cell
	case "better", "worse", "more", "less":
		arrow := "↓"
		if up {
			arrow = "↑"
		}
		return say("treat.changed."+change, "cell", cell, "arrow", arrow)
	case "new":
		return say("treat.changed.new", "cell", cell)
	}
	return say("treat.changed.gone")
}

// shownModes are the rows of the table of modes: those that somewhere come to a tenth of their limit, by the greatest
// share anywhere.
func (t Treat) shownModes() (rows []int, rest int) {
	options := t.done()
	top := func(i int) (most float64) {
		for _, o := range options {
			if s := o.Modes[i].Share; s != nil {
				most = max(most, *s)
			}
		}
		return most
	}
	for i := range options[0].Modes {
		if top(i) >= 0.05 {
			rows = append(rows, i)
		} else {
			rest++
		}
	}
	slices.SortStableFunc(rows, func(a, b int) int {
		switch x, y := top(a), top(b); {
		case x > y:
			return -1
		case x < y:
			return 1
		}
		return 0
	})
	return rows, rest
}

// modeTable has parts as rows and options as columns, in tenths of the limit.
func (t Treat) modeTable() Table {
	options := t.done()
	tb := Table{Align: strings.Repeat("l", 1+len(options)), Head: heads(say("treatmodes.head"), options)}
	rows, _ := t.shownModes()
	for _, i := range rows {
		m := options[0].Modes[i]
		row := []string{say("treat.mode", "part", upperFirst(PartWords(m.Part)), "mode", ModeWords(m.Mode))}
		for _, o := range options {
			row = append(row, o.Modes[i].cell(m.Share))
		}
		tb.Rows = append(tb.Rows, row)
	}
	return tb
}

// cell is one share in words; was is that of doing nothing.
func (m TreatMode) cell(was *float64) string {
	if !m.There {
		if m.Change == "gone" {
			return say("treat.changed.gone")
		}
		return "–"
	}
	cell := tenthsDoubt(Mode{Share: m.Share, ShareLow: m.ShareLow, ShareHigh: m.ShareHigh})
	if len(m.Of100) == 2 {
		cell = say("treat.of100", "cell", cell, "n", span(of100(m.Of100[0]/100), of100(m.Of100[1]/100)))
	}
	return changed(cell, m.Change, was != nil && m.Share != nil && *m.Share > *was)
}

// numberTable has movement, holding, carrying and room as rows and options as columns.
func (t Treat) numberTable() Table {
	options := t.done()
	tb := Table{Align: strings.Repeat("l", 1+len(options)), Head: heads(say("treatnumbers.head"), options)}
	row := func(key, what string, cell func(o TreatOption) string) {
		r := []string{say("treatnumbers." + key)}
		for _, o := range options {
			c := cell(o)
			for _, x := range o.Changes {
				if x.What == what {
					c = changed(c, x.Change, x.Is > x.Was)
				}
			}
			r = append(r, c)
		}
		tb.Rows = append(tb.Rows, r)
	}
	mm := func(v float64) string { return say("treat.mm", "mm", millimetres(v)) }
	row("width_season", "width_season", func(o TreatOption) string { return mm(o.Movement.WidthMM[1] - o.Movement.WidthMM[0]) })
	row("width_day", "width_day", func(o TreatOption) string { return mm(o.Movement.WidthDay) })
	row("warp_season", "warp_season", func(o TreatOption) string {
		return say("treat.twowarps", "low", warped(o.Movement.WarpMM[0]), "high", warped(o.Movement.WarpMM[1]))
	})
	row("warp_day", "warp_day", func(o TreatOption) string { return mm(o.Movement.WarpDay) })
	row("held_width", "held_width", func(o TreatOption) string { return held(100 * o.Held.Width) })
	row("held_warp", "held_warp", func(o TreatOption) string { return held(100 * o.Held.Warp) })
	row("fixing", "fixing", func(o TreatOption) string { return force(o.Held.FixingN) })
	row("carried", "carried", func(o TreatOption) string { return mm(o.Carried.SagMM) })
	row("room_width", "room_width", func(o TreatOption) string { return mm(o.Room.WidthMM) })
	row("room_depth", "room_depth", func(o TreatOption) string { return mm(o.Room.DepthMM) })
	row("range", "", func(o TreatOption) string {
		if o.Range == nil {
			return say("treat.norange")
		}
		return say("range.cell", "low", whole(o.Range.LowRHPct), "high", whole(o.Range.HighRHPct))
	})
	return tb
}

// sidesTable tells for every option what gets worse, what gets better and what else changes.
func (t Treat) sidesTable() Table {
	tb := Table{Align: "llll", Head: []string{say("treatlist.head.option"), say("treatsides.head.worse"), say("treatsides.head.better"), say("treatsides.head.other")}}
	for _, o := range t.done()[1:] {
		sides := map[string][]string{}
		put := func(change, words string) {
			if change != "same" {
				side := change
				if side != "better" && side != "worse" {
					side = "other"
				}
				sides[side] = append(sides[side], words)
			}
		}
		for _, c := range o.Changes {
			switch {
			case c.Change == "same":
			case c.Is > c.Was:
				put(c.Change, say("treat.goesup."+c.What))
			default:
				put(c.Change, say("treat.goesdown."+c.What))
			}
		}
		parts := map[string][]string{}
		for _, m := range o.Modes {
			if m.Share != nil && *m.Share < 0.05 && m.Change == "new" {
				continue // too little to name
			}
			switch m.Change {
			case "better", "worse", "new":
				if n := PartWords(m.Part); !slices.Contains(parts[m.Change], n) {
					parts[m.Change] = append(parts[m.Change], n)
				}
			}
		}
		for _, change := range []string{"better", "worse", "new"} {
			if len(parts[change]) > 0 {
				put(change, say("treat.parts."+change, "parts", strings.Join(parts[change], ", ")))
			}
		}
		row := []string{o.name()}
		for _, side := range []string{"worse", "better", "other"} {
			words := say("treat.none")
			if len(sides[side]) > 0 {
				words = upperFirst(strings.Join(sides[side], "; "))
			}
			row = append(row, words)
		}
		tb.Rows = append(tb.Rows, row)
	}
	return tb
}

// timeTable has times as rows and the options that let go as columns.
func (t Treat) timeTable() Table {
	var options []TreatOption
	for _, o := range t.done() {
		if len(o.OverTime) > 0 {
			options = append(options, o)
		}
	}
	tb := Table{Align: strings.Repeat("l", 1+len(options)), Head: heads(say("letgo.head.when"), options)}
	if len(options) == 0 {
		return tb
	}
	for i, s := range options[0].OverTime {
		warp, width := []string{say("treattime.warp", "when", say("letgo.when."+s.When))}, []string{say("treattime.width", "when", say("letgo.when."+s.When))}
		for _, o := range options {
			warp = append(warp, changes(o.OverTime[i].WarpMM, "letgo.rounder", "letgo.hollower"))
			width = append(width, changes(o.OverTime[i].WidthMM, "letgo.wider", "letgo.narrower"))
		}
		for _, row := range [][]string{warp, width} {
			if slices.ContainsFunc(row[1:], func(cell string) bool { return cell != say("letgo.still") }) {
				tb.Rows = append(tb.Rows, row)
			}
		}
	}
	return tb
}

// sheetTable is what to look at after one option, with room for a pen.
func (o TreatOption) sheetTable() Table {
	tb := Table{Align: "lllll", Head: []string{
		say("letgo.head.when"), say("treatsheet.head.warp"), say("treatsheet.head.width"), say("treatsheet.head.stop"), say("treatsheet.head.seen"),
	}}
	for _, c := range o.Sheet.Rows {
		tb.Rows = append(tb.Rows, []string{
			upperFirst(say("letgo.when." + c.When)), changes(c.WarpMM, "letgo.rounder", "letgo.hollower"), changes(c.WidthMM, "letgo.wider", "letgo.narrower"),
			say("treatsheet.stop", "low", signed(c.StopMM[0]), "high", signed(c.StopMM[1])), "",
		})
	}
	return tb
}

// signed gives a change of warp as more hollow or rounder.
func signed(mm float64) string {
	if mm < 0 {
		return say("letgo.hollower", "mm", millimetres(mm))
	}
	return say("letgo.rounder", "mm", millimetres(mm))
}

func (o TreatOption) sheetWords() []string {
	s := o.Sheet
	var out []string
	if len(s.SeasonMM) == 2 {
		out = append(out, say("treatsheet.season", "low", warped(s.SeasonMM[0]), "high", warped(s.SeasonMM[1])))
	}
	if s.LowRH != nil {
		out = append(out, say("treatsheet.rh", "low", whole(*s.LowRH), "high", whole(*s.HighRH)))
	}
	var lines []string
	for _, l := range s.Lines {
		lines = append(lines, PartWords(l))
	}
	if len(lines) > 0 {
		out = append(out, say("treatsheet.lines", "lines", strings.Join(lines, ", ")))
	}
	return append(out, say("treatsheet.always"))
}

// changesTable says what each option changes in the file.
func (t Treat) changesTable() Table {
	tb := Table{Align: "lllll", Head: []string{
		say("treatlist.head.option"), say("treatkeys.head.removed"), say("treatkeys.head.added"), say("treatkeys.head.glued"), say("treatkeys.head.changed"),
	}}
	list := func(v []string) string {
		if len(v) == 0 {
			return "–"
		}
		return strings.Join(v, ", ")
	}
	for _, o := range t.Options[1:] {
		tb.Rows = append(tb.Rows, []string{o.name(), list(o.Removed), list(o.Added), list(o.Reglued), list(o.ownChanges())})
	}
	return tb
}

// Title is what the option is called for readers.
func (o TreatOption) Title() string { return o.name() }

// Hardest lists, by their place among the modes, those that some option or doing nothing brings nearest to a limit.
func (t Treat) Hardest() []int {
	rows, _ := t.shownModes()
	return rows
}
