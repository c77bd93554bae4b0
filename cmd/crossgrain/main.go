// Command crossgrain computes what humidity does to a painted wooden panel that something holds
// back. Run it without arguments for help.
package main

import (
	"context"
	"os"
	"os/signal"
	"runtime/debug"

	"crossgrain/cmd/internal/cli"
)

// memory is what the program keeps to where it can, in bytes: fine meshes are large and short-lived, and a museum's machine may be
// small.
const memory = 260 << 20

func main() {
	if os.Getenv("GOMEMLIMIT") == "" {
		debug.SetMemoryLimit(memory)
	}
	ctx, stop := signal.NotifyContext(context.Background(), os.Interrupt)
	code := cli.Run(ctx, os.Args[1:], os.Stdin, os.Stdout, os.Stderr)
	stop()
	os.Exit(code)
}
