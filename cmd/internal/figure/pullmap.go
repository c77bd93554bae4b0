package figure

import (
	"math"
	"strings"

	"gonum.org/v1/plot/vg"
)

// PullMap asks where the wood is pulled: the panel from the back, as in [Panel], filled by the stress
// across the grain. Pulled is plain and darkens with solid lines, pressed is hatched with dashed lines.
type PullMap struct {
	Meta
	Panel Panel // boards, joins, cracks, members; its own Meta, inserts, notes and fixings are not drawn

	AcrossMM, AlongMM []float64   // places of the grid, rising
	MPa               [][]float64 // pulled positive; a row for each AlongMM, in it a value for each AcrossMM; NaN is left white

	Label string  // which state, such as "driest hour, 9 Feb 2025"
	RHPct float64 // nought: not written
}

const mapKey vg.Length = 42 // row of fills

const (
	mostGrid = 61  // of a finer grid every second, third ... row and column is drawn
	mostMPa  = 999 // more is no stress of wood: left white
)

// pullSheet is a PullMap laid out.
type pullSheet struct {
	*sheet
	n      net
	v      view
	values []float64
	step   float64
	peaks  [2]peakAt // largest pull and press; x across, z along
	words  string
}

// Draw lays the figure out.
func (m PullMap) Draw() Figure {
	meta := m.or("pull-map", "Where is the wood pulled?")
	d := m.layout(meta)
	return meta.figure(d.h, m.sentence(d.peaks), m.desc(d), func(p pen) {
		p.head(meta, d.h, d.words)
		if d.per == 0 {
			p.text("The size is not known.", at(margin, margin+10), quietText, left)
			return
		}
		d.fill(p)
		d.joins(p)
		d.drawCracks(p)
		d.drawMembers(p)
		d.contours(p)
		d.sayNone(p, m)
		p.rect(nil, stroke{1.2, ink, nil}, d.r)
		d.nameBoards(p)
		d.writeSizes(p)
		d.drawRuler(p)
		maps{step: d.step}.key(p, margin+rulerRow+12)
		d.drawNotes(p)
	})
}

func (m PullMap) layout(meta Meta) *pullSheet {
	if !m.rising() {
		m.AcrossMM, m.AlongMM = nil, nil
	}
	pl := HoldPlan{Panel: m.Panel}.bare()
	d := &pullSheet{sheet: pl.layout(meta), peaks: m.largest()}
	d.words = stateName(m.Label, m.RHPct)
	if d.words != "" {
		d.words = "Stress across the grain, MPa, " + d.words + ". "
	} else {
		d.words = "Stress across the grain, MPa. "
	}
	d.words += d.sheet.words
	d.h += headHeight(meta, d.words) - headHeight(meta, d.sheet.words)
	if d.per == 0 {
		return d
	}
	d.h += mapKey
	d.r.Min.Y, d.r.Max.Y = d.r.Min.Y+mapKey, d.r.Max.Y+mapKey
	if big := max(d.peaks[0].mpa, -d.peaks[1].mpa); big >= noStress {
		d.step = levelStep(big / (levels + 1))
	}
	d.grid(m)
	return d
}

// value is the stress at a place of the grid; NaN where there is none and beyond the panel.
func (m PullMap) value(along, across int) float64 {
	if !within(m.AcrossMM[across], m.Panel.AcrossMM) || !within(m.AlongMM[along], m.Panel.AlongMM) || along >= len(m.MPa) || across >= len(m.MPa[along]) || !(math.Abs(m.MPa[along][across]) <= mostMPa) {
		return math.NaN()
	}
	return m.MPa[along][across]
}

// within reports whether a place lies on a length, a thousandth beyond its ends allowed.
func within(v, length float64) bool { return v >= -0.001*length && v <= 1.001*length }

// rising reports whether the places of the grid can be joined to fields.
func (m PullMap) rising() bool {
	for _, v := range [2][]float64{m.AcrossMM, m.AlongMM} {
		for i := 1; i < len(v); i++ {
			if !(v[i] > v[i-1]) {
				return false
			}
		}
	}
	return len(m.AcrossMM) > 1 && len(m.AlongMM) > 1
}

// largest are the greatest pull and press of the whole grid.
func (m PullMap) largest() [2]peakAt {
	var out [2]peakAt
	for k, z := range m.AlongMM {
		for i, x := range m.AcrossMM {
			v := m.value(k, i)
			if v > out[0].mpa {
				out[0] = peakAt{mpa: v, x: x, z: z, ok: v >= noStress}
			}
			if v < out[1].mpa {
				out[1] = peakAt{mpa: v, x: x, z: z, ok: v <= -noStress}
			}
		}
	}
	return out
}

// every are the indices of a series of which at most mostGrid are taken, the ends always.
func every(n int) []int {
	by := max(1, (n-1+mostGrid-2)/(mostGrid-1))
	var out []int
	for i := 0; i < n-1; i += by {
		out = append(out, i)
	}
	if n > 0 {
		out = append(out, n-1)
	}
	return out
}

// grid makes elements of the grid: each between four of its places, u to the right before the drawing is
// turned over, v upwards.
func (d *pullSheet) grid(m PullMap) {
	us, vs := every(len(m.AcrossMM)), every(len(m.AlongMM))
	uv := func(i, k int) (float64, float64, float64) {
		return m.AcrossMM[us[i]], m.AlongMM[vs[k]], m.value(vs[k], us[i])
	}
	if d.GrainLevel {
		us, vs = every(len(m.AlongMM)), every(len(m.AcrossMM))
		uv = func(i, k int) (float64, float64, float64) {
			return m.AlongMM[us[i]], m.AcrossMM[vs[k]], m.value(us[i], vs[k])
		}
	}
	var g EndGrain
	var values []float64
	at_ := map[[2]int]int{}
	node := func(i, k int) int { // of a grid with twice as many places: means between its own
		if n, ok := at_[[2]int{i, k}]; ok {
			return n
		}
		u0, v0, s0 := uv(i/2, k/2)
		u1, v1, s1 := uv((i+1)/2, (k+1)/2)
		g.XMM, g.ZMM, values = append(g.XMM, (u0+u1)/2), append(g.ZMM, (v0+v1)/2), append(values, (s0+s1)/2)
		at_[[2]int{i, k}] = len(g.XMM) - 1
		return len(g.XMM) - 1
	}
	for i := 0; i+1 < len(us); i++ {
		for k := 0; k+1 < len(vs); k++ {
			a, b := 2*i, 2*k
			g.Elements = append(g.Elements, [8]int{node(a, b), node(a+2, b), node(a+2, b+2), node(a, b+2),
				node(a+1, b), node(a+2, b+1), node(a+1, b+2), node(a, b+1)})
		}
	}
	d.n = g.net()
	d.values = d.n.withMiddles(values)
	k := vg.Length(d.per)
	d.v = view{x: d.n.x, z: d.n.z, x0: d.r.Max.X, y0: d.r.Min.Y, kx: -k, kz: k}
}

func (m PullMap) sentence(peaks [2]peakAt) string {
	var out []string
	for k, verb := range [2]string{"pulled up to ", "pressed up to "} {
		if q := peaks[k]; q.ok {
			out = append(out, verb+mpa(math.Abs(q.mpa))+" MPa, "+m.where(q))
		}
	}
	state := stateName(m.Label, m.RHPct)
	if state != "" {
		state += ": "
	}
	switch {
	case !m.rising() || !m.known():
		return "The stress in the plane of the panel was not calculated."
	case len(out) == 0:
		return state + "no stress above " + fixed(noStress, 2) + " MPa."
	}
	return state + strings.Join(out, "; ") + "."
}

// sayNone says over the panel why it is white.
func (d *pullSheet) sayNone(p pen, m PullMap) {
	if d.step > 0 {
		return
	}
	text := "not calculated"
	if m.rising() && m.known() {
		text = "no stress above " + fixed(noStress, 2) + " MPa"
	}
	c := at((d.r.Min.X+d.r.Max.X)/2, (d.r.Min.Y+d.r.Max.Y)/2)
	if w := plainText.width(text); w < d.r.Max.X-d.r.Min.X-4 {
		p.rect(white, stroke{}, box(c.X-w/2-3, c.Y-3, c.X+w/2+3, c.Y+9))
		p.text(text, c, plainText, middle)
	}
}

// where is a place from the front: how far from the left (grain level: lower) edge and from the lower (left) end.
func (m PullMap) where(q peakAt) string {
	if m.Panel.GrainLevel {
		return mm(q.z) + " mm from the left, " + mm(q.x) + " mm up (from the front)"
	}
	return mm(q.x) + " mm from the left, " + mm(q.z) + " mm up (from the front)"
}

func (m PullMap) known() bool {
	for k := range m.AlongMM {
		for i := range m.AcrossMM {
			if !math.IsNaN(m.value(k, i)) {
				return true
			}
		}
	}
	return false
}

// desc are the largest pulls of nine fields of the panel, for readers who do not see it.
func (m PullMap) desc(d *pullSheet) string {
	if !m.rising() || !m.known() || d.per == 0 {
		return ""
	}
	var out []string
	for row, up := range [3]string{"lower", "middle", "upper"} {
		for col, side := range [3]string{"left", "middle", "right"} {
			lo, hi := math.Inf(1), math.Inf(-1)
			for k, z := range m.AlongMM {
				for i, x := range m.AcrossMM {
					u, v := x/m.Panel.AcrossMM, z/m.Panel.AlongMM
					if m.Panel.GrainLevel {
						u, v = v, u
					}
					s := m.value(k, i)
					if min(2, int(3*u)) == col && min(2, int(3*v)) == row && !math.IsNaN(s) {
						lo, hi = min(lo, s), max(hi, s)
					}
				}
			}
			if lo <= hi {
				out = append(out, up+" "+side+" "+mpa(lo)+" to "+mpa(hi))
			}
		}
	}
	return "Stress in MPa from the front: " + strings.Join(out, "; ") + "."
}
