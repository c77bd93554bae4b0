package report

import (
	"testing"

	"github.com/stretchr/testify/assert"
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
