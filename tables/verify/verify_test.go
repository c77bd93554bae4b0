package verify_test

import (
	"errors"
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"crossgrain/tables"
	"crossgrain/tables/verify"
)

func got(v float64) func() (float64, error) { return func() (float64, error) { return v, nil } }

func band(lo, hi float64) func() (float64, float64, error) {
	return func() (float64, float64, error) { return lo, hi, nil }
}

func TestRun(t *testing.T) {
	failing := errors.New("no solution")
	for _, c := range []struct {
		name string
		row  verify.Row
		pass bool
		err  bool
	}{
		{"inside", verify.Row{Source: "s", Want: 10, Tol: 0.5, Got: got(10.5)}, true, false},
		{"outside", verify.Row{Source: "s", Want: 10, Tol: 0.5, Got: got(10.51)}, false, false},
		{"relative inside", verify.Row{Source: "s", Want: -10, Tol: 0.1, Relative: true, Got: got(-10.9)}, true, false},
		{"relative outside", verify.Row{Source: "s", Want: -10, Tol: 0.1, Relative: true, Got: got(-11.1)}, false, false},
		{"absolute is not relative", verify.Row{Source: "s", Want: 10, Tol: 0.1, Got: got(10.9)}, false, false},
		{"not a number", verify.Row{Source: "s", Want: 10, Tol: 100, Got: got(math.NaN())}, false, false},
		{"nothing computed", verify.Row{Source: "s", Want: 10, Tol: 100}, false, false},
		{"no source", verify.Row{Want: 10, Tol: 1, Got: got(10)}, false, true},
		{"failing", verify.Row{Source: "s", Got: func() (float64, error) { return 0, failing }}, false, true},
		{"in the band", verify.Row{Source: "s", Want: 2, Band: band(1, 3)}, true, false},
		{"at its end", verify.Row{Source: "s", Want: 3, Band: band(1, 3)}, true, false},
		{"off the band", verify.Row{Source: "s", Want: 3.1, Band: band(1, 3)}, false, false},
		{"band narrow enough", verify.Row{Source: "s", Want: 2, Band: band(1, 3), MaxRatio: 3}, true, false},
		{"band too wide", verify.Row{Source: "s", Want: 2, Band: band(1, 3), MaxRatio: 2.9}, false, false},
		{"band upside down", verify.Row{Source: "s", Want: 2, Band: band(3, 1)}, false, false},
		{"band failing", verify.Row{Source: "s", Band: func() (float64, float64, error) { return 0, 0, failing }}, false, true},
	} {
		r := verify.Run([]verify.Row{c.row})[0]
		assert.Equal(t, c.pass, r.Pass, c.name)
		assert.Equal(t, c.err, r.Err != nil, c.name)
		assert.False(t, r.Pass && r.Err != nil, c.name)
	}
}

func TestRunKeepsTheOrder(t *testing.T) {
	out := verify.Run([]verify.Row{{ID: "b", Source: "s", Got: got(0)}, {ID: "a", Source: "s", Got: got(1)}})
	assert.Equal(t, "b", out[0].Row.ID)
	assert.Equal(t, 1.0, out[1].Got)
	assert.Equal(t, 1.0, verify.Row{Want: -10, Tol: 0.1, Relative: true}.Tolerance())
}

func TestFromTable(t *testing.T) {
	tab := tables.MustRead("checks_mechanics")
	rows, err := verify.FromTable(tab, map[string]func() (float64, error){"MOV-ANG-00": got(0.02), "ELA-OFF-45": got(200.2)})
	require.NoError(t, err)
	require.Len(t, rows, 2)
	assert.Equal(t, "MOV-ANG-00", rows[0].ID)
	assert.False(t, rows[0].Relative)
	assert.True(t, rows[1].Relative)
	assert.Equal(t, 200.223, rows[1].Want)
	assert.Contains(t, rows[0].What, "eps_R=0.02")
	for _, r := range verify.Run(rows) {
		assert.Equal(t, r.Row.ID == "MOV-ANG-00", r.Pass, r.Row.ID)
	}
	_, err = verify.FromTable(tab, map[string]func() (float64, error){"NO-SUCH": got(0)})
	assert.ErrorContains(t, err, "1 functions given, 0 ids found")
}
