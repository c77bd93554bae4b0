package response

import (
	"fmt"
	"slices"
	"strings"

	"crossgrain/moisture"
	"crossgrain/panel/internal/plan"
	"crossgrain/panel/restraint"
)

// whole is the panel seen from the front on all its members at once, by finite elements: what one
// member holds, its neighbours need not.
type whole struct {
	a        *restraint.Assembly
	layout   plan.Layout
	looked   []restraint.Look
	slabs    []slab
	ground   plan.Ground
	mounts   []restraint.Mount
	members  []joined
	holders  []holder // the same as they are told
	bars     []restraint.Bar
	season   []float64 // yielding of each board over a season
	body     restraint.Body
	march    *restraint.March
	out      []outward
	rise     [][2][]float64 // height at each of out for a unit of moisture content of a board, drying and damping
	curl     [][]float64    // the same for a unit of its curvature by a gradient
	ref      []float64      // free movement of each row, by its member, that is taken out as the movement at which it holds nothing
	looks    [5]int         // rows: height at left, middle and right edge, place of left and right edge
	along    [][]gap
	clear    []moisture.RH // of each mount: humidity at which its play was measured; 0 = not recorded
	seams    []seam
	plays    bool                  // some play goes with the humidity
	elements []*lineElements       // of each line, once asked for
	lines    [][]restraint.Station // along each line of the case
	splits   splitStations
}

// joined is one member of the whole.
type joined struct {
	part  string
	first int // row of its first fixing's slip
	n     int
	play  func(c *Case, rh moisture.RH, x *restraint.Mount) // what humidity changes of its fixings; nil = nothing
}

// gap is a length of a member between two fixings, in one board, and the place that stands for it.
type gap struct {
	restraint.Station
	width float64
}

// newWhole condenses panel and members, of a realisation like another without working out anew how its wood yields. It fails where
// they lie outside what the elements can do.
func (c *Case) newWhole(like *restraint.Assembly) (*whole, error) {
	w := &whole{slabs: c.slabs(), ground: c.groundPlate()}
	members := c.joinMembers(w)
	for i := range members {
		w.bars = append(w.bars, members[i].Bar)
	}
	l := plan.Layout{Plates: c.plates(w), Length: c.o.Along, Channels: c.channels()}
	fine := c.setting == Fine
	if fine {
		l.CellX, l.CellY = c.o.Across/40, c.o.Along/60
	}
	y := c.o.Along / 2
	looks := []restraint.Look{
		{X: 0, Y: y, Out: true}, {X: c.o.Across / 2, Y: y, Out: true}, {X: c.o.Across, Y: y, Out: true}, {X: 0, Y: y}, {X: c.o.Across, Y: y},
	}
	w.layout, w.looked = l, looks
	var err error
	if w.seams, err = c.seams(w); err != nil {
		return nil, err
	}
	var parted []restraint.Seam
	for _, q := range w.seams {
		parted = append(parted, q.Seam)
	}
	if like == nil {
		w.a, err = restraint.NewAssembly(l, yieldFactor, fine, members, parted, looks)
	} else {
		w.a, err = like.Like(l, fine, members, parted, looks)
	}
	if err != nil {
		return nil, fmt.Errorf("plan: %w", err)
	}
	for i := range w.looks {
		w.looks[i] = w.a.Look(i)
	}
	for _, p := range w.slabs {
		w.season = append(w.season, 1/c.boards[p.board].left)
	}
	if w.body, err = w.a.Body(w.season...); err != nil {
		return nil, fmt.Errorf("plan: %w", err)
	}
	w.places(c, members)
	c.splitPlaces(w)
	w.outward(c, members, looks)
	c.rises(w)
	w.ref = c.fixedAt(w)
	w.mounts = c.measuredAt(w)
	if w.march, err = restraint.NewMarch(w.body, w.mounts); err != nil {
		return nil, fmt.Errorf("plan: %w", err)
	}
	return w, nil
}

// measuredAt are the mounts with the middle of each play where the panel stood when the play was measured.
func (c *Case) measuredAt(w *whole) []restraint.Mount {
	mounts := w.a.Mounts()
	free := map[moisture.RH][]float64{}
	for i := range mounts {
		x := &mounts[i]
		if i >= len(w.clear) { // a seam
			h := *x.Lift
			h.Spring = slack
			x.Lift = &h
			continue
		}
		rh := w.clear[i]
		if x.Slip == nil || x.Slip.Play == 0 || rh == 0 || rh == c.o.UsedTo {
			continue
		}
		if free[rh] == nil {
			free[rh] = c.freeAt(w, rh, 1)
		}
		x.Slip.Centre = free[rh][x.Slip.Row] - w.ref[x.Slip.Row]
	}
	return mounts
}

// freeAt is the free movement of every row at a share of the change of moisture content from the used-to humidity to
// another.
func (c *Case) freeAt(w *whole, rh moisture.RH, share float64) []float64 {
	du, d := make([]moisture.MC, len(c.boards)), make([]float64, len(c.boards))
	for k := range c.boards {
		b := &c.boards[k]
		du[k] = moisture.MC(share) * (b.mc(rh, c.o.Temperature) - b.used)
		d[k] = float64(du[k])
	}
	return w.rows(c.loads(w, du, nil, c.unheld(du)), w.height(d, make([]float64, len(d))), 0)
}

// places sets the stations: between the fixings of each member, where the pull of a single fixing has
// spread, and along each line.
func (w *whole) places(c *Case, members []restraint.Member) {
	for i := range members {
		m := &members[i]
		var at []gap
		for k := 1; k < len(m.At); k++ {
			if m.At[k].Mount.Slip != nil && m.At[k-1].Mount.Slip != nil {
				at = append(at, w.betweens(m.At[k-1].X, m.At[k].X, m.Y)...)
			}
		}
		w.along = append(w.along, at)
	}
	for i := range c.lines {
		l := &c.lines[i]
		var at []restraint.Station
		for k := range lineStations {
			y := c.o.Along * (float64(k) + 0.5) / lineStations
			at = append(at, w.a.Station(l.x, y, w.slabAt(l.x-1e-3), l.kind == "join"))
		}
		w.lines = append(w.lines, at)
	}
}

// betweens parts the way from one fixing to the next at the edges of boards and at lines that stand open near by, and reads each part
// at its middle, members of a cradle left out.
func (w *whole) betweens(from, to, y float64) (out []gap) {
	for i, p := range w.slabs {
		if p.rib != 0 {
			continue
		}
		edges := []float64{max(from, p.from), min(to, p.to)}
		for _, q := range w.seams {
			if near := (q.To - q.From) / 2; q.X > edges[0]+seamApart && q.X < edges[len(edges)-1]-seamApart && y > q.From-near && y < q.To+near {
				edges = slices.Insert(edges, len(edges)-1, q.X)
			}
		}
		for k := 1; k < len(edges); k++ {
			if lo, hi := edges[k-1], edges[k]; hi-lo > 1e-6 {
				out = append(out, gap{w.a.Station((lo+hi)/2, y, i, false), hi - lo})
			}
		}
	}
	return out
}

// lineStations is how many places along a line are read.
const lineStations = 40

// fixedAt returns for every row the part of the movement, from where its member was fixed to the used-to
// humidity, that is still held back.
func (c *Case) fixedAt(w *whole) []float64 {
	ref := make([]float64, w.a.Rows())
	for i := range w.members {
		m := &w.members[i]
		fixed := c.fixed(m.part)
		if fixed == 0 || fixed == c.o.UsedTo {
			continue
		}
		free := c.freeAt(w, fixed, StoredShare)
		copy(ref[m.first:m.first+2*m.n], free[m.first:])
	}
	return ref
}

// fixed returns the humidity at which a member was fixed; 0 = as it is used to.
func (c *Case) fixed(part string) moisture.RH {
	for i := range c.o.Battens {
		if part == "batten."+c.o.Battens[i].Name {
			return c.o.Battens[i].Fixed
		}
	}
	for i := range c.o.Inserts {
		if part == "insert."+c.o.Inserts[i].Name {
			return c.o.Inserts[i].Fixed
		}
	}
	if c.o.Cradle != nil && strings.HasPrefix(part, "cradle.") {
		return c.o.Cradle.Fixed
	}
	return 0
}
