package page

import (
	"crossgrain/cmd/internal/disk"
	"fmt"
	"io"
	"io/fs"
	"os"
	"path"
	"path/filepath"
	"slices"
	"strings"
)

// folder is the only place on disk that the page touches. Nothing outside it can be named: os.Root refuses a path that leaves it,
// also by a link.
type folder struct {
	root *os.Root
	path string
}

// Folders that the page makes below its own when it needs them.
const (
	draftsDir  = "drafts"  // what was typed and not saved yet
	recordsDir = "records" // logger files as they were dropped
	papersDir  = "papers"  // what was saved to print or send
)

func openFolder(dir string) (*folder, error) {
	full, err := filepath.Abs(dir)
	if err != nil {
		return nil, err
	}
	if err := os.MkdirAll(full, 0o777); err != nil {
		return nil, fmt.Errorf("cannot make the folder %s: %w", full, disk.Cause(err))
	}
	root, err := os.OpenRoot(full)
	if err != nil {
		return nil, fmt.Errorf("cannot open the folder %s: %w", full, disk.Cause(err))
	}
	return &folder{root: root, path: full}, nil
}

func (f *folder) close() { f.root.Close() }

// read reads a file of at most most bytes.
func (f *folder) read(name string, most int64) ([]byte, error) {
	file, err := f.root.Open(filepath.FromSlash(name))
	if err != nil {
		return nil, fmt.Errorf("cannot read %s: %w", name, disk.Cause(err))
	}
	defer file.Close()
	data, err := io.ReadAll(io.LimitReader(file, most+1))
	if err != nil {
		return nil, fmt.Errorf("cannot read %s: %w", name, disk.Cause(err))
	}
	if int64(len(data)) > most {
		return nil, fmt.Errorf("%s is larger than %d MB", name, most>>20)
	}
	return data, nil
}

// write writes a file whole or not at all: beside it first, then under its name. The folders above it are made.
func (f *folder) write(name string, data []byte) error {
	local := filepath.FromSlash(name)
	if dir := filepath.Dir(local); dir != "." {
		if err := f.root.MkdirAll(dir, 0o777); err != nil {
			return fmt.Errorf("cannot make the folder %s: %w", dir, disk.Cause(err))
		}
	}
	tmp := local + ".part"
	err := f.root.WriteFile(tmp, data, 0o666)
	if err == nil {
		err = f.root.Rename(tmp, local)
	}
	if err != nil {
		_ = f.root.Remove(tmp)
		return fmt.Errorf("cannot write %s: %w", name, disk.Cause(err))
	}
	return nil
}

func (f *folder) has(name string) bool {
	_, err := f.root.Lstat(filepath.FromSlash(name))
	return err == nil
}

func (f *folder) remove(name string) { _ = f.root.Remove(filepath.FromSlash(name)) }

// list lists the files of a folder below it with one of the endings, by name; none when the folder is missing.
func (f *folder) list(dir string, endings ...string) []string {
	entries, err := fs.ReadDir(f.root.FS(), dir)
	if err != nil {
		return nil
	}
	var out []string
	for _, e := range entries {
		ending := strings.ToLower(path.Ext(e.Name()))
		if !e.IsDir() && !strings.HasPrefix(e.Name(), ".") && slices.Contains(endings, ending) {
			out = append(out, e.Name())
		}
	}
	return out
}

// free returns a name that no file has yet: name.toml, name-2.toml, ...
func (f *folder) free(dir, name, ending string) string {
	for n := 1; ; n++ {
		out := path.Join(dir, name+ending)
		if n > 1 {
			out = path.Join(dir, fmt.Sprintf("%s-%d%s", name, n, ending))
		}
		if !f.has(out) {
			return out
		}
	}
}

// plainName makes a word fit to be the name of a file on every system: letters, digits and hyphens, at most 60.
func plainName(s string) string {
	var b strings.Builder
	for _, r := range strings.ToLower(strings.TrimSpace(s)) {
		switch {
		case r >= 'a' && r <= 'z' || r >= '0' && r <= '9' || r == '-' || r == '_' || r == '.':
			b.WriteRune(r)
		case b.Len() > 0 && !strings.HasSuffix(b.String(), "-"):
			b.WriteByte('-')
		}
		if b.Len() >= 60 {
			break
		}
	}
	out := strings.Trim(b.String(), "-.")
	if out == "" || slices.Contains(reserved, strings.TrimSuffix(out, path.Ext(out))) {
		return "panel" + out
	}
	return out
}

// reserved are names that Windows keeps for devices.
var reserved = []string{"con", "prn", "aux", "nul", "com1", "com2", "com3", "com4", "lpt1", "lpt2", "lpt3", "lpt4"}
