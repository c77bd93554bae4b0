package restraint

import "math"

// Reach says how far a linear answer for a deflection between supports may be relied on.
type Reach int

// The reaches of a linear answer.
const (
	Inside   Reach = iota // at most half a thickness
	Doubtful              // between half a thickness and one
	Outside               // more than one thickness: outside the model
)

// ReachOf returns how far a deflection between supports, mm of either sign, may be relied on in a
// panel of thickness t, mm: up to half a thickness inside, beyond one thickness outside the model.
// NaN and infinite deflections are outside, as is a thickness of 0 or less. Plates stretch in their
// own plane from about half a thickness on (S. Timoshenko and S. Woinowsky-Krieger, Theory of Plates
// and Shells, 2nd ed. 1959, section 13: the linear theory asks for deflections small against the
// thickness); the two marks are working choices (assumption).
func ReachOf(deflection, t float64) Reach {
	w := math.Abs(deflection)
	switch {
	case !(t > 0) || !(w <= t):
		return Outside
	case w > t/2:
		return Doubtful
	}
	return Inside
}

// String returns the reach in a reader's words.
func (r Reach) String() string {
	switch r {
	case Inside:
		return "within the model"
	case Doubtful:
		return "at the edge of the model: more than half a thickness between supports"
	}
	return "outside the model: more than one thickness between supports"
}
