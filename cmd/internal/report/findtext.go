package report

import (
	"strings"
)

// ToFindOut is what would narrow the answer for which part, what does so most first.
func (a *Assess) ToFindOut() (part string, list []Narrowing) {
	w := a.worstWay()
	for i, n := range w.FindOut {
		if i < findShown && n.Share >= findLeast {
			list = append(list, n)
		}
	}
	mode, name, _ := strings.Cut(w.Decides, ":")
	return PartWords(name) + ": " + ModeWords(mode), list
}

// findShown is how many things to find out are told at most, each of them taking findLeast of the doubt away or more.
const (
	findShown = 5
	findLeast = 0.06
)

func (a Assess) findTable() Table {
	t := Table{Align: "lllll", Head: []string{
		say("find.head.what"), say("find.head.means"), say("find.head.by"), say("find.head.now"), say("find.head.after"),
	}}
	if d := a.Doubt.DependsOn; d != nil {
		t.Rows = append(t.Rows, []string{upperFirst(plainLine(d.Question)), say("find.means", "means", d.Means, "min", whole(d.Minutes)), d.By, say("find.two"), say("find.one")})
	}
	_, list := a.ToFindOut()
	for _, n := range list {
		t.Rows = append(t.Rows, []string{
			upperFirst(plainLine(n.What)), say("find.means", "means", n.Means, "min", whole(n.Minutes)), n.By, tenthsSpan(n.Now), tenthsSpan(n.After),
		})
	}
	return t
}

// worstWay is the way in which most reach a limit.
func (a Assess) worstWay() Way {
	best := a.Doubt.Ways[0]
	for _, w := range a.Doubt.Ways {
		if w.Count.Of100 > best.Count.Of100 {
			best = w
		}
	}
	return best
}

// worthIt is the share of the doubt from which finding something out is worth naming at the head of a sheet: a twentieth narrower
// or so.
const worthIt = 0.1

// findParas say what the table of what to find out is about.
func (a Assess) findParas() []string {
	w := a.worstWay()
	if w.Decides == "" {
		return nil
	}
	mode, part, _ := strings.Cut(w.Decides, ":")
	var out []string
	if len(w.FindOut) == 0 || w.FindOut[0].Share < worthIt {
		out = append(out, say("find.nothing", "part", the(part), "mode", ModeWords(mode)))
	} else {
		out = append(out, say("find.lead", "part", the(part), "mode", ModeWords(mode)))
	}
	if len(w.First) > 0 {
		out = append(out, say("find.first", "list", strings.Join(w.First, "; "), "left", hundred(100*w.Left), "same", hundred(100*w.SameOrd)))
	}
	return out
}
