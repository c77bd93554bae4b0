//go:build !windows

package cli

import (
	"os"
	"runtime"
)

// clicked says whether the program was started without a terminal but with a screen, as by a double click. A Mac opens a terminal for
// that, so that nothing can be told there.
func clicked() bool {
	if runtime.GOOS != "darwin" && os.Getenv("DISPLAY")+os.Getenv("WAYLAND_DISPLAY") == "" {
		return false
	}
	for _, f := range []*os.File{os.Stdin, os.Stdout, os.Stderr} {
		if terminal(f) && !isNull(f) {
			return false
		}
	}
	return true
}

// isNull says whether a file is the one that swallows everything, which is a device as a terminal is.
func isNull(f *os.File) bool {
	a, err := f.Stat()
	b, err2 := os.Stat(os.DevNull)
	return err == nil && err2 == nil && os.SameFile(a, b)
}
