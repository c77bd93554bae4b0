package problem_test

import (
	"errors"
	"fmt"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"crossgrain/tables/problem"
)

func TestErrorForm(t *testing.T) {
	for _, c := range []struct {
		p    problem.Problem
		want string
	}{
		{problem.Problem{File: "a.toml", Line: 14, Part: "board.left.thickness_mm", Msg: "must lie between 1 and 200 mm, got -3"},
			"a.toml:14: board.left.thickness_mm: must lie between 1 and 200 mm, got -3"},
		{problem.Problem{File: "a.toml", Line: 2, Col: 7, Msg: "expected a value", Hint: "write 14"}, "a.toml:2:7: expected a value\n\thint: write 14"},
		{problem.Problem{File: "a.toml", Msg: "is empty"}, "a.toml: is empty"},
		{problem.Problem{File: "a.toml", Col: 3, Msg: "a column without a line is not printed"}, "a.toml: a column without a line is not printed"},
		{problem.Problem{Msg: "no place"}, "no place"},
	} {
		assert.Equal(t, c.want, c.p.Error())
	}
}

func TestListOrder(t *testing.T) {
	var l problem.List
	assert.NoError(t, l.Err())
	for _, p := range []problem.Problem{
		{File: "b", Line: 1, Msg: "6"}, {File: "a", Line: 9, Part: "y", Msg: "5"}, {File: "a", Line: 9, Part: "x", Msg: "4"},
		{File: "a", Line: 2, Col: 5, Msg: "3"}, {File: "a", Line: 2, Col: 1, Msg: "2"}, {File: "a", Msg: "1"},
		{File: "a", Line: 2, Col: 5, Msg: "3"},
	} {
		l.Add(p)
	}
	l.Sort()
	require.Len(t, l, 6, "an exact repeat is dropped")
	for i, p := range l {
		assert.Equal(t, fmt.Sprint(i+1), p.Msg)
	}
	assert.Equal(t, "a: 1\na:2:1: 2\na:2:5: 3\na:9: x: 4\na:9: y: 5\nb:1: 6", l.Error())
}

func TestListUnwraps(t *testing.T) {
	l := problem.List{{File: "a", Line: 1, Msg: "first"}, {File: "a", Line: 2, Msg: "second"}}
	err := fmt.Errorf("reading: %w", l.Err())
	var list problem.List
	require.ErrorAs(t, err, &list)
	assert.Len(t, list, 2)
	var one problem.Problem
	require.True(t, errors.As(err, &one))
	assert.Equal(t, "first", one.Msg)
	assert.ErrorIs(t, err, l[1])
}

func TestNearest(t *testing.T) {
	names := []string{"oak", "poplar", "lime", "spruce"}
	for name, want := range map[string]string{
		"oka": "oak", "OAK": "oak", "popler": "poplar", "lmie": "lime", "sprcue": "spruce", "spruces": "spruce",
		"metamorphosis": "", "zzzzzzz": "",
	} {
		assert.Equal(t, want, problem.Nearest(name, names), name)
	}
	assert.Empty(t, problem.Nearest("oak", nil))
	assert.Equal(t, "hêtre", problem.Nearest("hetre", []string{"chêne", "hêtre"}), "letters, not bytes")
	assert.Equal(t, "ash", problem.Nearest("ask", []string{"ash", "asp"}), "the first of equals")
}
