package cli

import (
	"fmt"
	"io"
	"runtime/debug"
	"strings"
)

// recovered turns a panic into a fault told in words: what happened, that nothing is to be
// trusted from this run, and what to send. The place in the program comes last.
func recovered(w io.Writer, args []string, p any) int {
	fmt.Fprintf(w, "crossgrain: a fault in the program, not in what you typed: %v\n", p)
	fmt.Fprintln(w, "Take no number from this run.", whatToSend())
	fmt.Fprintf(w, "\tcommand: crossgrain %s\n", strings.Join(args, " "))
	for _, line := range ownFrames(string(debug.Stack())) {
		fmt.Fprintln(w, "\tplace:   "+line)
	}
	return exitFault
}

// whatToSend says what whoever keeps the program needs to find a fault.
func whatToSend() string {
	return fmt.Sprintf("To whoever looks after the program, send: the command, the panel file "+
		"it read, these lines, and the version (%s).", Version())
}

// ownFrames returns up to four functions of crossgrain from a stack trace, innermost first,
// leaving out those that catch the fault.
func ownFrames(stack string) []string {
	var out []string
	for line := range strings.Lines(stack) {
		line = strings.TrimSpace(line)
		own := strings.HasPrefix(line, "crossgrain/")
		if !own || strings.Contains(line, "cli.recovered") || strings.Contains(line, "cli.Run") {
			continue
		}
		if i := strings.LastIndex(line, "("); i > 0 {
			line = line[:i]
		}
		if out = append(out, line); len(out) == 4 {
			break
		}
	}
	return out
}
