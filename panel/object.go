package panel

import (
	"crossgrain/moisture"
	"crossgrain/species"
)

// Object is one realisation of a panel: plain numbers, nothing unknown. Realise makes it from a
// Panel; the models read it and never the Panel. Lengths mm, strains and RH fractions, MPa, N.
// x runs across the grain from the left (grain upright) or lower edge (grain level), y along the
// grain from the lower or left end, z from the back face to the painted face.
type Object struct {
	Accession, Title string
	Across, Along    float64 // outside size across and along the grain, mm
	GrainLevel       bool    // grain horizontal; gravity then acts along x
	UsedTo           moisture.RH
	Temperature      moisture.Celsius
	LivedLow         moisture.RH // what it has lived through unharmed; 0, 0 when not known
	LivedHigh        moisture.RH
	Boards           []Board // in order across
	Joins            []Join
	Splits           []Split
	Inserts          []Insert
	Battens          []Batten
	Cradle           *Cradle
	Front, Back      Face
	Ends             string // bare, coated, covered
	Frame            *Frame
	WeightKg         float64 // of the whole panel; 0 = from density
	Warp             float64 // at the humidity it is used to, over its whole width, painted face rounded positive, mm; 0 = taken as flat
	WarpKnown        bool    // it was measured
}

// Board is one board of the panel.
type Board struct {
	Name               string
	WoodName           string // as looked up
	Wood               species.Numbers
	Sorption           species.Sorption
	SorptionShift      float64 // relative departure of this wood's moisture content from its curve, +-
	Branch             float64 // where it stands between wetting curve (-1), mean (0) and drying curve (1)
	Left, Width        float64 // left edge from the panel's left edge; width
	Thickness          float64 // mean, mm
	ThicknessLeft      float64
	ThicknessRight     float64
	BevelWidth         float64           // of the bevel at the back along the panel's outer edge, mm; 0 = none
	BevelEdge          float64           // thickness left at that edge
	Ring               species.RingAngle // signed by the lean
	RingRadius         float64           // ring radius at mid-width, mm; +Inf = straight rings
	HeartFront         bool              // heart side is the painted side
	HeartKnown         bool              // false: the sign of the ring cup is not known
	PithKnown          bool              // PithAcross, PithBehind hold
	PithAcross         float64           // from the board's left edge
	PithBehind         float64           // behind the board's back face; negative = in front of it
	GrainSlope         float64           // degrees
	DensityLoss        float64           // fraction lost to insects, 0 = none
	Impregnated        bool
	StiffnessReduction float64 // factor on stiffness and strength left by insects, 1 = sound
	// Strength of weak zones beside the rest of the board, up to 1; 0 = no such zone.
	SapLeft, SapRight float64 // sapwood at its left and right edge
	WeakBack          float64 // its back, eaten by insects
}

// Join is the line between two neighbouring boards.
type Join struct {
	Name            string
	X               float64 // place across
	Left, Right     int     // board indices
	Kind, Glue      string
	OpenedBefore    bool
	OpenStart       float64 // open part along the grain, mm; equal = closed
	OpenEnd         float64
	OpenFace        string // front, back, through
	Gap, Step       float64
	GapRH           moisture.RH // RH at which the gap was measured
	Filled          string      // yes, no, not recorded
	Fixed           moisture.RH // RH at which it was glued
	StrengthOfSound float64     // strength relative to sound wood, 0..1
}

// Open returns the open length along the grain, mm.
func (j Join) Open() float64 { return j.OpenEnd - j.OpenStart }

// Split is a split (through) or a check (part-through) in one board.
type Split struct {
	Name       string
	Board      int
	X          float64 // place across from the panel's left edge
	Start, End float64 // along the grain
	Depth      float64 // mm; = board thickness when through
	Through    bool
	Face       string
	Bridging   string // bridging, broken, not recorded
	Filled     string
	Gap        float64 // opening at its mouth as measured, mm
	GapRH      moisture.RH
	Step       float64
	AgeFresh   bool
}

// Length returns the length along the grain, mm.
func (s Split) Length() float64 { return s.End - s.Start }

// Insert is a butterfly, dowel, tongue, glued button, cleat or breadboard end.
type Insert struct {
	Name, Kind   string
	Wood         species.Numbers
	X, Y         float64 // centre
	AcrossGrain  bool    // its own grain runs across the panel's
	Length       float64 // across the panel's grain
	Width, Depth float64
	Fixed        moisture.RH
}

// Fixing is one fixing of a batten or a cradle member.
type Fixing struct {
	X         float64 // across the panel
	Footprint float64 // length of the patch it acts through, mm
	Slip      float64 // N/mm; +Inf = none (glue)
	Yield     float64 // N; +Inf = none
	Clearance float64 // free play each way at ClearRH, mm
	ClearRH   moisture.RH
	Friction  float64 // coefficient
	Preload   float64 // N pressing
}

// Batten is a member across the grain.
type Batten struct {
	Name           string
	Wood           species.Numbers
	Y              float64 // centre line along the grain
	From, To       float64 // across
	Width, Depth   float64 // along the panel's grain; away from the panel
	Side           string  // back, front, let in
	Fixing         string  // as in the file
	Glued          bool    // over its whole length
	GluedMiddle    bool
	HoldsFlat      bool // cannot bend with the panel: both keep flat
	Fixings        []Fixing
	Seized         bool
	ChannelDepth   float64
	Fixed          moisture.RH // RH at which it was fixed
	Empty          bool        // only a channel
	FrictionFactor float64
}

// Cradle is a set of glued members along the grain and sliders across it.
type Cradle struct {
	FixedCount    int
	FixedWidth    float64
	FixedDepth    float64
	FixedX        []float64 // centre lines across
	FixedWood     species.Numbers
	SliderCount   int
	SliderWidth   float64
	SliderDepth   float64
	SliderY       []float64
	Play          float64 // in each notch, mm, at PlayRH
	PlayRH        moisture.RH
	Moves         string // by hand, with taps, seized, not recorded
	SliderWood    species.Numbers
	Fixed         moisture.RH
	ShareStuck    float64 // 0 sliding freely .. 1 seized
	FrictionForce float64 // N at each notch when it slides with taps
}

// GroundNotRecorded stands for a ground of which the file says nothing.
const GroundNotRecorded = "chalk or gypsum glue ground"

// Face is one face of the panel.
type Face struct {
	Painted       bool
	Ground        string  // gypsum-glue, chalk-glue, oil, double, none, or GroundNotRecorded
	GroundMM      float64 // thickness
	GroundState   string  // continuous, craquelured, lifting, lost
	GroundE       float64 // short modulus of the ground as it acts in tension, MPa
	GroundEIntact float64
	Paint         string // sound, blind cleavage, flaking
	Interlayer    string
	Coating       string
	SdM           float64 // vapour resistance as metres of air
}

// Frame is what surrounds the panel.
type Frame struct {
	Sides      map[string]FrameSide // left, right, top, bottom
	ClearWidth float64              // clear of the rebate across the grain, mm; 0 not recorded
	ClearRH    moisture.RH          // RH at which the fit was measured
	ClearDepth float64              // depth available for the panel with its cup, mm; 0 not recorded
	Clips      int
	Pressing   string // yes, no, not recorded
}

// FrameSide is one side of the frame.
type FrameSide struct {
	Kind         string // engaged, groove, rebate
	Depth, Width float64
	Stuck        bool
}
