package cli

import (
	"context"
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"unicode"

	"crossgrain/cmd/internal/disk"
	"crossgrain/panel"
)

// storeRead is what was read of one panel file, of several, or of a folder.
type storeRead struct {
	name    string
	example bool // the built-in one
	many    bool // a store: the panels that can be read go on without those that cannot
	panels  []storePanel
}

// storePanel is one file; err says why it could not be read.
type storePanel struct {
	file, place string
	panel       *panel.Panel
	err         error
	remark      string
}

// readStore reads the panel files that are named, those of a folder and the folders below it, or the
// built-in example. They stand by place and name, numbers in their order.
func readStore(args []string) (*storeRead, error) {
	if len(args) <= 1 && (len(args) == 0 || !isFolder(args[0])) {
		p, _, err := readPanel(args)
		if err != nil {
			return nil, err
		}
		s := storePanel{file: "invented-example.toml", panel: p}
		if len(args) == 1 {
			s.file = args[0]
		}
		name := p.Accession()
		if name == "" {
			name = filepath.Base(s.file)
		}
		return &storeRead{name: name, example: len(args) == 0, panels: []storePanel{s}}, nil
	}
	out := &storeRead{many: true, name: fmt.Sprintf("%d panels", len(args))}
	for _, a := range args {
		if !isFolder(a) {
			out.panels = append(out.panels, storePanel{file: a})
			continue
		}
		if len(args) == 1 {
			if full, err := filepath.Abs(a); err == nil {
				out.name = filepath.Base(full)
			}
		}
		found, err := panelFiles(a)
		if err != nil {
			return nil, err
		}
		out.panels = append(out.panels, found...)
	}
	var first error
	read := 0
	for i := range out.panels {
		s := &out.panels[i]
		if s.panel, _, s.err = readPanel([]string{s.file}); s.err == nil {
			read++
		} else if first == nil {
			first = s.err
		}
	}
	slices.SortStableFunc(out.panels, func(a, b storePanel) int {
		if c := inOrder(a.place, b.place); c != 0 {
			return c
		}
		return inOrder(a.number(), b.number())
	})
	if read == 0 {
		return nil, fmt.Errorf("none of %d panel files could be read; the first: %w", len(out.panels), first)
	}
	return out, nil
}

// number is what the panel is called by: its number, or its file where that is not known.
func (s storePanel) number() string {
	if s.panel != nil && s.panel.Accession() != "" {
		return s.panel.Accession()
	}
	return filepath.Base(s.file)
}

func isFolder(name string) bool {
	st, err := os.Stat(name)
	return err == nil && st.IsDir()
}

// panelFiles lists the panel files of a folder and of the folders below it, which are the places.
func panelFiles(dir string) ([]storePanel, error) {
	var out []storePanel
	err := filepath.WalkDir(dir, func(path string, d fs.DirEntry, err error) error {
		if err != nil {
			return fmt.Errorf("cannot read %s: %w", path, disk.Cause(err))
		}
		if d.IsDir() || !strings.EqualFold(filepath.Ext(path), ".toml") {
			return nil
		}
		place, err := filepath.Rel(dir, filepath.Dir(path))
		if err != nil || place == "." {
			place = ""
		}
		out = append(out, storePanel{file: path, place: filepath.ToSlash(place)})
		return nil
	})
	if err == nil && len(out) == 0 {
		err = fmt.Errorf("no panel file (.toml) in %s", dir)
	}
	return out, err
}

// twice tells of numbers that stand in more than one file.
func (s *storeRead) twice() []string {
	var out []string
	at := map[string]string{}
	for _, p := range s.panels {
		if p.panel == nil || p.panel.Accession() == "" {
			continue
		}
		if first, ok := at[p.panel.Accession()]; ok {
			out = append(out, fmt.Sprintf("number %q stands in %s and in %s", p.panel.Accession(), first, p.file))
			continue
		}
		at[p.panel.Accession()] = p.file
	}
	return out
}

// isStopped says whether the user stopped it.
func isStopped(err error) bool { return errors.Is(err, context.Canceled) }

// watcher tells how far it is where a person or a page watches.
func watcher(e env) func(stage string, done, of int) {
	if tell := e.progress(""); tell != nil {
		return tell
	}
	return func(string, int, int) {}
}

// inOrder compares names with the numbers in them by their size: rack 2 before rack 10.
func inOrder(a, b string) int {
	for a != "" && b != "" {
		na, nb := digits(a), digits(b)
		if na > 0 && nb > 0 {
			x, y := strings.TrimLeft(a[:na], "0"), strings.TrimLeft(b[:nb], "0")
			if len(x) != len(y) {
				return len(x) - len(y)
			}
			if c := strings.Compare(x, y); c != 0 {
				return c
			}
			a, b = a[na:], b[nb:]
			continue
		}
		if a[0] != b[0] {
			return int(a[0]) - int(b[0])
		}
		a, b = a[1:], b[1:]
	}
	return len(a) - len(b)
}

// digits counts the digits at the beginning.
func digits(s string) int {
	n := strings.IndexFunc(s, func(r rune) bool { return !unicode.IsDigit(r) || r > '9' })
	if n < 0 {
		return len(s)
	}
	return n
}
