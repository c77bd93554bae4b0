package cli

import (
	"context"
	"errors"
	"fmt"
	"io"

	"github.com/spf13/cobra"
)

// The exit codes.
const (
	exitDone     = 0
	exitFailed   = 1 // a check or limit failed where asked for
	exitBadInput = 2 // bad input or usage
	exitFault    = 3 // a fault of the program
	exitStopped  = 130
)

// errLimit is returned by a command that was asked to fail on a check or limit, after it has
// written its result.
var errLimit = errors.New("a limit is reached within the range, and --fail-on-limit was given")

// errFailedCheck is returned by verify when a check fails.
var errFailedCheck = errors.New("a check failed")

// faultError is a fault of the program, not of what was typed.
type faultError struct{ err error }

func (e *faultError) Error() string { return e.err.Error() }
func (e *faultError) Unwrap() error { return e.err }

// usageError is a mistake in how a command was called.
type usageError struct {
	msg, hint string
	cmd       *cobra.Command // whose help to point to; may be nil
}

func (e *usageError) Error() string { return e.msg }

// badUsage makes a usage error; hint may be empty.
func badUsage(cmd *cobra.Command, hint, format string, a ...any) error {
	return &usageError{msg: fmt.Sprintf(format, a...), hint: hint, cmd: cmd}
}

// tell writes the error to w and returns the exit code it stands for.
func tell(w io.Writer, err error) int {
	if err == nil {
		return exitDone
	}
	if errors.Is(err, context.Canceled) {
		fmt.Fprintln(w, "crossgrain: stopped before it was done; nothing half-written was left behind")
		return exitStopped
	}
	fmt.Fprintln(w, "crossgrain:", err)
	var fault *faultError
	var usage *usageError
	switch {
	case errors.Is(err, errLimit), errors.Is(err, errFailedCheck), errors.Is(err, errNotAsIssued):
		return exitFailed
	case errors.As(err, &fault):
		fmt.Fprintln(w, whatToSend())
		return exitFault
	case errors.As(err, &usage):
		tellUsage(w, usage)
	}
	return exitBadInput
}

func tellUsage(w io.Writer, e *usageError) {
	if e.hint != "" {
		fmt.Fprintln(w, "\thint: "+e.hint)
	}
	if e.cmd != nil {
		fmt.Fprintf(w, "\thelp: %s --help\n", e.cmd.CommandPath())
	}
}
