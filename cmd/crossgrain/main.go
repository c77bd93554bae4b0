// Command crossgrain computes what humidity does to a painted wooden panel that something holds
// back. Run it without arguments for help.
package main

import (
	"context"
	"os"
	"os/signal"

	"crossgrain/cmd/internal/cli"
)

func main() {
	ctx, stop := signal.NotifyContext(context.Background(), os.Interrupt)
	code := cli.Run(ctx, os.Args[1:], os.Stdin, os.Stdout, os.Stderr)
	stop()
	os.Exit(code)
}
