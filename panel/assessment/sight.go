package assessment

import (
	"math"
	"time"

	"crossgrain/panel"
	"crossgrain/panel/response"
)

// What can be measured on a panel.
const (
	SeenWarp  = "warp"
	SeenGap   = "gap"
	SeenWidth = "width"
)

// sight is one thing that was measured, and what the model makes of it. Lengths mm.
type sight struct {
	panel.Observation
	what       string
	value      float64
	instrument float64 // one standard deviation
	model      float64 // that of the model, see below
	rest       float64 // that of where the panel stands at the humidity it is used to
	factor     float64 // from the closed forms to the better model, of the panel as described
	base       float64 // what the file says it was at the humidity baseRH; the model tells the change from there
}

// Errors of the model and of rest, one standard deviation (assumptions): 15 in 100 of a free movement, a fifth of what members
// hold back of a warp, three tenths of an opening and 0.05 mm; at rest a warp of a hundredth of its chord, a gap of 0.3 mm where
// none is recorded, and a width known to 2 mm, or 20 mm of a panel measured in its frame.
const (
	modelFree = 0.15
	modelHeld = 0.2
	modelOpen = 0.3
	leastOpen = 0.05
	restWarp  = 0.01
	restGap   = 0.3
	restWidth = 2.0
	inFrame   = 20.0
)

// notTold is how long a humidity is taken to have stood where that was not recorded (assumption).
const notTold = 30 * 24 * time.Hour

// since is how long the humidity of an observation had stood.
func since(o *panel.Observation) time.Duration {
	if o.Days <= 0 {
		return notTold
	}
	return time.Duration(o.Days * 24 * float64(time.Hour))
}

// sights makes the observations ready. plain and fine are the panel as described. What cannot be used is told.
func (h *held) sights(plain, fine *response.Case, o *panel.Object) (unused []string, err error) {
	for _, obs := range h.p.Observed() {
		rough, err := plain.Been(obs.RH, since(&obs))
		if err != nil {
			return nil, err
		}
		best, err := fine.Been(obs.RH, since(&obs))
		if err != nil {
			return nil, err
		}
		add := func(s sight) { s.Observation = obs; h.seen = append(h.seen, s) }
		if obs.HasCup {
			chord := obs.Over / o.Across
			stands := best.Cup
			if best.Shape != nil {
				stands = best.Shape.Warp
			}
			s := sight{what: SeenWarp, value: obs.Cup, instrument: obs.CupError, rest: restWarp * obs.Over, factor: chord * chord}
			if math.Abs(rough.Cup) > 1e-6 {
				s.factor *= min(max(stands/rough.Cup, -1), 3)
			}
			s.model = chord * chord * (modelFree*math.Abs(stands) + modelHeld*math.Abs(best.Cup-stands))
			add(s)
		}
		if obs.HasWidth {
			s := sight{what: SeenWidth, value: obs.Width, instrument: obs.WidthError, rest: restWidth, factor: 1, base: o.Across}
			if h.p.Text("panel.measured") == "sight" || h.p.Text("panel.measured") == "framed" {
				s.rest = inFrame
			}
			if best.Shape != nil && math.Abs(best.Width) > 1e-6 {
				s.factor = min(max(best.Shape.Width/best.Width, 0), 1)
			}
			s.model = modelFree * math.Abs(best.Width)
			add(s)
		}
		if obs.HasGap {
			l, r := lineOf(best.Lines, obs.At), lineOf(rough.Lines, obs.At)
			if l == nil {
				unused = append(unused, obs.Name+": by the file "+obs.At+" is closed, so its gap tells nothing of movement")
				continue
			}
			s := sight{what: SeenGap, value: obs.Gap, instrument: obs.GapError, rest: restGap, factor: 1}
			if gap, ok := h.p.Number(obs.At + ".gap_mm"); ok {
				s.base, s.rest = gap.Nominal, obs.GapError
			}
			if r.Opening > s.base+1e-6 {
				s.factor = max(l.Opening-s.base, 0) / (r.Opening - s.base)
			}
			s.model = modelOpen*math.Abs(l.Opening-s.base) + leastOpen
			add(s)
		}
	}
	return unused, nil
}

// look tells what would have been measured on one realisation.
func (h *held) look(c *response.Case) ([]float64, error) {
	out := make([]float64, len(h.seen))
	for i := range h.seen {
		s := &h.seen[i]
		st, err := c.Been(s.RH, since(&s.Observation))
		if err != nil {
			return nil, err
		}
		switch s.what {
		case SeenWarp:
			out[i] = s.factor * st.Cup
		case SeenWidth:
			out[i] = s.base + s.factor*st.Width
		case SeenGap:
			if l := lineOf(st.Lines, s.At); l != nil {
				out[i] = s.base + s.factor*max(l.Opening-s.base, 0)
			}
		}
	}
	return out, nil
}

func lineOf(lines []response.LineState, part string) *response.LineState {
	for i := range lines {
		if lines[i].Part == part {
			return &lines[i]
		}
	}
	return nil
}
