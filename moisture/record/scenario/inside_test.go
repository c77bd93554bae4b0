package scenario

import (
	"errors"
	"math"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"crossgrain/moisture/record"
	"crossgrain/tables"
)

const days = 24 * time.Hour

// swinging is an invented room with jumps of 10 K, a fault and a daily ripple.
func swinging(t testing.TB, step time.Duration) *record.Record {
	t.Helper()
	r, err := Sequence{Clock: Clock{Step: step}, Legs: []Leg{
		{Name: "home", Lasts: 5 * days, Climate: Climate{0.5, 20}},
		{Name: "cold", Lasts: 5 * days, Climate: Climate{0.9, 10}},
		{Name: "hot", Lasts: 5 * days, Climate: Climate{0.2, 30}},
		{Name: "back", Lasts: 10 * days, Climate: Climate{0.55, 20}, RatePerDay: 10},
	}}.Record()
	require.NoError(t, err)
	for i := range r.RH {
		r.RH[i] += 0.05 * math.Sin(2*math.Pi*float64(i)*step.Hours()/24)
	}
	return r
}

func cases() map[string]Case {
	at := Climate{0.5, 20}
	return map[string]Case{
		"empty":         {Volume: 100, Exchange: 1, Start: at},
		"empty leaking": {Volume: 100, Exchange: 1e5, Lag: 3, Start: at},
		"buffer":        {Volume: 100, Exchange: 2, Buffer: Buffer{1, 4}, Lag: 2, Start: at},
		"wood":          {Volume: 100, Exchange: 2, Wood: Wood{Mass: 2, Quick: 1}, Start: at},
		"slow wood":     {Volume: 100, Exchange: 20, Wood: Wood{Mass: 20, Quick: 0.2, Hours: 100}, Lag: 5, Start: at},
		"only slow":     {Volume: 100, Exchange: 20, Wood: Wood{Mass: 20, Hours: 100}, Start: at},
		"sealed":        {Volume: 100, Wood: Wood{Mass: 5, Quick: 0.5, Hours: 20}, Start: at},
		"open":          {Volume: 100, Exchange: math.Inf(1), Wood: Wood{Mass: 5, Quick: 0.5, Hours: 20}, Start: at},
	}
}

// What a case holds more at the end came in through its leaks.
func TestWaterIsKept(t *testing.T) {
	room := swinging(t, time.Hour)
	for name, c := range cases() {
		res, err := c.Run(room)
		require.NoError(t, err, name)
		b := res.Balance
		moved := max(math.Abs(b.CameIn), b.Before)
		assert.InDelta(t, 0, (b.After-b.Before-b.CameIn)/moved, 1e-10, name)
		for i, h := range res.Record.RH {
			require.True(t, h >= 0 && h <= 1, "%s: %v at %d", name, h, i)
		}
	}
	res, err := cases()["sealed"].Run(room)
	require.NoError(t, err)
	assert.Zero(t, res.Balance.CameIn)
}

func TestLimits(t *testing.T) {
	room := swinging(t, time.Hour)
	for i := range room.T {
		room.T[i] = 20
	}
	sealed := Case{Volume: 100, Buffer: Buffer{2, 4}, Wood: Wood{Mass: 3, Quick: 0.3, Hours: 10}, Start: Climate{0.43, 20}}
	in, err := sealed.Inside(room)
	require.NoError(t, err)
	tight, leaky := sealed, Case{Volume: 100, Exchange: 1e5, Start: Climate{0.43, 20}}
	tight.Exchange = math.Inf(1)
	wide, err := tight.Inside(room)
	require.NoError(t, err)
	sieve, err := leaky.Inside(room)
	require.NoError(t, err)
	for i := range room.RH {
		require.InDelta(t, 0.43, in.RH[i], 1e-12, "sealed: the buffer's humidity")
		require.InDelta(t, room.RH[i], wide.RH[i], 1e-12, "open: the room's")
		if i > 0 {
			require.InDelta(t, room.RH[i], sieve.RH[i], 2e-4, "a hundred thousand changes a day: nearly the room's, %d", i)
		}
	}
}

func TestEmptyCaseFollowsAnExponential(t *testing.T) {
	room, err := StepAndHold(Clock{}, Climate{0.5, 20}, Climate{0.5, 20}, days, 9*days)
	require.NoError(t, err)
	for _, n := range []float64{0.1, 1, 5} {
		in, err := Case{Volume: 50, Exchange: n, Start: Climate{0.3, 20}}.Inside(room)
		require.NoError(t, err)
		for i, h := range in.RH {
			require.InDelta(t, 0.5-0.2*math.Exp(-n*float64(i)/24), h, 2e-5, "%g changes a day, %d h", n, i)
		}
	}
}

// Warmed, an empty sealed box gets drier and one full of wood damper; cooled, the other way. Without
// wood 0.5 psat(20)/psat(12) x 285/293 is 81.1 %.
func TestJumpsOfTenKelvin(t *testing.T) {
	for _, x := range []struct {
		wood, to, low, high float64 // points
	}{
		{0, 30, -22, -21}, {0.1, 30, -3, -1}, {1, 30, 1.3, 1.6}, {10, 30, 1.7, 2}, // 1 kg in 100 L: within a fifth of wood alone
		{0, 12, 31, 31.2}, {1, 10, -1.3, -0.7}, {10, 10, -1.3, -1},
	} {
		room, err := StepAndHold(Clock{}, Climate{0.5, 20}, Climate{0.5, moistureT(x.to)}, 2*time.Hour, 2*days)
		require.NoError(t, err)
		in, err := Case{Volume: 100, Wood: Wood{Mass: x.wood, Quick: 1}, Start: Climate{0.5, 20}}.Inside(room)
		require.NoError(t, err)
		change := 100 * (in.RH[len(in.RH)-1] - 0.5)
		assert.True(t, change > x.low && change < x.high, "%g kg to %g °C: %g points", x.wood, x.to, change)
		assert.InDelta(t, 0.5, in.RH[0], 1e-12)
	}
	least, err := NeutralWood(Climate{0.5, 20})
	require.NoError(t, err)
	for _, side := range []float64{-1, 1} {
		w, err := Case{Volume: 100, Wood: Wood{Mass: least * (1 + 0.01*side), Quick: 1}, Start: Climate{0.5, 20}}.Warming()
		require.NoError(t, err)
		assert.Positive(t, w*side)
	}
}

// An interval of readings of 1 min, 10 min, 1 h, 6 h and 1 day gives the same case, where the room
// itself is caught by all (slow ramps of humidity and temperature).
func TestIntervalsAgree(t *testing.T) {
	for name, c := range cases() {
		c.Exchange = min(c.Exchange, 1e3)
		var want float64
		for i, step := range []time.Duration{time.Minute, 10 * time.Minute, time.Hour, 6 * time.Hour, days} {
			room, err := Clock{Step: step}.made("ramps", 6*days, func(h float64) Climate {
				return Climate{0.5, 20}.between(Climate{0.7, 14}, h/144)
			})
			require.NoError(t, err)
			in, err := c.Inside(room)
			require.NoError(t, err)
			got := in.RH[len(in.RH)-1]
			if i == 0 {
				want = got
			}
			assert.InDelta(t, want, got, 1e-4, "%s at %s", name, step)
		}
		for _, step := range []time.Duration{time.Hour, days} {
			in, err := c.Inside(swinging(t, step))
			require.NoError(t, err)
			for _, h := range in.RH {
				require.True(t, h >= 0 && h <= 1)
			}
		}
	}
}

func TestCondensationIsReported(t *testing.T) {
	room, err := StepAndReturn(Clock{}, Climate{0.7, 25}, Climate{0.5, 2}, days, 2*days, 5*days)
	require.NoError(t, err)
	res, err := Case{Volume: 1000, Exchange: 0.5, Lag: 2, Start: Climate{0.7, 25}}.Run(room)
	require.NoError(t, err)
	require.Len(t, res.Condensation, 1)
	e := res.Condensation[0]
	assert.True(t, e.From.After(room.Times[24]) && e.From.Before(room.Times[30]), "%s", e.From)
	assert.True(t, e.Ends && e.To.After(room.Times[70]))
	// 0.7 x 23.1 g/m3 at 25 °C less 5.6 g/m3 at 2 °C is 10.6 g, less what leaves meanwhile: at most
	// 13.4 g x 0.5/24 = 0.28 g in an hour at first, 0.06 g later.
	assert.InDelta(t, 10, e.Most, 1)
	assert.Contains(t, res.Record.Notes.Error(), "water condenses in the case from")
	wood, err := Case{Volume: 1000, Exchange: 0.5, Lag: 2, Wood: Wood{Mass: 20, Quick: 1}, Start: Climate{0.7, 25}}.Run(room)
	require.NoError(t, err)
	assert.Empty(t, wood.Condensation, "wood takes up what the air cannot hold")
	open, err := Case{Volume: 1000, Exchange: math.Inf(1), Lag: 8, Start: Climate{0.5, 2}}.Run(swinging(t, time.Hour))
	require.NoError(t, err)
	assert.NotEmpty(t, open.Condensation, "a cold crate opened in a warm room")
}

func TestUnusableRoomsAndCases(t *testing.T) {
	good := Case{Volume: 100, Start: Climate{0.5, 20}}
	room := swinging(t, time.Hour)
	var out *tables.RangeError
	for what, change := range map[string]func(*Case){
		"volume":                func(c *Case) { c.Volume = 0 },
		"air exchange":          func(c *Case) { c.Exchange = -1 },
		"mass of the buffer":    func(c *Case) { c.Buffer.Mass = math.NaN() },
		"capacity":              func(c *Case) { c.Buffer.Capacity = 51 },
		"mass of wood":          func(c *Case) { c.Wood.Mass = -1 },
		"quick share":           func(c *Case) { c.Wood.Quick = 1.1 },
		"slow wood":             func(c *Case) { c.Wood.Mass = 1 },
		"of the temperature":    func(c *Case) { c.Lag = -2 },
		"relative humidity in":  func(c *Case) { c.Start.RH = 50 },
		"temperature in the ca": func(c *Case) { c.Start.T = 70 },
	} {
		c := good
		change(&c)
		_, err := c.Inside(room)
		assert.True(t, errors.As(err, &out), what)
		assert.ErrorContains(t, err, what)
	}
	for want, r := range map[string]*record.Record{
		"at least two readings": nil,
		"a temperature":         {Times: room.Times, RH: room.RH},
		"must rise":             {Times: []time.Time{room.Times[1], room.Times[0]}, RH: []float64{0.5, 0.5}, T: []float64{20, 20}},
		"temperature of the":    {Times: room.Times[:2], RH: []float64{0.5, 0.5}, T: []float64{20, math.NaN()}},
		"humidity of the room":  {Times: room.Times[:2], RH: []float64{0.5, 1.5}, T: []float64{20, 20}},
	} {
		_, err := good.Inside(r)
		assert.ErrorContains(t, err, want)
	}
	_, err := NeutralWood(Climate{2, 20})
	assert.ErrorContains(t, err, "between 0 and 100 %")
}

// BenchmarkInside works out an hourly year in a crate whose wood follows late. Measured on an
// AMD EPYC core, November 2026: 76 ms.
func BenchmarkInside(b *testing.B) {
	room, err := Yearly(UnheatedSpace, Clock{}, 1)
	require.NoError(b, err)
	c := cases()["slow wood"]
	b.ReportAllocs()
	for b.Loop() {
		if _, err := c.Run(room); err != nil {
			b.Fatal(err)
		}
	}
}
