package cli

import (
	"errors"
	"fmt"
	"io/fs"
	"os"

	"github.com/spf13/cobra"

	"crossgrain/cmd/internal/disk"
	"crossgrain/panel"
)

func newStart(e env) *cobra.Command {
	return &cobra.Command{
		Use:   "start [FILE]",
		Short: "a commented panel file to fill in",
		Long: `start writes a commented panel file. Its first part asks only what can be seen;
what is measured follows. A line that is left out counts as not known. Without
FILE it is written to stdout. An existing file is never overwritten.`,
		Example: "  crossgrain start panel.toml",
		Args:    cobra.MaximumNArgs(1),
		RunE: func(cmd *cobra.Command, args []string) error {
			text := []byte(panel.Template())
			if len(args) == 0 || args[0] == "-" {
				_, err := e.stdout.Write(text)
				return err
			}
			if err := writeNew(args[0], text); err != nil {
				return err
			}
			fmt.Fprintf(e.stderr, "wrote %s; fill in what you know, then: crossgrain assess %s\n", args[0], args[0])
			return nil
		},
	}
}

// writeNew writes a file that must not exist yet, whole or not at all.
func writeNew(path string, data []byte) error {
	if _, err := os.Lstat(path); err == nil {
		return fmt.Errorf("%s exists already; it was left as it is\n\thint: give another name, or move it away first", path)
	} else if !errors.Is(err, fs.ErrNotExist) {
		return fmt.Errorf("cannot write %s: %w", path, disk.Cause(err))
	}
	return disk.WriteWhole(path, data)
}
