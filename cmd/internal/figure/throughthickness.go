package figure

import (
	"fmt"
)

// Thickness asks how deep the weather reaches: moisture content through the thickness of a board,
// at a few moments.
type Thickness struct {
	Meta
	Name    string // of the board
	Curves  []ThicknessCurve
	Painted string // what stands at the painted face
}

// ThicknessCurve is one moment.
type ThicknessCurve struct {
	Name  string    // such as "12 Feb 2011, 18 % RH"
	ZMM   []float64 // from the back
	MCPct []float64
}

// Draw lays the figure out.
func (t Thickness) Draw() Figure {
	meta := t.or("thickness", "How deep does the weather reach?")
	c := chart{meta: meta, words: capital(clean(t.Name)) + ". Back face at the left, painted face at the right.", empty: noCurve, height: 170}
	var xs, ys [][]float64
	desc := ""
	for i, k := range t.Curves {
		c.curves = append(c.curves, curve{name: clean(k.Name), x: k.ZMM, y: k.MCPct, sign: series(i)})
		xs, ys = append(xs, k.ZMM), append(ys, k.MCPct)
		desc += listed(clean(k.Name), k.ZMM, k.MCPct, " %", func(v float64) string { return fixed(v, 1) })
	}
	_, hi, _ := extent(xs...)
	hi = max(hi, 0)
	c.x = linear("From the back face / mm", 0, hi)
	lo, top, ok := extent(ys...)
	if !ok {
		lo, top = 0, 1
	}
	c.y = around("Moisture content / %", lo, top)
	return c.figure(t.sentence(), desc)
}

// sentence compares how much the two faces move over the moments shown.
func (t Thickness) sentence() string {
	var back, front []float64
	for _, k := range t.Curves {
		if n := min(len(k.ZMM), len(k.MCPct)); n > 1 {
			back, front = append(back, k.MCPct[0]), append(front, k.MCPct[n-1])
		}
	}
	a, b, ok := extent(back)
	c, d, _ := extent(front)
	if !ok {
		return "The moisture could not be calculated."
	}
	return fmt.Sprintf("Between these moments the back face moves over %s %% of moisture content and the painted side over %s.", fixed(b-a, 1), fixed(d-c, 1))
}
