package panel

import "crossgrain/tables"

// Known says how a value came to be.
type Known int

// The ways in which a value is known.
const (
	Measured Known = iota // one number in the file
	Between               // two numbers in the file
	Assumed               // not in the file: a stated default with a stated spread
)

// String returns the word for a reader.
func (k Known) String() string {
	switch k {
	case Measured:
		return "measured"
	case Between:
		return "between"
	}
	return "assumed"
}

// Quantity is a number as described: the value to work with and the ends of its range, which
// equal it where one number was measured.
type Quantity struct {
	Nominal, Low, High float64
	Known              Known
	Source             string // "the file", or where a default comes from
	Grade              tables.Grade
}

// Assumption is a value that the file does not give.
type Assumption struct {
	Path, What       string // board.left.thickness_mm; thickness of board left
	Value, Low, High float64
	Unit             string
	Text             string // whole sentence without a full stop
	Grade            tables.Grade
}
