package figure

import (
	"cmp"
	"image/color"
	"math"
	"slices"
	"strconv"

	"gonum.org/v1/plot/vg"
)

// pulls and presses are the fills from the first level outwards; in grey each is darker than the one
// before, and presses are told by their hatching.
func pulls(i int) color.NRGBA {
	return [levels]color.NRGBA{{0xFA, 0xE3, 0xCF, 0xFF}, {0xF0, 0xBC, 0x91, 0xFF}, {0xDD, 0x8C, 0x51, 0xFF}, {0xB0, 0x58, 0x20, 0xFF}, {0x70, 0x2E, 0x08, 0xFF}}[i]
}

func presses(i int) color.NRGBA {
	return [levels]color.NRGBA{{0xED, 0xF4, 0xF9, 0xFF}, {0xDE, 0xEB, 0xF5, 0xFF}, {0xCC, 0xE1, 0xF0, 0xFF}, {0xB8, 0xD5, 0xEA, 0xFF}, {0xA2, 0xC8, 0xE2, 0xFF}}[i]
}

// weave is one set of parallel hatching lines.
type weave struct {
	gap, phase vg.Length
	falls      bool
}

// weaves is what each level adds to the hatching of those before it.
func weaves(i int) weave {
	return [levels]weave{{6, 0, false}, {6, 3, false}, {6, 0, true}, {6, 3, true}, {3, 1.5, false}}[i]
}

var hatchSign = stroke{hair, color.NRGBA{0x0B, 0x45, 0x70, 0xFF}, nil}

// hatched are the lines of a weave inside polygons without dents, joined where they meet.
func hatched(w weave, polys [][]vg.Point) [][]vg.Point {
	rows := map[int][][2]float64{}
	sign := 1.0
	if w.falls {
		sign = -1
	}
	along := func(q vg.Point) float64 { return float64(q.X) - sign*float64(q.Y) }
	across := func(q vg.Point) float64 {
		return (float64(q.Y) + sign*float64(q.X) - float64(w.phase)) / (float64(w.gap) * math.Sqrt2)
	}
	for _, poly := range polys {
		lo, hi := math.Inf(1), math.Inf(-1)
		for _, q := range poly {
			lo, hi = min(lo, across(q)), max(hi, across(q))
		}
		for k := int(math.Ceil(lo)); float64(k) <= hi && hi-lo < 5000; k++ {
			a, b := math.Inf(1), math.Inf(-1)
			for i, q := range poly {
				r := poly[(i+1)%len(poly)]
				u, v := across(q)-float64(k), across(r)-float64(k)
				if (u < 0) == (v < 0) {
					continue
				}
				t := u / (u - v)
				at := along(q) + (along(r)-along(q))*t
				a, b = min(a, at), max(b, at)
			}
			if b > a {
				rows[k] = append(rows[k], [2]float64{a, b})
			}
		}
	}
	return mergedRows(rows, w, sign)
}

func mergedRows(rows map[int][][2]float64, w weave, sign float64) [][]vg.Point {
	keys := make([]int, 0, len(rows))
	for k := range rows {
		keys = append(keys, k)
	}
	slices.Sort(keys)
	var out [][]vg.Point
	for _, k := range keys {
		c := float64(k)*float64(w.gap)*math.Sqrt2 + float64(w.phase)
		back := func(s float64) vg.Point { // along = x - sign y, c = y + sign x
			if sign > 0 {
				return at(vg.Length((c+s)/2), vg.Length((c-s)/2))
			}
			return at(vg.Length((s-c)/2), vg.Length((s+c)/2))
		}
		all := rows[k]
		slices.SortFunc(all, func(a, b [2]float64) int { return cmp.Compare(a[0], b[0]) })
		for i := 0; i < len(all); {
			run := all[i]
			for i++; i < len(all) && all[i][0] <= run[1]+0.1; i++ {
				run[1] = max(run[1], all[i][1])
			}
			if run[1]-run[0] > 0.2 {
				out = append(out, []vg.Point{back(run[0]), back(run[1])})
			}
		}
	}
	return out
}

// region is the part of the wood where the values are at or above a level: its outline as closed lines,
// and the pieces of the triangles that make it.
func (n net) region(values []float64, level float64) (outline, pieces [][]vertex) {
	t := n.tracer(values)
	var edges [][2]int
	for i := range n.parts {
		if n.coat[i] {
			continue
		}
		for _, tri := range n.triangles(i) {
			if math.IsNaN(values[tri[0]] + values[tri[1]] + values[tri[2]]) {
				continue
			}
			poly, _, _ := t.above(tri, 0, level)
			if len(poly) < 3 {
				continue
			}
			pieces = append(pieces, t.vertices(poly))
			for k := range poly {
				edges = append(edges, [2]int{poly[k], poly[(k+1)%len(poly)]})
			}
		}
	}
	for _, line := range chains(free(edges)) {
		outline = append(outline, t.vertices(line))
	}
	return outline, pieces
}

func (d maps) view(n net, y vg.Length) view {
	return view{x: n.x, z: n.z, x0: Width/2 - vg.Length((d.x0+d.x1)/2)*d.kx, y0: y - vg.Length(d.z0)*d.kz, kx: d.kx, kz: d.kz}
}

// draw draws one map; y is the top of its row.
func (d maps) draw(p pen, state int, y vg.Length) {
	s := d.States[state]
	label := boldText.fit(stateName(s.Label, s.RHPct), 170)
	p.text(label, at(margin, y-9), boldText, left)
	x := margin + boldText.width(label)
	if label != "" {
		x += 8
	}
	p.text(plainText.fit(d.most(state), Width-margin-x), at(x, y-9), plainText, left)
	low := y - mapWords - mapRow - vg.Length(d.z1-d.z0)*d.kz
	for i, n := range d.nets {
		d.board(p, s, i, n, low)
	}
	d.numbers(p, state, true, low)
	d.numbers(p, state, false, low)
}

func (d maps) board(p pen, s StressState, i int, n net, low vg.Length) {
	v := d.view(n, low)
	values := s.nodal(i, n)
	if d.step > 0 {
		d.fill(p, n, v, values)
	}
	for _, c := range n.corners() {
		c.draw(p, v)
	}
	for _, loop := range n.outline(false) {
		p.shape(nil, stroke{limit, ink, nil}, thinLine(v.nodes(loop)))
	}
	n.drawCoat(p, v)
}

// fill fills a board, from the first level outwards.
func (d maps) fill(p pen, n net, v view, values []float64) {
	less := make([]float64, len(values))
	for k := range values {
		less[k] = -values[k]
	}
	for l := range levels {
		outline, _ := n.region(values, float64(l+1)*d.step)
		p.area(pulls(l), stroke{hair, quiet, nil}, v, outline)
	}
	var hatch [][]vg.Point
	for l := range levels {
		outline, pieces := n.region(less, float64(l+1)*d.step)
		p.area(presses(l), stroke{hair, quiet, nil}, v, outline)
		polys := make([][]vg.Point, len(pieces))
		for k := range pieces {
			polys[k] = v.line(pieces[k])
		}
		hatch = append(hatch, hatched(weaves(l), polys)...)
	}
	p.lines(hatchSign, hatch...)
}

// area fills what closed lines enclose, holes left out.
func (p pen) area(fill color.Color, s stroke, v view, outline [][]vertex) {
	lines := make([][]vg.Point, len(outline))
	for i, loop := range outline {
		lines[i] = v.line(loop)
	}
	p.closed(fill, s, loops(lines...))
}

// draw veils the surroundings of an end of a join or free corner.
func (c boardEnd) draw(p pen, v view) {
	rx, rz := vg.Length(c.r)*v.kx, vg.Length(c.r)*v.kz
	o := at(v.x0+vg.Length(c.x)*v.kx, v.y0+vg.Length(c.z)*v.kz)
	if min(rx, rz) < 1.5 {
		return
	}
	var arc []vg.Point
	for i := range 13 {
		sin, cos := math.Sincos(float64(i) / 12 * math.Pi / 2)
		arc = append(arc, o.Add(at(rx*vg.Length(cos*c.inX), rz*vg.Length(sin*c.inZ))))
	}
	p.shape(veil(white, 0.7), stroke{}, append([]vg.Point{o}, arc...))
	p.lines(stroke{hair, ink, []vg.Length{1.5, 1.5}}, arc)
}

// above reports whether the number of a peak stands over the map: at the nearer face; from the middle of
// the thickness at the face that the board's other peak leaves free.
func (d maps) above(q, other peakAt) bool {
	share := func(q peakAt) float64 { return (q.z - d.z0) / (d.z1 - d.z0) }
	if s := share(q); s > 0.3 && s < 0.7 && other.ok {
		return share(other) < 0.5
	}
	return share(q) >= 0.5
}

// numbers writes the largest pull and press of the boards that stand over (up) or under a map, each tied to
// its place; where there is no room for all, the smaller ones are left out.
func (d maps) numbers(p pen, state int, up bool, low vg.Length) {
	row, foot := low-13, low-4.5
	if up {
		row = low + vg.Length(d.z1-d.z0)*d.kz + 7
		foot = row - 2
	}
	v := d.view(net{}, low)
	all, xs := d.chosen(state, up, v)
	for i, q := range all {
		p.line(stroke{1.8, white, nil}, v.at0(q.x, q.z), at(xs[i], foot))
		p.line(stroke{thin, ink, nil}, v.at0(q.x, q.z), at(xs[i], foot))
	}
	for i, q := range all {
		if q.mpa > 0 {
			p.dot(ink, stroke{0.7, white, nil}, v.at0(q.x, q.z), 2.3)
		} else {
			p.dot(white, stroke{limit, ink, nil}, v.at0(q.x, q.z), 2)
		}
		p.text(q.text(), at(xs[i], row), boldText, middle)
	}
}

func (q peakAt) text() string {
	if q.mpa > 0 {
		return "+" + mpa(q.mpa)
	}
	return mpa(q.mpa)
}

// aside is how far a number may stand from its place.
const aside vg.Length = 30

// chosen are the peaks over or under a map, from left to right, and the middles of their numbers; where
// they crowd, the smallest go, of those alike the one that stands closest between its neighbours.
func (d maps) chosen(state int, up bool, v view) (all []peakAt, xs []vg.Length) {
	for _, b := range d.peaks[state] {
		for k, q := range b {
			if q.ok && math.Abs(q.mpa) >= d.step/10 && d.above(q, b[1-k]) == up {
				all = append(all, q)
			}
		}
	}
	slices.SortStableFunc(all, func(a, b peakAt) int { return cmp.Compare(a.x, b.x) })
	for {
		var want, size []vg.Length
		for _, q := range all {
			want, size = append(want, v.at0(q.x, q.z).X), append(size, boldText.width(q.text())+5)
		}
		xs = spread(want, size, margin, Width-margin)
		far, room := vg.Length(0), Width-2*margin
		for i := range xs {
			room -= size[i]
			far = max(far, xs[i]-want[i], want[i]-xs[i])
		}
		if far <= aside && room >= 0 {
			return all, xs
		}
		k := least(all)
		all = slices.Delete(all, k, k+1)
	}
}

// least is the smallest peak as it is written, of those alike the one with the closest neighbours.
func least(all []peakAt) int {
	gap := func(i int) float64 {
		if i == 0 || i == len(all)-1 {
			return math.Inf(1)
		}
		return all[i+1].x - all[i-1].x
	}
	k := 0
	for i, q := range all {
		if a, b := mpa(math.Abs(q.mpa)), mpa(math.Abs(all[k].mpa)); a == b && gap(i) < gap(k)*(1-1e-9) ||
			a != b && math.Abs(q.mpa) < math.Abs(all[k].mpa) {
			k = i
		}
	}
	return k
}

// at0 is the place of a point given in mm.
func (v view) at0(x, z float64) vg.Point {
	return at(v.x0+vg.Length(x)*v.kx, v.y0+vg.Length(z)*v.kz)
}

// key draws the fills in a row from the greatest press to the greatest pull, numbers under their bounds.
func (d maps) key(p pen, y vg.Length) {
	if d.step == 0 {
		return
	}
	const w, h vg.Length = 21, 11
	x := margin + smallText.width("pressed") + 6
	p.text("pressed", at(margin, y+2.5), smallText, left)
	write := func(n int) string { return minus(strconv.FormatFloat(float64(n)*d.step, 'g', 3, 64)) }
	for i := range 2*levels + 1 {
		r := box(x, y, x+w, y+h)
		l := i - levels
		switch {
		case l < 0:
			p.rect(presses(-l-1), stroke{}, r)
			var lines [][]vg.Point
			for k := range -l {
				lines = append(lines, hatched(weaves(k), [][]vg.Point{corners(r)})...)
			}
			p.lines(hatchSign, lines...)
		case l > 0:
			p.rect(pulls(l-1), stroke{}, r)
		}
		p.rect(nil, stroke{hair, ink, nil}, r)
		if i > 0 {
			n := l
			if l <= 0 {
				n = l - 1
			}
			p.text(write(n), at(x, y-10), smallText, middle)
		}
		x += w
	}
	p.text("pulled", at(x+6, y+2.5), smallText, left)
	p.text("MPa", at(x+6, y-10), smallText, left)
}

// bars draws a scale across and one through the thickness.
func (d maps) bars(p pen, y vg.Length) {
	sign := stroke{limit, ink, nil}
	acr := rulerLength(min(d.x1-d.x0, 62/float64(d.kx)), 1)
	thr := rulerLength(min(d.z1-d.z0, 22/float64(d.kz)), 1)
	w, h := vg.Length(acr)*d.kx, vg.Length(thr)*d.kz
	up := strconv.Itoa(int(thr)) + " mm through"
	x := Width - margin - smallText.width(up) - 6
	p.lines(sign, []vg.Point{at(x-3, y), at(x+3, y)}, []vg.Point{at(x, y), at(x, y+h)}, []vg.Point{at(x-3, y+h), at(x+3, y+h)})
	p.text(up, at(x+6, y+h/2-3), smallText, left)
	x -= 14 + w
	p.lines(sign, []vg.Point{at(x, y+3), at(x, y-3)}, []vg.Point{at(x, y), at(x+w, y)}, []vg.Point{at(x+w, y+3), at(x+w, y-3)})
	p.text(strconv.Itoa(int(acr))+" mm across", at(x+w/2, y+6), smallText, middle)
}

// trueHeight is the room for the end grain to scale, with rings and names; of what is to scale already,
// for the names alone.
func (d maps) trueHeight() vg.Length {
	if d.times == 1 {
		return mapNames
	}
	return mapNames + vg.Length(d.z1-d.z0)*d.kx + 14
}

// trueScale draws the end grain to scale, so that rings and stresses can be seen together.
func (d maps) trueScale(p pen, y vg.Length) {
	s := strips{nets: d.nets, width: d.x1 - d.x0, per: d.kx, times: 1}
	r := stateStrip{known: true, x0: d.x0, x1: d.x1, lo: d.z0, hi: d.z1}
	if d.times > 1 {
		y0 := y - 14 - vg.Length(d.z1)*d.kx
		p.text("to scale, with growth rings (direction only)", at(sectionSide, y-9), smallText, left)
		for i, n := range d.nets {
			s.board(p, n, s.view(r, i, 0, y0))
		}
		s.names(p, r, y0, 0)
		return
	}
	s.names(p, r, y+4-vg.Length(d.z0)*d.kx, 0)
}
