package survey

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"crossgrain/moisture"
	"crossgrain/panel/assessment"
)

func band(low, high float64) *Store { return &Store{Low: moisture.RH(low), High: moisture.RH(high)} }

// row makes a worked-out row of a free panel of a thickness.
func row(t *testing.T, thickness string) *Row {
	t.Helper()
	r := look(t, stores(t, three), described(t, "free", free+"[board.one]\nthickness_mm = "+thickness+"\n[board.two]\nthickness_mm = "+thickness+"\n"))
	return &r.Rows[0]
}

func TestPlansGoInSmallSteps(t *testing.T) {
	r := row(t, "12")
	there, back := r.plan(band(0.60, 0.70), band(0.43, 0.53), 100), r.plan(band(0.43, 0.53), band(0.60, 0.70), 100)
	require.Empty(t, there.Why)
	require.Len(t, there.Steps, 4, "17 points in steps of at most 5")
	last := there.From
	for _, s := range there.Steps {
		assert.LessOrEqual(t, math.Abs(float64(last-s)), stepPoints+1e-12)
		assert.Less(t, s, last, "drier at each step")
		// each step by itself: what is counted there is no more than that of the whole way
		_, many, ok := assessment.CountOver(r.maps, s, last)
		require.True(t, ok)
		assert.LessOrEqual(t, many, there.Many+1e-9)
		last = s
	}
	assert.InDelta(t, 0.48, float64(last), 1e-12)
	assert.Equal(t, len(there.Steps), len(back.Steps), "the way back has as many")
	assert.InDelta(t, float64(there.From), float64(back.To), 1e-12)
	assert.Empty(t, there.Start, "a band has no season")
	assert.Empty(t, r.plan(band(0.45, 0.55), band(0.45, 0.55), 100).Steps, "the same climate: at once")
	assert.Equal(t, Unknown, r.plan(band(0.02, 0.04), band(0.94, 0.96), 100).Why, "beyond what was counted")
}

// TestWeeksGoWithTheSquareOfTheThickness sets the weeks beside diffusion through a plane sheet, whose times go with the square of its
// thickness (Crank, The Mathematics of Diffusion, 1975, chapter 4): film and coatings leave them between linear and square.
func TestWeeksGoWithTheSquareOfTheThickness(t *testing.T) {
	last := 0
	for _, mm := range []string{"1", "6", "12", "24", "48", "200"} {
		n := row(t, mm).slowWeeks()
		assert.GreaterOrEqual(t, n, max(1, last), mm)
		last = n
	}
	a, b := float64(row(t, "50").slowWeeks()), float64(row(t, "100").slowWeeks())
	assert.Greater(t, b/a, 1.9)
	assert.Less(t, b/a, 4.2)
	assert.Greater(t, row(t, "[10, 40]").slowWeeks(), row(t, "25").slowWeeks(), "what is not known counts as thick here")
}

func TestMonthsInWhichStoresAreNearest(t *testing.T) {
	var a, b [12]moisture.RH
	for m := range a {
		a[m], b[m] = moisture.RH(0.5+0.1*math.Cos(2*math.Pi*float64(m)/12)), 0.5
	}
	assert.Equal(t, []int{4, 10}, nearest(a, b))
	assert.Len(t, nearest(b, b), 12)
}

func TestAWayThatAsksMoreIsNotProposed(t *testing.T) {
	r := look(t, stores(t, three), described(t, "glued", glued))
	assert.Equal(t, Worse, r.Rows[0].plan(band(0.30, 0.32), band(0.66, 0.68), 0).Why)
}
