package terms

import (
	"math"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"crossgrain/moisture/record"
)

var start = time.Date(2024, 1, 1, 0, 0, 0, 0, time.UTC)

// room is an invented room: humidity in per cent at the hours given.
func room(hours, rh []float64) *record.Record {
	r := &record.Record{}
	for i, h := range hours {
		r.Times = append(r.Times, start.Add(time.Duration(h*float64(time.Hour))))
		r.RH = append(r.RH, rh[i]/100)
	}
	return r
}

// hourly is a room with one reading an hour.
func hourly(rh ...float64) *record.Record {
	hours := make([]float64, len(rh))
	for i := range hours {
		hours[i] = float64(i)
	}
	return room(hours, rh)
}

func judge(t *testing.T, text string, r *record.Record, how record.Reading) Verdict {
	t.Helper()
	a, err := Parse(text)
	require.NoError(t, err)
	v := a.Judge(r, how)
	require.Len(t, v.Clauses, len(a.Clauses))
	return v
}

// Counted by hand: each inner reading stands for an hour, the first and last for one too.
func TestRange(t *testing.T) {
	v := judge(t, "45..55", hourly(50, 45, 55, 44, 56, 58, 43, 50, 60, 50), record.WithinWindow)
	c := v.Clauses[0]
	assert.InDeltaSlice(t, []float64{5, 3, 2, 10, 0.5}, []float64{c.Inside, c.Above, c.Below, c.Judged(), c.Share()}, 1e-9)
	assert.Equal(t, record.Spell{From: start.Add(3 * time.Hour), To: start.Add(6 * time.Hour), Hours: 4}, c.Longest, "too dry, then too damp: outside all the while")
	assert.InDelta(t, 0.60, c.Worst, 1e-12)
	assert.Equal(t, start.Add(8*time.Hour), c.WorstAt)
	assert.Equal(t, []int8{0, 0, 0, -1, 1, 1, -1, 0, 1, 0}, c.Side)
	assert.InDelta(t, 0.5, v.Inside, 1e-12)
}

func TestKeptTermsTellHowNearItCame(t *testing.T) {
	c := judge(t, "45..55", hourly(50, 46, 54.5, 50), record.WithinWindow).Clauses[0]
	assert.InDelta(t, 1, c.Share(), 1e-12)
	assert.Zero(t, c.Longest)
	assert.InDelta(t, 0.545, c.Worst, 1e-12)
	c = judge(t, "35..", hourly(50, 46, 54.5, 50), record.WithinWindow).Clauses[0]
	assert.InDelta(t, 0.46, c.Worst, 1e-12)
}

// Ten readings in one bad hour weigh as an hour, not as ten.
func TestSharesWeighByTime(t *testing.T) {
	var hours, rh []float64
	for i := range 20 {
		hours, rh = append(hours, float64(i)), append(rh, 50)
	}
	for i := range 10 {
		hours, rh = append(hours, 20+float64(i)/10), append(rh, 70)
	}
	c := judge(t, "45..55", room(hours, rh), record.WithinWindow).Clauses[0]
	assert.InDelta(t, 20, c.Inside, 1e-9)
	assert.InDelta(t, 1.9, c.Above, 1e-9, "half an hour before and after, and nine steps of a tenth")
}

func TestGapsCountForNothingAndEndATimeOutside(t *testing.T) {
	r := room([]float64{0, 1, 2, 3, 100, 101, 102}, []float64{50, 60, 60, 60, 60, 60, 50})
	c := judge(t, "45..55", r, record.WithinWindow).Clauses[0]
	assert.InDelta(t, 7, c.Judged(), 1e-9, "not the hundred hours between first and last")
	assert.InDelta(t, 5, c.Above, 1e-9)
	assert.Equal(t, record.Spell{From: start.Add(time.Hour), To: start.Add(3 * time.Hour), Hours: 3}, c.Longest)
}

func TestTemperature(t *testing.T) {
	r := hourly(50, 50, 50, 50, 50, 50)
	r.T = []float64{20, 23, math.NaN(), 24, 17, 20}
	v := judge(t, "18..22C, 45..55", r, record.WithinWindow)
	c := v.Clauses[0]
	assert.InDeltaSlice(t, []float64{2, 2, 1}, []float64{c.Inside, c.Above, c.Below}, 1e-9)
	assert.Equal(t, []int8{0, 1, NotJudged, 1, -1, 0}, c.Side)
	assert.InDelta(t, 24, c.Worst, 1e-12)
	assert.InDelta(t, 2, c.Longest.Hours, 1e-9, "the reading without a temperature parts it")
	assert.InDelta(t, 0.5, v.Inside, 1e-9, "what is not known is not held against the room")
	r.T = nil
	c = judge(t, "18..22C", r, record.WithinWindow).Clauses[0]
	assert.True(t, math.IsNaN(c.Share()) && math.IsNaN(c.Worst))
	assert.Equal(t, "the record has no temperature", c.WhyNot)
	c = judge(t, "4C/24h", r, record.WithinWindow).Clauses[0]
	assert.Contains(t, c.WhyNot, "no two readings of temperature")
}

// A saw of 8 points: 8 within any 24 h, 4 as plus and minus, nothing from one day to the next.
func TestChangesByTheirReading(t *testing.T) {
	var rh []float64
	for i := range 96 {
		rh = append(rh, 50+8*float64(i%12)/11)
	}
	r := hourly(rh...)
	for how, want := range map[record.Reading]float64{record.WithinWindow: 0.08, record.PlusMinus: 0.04, record.Apart: 0, record.FromMean: 0.04} {
		v := judge(t, "5/24h", r, how)
		c := v.Clauses[0]
		assert.Equal(t, how, v.Reading)
		assert.InDelta(t, want, c.Worst, 1e-9, how)
		if want <= 0.05 {
			assert.InDelta(t, 1, c.Share(), 1e-12, how)
		} else {
			assert.Zero(t, c.Inside)
			assert.InDelta(t, 72, c.Longest.Hours, 1e-9, "every hour but the first 24")
		}
	}
}

// A limit met exactly is kept, though 0.55 less 0.45 is not exactly 0.1 in the machine.
func TestALimitItselfIsKept(t *testing.T) {
	var rh []float64
	for i := range 48 {
		rh = append(rh, 45+10*float64(i%2))
	}
	v := judge(t, "45..55, 10/24h", hourly(rh...), record.WithinWindow)
	assert.InDelta(t, 1, v.Clauses[0].Share(), 1e-12)
	assert.InDelta(t, 1, v.Clauses[1].Share(), 1e-12)
}

func TestNothingToJudge(t *testing.T) {
	v := judge(t, "45..55, 5/24h", &record.Record{}, record.WithinWindow)
	assert.True(t, math.IsNaN(v.Inside) && math.IsNaN(v.Clauses[0].Share()))
	assert.Contains(t, v.Clauses[0].WhyNot, "no relative humidity")
	v = judge(t, "45..55, 5/24h", hourly(50), record.WithinWindow)
	assert.InDelta(t, 1, v.Clauses[0].Share(), 1e-12)
	assert.NotEmpty(t, v.Clauses[1].WhyNot)
}
