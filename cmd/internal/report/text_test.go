package report

import (
	"bytes"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

func toText(t *testing.T, a Assess) string {
	t.Helper()
	var b bytes.Buffer
	require.NoError(t, a.WriteText(&b))
	return b.String()
}

func TestWriteText(t *testing.T) {
	got := toText(t, invented())
	golden(t, "assess_invented.txt", got)
	order := []string{
		"INVENTED EXAMPLE", "  1  ", "  3  ", "BEFORE ANY NUMBER", "CALCULATED RANGE", "WHAT GIVES WAY FIRST", "HOW IT MOVES",
		"WHAT HOLDS IT BACK", "JOINS AND SPLITS", "ASSUMED", "NOT YET USED", "WHAT THIS IS AND IS NOT",
	}
	from := 0
	for _, s := range order {
		i := strings.Index(got[from:], s)
		require.GreaterOrEqual(t, i, 0, "%s in its place", s)
		from += i
	}
	for _, s := range got {
		assert.False(t, s < ' ' && s != '\n', "no control letters")
	}
}

func TestWriteTextIsNeverTooWide(t *testing.T) {
	a := invented()
	long := strings.Repeat("板絵の長い名前", 20)
	a.Panel.Title, a.Panel.Accession = long, strings.Repeat("x", 200)
	a.UsedTo.Words, a.Boards[0].Wood = long, long
	a.Restraints[0].Part, a.Restraints[0].What = "batten."+long, long
	a.Worst[0].Part = "split." + long

	a.Assumed[0].What, a.Gates[0].Text, a.NotUsed[0] = long, long, long
	for l := range strings.Lines(toText(t, a)) {
		assert.LessOrEqual(t, displayWidth(strings.TrimSuffix(l, "\n")), columns, l)
		assert.NotContains(t, l, "\x1b")
	}
}

func TestWriteTextOfLittle(t *testing.T) {
	got := toText(t, Assess{CalculatedRange: CalculatedRange{Why: "gate: described by too little"}})
	assert.Contains(t, got, "No range is offered")
	assert.NotContains(t, got, "INVENTED")
	assert.NotContains(t, got, "JOINS")
}
