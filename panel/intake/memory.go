package intake

import (
	"errors"
	"fmt"
	"slices"
	"strings"

	"github.com/BurntSushi/toml"

	"crossgrain/panel"
	"crossgrain/tables/problem"
)

// Memory is what is remembered of a list in the folder of its panel files: how its columns were matched,
// and the digest of each file as it was written.
type Memory struct {
	Format  int               `toml:"format"`
	List    string            `toml:"list"`
	Columns map[string]string `toml:"columns"` // heading -> field and unit
	Written map[string]string `toml:"written"` // file -> digest
}

// ReadMemory reads what [Memory.Bytes] has written; name is used in problems only.
func ReadMemory(name string, data []byte) (Memory, error) {
	var m Memory
	meta, err := toml.Decode(strings.TrimPrefix(string(data), "\ufeff"), &m)
	var pe toml.ParseError
	switch {
	case errors.As(err, &pe):
		return m, problem.List{{File: name, Line: pe.Position.Line, Msg: pe.Message, Hint: "columns are written as in \"Nr.\" = \"accession\""}}.Err()
	case err != nil:
		return m, problem.List{{File: name, Msg: strings.TrimPrefix(err.Error(), "toml: ")}}.Err()
	case m.Format != 1:
		return m, problem.List{{File: name, Msg: fmt.Sprintf("format must be 1, got %d", m.Format)}}.Err()
	case len(meta.Undecoded()) > 0:
		return m, problem.List{{File: name, Msg: "unknown key " + meta.Undecoded()[0].String()}}.Err()
	}
	for h, as := range m.Columns {
		if _, _, err := ParseColumn(as); err != nil {
			return m, problem.List{{File: name, Part: h, Msg: err.Error()}}.Err()
		}
	}
	return m, nil
}

// Bytes writes the memory, keys in alphabetical order. The columns may be changed by hand.
func (m Memory) Bytes() []byte {
	var b strings.Builder
	b.WriteString("# What crossgrain intake remembers of this list. The columns may be changed by hand:\n# heading = field, with the unit of its lengths where the cells have none.\nformat = 1\nlist = " + panel.Quote(m.List) + "\n")
	for _, t := range []struct {
		name  string
		pairs map[string]string
	}{{"columns", m.Columns}, {"written", m.Written}} {
		b.WriteString("\n[" + t.name + "]\n")
		var keys []string
		for k := range t.pairs {
			keys = append(keys, k)
		}
		slices.Sort(keys)
		for _, k := range keys {
			b.WriteString(panel.Quote(k) + " = " + panel.Quote(t.pairs[k]) + "\n")
		}
	}
	return []byte(b.String())
}

// Named returns how the columns of a list were matched, to be remembered.
func (l *List) Named() map[string]string {
	out := map[string]string{}
	for _, c := range l.Columns {
		if c.Field == asked || c.How == KeptAsNote {
			continue
		}
		out[c.Heading] = strings.TrimSpace(string(c.Field) + " " + c.Unit)
	}
	return out
}
