package response

import (
	"time"

	"crossgrain/moisture"
	"crossgrain/panel/restraint"
)

// Course is a climate that can be followed step by step.
type Course interface {
	Series
	// Even returns the climate in even steps of centred means, split where a gap is too long to bridge.
	Even(step time.Duration) ([]Stretch, error)
}

// Stretch is a part of a climate without a gap, in even steps.
type Stretch struct {
	Start time.Time // of the first step, in civil time
	RH    []float64 // mean over each step, fraction
	T     []float64 // °C; nil or NaN where it is not known
}

// Year is what a panel does in the course of a record, of whatever length. Lengths mm; moisture
// contents are means over the panel's width, along the mean curve.
type Year struct {
	From, To time.Time
	Step     time.Duration
	Steps    int
	// Lived says that the record was taken as the climate the panel lives in: it was run through
	// Repeats times until it came back to where it began, and then once more. Otherwise the panel
	// begins in balance with the humidity it is used to.
	Lived   bool
	Repeats int
	// Crushed is the strain across the panel that crushing adds in each month, January first, while the
	// record's first year is run through for the first time; all nought where it is not.
	Crushed [12]float64
	Days    []Day
	// Hollow and Round are the ranges that the ground's state and unknown heart sides leave of the least
	// and the greatest warp.
	Hollow, Round [2]float64
	// OneStiffness is by how much the movement of a board would be wrong at most for a single stiffness
	// through its thickness, as a share, by the layered strip, and how far the stiffness at its faces goes
	// from that single one, as a share. The first is put right in the layers; the second is an error of
	// stresses at the faces.
	OneStiffness [2]float64
	Boards       []BoardYear
	Breaks       int // stretches without readings too long to bridge, after which the panel starts anew
	Bridged      time.Duration
	Profiles     []Snapshot // at the hours of greatest warp and of most and least moisture
	// Members, LetGo, Misfit and Undetermined are of the panel on its members by elements; empty where closed
	// forms stand alone or nothing holds it. Undetermined counts the balances that friction leaves open.
	Members      []MemberYear
	LetGo        *LetGo
	Misfit       restraint.Trust
	Undetermined int
	Paint        []PaintYear // what it asks of the ground on each face
}

// Day is one day of a year.
type Day struct {
	Time  time.Time
	RH    [2]float64 // lowest and highest of the steps, fraction
	T     [2]float64 // °C
	Width [2]float64 // free change from the used-to state, least and greatest, along the mean curve, and what crushing has left
	Warp  [2]float64 // painted face rounded positive, along the mean curve
	// The same with wood that remembers its turning points, the smaller movement. Daily swings differ
	// most: small loops of humidity move the wood half as much as the mean curve says.
	WidthMemory, WarpMemory [2]float64
	Mean                    moisture.MC
	Skin                    moisture.MC // of the back face
	Painted                 moisture.MC // of the wood under the paint
	Set                     float64     // strain across the panel left by crushing, where it is held
	New                     bool        // the first day after a break
	// Hold is the least and the greatest force of the day on the hardest fixing of each member, N.
	Hold [][2]float64
}

// BoardYear is what one board does.
type BoardYear struct {
	Part       string
	Half, Most time.Duration // until half and 95 in 100 of a change of humidity have reached its mean
	// Reaches is the share of a swing of a day, a week, a month and a year that reaches the mean of
	// the board, against one slow enough for all of it.
	Reaches [4]float64
	MeanMC  [2]moisture.MC // least and greatest of its mean
	SkinMC  [2]moisture.MC
	Set     [2]float64 // strain left by crushing at the end, where the board is held: crushing before creep, creep before crushing
	Stored  Stored
}

// Stored is the strain that restraint has stored in a board, by when it comes back once released.
type Stored struct{ AtOnce, Weeks, Cycles, Never float64 }

// Snapshot is the moisture through the thickness of one board at one time.
type Snapshot struct {
	Time  time.Time
	Label string
	Part  string
	Z     []float64 // mm from the back face
	MC    []moisture.MC
	RH    float64 // of the air then
}
