package figure

// Sorption is an annex figure: moisture content over RH, with its branches.
type Sorption struct {
	Meta
	Setting
	RHPct  []float64
	Curves []SorptionCurve // at most six are drawn
	Wood   string
}

// SorptionCurve is one branch, in per cent of the dry mass.
type SorptionCurve struct {
	Name  string // such as "drying", "mean", "loop"
	MCPct []float64
}

// Draw lays the figure out.
func (s Sorption) Draw() Figure {
	title := "How much moisture does the wood hold?"
	if w := clean(s.Wood); w != "" {
		title = "How much moisture does the wood hold? (" + w + ")"
	}
	m := s.or("moisture-"+slug(clean(s.Wood)), title)
	c := chart{meta: m, x: s.axis(s.RHPct), rules: s.rules(), zones: s.zones(), empty: noCurve}
	all, desc := [][]float64{{0}}, ""
	lo, hi := s.ends(s.RHPct)
	for i, cv := range s.Curves[:min(len(s.Curves), 6)] {
		note := fixed(valueAt(s.RHPct, cv.MCPct, lo), 1) + " to " + fixed(valueAt(s.RHPct, cv.MCPct, hi), 1) + " %"
		c.curves = append(c.curves, curve{name: clean(cv.Name), note: note, x: s.RHPct, y: cv.MCPct, sign: series(i)})
		all = append(all, cv.MCPct)
		desc += listed(clean(cv.Name), s.RHPct, cv.MCPct, " % moisture content", func(v float64) string { return fixed(v, 1) })
	}
	_, top, _ := extent(all...)
	c.y = around("Moisture content / %", 0, top)
	sentence := "The moisture content could not be calculated."
	if len(s.Curves) > 0 && usable(valueAt(s.RHPct, s.Curves[0].MCPct, lo)) {
		v := s.Curves[0]
		sentence = "From " + rh(lo) + " to " + rh(hi) + " % RH the moisture content goes from " +
			fixed(valueAt(s.RHPct, v.MCPct, lo), 1) + " to " + fixed(valueAt(s.RHPct, v.MCPct, hi), 1) + " % (" + clean(v.Name) + ")."
	}
	return c.figure(sentence, desc)
}
