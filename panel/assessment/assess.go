package assessment

import (
	"cmp"
	"context"
	"fmt"
	"math"
	"slices"
	"time"

	"crossgrain/moisture"
	"crossgrain/moisture/record"
	"crossgrain/panel"
	"crossgrain/panel/response"
)

// Question is what is asked.
type Question struct {
	Low, High   moisture.RH       // both zero: used-to -20 .. +20 points, clipped to 5..95 %
	Temperature *moisture.Celsius // nil: the used-to temperature
	Record      *record.Record    // a climate instead of a range
	Since       time.Time         // of a record followed step by step, states from then on are told; zero: all
	Case        Enclosure         // the closed case that the panel is in, for how long it can wait; nil: none
	Room        moisture.RH       // the room in which that case is to be opened; 0: not asked
	// Home is a record of where it hangs, and Season the driest and the dampest humidity of its year with which its wood is in
	// balance: how long it can wait counts from these. Nil and zero: not known.
	Home     *record.Record
	Season   [2]moisture.RH
	Setting  response.Setting
	NoWait   bool          // how long it can wait is left out: Result.Wait stays nil
	For      time.Duration // how long a humidity is held for the sampled range; 0: a season
	Samples  Samples
	Touching bool // what to find out may touch wood
}

// Result is the answer.
type Result struct {
	Panel     *panel.Panel
	Object    *panel.Object // nominal
	Low       moisture.RH
	High      moisture.RH
	From      string // asked, default, record
	Setting   response.Setting
	Gates     []panel.Gate
	States    []State          // over the range, or driest, middle, dampest of a record
	Sweep     []State          // every five points over the wider of range and caps, for curves
	Worst     []Worst          // each mode and part at its worst, greatest share first
	Range     CalculatedRange  // in which no limit of the model is reached
	Windows   []response.Board // how each board follows the air
	Carried   response.Load    // carried level on its two edges along the grain
	Ease      *response.Ease   // what battens may be over the range
	OwnWeight *response.OwnWeight
	Bays      []response.Bay // between glued members, those that ripple first in front
	FindOut   []FindOut      // what to find out about the panel, what matters most first
	Year      *response.Year // the course of a record; nil at setting quick
	// Paint, AtLines and Reglue are of ground and paint on each face, of the ground above joins and splits, and of closing
	// and gluing these. None of them sets a range or a rank.
	Paint   []response.PaintYear
	AtLines []response.GroundAtLine
	Reglue  []response.Reglue
	Wait    *Wait          // how long a humidity may stand; nil where it was not asked for
	Case    *response.Case // the panel as described, made ready; for figures
	// Closed says why the closed forms stand alone for the cross-section, at a setting that is not quick.
	Closed string
	Doubt  *Doubt // by many realisations; nil where none were asked for
}

// State is one state with the doubt of its shares.
type State struct {
	response.State
	Bands []Band // as Demands
	// WarpBand and WidthBand are those of warp and width if nothing held it, mm; nil without realisations.
	WarpBand, WidthBand *Band
}

// Band is the range of a share: about 5 and 95 in 100 plausible cases.
type Band struct{ Low, High float64 }

// Worst is a mode and part at the humidity where its share is greatest.
type Worst struct {
	response.Demand
	Band
	RH   moisture.RH // in balance with the wood at that moment, mean over the width
	Time time.Time   // of a record; zero otherwise
	// First is when in a record its share first reached 1, and FirstRH the humidity its wood was in balance with; zero: never.
	First   time.Time
	FirstRH moisture.RH
}

// Assess answers the question. It returns an error when the panel cannot be realised (such as a
// wood without movement data) or the setting is not built.
func Assess(ctx context.Context, p *panel.Panel, q Question) (*Result, error) {
	o, err := p.Realise(nil)
	if err != nil {
		return nil, err
	}
	c, err := q.prepare(o)
	if err != nil {
		return nil, err
	}
	windows, err := c.Boards()
	if err != nil {
		return nil, err
	}
	r := &Result{Panel: p, Object: o, Gates: p.Gates(), Setting: q.Setting, Windows: windows, Case: c}
	plain := c // doubt compares closed forms with closed forms
	if q.Setting != response.Quick {
		if plain, err = q.prepare(o); err != nil {
			return nil, err
		}
		r.Closed = c.Refine()
	}
	if r.Carried, err = c.Carried(); err != nil {
		return nil, err
	}
	var a *along
	if q.Record != nil && q.Setting != response.Quick {
		if a, err = followed(ctx, c, q); err != nil {
			return nil, err
		}
		r.Low, r.High, r.From, r.Year = a.low, a.high, "record", a.year
	} else if err := r.span(c, q); err != nil {
		return nil, err
	}
	if err := r.ease(c); err != nil {
		return nil, err
	}
	grid := r.grid()
	d, err := doubtOver(ctx, p, plain, q, grid)
	if err != nil {
		return nil, err
	}
	if r.Sweep, err = d.swept(c, grid); err != nil {
		return nil, err
	}
	if err := r.fill(ctx, c, q, d, a); err != nil {
		return nil, err
	}
	if err := r.surface(c); err != nil {
		return nil, err
	}
	r.FindOut = d.findOut(p, r.Worst)
	if !q.NoWait {
		if err := r.wait(ctx, p, q, d); err != nil {
			return nil, err
		}
	}
	if r.Range, err = calculated(c, d, o, r); err != nil {
		return nil, err
	}
	if q.Samples.Held > 0 {
		if plain, err = q.prepareAt(o, response.Quick); err != nil {
			return nil, err
		}
	}
	return r, r.sampled(ctx, p, q, plain, d, a)
}

// ease adds what battens may be over the range, the panel's own weight and where it ripples.
func (r *Result) ease(c *response.Case) error {
	e, err := c.Ease([2]moisture.RH{r.Low, r.High}, response.EaseLimits{})
	if err != nil {
		return err
	}
	w, err := c.OwnWeight()
	if err != nil {
		return err
	}
	r.Ease, r.OwnWeight = &e, &w
	r.Bays, err = c.Bays()
	return err
}

// surface tells what is asked of ground and paint, and of lines that would be closed and glued.
func (r *Result) surface(c *response.Case) (err error) {
	sweep, states := plainStates(r.Sweep), plainStates(r.States)
	if r.Year != nil {
		r.Paint = r.Year.Paint
	} else if r.Paint, err = c.PaintOver(states); err != nil {
		return err
	}
	r.AtLines = c.GroundAtLines(states)
	r.Reglue, err = c.Reglue(r.Low, r.High, sweep)
	return err
}

func plainStates(states []State) []response.State {
	out := make([]response.State, len(states))
	for i := range states {
		out[i] = states[i].State
	}
	return out
}

// prepare makes one realisation of the panel ready for the question.
func (q Question) prepare(o *panel.Object) (*response.Case, error) { return q.prepareAt(o, q.Setting) }

func (q Question) prepareAt(o *panel.Object, set response.Setting) (*response.Case, error) {
	if q.Temperature != nil {
		o.Temperature = *q.Temperature
	}
	return response.Prepare(o, set)
}

// span settles the range that is asked about.
func (r *Result) span(c *response.Case, q Question) error {
	used := r.Object.UsedTo
	switch {
	case q.Record != nil:
		var low, high moisture.RH = 1, 0
		for _, b := range r.Windows {
			lo, _, hi, err := q.Record.RunningMean(b.Window)
			if err != nil {
				return fmt.Errorf("board %s: %w", b.Name, err)
			}
			low, high = min(low, moisture.RH(lo)), max(high, moisture.RH(hi))
		}
		r.Low, r.High, r.From = low, high, "record"
	case q.Low == 0 && q.High == 0:
		r.Low, r.High, r.From = max(0.05, used-0.20), min(0.95, used+0.20), "default"
	default:
		if q.Low >= q.High || q.Low < 0 || q.High > 1 {
			return fmt.Errorf("range must run from a lower to a higher humidity within 0..100 %% RH, got %g..%g",
				q.Low.Percent(), q.High.Percent())
		}
		r.Low, r.High, r.From = q.Low, q.High, "asked"
	}
	return nil
}

// grid returns every fifth point over range and caps, the ends of the range and the used-to
// humidity.
func (r *Result) grid() []moisture.RH {
	lo, hi := caps(r)
	lo, hi = min(lo, r.Low), max(hi, r.High)
	g := []moisture.RH{lo, hi, r.Low, r.High, r.Object.UsedTo}
	if r.Object.LivedHigh > 0 {
		g = append(g, r.Object.LivedLow, r.Object.LivedHigh)
	}
	for p := math.Ceil(lo.Percent() / 5); p*5 <= hi.Percent(); p++ {
		g = append(g, moisture.Percent(p*5))
	}
	slices.Sort(g)
	return slices.CompactFunc(g, func(a, b moisture.RH) bool { return math.Abs(float64(a-b)) < 1e-9 })
}

// fill chooses the states that are reported, and of them the worst of each mode and part.
func (r *Result) fill(ctx context.Context, c *response.Case, q Question, d *doubt, a *along) (err error) {
	switch {
	case a != nil:
		r.Worst = a.worstOf(d)
		r.States, err = a.states(c, d)
		return err
	case q.Record != nil:
		var k collect
		if _, err := c.Through(ctx, q.Record, &k); err != nil {
			return err
		}
		for _, s := range k {
			r.States = append(r.States, State{State: s, Bands: d.bands(&s)})
		}
	default:
		for _, s := range r.Sweep {
			if s.RH >= r.Low-1e-9 && s.RH <= r.High+1e-9 {
				r.States = append(r.States, s)
			}
		}
	}
	r.Worst = worst(r.States)
	return nil
}

type collect []response.State

func (k *collect) Take(s *response.State) error { *k = append(*k, *s); return nil }

// worst lists every mode and part at its greatest share; those without a limit follow, by demand.
func worst(states []State) []Worst {
	var out []Worst
	for i := range states {
		for j, dem := range states[i].Demands {
			w := Worst{Demand: dem, Band: states[i].Bands[j], RH: states[i].RH}
			k := slices.IndexFunc(out, func(o Worst) bool { return o.Mode == dem.Mode && o.Part == dem.Part })
			switch {
			case k < 0:
				out = append(out, w)
			case w.Share() > out[k].Share() || w.Unlimited() && w.Value > out[k].Value:
				out[k] = w
			}
		}
	}
	byShare(out)
	return out
}

// byShare sorts by share of limit, the greatest first; shares that differ by rounding alone stay in their
// order.
func byShare(w []Worst) {
	round := func(v Worst) float64 { return math.Round(v.Share() * 1e6) }
	slices.SortStableFunc(w, func(a, b Worst) int { return cmp.Compare(round(b), round(a)) })
}
