package response

import (
	"fmt"
	"math"
	"slices"

	"crossgrain/moisture"
	"crossgrain/panel"
	"crossgrain/panel/restraint"
)

// What stands in where nothing is recorded or asked. All are assumptions; reports print them.
const (
	easeLine    = 0.5    // part of what the weakest line bears for a season
	easeSag     = 0.5    // of the thickness: up to it a linear answer holds, see restraint.ReachOf
	easeLoad    = 0.5    // part of the yield load of the weakest fixing
	easePlay    = 1.0    // mm at each end of a slot; common practice
	easeShank   = 5.0    // mm
	easePoints  = 0.05   // by which the humidity of fixing may be missed, RH
	easeGrip    = 17.5   // N at a slotted fixing: friction 0.35 x 50 N, as for slotted battens in panel files
	easeApart   = 150.0  // mm between fixings of which none is recorded
	easeEdge    = 40.0   // mm of the outermost from the edges, likewise
	mostFixings = 100    // as many as the kernel takes
	battenEL    = 0.2174 // width of ln E along the grain, from a coefficient of variation of 0.22 (Wood Handbook 2021, table 5-6)
)

// EaseLimits are what battens shall keep; a zero field takes the default named.
type EaseLimits struct {
	Line   float64   // part of what the weakest line is taken to bear for a season, above 0 to 1; 0 = half
	Sag    float64   // when carried level on two edges, as a share of the thickness; 0 = half
	Share  float64   // of the warp that may be held back, above 0 to 1; 0 = not asked
	Load   float64   // at a fixing, N; 0 = half the yield load of the weakest there is, none if none yields
	Play   float64   // margin at each end of a slot, mm; 0 = 1 mm
	Shank  float64   // of a fixing, mm; 0 = 5 mm
	Points float64   // by which the humidity of fixing may be missed, RH; 0 = 0.05
	Widths []float64 // of battens in the table, mm; nil = 20 to 80 and those there are
}

// Ease says between which limits the battens of a panel may lie so that they carry it and hold it as
// little as asked.
type Ease struct {
	Range   [2]moisture.RH
	Limits  EaseLimits       // as used, defaults filled in
	Easing  restraint.Easing // what went into the closed forms
	Weakest WeakestLine
	Bounds  restraint.Bounds        // of E I of one batten, N mm2
	Rows    []restraint.WorkshopRow // by width; none without battens
	Present []EaseBatten            // the battens and sliders there are
	Slots   []EaseSlot              // by distance from the fixed point
	Fixings int                     // needed on each batten, for [Ease.Depth]; 0 = no batten or sliders alone, -1 = 41 are not enough
	Width   float64                 // of the batten that Fixings and Springs are for, mm
	Depth   float64                 // and its depth, mm
	Springs []restraint.SpringRow   // between panel and that batten
	Bare    restraint.Carried       // carried level on its two edges along the grain without battens
	Swing   [2]float64              // free change of width at the ends of the range, mm
	// Described is the larger free warp at the ends of the range as described, mm, and Loose the
	// upper limit for it, of E I of one batten, N mm2; +Inf = none.
	Described, Loose float64
	Room             restraint.Room // what a frame has to give over the range
	Warp             [2]float64     // free warp over the range with what ground and heart sides leave open, least and greatest, mm, rounded positive
}

// WeakestLine is the line of the panel that bears least when it is bent across the grain.
type WeakestLine struct {
	Part   string
	Bears  float64 // thickness, mm
	Stress float64 // that it is taken to bear for a season, MPa
}

// EaseBatten is one batten or slider as it is.
type EaseBatten struct {
	Part         string
	Width, Depth float64
	Glued, Flat  bool                  // glued over its length; kept flat by something else
	Slides       bool                  // in the notches of a cradle: it has no fixings
	Stiffness    [2]float64            // E I, low and high, N mm2
	Does         restraint.WorkshopRow // its depths least and most, and what it does
	Above, Below bool                  // stiffer than the limits of restraint allow; softer than carrying needs
	To           float64               // depth to which it could be planed, halves of a mm; 0 = not by planing alone
}

// EaseSlot is the slot for a fixing at a distance from the fixed point, mm.
type EaseSlot struct {
	Distance float64
	restraint.Cut
}

// Ease returns what battens of this panel may be, for a range of humidity in which it swings from the
// one it is used to. The thickness of each board is kept in the modulus, E (t/T)^3. The free warp is the
// largest that ground and unknown heart sides allow, and beside it as described; battens slide in their fixings, apart from one fixed point in the
// middle of the width (common practice). It returns an error for a range that is none, limits outside
// what their fields say and a panel outside those of [restraint.Easing].
func (c *Case) Ease(span [2]moisture.RH, limits EaseLimits) (Ease, error) {
	if !(span[0] >= 0 && span[0] <= span[1] && span[1] <= 1) {
		return Ease{}, fmt.Errorf("response: range must run from a humidity to one not below it within 0..100 %% RH, got %g..%g", span[0].Percent(), span[1].Percent())
	}
	l, err := limits.filled(c)
	if err != nil {
		return Ease{}, err
	}
	r := Ease{Range: span, Limits: l, Weakest: c.weakest()}
	if err := c.swing(&r); err != nil {
		return r, err
	}
	c.easing(&r)
	t, err := r.Easing.Table(l.Widths)
	if err != nil {
		return r, fmt.Errorf("response: battens: %w", err)
	}
	r.Bounds, r.Rows = t.Bounds, t.Rows
	as := r.Easing
	as.Warp = r.Described
	loose, err := as.Bounds()
	if err != nil {
		return r, fmt.Errorf("response: battens: %w", err)
	}
	r.Loose = loose.Most
	if r.Bare, err = c.plate().Carried(r.Easing.Density, restraint.ByTheSides, 0); err != nil {
		return r, err
	}
	for _, m := range c.crossing() {
		p, err := r.present(m)
		if err != nil {
			return r, fmt.Errorf("%s: %w", m.part, err)
		}
		r.Present = append(r.Present, p)
	}
	for _, p := range r.Present {
		if !p.Slides {
			return r, r.workshop(p)
		}
	}
	return r, nil
}

// filled puts the defaults in.
func (l EaseLimits) filled(c *Case) (EaseLimits, error) {
	for _, q := range []struct {
		name, unit string
		v          *float64
		or, max    float64
	}{
		{"part of what the weakest line bears", "", &l.Line, easeLine, 1}, {"sag", "of the thickness", &l.Sag, easeSag, 100},
		{"share of the warp held", "", &l.Share, 0, 1}, {"load at a fixing", "N", &l.Load, c.leastYield() * easeLoad, 1e6},
		{"play", "mm", &l.Play, easePlay, 100}, {"shank", "mm", &l.Shank, easeShank, 100}, {"miss of the humidity of fixing", "RH", &l.Points, easePoints, 1},
	} {
		if !(*q.v >= 0 && *q.v <= q.max) {
			return l, fmt.Errorf("response: %s must lie between 0 and %g %s, got %g", q.name, q.max, q.unit, *q.v)
		}
		if *q.v == 0 {
			*q.v = q.or
		}
	}
	if l.Widths == nil {
		l.Widths = []float64{20, 30, 40, 50, 60, 80}
		for _, m := range c.crossing() {
			l.Widths = append(l.Widths, m.width)
		}
	}
	l.Widths = slices.Compact(slices.Sorted(slices.Values(l.Widths)))
	return l, nil
}

// leastYield returns the yield load of the weakest fixing, N; 0 when none yields.
func (c *Case) leastYield() float64 {
	least := math.Inf(1)
	for _, m := range c.crossing() {
		for _, f := range m.fix {
			if f.Yield > 0 {
				least = math.Min(least, f.Yield)
			}
		}
	}
	if math.IsInf(least, 1) {
		return 0
	}
	return least
}

// weakest finds the line with the least moment that it bears for a season, capacity x t^2/6. What an
// open part of a join or a through split does not bear, the rest of the height bears.
func (c *Case) weakest() WeakestLine {
	best, least := WeakestLine{}, math.Inf(1)
	try := func(part string, bears, stress float64) {
		if m := stress * bears * bears; m < least {
			best, least = WeakestLine{part, bears, math.Max(stress, 1e-6)}, m
		}
	}
	for i := range c.boards {
		try("board."+c.boards[i].Name, c.boards[i].Thickness, c.boards[i].bears())
	}
	for _, j := range c.o.Joins {
		l, r := &c.boards[j.Left], &c.boards[j.Right]
		closed := math.Max(1-j.Open()/c.o.Along, 1e-3)
		try("join."+j.Name, math.Min(l.Thickness, r.Thickness), math.Min(l.bears(), r.bears())*math.Max(j.StrengthOfSound, 1e-3)*closed)
	}
	for _, s := range c.o.Splits {
		b := &c.boards[s.Board]
		if s.Through {
			try("split."+s.Name, b.Thickness, b.bears()*math.Max(1-s.Length()/c.o.Along, 1e-3))
			continue
		}
		try("split."+s.Name, math.Max(b.Thickness-s.Depth, 0.01*b.Thickness), b.bears())
	}
	return best
}

// bears returns the stress under which sound wood would part in a season, MPa: the strain it bears
// times the modulus left, never above its short strength.
func (b *board) bears() float64 {
	return math.Min(b.breaks*b.stiff*b.left, b.Ring.Tension(b.Wood)*b.StiffnessReduction)
}

// swing fills in what the panel does over the range when nothing holds it.
func (c *Case) swing(r *Ease) error {
	p := r.Limits.Points
	used := float64(c.o.UsedTo)
	lo, hi := moisture.RH(math.Max(0, used-p)), moisture.RH(math.Min(1, used+p))
	s, err := c.Settle([]moisture.RH{r.Range[0], r.Range[1], lo, hi})
	if err != nil {
		return err
	}
	r.Swing = [2]float64{s[0].Width, s[1].Width}
	r.Warp = [2]float64{math.Min(s[0].CupLow, s[1].CupLow), math.Max(s[0].CupHigh, s[1].CupHigh)}
	far := math.Max(math.Abs(r.Warp[0]), math.Abs(r.Warp[1]))
	r.Easing.Warp, r.Described = far, math.Max(math.Abs(s[0].Cup), math.Abs(s[1].Cup))
	w := c.o.Across
	r.Easing.Swing = restraint.Swing{
		Dry: math.Min(0, r.Swing[0]/w), Damp: math.Max(0, r.Swing[1]/w), Doubt: math.Max(-s[2].Width, s[3].Width) / w,
	}
	r.Room, err = r.Easing.Swing.Frame(w, c.thickest(), r.Warp, r.Limits.Play)
	return err
}

// easing fills in the panel and its battens for the closed forms.
func (c *Case) easing(r *Ease) {
	e, l := &r.Easing, r.Limits
	weight := c.mass()
	e.Across, e.Along, e.T, e.E = c.o.Across, c.o.Along, c.meanThickness(), c.folded()
	e.Left, e.Density = c.meanLeft(), weight/(e.Across*e.Along*e.T*1e-9)
	e.Share, e.Stress, e.Line, e.Sag, e.Load = l.Share, l.Line*r.Weakest.Stress, math.Min(r.Weakest.Bears, e.T), l.Sag, l.Load
	e.Fixed, e.Shank, e.Play, e.Grip = e.Across/2, l.Shank, l.Play, 0
	e.Fixings, e.Inset = max(2, int(math.Round(e.Across/easeApart))), math.Min(easeEdge, e.Across/4)
	e.Fixings = min(e.Fixings, mostFixings)
	e.EBatten = [2]float64{math.Inf(1), 0}
	bars := c.crossing()
	e.Battens = min(len(bars), 100)
	for i, m := range bars {
		e.EBatten[0], e.EBatten[1] = math.Min(e.EBatten[0], m.ends()[0]), math.Max(e.EBatten[1], m.ends()[1])
		if n := len(m.fix); n > 0 && !m.glued && (i == 0 || n < e.Fixings) {
			e.Fixings = min(n, mostFixings)
			e.Inset = math.Min(math.Max(0, math.Min(m.fix[0].X, e.Across-m.fix[n-1].X)), 0.45*e.Across)
		}
		e.Grip = math.Max(e.Grip, m.grip())
	}
	if len(bars) == 0 {
		e.EBatten = [2]float64{1, 1} // no batten, no row: the value is not used
	}
}

// crossbar is a batten or a slider of a cradle, across the grain.
type crossbar struct {
	part                string
	width, depth        float64
	el                  float64
	glued, flat, slides bool
	fix                 []panel.Fixing
	slide               float64 // N, at which a slider gives
}

// crossing lists the battens and sliders there are.
func (c *Case) crossing() []crossbar {
	var out []crossbar
	for _, b := range c.o.Battens {
		if !b.Empty {
			out = append(out, crossbar{part: "batten." + b.Name, width: b.Width, depth: b.Depth, el: b.Wood.EL, glued: b.Glued, flat: b.HoldsFlat, fix: b.Fixings})
		}
	}
	if k := c.o.Cradle; k != nil {
		for i := range k.SliderY {
			bar := crossbar{
				part: fmt.Sprintf("cradle.slider %d", i+1), width: k.SliderWidth, depth: k.SliderDepth, el: k.SliderWood.EL,
				slides: true, slide: k.FrictionForce,
			}
			for _, x := range k.FixedX {
				bar.fix = append(bar.fix, panel.Fixing{X: x, Footprint: k.FixedWidth})
			}
			out = append(out, bar)
		}
	}
	return out
}

// ends returns the modulus along the grain with 5 and 95 in 100 pieces below.
func (m crossbar) ends() [2]float64 {
	const z95 = 1.645
	return [2]float64{m.el * math.Exp(-z95*battenEL), m.el * math.Exp(z95*battenEL)}
}

// grip returns the friction force at a slotted fixing, N.
func (m crossbar) grip() float64 {
	if m.slides {
		return m.slide
	}
	g := 0.0
	for _, f := range m.fix {
		g = math.Max(g, f.Friction*f.Preload)
	}
	if g == 0 {
		return easeGrip
	}
	return g
}

// present sets one batten beside the limits.
func (r *Ease) present(m crossbar) (EaseBatten, error) {
	e := r.Easing
	e.EBatten = m.ends()
	p := EaseBatten{Part: m.part, Width: m.width, Depth: m.depth, Glued: m.glued, Flat: m.flat, Slides: m.slides}
	var err error
	if p.Does, err = e.At(m.width, m.depth); err != nil {
		return p, err
	}
	for i, el := range e.EBatten {
		p.Stiffness[i] = el * m.width * m.depth * m.depth * m.depth / 12
	}
	p.Above, p.Below = m.depth > p.Does.Most, m.depth < p.Does.Least
	if p.Above {
		p.To = math.Floor(2*p.Does.Most+1e-9) / 2
	}
	return p, nil
}

// workshop adds fixings, slots and springs for a batten like the first there is; fixings for one planed to
// the upper limit where it is deeper.
func (r *Ease) workshop(first EaseBatten) error {
	e := r.Easing
	r.Width, r.Depth = first.Width, math.Min(first.Depth, math.Floor(2*first.Does.Most+1e-9)/2)
	n, ok, err := e.FixingsNeeded(r.Width, r.Depth)
	if err != nil {
		return err
	}
	if r.Fixings = n; !ok {
		r.Fixings = -1
	}
	if r.Springs, err = e.Springs(first.Width, first.Depth, []int{3, 5, 7, 9}); err != nil {
		return err
	}
	at, err := restraint.EvenBearers(e.Fixings, e.Across, e.Inset)
	if err != nil {
		return err
	}
	for _, x := range at {
		d := math.Round(math.Abs(x - e.Fixed))
		if slices.ContainsFunc(r.Slots, func(s EaseSlot) bool { return s.Distance == d }) {
			continue
		}
		cut, err := e.Swing.Slot(d, e.Shank, e.Play)
		if err != nil {
			return err
		}
		r.Slots = append(r.Slots, EaseSlot{d, cut})
	}
	slices.SortFunc(r.Slots, func(a, b EaseSlot) int { return int(a.Distance - b.Distance) })
	return nil
}
