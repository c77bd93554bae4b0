package response

import (
	"crossgrain/panel/fracture"
	"crossgrain/panel/restraint"
)

// SplitAt is a kind of place at which a board could split anew.
type SplitAt string

// The places.
const (
	SplitMiddle  SplitAt = "middle"  // between what holds it
	SplitFixing  SplitAt = "fixing"  // beside a fixing of a member
	SplitEnd     SplitAt = "end"     // beside the end of a member glued on
	SplitInsert  SplitAt = "insert"  // at a butterfly or another insert
	SplitChannel SplitAt = "channel" // under the channel that a member runs in
	SplitSapwood SplitAt = "sapwood" // in a sapwood edge
	SplitBack    SplitAt = "back"    // at a back eaten by insects
)

// NewSplit is the place of a board where a new split would begin first: the strain held there over a season, in the wood of the
// rest of the board, against what it bears.
type NewSplit struct {
	Part   string
	At     SplitAt
	Of     string // part: the member or insert; of sapwood "left" or "right"
	Strain float64
	Bears  float64
	// Closed is the share of the limit that the closed forms give at the same place; it is Strain/Bears where they stand alone, and 0
	// in the states of a followed course.
	Closed float64
}

// Share returns strain over what is borne.
func (n NewSplit) Share() float64 { return n.Strain / n.Bears }

// sapwood is how wide a sapwood edge is taken to be, mm, at most a quarter of its board: what is left of it after trimming
// (assumption).
const sapwood = 20

// leastLigament is the share of the thickness that a channel is taken to leave at least (assumption).
const leastLigament = 0.1

// held is a strain across the grain: at mid-thickness, painted face and back.
type held struct{ mid, front, back float64 }

// most is the greatest of the three.
func (h held) most() float64 { return max(h.mid, h.front, h.back) }

// holding tells what members hold back at a moment; by elements and by closed forms there is one each.
type holding interface {
	// beside is the strain held at fixing i of member k in the mean of its two sides, where its own pull is left out.
	beside(k, i int) held
	// at is the greatest strain held at x along the lines of all members.
	at(x float64, board int) held
}

// newSplits lists the places of each board. Wood under a line of glue is held by what it is glued to and no more than it would move;
// beyond the end of the line it is pulled where the glued piece pushes away from it. A channel runs along the pull and so makes no
// notch: it leaves less wood to take up what its own member hands over, and one that stands empty asks nothing ([fracture.UnderChannel]).
func (c *Case) newSplits(in holding, holders []holder, results []restraint.Result) []candidates {
	out := make([]candidates, len(c.boards))
	add := func(board int, at SplitAt, of string, strain, bears float64) {
		out[board].add(NewSplit{At: at, Of: of, Strain: max(strain, 0), Bears: bears})
	}
	for i := range c.boards {
		b := &c.boards[i]
		add(i, SplitMiddle, "", 0, b.breaks)
		for k := range holders {
			r := &results[k]
			h, at, of := held{r.Held[i], r.Front[i], r.Back[i]}, SplitMiddle, ""
			more := 0.0
			switch m := &holders[k]; {
			case m.insert():
				at, of = SplitInsert, m.part
			case m.channel > 0:
				at, of = SplitChannel, m.part
				more = max(h.mid, 0) * (fracture.UnderChannel(m.leaves(b.Thickness), m.width/2, m.spread.Decay) - 1)
			}
			add(i, at, of, h.most()+more, b.breaks)
			if b.WeakBack > 0 && b.WeakBack < 1 {
				add(i, SplitBack, "", h.back, b.breaks*b.WeakBack)
			}
		}
		wide := min(sapwood, b.Width/4) / 2
		if b.SapLeft > 0 && b.SapLeft < 1 {
			add(i, SplitSapwood, "left", in.at(b.Left+wide, i).most(), b.breaks*b.SapLeft)
		}
		if b.SapRight > 0 && b.SapRight < 1 {
			add(i, SplitSapwood, "right", in.at(b.Left+b.Width-wide, i).most(), b.breaks*b.SapRight)
		}
	}
	for k := range holders {
		h := &holders[k]
		for i, f := range h.fix {
			if !h.splitsAt(i) {
				continue
			}
			board := c.boardAt(f.X)
			across, along := h.patch(i)
			force := results[k].Force[i]
			if h.runs() && (force > 0) != (i == 0) {
				continue // it pulls at wood under the glued piece
			}
			strain := in.beside(k, i).most() + c.room(f.X, force, across)*c.local(board, force, across, along, h.leaves(c.boards[board].Thickness))
			add(board, h.splitAt(), h.part, strain, c.boards[board].breaks)
		}
	}
	return out
}

// candidates are the places of one board, one for each member and kind of place: the worst of its fixings.
type candidates []NewSplit

func (l *candidates) add(n NewSplit) {
	if p := l.like(n); p == nil {
		*l = append(*l, n)
	} else if n.Share() > p.Share() {
		*p = n
	}
}

// like finds the candidate at the same place.
func (l candidates) like(n NewSplit) *NewSplit {
	for i := range l {
		if p := &l[i]; p.At == n.At && p.Of == n.Of {
			return p
		}
	}
	return nil
}

// worst is the place with the greatest share, the middle of the board before others alike.
func (l candidates) worst() NewSplit {
	w := l[0]
	for _, n := range l[1:] {
		if n.Share() > w.Share() {
			w = n
		}
	}
	return w
}

// room is the share of its pull that a force, positive to the right, can bring on at x: it pulls at the wood on the side that it points away
// from, and none can be pulled at the edge of the panel; in full from a [fracture.ProcessZone] within it (assumption).
func (c *Case) room(x, force, across float64) float64 {
	if force < 0 {
		x = c.o.Across - x
	}
	return min(max((x-across/2)/fracture.ProcessZone, 0), 1)
}

// local is the strain that the force of one fixing adds right beside its patch, in the measure of strains held over a season. A
// fixing that slips or yields hands over less force, and so less of it. It spreads as under short loading, as the plan takes it,
// in the share of the thickness that a channel leaves.
func (c *Case) local(board int, force, across, along, leaves float64) float64 {
	b := &c.boards[board]
	p := fracture.PatchPull{
		Force: force, Across: max(across, 1), Along: along, Thickness: b.Thickness * leaves,
		EX: b.stiff, EL: b.Wood.EL * b.StiffnessReduction, GXL: c.meanGLT() * b.StiffnessReduction, NuL: b.Wood.NuLT,
	}
	return p.Stress() / (b.stiff * b.left)
}
