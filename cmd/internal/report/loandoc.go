package report

import (
	"math"
	"time"

	"crossgrain/panel/loan"
)

// Loan is the document of the command loan: the conditions that can be agreed, and why. Dates are
// civil, as 2026-10-05. Hours, points and mm that cannot be told are null.
type Loan struct {
	Head                    // panel_digest is that of all inputs together
	Paper      *Paper       `json:"paper,omitempty"` // of a paper in a folder
	Invented   bool         `json:"invented"`
	Status     string       `json:"status"` // draft, issued
	Number     string       `json:"number"`
	Issue      int          `json:"issue"`
	Date       string       `json:"date"`
	Title      string       `json:"title"`
	Lender     string       `json:"lender"`
	Borrower   string       `json:"borrower"`
	Months     []string     `json:"months"` // that the loan lasts over
	OneRoom    bool         `json:"one_room"`
	Of100      float64      `json:"of_100"` // panels that may reach a limit in the range proposed, as asked for
	Inputs     []PaperInput `json:"inputs"`
	Sentences  []string     `json:"sentences"`
	Panels     []LoanPanel  `json:"panels"`
	Legs       []LoanLeg    `json:"legs"`
	Proposed   *LoanTerms   `json:"proposed"` // of all panels in one room; null: none
	Reasons    []LoanReason `json:"reasons"`
	Findings   []LoanNote   `json:"findings"`
	Undecided  []LoanNote   `json:"not_decidable"`
	Ask        []LoanNote   `json:"for_the_conservator"`
	Borrowers  []LoanKept   `json:"borrower_records"`
	Offers     []LoanOffer  `json:"offers"`
	Contacts   []LoanCall   `json:"contacts"`
	Case       *LoanCase    `json:"case"`
	Cautions   []string     `json:"cautions"`
	AlarmHours []float64    `json:"alarm_hours"` // columns of the alarm tables
}

// LoanTerms are conditions to agree.
type LoanTerms struct {
	LowRHPct     float64   `json:"low_rh_pct"`
	HighRHPct    float64   `json:"high_rh_pct"`
	Max24hPct    float64   `json:"max_24h_pct"`   // points between the highest and the lowest reading of any 24 hours
	TemperatureC []float64 `json:"temperature_c"` // lowest and highest
	DaysClosed   float64   `json:"days_closed"`   // in the case from arrival on; 0: no case is described
	ClosedHours  *float64  `json:"closed_hours"`  // as calculated; null: it was not
	LowBy        string    `json:"low_by"`        // mode:part or cap
	HighBy       string    `json:"high_by"`
	LowPanel     string    `json:"low_panel"` // whose part that is
	HighPanel    string    `json:"high_panel"`
	DayPanel     string    `json:"max_24h_panel"`
	DayByChart   bool      `json:"max_24h_calculated"`
}

// LoanPanel is one panel of the loan.
type LoanPanel struct {
	Name        string       `json:"name"`
	Accession   string       `json:"accession"`
	Title       string       `json:"title"`
	File        string       `json:"file"`
	Digest      string       `json:"panel_digest"`
	HeightMM    float64      `json:"height_mm"`
	WidthMM     float64      `json:"width_mm"`
	Woods       string       `json:"woods"`
	Result      string       `json:"result"` // "figures" or "no figures"
	Gates       []Gate       `json:"gates"`
	UsedTo      Climate      `json:"used_to"`
	Lived       *Lived       `json:"lived_through"`
	Range       *LoanRange   `json:"range"` // for the chance asked for; null: none
	Own         *LoanTerms   `json:"own"`   // if it were lent alone
	Terms       *LoanTerms   `json:"terms"` // of its schedule; null: none
	Home        *LoanPart    `json:"home"`
	Legs        []LoanPart   `json:"legs"`
	Alarms      []LoanAlarm  `json:"alarms"`
	NoAlarms    string       `json:"no_alarms"`     // why there are none
	FrameRoomMM *float64     `json:"frame_room_mm"` // that it needs on each side across the grain at the damp end
	FindOut     []LoanFind   `json:"find_out"`
	Assumed     int          `json:"assumed"`
	Frame       string       `json:"frame"`
	Room        string       `json:"room"` // in which it hangs with others; empty: not told
	InspectedBy string       `json:"inspected_by"`
	Inspected   string       `json:"inspected_on"`
	Answered    []string     `json:"answered"`
	AnsweredBy  string       `json:"answered_by"`
	AnsweredOn  string       `json:"answered_on"`
	Notes       []LoanReason `json:"notes"` // why each condition of its schedule
	Sentences   []string     `json:"sentences"`

	chart    []WaitReading // how long each reading may stand
	heldDays float64       // how long a humidity is held for a count
}

// LoanRange is the calculated range and what stands at its ends.
type LoanRange struct {
	LowRHPct  float64 `json:"low_rh_pct"`
	HighRHPct float64 `json:"high_rh_pct"`
	LowBy     string  `json:"low_by"`
	HighBy    string  `json:"high_by"`
}

// LoanPart is one panel over one leg, or over a year at home.
type LoanPart struct {
	Name       string   `json:"name"`
	Kind       string   `json:"kind"`
	How        string   `json:"climate_from"` // record, terms, assumed, used to; empty: it cannot be told
	AirLowPct  float64  `json:"air_low_rh_pct"`
	AirHighPct float64  `json:"air_high_rh_pct"`
	Max24hPct  *float64 `json:"max_24h_pct"`
	WoodLow    float64  `json:"wood_low_rh_pct"` // humidity that a board came into balance with
	WoodHigh   float64  `json:"wood_high_rh_pct"`
	WarpLow    float64  `json:"warp_low_mm"` // painted face rounded positive, from the shape at the used-to humidity
	WarpHigh   float64  `json:"warp_high_mm"`
	Bridged    float64  `json:"bridged_hours"` // without readings, gone through evenly
	Worst      string   `json:"worst"`         // mode:part; empty: nothing is asked of any part
	Share      float64  `json:"share_of_limit"`
	Few        *float64 `json:"of_100"` // that reach a limit; null: it cannot be told
	Many       *float64 `json:"of_100_high"`
}

// LoanAlarm is one reading of the air at the panel.
type LoanAlarm struct {
	RHPct float64  `json:"rh_pct"`
	Call  *float64 `json:"call_hours"` // null: not within three months
	Act   *float64 `json:"act_hours"`
}

// LoanFind is something to find out about a panel.
type LoanFind struct {
	What    string  `json:"what"`
	Means   string  `json:"means"`
	Minutes float64 `json:"minutes"`
	By      string  `json:"by"`
}

// LoanLeg is one leg of the loan.
type LoanLeg struct {
	Name    string   `json:"name"`
	Kind    string   `json:"kind"`
	From    string   `json:"from"`
	To      string   `json:"to"`
	Days    float64  `json:"days"`
	Venue   string   `json:"venue"`
	Room    string   `json:"room"`
	Logger  string   `json:"measured"` // where the venue's logger stands
	InCase  bool     `json:"in_case"`
	Climate string   `json:"climate_from"`
	Missing []string `json:"months_missing"` // that the record does not hold
}

// LoanReason is the reason of one condition.
type LoanReason struct {
	Condition string `json:"condition"` // low, high, max_24h, temperature, closed
	Text      string `json:"text"`
}

// LoanNote is one finding, one thing that cannot be told, or one thing left to the conservator.
type LoanNote struct {
	ID    string `json:"id"`
	Panel string `json:"panel"` // empty: of the loan
	Text  string `json:"text"`
}

// LoanKept is what the borrower's own record shows for the same months.
type LoanKept struct {
	Venue         string   `json:"venue"`
	Leg           string   `json:"leg"`
	Record        string   `json:"record"`
	Months        []string `json:"months"`
	Missing       []string `json:"months_missing"`
	YearsBack     int      `json:"years_back"`
	LowPct        float64  `json:"low_rh_pct"`
	HighPct       float64  `json:"high_rh_pct"`
	P7Pct         float64  `json:"p7_pct"`
	P93Pct        float64  `json:"p93_pct"`
	Max24hPct     *float64 `json:"max_24h_pct"`
	InsidePct     *float64 `json:"hours_inside_of_100"`
	LongestHours  *float64 `json:"longest_outside_hours"`
	LongestFrom   string   `json:"longest_outside_from"`
	InsideMeasure string   `json:"compared_with"`
}

// LoanOffer is what an offer changes.
type LoanOffer struct {
	Text      string           `json:"text"`
	Venue     string           `json:"venue"` // empty: of the whole loan
	LowRHPct  float64          `json:"low_rh_pct"`
	HighRHPct float64          `json:"high_rh_pct"`
	Max24hPct *float64         `json:"max_24h_pct"`
	Panels    []LoanOfferPanel `json:"panels"`
	Answer    []string         `json:"answer"`
}

// LoanOfferPanel is one panel under an offer: of 100, how many reach a limit in what is proposed and in
// what is offered.
type LoanOfferPanel struct {
	Panel    string   `json:"panel"`
	Now      *float64 `json:"of_100_proposed"`
	Then     *float64 `json:"of_100_offered"`
	ThenHigh *float64 `json:"of_100_offered_high"`
	Quicker  bool     `json:"quicker_change"` // it allows a larger change within 24 hours than is proposed
}

// LoanCall is somebody to call.
type LoanCall struct {
	Name     string `json:"name"`
	Phone    string `json:"phone"`
	Zone     string `json:"zone"`
	Language string `json:"language"`
}

// LoanCase is the case.
type LoanCase struct {
	Kind       string  `json:"kind"`
	Litres     float64 `json:"volume_l"`
	Changes    float64 `json:"air_changes_per_day"`
	Assumed    bool    `json:"air_changes_assumed"`
	BufferKg   float64 `json:"buffer_kg"`
	RHPct      float64 `json:"conditioned_rh_pct"` // 0: to what each panel is used to
	SealedShow bool    `json:"sealed_on_show"`
}

// LoanMeta is what the document says of the program and the run.
type LoanMeta struct {
	Version string
	Seed    int
	Paper   Paper // number, issue, date and inputs
}

// alarmHours are the columns of the table for alarms, in hours.
var alarmHours = []float64{2, 8, 24, 72, 168}

// BuildLoan turns a result into the document of the command loan.
func BuildLoan(r *loan.Result, m LoanMeta) Loan {
	l := r.Loan
	d := Loan{
		Head:   Head{Format: 1, Kind: "loan", Version: m.Version, PanelDigest: m.Paper.Digest, Seed: m.Seed, Setting: "coarse"},
		Status: m.Paper.Status, Number: l.Number, Issue: m.Paper.Issue, Date: m.Paper.Date, Title: l.Title, Lender: l.Lender, Borrower: l.Borrower,
		OneRoom: l.OneRoom, Of100: l.Chance, Inputs: m.Paper.Inputs, Paper: &m.Paper, Cautions: Cautions(), AlarmHours: alarmHours,
	}
	d.Months = monthNames(l.Months())
	if c := l.Case; c != nil {
		d.Case = &LoanCase{Kind: c.Kind, Litres: c.Litres, Changes: c.Changes, Assumed: c.Assumed, BufferKg: c.BufferKg, RHPct: c.Conditioned.Percent()}
	}
	for _, c := range l.Contacts {
		d.Contacts = append(d.Contacts, LoanCall(c))
	}
	label := map[string]string{}
	for i := range r.Panels {
		p := loanPanel(r, &r.Panels[i])
		label[p.Name] = p.label()
		d.Invented = d.Invented || r.Panels[i].Assessed.Panel.Invented()
		d.Panels = append(d.Panels, p)
	}
	d.Proposed = loanTerms(r.Proposed)
	d.legs(r)
	for _, k := range r.Kept {
		d.Borrowers = append(d.Borrowers, loanKept(k, d.Proposed))
	}
	for _, o := range r.Offers {
		d.Offers = append(d.Offers, d.offer(o, label))
	}
	d.notes(r, label)
	for i := range d.Panels {
		d.Panels[i].Notes = d.reasons(d.Panels[i].Terms, label, d.Panels[i].Name)
		d.Panels[i].Sentences = d.inShort(&d.Panels[i])
	}
	d.Reasons = d.reasons(d.Proposed, label, "")
	d.Sentences = d.opening(label)
	return d
}

func isoDay(t time.Time) string {
	if t.IsZero() {
		return ""
	}
	return t.Format(time.DateOnly)
}

func monthNames(m []time.Month) (out []string) {
	for _, x := range m {
		out = append(out, x.String())
	}
	return out
}

func (d *Loan) legs(r *loan.Result) {
	for i, g := range r.Loan.Legs {
		leg := LoanLeg{Name: g.Name, Kind: g.Kind, From: isoDay(g.From), To: isoDay(g.To.AddDate(0, 0, -1)), Days: g.To.Sub(g.From).Hours() / 24, InCase: g.InCase && r.Loan.Case != nil}
		for _, v := range r.Loan.Venues {
			if v.Name == g.Venue {
				leg.Venue, leg.Room, leg.Logger = v.Title, v.Room, v.Measured
			}
		}
		for _, p := range r.Panels {
			if len(p.Legs) > i {
				leg.Climate = p.Legs[i].How
			}
		}
		for _, k := range r.Kept {
			if k.Leg == g.Name {
				leg.Missing = monthNames(k.Months.Missing)
			}
		}
		if d.Case != nil && g.InCase && g.Kind == loan.OnShow {
			d.Case.SealedShow = true
		}
		d.Legs = append(d.Legs, leg)
	}
}

func loanTerms(p *loan.Proposal) *LoanTerms {
	if p == nil {
		return nil
	}
	return &LoanTerms{
		LowRHPct: p.Low, HighRHPct: p.High, Max24hPct: p.Day, TemperatureC: []float64{p.TLow, p.THigh}, DaysClosed: p.Days, ClosedHours: number(p.Hours),
		LowBy: p.LowBy, HighBy: p.HighBy, LowPanel: p.LowOf, HighPanel: p.HighOf, DayPanel: p.DayOf, DayByChart: p.ByChart,
	}
}

func loanPanel(r *loan.Result, p *loan.PanelResult) LoanPanel {
	o, a := p.Assessed.Object, p.Assessed
	known, _ := a.Panel.Facts()
	about := describe(o, known)
	d := LoanPanel{
		Name: p.Name, Accession: about.Accession, Title: about.Title, File: p.File, Digest: a.Panel.Digest(), HeightMM: about.HeightMM, WidthMM: about.WidthMM,
		Woods: about.Woods, Result: "figures", UsedTo: Climate{RHPct: o.UsedTo.Percent(), TemperatureC: float64(o.Temperature)},
		Assumed: len(a.Panel.Assumptions()), Frame: p.Frame, Room: p.Room, InspectedBy: p.InspectedBy, Inspected: p.Inspected,
		Answered: p.Answered, AnsweredBy: p.AnsweredBy, AnsweredOn: p.AnsweredOn,
		Own: loanTerms(p.Proposed), Terms: loanTerms(r.For(p)),
	}
	if o.LivedHigh > 0 {
		d.Lived = &Lived{o.LivedLow.Percent(), o.LivedHigh.Percent()}
	}
	for _, g := range p.Gates {
		text := g.Text
		if text == "" {
			text = say("loan.gate."+g.ID, "part", PartWords(g.Part))
		}
		d.Gates = append(d.Gates, Gate{g.ID, g.Part, text})
	}
	if p.Range != nil {
		d.Range = &LoanRange{p.Range.Low.Percent(), p.Range.High.Percent(), p.Range.LowBy, p.Range.HighBy}
	}
	if d.Terms == nil {
		d.Result = "no figures"
	}
	if p.Home != nil {
		h := loanPart(*p.Home)
		d.Home = &h
	}
	for _, g := range p.Legs {
		d.Legs = append(d.Legs, loanPart(g))
	}
	for _, x := range p.Alarms {
		d.Alarms = append(d.Alarms, LoanAlarm{x.RH.Percent(), number(x.Call), number(x.Act)})
	}
	if a.Wait != nil {
		d.NoAlarms, d.chart = a.Wait.Withheld, waitOf(a.Wait).Readings
	}
	if a.Doubt != nil {
		d.heldDays = a.Doubt.For.Hours() / 24
	}
	if d.Terms != nil {
		d.FrameRoomMM = frameRoom(p, d.Terms.HighRHPct)
	}
	if whole := (&Assess{Doubt: doubtOf(a)}); a.Doubt != nil && len(a.Doubt.Ways) > 0 {
		_, list := whole.ToFindOut()
		for _, n := range list {
			d.FindOut = append(d.FindOut, LoanFind{n.What, n.Means, n.Minutes, n.By})
		}
	}
	return d
}

// frameRoom is half of what the panel widens by from the used-to humidity to the damp end, by the wide
// end of its doubt, in whole mm upwards.
func frameRoom(p *loan.PanelResult, high float64) *float64 {
	var at [2]float64 // humidity below, widening there
	for i, s := range p.Assessed.Sweep {
		w := s.Width
		if s.WidthBand != nil {
			w = math.Max(w, s.WidthBand.High)
		}
		if rh := s.RH.Percent(); rh >= high-1e-9 {
			if i > 0 && rh > at[0] {
				w = at[1] + (w-at[1])*(high-at[0])/(rh-at[0])
			}
			room := math.Max(1, math.Ceil(w/2-1e-9))
			return &room
		}
		at = [2]float64{s.RH.Percent(), w}
	}
	return nil
}

func loanPart(g loan.LegResult) LoanPart {
	out := LoanPart{
		Name: g.Name, Kind: g.Kind, How: g.How, AirLowPct: 100 * g.Air[0], AirHighPct: 100 * g.Air[1], Max24hPct: number(g.Day),
		WoodLow: g.Wood[0].Percent(), WoodHigh: g.Wood[1].Percent(), WarpLow: g.Warp[0], WarpHigh: g.Warp[1], Share: g.Worst.Share(), Bridged: g.Bridged,
	}
	if g.Worst.Mode != "" && out.Share > 0 {
		out.Worst = string(g.Worst.Mode) + ":" + g.Worst.Part
	}
	if g.Counted && g.How != "" {
		out.Few, out.Many = number(g.Count.Few), number(g.Count.Many)
	}
	return out
}

func loanKept(k loan.Kept, p *LoanTerms) LoanKept {
	out := LoanKept{
		Venue: k.Venue, Leg: k.Leg, Record: k.Record, Months: monthNames(k.Months.Have), Missing: monthNames(k.Months.Missing), YearsBack: k.Months.YearsBack,
		LowPct: 100 * k.Low, HighPct: 100 * k.High, P7Pct: 100 * k.P7, P93Pct: 100 * k.P93, Max24hPct: number(k.Day),
	}
	if p != nil && !math.IsNaN(k.Inside) {
		out.InsidePct, out.LongestHours = number(100*k.Inside), number(k.Longest)
		out.InsideMeasure = say("loan.range", "low", whole(p.LowRHPct), "high", whole(p.HighRHPct))
		if k.Longest > 0 {
			out.LongestFrom = k.LongestFrom.Format(time.RFC3339)
		}
	}
	return out
}
