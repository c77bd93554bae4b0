package cli

import (
	"errors"
	"fmt"
	"io/fs"
	"os"
	"os/exec"
	"path/filepath"
	"runtime"

	"github.com/spf13/cobra"

	"crossgrain/cmd/internal/page"
)

type pageOptions struct {
	port   int
	noOpen bool
}

func newPage(e env) *cobra.Command {
	var o pageOptions
	cmd := &cobra.Command{
		Use:   "page [DIR]",
		Short: "all of it in a browser on this machine, without a command line",
		Long: `page serves a page on this machine: describe a panel or drop a spreadsheet, drop a
logger's file, read the answer, print the papers. It prints its address and opens
it in the browser. DIR is the folder of the panels, the present one when left out;
nothing outside it is read or written, and no network is asked for anything. It
listens on this machine alone. Ctrl-C ends it; what was typed is kept in DIR as
drafts.

It calculates from a description and has not seen the panel. Supports, splits
and loan terms are decided by a structural conservator after examination.`,
		Example: "  crossgrain page\n  crossgrain page panels --port 8080\n  crossgrain page panels --no-open",
		Args:    cobra.MaximumNArgs(1),
		RunE: func(cmd *cobra.Command, args []string) error {
			dir := "."
			if len(args) == 1 {
				dir = args[0]
			}
			return o.run(cmd, e, dir)
		},
	}
	cmd.Flags().IntVar(&o.port, "port", 0, "`PORT` to listen on; without it any that is free")
	cmd.Flags().BoolVar(&o.noOpen, "no-open", false, "print the address and open nothing")
	return cmd
}

func (o *pageOptions) run(cmd *cobra.Command, e env, dir string) error {
	if o.port < 0 || o.port > 65535 {
		return badUsage(cmd, "", "--port must lie between 0 and 65535, got %d", o.port)
	}
	if st, err := os.Stat(dir); err == nil && !st.IsDir() {
		return fmt.Errorf("%s is a file, and the page needs a folder", dir)
	} else if errors.Is(err, fs.ErrNotExist) {
		fmt.Fprintf(e.stderr, "remark: the folder %s was not there and is made\n", dir)
	}
	s, err := page.New(page.Config{Dir: dir, Port: o.port, Version: Version(), Run: Run})
	if err != nil {
		return err
	}
	fmt.Fprintf(e.stdout, "%s\n", s.URL())
	fmt.Fprintf(e.stderr, "Folder: %s\nCtrl-C ends it; what was typed is kept there.\n", s.Dir())
	if !o.noOpen {
		if err := openBrowser(s.URL()); err != nil {
			fmt.Fprintln(e.stderr, "remark: no browser could be opened; type the address into one")
		}
	}
	return s.Serve(cmd.Context())
}

// openBrowser asks the system to open an address.
func openBrowser(url string) error {
	name, args := "xdg-open", []string{url}
	switch runtime.GOOS {
	case "darwin":
		name = "open"
	case "windows":
		name, args = "rundll32", []string{"url.dll,FileProtocolHandler", url}
	}
	c := exec.Command(name, args...)
	if err := c.Start(); err != nil {
		return err
	}
	go func() { _ = c.Wait() }()
	return nil
}

// clickedDir is the folder of the page when the program was started by a double click: panels beside the program, as on a shared drive,
// or where that cannot be written, in the user's own folder.
func clickedDir() string {
	if exe, err := os.Executable(); err == nil {
		dir := filepath.Join(filepath.Dir(exe), "crossgrain panels")
		if os.MkdirAll(dir, 0o777) == nil {
			if probe, err := os.CreateTemp(dir, ".crossgrain-*"); err == nil {
				probe.Close()
				os.Remove(probe.Name())
				return dir
			}
		}
	}
	home, err := os.UserHomeDir()
	if err != nil {
		return "crossgrain panels"
	}
	return filepath.Join(home, "crossgrain panels")
}
