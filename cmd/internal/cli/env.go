package cli

import "io"

// env is the world a command may touch: its input and its two outputs. Results go to stdout,
// remarks to stderr.
type env struct {
	stdin          io.Reader
	stdout, stderr io.Writer
}
