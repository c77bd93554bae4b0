// Package store keeps what a survey has worked out in one SQLite file, under digests of what went into it.
//
// Each result is a transaction of its own: what was kept stays when the program or the machine is stopped at any moment. A file that is
// not one of these is never written to.
package store

import (
	"bytes"
	"crypto/sha256"
	"database/sql"
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"

	_ "modernc.org/sqlite" // the driver
)

// application marks the files of this package ("Cgrn"), form is the form of their tables.
const (
	application = 0x4367726e
	form        = 1
)

// Store is an open file.
type Store struct {
	db       *sql.DB
	get, put *sql.Stmt
}

// Open opens a file of kept results, or makes one. It returns an error for a file of another kind, which stays as it is.
func Open(path string) (*Store, error) {
	switch st, err := os.Stat(path); {
	case errors.Is(err, fs.ErrNotExist):
		if err := os.MkdirAll(filepath.Dir(path), 0o777); err != nil {
			return nil, fmt.Errorf("cannot make the folder of %s: %w", path, err)
		}
	case err != nil:
		return nil, fmt.Errorf("cannot open %s: %w", path, err)
	case st.IsDir():
		return nil, fmt.Errorf("%s is a folder; results are kept in a file", path)
	}
	db, err := sql.Open("sqlite", path)
	if err != nil {
		return nil, fmt.Errorf("cannot open %s: %w", path, err)
	}
	db.SetMaxOpenConns(1)
	s := &Store{db: db}
	if err := s.prepare(path); err != nil {
		db.Close()
		return nil, err
	}
	return s, nil
}

// prepare makes sure that the file is one of ours, or empty, and readies it.
func (s *Store) prepare(path string) error {
	var mark, version, tables int
	for _, q := range []struct {
		sql string
		to  *int
	}{{"PRAGMA application_id", &mark}, {"PRAGMA user_version", &version}, {"SELECT count(*) FROM sqlite_master", &tables}} {
		if err := s.db.QueryRow(q.sql).Scan(q.to); err != nil {
			return fmt.Errorf("%s holds no kept results and was left as it is (%w)\n\thint: give another name with --keep", path, err)
		}
	}
	switch {
	case mark == 0 && tables == 0:
		for _, sql := range []string{
			fmt.Sprintf("PRAGMA application_id = %d", application), fmt.Sprintf("PRAGMA user_version = %d", form),
			"CREATE TABLE kept (digest TEXT PRIMARY KEY, worked BLOB NOT NULL, sum BLOB NOT NULL) WITHOUT ROWID",
		} {
			if _, err := s.db.Exec(sql); err != nil {
				return fmt.Errorf("cannot write %s: %w", path, err)
			}
		}
	case mark != application:
		return fmt.Errorf("%s is a database of something else and was left as it is\n\thint: give another name with --keep", path)
	case version != form:
		return fmt.Errorf("%s was kept in form %d, and this program reads form %d\n\thint: give another name with --keep", path, version, form)
	}
	var err error
	if s.get, err = s.db.Prepare("SELECT worked, sum FROM kept WHERE digest = ?"); err == nil {
		s.put, err = s.db.Prepare("INSERT OR REPLACE INTO kept VALUES (?, ?, ?)")
	}
	if err != nil {
		return fmt.Errorf("%s cannot be used: %w", path, err)
	}
	return nil
}

// Get returns what was kept; false where nothing was, or where it is damaged.
func (s *Store) Get(digest string) (worked []byte, ok bool) {
	var sum []byte
	if err := s.get.QueryRow(digest).Scan(&worked, &sum); err != nil {
		return nil, false
	}
	own := sha256.Sum256(worked)
	return worked, bytes.Equal(own[:], sum)
}

// Put keeps a result; when it returns, the result is on disk.
func (s *Store) Put(digest string, worked []byte) error {
	sum := sha256.Sum256(worked)
	_, err := s.put.Exec(digest, worked, sum[:])
	return err
}

// Close closes the file.
func (s *Store) Close() error { return s.db.Close() }
