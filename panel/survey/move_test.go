package survey

import (
	"fmt"
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

// weeks are those of a free panel of a thickness.
func weeks(t *testing.T, thickness string) int {
	t.Helper()
	n, ok := row(t, thickness).slowWeeks()
	require.True(t, ok)
	return n
}

func TestWeeksGrowWithThickness(t *testing.T) {
	last := 0
	for _, mm := range []string{"1", "6", "12", "24", "48", "200"} {
		n := weeks(t, mm)
		assert.GreaterOrEqual(t, n, max(1, last), mm)
		last = n
	}
	assert.Greater(t, weeks(t, "[10, 40]"), weeks(t, "25"), "what is not known counts as thick here")
}

// TestWeeksAgainstThePlaneSheet sets the weeks beside diffusion through a plane sheet. Of its change 1 - 8/pi^2 exp(-pi^2 Fo/4) has been
// made at Fo = D t/h^2, one face sealed, when Fo is large (J. Crank, The Mathematics of Diffusion, 1975, chapter 4): 95 % at
// 4/pi^2 ln(8/(0.05 pi^2)); with both faces open it is a quarter of that. A panel painted on one side lies between, but for its films.
func TestWeeksAgainstThePlaneSheet(t *testing.T) {
	fo := 4 / (math.Pi * math.Pi) * math.Log(8/(0.05*math.Pi*math.Pi))
	for _, mm := range []float64{60, 120, 200} {
		r := look(t, stores(t, three), described(t, "free", fmt.Sprintf("%s[board.one]\nthickness_mm = %g\n[board.two]\nthickness_mm = %g\n[face.back]\ncoating = \"none\"\n", free, mm, mm)))
		o, err := r.Rows[0].Panel.Realise(nil)
		require.NoError(t, err)
		sealed := fo * mm * mm * 1e-6 / o.Boards[0].Wood.Diffusion / (7 * 24 * 3600)
		n, ok := r.Rows[0].slowWeeks()
		require.True(t, ok)
		assert.Greater(t, float64(n), sealed/4, "%g mm", mm)
		assert.Less(t, float64(n), 1.25*sealed+1, "%g mm: films of a bare back delay a thick board little", mm)
	}
}

func TestMonthsInWhichStoresAreNearest(t *testing.T) {
	var a, b [12]moisture.RH
	var apart, same [12]float64
	for m := range a {
		a[m], b[m] = moisture.RH(0.5+0.1*math.Cos(2*math.Pi*float64(m)/12)), 0.5
		apart[m] = math.Abs(float64(a[m] - b[m]))
	}
	assert.Equal(t, []int{4, 10}, nearest(apart))
	assert.Len(t, nearest(same), 12)
	p := Plan{Weeks: 4}
	assert.Zero(t, p.season(a, b))
	assert.Equal(t, 4, p.Arrives, "what is moved at once arrives in the month in which it begins")
}

// TestTheNewStoreCountsAsItIsOnArrival: the way is longer than a season, so that the store stands elsewhere when the panel comes there.
func TestTheNewStoreCountsAsItIsOnArrival(t *testing.T) {
	var a, b [12]moisture.RH
	for m := range a {
		a[m], b[m] = 0.7, 0.5
	}
	b[0] = 0.6 // in January alone it is damper
	p := Plan{Weeks: 13}
	assert.Equal(t, 4, p.season(a, b), "four steps of 13 weeks end in the month in which they began")
	assert.Equal(t, []int{1}, p.Start, "and only January to January goes over 10 points")
	p = Plan{Weeks: 6}
	n := p.season(a, b)
	assert.Equal(t, 4, n)
	assert.Equal(t, 7, p.Start[0])
	assert.Equal(t, 1, p.Arrives, "24 weeks after the middle of July it is January")
	assert.Equal(t, moisture.RH(0.6), p.To)
	assert.Equal(t, 0, arrival(11, 5))
	assert.Equal(t, 5, arrival(5, 52))
}

func TestAWayThatAsksMoreIsNotProposed(t *testing.T) {
	r := look(t, stores(t, three), described(t, "glued", glued))
	assert.Equal(t, Worse, r.Rows[0].plan(band(0.30, 0.32), band(0.66, 0.68), 0).Why)
}

func TestAWayOfMoreThanHalfAYearGoesByTheYears(t *testing.T) {
	var a, b [12]moisture.RH
	for m := range a {
		a[m], b[m] = 0.60, moisture.RH(0.45+0.15*math.Cos(2*math.Pi*float64(m)/12))
	}
	quick := Plan{Weeks: 2}
	assert.Zero(t, quick.way(a, b), "in the month in which they are alike")
	assert.NotEmpty(t, quick.Start)
	for m := range b {
		b[m] -= 0.2
	}
	thick := Plan{Weeks: 20}
	assert.Equal(t, 7, thick.way(a, b))
	assert.Empty(t, thick.Start)
	assert.InDelta(t, 0.25, float64(thick.To), 1e-12)
}
