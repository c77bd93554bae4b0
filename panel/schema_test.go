package panel

import (
	"crossgrain/tables/problem"
	"fmt"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// Every key of the schema is read with its own example, written, and read again.
func TestEveryKeyIsReadAndWritten(t *testing.T) {
	n := 0
	for _, tb := range schema {
		name := "x"
		if len(tb.names) > 0 {
			name = tb.names[0]
		}
		for _, k := range tb.keys {
			n++
			src := minimal(tb, k, name)
			p, problems := Read("x", []byte(src))
			for _, q := range problems {
				assert.NotContains(t, q.Msg, "unknown", src)
				assert.False(t, strings.HasSuffix(q.Part, "."+k.name) && !strings.Contains(q.Msg, "needs"), "%s\n%s", q, src)
			}
			if p == nil {
				continue
			}
			var b strings.Builder
			require.NoError(t, p.Write(&b))
			assert.Contains(t, b.String(), k.name+" = ")
			q, problems := Read("y", []byte(b.String()))
			require.NoError(t, problems.Err(), b.String())
			assert.Equal(t, p.Digest(), q.Digest())
			_, err := p.Realise(nil)
			assert.NoError(t, err, src)
		}
	}
	assert.Greater(t, n, 130)
}

func minimal(tb table, k key, name string) string {
	var b strings.Builder
	b.WriteString("[panel]\n")
	for _, r := range []string{`accession = "INVENTED"`, "height_mm = 900", "width_mm = 450"} {
		if tb.path != "panel" || !strings.HasPrefix(r, k.name) {
			b.WriteString(r + "\n")
		}
	}
	if tb.path == "panel" {
		fmt.Fprintf(&b, "%s = %s\n", k.name, k.example)
		return b.String()
	}
	b.WriteString("wood = \"oak\"\n" + tb.header(name) + "\n")
	for _, r := range tb.keys {
		if r.required && r.name != k.name {
			b.WriteString(r.name + " = " + r.example + "\n")
		}
	}
	fmt.Fprintf(&b, "%s = %s\n", k.name, k.example)
	switch {
	case tb.path == "board":
		b.WriteString("[board.other]\n")
	case tb.path == "join":
		b.WriteString("[board.left]\n[board.middle]\n")
	case tb.path == "option":
		b.WriteString("[option.x.ends]\nstate = \"bare\"\n[batten.upper]\n[batten.lower]\nat_mm = [40, 200, 400]\n")
		b.WriteString("[board.left]\n[board.middle]\n[join.left-middle]\nbetween = [\"left\", \"middle\"]\nopen_from = \"top\"\n")
	case tb.path == "split" && k.name == "board":
		b.WriteString("[board.middle]\n")
	}
	return b.String()
}

func TestSchemaIsWhole(t *testing.T) {
	for _, tb := range schema {
		seen := map[string]bool{}
		assert.NotEmpty(t, tb.doc, tb.path)
		for _, k := range tb.keys {
			at := tb.path + "." + k.name
			assert.False(t, seen[k.name], at)
			seen[k.name] = true
			assert.NotEmpty(t, k.doc, at)
			assert.NotEmpty(t, k.example, at)
			assert.False(t, strings.HasSuffix(k.doc, "."), at)
			switch k.kind {
			case numberKind, countKind, lengthKind, listKind, rhKind, spanKind:
				assert.Less(t, k.low, k.high, at)
			}
			if strings.HasSuffix(k.name, "_mm") && !strings.HasSuffix(k.name, "_per_mm") {
				assert.Equal(t, "mm", k.unit, at)
			}
			if strings.HasSuffix(k.name, "_rh_pct") {
				assert.Equal(t, "% RH", k.unit, at)
			}
		}
	}
}

func TestIndexSurvivesAnything(t *testing.T) {
	for _, s := range []string{"", "[", "[[[", "a", "=", "a=", `a="`, `a='''`, `a="""\`, "a={", "a=[", "a=[{", "\"", `"\`, "]\n]\n", "a = [1,,]\n}\n"} {
		assert.NotPanics(t, func() { problem.LinesOf(s) }, s)
	}
}
