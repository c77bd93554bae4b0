package report

import (
	"bytes"
	"encoding/json"
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

func toJSON(t *testing.T, doc any) string {
	t.Helper()
	var b bytes.Buffer
	require.NoError(t, WriteJSON(&b, doc))
	return b.String()
}

func TestNumeral(t *testing.T) {
	tests := []struct {
		in     float64
		want   string
		reason string
	}{
		{1.0 / 3, "0.333333", "six significant digits"},
		{1234567.8, "1.23457e06", "large numbers keep six digits"},
		{100, "100", "no point without need"},
		{-0.00012345678, "-0.000123457", "small numbers"},
		{math.Copysign(0, -1), "0", "no minus zero"},
		{math.NaN(), "null", "JSON has no NaN"},
		{math.Inf(-1), "null", "JSON has no infinity"},
	}
	for _, tt := range tests {
		assert.Equal(t, tt.want, numeral(tt.in), tt.reason)
		assert.True(t, json.Valid([]byte(numeral(tt.in))), "%s is JSON", numeral(tt.in))
	}
}

func TestWriteJSON(t *testing.T) {
	a := invented()
	a.Panel.Title = `<b>"two" & three</b>`
	a.States[0].CupMM = math.NaN()
	a.NotUsed = nil
	got := toJSON(t, a)
	var back map[string]any
	require.NoError(t, json.Unmarshal([]byte(got), &back))
	assert.Equal(t, byte('\n'), got[len(got)-1], "a newline ends the document")
	assert.Equal(t, got, toJSON(t, a), "same document, same bytes")
	assert.Equal(t, a.Panel.Title, back["panel"].(map[string]any)["title"])
	assert.Nil(t, back["states"].([]any)[0].(map[string]any)["cup_mm"], "NaN becomes null")
	assert.Equal(t, []any{}, back["not_used"], "an empty list is a list")
	assert.True(t, bytes.HasPrefix([]byte(got), []byte("{\n  \"format\": 1,\n  \"kind\": \"assess\"")), "the head stands first")
	worst := back["worst"].([]any)
	last := worst[len(worst)-1].(map[string]any)
	assert.Nil(t, last["capacity"])
	assert.Equal(t, true, last["no_limit"])
	a.Record = nil
	assert.NotContains(t, toJSON(t, a), `"record"`)
}

func TestWriteJSONRefusesWhatIsNoDocument(t *testing.T) {
	assert.Error(t, WriteJSON(&bytes.Buffer{}, make(chan int)))
}
