package tables_test

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"crossgrain/tables"
)

func TestReadUnknownTable(t *testing.T) {
	_, err := tables.Read("no_such")
	assert.EqualError(t, err, `tables: no table "no_such"`)
	_, err = tables.Read("../table")
	assert.Error(t, err)
	assert.Panics(t, func() { tables.MustRead("no_such") })
}

func TestRow(t *testing.T) {
	tab := tables.MustRead("handbook_2010_t4_2_emc")
	assert.Same(t, tab, tables.MustRead("handbook_2010_t4_2_emc"), "read once")
	assert.True(t, tab.Has("rh_pct"))
	assert.False(t, tab.Has("rh"))
	r := tab.Rows[0]
	assert.Equal(t, "-1.1", r.Text("temp_c"))
	v, ok := r.Float("temp_c")
	assert.True(t, ok)
	assert.Equal(t, -1.1, v)
	assert.Equal(t, len(tab.Head)+2, r.Line)
	assert.Panics(t, func() { r.Text("rh") }, "an unknown column is a programmer's error")

	for _, r := range tables.MustRead("limits").Rows {
		if r.Text("limit") == "joint_strength_aged_glue" {
			_, ok := r.Float("value")
			assert.False(t, ok, "an empty cell is no number")
		}
	}
	_, ok = tables.MustRead("woods").Rows[0].Float("name")
	assert.False(t, ok)
}

func TestGrades(t *testing.T) {
	for letter, want := range map[string]tables.Grade{"A": tables.Several, "B": tables.One, "C": tables.General, "D": tables.Estimate} {
		g, err := tables.ParseGrade(letter)
		require.NoError(t, err)
		assert.Equal(t, want, g)
		assert.NotEmpty(t, g.String())
	}
	for _, bad := range []string{"", "E", "a", "AB"} {
		_, err := tables.ParseGrade(bad)
		assert.Error(t, err, bad)
	}
	assert.Equal(t, tables.Estimate, tables.Worse(tables.One, tables.Estimate))
	assert.Equal(t, tables.One, tables.Worse(tables.One, tables.MeasuredHere))
	assert.Equal(t, "Grade(9)", tables.Grade(9).String())
}

func TestInRange(t *testing.T) {
	assert.NoError(t, tables.InRange("humidity", 0, 0, 100, "%", ""))
	assert.NoError(t, tables.InRange("humidity", 100, 0, 100, "%", ""))
	for _, v := range []float64{-1, 100.1, math.NaN(), math.Inf(1), math.Inf(-1)} {
		err := tables.InRange("humidity", v, 0, 100, "%", "a source")
		var out *tables.RangeError
		require.ErrorAs(t, err, &out)
		assert.Contains(t, err.Error(), "humidity must lie between 0 and 100 %, got")
		assert.Contains(t, err.Error(), "(a source)")
	}
}
