package store

import (
	"bufio"
	"bytes"
	"database/sql"
	"fmt"
	"os"
	"os/exec"
	"path/filepath"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// TestMain is also the program that is killed: with a file in the environment it keeps results and names each once it is kept.
func TestMain(m *testing.M) {
	if path := os.Getenv("STORE_TEST_FILE"); path != "" {
		s, err := Open(path)
		for i := 0; err == nil; i++ {
			if err = s.Put(fmt.Sprint(i), []byte(strings.Repeat(fmt.Sprint(i), 1000))); err == nil {
				fmt.Println(i)
			}
		}
		fmt.Fprintln(os.Stderr, err)
		os.Exit(1)
	}
	os.Exit(m.Run())
}

func open(t testing.TB, path string) *Store {
	s, err := Open(path)
	require.NoError(t, err)
	return s
}

func TestKeptResultsComeBack(t *testing.T) {
	path := filepath.Join(t.TempDir(), "deep", "results.db")
	s := open(t, path)
	require.NoError(t, s.Put("a", []byte{0, 1, 2}))
	require.NoError(t, s.Put("a", []byte{3}))
	_, ok := s.Get("b")
	assert.False(t, ok)
	require.NoError(t, s.Close())
	s = open(t, path)
	defer s.Close()
	got, ok := s.Get("a")
	assert.True(t, ok)
	assert.Equal(t, []byte{3}, got)
	_, err := s.db.Exec("UPDATE kept SET worked = x'04'")
	require.NoError(t, err)
	_, ok = s.Get("a")
	assert.False(t, ok, "what was damaged is worked out again")
}

func TestOtherFilesAreLeftAlone(t *testing.T) {
	dir := t.TempDir()
	text := filepath.Join(dir, "text.db")
	require.NoError(t, os.WriteFile(text, []byte(strings.Repeat("not a database\n", 100)), 0o666))
	other := filepath.Join(dir, "other.db")
	db, err := sql.Open("sqlite", other)
	require.NoError(t, err)
	_, err = db.Exec("CREATE TABLE loans (number TEXT)")
	require.NoError(t, err)
	require.NoError(t, db.Close())
	later := filepath.Join(dir, "later.db")
	s := open(t, later)
	_, err = s.db.Exec("PRAGMA user_version = 99")
	require.NoError(t, err)
	require.NoError(t, s.Close())
	for path, words := range map[string]string{text: "holds no kept results", other: "something else", later: "form 99", dir: "is a folder"} {
		var before []byte
		if path != dir {
			before, err = os.ReadFile(path)
			require.NoError(t, err)
		}
		_, err = Open(path)
		assert.ErrorContains(t, err, words)
		if path != dir {
			after, err := os.ReadFile(path)
			require.NoError(t, err)
			assert.Equal(t, before, after)
		}
	}
}

// A file whose pages are damaged is told at once, before anything is worked out.
func TestDamagedFileIsLeftAlone(t *testing.T) {
	path := filepath.Join(t.TempDir(), "results.db")
	s := open(t, path)
	for i := range 20 {
		require.NoError(t, s.Put(fmt.Sprint(i), make([]byte, 2000)))
	}
	require.NoError(t, s.Close())
	whole, err := os.ReadFile(path)
	require.NoError(t, err)
	for name, damage := range map[string]func(b []byte) []byte{
		"overwritten": func(b []byte) []byte { return append(b[:8192:8192], bytes.Repeat([]byte{0x5a}, len(b)-8192)...) },
		"cut off":     func(b []byte) []byte { return b[:5000] },
	} {
		bad := damage(whole)
		require.NoError(t, os.WriteFile(path, bad, 0o666))
		_, err := Open(path)
		assert.ErrorContains(t, err, "damaged and was left as it is", name)
		after, err := os.ReadFile(path)
		require.NoError(t, err)
		assert.Equal(t, bad, after, name)
	}
}

// Making the file stops half way: what was done of it is taken back, and the next time it is made.
func TestFileIsMadeWholeOrNotAtAll(t *testing.T) {
	path := filepath.Join(t.TempDir(), "results.db")
	db, err := sql.Open("sqlite", path)
	require.NoError(t, err)
	db.SetMaxOpenConns(1)
	_, err = db.Exec("CREATE TABLE other (a); CREATE INDEX kept ON other (a)") // stands in the way of the table
	require.NoError(t, err)
	require.Error(t, (&Store{db: db}).create())
	var mark int
	require.NoError(t, db.QueryRow("PRAGMA application_id").Scan(&mark))
	assert.Zero(t, mark)
	_, err = db.Exec("DROP TABLE other")
	require.NoError(t, err)
	require.NoError(t, db.Close())
	require.NoError(t, open(t, path).Close())
}

func TestAnyNameIsTheNameOfTheFile(t *testing.T) {
	for _, name := range []string{"what?now.db", "a%20b.db", "a b#c.db", "Bestände&ü.db"} {
		path := filepath.Join(t.TempDir(), name)
		require.NoError(t, open(t, path).Close())
		entries, err := os.ReadDir(filepath.Dir(path))
		require.NoError(t, err)
		require.Len(t, entries, 1)
		assert.Equal(t, name, entries[0].Name())
	}
}

func TestFileInUse(t *testing.T) {
	path := filepath.Join(t.TempDir(), "results.db")
	s := open(t, path)
	_, err := s.db.Exec("BEGIN EXCLUSIVE")
	require.NoError(t, err)
	_, err = Open(path)
	assert.ErrorContains(t, err, "in use by another program")
	require.NoError(t, s.Close())
	require.NoError(t, open(t, path).Close())
}

// TestKilledInTheMiddle kills a program while it keeps results: everything that it had kept is there.
func TestKilledInTheMiddle(t *testing.T) {
	path := filepath.Join(t.TempDir(), "results.db")
	for round := range 3 {
		c := exec.Command(os.Args[0])
		c.Env = append(os.Environ(), "STORE_TEST_FILE="+path)
		out, err := c.StdoutPipe()
		require.NoError(t, err)
		require.NoError(t, c.Start())
		lines, last := bufio.NewScanner(out), -1
		for lines.Scan() && last < 20+7*round {
			last, err = strconv.Atoi(lines.Text())
			require.NoError(t, err)
		}
		require.NoError(t, c.Process.Kill())
		_ = c.Wait()
		s := open(t, path)
		for i := range last + 1 {
			got, ok := s.Get(fmt.Sprint(i))
			require.True(t, ok, "%d of %d", i, last)
			assert.Equal(t, strings.Repeat(fmt.Sprint(i), 1000), string(got))
		}
		require.NoError(t, s.Close())
	}
}

func BenchmarkPut(b *testing.B) {
	s := open(b, filepath.Join(b.TempDir(), "results.db"))
	defer s.Close()
	data := make([]byte, 20000)
	for i := 0; b.Loop(); i++ {
		if err := s.Put(fmt.Sprint(i), data); err != nil {
			b.Fatal(err)
		}
	}
}
