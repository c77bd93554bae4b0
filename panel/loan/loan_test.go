package loan

import (
	"context"
	"math"
	"os"
	"path/filepath"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"crossgrain/moisture"
	"crossgrain/moisture/record"
	"crossgrain/moisture/record/logger"
	"crossgrain/panel"
	"crossgrain/panel/assessment"
)

var folder = filepath.Join("..", "..", "testdata", "loans")

// invented reads the invented loan and its files.
func invented(t *testing.T) (*Loan, Inputs) {
	t.Helper()
	src, err := os.ReadFile(filepath.Join(folder, "two_rooms.toml"))
	require.NoError(t, err)
	l, problems := Read("two_rooms.toml", src)
	require.Empty(t, problems)
	in := Inputs{Panels: map[string]*panel.Panel{}, Records: map[string]*record.Record{}, Samples: assessment.Samples{Held: 200, Seed: 1}}
	panels, records := l.Files()
	for _, f := range panels {
		src, err := os.ReadFile(filepath.Join(folder, f))
		require.NoError(t, err)
		p, problems := panel.Read(f, src)
		require.Empty(t, problems)
		in.Panels[f] = p
	}
	for _, f := range records {
		src, err := os.ReadFile(filepath.Join(folder, f))
		require.NoError(t, err)
		in.Records[f], _, err = logger.Read([]logger.File{{Name: f, Data: src}}, logger.Options{})
		require.NoError(t, err)
	}
	return l, in
}

func TestInventedLoan(t *testing.T) {
	l, in := invented(t)
	r, err := l.Assess(context.Background(), in)
	require.NoError(t, err)
	require.Len(t, r.Panels, 3)
	lime, poplar, oak := &r.Panels[0], &r.Panels[1], &r.Panels[2]

	// nobody has answered for the open join and the split through
	require.Len(t, oak.Gates, 2)
	assert.Equal(t, "join.middle-right", oak.Gates[0].Part)
	assert.Nil(t, oak.Proposed)
	assert.Nil(t, r.For(oak))
	assert.Empty(t, oak.Legs)

	require.NotNil(t, r.Proposed)
	require.NotNil(t, poplar.Range)
	assert.LessOrEqual(t, poplar.Range.Low.Percent(), r.Proposed.Low, "rounded inward")
	assert.GreaterOrEqual(t, poplar.Range.High.Percent(), r.Proposed.High)
	assert.Equal(t, "poplar", r.Proposed.LowOf)
	assert.Same(t, r.Proposed, r.For(lime), "one range for one room")

	for _, p := range []*PanelResult{lime, poplar} {
		require.Len(t, p.Legs, 6)
		for i, how := range []string{"assumed", "record", "assumed", "terms", "assumed", "used to"} {
			assert.Equal(t, how, p.Legs[i].How, p.Legs[i].Name)
		}
		out := p.Legs[0]
		assert.Greater(t, out.Air[0], transitDry+0.1, "the case holds off the air outside")
		assert.Less(t, out.Air[1], transitDamp-0.1)
		second := p.Legs[3]
		assert.InDelta(t, 0.45, second.Air[0], 1e-9)
		assert.InDelta(t, 0.55, second.Air[1], 1e-9)
	}
	require.Len(t, r.Kept, 1)
	k := r.Kept[0]
	assert.Equal(t, 15, k.Months.YearsBack, "October to December 2011")
	assert.Empty(t, k.Months.Missing)
	assert.Less(t, k.Inside, 1.0)
	assert.Greater(t, k.Longest, 24.0)

	require.Len(t, r.Offers, 2, "that of the loan and that of the second venue")
	o := r.Offers[0]
	assert.InDelta(t, 40, o.Low, 1e-9)
	assert.InDelta(t, 60, o.High, 1e-9)
	assert.InDelta(t, 10, o.Day, 1e-9)
	require.Len(t, o.Panels, 2, "none for the panel that has no figures")
	assert.Greater(t, o.Panels[1].Then.Many, o.Panels[1].Now.Many)
	assert.True(t, o.Panels[1].DayExceeded)
	assert.LessOrEqual(t, o.Panels[1].Now.Many, l.Chance, "what is proposed keeps the chance that was asked for")
}

// TestAnswered: a conservator's answer opens the gate of an open join and a split, and nothing else does.
func TestAnswered(t *testing.T) {
	l, in := invented(t)
	p := in.Panels[l.Panels[2].File]
	o, err := p.Realise(nil)
	require.NoError(t, err)
	assert.Len(t, gates(p, o, nil), 2)
	assert.Len(t, gates(p, o, []string{"split.top"}), 1)
	assert.Empty(t, gates(p, o, []string{"split.top", "join.middle-right"}))
	assert.ErrorContains(t, strayAnswers(o, []string{"split.tip"}), "did you mean split.top?")

	src := "[panel]\naccession = 'x'\nheight_mm = 300\nwidth_mm = 200\nwood = 'oak'\nboards = 1\nthickness_mm = 12\n[face.front]\npaint = 'flaking'\n"
	p, problems := panel.Read("x", []byte(src))
	require.Empty(t, problems)
	o, err = p.Realise(nil)
	require.NoError(t, err)
	g := gates(p, o, []string{"face.front"})
	require.Len(t, g, 1)
	assert.Equal(t, "flaking", g[0].ID)
	assert.False(t, g[0].Open)
}

// TestItDepends: of a cradle that nobody has tried, one answer bars all figures, so none are given.
func TestItDepends(t *testing.T) {
	l, in := invented(t)
	f := "../panels/six_facts.toml"
	src, err := os.ReadFile(filepath.Join(folder, f))
	require.NoError(t, err)
	p, problems := panel.Read(f, src)
	require.Empty(t, problems)
	in.Panels, in.Samples.Held = map[string]*panel.Panel{f: p}, 100
	l.Panels = []Panel{{Name: "six", File: f, Answered: []string{"split.top"}}}
	r, err := l.Assess(context.Background(), in)
	require.NoError(t, err)
	require.Len(t, r.Panels[0].Gates, 1)
	assert.Equal(t, Gate{ID: "depends", Part: "cradle"}, r.Panels[0].Gates[0])
	assert.Nil(t, r.Panels[0].Range)
	assert.Nil(t, r.Proposed)
	assert.Nil(t, depends(&assessment.Doubt{Fork: &panel.Fork{Part: "x"}, Ways: []assessment.Ways{{Ranges: make([]assessment.RangeFor, 3)}}}))
}

func TestSharedRange(t *testing.T) {
	r := func(low, high float64, by string) Range {
		return Range{moisture.Percent(low), moisture.Percent(high), by, by}
	}
	for _, c := range []struct {
		a, b      Range
		low, high float64
		ok        bool
		why       string
	}{
		{r(37.2, 50.4, "a"), r(30, 70, "b"), 40, 50, true, "five points where ten are left"},
		{r(36.1, 49.9, "a"), r(30, 70, "b"), 37, 49, true, "whole points where five would leave less than ten"},
		{r(36, 48, "a"), r(42, 60, "b"), 42, 48, true, "just wide enough"},
		{r(36, 47, "a"), r(42, 60, "b"), 42, 47, false, "too narrow to be held"},
		{r(30, 40, "a"), r(50, 60, "b"), 50, 40, false, "nothing shared"},
		{r(40, 60, "a"), r(40, 60, "b"), 40, 60, true, "ends that stand on a step stay"},
	} {
		for _, got := range []*Range{c.a.and(c.b), c.b.and(c.a)} {
			low, high, ok := got.Held()
			assert.Equal(t, c.ok, ok, c.why)
			assert.InDelta(t, c.low, low, 1e-9, c.why)
			assert.InDelta(t, c.high, high, 1e-9, c.why)
		}
	}
	got := r(36, 48, "a").and(r(42, 60, "b"))
	assert.Equal(t, "b", got.LowBy)
	assert.Equal(t, "a", got.HighBy)
}

// TestRooms: panels share a range with those of their room alone, and one without a room keeps its own.
func TestRooms(t *testing.T) {
	res := &Result{Loan: &Loan{}}
	for _, p := range []struct {
		name, room string
		low, high  float64
	}{{"a", "Room 1", 36, 50}, {"b", "Room 2", 52, 64}, {"c", "Room 1", 40, 60}, {"d", "", 30, 70}} {
		res.Panels = append(res.Panels, PanelResult{
			Panel: Panel{Name: p.name, Room: p.room}, Range: &Range{moisture.Percent(p.low), moisture.Percent(p.high), "cap", "cap"},
			Proposed: &Proposal{Low: p.low, High: p.high, LowOf: p.name, HighOf: p.name, Day: 10, TLow: 18, THigh: 24},
		})
	}
	res.share()
	assert.Nil(t, res.Proposed, "all of them share nothing")
	require.Len(t, res.Rooms, 2)
	for name, want := range map[string][2]float64{"a": {40, 50}, "c": {40, 50}, "b": {52, 64}, "d": {30, 70}} {
		for i := range res.Panels {
			if p := &res.Panels[i]; p.Name == name {
				got := res.For(p)
				require.NotNil(t, got, name)
				assert.Equal(t, want, [2]float64{got.Low, got.High}, name)
			}
		}
	}
	_, problems := Read("x.toml", []byte("[loan]\nnumber = \"1\"\none_room = true\n[panel.a]\nfile = \"a\"\nroom = \"Room 1\"\n[leg.a]\nkind = \"transit\"\nfrom = \"2026-07-01\"\nto = \"2026-07-02\"\n"))
	require.Len(t, problems, 1)
	assert.Contains(t, problems[0].Error(), "one_room says that all panels hang in one room")
}

func TestChangeWithinADay(t *testing.T) {
	nan := moisture.RH(math.NaN())
	w := func(dry, damp moisture.RH) *assessment.Wait {
		return &assessment.Wait{Hours: []float64{8, 24, 48}, FromDry: 0.50, FromDamp: 0.50, Call: assessment.Reach{
			DryQuick: []moisture.RH{0.1, dry, 0.49}, DampQuick: []moisture.RH{0.9, damp, 0.51}}}
	}
	for _, c := range []struct {
		w     *assessment.Wait
		width float64
		want  float64
		chart bool
		tight bool
	}{
		{w(nan, nan), 40, 10, true, false},
		{w(nan, nan), 7, 6, true, false},
		{w(0.43, nan), 40, 6, true, false},
		{w(0.30, 0.535), 40, 3, true, false},
		{w(0.49, nan), 40, 2, true, true},
		{&assessment.Wait{Withheld: "thin"}, 40, 5, false, false},
		{nil, 3, 3, false, false},
	} {
		got, chart, tight := changeFor(c.w, c.width)
		assert.InDelta(t, c.want, got, 1e-9)
		assert.Equal(t, c.chart, chart)
		assert.Equal(t, c.tight, tight)
	}
}

// TestCallsAreNotLate: where a chart sees no limit, a day outside what is agreed still calls, and readings
// beyond 30 and 70 % RH call at once; what the chart calls for earlier stays.
func TestCallsAreNotLate(t *testing.T) {
	never := math.Inf(1)
	got := heeded([]Alarm{{0.25, never, never}, {0.30, never, never}, {0.40, never, never}, {0.50, never, never}, {0.60, 3, 50}, {0.75, 9, 20}}, &Proposal{Low: 40, High: 55})
	assert.Equal(t, []Alarm{{0.25, 0, never}, {0.30, 24, never}, {0.40, never, never}, {0.50, never, never}, {0.60, 3, 50}, {0.75, 0, 20}}, got)
}

func TestTemperature(t *testing.T) {
	for _, c := range []struct{ used, low, high float64 }{{20, 17, 23}, {19.4, 16, 22}, {10, 15, 21}, {24, 19, 25}} {
		low, high := temperatureFor(moisture.Celsius(c.used))
		assert.Equal(t, [2]float64{c.low, c.high}, [2]float64{low, high}, c.used)
	}
}

// made is a record that says its month: 10 points and the number of the month.
func made(from time.Time, days int, leaveOut func(time.Time) bool) *record.Record {
	r := &record.Record{Name: "made"}
	for h := range days * 24 {
		if at := from.Add(time.Duration(h) * time.Hour); !leaveOut(at) {
			r.Times = append(r.Times, at)
			r.RH = append(r.RH, 0.1+float64(at.Month())/100)
		}
	}
	return r
}

func TestSeason(t *testing.T) {
	day := func(s string) time.Time { d, _ := time.Parse(time.DateOnly, s); return d }
	all := func(time.Time) bool { return false }
	from, to := day("2026-11-10"), day("2027-02-15")

	m := season(made(day("2019-01-01"), 800, all), from, to)
	assert.Equal(t, []time.Month{11, 12, 1, 2}, m.Have)
	assert.Empty(t, m.Missing)
	assert.Equal(t, 6, m.YearsBack, "of whole winters the latest: 2020 to 2021")

	m = season(made(day("2020-03-01"), 275, all), from, to)
	assert.Equal(t, []time.Month{12, 1, 2}, m.Missing, "a record of spring to November has no winter")
	assert.Equal(t, []time.Month{11}, m.Have)
	for _, h := range m.Piece.RH {
		assert.InDelta(t, 0.21, h, 1e-9)
	}
	m = season(made(day("2019-01-01"), 800, func(at time.Time) bool { return at.Month() == time.December && at.Day() > 10 }), from, to)
	assert.Equal(t, []time.Month{12}, m.Missing, "a third of a month is not a month")
	assert.Equal(t, []time.Month{11, 12, 1, 2}, season(nil, from, to).Missing)

	// a leg whose season is missing is not worked out from what is left
	l := &Loan{Venues: []Venue{{Name: "v", Place: Place{Record: "r"}}}}
	a := l.outside(Leg{Kind: OnShow, Venue: "v", From: from, To: to}, map[string]*record.Record{"r": made(day("2020-03-01"), 275, all)}, 20)
	assert.Empty(t, a.how)
	assert.Empty(t, a.dry)
}

// TestHourlyGaps: short gaps are bridged and counted, long ones are not.
func TestHourlyGaps(t *testing.T) {
	start := time.Date(2026, 1, 1, 0, 0, 0, 0, time.UTC)
	gap := func(days int) *air {
		r := made(start, 20, func(at time.Time) bool { return at.Day() > 5 && at.Day() <= 5+days })
		return &air{from: start, months: Months{Piece: r}}
	}
	a := gap(0)
	require.True(t, a.hourly(480, 20))
	assert.Len(t, a.dry, 480)
	assert.Zero(t, a.bridged)
	assert.False(t, gap(2).hourly(480, 20))
	b := &air{from: start, months: Months{Piece: made(start, 20, func(at time.Time) bool { return at.Day() == 6 && at.Hour() < 12 })}}
	require.True(t, b.hourly(480, 20))
	assert.Greater(t, b.bridged, 10.0)
}

// TestCaseGoesHalfWay: hygrometric half-time 4 M B/N days (G. Thomson 1977, from memory; the factor 4.02
// follows from 17.24 g/m3 of vapour at saturation and 20 °C, CLI-HALF-FACTOR). Here M = 2 g per kg and
// point, B = 50 kg/m3, N = 5 a day: 80 days. The air itself adds ln 2/N, a few hours.
func TestCaseGoesHalfWay(t *testing.T) {
	l := &Loan{Case: &Case{Litres: 100, Changes: 5, BufferKg: 5}}
	c := l.caseOf(assessment.Enclosed{From: 0.6, T: 20})
	n := 200 * 24
	rh, warm := make([]float64, n), make([]float64, n)
	for i := range rh {
		rh[i], warm[i] = 0.4, 20
	}
	in, err := c.inside(rh, warm, time.Date(2026, 1, 1, 0, 0, 0, 0, time.UTC))
	require.NoError(t, err)
	half := 0
	for in[half] > 0.5 {
		half++
	}
	assert.InDelta(t, 4.02*2*50/5, float64(half)/24, 0.5)
}

// TestAirExchange: an empty case with a tenth of its air changed an hour, begun at 0 in a room at 100: half
// way after ln 2/0.1 = 6.93 h (Padfield, Air exchange, conservationphysics.org/airex/airexchange.php).
func TestAirExchange(t *testing.T) {
	l := &Loan{Case: &Case{Litres: 100, Changes: 2.4}}
	c := l.caseOf(assessment.Enclosed{From: 0, T: 20})
	rh, warm := make([]float64, 10), make([]float64, 10)
	for i := range rh {
		rh[i], warm[i] = 1, 20
	}
	in, err := c.inside(rh, warm, time.Date(2026, 1, 1, 0, 0, 0, 0, time.UTC))
	require.NoError(t, err)
	for h, v := range in {
		assert.InDelta(t, 1-math.Exp(-0.1*float64(h)), v, 1e-3, h)
	}
}

func TestOfferReadsPlusMinusAsWritten(t *testing.T) {
	for text, want := range map[string]float64{"40-60, 10 in 24 h": 10, "40..60, +-5/24h": 10, "40..60": math.NaN()} {
		p := (&table{r: &reader{}}).terms("offer", text)
		if got := dayOf(p); math.IsNaN(want) {
			assert.True(t, math.IsNaN(got), text)
		} else {
			assert.InDelta(t, want, got, 1e-9, text)
		}
	}
}

// TestMistakes: every mistake is told at once, with its line.
func TestMistakes(t *testing.T) {
	l, problems := Read("loan.toml", []byte(`format = 1
[loan]
nuber = "7"
of_100 = 4
offer = "40-60-80"
[panel.a]
fil = "a.toml"
[venue.hall]
record = 7
[case]
kind = "box"
volume_l = -2
[leg.out]
kind = "on sho"
venue = "hal"
from = "2026-13-01"
to = "2026-11-01"
[leg.second]
kind = "transit"
from = "2026-12-09"
to = "2026-12-01"
[legs]
`))
	assert.Nil(t, l)
	text := problems.Error()
	for _, want := range []string{
		`loan.toml:3: loan.nuber: unknown key`, "did you mean number?", "loan.toml:2: loan: the key number is missing",
		"loan.toml:4: loan.of_100: must be 1, 5 or 10, got 4", "loan.toml:5: loan.offer:",
		"loan.toml:7: panel.a.fil: unknown key", "loan.toml:6: panel.a: the key file is missing",
		"loan.toml:9: venue.hall.record: must be words in quotes, got 7",
		"loan.toml:11: case.kind: must be case or sealed frame", "loan.toml:12: case.volume_l: must lie between 1 and 100000 L, got -2",
		"loan.toml:14: leg.out.kind: must be transit or store or on show", `loan.toml:15: leg.out.venue: no venue "hal"`, "did you mean hall?",
		"loan.toml:16: leg.out.from: must be a date", "loan.toml:21: leg.second.to: must not lie before from",
		"loan.toml:22: legs: unknown table", "did you mean leg?",
	} {
		assert.Contains(t, text, want)
	}
	_, problems = Read("x", []byte("[loan]\nnumber = \"1\"\n[panel.a]\nfile=\"a\"\n[leg.a]\nkind=\"transit\"\nfrom=\"2026-01-01\"\nto=\"2026-01-03\"\n[leg.b]\nkind=\"on show\"\nfrom=\"2026-01-09\"\nto=\"2026-02\"\n"))
	assert.ErrorContains(t, problems, "5 days lie between this leg and the one before")
	for _, bad := range []string{"", "a = ", "\xff", "[loan]", "loan = 3", "panel = 2\nleg = [1]", "[panel]\na = 3"} {
		_, problems := Read("x", []byte(bad))
		assert.NotEmpty(t, problems, bad)
	}
}
