// Package store keeps what a survey has worked out in one SQLite file, under digests of what went into it.
//
// Each result is a transaction of its own: what was kept stays when the program or the machine is stopped at any moment. A file that is
// not one of these is never written to.
package store

import (
	"bytes"
	"crypto/sha256"
	"database/sql"
	"encoding/binary"
	"errors"
	"fmt"
	"io"
	"io/fs"
	"net/url"
	"os"
	"path/filepath"
	"strings"

	"modernc.org/sqlite"
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
	name, err := address(path)
	if err != nil {
		return nil, fmt.Errorf("cannot open %s: %w", path, err)
	}
	db, err := sql.Open("sqlite", name)
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

// address is how the driver is told of a file, whatever signs its name holds. A file that another program has locked is waited for, 5 s.
func address(path string) (string, error) {
	abs, err := filepath.Abs(path)
	if err != nil {
		return "", err
	}
	abs = filepath.ToSlash(abs)
	if !strings.HasPrefix(abs, "/") { // a drive
		abs = "/" + abs
	}
	return (&url.URL{Scheme: "file", Path: abs, RawQuery: "_pragma=busy_timeout(5000)"}).String(), nil
}

const elsewhere = "\n\thint: give another name with --keep"

// prepare makes sure that the file is one of ours and whole, or empty, and readies it.
func (s *Store) prepare(path string) error {
	var mark, version, tables int
	var whole string
	for _, q := range []struct {
		sql string
		to  any
	}{{"PRAGMA application_id", &mark}, {"PRAGMA user_version", &version}, {"SELECT count(*) FROM sqlite_master", &tables}, {"PRAGMA quick_check(1)", &whole}} {
		if err := s.db.QueryRow(q.sql).Scan(q.to); err != nil {
			return unread(path, err)
		}
	}
	switch {
	case mark == 0 && tables == 0:
		if err := s.create(); err != nil {
			return fmt.Errorf("cannot write %s: %w", path, err)
		}
	case mark != application:
		return fmt.Errorf("%s is a database of something else and was left as it is%s", path, elsewhere)
	case version != form:
		return fmt.Errorf("%s was kept in form %d, and this program reads form %d%s", path, version, form, elsewhere)
	case whole != "ok":
		return unread(path, errors.New(whole))
	}
	var err error
	if s.get, err = s.db.Prepare("SELECT worked, sum FROM kept WHERE digest = ?"); err == nil {
		s.put, err = s.db.Prepare("INSERT OR REPLACE INTO kept VALUES (?, ?, ?)")
	}
	if err != nil {
		return unread(path, err)
	}
	return nil
}

// unread says why a file cannot be read: it is in use, damaged, or never was one of ours.
func unread(path string, err error) error {
	const busy = 5 // SQLITE_BUSY, in the lowest byte of the code
	var failed *sqlite.Error
	switch {
	case errors.As(err, &failed) && failed.Code()&0xff == busy:
		return fmt.Errorf("%s is in use by another program\n\thint: wait until that has ended, or give another name with --keep", path)
	case marked(path):
		return fmt.Errorf("%s is damaged and was left as it is (%w)\n\thint: move it away, or give another name with --keep", path, err)
	}
	return fmt.Errorf("%s holds no kept results and was left as it is (%w)%s", path, err, elsewhere)
}

// marked says whether a file bears the mark of this package, however damaged it is: bytes 68 to 71 of the head
// (https://www.sqlite.org/fileformat.html, 1.3).
func marked(path string) bool {
	f, err := os.Open(path)
	if err != nil {
		return false
	}
	defer f.Close()
	var head [72]byte
	_, err = io.ReadFull(f, head[:])
	return err == nil && binary.BigEndian.Uint32(head[68:]) == application
}

// create makes the table and marks the file, all at once or not at all.
func (s *Store) create() error {
	tx, err := s.db.Begin()
	if err != nil {
		return err
	}
	defer tx.Rollback() // does nothing after Commit
	for _, sql := range []string{
		fmt.Sprintf("PRAGMA application_id = %d", application), fmt.Sprintf("PRAGMA user_version = %d", form),
		"CREATE TABLE IF NOT EXISTS kept (digest TEXT PRIMARY KEY, worked BLOB NOT NULL, sum BLOB NOT NULL) WITHOUT ROWID",
	} {
		if _, err := tx.Exec(sql); err != nil {
			return err
		}
	}
	return tx.Commit()
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
