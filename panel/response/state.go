package response

import (
	"time"

	"crossgrain/moisture"
	"crossgrain/panel/fracture"
	"crossgrain/panel/internal/plan"
	"crossgrain/panel/restraint"
)

// State is the panel in balance with a humidity held for a season. Lengths mm, forces N.
type State struct {
	Label         string        // of a record: driest, middle, dampest
	Time          time.Time     // of a course; zero otherwise
	RH            moisture.RH   // mean over the width
	BoardRH       []moisture.RH // by board
	MC            moisture.MC   // mean over the width
	BoardChange   []float64     // free change of width, by board
	Width         float64       // free change of the panel's width along the mean curve
	WidthLoop     float64       // the same along the scanning loop, the smaller end
	Cup           float64       // painted face rounded positive, edge to middle, nothing holding it
	CupLow        float64       // ends of the range left by ground and heart side
	CupHigh       float64
	CupPassing    float64    // largest passing cup after a sudden change from the used-to humidity
	Section       *Section   // the cross-section by finite elements; nil where closed forms stand alone
	Profile       []float64  // height of the back face at Stations, mm, chord through the edges
	Stations      []float64  // places across, mm
	GroundStrain  [2]float64 // mechanical strain of the ground: back, front (NaN: none)
	Restraints    []RestraintState
	Lines         []LineState
	Splits        []NewSplit // by board: where it would split first; nothing where nothing holds the panel
	Demands       []Demand
	HeldShare     float64 // largest share of the movement held back by one restraint
	MaxHeldStrain float64
	Shape         *Shape // as the panel stands on its members; nil where closed forms stand alone
	stood         *standing
}

// RestraintState is one batten or slider at one humidity.
type RestraintState struct {
	Part   string
	What   string    // how it is fixed
	Words  string    // what its fixings do
	Y      float64   // place along the grain
	Force  float64   // greatest in the panel at its line, tension positive
	X      []float64 // places of the fixings
	Fixing []float64 // force of each fixing on the panel
	Slip   []float64 // slip at each fixing
	Lift   []float64 // force across the thickness at each fixing, pressing panel and member together positive; nil by the closed form
	Does   []Holding
	Moment float64     // greatest in the member, N mm, positive where it becomes rounded towards the panel
	Sag    float64     // of the member from the chord through its fixings, mm, towards the panel positive
	Closed *ClosedHold // what the closed form says of the same; nil where it stands alone or has none
	Held   []float64   // mechanical strain held in each board, tension positive
	Share  float64     // share of the free movement held back at this line
	Bend   float64     // curvature that the member withholds at its line, 1/mm
	Spread plan.Spread // how it dies away along the grain
	Ends   [2]float64  // outermost fixings that carry force
	mean   []float64   // Held in the mean of the board where the elements know it; nil by the closed form
}

// Holding is what a fixing does.
type Holding = restraint.Bearing

// What a fixing can do.
const (
	Idle     = restraint.Idle
	Stuck    = restraint.Stuck
	Sliding  = restraint.Sliding
	Bears    = restraint.Bears
	Yielding = restraint.Yielding
)

// Reach says how far a linear answer may be relied on.
type Reach = restraint.Reach

// Outside is a deflection of more than one thickness.
const Outside = restraint.Outside

// ClosedHold is what the closed form says of a member by itself.
type ClosedHold struct {
	Force, Fixing float64 // greatest in the panel at its line, and at one fixing, N
	Share         float64
	held          []float64 // strain of each board
	bend          float64   // as Bend, 1/mm
}

// Shape is the panel as it stands on its members at mid-length, from the used-to state, mm.
type Shape struct {
	Width, Free float64 // change of width, held and as the plan would have it if nothing held
	Warp        float64 // painted face rounded positive
	FreeWarp    float64
	Open        int         // fixings whose force rests on how friction held them when they were fixed
	Misfit      [2]float64  // of the balance: largest gap between movements, mm, and largest force left over, N
	Bracket     *[2]float64 // greatest force at one fixing, N, if none rubs and if all lock; nil where friction leaves nothing open
}

// LineState is one join, split or check at one humidity.
type LineState struct {
	Part      string
	Kind      string // join, split, check
	Length    float64
	Span      float64 // H of the strip, 0 when nothing holds it
	Strain    float64 // held strain at the tip
	Opening   float64
	Slow      float64 // energy release, N/mm
	Sudden    float64
	Toughness float64 // at the start of growth
	Plateau   float64
	Stops     float64 // length at which it would stop; = Length when it does not move
	Through   bool    // it would run through the panel
	Grows     bool
	// Strip is the slow energy release of the strip formula alone. Elements says that the energies above are those of the plan of
	// the panel; Why says why not, where they could not be had.
	Strip    float64
	Elements bool
	Why      string
	By       fracture.Criterion // what decides: toughness, or for a line shorter than 25 mm stress where that is worse
	curve    fracture.Curve
}

// Run says what the line does when its toughness is the given share of the nominal one: whether it
// grows, the length at which it stops, mm, and whether it runs through the panel.
func (l LineState) Run(share float64) (grows bool, length float64, through bool) {
	if len(l.curve.Points) == 0 {
		return false, l.Length, false
	}
	r := l.curve.Run(share * l.Toughness)
	return r.Grows, r.Length, r.Through
}

// Energies returns the energy release by slow growth, N/mm, at the lengths the line may take, mm.
func (l LineState) Energies() (length, slow []float64) {
	for _, p := range l.curve.Points {
		length, slow = append(length, p.Length()), append(slow, p.Slow)
	}
	return length, slow
}

// Series is a climate in time.
type Series interface {
	// RunningMean returns the lowest, the mean and the highest running mean of RH over the window.
	RunningMean(window time.Duration) (low, mid, high float64, err error)
}

// Sink takes the states of a run one by one; it must not keep the pointer.
type Sink interface{ Take(*State) error }

// Ending says how a run ended.
type Ending struct {
	Steps int
	Why   string
}

// Setting is how finely the response is computed.
type Setting int

// The settings.
const (
	Quick Setting = iota
	Coarse
	Fine
)

func (s Setting) String() string { return [...]string{"quick", "coarse", "fine"}[s] }
