package record

import (
	"slices"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

func kinds(flags []Flag, k Suspicion) []Flag {
	return slices.DeleteFunc(slices.Clone(flags), func(f Flag) bool { return f.Kind != k })
}

// wave is an invented room with a small swing, so that no two readings are equal.
func wave(n int) *Record {
	r := every(time.Hour, n, func(d time.Duration) float64 { return 0.5 + 0.001*float64(int(d.Hours())%17) })
	for i := range r.Times {
		r.T, r.Lines = append(r.T, 20+0.01*float64(i%13)), append(r.Lines, i+2)
	}
	return r
}

func TestSpikesAndStuckSensors(t *testing.T) {
	r := wave(500)
	assert.Empty(t, r.Flags())
	r.RH[100] = 0.95
	r.T[200] = 45
	for i := 300; i < 330; i++ {
		r.RH[i], r.T[i] = 0.4321, 21
	}
	for i := 400; i < 430; i++ {
		r.RH[i] = 1
	}
	r.RH[450], r.RH[451], r.RH[452] = 0, 0, 0
	before := slices.Clone(r.RH)
	f := r.Flags()
	assert.Equal(t, before, r.RH, "nothing is changed by looking")
	spikes := kinds(f, Spike)
	require.Len(t, spikes, 2)
	assert.Equal(t, []int{100, 100, 102, 102}, []int{spikes[0].First, spikes[0].Last, spikes[0].Line, spikes[0].LastLine})
	assert.Contains(t, spikes[0].Why, "relative humidity 4")
	assert.Contains(t, spikes[1].Why, "temperature 2")
	stuck := kinds(f, Stuck)
	require.Len(t, stuck, 1)
	assert.Equal(t, []int{300, 329}, []int{stuck[0].First, stuck[0].Last})
	assert.Len(t, kinds(f, Saturated), 2)
	assert.True(t, slices.IsSortedFunc(f, func(a, b Flag) int { return a.First - b.First }))

	out := r.Without(append(spikes, stuck...))
	assert.Len(t, out.Times, 500-32)
	assert.Len(t, r.Times, 500, "the record itself is left as it was")
	assert.Len(t, out.Gaps(), 3, "the holes are gaps")
	assert.Len(t, out.Notes, 3)
	assert.NotContains(t, out.RH, 0.95)
	assert.Contains(t, out.RH, 1.0, "what was not asked for stays")
	assert.Len(t, out.T, len(out.Times))
	assert.Equal(t, 103, out.Lines[100])
	assert.Equal(t, r.RH, r.Without(nil).RH)
}

// A step is no spike, nor are two readings: a door was opened, a heating came on.
func TestStepsAreNoSpikes(t *testing.T) {
	r := wave(200)
	for i := 50; i < 120; i++ {
		r.RH[i] += 0.3
	}
	r.RH[150], r.RH[151] = 0.9, 0.91
	assert.Empty(t, kinds(r.Flags(), Spike))
	short := wave(60)
	short.RH[30], short.RH[40] = 0.95, 0.1
	assert.Len(t, kinds(short.Flags(), Spike), 2, "few readings hide no spike")
	assert.Empty(t, (&Record{}).Flags())
	assert.Empty(t, made([]float64{0, 1}, []float64{0.1, 0.9}).Flags())
}

// Equal humidity alone needs three days, and a gap ends a run.
func TestStuckWithoutTemperature(t *testing.T) {
	flat := func(d time.Duration) float64 { return 0.5 }
	assert.Empty(t, every(time.Hour, 72, flat).Flags())
	assert.Len(t, every(time.Hour, 74, flat).Flags(), 1)
	r := every(time.Hour, 120, flat)
	r.Times = slices.Clone(r.Times)
	for i := 60; i < 120; i++ {
		r.Times[i] = r.Times[i].Add(5 * time.Hour)
	}
	assert.Empty(t, r.Flags())
}

// The open records have no frozen stretch; one of them opens with the instrument being carried to
// its place (testdata/records/README.md).
func TestFlagsOfOpenRecords(t *testing.T) {
	for _, o := range openRecords {
		f := openRecord(t, o.name).Flags()
		assert.Empty(t, kinds(f, Stuck), o.name)
		assert.Empty(t, kinds(f, Spike), o.name)
		if carried := kinds(f, Carried); o.name == openRecords[3].name {
			require.Len(t, carried, 1)
			assert.Zero(t, carried[0].First)
			assert.LessOrEqual(t, carried[0].Last, 18, "3 h")
		} else {
			assert.Empty(t, carried, o.name)
		}
	}
}
