package response

import (
	"context"
	"encoding/binary"
	"fmt"
	"hash/fnv"
	"math"
	"runtime"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"crossgrain/panel"
)

// made is a course made from formulas of the hours since its start.
type made struct {
	hours int
	rh, t func(h float64) float64
	gaps  [][2]int // hours left out: from, to
}

func (m made) RunningMean(time.Duration) (low, mid, high float64, err error) { return 0, 0, 0, nil }

func (m made) Even(step time.Duration) ([]Stretch, error) {
	start := time.Date(2023, 1, 1, 0, 0, 0, 0, time.UTC)
	out := []Stretch{{Start: start}}
	for h := 0; h < m.hours; h += int(step.Hours()) {
		for _, g := range m.gaps {
			if h >= g[0] && h < g[1] {
				h = g[1]
				out = append(out, Stretch{Start: start.Add(time.Duration(h) * time.Hour)})
			}
		}
		s := &out[len(out)-1]
		mid := float64(h) + step.Hours()/2
		s.RH = append(s.RH, m.rh(mid))
		if m.t != nil {
			s.T = append(s.T, m.t(mid))
		}
	}
	return out, nil
}

func still(rh float64) func(float64) float64 { return func(float64) float64 { return rh } }

// swing is a sinusoid of a period in hours.
func swing(mid, half, period float64) func(float64) float64 {
	return func(h float64) float64 { return mid + half*math.Sin(2*math.Pi*h/period) }
}

type gather struct{ states []State }

func (g *gather) Take(s *State) error { g.states = append(g.states, *s); return nil }

func follow(t *testing.T, o *panel.Object, set Setting, m Course) (*Year, []State) {
	t.Helper()
	c, err := Prepare(o, set)
	require.NoError(t, err)
	var g gather
	y, err := c.Follow(context.Background(), m, &g)
	require.NoError(t, err)
	return y, g.states
}

const hoursADay = 24

func TestSteadyCourseGivesTheSettledState(t *testing.T) {
	for _, set := range []Setting{Coarse, Fine} {
		o := object(oakBoard(t, "a", 300, 12, 30), oakBoard(t, "b", 300, 12, 80))
		y, states := follow(t, o, set, made{hours: 150 * hoursADay, rh: still(0.38)})
		got, want := states[len(states)-1], settle(t, o, 0.38)[0]
		assert.InDelta(t, float64(want.RH), float64(got.RH), 2e-4, "humidity in balance with the wood: Newton goes to 1e-4")
		assert.InEpsilon(t, want.Width, got.Width, 0.003, "width")
		assert.InEpsilon(t, want.Cup, got.Cup, 0.02, "warp: even moisture leaves that of the rings")
		assert.InEpsilon(t, want.Cup, y.Days[len(y.Days)-1].Warp[1], 0.02, "the quick warp of the daily series")
		assert.False(t, y.Lived)
		assert.Len(t, y.Days, 150)
	}
}

func TestDryShrinksAndRoundsABareBackedBoard(t *testing.T) {
	// Quarter-sawn, so that rings bend nothing; the painted face shut. The bare back follows the air
	// first: drier, it shrinks, and the painted face stands rounded until the rest has followed.
	o := object(oakBoard(t, "a", 300, 12, 90))
	o.Front = panel.Face{Painted: true, SdM: 1e4}
	dry, _ := follow(t, o, Coarse, made{hours: 90 * hoursADay, rh: still(0.35)})
	damp, _ := follow(t, o, Coarse, made{hours: 90 * hoursADay, rh: still(0.65)})
	last := len(dry.Days) - 1
	assert.Negative(t, dry.Days[last].Width[0], "dry is narrower")
	assert.Positive(t, damp.Days[last].Width[1], "damp is wider")
	assert.Greater(t, dry.Days[1].Warp[1], 1.0, "mm rounded while it dries")
	assert.Less(t, damp.Days[1].Warp[0], -1.0, "mm hollow while it gets damp")
	assert.InDelta(t, 0, dry.Days[last].Warp[1], 0.1*dry.Days[1].Warp[1], "it comes back when all has followed")
	d := dry.Days[1]
	assert.Less(t, d.Skin, d.Mean, "the bare back leads")
	assert.Less(t, d.Mean, d.Painted, "the painted side trails")
	assert.Greater(t, dry.Days[1].Width[0], dry.Days[20].Width[0], "it goes on shrinking for weeks")
}

func TestBoardsAlikeShareTheirMoisture(t *testing.T) {
	a, b, thin := oakBoard(t, "a", 200, 12, 90), oakBoard(t, "b", 250, 12, 20), oakBoard(t, "c", 200, 8, 90)
	b.Branch, b.SorptionShift = 0.5, 0.1 // carried on afterwards
	c, err := Prepare(object(a, b, thin, a), Coarse)
	require.NoError(t, err)
	woods, which, err := c.timbers(Coarse.pace(), true)
	require.NoError(t, err)
	assert.Len(t, woods, 2)
	assert.Equal(t, []int{0, 0, 1, 0}, which)
}

// amplitude is half of the way between the least and the greatest of the last period.
func amplitude(days []Day, n int, f func(d Day) float64) float64 {
	lo, hi := math.Inf(1), math.Inf(-1)
	for _, d := range days[len(days)-n:] {
		lo, hi = math.Min(lo, f(d)), math.Max(hi, f(d))
	}
	return (hi - lo) / 2
}

func TestSwingsReachTheWoodAsTheSheetBetweenTwoFacesSays(t *testing.T) {
	// Two routes that share no code: finite volumes followed hour by hour, and the wave in a sheet in
	// closed form (moisture.Slab.Swing). Small swings about 65 % RH and 20 °C, where the diffusion of
	// the wood holds; what is left is that permeability and storage are not constant over the swing.
	b := oakBoard(t, "a", 200, 14, 90)
	o := object(b)
	o.UsedTo = 0.65
	o.Front = panel.Face{Painted: true, SdM: 1}
	c, err := Prepare(o, Fine)
	require.NoError(t, err)
	for _, days := range []float64{7, 30, 365} {
		period := days * hoursADay
		runs := int(math.Max(3*days, 120))
		y, _ := follow(t, o, Fine, made{hours: runs * hoursADay, rh: swing(0.65, 0.02, period)})
		got := amplitude(y.Days, int(days), func(d Day) float64 { return float64(d.Mean) })
		share, _, err := c.slab(&c.boards[0]).Swing(period * 3600)
		require.NoError(t, err)
		whole := 0.02 * b.Sorption.Mean.Slope(0.65, 20)
		assert.InEpsilon(t, share, got/whole, 0.03, "a swing of %g days", days)
	}
}

func TestWidthIsShrinkageTimesMoisture(t *testing.T) {
	// Quarter-sawn: the width is radial. Swelling from the wood's data, moisture from the series.
	b := oakBoard(t, "a", 200, 10, 90)
	y, _ := follow(t, object(b), Coarse, made{hours: 400 * hoursADay, rh: swing(0.5, 0.15, 365*hoursADay)})
	used := b.Sorption.Mean.MC(0.5, 20)
	lo, hi := math.Inf(1), math.Inf(-1)
	for _, d := range y.Days {
		lo, hi = math.Min(lo, d.Width[0]), math.Max(hi, d.Width[1])
	}
	by := b.Wood.SwellR * b.Width
	assert.InEpsilon(t, by*float64(y.Boards[0].MeanMC[0]-used), lo, 1e-9)
	assert.InEpsilon(t, by*float64(y.Boards[0].MeanMC[1]-used), hi, 1e-9)
	assert.Less(t, lo, -0.5, "dry is narrower")
	assert.Greater(t, hi, 0.5)
}

func TestDailyWarpGoesBothWays(t *testing.T) {
	o := object(oakBoard(t, "a", 300, 10, 90))
	o.Front = panel.Face{Painted: true, SdM: 1e4}
	y, _ := follow(t, o, Fine, made{hours: 60 * hoursADay, rh: swing(0.5, 0.02, hoursADay)})
	d := y.Days[len(y.Days)-1]
	assert.Less(t, d.Warp[0], -0.2, "mm")
	assert.InEpsilon(t, -d.Warp[0], d.Warp[1], 0.25, "a small swing bends about as far one way as the other")
}

func TestMemoryQuietensDailySwings(t *testing.T) {
	// Small loops move wood about half as much as the mean curve (measured on several woods: slopes
	// of scanning loops 0.4 to 0.7 of the main ones).
	o := object(oakBoard(t, "a", 200, 4, 90))
	y, _ := follow(t, o, Coarse, made{hours: 60 * hoursADay, rh: swing(0.5, 0.05, hoursADay)})
	d := y.Days[len(y.Days)-1]
	ratio := (d.WidthMemory[1] - d.WidthMemory[0]) / (d.Width[1] - d.Width[0])
	assert.Greater(t, ratio, 0.3)
	assert.Less(t, ratio, 0.9)
}

func TestRippleDoesNotPumpTheSeason(t *testing.T) {
	// Rule: a daily ripple of 3 points may not change the seasonal swing by more than a tenth.
	o := object(oakBoard(t, "a", 200, 10, 90))
	season := swing(0.5, 0.12, 365*hoursADay)
	rippled := func(h float64) float64 { return season(h) + swing(0, 0.015, hoursADay)(h) }
	at := func(rh func(float64) float64) float64 {
		y, _ := follow(t, o, Coarse, made{hours: 400 * hoursADay, rh: rh})
		return amplitude(y.Days, 365, func(d Day) float64 { return (d.WidthMemory[0] + d.WidthMemory[1]) / 2 })
	}
	assert.InEpsilon(t, at(season), at(rippled), 0.10)
}

func TestSettingsAgree(t *testing.T) {
	o := object(oakBoard(t, "a", 300, 12, 30), oakBoard(t, "b", 300, 12, 80))
	o.Front = panel.Face{Painted: true, SdM: 1}
	room := func(h float64) float64 {
		return swing(0.5, 0.12, 365*hoursADay)(h) + swing(0, 0.05, 9.3*hoursADay)(h) + swing(0, 0.03, hoursADay)(h)
	}
	m := made{hours: 300 * hoursADay, rh: room}
	coarse, _ := follow(t, o, Coarse, m)
	fine, _ := follow(t, o, Fine, m)
	require.Len(t, coarse.Days, len(fine.Days))
	var mean float64
	warp := 0.0
	for i, d := range fine.Days {
		mean += float64(coarse.Days[i].Mean-d.Mean) / float64(len(fine.Days))
		warp = math.Max(warp, math.Abs(d.Warp[1]-coarse.Days[i].Warp[1]))
	}
	assert.InDelta(t, 0, mean, 0.0005, "less than 0.05 %% of moisture content, yearly mean")
	assert.Less(t, warp, 0.15*amplitude(fine.Days, 300, func(d Day) float64 { return d.Warp[1] }), "three-hour means take the edge off a day")
}

func TestGapsWaitOrRest(t *testing.T) {
	o := object(oakBoard(t, "a", 200, 20, 90))
	half := func(h float64) float64 { // dry until the gap, damp after it
		if h < 30*hoursADay {
			return 0.40
		}
		return 0.60
	}
	whole, _ := follow(t, o, Coarse, made{hours: 60 * hoursADay, rh: half})
	short, _ := follow(t, o, Coarse, made{hours: 60 * hoursADay, rh: half, gaps: [][2]int{{30 * hoursADay, 34 * hoursADay}}})
	long, _ := follow(t, o, Coarse, made{hours: 90 * hoursADay, rh: half, gaps: [][2]int{{30 * hoursADay, 60 * hoursADay}}})
	assert.Zero(t, whole.Breaks)
	assert.Equal(t, 1, short.Breaks)
	assert.Equal(t, 1, long.Breaks)
	assert.Len(t, short.Days, 56)
	fresh := 0
	for _, d := range short.Days {
		if d.New {
			fresh++
			assert.Equal(t, time.Date(2023, 2, 4, 0, 0, 0, 0, time.UTC), d.Time)
		}
	}
	assert.Equal(t, 1, fresh, "the day after a gap is marked")
	// Over a short gap the wood waits: what follows is as if the gap had not been.
	assert.InDelta(t, float64(whole.Days[33].Mean), float64(short.Days[33].Mean), 1e-9)
	// Over a long one it comes to rest in the month that follows.
	rest := oakBoard(t, "a", 200, 20, 90).Sorption.Mean.MC(0.60, 20)
	assert.InDelta(t, float64(rest), float64(long.Days[30].Mean), 1e-4)
	assert.Less(t, float64(short.Days[30].Mean), float64(rest)-0.005)
}

func TestRecordOfTheHomeIsLivedThroughFirst(t *testing.T) {
	o := object(oakBoard(t, "a", 600, 12, 20))
	o.Battens = []panel.Batten{rigid(400)}
	at := func(mid float64, days int) *Year {
		y, _ := follow(t, o, Coarse, made{hours: days * hoursADay, rh: swing(mid, 0.18, 365*hoursADay)})
		return y
	}
	home, away, short := at(0.52, 400), at(0.65, 400), at(0.52, 200)
	assert.True(t, home.Lived)
	assert.GreaterOrEqual(t, home.Repeats, 2)
	assert.LessOrEqual(t, home.Repeats, runInYears)
	assert.False(t, away.Lived, "15 points from what it is used to")
	assert.False(t, short.Lived, "less than a year")
	var first float64
	for _, v := range home.Crushed {
		assert.LessOrEqual(t, v, 1e-12, "crushing only shortens")
		first += v
	}
	assert.Less(t, first, -noCrush, "held against swelling the wood is crushed")
	d := home.Days
	assert.Greater(t, math.Abs(first), 3*math.Abs(d[len(d)-1].Set-d[0].Set), "most of it in the first year")
	spring := 0.0 // the sine is damp in the first half of its year
	for _, v := range home.Crushed[:6] {
		spring += v
	}
	assert.InEpsilon(t, first, spring, 0.01, "in the damp season")
}

// noCrush is a strain well above rounding.
const noCrush = 1e-5

func TestExtremesOfACourse(t *testing.T) {
	wild := func(h float64) float64 { return float64(int(h/36) % 2) } // 0 and 100 % RH in turn
	jumps := func(h float64) float64 { return 20 + 5*float64(int(h/7)%2) }
	cold := func(h float64) float64 { return -20 + 15*math.Sin(h/40) }
	for _, thick := range []float64{0.5, 12, 150} {
		for name, m := range map[string]made{
			"RH 0 and 100": {hours: 20 * hoursADay, rh: wild}, "jumps of 5 K": {hours: 20 * hoursADay, rh: swing(0.5, 0.2, hoursADay), t: jumps},
			"frost": {hours: 20 * hoursADay, rh: swing(0.8, 0.15, hoursADay), t: cold},
		} {
			y, states := follow(t, object(oakBoard(t, "a", 300, thick, 30), oakBoard(t, "b", 300, thick, 80)), Coarse, m)
			for _, d := range y.Days {
				for _, v := range []float64{d.Width[0], d.Width[1], d.Warp[0], d.Warp[1], d.WarpMemory[0], float64(d.Mean), float64(d.Skin)} {
					require.False(t, math.IsNaN(v) || math.IsInf(v, 0), "%s, %g mm, %s", name, thick, d.Time)
				}
				require.GreaterOrEqual(t, float64(d.Mean), 0.0)
				require.Less(t, float64(d.Mean), 0.35)
			}
			require.NotEmpty(t, states)
		}
	}
}

func TestCoursesThatCannotBeFollowed(t *testing.T) {
	o := object(oakBoard(t, "a", 300, 12, 30))
	var g gather
	quick, err := Prepare(o, Quick)
	require.NoError(t, err)
	_, err = quick.Follow(context.Background(), made{hours: 48, rh: still(0.5)}, &g)
	assert.ErrorContains(t, err, "coarse or fine")
	c, err := Prepare(o, Coarse)
	require.NoError(t, err)
	_, err = c.Follow(context.Background(), made{rh: still(0.5)}, &g)
	assert.ErrorContains(t, err, "no step")
	_, err = c.Follow(context.Background(), made{hours: 48, rh: still(1.2)}, &g)
	assert.ErrorContains(t, err, "1 January 2023 00:00: ", "where it stands")
	_, err = c.Follow(context.Background(), made{hours: 48, rh: still(0.5), t: still(80)}, &g)
	assert.ErrorContains(t, err, "temperature")
	ctx, stop := context.WithCancel(context.Background())
	stop()
	_, err = c.Follow(ctx, made{hours: 48, rh: still(0.5)}, &g)
	assert.ErrorIs(t, err, context.Canceled)
}

func TestCourseIsTheSameBitsOnAnyCores(t *testing.T) {
	o := object(oakBoard(t, "a", 300, 12, 30), oakBoard(t, "b", 300, 9, 80))
	o.Battens = []panel.Batten{rigid(400)}
	bits := func(cores int) uint64 {
		defer runtime.GOMAXPROCS(runtime.GOMAXPROCS(cores))
		y, _ := follow(t, o, Coarse, made{hours: 30 * hoursADay, rh: swing(0.45, 0.2, 9*hoursADay)})
		h := fnv.New64a()
		for _, d := range y.Days {
			require.NoError(t, binary.Write(h, binary.LittleEndian, []float64{d.Width[0], d.Warp[1], d.Set, float64(d.Painted)}))
		}
		return h.Sum64()
	}
	assert.Equal(t, bits(1), bits(8))
}

func TestExcursionRunsIntoTheSettledState(t *testing.T) {
	o := object(oakBoard(t, "a", 300, 12, 90))
	o.Front = panel.Face{Painted: true, SdM: 1e4}
	c, err := Prepare(o, Quick)
	require.NoError(t, err)
	hours := []time.Duration{time.Hour, 6 * time.Hour, 24 * time.Hour, 240 * time.Hour, 2400 * time.Hour}
	got, err := c.Excursion(0.5, 0.3, hours)
	require.NoError(t, err)
	want := settle(t, o, 0.3)[0]
	assert.InEpsilon(t, want.Width, got[4].Width, 0.01, "in the end")
	for i := 1; i < len(got); i++ {
		assert.Less(t, got[i].Width, got[i-1].Width, "it narrows steadily")
	}
	assert.Greater(t, got[2].Cup, 5*math.Abs(got[4].Cup), "rounded in passing, flat in the end")
	_, err = c.Excursion(0.5, 0.3, []time.Duration{time.Hour, time.Hour})
	assert.ErrorContains(t, err, "must rise")
}

func BenchmarkFollow(b *testing.B) {
	boards := func(n int) *panel.Object {
		var bs []panel.Board
		for i := range n {
			bs = append(bs, oakBoard(b, fmt.Sprint(i), 200, 12, 40))
		}
		return object(bs...)
	}
	room := made{rh: func(h float64) float64 {
		return swing(0.5, 0.12, 365*hoursADay)(h) + swing(0, 0.04, hoursADay)(h) + swing(0, 0.05, 9.3*hoursADay)(h)
	}}
	for _, c := range []struct {
		boards, years int
		set           Setting
		battens       int
	}{{1, 1, Coarse, 0}, {1, 1, Fine, 0}, {3, 10, Coarse, 0}, {3, 10, Coarse, 2}, {3, 10, Fine, 2}} {
		b.Run(fmt.Sprintf("boards=%d/years=%d/setting=%v/battens=%d", c.boards, c.years, c.set, c.battens), func(b *testing.B) {
			o := boards(c.boards)
			for i := range c.battens {
				o.Battens = append(o.Battens, rigid(200+300*float64(i)))
			}
			p, err := Prepare(o, c.set)
			require.NoError(b, err)
			m := room
			m.hours = c.years * 365 * hoursADay
			b.ReportAllocs()
			for b.Loop() {
				_, err := p.Follow(context.Background(), m, drop{})
				require.NoError(b, err)
			}
		})
	}
}

type drop struct{}

func (drop) Take(*State) error { return nil }
