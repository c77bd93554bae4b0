package report

import (
	"cmp"
	"math"
	"slices"
	"strings"

	"crossgrain/panel/assessment"
	"crossgrain/panel/response"
)

// ordersOf finds, on either side of the humidity it is used to, which of joins, splits and sound wood reaches its limit
// first.
func ordersOf(r *assessment.Result) []Order {
	if r.Year != nil {
		return []Order{orderInTime(r)}
	}
	used := r.Object.UsedTo.Percent()
	out := []Order{{Side: "dry", First: []OrderRow{}}, {Side: "damp", First: []OrderRow{}}}
	if len(r.Sweep) == 0 {
		return out
	}
	for j, d := range r.Sweep[0].Demands {
		if !opens(d.Mode) {
			continue
		}
		for side := range out {
			if rh, ok := reaches(r, j, side == 1, used); ok {
				out[side].First = append(out[side].First, OrderRow{Mode: string(d.Mode), Part: d.Part, RHPct: rh})
			}
		}
	}
	for side := range out {
		slices.SortStableFunc(out[side].First, func(a, b OrderRow) int {
			return cmp.Compare(math.Abs(a.RHPct-used), math.Abs(b.RHPct-used))
		})
	}
	return out
}

// opens says that a mode is one of joins, splits and sound wood.
func opens(m response.Mode) bool {
	return m == response.CheckGrowth || m == response.JoinTension || m == response.WoodSplit
}

// orderInTime is the order in which they reached their limits in a record.
func orderInTime(r *assessment.Result) Order {
	out := Order{Side: "record", First: []OrderRow{}}
	var worst []assessment.Worst
	for _, w := range r.Worst {
		if opens(w.Mode) && !w.First.IsZero() {
			worst = append(worst, w)
		}
	}
	slices.SortStableFunc(worst, func(a, b assessment.Worst) int { return a.First.Compare(b.First) })
	for _, w := range worst {
		out.First = append(out.First, OrderRow{Mode: string(w.Mode), Part: w.Part, RHPct: w.FirstRH.Percent(), At: isoTime(w.First)})
	}
	return out
}

// reaches returns where the share of demand j first reaches 1 on the way from the used-to humidity.
func reaches(r *assessment.Result, j int, damp bool, used float64) (rh float64, ok bool) {
	n := len(r.Sweep)
	before, last := 0.0, used
	for k := range n {
		s := &r.Sweep[k]
		if !damp {
			s = &r.Sweep[n-1-k]
		}
		at := s.RH.Percent()
		if damp && at < used || !damp && at > used {
			continue
		}
		share := s.Demands[j].Share()
		if share >= 1 {
			if share > before && at != last {
				return last + (1-before)/(share-before)*(at-last), true
			}
			return at, true
		}
		before, last = share, at
	}
	return 0, false
}

// orderWords say what gives way first, joins and splits before wood or the other way round.
func (a Assess) orderWords() []string {
	var out []string
	for _, o := range a.Order {
		if len(o.First) == 0 {
			continue
		}
		var parts []string
		for i, f := range o.First {
			if i == mostOrder {
				parts = append(parts, plural("order.rest", len(o.First)-i))
				break
			}
			one := []string{"part", the(f.Part), "mode", ModeWords(f.Mode), "rh", whole(f.RHPct)}
			key := "order.one"
			if f.At != "" {
				key, one = "order.dated", append(one, "day", dated(f.At))
			}
			parts = append(parts, say(key, one...))
		}
		out = append(out, say("order."+o.Side, "parts", strings.Join(parts, "; ")))
	}
	switch {
	case len(out) > 0 || len(a.Lines) == 0:
	case a.Year != nil:
		out = append(out, say("order.none.record"))
	default:
		out = append(out, say("order.none"))
	}
	return out
}

// mostOrder is how many parts a sentence names.
const mostOrder = 3

// energyTable sets the elements beside the strip formula at the driest state of the range.
func (a Assess) energyTable() Table {
	t := Table{Align: "lrrrrr", Head: []string{
		say("energy.head.part"), say("energy.head.rh"), say("energy.head.elements"), say("energy.head.strip"), say("energy.head.sudden"), say("energy.head.bears"),
	}}
	for _, l := range a.Lines {
		s := nearestState(l.At, a.Range.LowRHPct)
		if s == nil {
			continue
		}
		elements := "–"
		if l.By == "elements" {
			elements = twoDigits(s.SlowJM2)
		}
		t.Rows = append(t.Rows, []string{
			PartWords(l.Part), whole(s.RHPct), elements, twoDigits(s.StripJM2), twoDigits(s.SuddenJM2), twoDigits(s.ToughnessJM2),
		})
	}
	return t
}

// energyWords say why the two ways differ.
func (a Assess) energyWords() []string {
	var out []string
	least, most := math.Inf(1), 0.0
	for _, l := range a.Lines {
		if l.Why != "" {
			out = append(out, say("energy.why", "part", the(l.Part), "why", l.Why))
		}
		if s := nearestState(l.At, a.Range.LowRHPct); s != nil && l.By == "elements" && s.StripJM2 > 0 {
			least, most = math.Min(least, s.SlowJM2/s.StripJM2), math.Max(most, s.SlowJM2/s.StripJM2)
		}
	}
	switch {
	case most == 0:
	case most < 0.9:
		out = append(out, say("energy.less"))
	case least > 1.1:
		out = append(out, say("energy.more"))
	default:
		out = append(out, say("energy.alike"))
	}
	return out
}
