package report

import (
	"crossgrain/panel/assessment"
	"crossgrain/panel/treatment"
)

// Treat is the document of the command treat: options side by side, doing nothing first. Nothing is added up or ranked.
type Treat struct {
	Head
	Paper     *Paper         `json:"paper,omitempty"` // of a paper in a folder
	Invented  bool           `json:"invented"`
	Panel     Panel          `json:"panel"`
	UsedTo    Climate        `json:"used_to"`
	Range     Range          `json:"range"`
	Sentences []string       `json:"sentences"`
	Gates     []Gate         `json:"gates"`
	Standard  bool           `json:"standard_options"` // the file has none
	TOML      string         `json:"options_toml"`     // those as tables of a panel file; empty where the file has its own
	LeftOut   []TreatLeftOut `json:"standard_left_out"`
	NoVolume  bool           `json:"case_without_volume"` // it is kept in a case whose volume is not told, and taken as if it hung in the room
	Cases     int            `json:"cases"`               // drawn for the counts of 100; 0: none
	Options   []TreatOption  `json:"options"`
	Cautions  []string       `json:"cautions"`
}

// TreatLeftOut is a standard option that does not apply.
type TreatLeftOut struct {
	Reach string `json:"reach"`
	Why   string `json:"why"`
}

// TreatOption is one option. Doing nothing comes first and has nothing to be compared with.
type TreatOption struct {
	Name       string        `json:"name"` // empty: doing nothing
	Does       string        `json:"does"`
	Note       string        `json:"note"`
	Reach      string        `json:"reach"` // enclose, ease, fit, remove, reglue, support; empty: doing nothing
	Reversible string        `json:"reversible"`
	Touches    string        `json:"touches_original_wood"`
	Guessed    bool          `json:"by_the_kind_of_work"` // either of the two is not said in the file
	Removed    []string      `json:"removed"`
	Added      []string      `json:"added"`
	Reglued    []string      `json:"reglued"`
	Changed    []string      `json:"changed"`
	Failed     string        `json:"failed"` // why it could not be worked out; empty when it was
	Gates      []Gate        `json:"gates"`
	Range      *Limits       `json:"calculated_range"` // null: none
	Modes      []TreatMode   `json:"modes"`
	Movement   TreatMovement `json:"movement"`
	Held       TreatHeld     `json:"held"`
	Carried    TreatCarried  `json:"carried"`
	Room       TreatRoom     `json:"frame_room"`
	Changes    []TreatChange `json:"changes"`
	LetsGo     string        `json:"lets_go"` // nothing, part, all, unknown
	OverTime   []TreatStage  `json:"over_time"`
	SettleWeek float64       `json:"weeks_to_settle"`
	Case       *TreatCase    `json:"case"` // null: none
	Sheet      TreatSheet    `json:"monitoring"`

	nothing bool
}

// TreatMode is one way for one part to give way, the same list for every option.
type TreatMode struct {
	Mode      string    `json:"mode"`
	Part      string    `json:"part"`
	There     bool      `json:"there"` // false: the option does not have the part
	RHPct     float64   `json:"rh_pct"`
	Share     *float64  `json:"share"` // null: no limit known, or not there
	ShareLow  *float64  `json:"share_low"`
	ShareHigh *float64  `json:"share_high"`
	NoLimit   bool      `json:"no_limit"`
	SetsRange bool      `json:"sets_range"`
	Of100     []float64 `json:"of_100"` // the least and the greatest of the ways it may turn out; empty: not counted
	Change    string    `json:"change"` // same, better, worse, new, gone
}

// TreatMovement is how the panel moves, mm.
type TreatMovement struct {
	WidthMM  []float64 `json:"width_mm"` // least and greatest change over what was asked about
	WarpMM   []float64 `json:"warp_mm"`  // as it stands, painted face rounded positive
	WidthDay float64   `json:"width_day_mm"`
	WarpDay  float64   `json:"warp_day_mm"`
}

// TreatHeld is what is held back.
type TreatHeld struct {
	Width   float64 `json:"width_share"`
	Warp    float64 `json:"warp_share"`
	FixingN float64 `json:"fixing_n"`
}

// TreatCarried is the sag when the panel is carried level by two edges, mm.
type TreatCarried struct {
	SagMM  float64 `json:"sag_mm"`
	BareMM float64 `json:"without_members_mm"`
}

// TreatRoom is the room needed in the frame, mm.
type TreatRoom struct {
	WidthMM float64 `json:"width_mm"`
	DepthMM float64 `json:"depth_mm"`
}

// TreatChange is one quantity beside doing nothing.
type TreatChange struct {
	What   string  `json:"what"`
	Was    float64 `json:"was"`
	Is     float64 `json:"is"`
	Change string  `json:"change"` // same, better, worse, more, less
}

// TreatStage is what has come by a time, least and greatest, mm.
type TreatStage struct {
	When    string    `json:"when"` // at_once, two_days, half_year, first_year
	WarpMM  []float64 `json:"warp_mm"`
	WidthMM []float64 `json:"width_mm"`
}

// TreatCase is the closed case of an option.
type TreatCase struct {
	Litres   float64 `json:"volume_l"`
	Changes  float64 `json:"air_changes_a_day"`
	BufferKg float64 `json:"buffer_kg"`
	Seal     string  `json:"seal"`
	Guessed  bool    `json:"assumed"`
	HalfDays float64 `json:"half_way_days"`
}

// TreatSheet says what should be seen by when, and at which reading to stop.
type TreatSheet struct {
	Rows     []TreatCheck `json:"rows"`
	LowRH    *float64     `json:"low_rh_pct"` // null: none is told
	HighRH   *float64     `json:"high_rh_pct"`
	SeasonMM []float64    `json:"season_warp_mm"`
	Lines    []string     `json:"lines"`
}

// TreatCheck is one row of the sheet.
type TreatCheck struct {
	When    string    `json:"when"`
	WarpMM  []float64 `json:"warp_mm"`
	WidthMM []float64 `json:"width_mm"`
	StopMM  []float64 `json:"stop_warp_mm"`
}

// BuildTreat turns a result into the document of the command treat.
func BuildTreat(r *treatment.Result, m Meta) Treat {
	a := r.Options[0].Answer
	base := Build(a, m)
	t := Treat{
		Head: base.Head, Invented: m.Invented, Panel: base.Panel, UsedTo: base.UsedTo, Range: base.Range, Gates: base.Gates,
		Standard: r.Standard, TOML: r.Text, Cautions: Cautions(),
	}
	t.Kind, t.NoVolume = "treat", r.NoVolume
	if a.Doubt != nil {
		t.Cases = a.Doubt.Held
	}
	for _, l := range r.LeftOut {
		t.LeftOut = append(t.LeftOut, TreatLeftOut{l.Reach, l.Why})
	}
	for i := range r.Options {
		t.Options = append(t.Options, treatOption(&r.Options[i]))
	}
	t.Sentences = t.opening()
	return t
}

func treatOption(o *treatment.Option) TreatOption {
	out := TreatOption{
		Name: o.Name, Does: o.Option.Does, Note: o.Note, Reach: o.Reach, Reversible: o.Reversible, Touches: o.Touches, Guessed: o.Guessed,
		Removed: o.Removed, Added: o.Added, Reglued: o.Reglued, Changed: o.Changed, Failed: o.Failed, LetsGo: string(o.Letting), nothing: o.Nothing,
		SettleWeek: o.Settle.Hours() / (24 * 7),
	}
	if c := o.Case; c != nil {
		out.Case = &TreatCase{c.Litres, c.Changes, c.BufferKg, c.Seal, c.Guessed, c.Half.Hours() / 24}
	}
	if o.Answer == nil {
		return out
	}
	for _, g := range o.Answer.Gates {
		out.Gates = append(out.Gates, Gate{g.ID, g.Part, g.Text})
	}
	out.Range = calculatedRange(o.Answer.Range).Nominal
	for _, m := range o.Modes {
		out.Modes = append(out.Modes, treatMode(m))
	}
	d := &o.Does
	out.Movement = TreatMovement{d.Width[:], d.Warp[:], d.Day, d.DayWarp}
	out.Held = TreatHeld{d.HeldWidth, d.HeldWarp, d.Fixing}
	out.Carried, out.Room = TreatCarried{d.Carried, d.Bare}, TreatRoom{d.RoomWidth, d.RoomDepth}
	for _, c := range o.Changes {
		out.Changes = append(out.Changes, TreatChange{c.What, c.Was, c.Is, string(c.Way)})
	}
	for _, s := range o.Time {
		out.OverTime = append(out.OverTime, TreatStage{s.When, s.Warp[:], s.Width[:]})
	}
	s := &o.Sheet
	out.Sheet = TreatSheet{SeasonMM: s.Season[:], Lines: s.Lines}
	if s.High > 0 {
		out.Sheet.LowRH, out.Sheet.HighRH = number(100*s.Low), number(100*s.High)
	}
	for _, c := range s.Rows {
		out.Sheet.Rows = append(out.Sheet.Rows, TreatCheck{c.When, c.Warp[:], c.Width[:], c.Stop[:]})
	}
	return out
}

func treatMode(m treatment.Mode) TreatMode {
	out := TreatMode{Mode: string(m.Mode), Part: m.Part, SetsRange: m.Mode.SetsRange(), Change: string(m.Way)}
	if m.Of100 != nil {
		out.Of100 = m.Of100[:]
	}
	if m.At == nil {
		return out
	}
	full := modeOf(m.At)
	out.There, out.RHPct, out.NoLimit = true, full.RHPct, full.NoLimit
	out.Share, out.ShareLow, out.ShareHigh = full.Share, full.ShareLow, full.ShareHigh
	return out
}

func modeOf(w *assessment.Worst) Mode { return mode(w.Demand, w.Band, w.RH) }
