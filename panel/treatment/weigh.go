package treatment

import (
	"context"
	"fmt"
	"math"
	"slices"
	"strings"
	"time"

	"crossgrain/panel"
	"crossgrain/panel/assessment"
	"crossgrain/panel/response"
)

// Result holds the options side by side.
type Result struct {
	Panel    *panel.Panel
	Options  []Option // doing nothing first
	Standard bool     // the file has no options: standard ones were tried
	Text     string   // those as tables of a panel file; "" where the file has its own
	LeftOut  []LeftOut
	NoVolume bool // it is kept in a case whose volume nobody told, and is taken as if it hung in the room
}

// Option is one thing that might be done, and what it does.
type Option struct {
	panel.Option // Panel as it would be; of doing nothing only that
	Nothing      bool
	Guessed      bool               // Reversible or Touches is not said in the file: by the kind of work (common practice)
	Answer       *assessment.Result // nil where Failed says why
	Failed       string
	Case         *Enclosure // that it would be put into; nil: none
	Modes        []Mode     // the same list for every option
	Does         Does
	Changes      []Change // of what Does holds, beside doing nothing; none for doing nothing
	Letting      Letting
	Time         []Stage // what letting go brings; none where nothing lets go
	Settle       time.Duration
	Sheet        Sheet
}

// Weigh puts the same question to the panel as it is and to every option. It returns an error when the panel as it
// is cannot be assessed, or when ctx ends; an option that cannot be worked out says so in Failed.
func Weigh(ctx context.Context, p *panel.Panel, q assessment.Question) (*Result, error) {
	_, told := p.Number("enclosure.volume_l")
	r := &Result{Panel: p, NoVolume: p.Has("enclosure") && p.Text("enclosure.seal") != "open" && !told}
	nothing := Option{Nothing: true}
	nothing.Panel, nothing.Reversible, nothing.Touches = p, "yes", "no"
	if err := nothing.answer(ctx, q); err != nil {
		return nil, err
	}
	r.Options = []Option{nothing}
	options := p.Options()
	if len(options) == 0 {
		var err error
		if options, err = r.standard(&nothing); err != nil {
			return nil, err
		}
	}
	for _, o := range options {
		x := Option{Option: o}
		x.judge()
		if err := x.answer(ctx, q); err != nil {
			if ctx.Err() != nil {
				return nil, fmt.Errorf("option %s: %w", o.Name, err)
			}
			x.Answer, x.Failed = nil, err.Error()
		}
		r.Options = append(r.Options, x)
	}
	back, err := letGo(ctx, nothing.Answer)
	if err != nil {
		return nil, err
	}
	for i := range r.Options {
		o := &r.Options[i]
		o.let(p, back)
		o.sheet()
	}
	r.compare()
	return r, nil
}

// encloses says that the option is about the case itself.
func (o *Option) encloses() bool {
	return slices.ContainsFunc(o.Changed, func(path string) bool { return strings.HasPrefix(path, "enclosure.") }) || slices.Contains(o.Added, "enclosure")
}

// answer assesses the panel of the option in its air.
func (o *Option) answer(ctx context.Context, q assessment.Question) error {
	var err error
	if o.encloses() || kept(o.Panel) {
		if o.Case, err = enclose(o.Panel, q); err != nil {
			return err
		}
		if q.Record != nil {
			if q.Record, err = o.Case.inside(q.Record); err != nil {
				return err
			}
		}
	}
	if o.Answer, err = assessment.Assess(ctx, o.Panel, q); err != nil {
		return err
	}
	for _, b := range o.Answer.Windows {
		o.Settle = max(o.Settle, b.Window)
	}
	if o.Case != nil {
		o.Settle = max(o.Settle, o.Case.Settles)
	}
	return o.does()
}

// judge fills in what the file does not say of undoing and of original wood, by the kind of work (common practice): what goes
// into or onto the wood does not come out again; what is fixed anew, glued or drawn touches it; planing a batten does not.
func (o *Option) judge() {
	gentle := o.Reach == "enclose" || o.Reach == "fit"
	soaks, members := false, true
	for _, path := range o.Changed {
		table, _, _ := strings.Cut(path, ".")
		soaks = soaks || table == "face" || table == "ends" || table == "board"
		members = members && (table == "batten" || table == "cradle") && !strings.HasSuffix(path, ".fixing")
	}
	if o.Reversible == "" {
		o.Guessed = true
		switch {
		case soaks:
			o.Reversible = "no"
		case gentle:
			o.Reversible = "yes"
		default:
			o.Reversible = "in part"
		}
	}
	if o.Touches == "" {
		o.Guessed = true
		o.Touches = "yes"
		if !soaks && (gentle || o.Reach == "ease" && members) {
			o.Touches = "no"
		}
	}
}

// Does is what an option does, in numbers. Lengths mm.
type Does struct {
	Width, Warp [2]float64 // change of width and warp as it stands, least and greatest over the states
	Day         float64    // change of width in a day that is 10 points drier, without its sign
	DayWarp     float64    // change of warp in it, likewise
	HeldWidth   float64    // largest share of the movement held back at one member
	HeldWarp    float64    // share of the free warp held back, at whichever end the free warp is greater
	Fixing      float64    // greatest force at a fixing, N
	Carried     float64    // sag when it is carried level by two edges, with what lies across it
	Bare        float64    // the same without
	RoomWidth   float64    // in the frame, across the grain, with play
	RoomDepth   float64    // for panel, members and warp, with play
}

// dayPoints is how much drier the day of Does is, as a fraction (working choice).
const dayPoints = 0.10

// does reads what the option does from its answer.
func (o *Option) does() error {
	a := o.Answer
	d := &o.Does
	d.Width, d.Warp = [2]float64{math.Inf(1), math.Inf(-1)}, [2]float64{math.Inf(1), math.Inf(-1)}
	var free float64
	for i := range a.States {
		s := &a.States[i].State
		width, warp := stands(s)
		d.Width = [2]float64{min(d.Width[0], width), max(d.Width[1], width)}
		d.Warp = [2]float64{min(d.Warp[0], warp), max(d.Warp[1], warp)}
		d.HeldWidth = max(d.HeldWidth, s.HeldShare)
		if s.Shape != nil && math.Abs(s.Shape.FreeWarp) > free {
			free = math.Abs(s.Shape.FreeWarp)
			d.HeldWarp = max(0, 1-math.Abs(warp)/free)
		}
		for _, m := range s.Restraints {
			for _, f := range m.Fixing {
				d.Fixing = max(d.Fixing, math.Abs(f))
			}
		}
	}
	from := a.Object.UsedTo
	to := max(0.01, from-dayPoints)
	air := o.Case.air(from, to, a.Object.Temperature)
	after, err := a.Case.ExcursionIn(from, air, []time.Duration{24 * time.Hour})
	if err != nil {
		return err
	}
	width, warp := stands(&after[0])
	d.Day, d.DayWarp = math.Abs(width), math.Abs(warp)
	d.Bare = a.OwnWeight.Sides.Deflection
	if d.Carried = d.Bare; a.OwnWeight.Battens.Deflection > 0 {
		d.Carried = a.OwnWeight.Battens.Deflection
	}
	d.room(a)
	return nil
}

// room is what the frame has to give over the states: the panel at its widest, and in depth its thickness, what lies
// behind it and its warp, with play all round.
func (d *Does) room(a *assessment.Result) {
	play := 2 * a.Ease.Limits.Play
	d.RoomWidth = a.Object.Across + max(0, d.Width[1]) + play
	var thick, deep float64
	for _, b := range a.Object.Boards {
		thick = max(thick, b.Thickness)
	}
	for _, b := range a.Object.Battens {
		if !b.Empty && b.Side == "back" {
			deep = max(deep, b.Depth)
		}
	}
	if k := a.Object.Cradle; k != nil {
		deep = max(deep, k.FixedDepth, k.SliderDepth)
	}
	rest := a.Object.Warp
	d.RoomDepth = thick + deep + max(math.Abs(rest+d.Warp[0]), math.Abs(rest+d.Warp[1])) + play
}

// stands is the change of width and the warp as the panel stands, mm; by closed forms that of one that nothing holds.
func stands(s *response.State) (width, warp float64) {
	if s.Shape != nil {
		return s.Shape.Width, s.Shape.Warp
	}
	return s.Width, s.Cup
}
