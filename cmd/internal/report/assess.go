package report

// Head stands first in every document.
type Head struct {
	Format      int    `json:"format"`
	Kind        string `json:"kind"`
	Version     string `json:"version"`
	PanelDigest string `json:"panel_digest"`
	Seed        int    `json:"seed"`
	Setting     string `json:"setting"`
}

// Assess is the document of the command assess.
type Assess struct {
	Head
	Paper           *Paper          `json:"paper,omitempty"` // of a paper in a folder
	Invented        bool            `json:"invented"`
	Panel           Panel           `json:"panel"`
	UsedTo          Climate         `json:"used_to"`
	Lived           *Lived          `json:"lived_through"` // null: not recorded, or changed since
	Range           Range           `json:"range"`
	Sentences       []string        `json:"sentences"`
	Gates           []Gate          `json:"gates"`
	CalculatedRange CalculatedRange `json:"calculated_range"`
	Worst           []Mode          `json:"worst"` // each mode and part at its worst RH, worst first
	States          []State         `json:"states"`
	Sweep           []State         `json:"sweep"` // every five points over the wider of range and caps
	Boards          []Board         `json:"boards"`
	Restraints      []Restraint     `json:"restraints"`
	Lines           []Line          `json:"lines"`      // joins and splits
	NewSplits       []NewSplit      `json:"new_splits"` // where each board would split first
	EndChecks       EndChecks       `json:"end_checks"`
	Shape           Shape           `json:"shape"`
	Handling        []Fact          `json:"handling"`
	Frame           []Fact          `json:"frame"`
	FindOut         []FindOut       `json:"find_out"` // what can be measured, what matters most first
	Assumed         []Assumed       `json:"assumed"`
	NotUsed         []string        `json:"not_used"` // recorded in the file, used by no model yet
	Evidence        string          `json:"evidence"`
	Warnings        []Remark        `json:"warnings"`
	Cautions        []string        `json:"cautions"`
	Sources         []Source        `json:"sources"`
	Record          *Record         `json:"record,omitempty"`
	SectionBy       string          `json:"section_by"`            // "elements" or "closed forms"
	SectionWhy      string          `json:"section_why,omitempty"` // why the closed forms stand alone
	HeldBy          string          `json:"held_by"`               // "elements" or "closed forms"
	Binds           []Binds         `json:"binds"`                 // where free play is used up
	Order           []Order         `json:"order"`                 // what gives way first of joins, splits and wood
	Paint           []Paint         `json:"paint"`                 // what movement asks of the ground; sets no range
	PaintLines      []PaintLine     `json:"ground_at_lines"`
	Reglue          []Reglue        `json:"reglue"`         // closing and gluing joins and splits
	Year            *Year           `json:"year,omitempty"` // the course of the record
	Wait            *Wait           `json:"wait"`           // how long a humidity may stand
	Workshop        *Workshop       `json:"workshop"`       // what a batten here may be
	OwnWeight       *OwnWeight      `json:"own_weight"`     // what its own weight does to it
	Bays            []BayRow        `json:"bays"`           // between members glued to it, those that ripple first in front
	Doubt           *Doubt          `json:"doubt"`          // by many cases; null where none were asked for
}

// Panel is what the panel is.
type Panel struct {
	Accession   string  `json:"accession"`
	Title       string  `json:"title"`
	HeightMM    float64 `json:"height_mm"`
	WidthMM     float64 `json:"width_mm"`
	Grain       string  `json:"grain"`
	AcrossMM    float64 `json:"across_grain_mm"`
	ThicknessMM float64 `json:"thickness_mm"`
	// PresentWarpMM is its warp at the humidity it is used to, on top of which all other warps come; null where none was measured.
	PresentWarpMM *float64 `json:"present_warp_mm"`
	Boards        int      `json:"boards"`
	Woods         string   `json:"woods"`
	Described     int      `json:"facts_described"`
}

// Climate is a humidity and a temperature.
type Climate struct {
	RHPct        float64 `json:"rh_pct"`
	TemperatureC float64 `json:"temperature_c"`
	Words        string  `json:"words,omitempty"`
}

// Lived is the humidity that the panel has lived through unharmed, by its file.
type Lived struct {
	LowRHPct  float64 `json:"low_rh_pct"`
	HighRHPct float64 `json:"high_rh_pct"`
}

// Range is the humidity range that was asked about.
type Range struct {
	LowRHPct  float64 `json:"low_rh_pct"`
	HighRHPct float64 `json:"high_rh_pct"`
	From      string  `json:"from"` // "asked", "default" or "record"
}

// Gate is a finding that stands before any number.
type Gate struct {
	ID   string `json:"id"`
	Part string `json:"part"`
	Text string `json:"text"`
}

// CalculatedRange is the range in which no limit of the model is reached. Both are null when a
// gate forbids it; Why then says so.
type CalculatedRange struct {
	Nominal      *Limits `json:"nominal"`
	Unfavourable *Limits `json:"unfavourable"`
	Why          string  `json:"why,omitempty"`
}

// Limits are the two ends of a calculated range, each with its cause. A cause "cap:..." means that
// no limit was reached up to the cap.
type Limits struct {
	LowRHPct  float64 `json:"low_rh_pct"`
	HighRHPct float64 `json:"high_rh_pct"`
	LowBy     string  `json:"low_by"` // mode:part, or cap
	HighBy    string  `json:"high_by"`
}

// State is the panel at one humidity.
type State struct {
	Label             string  `json:"label,omitempty"` // "driest", "middle", "dampest" of a record
	RHPct             float64 `json:"rh_pct"`
	EMCPct            float64 `json:"emc_pct"`
	WidthChangeMM     float64 `json:"width_change_mm"`      // free, along the mean curve: the cautious end
	WidthChangeLoopMM float64 `json:"width_change_loop_mm"` // free, along the scanning loop
	HeldPct           float64 `json:"held_pct"`             // share of it that the worst restraint holds back
	CupMM             float64 `json:"cup_mm"`               // positive: painted face rounded
	CupLowMM          float64 `json:"cup_low_mm"`           // range from ground and ring direction
	CupHighMM         float64 `json:"cup_high_mm"`
	CupPassingMM      float64 `json:"cup_passing_mm"` // while a sudden change works its way in
	// CupBandMM and WidthBandMM are of the cases, 5 and 95 in 100, nothing holding the panel; empty without cases.
	CupBandMM    []float64 `json:"cup_band_mm"`
	WidthBandMM  []float64 `json:"width_change_band_mm"`
	GroundStrain float64   `json:"ground_strain"`
	Modes        []Mode    `json:"modes"`
	// Section is the cross-section by finite elements; null where the closed forms stand alone.
	Section *Section `json:"section"`
	// Stands is the panel on its members by finite elements; null where the closed forms stand alone.
	Stands *Stands `json:"stands"`
}

// Mode is one way to fail, for one part. Capacity and Share are null when there is no limit.
type Mode struct {
	Mode      string   `json:"mode"`
	Part      string   `json:"part"`
	RHPct     float64  `json:"rh_pct"`
	Demand    float64  `json:"demand"`
	Capacity  *float64 `json:"capacity"`
	Unit      string   `json:"unit"`
	Share     *float64 `json:"share"`
	ShareLow  *float64 `json:"share_low"`  // 5 in 100 of the plausible cases lie below
	ShareHigh *float64 `json:"share_high"` // 5 in 100 lie above
	NoLimit   bool     `json:"no_limit"`
	SetsRange bool     `json:"sets_range"`
	Evidence  string   `json:"evidence"`
	At        *When    `json:"at,omitempty"` // of a record
}

// Board is one board's movement.
type Board struct {
	Part          string    `json:"part"`
	Wood          string    `json:"wood"`
	WidthMM       float64   `json:"width_mm"`
	ThicknessMM   float64   `json:"thickness_mm"`
	RingDeg       float64   `json:"ring_angle_deg"`
	Ring          string    `json:"ring_words"`
	PerPct        float64   `json:"movement_pct_per_pct_mc"`
	WidthChangeMM []float64 `json:"width_change_mm"` // at each state
	Response      string    `json:"response_words"`
	Response95D   float64   `json:"response_95_days"`
	Evidence      string    `json:"evidence"`
}

// Restraint is one batten, cradle or frame side.
type Restraint struct {
	Part       string    `json:"part"`
	What       string    `json:"what"`         // words
	ForceN     []float64 `json:"force_n"`      // greatest in the member, at each state
	FixingN    []float64 `json:"fixing_n"`     // greatest at one fixing, at each state
	SlipMM     []float64 `json:"slip_mm"`      // greatest at one fixing, at each state
	HeldPct    []float64 `json:"held_pct"`     // share of the movement held at its line
	Fixings    []Fixing  `json:"fixings"`      // at the driest and dampest state
	BindsRHPct *float64  `json:"binds_rh_pct"` // nearest RH at which free play is used up
	// What follows is of the elements, at each state; empty where the closed forms stand alone. ForceN and
	// HeldPct are theirs too, and ClosedN and ClosedHeldPct those of the closed form.
	AcrossN       []float64 `json:"across_n"`   // greatest across the thickness at one fixing, without its sign
	MomentNMM     []float64 `json:"moment_nmm"` // greatest in the member, positive: rounded towards the panel
	SagMM         []float64 `json:"sag_mm"`     // of the member between its fixings, positive: towards the panel
	ClosedN       []float64 `json:"closed_force_n"`
	ClosedHeldPct []float64 `json:"closed_held_pct"`
}

// Fixing is one fixing with its forces at the ends of the range.
type Fixing struct {
	XMM  float64 `json:"x_mm"`
	DryN float64 `json:"dry_n"`
	WetN float64 `json:"damp_n"`
	Dry  string  `json:"dry_does"` // what it does, in words
	Damp string  `json:"damp_does"`
}

// Line is a join or split as a line that may open or lengthen.
type Line struct {
	Part         string      `json:"part"`
	Kind         string      `json:"kind"` // join, split, check
	LengthMM     float64     `json:"length_mm"`
	FreeHeightMM float64     `json:"span_mm"` // distance between what holds it on either side
	At           []LineState `json:"at"`
	GrowsRHPct   *float64    `json:"grows_rh_pct"` // nearest RH at which it would lengthen
	GrowsLowPct  *float64    `json:"grows_unfavourable_rh_pct"`
	By           string      `json:"by"`            // "elements" or "closed forms"
	Why          string      `json:"why,omitempty"` // why the strip formula stands alone
}

// Order is which of joins, splits and sound wood reaches its limit first on one side.
type Order struct {
	Side  string     `json:"side"` // dry, damp, or record: in order of time
	First []OrderRow `json:"first"`
}

// OrderRow is one part at the humidity at which it reaches its limit, nearest to the used-to one first.
type OrderRow struct {
	Mode  string  `json:"mode"`
	Part  string  `json:"part"`
	RHPct float64 `json:"rh_pct"`
	At    string  `json:"at,omitempty"` // of a record
}

// LineState is a line at one humidity.
type LineState struct {
	RHPct        float64  `json:"rh_pct"`
	OpeningMM    float64  `json:"opening_mm"`
	SlowJM2      float64  `json:"energy_slow_j_m2"`
	SuddenJM2    float64  `json:"energy_sudden_j_m2"`
	ToughnessJM2 float64  `json:"toughness_j_m2"`
	StopsMM      *float64 `json:"stops_mm"` // length at which it would stop; null: does not move
	StopsHighMM  *float64 `json:"stops_unfavourable_mm"`
	RunsThrough  bool     `json:"runs_through"`
	StripJM2     float64  `json:"energy_strip_j_m2"` // slow energy by the strip formula
	Decides      string   `json:"decides"`           // toughness, or stress for a line shorter than 25 mm where that is worse
}

// Shape is the section drawn: outline of every board used to, dry and damp.
type Shape struct {
	Magnification float64 `json:"magnification"`
}

// Fact is one line of a small table.
type Fact struct {
	What     string  `json:"what"`
	Value    float64 `json:"value"`
	Unit     string  `json:"unit"`
	Evidence string  `json:"evidence"`
	Words    string  `json:"words"`
}

// Assumed is something not measured on this panel.
type Assumed struct {
	Path     string  `json:"path"`
	What     string  `json:"what"`
	Value    float64 `json:"value"`
	Low      float64 `json:"low"`
	High     float64 `json:"high"`
	Unit     string  `json:"unit"`
	Text     string  `json:"text,omitempty"` // where the assumption is a word
	Evidence string  `json:"evidence"`
}

// FindOut is something that can be found out about the panel and would narrow the answer.
type FindOut struct {
	Path       string  `json:"path"`
	What       string  `json:"what"`
	Means      string  `json:"means"`
	Minutes    float64 `json:"minutes"`
	DoubtShare float64 `json:"share_of_doubt"` // of the part that works hardest, 0 to 1
	By         string  `json:"by"`             // who may find it out
}

// Remark is a warning with a stable code.
type Remark struct {
	Code string `json:"code"`
	Part string `json:"part"`
	Text string `json:"text"`
}

// Source is one entry of the bibliography used.
type Source struct {
	Key  string `json:"key"`
	Text string `json:"text"`
}

// Record is what an assessment over a record used of it.
type Record struct {
	File    string        `json:"file"`
	Rows    int           `json:"rows"`
	First   string        `json:"first"`
	Last    string        `json:"last"`
	MeanPct float64       `json:"mean_rh_pct"`
	MinPct  float64       `json:"min_rh_pct"`
	MaxPct  float64       `json:"max_rh_pct"`
	P7Pct   float64       `json:"p7_rh_pct"` // between it and the next lie 86 of 100 readings
	P93Pct  float64       `json:"p93_rh_pct"`
	Damp    float64       `json:"share_above_75_rh_pct"` // of its hours, 0 to 1
	Boards  []RecordBoard `json:"boards"`
	Words   string        `json:"words"`
}

// RecordBoard is the running mean of one board.
type RecordBoard struct {
	Part       string  `json:"part"`
	WindowDays float64 `json:"window_days"`
	LowPct     float64 `json:"low_rh_pct"`
	MidPct     float64 `json:"middle_rh_pct"`
	HighPct    float64 `json:"high_rh_pct"`
}
