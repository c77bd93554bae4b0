package profile

import (
	"errors"
	"fmt"

	"crossgrain/tables"
)

// Scheme is the rule for a step in time.
type Scheme int

// The schemes.
const (
	SDIRK2        Scheme = iota // two implicit stages, second order, damps what is faster than the step
	BackwardEuler               // one stage, first order, never overshoots
)

// Memory is the rule for sorption between the branches.
type Memory int

// The rules.
const (
	Turning      Memory = iota // turning points remembered, small loops close: [moisture.Scan]
	Mean                       // one curve, no hysteresis: the cautious end of movement
	Differential               // slope by distance from the branches, forgets turning points: a bracket only
)

// Options are how finely a board is followed. The zero value is filled in by [New] with those of
// [Default].
type Options struct {
	Cells  int  // intervals through the thickness, 4..400; 0 is 40
	Graded bool // finer towards each face that exchanges
	Scheme Scheme
	Memory Memory
	// Tol is the error in humidity at which the iteration stops, 1e-12..1e-3; 0 is 1e-4. It does not
	// touch the balance.
	Tol float64
}

// Default is 24 graded intervals, second order, turning points remembered.
func Default() Options { return Options{Cells: 24, Graded: true} }

// Coarse is for many runs: 16 graded intervals, backward Euler, steps of 3 h fed with [Means].
func Coarse() Options { return Options{Cells: 16, Graded: true, Scheme: BackwardEuler} }

func (o Options) filled() Options {
	if o.Cells == 0 {
		o.Cells = 40
	}
	if o.Tol == 0 {
		o.Tol = 1e-4
	}
	return o
}

func (o Options) valid() error {
	err := errors.Join(
		tables.InRange("intervals through the thickness", float64(o.Cells), 4, 400, "", ""),
		tables.InRange("tolerance in humidity", o.Tol, 1e-12, 1e-3, "", ""))
	if o.Scheme != SDIRK2 && o.Scheme != BackwardEuler {
		err = errors.Join(err, fmt.Errorf("scheme must be 0 (two stages) or 1 (backward euler), got %d", o.Scheme))
	}
	if o.Memory < Turning || o.Memory > Differential {
		err = errors.Join(err, fmt.Errorf("memory must be 0 (turning points), 1 (mean curve) or 2 (differential), got %d", o.Memory))
	}
	return err
}
