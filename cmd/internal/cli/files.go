package cli

import (
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"
)

// writeWhole writes data to path whole or not at all: into a temporary file in the same folder,
// which then takes the name. The folder is made when it is missing. An existing file is replaced.
func writeWhole(path string, data []byte) error {
	dir := filepath.Dir(path)
	if err := os.MkdirAll(dir, 0o777); err != nil {
		return fmt.Errorf("cannot make the folder %s: %w", dir, cause(err))
	}
	tmp, err := os.CreateTemp(dir, ".crossgrain-*")
	if err != nil {
		return fmt.Errorf("cannot write in %s: %w", dir, cause(err))
	}
	if err := finish(tmp, path, data); err != nil {
		os.Remove(tmp.Name())
		return fmt.Errorf("cannot write %s: %w", path, cause(err))
	}
	return nil
}

// finish fills the temporary file and gives it its name.
func finish(tmp *os.File, path string, data []byte) error {
	if err := fill(tmp, data); err != nil {
		return err
	}
	return os.Rename(tmp.Name(), path)
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

// cause takes the operation and the (temporary) path out of a file error; the caller names both.
func cause(err error) error {
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
