package figure

import (
	"math"
	"slices"

	"gonum.org/v1/plot/vg"
)

// ringGap is how far apart rings are drawn, in points: a sign of their direction, not their number.
const ringGap = 3.6

// rings draws the growth rings of a board: arcs about the pith where it is known, else straight lines
// at the ring angle, bent with the board. Every fifth is stronger.
func (f frame) rings(p pen, b SectionBoard, from float64) {
	if !b.RingKnown {
		return
	}
	gap := ringGap / float64(f.d.per)
	var all []ringLine
	if b.Curved && usable(b.PithAcrossMM) && usable(b.PithAboveBackMM) {
		all = arcs(b, gap)
	} else if usable(b.RingDeg) {
		all = straights(b, gap)
	}
	var fine, fifth [][]vg.Point
	for _, line := range all {
		pts := make([]vg.Point, 0, len(line.course))
		for _, q := range line.course {
			pts = append(pts, f.at(from+q.x, q.z+f.d.thick/2-b.ThicknessMM, from, from+b.WidthMM))
		}
		if line.nth%5 == 4 {
			fifth = append(fifth, pts)
		} else {
			fine = append(fine, pts)
		}
	}
	var dash []vg.Length
	if b.Assumed {
		dash = []vg.Length{2, 1.6}
	}
	p.lines(stroke{hair, ring, dash}, fine...)
	p.lines(stroke{limit, ring, dash}, fifth...)
}

// ringLine is a piece of the nth ring.
type ringLine struct {
	nth    int
	course []mmPoint
}

// mmPoint is a point of a board: x from its left edge, z from its back face.
type mmPoint struct{ x, z float64 }

func (b SectionBoard) holds(q mmPoint) bool {
	return q.x >= 0 && q.x <= b.WidthMM && q.z >= 0 && q.z <= b.ThicknessMM
}

// straights are parallel lines at the ring angle, a distance gap apart, cut at the outline.
func straights(b SectionBoard, gap float64) []ringLine {
	a := b.RingDeg * math.Pi / 180
	dir := mmPoint{math.Cos(a), math.Sin(a)}
	if b.LeanLeft {
		dir.x = -dir.x
	}
	n := mmPoint{-dir.z, dir.x}
	lo, hi := math.Inf(1), math.Inf(-1)
	for _, c := range [...]mmPoint{{0, 0}, {b.WidthMM, 0}, {0, b.ThicknessMM}, {b.WidthMM, b.ThicknessMM}} {
		s := c.x*n.x + c.z*n.z
		lo, hi = min(lo, s), max(hi, s)
	}
	if (hi-lo)/gap > 500 {
		return nil
	}
	var out []ringLine
	for i := 0; lo+(float64(i)+0.5)*gap < hi; i++ {
		s := lo + (float64(i)+0.5)*gap
		if line := b.cut(mmPoint{n.x * s, n.z * s}, dir); line != nil {
			out = append(out, ringLine{i, line})
		}
	}
	return out
}

// cut is the part within the board of the line through o along dir, in a few points.
func (b SectionBoard) cut(o, dir mmPoint) []mmPoint {
	t0, t1 := math.Inf(-1), math.Inf(1)
	for _, e := range [...][3]float64{{o.x, dir.x, b.WidthMM}, {o.z, dir.z, b.ThicknessMM}} {
		if math.Abs(e[1]) < 1e-12 {
			if e[0] < 0 || e[0] > e[2] {
				return nil
			}
			continue
		}
		a, c := -e[0]/e[1], (e[2]-e[0])/e[1]
		t0, t1 = max(t0, min(a, c)), min(t1, max(a, c))
	}
	if !(t1 > t0) {
		return nil
	}
	n := 2
	if math.Abs(dir.x)*(t1-t0) > 10 {
		n = 12
	}
	var out []mmPoint
	for i := range n + 1 {
		t := t0 + (t1-t0)*float64(i)/float64(n)
		out = append(out, mmPoint{o.x + t*dir.x, o.z + t*dir.z})
	}
	return out
}

// arcs are circles about the pith, a distance gap apart, cut at the outline.
func arcs(b SectionBoard, gap float64) []ringLine {
	c := mmPoint{b.PithAcrossMM, b.PithAboveBackMM}
	dx := max(-c.x, c.x-b.WidthMM, 0)
	dz := max(-c.z, c.z-b.ThicknessMM, 0)
	near := math.Hypot(dx, dz)
	far := 0.0
	for _, q := range [...]mmPoint{{0, 0}, {b.WidthMM, 0}, {0, b.ThicknessMM}, {b.WidthMM, b.ThicknessMM}} {
		far = max(far, math.Hypot(q.x-c.x, q.z-c.z))
	}
	if (far-near)/gap > 500 {
		return nil
	}
	var out []ringLine
	for i := 0; near+(float64(i)+0.5)*gap < far; i++ {
		for _, piece := range b.arc(c, near+(float64(i)+0.5)*gap) {
			out = append(out, ringLine{i, piece})
		}
	}
	return out
}

// arc is the part within the board of the circle of radius r about c, between its meetings with the
// four sides.
func (b SectionBoard) arc(c mmPoint, r float64) [][]mmPoint {
	meets := []float64{0, 2 * math.Pi}
	add := func(a float64) { meets = append(meets, math.Mod(a+4*math.Pi, 2*math.Pi)) }
	for _, x := range [...]float64{0, b.WidthMM} {
		if u := (x - c.x) / r; math.Abs(u) <= 1 {
			add(math.Acos(u))
			add(-math.Acos(u))
		}
	}
	for _, z := range [...]float64{0, b.ThicknessMM} {
		if u := (z - c.z) / r; math.Abs(u) <= 1 {
			add(math.Asin(u))
			add(math.Pi - math.Asin(u))
		}
	}
	slices.Sort(meets)
	on := func(a float64) mmPoint { return mmPoint{c.x + r*math.Cos(a), c.z + r*math.Sin(a)} }
	var out [][]mmPoint
	for i := 1; i < len(meets); i++ {
		a0, a1 := meets[i-1], meets[i]
		if a1-a0 < 1e-9 || !b.holds(on((a0+a1)/2)) {
			continue
		}
		n := 2 + int(min(60, (a1-a0)/0.06))
		line := make([]mmPoint, 0, n+1)
		for k := range n + 1 {
			line = append(line, on(a0+(a1-a0)*float64(k)/float64(n)))
		}
		out = append(out, line)
	}
	return out
}
