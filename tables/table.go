package tables

import (
	"embed"
	"encoding/csv"
	"fmt"
	"io/fs"
	"path"
	"slices"
	"strconv"
	"strings"
	"sync"
)

//go:embed data
var files embed.FS

// Table is one embedded CSV file: the provenance lines at its head, the column names and the rows.
type Table struct {
	Name    string   // file name without .csv
	Head    []string // provenance lines, without '#'
	Columns []string
	Rows    []Row
}

// Row is one line of a table, read by column name.
type Row struct {
	table *Table
	Line  int // line in the file, from 1
	cells []string
}

var cache sync.Map // name -> func() (*Table, error)

// Read returns the embedded table data/<name>.csv; name may hold a folder ("experiments/x").
// A table is parsed once. Errors name file and line.
func Read(name string) (*Table, error) {
	f, _ := cache.LoadOrStore(name, sync.OnceValues(func() (*Table, error) { return parseFile(name) }))
	return f.(func() (*Table, error))()
}

// MustRead is Read for tables that belong to the program: a failure is a fault of the build.
func MustRead(name string) *Table {
	t, err := Read(name)
	if err != nil {
		panic(err)
	}
	return t
}

// Names lists all embedded tables, sorted.
func Names() []string {
	var out []string
	_ = fs.WalkDir(files, "data", func(p string, d fs.DirEntry, err error) error {
		if err == nil && !d.IsDir() && path.Ext(p) == ".csv" {
			out = append(out, strings.TrimSuffix(strings.TrimPrefix(p, "data/"), ".csv"))
		}
		return err
	})
	slices.Sort(out)
	return out
}

func parseFile(name string) (*Table, error) {
	file := "data/" + name + ".csv"
	src, err := files.ReadFile(file)
	if err != nil {
		return nil, fmt.Errorf("tables: no table %q", name)
	}
	t := &Table{Name: name}
	body, skipped := string(src), 0
	for strings.HasPrefix(body, "#") {
		line, rest, _ := strings.Cut(body, "\n")
		t.Head = append(t.Head, strings.TrimSpace(strings.TrimPrefix(line, "#")))
		body, skipped = rest, skipped+1
	}
	r := csv.NewReader(strings.NewReader(body))
	r.FieldsPerRecord = -1
	all, err := r.ReadAll()
	if err != nil {
		return nil, fmt.Errorf("tables: %s (after %d head lines): %w", file, skipped, err)
	}
	if len(all) == 0 {
		return nil, fmt.Errorf("tables: %s has no column line", file)
	}
	t.Columns = all[0]
	for i, cells := range all[1:] {
		line := skipped + 2 + i // exact while no cell holds a line break; a test sees to that
		if len(cells) != len(t.Columns) {
			return nil, fmt.Errorf("tables: %s:%d: %d cells, want %d", file, line, len(cells), len(t.Columns))
		}
		t.Rows = append(t.Rows, Row{table: t, Line: line, cells: cells})
	}
	return t, nil
}

// Text returns the cell in the named column; an unknown column is a programmer's error.
func (r Row) Text(column string) string {
	i := slices.Index(r.table.Columns, column)
	if i < 0 {
		panic(fmt.Sprintf("tables: %s has no column %q", r.table.Name, column))
	}
	return r.cells[i]
}

// Float returns the number in the named column. Empty cells and text give ok = false.
func (r Row) Float(column string) (v float64, ok bool) {
	v, err := strconv.ParseFloat(strings.TrimSpace(r.Text(column)), 64)
	return v, err == nil
}

// Has says whether the table has the column.
func (t *Table) Has(column string) bool { return slices.Contains(t.Columns, column) }
