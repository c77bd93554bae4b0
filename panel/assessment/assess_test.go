package assessment

import (
	"context"
	"math"
	"runtime"
	"strconv"
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"crossgrain/moisture"
	"crossgrain/moisture/record/logger"
	"crossgrain/panel"
	"crossgrain/panel/response"
)

func TestSameBitsOnOneAndEightCores(t *testing.T) {
	bits := func(cores int) []uint64 {
		defer runtime.GOMAXPROCS(runtime.GOMAXPROCS(cores))
		r := assess(t, source(t, "four_board_poplar_glued_cradle"), Question{})
		var out []uint64
		for _, s := range r.Sweep {
			for _, b := range s.Bands {
				out = append(out, math.Float64bits(b.Low), math.Float64bits(b.High))
			}
		}
		return append(out, math.Float64bits(float64(r.Range.Unfavourable.Low)))
	}
	assert.Equal(t, bits(1), bits(8))
}

func TestSpreadOfAProduct(t *testing.T) {
	// A share K/F with log-normal K and F is log-normal: 1.645 sqrt(a^2+b^2) in the logarithm.
	a, b := 0.4, 0.3
	k := spreadOf(2, 2*math.Exp(a), 2*math.Exp(-a))
	f := spreadOf(2, 2*math.Exp(-b), 2*math.Exp(b))
	sum := spread{log: math.Hypot(k.log, f.log), add: math.Hypot(k.add, f.add)}
	assert.InDelta(t, 2*math.Exp(z95*math.Hypot(a, b)), sum.high(2, z95), 1e-12)
	assert.InDelta(t, 2*math.Exp(-z95*math.Hypot(a, b)), sum.low(2, z95), 1e-12)
	// A shift adds: from nothing, a share of 0.1 either way.
	s := spreadOf(0, 0.1, 0)
	assert.InDelta(t, z95*0.05, s.high(0, z95), 1e-12)
	assert.Zero(t, s.low(0, z95))
}

func TestCalculatedRangeEndsWhereALimitIsReached(t *testing.T) {
	r := assess(t, source(t, "three_boards"), Question{})
	n, u := r.Range.Nominal, r.Range.Unfavourable
	require.NotNil(t, n)
	require.NotNil(t, u)
	c, err := response.Prepare(r.Object, response.Quick)
	require.NoError(t, err)
	for _, end := range []moisture.RH{n.Low, n.High} {
		st, err := c.Settle([]moisture.RH{end})
		require.NoError(t, err)
		var top float64
		for _, d := range st[0].Demands {
			if d.Mode.SetsRange() {
				top = math.Max(top, d.Share())
			}
		}
		assert.InDelta(t, 1, top, 0.02)
	}
	assert.Greater(t, u.Low, n.Low)
	assert.Less(t, u.High, n.High)
	assert.LessOrEqual(t, u.Low, r.Object.UsedTo)
	assert.GreaterOrEqual(t, u.High, r.Object.UsedTo)
	for _, w := range r.Worst {
		assert.LessOrEqual(t, w.Low, w.Share()+1e-12)
		assert.GreaterOrEqual(t, w.High, w.Share()-1e-12)
	}
}

func TestCaps(t *testing.T) {
	base := strings.ReplaceAll(source(t, "single_flat_pith"), "rh_pct = 55", "rh_pct = 75")
	r := assess(t, base, Question{})
	assert.InDelta(t, 0.75, float64(r.Range.Nominal.High), 1e-9, "no wider than where it lives")
	lived := strings.ReplaceAll(source(t, "single_flat_pith"), "rh_pct = 55", "rh_pct = 55\nlived_through_rh_pct = [25, 80]")
	r = assess(t, lived, Question{})
	assert.InDelta(t, 0.25, float64(r.Range.Nominal.Low), 1e-9)
	assert.InDelta(t, 0.80, float64(r.Range.Nominal.High), 1e-9)
}

func TestGatesForbidARange(t *testing.T) {
	src := strings.ReplaceAll(source(t, "single_flat_pith"), `paint = "sound"`, `paint = "flaking"`)
	r := assess(t, src, Question{})
	require.NotEmpty(t, r.Gates)
	assert.Nil(t, r.Range.Nominal)
	assert.Nil(t, r.Range.Unfavourable)
	assert.True(t, strings.HasPrefix(r.Range.WhyNominal, "gate: flaking"), r.Range.WhyNominal)
	assert.NotEmpty(t, r.States, "the movement is still told")
}

func TestBadQuestions(t *testing.T) {
	p, problems := panel.Read("x", []byte(source(t, "single_flat_pith")))
	require.NoError(t, problems.Err())
	for _, q := range []Question{{Low: 0.6, High: 0.4}, {Low: -0.1, High: 0.4}, {Low: 0.4, High: 1.4}} {
		_, err := Assess(context.Background(), p, q)
		assert.ErrorContains(t, err, "range must run")
	}
	_, err := Assess(context.Background(), p, Question{Setting: 7})
	assert.ErrorContains(t, err, "setting must be")
	ctx, stop := context.WithCancel(context.Background())
	stop()
	_, err = Assess(ctx, p, Question{})
	assert.ErrorIs(t, err, context.Canceled)
}

func TestWoodWithoutMovementIsRefused(t *testing.T) {
	p, problems := panel.Read("x", []byte(strings.ReplaceAll(source(t, "single_flat_pith"), "lime", "cypress")))
	require.NoError(t, problems.Err())
	_, err := Assess(context.Background(), p, Question{})
	assert.ErrorContains(t, err, "cypress")
}

func TestRecordUsesRunningMeansOfEachBoard(t *testing.T) {
	var b strings.Builder
	b.WriteString("time,RH,T\n")
	for d := range 400 { // a year and more: 40 % for five days, then 60 % for five
		rh := 40
		if d/5%2 == 1 {
			rh = 60
		}
		b.WriteString(day(d) + "," + strconv.Itoa(rh) + ",20\n")
	}
	rec, _, err := logger.Read([]logger.File{{Name: "steps.csv", Data: []byte(b.String())}}, logger.Options{})
	require.NoError(t, err)
	r := assess(t, source(t, "three_boards"), Question{Record: rec})
	require.Len(t, r.States, 3)
	assert.Equal(t, "record", r.From)
	assert.Less(t, r.States[0].RH, r.States[1].RH)
	assert.Less(t, r.States[1].RH, r.States[2].RH)
	assert.Greater(t, r.States[0].RH.Percent(), 42.0, "weeks of averaging take the edge off five days")
	assert.InDelta(t, 50, r.States[1].RH.Percent(), 1)
}

func BenchmarkAssess(b *testing.B) {
	for _, name := range []string{"three_boards", "six_facts", "four_board_poplar_glued_cradle"} {
		b.Run("panel="+name, func(b *testing.B) {
			p, problems := panel.Read("x", []byte(source(b, name)))
			if err := problems.Err(); err != nil {
				b.Fatal(err)
			}
			b.ReportAllocs()
			for b.Loop() {
				if _, err := Assess(context.Background(), p, Question{}); err != nil {
					b.Fatal(err)
				}
			}
		})
	}
}

func day(n int) string {
	return time.Date(2020, 1, 1, 0, 0, 0, 0, time.UTC).AddDate(0, 0, n).Format("2006-01-02 15:04")
}
