package figure

import "time"

// RecordWood is an annex figure: what thin wood held in balance with the running mean of a record's
// humidity, by its mean curve and along its scanning loops.
type RecordWood struct {
	Meta
	Start         time.Time
	Days          []float64 // since Start
	MeanMC, Loop  []float64 // per cent of the dry mass; NaN: not formed
	Wood, Average string    // such as "oak", "7 days"
}

// Draw lays the figure out.
func (w RecordWood) Draw() Figure {
	title := "How much water would thin wood have held?"
	if name := clean(w.Wood); name != "" {
		title = "How much water would thin " + name + " have held?"
	}
	meta := w.or("record-moisture", title)
	lo, hi, ok := extent(w.Days)
	if !ok || !(hi > lo) {
		lo, hi = 0, 1
	}
	c := chart{meta: meta, x: calendar(w.Start, lo, hi), empty: noCurve, height: 150}
	c.words = "Wood thin enough to follow the mean of " + clean(w.Average) + "; thicker wood moves less and later."
	note := func(v []float64) string {
		a, b, _ := extent(v)
		return span(a, b, func(x float64) string { return fixed(x, 1) }) + " %"
	}
	xs, loop := thinned(w.Days, w.Loop, mostPoints/2)
	xm, mean := thinned(w.Days, w.MeanMC, mostPoints/2)
	if _, _, ok := extent(loop); ok {
		c.curves = append(c.curves, curve{name: "along its loops", note: note(loop), x: xs, y: loop, sign: series(1)})
	}
	if _, _, ok := extent(mean); ok {
		c.curves = append(c.curves, curve{name: "mean curve", note: note(mean), x: xm, y: mean, sign: series(0)})
	}
	a, b, ok := extent(loop, mean)
	if !ok {
		a, b = 0, 1
	}
	c.y = around("Moisture content / %", a, b)
	return c.figure(w.sentence(), listedDays("Mean curve", w.Start, w.Days, w.MeanMC, " %", func(v float64) string { return fixed(v, 1) })+
		listedDays("Along its loops", w.Start, w.Days, w.Loop, " %", func(v float64) string { return fixed(v, 1) }))
}

func (w RecordWood) sentence() string {
	a, b, ok := extent(w.MeanMC)
	c, d, _ := extent(w.Loop)
	if !ok {
		return "The record is too short for a mean of " + clean(w.Average) + "."
	}
	name := clean(w.Wood)
	if name == "" {
		name = "wood"
	}
	return "Thin " + name + " would have changed by " + fixed(b-a, 1) + " parts of water to 100 parts of dry wood by its mean curve, by " +
		fixed(d-c, 1) + " along its loops, which is nearer to what wood does when humidity goes up and down."
}
