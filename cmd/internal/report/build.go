package report

import (
	"math"

	"crossgrain/moisture"
	"crossgrain/moisture/record"
	"crossgrain/panel"
	"crossgrain/panel/assessment"
	"crossgrain/panel/response"
	"crossgrain/tables"
)

// Meta is what the document says of the program and the run.
type Meta struct {
	Version  string
	Seed     int
	Invented bool           // the built-in example
	Record   *record.Record // the climate that was asked about, if it was one
}

// Build turns a result into the document of the command assess.
func Build(r *assessment.Result, m Meta) Assess {
	p, o := r.Panel, r.Object
	known, _ := p.Facts()
	a := Assess{
		Head:     Head{Format: 1, Kind: "assess", Version: m.Version, PanelDigest: p.Digest(), Seed: m.Seed, Setting: r.Setting.String()},
		Invented: m.Invented,
		UsedTo:   Climate{RHPct: o.UsedTo.Percent(), TemperatureC: float64(o.Temperature)},
		Range:    Range{r.Low.Percent(), r.High.Percent(), r.From},
		NotUsed:  p.NotUsed(),
		Cautions: Cautions(),
	}
	if o.LivedHigh > 0 && p.Text("used_to.unchanged") != "no" {
		a.Lived = &Lived{o.LivedLow.Percent(), o.LivedHigh.Percent()}
	}
	a.Panel = describe(o, known)
	for _, g := range r.Gates {
		a.Gates = append(a.Gates, Gate{g.ID, g.Part, g.Text})
	}
	for _, s := range r.States {
		a.States = append(a.States, state(s))
	}
	for _, s := range r.Sweep {
		a.Sweep = append(a.Sweep, state(s))
	}
	for _, w := range r.Worst {
		m := mode(w.Demand, w.Band, w.RH)
		m.At = when(r, w)
		a.Worst = append(a.Worst, m)
	}
	a.CalculatedRange = calculatedRange(r.Range)
	a.Boards = boards(r)
	a.Restraints = restraints(r)
	a.Lines, a.NewSplits, a.EndChecks = lines(r), newSplitsOf(r), endChecksOf(r)
	a.Shape.Magnification = Magnification(r)
	a.Assumed = assumed(p)
	a.FindOut, a.Doubt = findOutOf(r), doubtOf(r)
	a.Warnings = warnings(r, &a)
	a.Handling, a.Frame = handling(r), frame(r)
	a.Evidence = evidence(r).String()
	a.Record = recordOf(r, m.Record)
	a.SectionBy, a.SectionWhy = sectionBy(r), r.Closed
	a.HeldBy, a.Binds, a.Order = heldBy(r), bindsOf(r), ordersOf(r)
	a.Paint, a.PaintLines, a.Reglue = paintOf(r), paintLines(r), reglues(r)
	a.Year, a.Wait = yearOf(r), waitOf(r.Wait)
	a.Workshop, a.OwnWeight, a.Bays = workshopOf(r.Ease), ownWeightOf(r.OwnWeight), baysOf(r.Bays)
	a.spreadOf(m.Record)
	a.Sources = bibliography(r)
	a.Sentences = a.Opening()
	return a
}

// spreadOf adds how the readings of a record are spread. Boards that follow it step by step have no
// running means.
func (a *Assess) spreadOf(rec *record.Record) {
	if rec == nil {
		return
	}
	st := rec.Stats()
	r := a.Record
	r.MinPct, r.MaxPct, r.P7Pct, r.P93Pct = 100*st.MinRH, 100*st.MaxRH, 100*st.RH.P7, 100*st.RH.P93
	if st.HoursCovered > 0 {
		r.Damp = st.HoursAbove75 / st.HoursCovered
	}
	if a.Year != nil {
		r.Words, r.Boards = say("record.followed", "step", whole(a.Year.StepH)), nil
	}
	if r.Damp >= 0.01 {
		r.Words += " " + say("record.damp", "n", of100(r.Damp))
	}
}

func describe(o *panel.Object, known int) Panel {
	out := Panel{
		Accession: o.Accession, Title: o.Title, Grain: "upright", HeightMM: o.Along, WidthMM: o.Across,
		AcrossMM: o.Across, Boards: len(o.Boards), Described: known,
	}
	if o.WarpKnown {
		out.PresentWarpMM = &o.Warp
	}
	if o.GrainLevel {
		out.Grain, out.HeightMM, out.WidthMM = "level", o.Across, o.Along
	}
	for i, b := range o.Boards {
		out.ThicknessMM += b.Thickness * b.Width / o.Across
		if i == 0 || b.WoodName != o.Boards[i-1].WoodName {
			if out.Woods != "" {
				out.Woods += ", "
			}
			out.Woods += b.WoodName
		}
	}
	return out
}

func state(s assessment.State) State {
	out := State{
		Label: s.Label, RHPct: s.RH.Percent(), EMCPct: s.MC.Percent(), WidthChangeMM: s.Width,
		WidthChangeLoopMM: s.WidthLoop, HeldPct: 100 * s.HeldShare, CupMM: s.Cup, CupLowMM: s.CupLow,
		CupHighMM: s.CupHigh, CupPassingMM: s.CupPassing, GroundStrain: s.GroundStrain[1],
	}
	out.Section, out.Stands = sectionOf(s.Section), standsOf(s.Shape)
	out.CupBandMM, out.WidthBandMM = []float64{}, []float64{}
	if s.WarpBand != nil {
		out.CupBandMM, out.WidthBandMM = pair(*s.WarpBand), pair(*s.WidthBand)
	}
	for j, d := range s.Demands {
		out.Modes = append(out.Modes, mode(d, s.Bands[j], s.RH))
	}
	return out
}

func mode(d response.Demand, b assessment.Band, rh moisture.RH) Mode {
	m := Mode{
		Mode: string(d.Mode), Part: d.Part, RHPct: rh.Percent(), Demand: d.Value, Unit: d.Unit,
		NoLimit: d.Unlimited(), SetsRange: d.Mode.SetsRange(), Evidence: d.Grade.String(),
	}
	if !m.NoLimit {
		m.Capacity, m.Share = number(d.Capacity), number(d.Share())
		m.ShareLow, m.ShareHigh = number(b.Low), number(b.High)
	}
	return m
}

// number returns a pointer to a finite number and nil otherwise.
func number(v float64) *float64 {
	if math.IsNaN(v) || math.IsInf(v, 0) {
		return nil
	}
	return &v
}

func calculatedRange(c assessment.CalculatedRange) CalculatedRange {
	one := func(l *assessment.Limits) *Limits {
		if l == nil {
			return nil
		}
		return &Limits{l.Low.Percent(), l.High.Percent(), l.LowBy, l.HighBy}
	}
	out := CalculatedRange{Nominal: one(c.Nominal), Unfavourable: one(c.Unfavourable), Why: c.WhyNominal}
	if out.Why == "" {
		out.Why = c.WhyUnfavourable
	}
	return out
}

func boards(r *assessment.Result) []Board {
	var out []Board
	for i, b := range r.Object.Boards {
		w := r.Windows[i]
		row := Board{
			Part: "board." + b.Name, Wood: b.WoodName, WidthMM: b.Width, ThicknessMM: b.Thickness,
			RingDeg: float64(b.Ring), Ring: b.Ring.Words(), PerPct: w.PerPercent,
			Response95D: w.Window.Hours() / 24, Evidence: b.Sorption.Grade.String(),
		}
		row.Response = say("board.follow", "half", period(w.Half), "nearly", period(w.Window))
		for _, s := range r.States {
			row.WidthChangeMM = append(row.WidthChangeMM, s.BoardChange[i])
		}
		out = append(out, row)
	}
	return out
}

func restraints(r *assessment.Result) []Restraint {
	var out []Restraint
	if len(r.States) == 0 {
		return nil
	}
	dry, wet := r.States[0], r.States[len(r.States)-1]
	for k, first := range dry.Restraints {
		row := Restraint{
			Part: first.Part, What: first.What,
			AcrossN: []float64{}, MomentNMM: []float64{}, SagMM: []float64{}, ClosedN: []float64{}, ClosedHeldPct: []float64{},
		}
		for _, s := range r.States {
			q := s.Restraints[k]
			row.ForceN = append(row.ForceN, q.Force)
			row.FixingN = append(row.FixingN, largest(q.Fixing))
			row.SlipMM = append(row.SlipMM, largest(q.Slip))
			row.HeldPct = append(row.HeldPct, 100*q.Share)
			if q.Lift != nil {
				row.AcrossN = append(row.AcrossN, largest(q.Lift))
				row.MomentNMM, row.SagMM = append(row.MomentNMM, q.Moment), append(row.SagMM, q.Sag)
			}
			if q.Closed != nil {
				row.ClosedN, row.ClosedHeldPct = append(row.ClosedN, q.Closed.Force), append(row.ClosedHeldPct, 100*q.Closed.Share)
			}
		}
		for i, x := range first.X {
			row.Fixings = append(row.Fixings, Fixing{
				x, first.Fixing[i], wet.Restraints[k].Fixing[i], does(first.Does, i), does(wet.Restraints[k].Does, i),
			})
		}
		row.BindsRHPct = nearest(r, string(response.SlotExhausted), first.Part, 0)
		out = append(out, row)
	}
	return out
}

// does says in words what a fixing does.
func does(d []response.Holding, i int) string {
	if i >= len(d) {
		return ""
	}
	return d[i].String()
}

// largest returns the value of greatest size, as a size.
func largest(v []float64) float64 {
	var m float64
	for _, x := range v {
		m = math.Max(m, math.Abs(x))
	}
	return m
}

// nearest returns the humidity nearest to the used-to one at which the share of the mode and part
// (plus the given part of its doubt) reaches one, over the sweep; nil when it does not.
func nearest(r *assessment.Result, mode, part string, doubt float64) *float64 {
	best := math.NaN()
	used := r.Object.UsedTo.Percent()
	prevRH, prevShare := math.NaN(), 0.0
	for _, s := range r.Sweep {
		share := 0.0
		for j, d := range s.Demands {
			if string(d.Mode) == mode && d.Part == part {
				share = d.Share() + doubt*(s.Bands[j].High-d.Share())
			}
		}
		rh := s.RH.Percent()
		if !math.IsNaN(prevRH) && (share >= 1) != (prevShare >= 1) {
			x := prevRH + (1-prevShare)/(share-prevShare)*(rh-prevRH)
			if math.IsNaN(best) || math.Abs(x-used) < math.Abs(best-used) {
				best = x
			}
		}
		prevRH, prevShare = rh, share
	}
	return number(best)
}

func lines(r *assessment.Result) []Line {
	var out []Line
	if len(r.Sweep) == 0 {
		return nil
	}
	for k, first := range r.Sweep[0].Lines {
		row := Line{Part: first.Part, Kind: first.Kind, LengthMM: first.Length, By: "closed forms"}
		for _, s := range r.Sweep {
			q := s.Lines[k]
			row.FreeHeightMM = math.Max(row.FreeHeightMM, q.Span)
			if q.Elements {
				row.By = "elements"
			} else if q.Why != "" {
				row.Why = q.Why
			}
			at := LineState{
				RHPct: s.RH.Percent(), OpeningMM: q.Opening, SlowJM2: 1000 * q.Slow, SuddenJM2: 1000 * q.Sudden,
				ToughnessJM2: 1000 * q.Toughness, RunsThrough: q.Through, StripJM2: 1000 * q.Strip, Decides: string(q.By),
			}
			if q.Grows {
				at.StopsMM = number(q.Stops)
			}
			if grows, length, _ := q.Run(unfavourableToughness(s, first.Part)); grows {
				at.StopsHighMM = number(length)
			}
			row.At = append(row.At, at)
		}
		row.GrowsRHPct = nearest(r, string(response.CheckGrowth), first.Part, 0)
		row.GrowsLowPct = nearest(r, string(response.CheckGrowth), first.Part, 1)
		out = append(out, row)
	}
	return out
}

// unfavourableToughness is the share of its toughness at which a line does what it would do in 5 of
// 100 worse cases: the square of nominal over unfavourable share, since energy goes with the square.
func unfavourableToughness(s assessment.State, part string) float64 {
	for j, d := range s.Demands {
		if d.Mode == response.CheckGrowth && d.Part == part && d.Share() > 0 {
			return math.Pow(d.Share()/s.Bands[j].High, 2)
		}
	}
	return 1
}

func assumed(p *panel.Panel) []Assumed {
	var out []Assumed
	for _, q := range p.Assumptions() {
		out = append(out, Assumed{q.Path, q.What, q.Value, q.Low, q.High, q.Unit, q.Text, q.Grade.String()})
	}
	return out
}

// evidence is the weakest evidence among the limits that decide: those whose share comes within a
// fifth of the greatest.
func evidence(r *assessment.Result) tables.Grade {
	g, top := tables.MeasuredHere, -1.0
	for _, w := range r.Worst { // greatest share first
		if !w.Mode.SetsRange() || w.Unlimited() {
			continue
		}
		if top < 0 {
			top = w.Share()
		}
		if w.Share() >= 0.8*top {
			g = tables.Worse(g, w.Grade)
		}
	}
	if top < 0 {
		return tables.Estimate
	}
	return g
}

// LimitReached says whether a part that sets the range reaches its limit within the range asked
// about, as described.
func (a Assess) LimitReached() bool {
	for _, m := range a.Worst {
		if m.SetsRange && m.Share != nil && *m.Share >= 1 {
			return true
		}
	}
	return false
}
