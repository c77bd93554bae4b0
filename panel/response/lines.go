package response

import (
	"fmt"
	"math"

	"crossgrain/panel/fracture"
	"crossgrain/tables"
)

// line is a split, check or partly open join that may lengthen along the grain.
type line struct {
	part, kind string
	board      int
	x          float64
	start, end float64
	depth      float64 // share of the thickness
	relative   float64 // toughness relative to sound wood
	gap        float64
	back       bool // a check that is open at the back
	filled     bool
}

// halfOpen is the share of the thickness to which a join that is open at one face only is taken to be open (assumption).
const halfOpen = 0.5

// prepareLines lists what may lengthen.
func (c *Case) prepareLines() {
	for _, s := range c.o.Splits {
		b := &c.boards[s.Board]
		kind := "split"
		depth := 1.0
		if !s.Through {
			kind, depth = "check", math.Min(1, s.Depth/b.Thickness)
		}
		c.lines = append(c.lines, line{"split." + s.Name, kind, s.Board, s.X, s.Start, s.End, depth, 1, s.Gap, s.Face == "back", s.Filled == "yes"})
	}
	for _, j := range c.o.Joins {
		if j.Open() > 0 {
			depth := 1.0
			if j.OpenFace == "front" || j.OpenFace == "back" {
				depth = halfOpen
			}
			c.lines = append(c.lines, line{"join." + j.Name, "join", j.Left, j.X, j.OpenStart, j.OpenEnd, depth, j.StrengthOfSound, j.Gap, j.OpenFace == "back", j.Filled == "yes"})
		}
	}
}

// crack follows every line at one humidity. Its demand is told as stress intensity, which goes with
// the strain as the demands of the other modes do; energies stand in the state of the line.
func (c *Case) crack(s *State) error {
	for i := range c.lines {
		l := &c.lines[i]
		b := &c.boards[l.board]
		st := LineState{
			Part: l.part, Kind: l.kind, Length: l.end - l.start, Opening: l.gap, Stops: l.end - l.start,
			Toughness: b.Wood.GcStart * math.Max(l.relative, 1e-3), Plateau: b.Wood.GcPlateau * math.Max(l.relative, 1e-3),
		}
		var share float64
		span, strain, bend := c.around(s, l)
		if c.planned != nil && span > 0 && !c.planned.stands(c.lines[i].part) {
			strain, bend = c.alongLine(i, s.stood)
		}
		if span > 0 {
			st.Span = span
			var err error
			if share, err = c.release(&st, i, s.stood, strain, bend); err != nil {
				return fmt.Errorf("%s: %w", l.part, err)
			}
		}
		if open, ok := c.seamOpening(i, s.stood); ok {
			st.Opening = open
		}
		s.Lines = append(s.Lines, st)
		bears := math.Sqrt(st.Toughness*c.modeOne(b)) / math.Sqrt(1000) // N/mm and MPa to MPa m^0.5
		s.Demands = append(s.Demands, Demand{CheckGrowth, l.part, share * bears, bears, "MPa m^0.5", tables.Estimate})
	}
	return nil
}

// around returns the span between what holds the wood on either side of the line, and the strain
// held at a place y along the grain: the greatest pull that any member there holds, dying away
// along the grain; pressed wood counts as not pulled. bend is the curvature withheld at the tip. Of a line that stands open in
// the elements it is what the closed forms say, which know of no line: what drives it, not what it has let go.
func (c *Case) around(s *State, l *line) (span float64, strain func(y float64) float64, bend float64) {
	var near []*RestraintState
	open := c.planned != nil && c.planned.stands(l.part)
	for k := range s.Restraints {
		r := &s.Restraints[k]
		if r.Ends[0] < l.x && l.x < r.Ends[1] {
			near = append(near, r)
			span = math.Max(span, r.Ends[1]-r.Ends[0])
			kept := r.Bend
			if open && r.Closed != nil {
				kept = r.Closed.bend
			}
			for _, tip := range l.tips(c.o.Along) {
				bend = math.Max(bend, math.Abs(kept)*r.reaches(tip))
			}
		}
	}
	return span, func(y float64) float64 {
		var pull, press float64
		for _, r := range near {
			v := r.Held[l.board]
			if open && r.Closed != nil {
				v = r.Closed.held[l.board]
			}
			v *= r.reaches(y)
			pull, press = math.Max(pull, v), math.Min(press, v)
		}
		if pull > 0 {
			return pull
		}
		return press
	}, bend
}

// reaches is the share of what a member holds that is left at y along the grain; a rebate holds all along.
func (r *RestraintState) reaches(y float64) float64 {
	if r.Spread.Decay == 0 {
		return 1
	}
	return r.Spread.At(y - r.Y)
}

// alongLine is what the elements say of the strain held along line i, and of the greatest curvature withheld
// at its tips.
func (c *Case) alongLine(i int, st *standing) (strain func(y float64) float64, bend float64) {
	l, at := &c.lines[i], c.planned.lines[i]
	held, bent := make([]float64, len(at)), make([]float64, len(at))
	for k := range at {
		n, m := at[k].Read(st.force, st.load)
		mid, front, back := c.heldStrain(&at[k], n, m)
		thick, _ := c.woodAt(&at[k])
		held[k], bent[k] = mid, (front-back)/thick
	}
	read := func(v []float64, y float64) float64 {
		p := y/c.o.Along*lineStations - 0.5
		k := int(min(max(p, 0), lineStations-2))
		f := min(max(p-float64(k), 0), 1)
		return v[k]*(1-f) + v[k+1]*f
	}
	for _, tip := range l.tips(c.o.Along) {
		bend = math.Max(bend, math.Abs(read(bent, tip)))
	}
	return func(y float64) float64 { return read(held, y) }, bend
}

// tips returns the ends of the line that lie in the panel.
func (l *line) tips(along float64) []float64 {
	var out []float64
	if l.start > 0 {
		out = append(out, l.start)
	}
	if l.end < along {
		out = append(out, l.end)
	}
	return out
}

// release fills in energy, opening and where the line would stop, and returns its share of limit.
func (c *Case) release(st *LineState, i int, stood *standing, strain func(y float64) float64, bend float64) (float64, error) {
	l := &c.lines[i]
	b := &c.boards[l.board]
	fl := fracture.Line{
		Start: l.start, End: l.end, Along: c.o.Along, Span: st.Span, Thickness: b.Thickness, DepthShare: l.depth,
	}
	d := fracture.Drive{Strain: strain, Curvature: bend, E0: b.stiff, Left: b.left, Shear: c.meanGLT()}
	curve, err := fracture.Release(fl, d)
	if err != nil {
		return 0, err
	}
	st.Strip = curve.Now().Slow
	open := math.NaN()
	if c.planned != nil {
		if e := c.byElements(i); len(e.curve.Points) > 1 {
			f := curve.Now().Slow / e.strip
			if wide, ok := c.comeApart(i, stood); ok {
				f = e.as(wide, st.Length)
			}
			if f > 0 {
				open = e.open * math.Sqrt(f)
			}
			curve = e.apply(f, curve.Now().Strain)
			st.Elements = true
		} else {
			st.Why = e.why
		}
	}
	st.curve = curve
	now := curve.Now()
	st.Slow, st.Sudden, st.Strain = now.Slow, now.Sudden, now.Strain
	if math.IsNaN(open) {
		open = fracture.Opening(now.Strain, st.Span, st.Length)
	}
	st.Opening = math.Max(0, st.Opening+open)
	run := curve.Run(st.Toughness)
	st.Grows, st.Stops, st.Through = run.Grows, run.Length, run.Through
	strength := b.Ring.Tension(b.Wood) * b.StiffnessReduction * math.Max(l.relative, 1e-3)
	rules := fracture.Governs(st.Length, curve.Demand(st.Toughness), d.Stress(now.Strain, strength))
	st.By = rules.By
	return rules.Share, nil
}

// modeOne returns the modulus of a crack that runs along the grain and opens across the board, MPa.
func (c *Case) modeOne(b *board) float64 {
	return fracture.ModeOneModulus(b.Wood.EL, b.stiff, b.Wood.NuLT, c.meanGLT())
}
