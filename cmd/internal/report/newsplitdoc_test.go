package report

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"crossgrain/moisture"
	"crossgrain/panel/assessment"
	"crossgrain/panel/response"
)

func TestEndCheckWords(t *testing.T) {
	e := EndChecks{Ends: "bare", Boards: []EndCheck{{"board.a", nil}, {"board.b", ptr(31.7)}, {"board.c", ptr(28)}}}
	s := e.words(52)
	assert.Contains(t, s, "board b at about 32 % RH", "the board that begins first")
	assert.Contains(t, s, "from the 52 % RH")
	e.Boards = e.Boards[:1]
	assert.Contains(t, e.words(52), "would not start to check")
	assert.Contains(t, EndChecks{Ends: "coated"}.words(52), "is coated")
	assert.Empty(t, EndChecks{}.words(52), "nothing is said of a document without")
	lines := Assess{EndChecks: e}.lineWords()
	assert.Len(t, lines, 1, "told without any join or split too")
}

// Each board at its worst humidity; the middle is not told, nor what is under a tenth; every place has its words.
func TestNewSplitWords(t *testing.T) {
	state := func(rh moisture.RH, l ...response.NewSplit) assessment.State {
		return assessment.State{State: response.State{RH: rh, Splits: l}}
	}
	at := func(part string, where response.SplitAt, of string, strain float64) response.NewSplit {
		return response.NewSplit{Part: part, At: where, Of: of, Strain: strain, Bears: 0.01, Closed: 0.2}
	}
	r := &assessment.Result{States: []assessment.State{
		state(0.32, at("board.a", response.SplitFixing, "batten.upper", 0.003), at("board.b", response.SplitMiddle, "", 0.005), at("board.c", response.SplitEnd, "batten.low", 0)),
		state(0.5, at("board.a", response.SplitSapwood, "left", 0.001), at("board.b", response.SplitChannel, "batten.low", 0), at("board.c", response.SplitEnd, "batten.low", 0)),
	}}
	a := Assess{NewSplits: newSplitsOf(r), HeldBy: "elements"}
	words := a.newSplitWords()
	require.Len(t, words, 1)
	assert.Equal(t, "A new split in board a would begin beside a fixing of batten upper: at 32 % RH 3 tenths of its limit; by closed forms there, 2 tenths.", words[0])
	a.HeldBy = "closed forms"
	assert.Contains(t, a.newSplitWords()[0], "3 tenths of its limit, by closed forms alone")
	for where, want := range map[response.SplitAt]string{
		response.SplitEnd: "beyond the end of batten upper", response.SplitInsert: "at batten upper", response.SplitChannel: "under the channel of batten upper",
		response.SplitSapwood: "at the batten.upper edge", response.SplitBack: "at its back",
	} {
		a.NewSplits[0].At = string(where)
		assert.Contains(t, a.newSplitWords()[0], want)
	}
	assert.Empty(t, newSplitsOf(&assessment.Result{}))
}
