package assessment

import (
	"context"
	"math"
	"strings"
	"time"

	"crossgrain/moisture"
	"crossgrain/panel"
	"crossgrain/panel/response"
)

// Wait says how long a humidity may stand before something gives: for every length of time, at which
// reading of the air at the panel to call a conservator and at which to act at once.
type Wait struct {
	Hours []float64
	// From is where the wood stands when the air leaves: the unfavourable season of the record or of its
	// home, or the humidity it is used to.
	FromDry, FromDamp moisture.RH
	Season            bool      // from a record, or from the seasons of its home
	SeasonWhy         string    // why the record of its home gives no season, in words
	Outlived          *Outlived // what it has lived through, where that is evidence; nil: it is none
	Call, Act         Reach
	Levels            []Level // the same by reading, the driest first
	First             string  // mode:part that reaches its limit first
	// Passed says that the season of the record was not taken as the start because the wood stands
	// past the point to call there already.
	Passed   bool
	Withheld string // why there is no chart, in words; empty when there is one
	BareBack bool   // the back was taken as bare because nothing is recorded of it
	// ByRoom is the same by the reading of the room around the closed case; nil without a case.
	ByRoom *Wait
	Closed *Closed // how long the case stays closed before it is opened; nil when that was not asked
	around Enclosure
}

// Reach is the humidity at which a share of the limit is reached after each time, on the dry and on the
// damp side, as described and by the quick and by the slow end of the doubt; NaN where it is not
// reached.
type Reach struct{ Dry, DryQuick, DrySlow, Damp, DampQuick, DampSlow []moisture.RH }

// Level is one reading of the air: how long it may stand until half of the limit and all of it are
// reached.
type Level struct {
	RH        moisture.RH
	Call, Act Span
}

// Span is a range of times in hours, by the quick and by the slow end of the doubt, and as described.
// Times under the first of the chart stand as 0, times over its last as +Inf.
type Span struct{ Quick, Middle, Slow float64 }

// callAt is the share of a limit at which to call: half of it (assumption).
const callAt = 0.5

// thinForWait is the thickness below which no waiting time is given, mm: such panels answer within hours.
const thinForWait = 8

// waitHours are the times of the chart.
func waitHours() []float64 { return []float64{1, 2, 4, 8, 16, 24, 48, 96, 168, 336, 720, 1440, 2160} }

// wait makes the chart of a panel, or says why it is withheld.
func (r *Result) wait(ctx context.Context, p *panel.Panel, q Question, d *doubt) error {
	w := &Wait{Hours: waitHours(), FromDry: r.Object.UsedTo, FromDamp: r.Object.UsedTo, BareBack: p.Known("face.back.coating") == panel.Assumed}
	r.Wait = w
	for _, g := range r.Gates {
		if g.NoFigures {
			w.Withheld = "a finding stands before the figures: " + strings.ReplaceAll(g.ID, "_", " ")
			return nil
		}
	}
	for _, b := range r.Object.Boards {
		if b.Thickness < thinForWait {
			w.Withheld = "a board is thinner than 8 mm and answers within hours"
			return nil
		}
	}
	w.Outlived = r.outlived(d)
	if r.Year != nil && r.Year.Lived {
		w.season(d, &r.States[0].State, &r.States[len(r.States)-1].State)
	} else if err := r.atHome(q, d, w); err != nil {
		return err
	}
	if err := r.chart(ctx, p, q, d, w); err != nil || q.Case == nil {
		return err
	}
	w.ByRoom = &Wait{Hours: w.Hours, FromDry: w.FromDry, FromDamp: w.FromDamp, Season: w.Season, Passed: w.Passed, Outlived: w.Outlived, around: q.Case}
	if q.Room > 0 {
		w.Closed = r.opening(q)
	}
	return r.chart(ctx, p, q, d, w.ByRoom)
}

// chart makes the lines and the times of a chart from its starting humidities.
func (r *Result) chart(ctx context.Context, p *panel.Panel, q Question, d *doubt, w *Wait) error {
	var runs [3]*chart // as described, and one standard deviation quicker and slower
	for i, z := range [...]float64{0, 1, -1} {
		var err error
		if runs[i], err = r.excursions(ctx, p, q, d, w, z); err != nil {
			return err
		}
	}
	c := runs[0]
	c.doubt(runs[1], runs[2])
	w.First = c.first
	for i, at := range [...]float64{callAt, 1} {
		to := [...]*Reach{&w.Call, &w.Act}[i]
		to.Dry, to.Damp = c.reach(at, 0)
		to.DryQuick, to.DampQuick = c.reach(at, z95)
		to.DrySlow, to.DampSlow = c.reach(at, -z95)
	}
	w.Levels = c.levels(w.Hours)
	return nil
}

// season takes the driest and the dampest state of the record as the start, unless the wood stands
// past the point to call there already.
func (w *Wait) season(d *doubt, dry, damp *response.State) {
	for _, s := range [...]*response.State{dry, damp} {
		if share, _, _ := w.Outlived.topIn(d, s, s.RH); share >= callAt {
			w.Passed = true
			return
		}
	}
	w.FromDry, w.FromDamp, w.Season = dry.RH, damp.RH, true
}

// atHome takes the seasons of the home that is asked with as the start, where they are the worse of those and the used-to humidity.
func (r *Result) atHome(q Question, d *doubt, w *Wait) error {
	dry, damp := q.Season[0], q.Season[1]
	if q.Home != nil {
		dry = 1
		for _, b := range r.Windows {
			low, _, high, err := q.Home.RunningMean(b.Window)
			if err != nil {
				w.SeasonWhy = err.Error()
				return nil
			}
			dry, damp = min(dry, moisture.RH(low)), max(damp, moisture.RH(high))
		}
	}
	if dry == 0 && damp == 0 {
		return nil
	}
	states, err := r.Case.Settle([]moisture.RH{min(dry, r.Object.UsedTo), max(damp, r.Object.UsedTo)})
	if err == nil {
		w.season(d, &states[0], &states[1])
	}
	return err
}

// chart holds the top share of limit by humidity and time, with its doubt.
type chart struct {
	dry, damp branch
	first     string
	times     int
}

// branch is one side of a chart.
type branch struct {
	from   moisture.RH
	levels []moisture.RH // from the start on
	share  [][]float64   // [level][time]
	spread [][]spread
}

// paced realises the panel with the pace at which it follows the air z standard deviations off, quicker
// for positive z: diffusion and twice the logarithm of thickness together as squares, and the coatings of
// the faces along with them. What the thickness does besides is in the doubt of the shares.
func paced(p *panel.Panel, z float64) (*panel.Object, error) {
	in := p.Inputs()
	drawn := func(ends ...string) (*panel.Object, error) {
		draw := make([]float64, len(in))
		for i := range in {
			for _, end := range ends {
				switch {
				case !strings.HasSuffix(in[i].Path, end):
				case end == ".diffusion":
					draw[i] = z
				default:
					draw[i] = -z
				}
			}
		}
		return p.Realise(draw)
	}
	o, err := drawn(".vapour_sd_m")
	if err != nil || z == 0 {
		return o, err
	}
	spread, err := drawn(".diffusion", ".thickness_mm")
	if err != nil {
		return nil, err
	}
	for i := range o.Boards {
		b, s := &o.Boards[i], &spread.Boards[i]
		by := math.Hypot(math.Log(s.Wood.Diffusion/b.Wood.Diffusion), 2*math.Log(b.Thickness/s.Thickness))
		b.Wood.Diffusion *= math.Exp(math.Copysign(by, z))
	}
	return o, nil
}

// excursions runs the panel, its pace z standard deviations off, through changes to levels every five
// points.
func (r *Result) excursions(ctx context.Context, p *panel.Panel, q Question, d *doubt, w *Wait, z float64) (*chart, error) {
	o, err := paced(p, z)
	if err != nil {
		return nil, err
	}
	c, err := q.prepare(o)
	if err != nil {
		return nil, err
	}
	times := make([]time.Duration, len(w.Hours))
	for i, h := range w.Hours {
		times[i] = time.Duration(h * float64(time.Hour))
	}
	out := &chart{times: len(times), dry: branch{from: w.FromDry}, damp: branch{from: w.FromDamp}}
	var most float64
	for _, side := range [...]struct {
		*branch
		step moisture.RH
	}{{&out.dry, -waitStep}, {&out.damp, waitStep}} {
		for _, to := range levelsFrom(side.from, side.step) {
			if err := ctx.Err(); err != nil {
				return nil, err
			}
			states, err := c.ExcursionIn(side.from, w.air(r, side.from, to), times)
			if err != nil {
				return nil, err
			}
			row, doubts := make([]float64, len(states)), make([]spread, len(states))
			for k := range states {
				var by string
				row[k], doubts[k], by = w.Outlived.topIn(d, &states[k], to)
				if row[k] > most {
					most, out.first = row[k], by
				}
			}
			side.levels = append(side.levels, to)
			side.share, side.spread = append(side.share, row), append(side.spread, doubts)
		}
	}
	return out, nil
}

// waitStep is the distance of the levels.
const waitStep = moisture.RH(0.05)

// levelsFrom lists the start and the multiples of the step beyond it, up to 5 and 95 % RH.
func levelsFrom(from, step moisture.RH) []moisture.RH {
	out := []moisture.RH{from}
	for k := math.Round(float64(from / waitStep)); ; k += math.Copysign(1, float64(step)) {
		to := moisture.RH(k) * waitStep
		if to < 0.05-1e-9 || to > 0.95+1e-9 {
			return out
		}
		if (to-from)/step >= 0.2 { // nearer ones are no departure
			out = append(out, to)
		}
	}
}

// doubt adds to the spread of every share what a quicker and a slower pace change.
func (c *chart) doubt(quick, slow *chart) {
	for i, b := range [...]*branch{&c.dry, &c.damp} {
		up, down := [...]*branch{&quick.dry, &quick.damp}[i], [...]*branch{&slow.dry, &slow.damp}[i]
		for k := range b.share {
			for t, s := range b.share[k] {
				own := spreadOf(s, up.share[k][t], down.share[k][t])
				b.spread[k][t] = spread{math.Hypot(b.spread[k][t].log, own.log), math.Hypot(b.spread[k][t].add, own.add)}
			}
		}
	}
}

// reach returns for each time the humidity at which the share, with z standard deviations of doubt, is
// reached, dry and damp.
func (c *chart) reach(share, z float64) (dry, damp []moisture.RH) {
	return c.dry.reach(share, z, c.times), c.damp.reach(share, z, c.times)
}

// with returns the greatest share at a level up to a time, with z standard deviations of doubt.
func (b *branch) with(k, t int, z float64) (most float64) {
	for i := range t + 1 {
		v := b.spread[k][i].high(b.share[k][i], math.Max(z, 0))
		if z < 0 {
			v = b.spread[k][i].low(b.share[k][i], -z)
		}
		most = math.Max(most, v)
	}
	return most
}

// reach goes by straight lines between the levels; NaN where the share is not reached.
func (b *branch) reach(share, z float64, times int) []moisture.RH {
	out := make([]moisture.RH, times)
	for t := range out {
		out[t] = moisture.RH(math.NaN())
		last, was := b.from, 0.0
		for k, h := range b.levels {
			v := b.with(k, t, z)
			if v >= share {
				out[t] = last + (h-last)*moisture.RH((share-was)/(v-was))
				break
			}
			last, was = h, v
		}
	}
	return out
}

// levels lists how long each level may stand, the driest first.
func (c *chart) levels(hours []float64) []Level {
	var out []Level
	for k := len(c.dry.levels) - 1; k > 0; k-- {
		out = append(out, c.dry.level(k, hours))
	}
	for k := 1; k < len(c.damp.levels); k++ {
		out = append(out, c.damp.level(k, hours))
	}
	return out
}

func (b *branch) level(k int, hours []float64) Level {
	span := func(share float64) Span {
		return Span{b.until(k, share, z95, hours), b.until(k, share, 0, hours), b.until(k, share, -z95, hours)}
	}
	return Level{RH: b.levels[k], Call: span(callAt), Act: span(1)}
}

// until returns the hours until the share is first reached, by straight lines over the logarithm of
// time.
func (b *branch) until(k int, share, z float64, hours []float64) float64 {
	was := b.with(k, 0, z)
	if was >= share {
		return 0
	}
	for t := 1; t < len(hours); t++ {
		v := b.with(k, t, z)
		if v >= share {
			return hours[t-1] * math.Pow(hours[t]/hours[t-1], (share-was)/(v-was))
		}
		was = v
	}
	return math.Inf(1)
}
