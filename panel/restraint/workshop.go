package restraint

import (
	"fmt"
	"math"
)

// WorkshopRow is one line of the table for the workshop: a batten of one width.
type WorkshopRow struct {
	Width float64 // of the batten along the panel's grain, mm
	Least float64 // depth that weight and handling need, mm; 0 = none
	Most  float64 // depth that the limits of restraint allow, mm; +Inf = any; 0 = no batten
	Depth float64 // what follows is for this depth, mm, see [Easing.Table]
	Fits  bool    // Least is not above Most: a plain batten can do both
	Held  [2]float64
	// Held is the share of the warp held back, low and high, 0 to 1, with fixings close together; few hold less ([Sprung]).
	Stress [2]float64 // at the weakest line, MPa, low and high
	Sag    [2]float64 // carried level on two edges, mm, low and high
	Slot   Cut        // at the outermost fixing
	Force  float64    // at the hardest-working fixing, N, warp and hanging weight together
	Reach  Reach      // of the larger sag
}

// Workshop is what a workshop needs to choose battens.
type Workshop struct {
	Bounds Bounds
	Rows   []WorkshopRow
	Words  []string // sentences that belong under the table
}

// Table returns one row for each width of batten, mm, above 0, in the order given, for the depth Least
// rounded up to half a millimetre: the least restraint that carries the panel. Where the panel
// carries itself it is for Most rounded down, the deepest batten that may stay (0 when there is no
// upper limit). With no battens there are no rows, only the sag without them. Sources as for
// [Easing.Bounds].
func (e Easing) Table(widths []float64) (Workshop, error) {
	b, err := e.Bounds()
	if err != nil {
		return Workshop{}, err
	}
	t := Workshop{Bounds: b, Words: e.words(b)}
	if e.Battens == 0 {
		return t, nil
	}
	for _, w := range widths {
		if !(w > 0) || math.IsInf(w, 1) {
			return Workshop{}, fmt.Errorf("width of a batten must be above 0 mm and finite, got %g", w)
		}
		least, most := depthFor(b.Least, e.EBatten[0], w), depthFor(b.Most, e.EBatten[1], w)
		r, err := e.At(w, rounded(least, most))
		if err != nil {
			return Workshop{}, err
		}
		r.Least, r.Most, r.Fits = least, most, least <= most
		t.Rows = append(t.Rows, r)
	}
	return t, nil
}

// rounded returns the depth that a row is for, in halves of a millimetre.
func rounded(least, most float64) float64 {
	switch {
	case least > 0:
		return math.Ceil(2*least-1e-9) / 2
	case math.IsInf(most, 1):
		return 0
	}
	return math.Floor(2*most+1e-9) / 2
}

// depthFor returns the depth of a batten of the stiffness ei, N mm2: (12 E I/(E b))^(1/3).
func depthFor(ei, modulus, width float64) float64 { return math.Cbrt(12 * ei / (modulus * width)) }

// At returns what battens of one width and depth, mm, do: halving the depth leaves an eighth of E I
// (Marchant 1998). A depth of 0 is no batten. Least, Most and Fits compare with the bounds.
func (e Easing) At(width, depth float64) (WorkshopRow, error) {
	b, err := e.Bounds()
	if err != nil {
		return WorkshopRow{}, err
	}
	if !(width > 0 && depth >= 0) || math.IsInf(width+depth, 1) {
		return WorkshopRow{}, fmt.Errorf("width of a batten must be above 0 mm and its depth 0 mm or more, got %g, %g", width, depth)
	}
	if e.Battens == 0 {
		depth = 0
	}
	r := WorkshopRow{Width: width, Depth: depth, Least: depthFor(b.Least, e.EBatten[0], width), Most: depthFor(b.Most, e.EBatten[1], width)}
	r.Fits = depth >= r.Least && depth <= r.Most
	low, high := e.bar(0, width, depth), e.bar(1, width, depth)
	r.Held = [2]float64{share(low, e.panel(1)*e.Left), share(high, e.panel(0)*e.Left)}
	r.Stress = [2]float64{e.lineStress(share(low, e.panel(0)*e.Left), 0), e.lineStress(share(high, e.panel(1)*e.Left), 1)}
	r.Sag = e.sag(low, high)
	r.Reach = ReachOf(r.Sag[1], e.T)
	if e.Battens > 0 {
		if r.Slot, err = e.Swing.Slot(e.farthest(), e.Shank, e.Play); err != nil {
			return WorkshopRow{}, err
		}
		r.Force, err = e.force(e.Fixings, high)
	}
	return r, err
}

// share returns the part of the warp that a batten holds in a strip of stiffness d.
func share(bar, d float64) float64 { return bar / (bar + d) }

// bar returns E I of a batten at one end of its wood, N mm2.
func (e Easing) bar(end int, width, depth float64) float64 {
	return e.EBatten[end] * width * cube(depth) / 12
}

// farthest returns the distance of the farthest fixing from the fixed point, mm.
func (e Easing) farthest() float64 {
	var far float64
	for _, x := range e.at(e.Fixings) {
		far = max(far, math.Abs(x-e.Fixed))
	}
	return far
}

// at returns the places of n fixings.
func (e Easing) at(n int) []float64 {
	at, _ := EvenBearers(n, e.Across, e.Inset) // valid() has looked at the inset
	return at
}

// force returns the largest force at one of n fixings under the warp and the panel's hanging weight, N.
func (e Easing) force(n int, bar float64) (float64, error) {
	s := Sprung{Panel: e.panel(1) * e.Left, Bar: bar, At: e.at(n), Rate: math.Inf(1), Width: e.Across}
	l, err := s.Bend(e.curvature())
	return l.Preload + e.weight()/float64(n*max(e.Battens, 1)), err
}

// FixingsNeeded returns the least number of fixings on each batten of a width and depth, mm, with
// which no fixing bears more than Load, counting the warp (see [Sprung]) and the panel's weight hanging
// face down from them, and with which the panel sags between them less than Sag allows. false when 41
// are not enough. Load or Sag must be asked for.
func (e Easing) FixingsNeeded(width, depth float64) (n int, ok bool, err error) {
	if _, err := e.At(width, depth); err != nil {
		return 0, false, err
	}
	if e.Load == 0 && e.Sag == 0 {
		return 0, false, fmt.Errorf("number of fixings needs a largest load at one of them, N, or a largest sag, got none")
	}
	for n := 2; n <= 41; n++ {
		f, err := e.force(n, e.bar(1, width, depth))
		if err != nil {
			return 0, false, err
		}
		b, err := Weight{E: e.E[0], T: e.T, Span: e.Across, Density: e.Density}.On(e.at(n))
		if err != nil {
			return 0, false, err
		}
		if (e.Load == 0 || f <= e.Load) && (e.Sag == 0 || math.Abs(b.Deflection) <= e.Sag*e.T) {
			return n, true, nil
		}
	}
	return 41, false, nil
}

// words are the sentences under the table.
func (e Easing) words(b Bounds) []string {
	var out []string
	if e.Sag > 0 && b.Least == 0 {
		out = append(out, "The panel carries its own weight within the sag allowed; no batten is needed for that. The depths are the largest that may stay.")
	}
	if b.Least > b.Most {
		out = append(out, "No plain batten carries the panel and also holds it as little as asked.", "Springs between batten and panel may do both.")
	}
	if e.friction() > e.Stress && e.Stress > 0 {
		out = append(out, "Friction at the slots alone is beyond the limit at the weakest line; press the fixings less.")
	}
	if b.Reach == Outside {
		out = append(out, "Without battens the sag is more than one thickness: outside the model.")
	}
	return append(out, NeverThere)
}
