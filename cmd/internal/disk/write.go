// Package disk writes files whole or not at all, and tells what went wrong in words.
package disk

import (
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"
)

// WriteWhole writes data to path whole or not at all: into a temporary file in the same folder,
// which then takes the name. The folder is made when it is missing. An existing file is replaced.
func WriteWhole(path string, data []byte) error { return write(path, data, os.Rename) }

// WriteFirst writes data to path, whole or not at all, and never over anything that lies there.
func WriteFirst(path string, data []byte) error { return write(path, data, nameFirst) }

// write fills a temporary file beside path and gives it its name.
func write(path string, data []byte, name func(from, to string) error) error {
	dir := filepath.Dir(path)
	if err := os.MkdirAll(dir, 0o777); err != nil {
		return fmt.Errorf("cannot make the folder %s: %w", dir, Cause(err))
	}
	tmp, err := os.CreateTemp(dir, ".crossgrain-*")
	if err != nil {
		return fmt.Errorf("cannot write in %s: %w", dir, Cause(err))
	}
	defer os.Remove(tmp.Name())
	if err = fill(tmp, data); err == nil {
		err = name(tmp.Name(), path)
	}
	switch {
	case errors.Is(err, errThere):
		return fmt.Errorf("%s %w", path, errThere)
	case err != nil:
		return fmt.Errorf("cannot write %s: %w", path, Cause(err))
	}
	return nil
}

var errThere = errors.New("is there already and is not written over")

// nameFirst gives a file a name that nothing has yet.
func nameFirst(from, to string) error {
	err := os.Link(from, to) // fails where something lies
	if err != nil && !errors.Is(err, fs.ErrExist) {
		if _, there := os.Lstat(to); errors.Is(there, fs.ErrNotExist) { // a file system without links
			err = os.Rename(from, to)
		}
	}
	if errors.Is(err, fs.ErrExist) {
		return errThere
	}
	return err
}

// fill writes the temporary file and closes it.
func fill(tmp *os.File, data []byte) error {
	_, err := tmp.Write(data)
	if err == nil {
		err = tmp.Chmod(0o644)
	}
	if err == nil {
		err = tmp.Sync()
	}
	if cerr := tmp.Close(); err == nil {
		err = cerr
	}
	return err
}

// Cause takes the operation and the (temporary) path out of a file error; the caller names both.
func Cause(err error) error {
	var p *fs.PathError
	if errors.As(err, &p) {
		return p.Err
	}
	var l *os.LinkError
	if errors.As(err, &l) {
		return l.Err
	}
	return err
}
