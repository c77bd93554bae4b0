package figure

import (
	"math"
	"strconv"

	"gonum.org/v1/plot/vg"
)

// Deformed asks how the end grain moves when the air changes: all boards side by side, one strip for
// each state, moved as calculated by elements. Millimetres are equally long in both directions; only
// the movement is drawn larger.
type Deformed struct {
	Meta
	Boards        []EndGrain
	States        []DeformedState // in the order drawn, usually dry, used to, damp
	Magnification float64         // of the movement; nought: chosen
	GrainLevel    bool            // "left" is then the lower edge
}

// DeformedState is one state: how every node has moved from the state that the panel is used to, the
// chord through the outer edges of the back held.
type DeformedState struct {
	Label      string      // such as "dry"
	RHPct      float64     // nought or NaN: not written
	UsedTo     bool        // the state that the others are drawn over; it moves nothing
	DxMM, DzMM [][]float64 // board by board, node by node

	WarpMM, LargestMM     float64 // rise of the back at mid-width, and the greatest anywhere; painted face rounded positive
	WarpLowMM, WarpHighMM float64 // range of WarpMM; both nought: not given
	WiderMM               float64 // change of width
}

const (
	stripWords vg.Length = 26  // over a strip: its words, and the name of its face
	stripFoot  vg.Length = 16  // under a strip: the name of its face
	tallest    vg.Length = 80  // most height of the boards themselves
	stripMost  vg.Length = 200 // most height of a strip
	riseMost             = 34  // points that the chosen magnification gives to the greatest movement
	riseLimit            = 120
	growMost             = 0.12 // share of the width that it gives to the change of width
	still                = 0.005
)

// strips is a Deformed laid out.
type strips struct {
	Deformed
	nets  []net
	rows  []stateStrip
	width float64   // of the panel, mm
	per   vg.Length // points for a millimetre, in both directions
	times float64
}

// stateStrip is one state with its movement made sure of.
type stateStrip struct {
	DeformedState
	dx, dz         [][]float64 // nil: not known, or none
	known          bool
	x0, x1, lo, hi float64 // what it takes, movement magnified, mm
}

// Draw lays the figure out.
func (d Deformed) Draw() Figure {
	m := d.or("deformed", "How does the end grain move?")
	s := d.layout()
	words := s.words()
	head := headHeight(m, words)
	h := head + margin
	for _, r := range s.rows {
		h += s.height(r)
	}
	empty := s.width == 0 || len(s.rows) == 0
	if empty {
		h = head + margin + 30
	}
	return m.figure(h, s.sentence(), s.desc(), func(p pen) {
		p.head(m, h, words)
		if empty {
			p.text("No board to draw.", at(margin, margin+10), quietText, left)
			return
		}
		y := h - head
		for i, r := range s.rows {
			s.draw(p, i, y)
			y -= s.height(r)
		}
	})
}

func (d Deformed) layout() strips {
	s := strips{Deformed: d, times: 1, per: 1}
	lo, hi, left, right := span4()
	for _, b := range d.Boards {
		n := b.net()
		s.nets = append(s.nets, n)
		left, right, lo, hi = min(left, n.x0), max(right, n.x1), min(lo, n.z0), max(hi, n.z1)
	}
	for _, st := range d.States {
		s.rows = append(s.rows, s.sure(st))
	}
	if !(right > left) {
		return s
	}
	s.width = right - left
	room := float64(Width - 2*sectionSide)
	s.per = vg.Length(min(room/s.width, float64(tallest)/(hi-lo)))
	s.times = s.magnify()
	widest := s.width
	for i := range s.rows {
		s.reach(&s.rows[i])
		widest = max(widest, s.rows[i].x1-s.rows[i].x0)
		s.per = min(s.per, stripMost/vg.Length(s.rows[i].hi-s.rows[i].lo))
	}
	s.per = min(s.per, vg.Length(room/widest))
	return s
}

func span4() (lo, hi, left, right float64) {
	return math.Inf(1), math.Inf(-1), math.Inf(1), math.Inf(-1)
}

// sure takes over the movement of a state where it is a number at every node of every board.
func (s strips) sure(st DeformedState) stateStrip {
	r := stateStrip{DeformedState: st, known: true}
	if st.UsedTo {
		return r
	}
	for i, n := range s.nets {
		if len(n.parts) == 0 {
			r.dx, r.dz = append(r.dx, nil), append(r.dz, nil)
			continue
		}
		if i >= len(st.DxMM) || i >= len(st.DzMM) || !n.fits(st.DxMM[i]) || !n.fits(st.DzMM[i]) {
			return stateStrip{DeformedState: st}
		}
		r.dx, r.dz = append(r.dx, n.withMiddles(st.DxMM[i])), append(r.dz, n.withMiddles(st.DzMM[i]))
	}
	s.centre(r.dx)
	return r
}

// centre takes from a movement across that of the middle between the outer edges.
func (s strips) centre(dx [][]float64) {
	var sum, num [2]float64
	x := [2]float64{math.Inf(1), math.Inf(-1)}
	for _, n := range s.nets {
		if len(n.parts) > 0 {
			x = [2]float64{min(x[0], n.x0), max(x[1], n.x1)}
		}
	}
	for i, n := range s.nets {
		for _, k := range n.rim {
			for side := range x {
				if math.Abs(n.x[k]-x[side]) <= 1e-6*(x[1]-x[0]) {
					sum[side], num[side] = sum[side]+dx[i][k], num[side]+1
				}
			}
		}
	}
	mean := (sum[0]/num[0] + sum[1]/num[1]) / 2
	for i := range dx {
		for k := range dx[i] {
			dx[i][k] -= mean
		}
	}
}

// magnify chooses the magnification, or checks the one given.
func (s strips) magnify() float64 {
	var rise, grow float64
	for _, r := range s.rows {
		for i := range r.dz {
			for k := range r.dz[i] {
				rise = max(rise, math.Abs(r.dz[i][k]))
			}
			lo, hi, _ := extent(r.dx[i])
			grow = max(grow, hi-lo, -lo, hi)
		}
	}
	if t := s.Magnification; given(t) && rise*float64(s.per)*t <= riseLimit && grow*t <= s.width/2 {
		return t
	}
	if max(rise, grow) < still {
		return 1
	}
	return magnification(max(rise*float64(s.per)/riseMost, grow/(growMost*s.width)), 1)
}

// reach measures what a strip takes, over the state it is used to as well.
func (s strips) reach(r *stateStrip) {
	r.lo, r.hi, r.x0, r.x1 = span4()
	for i, n := range s.nets {
		for _, e := range n.parts {
			for _, k := range e {
				for _, t := range [...]float64{0, s.times} {
					x, z := n.XMM[k], n.ZMM[k]
					if r.dx != nil {
						x, z = x+t*r.dx[i][k], z+t*r.dz[i][k]
					}
					r.lo, r.hi = min(r.lo, z), max(r.hi, z)
					r.x0, r.x1 = min(r.x0, x), max(r.x1, x)
				}
			}
		}
	}
}

func (s strips) height(r stateStrip) vg.Length {
	return stripWords + vg.Length(r.hi-r.lo)*s.per + stripFoot + 10
}

// view carries the nodes of one board to the canvas.
type view struct {
	x, z   []float64 // mm, moved
	x0, y0 vg.Length
	kx, kz vg.Length // points for a millimetre
}

func (v view) at(q vertex) vg.Point {
	x := v.x[q.a] + (v.x[q.b]-v.x[q.a])*q.t
	z := v.z[q.a] + (v.z[q.b]-v.z[q.a])*q.t
	return at(v.x0+vg.Length(x)*v.kx, v.y0+vg.Length(z)*v.kz)
}

func (v view) line(vs []vertex) []vg.Point {
	out := make([]vg.Point, len(vs))
	for i, q := range vs {
		out[i] = v.at(q)
	}
	return out
}

func (v view) nodes(ks []int) []vg.Point {
	out := make([]vg.Point, len(ks))
	for i, k := range ks {
		out[i] = v.at(vertex{k, k, 0})
	}
	return out
}

// view is board i of a strip, moved t times as far as it is; y is the height of z = 0.
func (s strips) view(r stateStrip, i int, t float64, y vg.Length) view {
	n := s.nets[i]
	v := view{x: n.x, z: n.z, x0: Width/2 - vg.Length((r.x0+r.x1)/2)*s.per, y0: y, kx: s.per, kz: s.per}
	if r.dx != nil && t != 0 {
		v.x, v.z = moved(n.x, r.dx[i], t), moved(n.z, r.dz[i], t)
	}
	return v
}

func moved(x, d []float64, t float64) []float64 {
	out := make([]float64, len(x))
	for i := range x {
		out[i] = x[i] + t*d[i]
	}
	return out
}

// draw draws one strip; y is its top.
func (s strips) draw(p pen, row int, y vg.Length) {
	r := s.rows[row]
	label := r.name()
	x := margin
	if label != "" {
		label = boldText.fit(label, 170)
		p.text(label, at(x, y-9), boldText, left)
		x += boldText.width(label) + 8
	}
	p.text(plainText.fit(r.words(), Width-margin-x), at(x, y-9), plainText, left)
	y0 := y - stripWords - vg.Length(r.hi)*s.per
	if !r.UsedTo {
		s.former(p, r, y0)
	}
	if !r.known {
		return
	}
	for i, n := range s.nets {
		s.board(p, n, s.view(r, i, s.times, y0))
	}
	s.faces(p, r, y0)
	if r.UsedTo || len(s.rows) == 1 {
		s.names(p, r, y0, sectionSide+smallText.width("back")+8)
	}
	if !r.UsedTo {
		s.rise(p, r, y0)
	}
}

// faces writes the names of the two faces at the left end.
func (s strips) faces(p pen, r stateStrip, y vg.Length) {
	var all []vg.Point
	start := vg.Length(1e4)
	for i, n := range s.nets {
		for _, t := range [...]float64{s.times, 0} {
			all = append(all, s.view(r, i, t, y).nodes(n.rim)...)
		}
	}
	for _, q := range all {
		start = min(start, q.X)
	}
	top, low := vg.Length(-1e4), vg.Length(1e4)
	for _, q := range all {
		if q.X < start+smallText.width("painted face")+4 {
			top = max(top, q.Y)
		}
		if q.X < start+smallText.width("back")+4 {
			low = min(low, q.Y)
		}
	}
	p.text("painted face", at(start, top+5), smallText, left)
	p.text("back", at(start, low-10), smallText, left)
}

// former draws the outline that the panel is used to, dashed.
func (s strips) former(p pen, r stateStrip, y vg.Length) {
	for i, n := range s.nets {
		for _, loop := range n.outline(false) {
			p.shape(nil, stroke{0.7, blue, []vg.Length{3, 2}}, thinLine(s.view(r, i, 0, y).nodes(loop)))
		}
	}
}

// board draws wood, rings, outline, ground and the painted face of one board.
func (s strips) board(p pen, n net, v view) {
	outline := n.outline(false)
	for _, loop := range outline {
		p.shape(wood, stroke{}, v.nodes(loop))
	}
	var dash []vg.Length
	if n.Assumed {
		dash = []vg.Length{2, 1.6}
	}
	var fine, fifth [][]vg.Point
	for _, line := range n.rings(ringGap / float64(s.per)) {
		if line.nth%5 == 4 {
			fifth = append(fifth, thinLine(v.line(line.course)))
		} else {
			fine = append(fine, thinLine(v.line(line.course)))
		}
	}
	p.lines(stroke{hair, ring, dash}, fine...)
	p.lines(stroke{limit, ring, dash}, fifth...)
	for _, loop := range outline {
		p.shape(nil, stroke{limit, ink, nil}, thinLine(v.nodes(loop)))
	}
	n.drawCoat(p, v)
}

// drawCoat fills ground and paint, and draws the painted face as a thick line.
func (n net) drawCoat(p pen, v view) {
	for _, loop := range n.outline(true) {
		p.shape(ink, stroke{hair, ink, nil}, thinLine(v.nodes(loop)))
	}
	thick := min(1.8, max(hair, vg.Length(n.z1-n.z0)*v.kz*0.4))
	for _, line := range n.top {
		p.lines(stroke{thick, ink, nil}, thinLine(v.nodes(line)))
	}
}

// names writes the number and name of each board under it, as many as there is room for to the
// right of last.
func (s strips) names(p pen, r stateStrip, y, last vg.Length) {
	for i, n := range s.nets {
		v := s.view(r, i, 0, y)
		t := strconv.Itoa(i + 1)
		room := vg.Length(n.x1-n.x0)*s.per - 6
		if full := plainText.fit(t+" "+clean(n.Name), room); full != "" && room > 24 {
			t = full
		}
		x := v.x0 + vg.Length((n.x0+n.x1)/2)*v.kx
		if w := plainText.width(t); x-w/2 > last+3 && len(n.parts) > 0 {
			p.text(t, at(x, y+vg.Length(r.lo)*s.per-12), plainText, middle)
			last = x + w/2
		}
	}
}

// rise marks how far the back at mid-width has moved from where it was; the chord through its outer edges has not.
func (s strips) rise(p pen, r stateStrip, y vg.Length) {
	if !usable(r.WarpMM) || math.Abs(r.WarpMM) < 0.05 {
		return
	}
	x := Width / 2
	chord, _ := s.backAt(r, x, y, 0)
	foot, ok := s.backAt(r, x, y, s.times)
	if !ok {
		return
	}
	sign := stroke{limit, ink, nil}
	p.line(stroke{2.4, white, nil}, at(x, chord), at(x, foot))
	p.line(stroke{hair, ink, []vg.Length{4, 2}}, at(x-24, chord), at(x+24, chord))
	p.line(sign, at(x, chord), at(x, foot))
	for _, h := range [...]vg.Length{chord, foot} {
		p.line(sign, at(x-3, h), at(x+3, h))
	}
	p.text(mm(math.Abs(r.WarpMM))+" mm", at(x, min(chord, foot)-11), boldText, middle)
}

// backAt is the height of the back of the wood, moved t times as far as it is, at the place x of the canvas.
func (s strips) backAt(r stateStrip, x, y vg.Length, t float64) (h vg.Length, ok bool) {
	h = 1e4
	for i, n := range s.nets {
		for _, loop := range n.outline(false) {
			q := s.view(r, i, t, y).nodes(loop)
			for k := range q {
				a, b := q[k], q[(k+1)%len(q)]
				if a.X <= x && x <= b.X && b.X > a.X {
					h, ok = min(h, a.Y+(b.Y-a.Y)*(x-a.X)/(b.X-a.X)), true
				}
			}
		}
	}
	return h, ok
}
