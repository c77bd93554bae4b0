package figure

import (
	"fmt"
	"math"
	"strings"

	"gonum.org/v1/plot/vg"
)

// StressMap asks where the end grain is pulled and where it is pressed across the grain: the section as
// it was built, one strip for each state, filled by stress. Pulled is plain and darkens, pressed is
// hatched and thickens.
type StressMap struct {
	Meta
	Boards     []EndGrain
	States     []StressState
	Thicker    float64 // how many times too large the thickness is drawn; nought: chosen
	GrainLevel bool    // "left" is then the lower edge
}

// StressState is the stress of one state.
type StressState struct {
	Label string  // such as "dry"
	RHPct float64 // nought or NaN: not written
	// MPa is the stress across the panel, pulled positive: board by board, element by element, at its 2 x 2
	// points: lower left, upper left, lower right, upper right of an element whose first corner is the
	// lower left. What is not a number is left white. Coats are not mapped.
	MPa [][][4]float64
}

const (
	mapMost   vg.Length = 105                                    // most height that the chosen thickness gives to a map
	mapWords  vg.Length = 15                                     // over a map, its words
	mapRow    vg.Length = 17                                     // over and under a map, a row of numbers
	mapFoot   vg.Length = 54                                     // key, scale bars, caution
	mapNames  vg.Length = 22                                     // boards by their names
	levels              = 5                                      // each way
	notRead             = 0.25                                   // of the thickness: round the ends of joins and free corners nothing is read (assumption)
	noStress            = 0.01                                   // MPa
	gaussHalf           = 0.577350269189625764509148780501957456 // 1/sqrt 3
)

const caution = "Stresses at the ends of joins and at free corners (dashed) grow with the fineness of the calculation: not to be read."

// maps is a StressMap laid out.
type maps struct {
	StressMap
	nets           []net
	x0, x1, z0, z1 float64
	kx, kz         vg.Length
	times          float64
	step           float64 // MPa between levels; nought: no stress
	peaks          [][][2]peakAt
}

// peakAt is the largest pull or press of a board that may be read.
type peakAt struct {
	mpa, x, z float64
	board     int
	ok        bool
}

// Draw lays the figure out.
func (s StressMap) Draw() Figure {
	m := s.or("stress-map", "Where is the end grain pulled, and where pressed?")
	d := s.layout()
	words := d.words()
	head := headHeight(m, words)
	each := mapWords + 2*mapRow + vg.Length(d.z1-d.z0)*d.kz + 8
	h := head + vg.Length(len(s.States))*each + d.trueHeight() + mapFoot + margin
	empty := !(d.x1 > d.x0) || len(s.States) == 0
	if empty {
		h = head + margin + 30
	}
	return m.figure(h, d.sentence(), d.desc(), func(p pen) {
		p.head(m, h, words)
		if empty {
			p.text("No board to draw.", at(margin, margin+10), quietText, left)
			return
		}
		y := h - head
		for i := range s.States {
			d.draw(p, i, y)
			y -= each
		}
		d.trueScale(p, y)
		d.key(p, margin+29)
		d.bars(p, margin+23)
		p.text(caution, at(margin, margin+1), smallText, left)
	})
}

func (s StressMap) layout() maps {
	d := maps{StressMap: s, times: 1, kx: 1, kz: 1}
	d.z0, d.z1, d.x0, d.x1 = span4()
	for _, b := range s.Boards {
		n := b.net()
		d.nets = append(d.nets, n)
		if len(n.parts) > 0 {
			d.x0, d.x1, d.z0, d.z1 = min(d.x0, n.x0), max(d.x1, n.x1), min(d.z0, n.z0), max(d.z1, n.z1)
		}
	}
	if !(d.x1 > d.x0) {
		d.x0, d.x1, d.z0, d.z1 = 0, 0, 0, 0
		return d
	}
	most := float64(mapMost) / (d.z1 - d.z0)
	k := min(float64(Width-2*sectionSide)/(d.x1-d.x0), 1.4*most)
	d.times = s.Thicker
	if !given(d.times) || d.times*k > 2*most {
		d.times = thicker(k, most)
	}
	d.kx, d.kz = vg.Length(k), vg.Length(k*d.times)
	largest := 0.0
	for _, st := range s.States {
		var all [][2]peakAt
		for i, n := range d.nets {
			p := st.peaks(i, n)
			all = append(all, p)
			largest = max(largest, p[0].mpa, -p[1].mpa)
		}
		d.peaks = append(d.peaks, all)
	}
	if largest >= noStress {
		d.step = levelStep(largest / (levels + 1))
	}
	return d
}

// levelStep is the next round number from v upwards.
func levelStep(v float64) float64 {
	p := math.Pow(10, math.Floor(math.Log10(v)))
	for _, m := range [...]float64{1, 1.5, 2, 2.5, 3, 4, 5, 6, 8} {
		if m*p >= v*(1-1e-9) {
			return m * p
		}
	}
	return 10 * p
}

// thicker is the greatest round number of times that keeps k points for a millimetre within most.
func thicker(k, most float64) float64 {
	best := 1.0
	for _, m := range [...]float64{2, 3, 4, 5, 8, 10, 15, 20, 30} {
		if k*m <= most {
			best = m
		}
	}
	return best
}

// of are the stresses of an element.
func (s StressState) of(board, element int) [4]float64 {
	nan := math.NaN()
	if board >= len(s.MPa) || element >= len(s.MPa[board]) {
		return [4]float64{nan, nan, nan, nan}
	}
	return s.MPa[board][element]
}

// peaks are the largest pull and press of a board at the points of its wood, away from ends of joins and
// free corners.
func (s StressState) peaks(board int, n net) [2]peakAt {
	var out [2]peakAt
	ends := n.corners()
	for i, e := range n.parts {
		if n.coat[i] {
			continue
		}
		for k, v := range s.of(board, n.index[i]) {
			x, z := n.gauss(e, k)
			if !usable(v) || nearEnd(ends, x, z) {
				continue
			}
			if v > out[0].mpa {
				out[0] = peakAt{v, x, z, board, v >= noStress}
			}
			if v < out[1].mpa {
				out[1] = peakAt{v, x, z, board, v <= -noStress}
			}
		}
	}
	return out
}

// gauss is the place of the kth of the 2 x 2 points, in an element of straight sides.
func (n net) gauss(e [8]int, k int) (x, z float64) {
	xi, eta := float64(2*(k/2)-1)*gaussHalf, float64(2*(k%2)-1)*gaussHalf
	for i, s := range [4][2]float64{{-1, -1}, {1, -1}, {1, 1}, {-1, 1}} {
		w := (1 + s[0]*xi) * (1 + s[1]*eta) / 4
		x, z = x+w*n.x[e[i]], z+w*n.z[e[i]]
	}
	return x, z
}

// boardEnd is an end of a join or a free corner of the wood; in points into the wood.
type boardEnd struct{ x, z, inX, inZ, r float64 }

// corners are the four ends of the edge faces of the wood.
func (n net) corners() []boardEnd {
	lo := [2]boardEnd{{inX: 1, z: math.Inf(1)}, {inX: -1, z: math.Inf(1)}}
	hi := [2]boardEnd{{inX: 1, z: math.Inf(-1)}, {inX: -1, z: math.Inf(-1)}}
	for i, e := range n.parts {
		if n.coat[i] {
			continue
		}
		for _, k := range e {
			for side, x := range [2]float64{n.x0, n.x1} {
				if math.Abs(n.x[k]-x) > 1e-6*(n.x1-n.x0) {
					continue
				}
				if z := n.z[k]; z < lo[side].z {
					lo[side].x, lo[side].z, lo[side].inZ = x, z, 1
				}
				if z := n.z[k]; z > hi[side].z {
					hi[side].x, hi[side].z, hi[side].inZ = x, z, -1
				}
			}
		}
	}
	var out []boardEnd
	for side := range lo {
		r := min(notRead*(n.z1-n.z0), (n.x1-n.x0)/5, (hi[side].z-lo[side].z)/2)
		if r > 0 && usable(r) {
			lo[side].r, hi[side].r = r, r
			out = append(out, lo[side], hi[side])
		}
	}
	return out
}

func nearEnd(ends []boardEnd, x, z float64) bool {
	for _, c := range ends {
		if math.Hypot(x-c.x, z-c.z) < c.r {
			return true
		}
	}
	return false
}

// nodal are the stresses at nodes and middles of elements: of each element the plane through its four
// points carried to its corners, mean over the elements of the wood that meet there.
func (s StressState) nodal(board int, n net) []float64 {
	sum, num := make([]float64, len(n.x)), make([]float64, len(n.x))
	add := func(k int, v float64) {
		if usable(v) {
			sum[k], num[k] = sum[k]+v, num[k]+1
		}
	}
	for i, e := range n.parts {
		if n.coat[i] {
			continue
		}
		v := s.of(board, n.index[i])
		for k, c := range [9][2]float64{{-1, -1}, {1, -1}, {1, 1}, {-1, 1}, {0, -1}, {1, 0}, {0, 1}, {-1, 0}, {0, 0}} {
			w := 0.0
			for g, value := range v {
				w += value * (1 + c[0]*float64(2*(g/2)-1)/gaussHalf) * (1 + c[1]*float64(2*(g%2)-1)/gaussHalf) / 4
			}
			if k < 8 {
				add(e[k], w)
			} else {
				add(len(n.XMM)+i, w)
			}
		}
	}
	for k := range sum {
		sum[k] /= num[k] // NaN where no element has a number
	}
	return sum
}

func (d maps) words() string {
	out := "Stress across the panel, MPa; end grain, painted face up (dark), " + seenFrom(d.GrainLevel) + ". "
	if d.times > 1 {
		out += "Thickness drawn " + fixed(d.times, 0) + " times too large. "
	}
	return out + "Dots and rings: the largest pull (+) and press (−) of each board."
}

func (d maps) sentence() string {
	var out []string
	for i, s := range d.States {
		out = append(out, strings.TrimPrefix(stateName(s.Label, s.RHPct)+": "+d.most(i), ": "))
	}
	if len(out) == 0 {
		return "No state was calculated."
	}
	return strings.Join(out, "; ") + "."
}

// most says the largest pull and press of a state.
func (d maps) most(state int) string {
	var best [2]peakAt
	if state < len(d.peaks) {
		for _, b := range d.peaks[state] {
			for k := range b {
				if b[k].ok && math.Abs(b[k].mpa) > math.Abs(best[k].mpa) {
					best[k] = b[k]
				}
			}
		}
	}
	var out []string
	for k, verb := range [2]string{"pulled up to ", "pressed up to "} {
		if best[k].ok {
			out = append(out, fmt.Sprintf("%s%s MPa (board %d)", verb, mpa(math.Abs(best[k].mpa)), best[k].board+1))
		}
	}
	if !d.known(state) {
		return "stress not known"
	}
	if len(out) == 0 {
		return "no stress above " + fixed(noStress, 2) + " MPa"
	}
	return strings.Join(out, ", ")
}

// known reports whether a state has a number anywhere.
func (d maps) known(state int) bool {
	for _, board := range d.States[state].MPa {
		for _, v := range board {
			if usable(v[0]) || usable(v[1]) || usable(v[2]) || usable(v[3]) {
				return true
			}
		}
	}
	return false
}

// mpa writes a stress to two digits, at most hundredths.
func mpa(v float64) string {
	switch a := math.Abs(v); {
	case a < 0.995:
		return fixed(v, 2)
	case a < 9.95:
		return fixed(v, 1)
	}
	return fixed(v, 0)
}

func (d maps) desc() string {
	var out []string
	for i, boards := range d.peaks {
		for j, b := range boards {
			out = append(out, fmt.Sprintf("%s, board %d: pulled up to %s MPa, pressed up to %s MPa.",
				stateName(d.States[i].Label, d.States[i].RHPct), j+1, mpa(b[0].mpa), mpa(-b[1].mpa)))
		}
	}
	return strings.Join(out, " ")
}
