package fault

import (
	"context"
	"math"
	"os"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"crossgrain/moisture"
	"crossgrain/moisture/record"
	"crossgrain/panel"
	"crossgrain/panel/assessment"
)

// described reads one of the invented panel files, with pairs of text replaced.
func described(t *testing.T, name string, replace ...string) *panel.Panel {
	t.Helper()
	src, err := os.ReadFile(filepath.Join("..", "..", "testdata", "panels", name+".toml"))
	require.NoError(t, err)
	text := string(src)
	for i := 0; i < len(replace); i += 2 {
		require.Contains(t, text, replace[i])
		text = strings.ReplaceAll(text, replace[i], replace[i+1])
	}
	p, problems := panel.Read(name, []byte(text))
	require.NoError(t, problems.Err())
	return p
}

func cards(t *testing.T, p *panel.Panel, q assessment.Question) []Card {
	t.Helper()
	out, err := Cards(context.Background(), p, q)
	require.NoError(t, err)
	return out
}

// grid is the grid of the one card of a panel in the open.
func grid(t *testing.T, p *panel.Panel) *Grid {
	t.Helper()
	c := cards(t, p, assessment.Question{})
	require.Len(t, c, 1)
	require.NotNil(t, c[0].Grid, c[0].Withheld)
	return c[0].Grid
}

// noLater says that nothing in a waits longer than in b, and that something acts sooner.
func noLater(t *testing.T, a, b *Grid) {
	t.Helper()
	sooner := 0
	for i := range a.Until {
		assert.LessOrEqual(t, a.Until[i].Call, b.Until[i].Call*1.001, "call %v", a.Rows[i])
		assert.LessOrEqual(t, a.Until[i].Act, b.Until[i].Act*1.001, "act %v", a.Rows[i])
		if a.Until[i].Act < b.Until[i].Act*0.99 {
			sooner++
		}
	}
	assert.Positive(t, sooner)
}

func TestRowsCoverEveryReading(t *testing.T) {
	rows := Readings()
	assert.Zero(t, rows[0].Low)
	for i := 1; i < len(rows); i++ {
		assert.Equal(t, rows[i-1].High, rows[i].Low)
	}
	assert.InDelta(t, 1, float64(rows[len(rows)-1].High), 0)
}

func TestCellsGrowWithHoursAndDistance(t *testing.T) {
	for _, name := range []string{"three_boards", "six_facts", "quarter_oak_frame_tight"} {
		g := grid(t, described(t, name))
		cells := g.Cells()
		acts := 0
		for i, row := range cells {
			for j, a := range row {
				if a == Act {
					acts++
				}
				if j > 0 {
					assert.GreaterOrEqual(t, a, row[j-1], "%s: the longer it stands", name)
				}
				if i > 0 && g.Rows[i].High <= g.FromDry {
					assert.LessOrEqual(t, a, cells[i-1][j], "%s: the drier %v", name, g.Rows[i])
				}
				if i > 0 && g.Rows[i-1].Low >= g.FromDamp {
					assert.GreaterOrEqual(t, a, cells[i-1][j], "%s: the damper %v", name, g.Rows[i])
				}
			}
		}
		assert.Positive(t, acts, name)
	}
}

func TestARowCountsAsItsFarEnd(t *testing.T) {
	p := described(t, "three_boards")
	r, err := assessment.Assess(context.Background(), p, assessment.Question{})
	require.NoError(t, err)
	g := grid(t, p)
	level := func(pct float64) Until {
		for _, l := range r.Wait.Levels {
			if math.Abs(l.RH.Percent()-pct) < 1e-6 {
				return Until{l.Call.Quick, l.Act.Quick}
			}
		}
		t.Fatalf("no level at %g", pct)
		return Until{}
	}
	for i, row := range g.Rows {
		switch row.Low {
		case 0:
			assert.Equal(t, level(5), g.Until[i], "under 20 as at 5, the driest there is")
		case moisture.Percent(30):
			assert.Equal(t, level(30), g.Until[i])
		case moisture.Percent(65):
			assert.Equal(t, level(70), g.Until[i])
		case moisture.Percent(80):
			assert.Equal(t, level(95), g.Until[i], "80 and over as at 95, the dampest there is")
		}
	}
}

func TestThinActsBeforeThick(t *testing.T) {
	const nailed = "[batten.a]\nalong_mm = 100\nwood = \"oak\"\nwidth_mm = 60\ndepth_mm = 30\nside = \"back\"\nfixing = \"nailed\"\nat_mm = [30, 150, 270]\n"
	of := func(mm string) *Grid {
		return grid(t, described(t, "single_flat_pith", "thickness_mm = 18", "thickness_mm = "+mm, "back = \"nothing\"\n", "", "[face.front]", nailed+"[face.front]"))
	}
	thin, thick := of("10"), of("24")
	seen := 0
	for i, u := range thick.Until {
		if v := thin.Until[i]; u.Call <= 168 { // later a thick board, being stiffer, may load its nails more
			assert.Less(t, v.Call, u.Call, "%v", thick.Rows[i])
			seen++
		}
	}
	assert.Greater(t, seen, 3)
}

func TestThicknessNotRecordedCountsAsThin(t *testing.T) {
	unknown := described(t, "six_facts")
	c := cards(t, unknown, assessment.Question{})
	assert.InDelta(t, thinnest, c[0].Thin, 0, "with a cradle thin is under 8 mm, and 8 is counted")
	for _, mm := range []string{"9", "12", "20"} {
		known := described(t, "six_facts", "boards = 2", "boards = 2\nthickness_mm = "+mm)
		k := cards(t, known, assessment.Question{})
		assert.Zero(t, k[0].Thin)
		noLater(t, c[0].Grid, k[0].Grid)
	}
	free := described(t, "six_facts", "[cradle]\n", "")
	// Of a triangle from 10 over 20 to 30 mm, 5 in 100 lie below 10 + sqrt(0.05 x 20 x 10) = 13.2 mm.
	assert.InDelta(t, 13, cards(t, free, assessment.Question{})[0].Thin, 0)
}

func TestPanelsBehindAGateHaveNoHours(t *testing.T) {
	c := cards(t, described(t, "single_flat_pith", `paint = "sound"`, `paint = "flaking"`), assessment.Question{})
	assert.Nil(t, c[0].Grid)
	require.Len(t, c[0].Gates, 1)
	assert.Equal(t, "flaking", c[0].Gates[0].ID)
	c = cards(t, described(t, "single_flat_pith", "thickness_mm = 18", "thickness_mm = 7"), assessment.Question{})
	assert.Nil(t, c[0].Grid)
	assert.Contains(t, c[0].Withheld, "8 mm")
	c = cards(t, described(t, "six_facts", "[cradle]", "[cradle]\nmoves = \"seized\""), assessment.Question{Case: slow{}})
	require.Len(t, c, 2)
	assert.Nil(t, c[0].Grid)
	assert.Nil(t, c[1].Grid)
}

// slow is a case that lets a tenth of a difference through in a day.
type slow struct{}

func (slow) After(in assessment.Enclosed, room moisture.RH, closed time.Duration) (moisture.RH, error) {
	return in.From + (room-in.From)*moisture.RH(1-math.Exp(-closed.Hours()/240)), nil
}

func (slow) Opening(assessment.Enclosed, moisture.RH, float64) (time.Duration, error) { return 0, nil }

func TestAClosedCaseWaitsLongerThanTheRoom(t *testing.T) {
	p := described(t, "three_boards")
	open := cards(t, p, assessment.Question{})
	closed := cards(t, p, assessment.Question{Case: slow{}})
	require.Len(t, closed, 2)
	assert.True(t, closed[0].ByCase)
	assert.False(t, closed[1].ByCase)
	assert.Equal(t, open[0].Grid.Until, closed[0].Grid.Until, "the logger inside reads the air at the panel")
	noLater(t, open[0].Grid, closed[1].Grid)
}

func TestWorstAndOrder(t *testing.T) {
	inf := math.Inf(1)
	row := func(call, act float64) *Grid { return &Grid{Rows: Readings()[:1], Until: []Until{{call, act}}} }
	grids := []*Grid{row(30, 90), nil, row(3, inf), row(3, 8), row(200, inf)}
	assert.Equal(t, []int{3, 2, 0}, Order(grids, 0), "nobody is called for the last one within a week")
	assert.Equal(t, Until{3, 8}, Worst(grids).Until[0])
	assert.Equal(t, Until{30, 90}, grids[0].Until[0], "the grids stay as they are")
	assert.Nil(t, Worst([]*Grid{nil}))
}

// spell is a room at 50 % RH that stands at another humidity for some days.
func spell(rh float64, days int) *record.Record {
	rec := &record.Record{Name: "made"}
	start := time.Date(2024, 1, 1, 0, 0, 0, 0, time.UTC)
	for h := range 24 * (days + 4) {
		v := 0.5
		if h >= 48 && h < 48+24*days {
			v = rh
		}
		rec.Times, rec.RH = append(rec.Times, start.Add(time.Duration(h)*time.Hour)), append(rec.RH, v)
	}
	return rec
}

func TestFollowTellsTheWorstMoment(t *testing.T) {
	p := described(t, "three_boards")
	short, err := Follow(context.Background(), p, spell(0.25, 1), time.Time{})
	require.NoError(t, err)
	long, err := Follow(context.Background(), p, spell(0.25, 10), time.Time{})
	require.NoError(t, err)
	require.NotEmpty(t, short.Parts)
	require.NotEmpty(t, long.Parts)
	assert.False(t, short.Lived)
	assert.Greater(t, long.Parts[0].Demand.Share(), short.Parts[0].Demand.Share())
	for i, w := range long.Parts {
		assert.LessOrEqual(t, w.Band.Low, w.Demand.Share())
		assert.GreaterOrEqual(t, w.Band.High, w.Demand.Share())
		if i > 0 {
			assert.LessOrEqual(t, w.Demand.Share(), long.Parts[i-1].Demand.Share()+1e-6)
		}
	}
	at := long.Parts[0].Time
	assert.True(t, at.After(spell(0, 0).Times[0].Add(48*time.Hour)) && !at.After(spell(0, 0).Times[0].Add(13*24*time.Hour)), at)
	_, err = Follow(context.Background(), p, nil, time.Time{})
	assert.ErrorContains(t, err, "record")
}

func TestFollowTellsOnlyTheEvent(t *testing.T) {
	// Ten dry days; told from the fifth on, the panel has dried already and is told no worse than over all,
	// but worse than the same days would be from balance with the wood still as it is used to.
	p, rec := described(t, "three_boards"), spell(0.25, 10)
	at := rec.Times[0].Add(7 * 24 * time.Hour)
	all, err := Follow(context.Background(), p, rec, time.Time{})
	require.NoError(t, err)
	late, err := Follow(context.Background(), p, rec, at)
	require.NoError(t, err)
	cold, err := Follow(context.Background(), p, rec.Between(at, at.Add(24*time.Hour)), time.Time{})
	require.NoError(t, err)
	led, err := Follow(context.Background(), p, rec.Between(rec.Times[0], at.Add(24*time.Hour)), at)
	require.NoError(t, err)
	for _, part := range late.Parts {
		assert.False(t, part.Time.Before(at), part.Time)
	}
	assert.LessOrEqual(t, late.Parts[0].Demand.Share(), all.Parts[0].Demand.Share()+1e-9)
	assert.True(t, late.Parts[0].Before, "it was beyond its limit after five days")
	assert.False(t, all.Parts[0].Before)
	widest := func(e *Event) float64 { return float64(e.Parts[0].RH) }
	assert.Less(t, widest(led), widest(cold), "the wood is drier after days than within one")
	_, err = Follow(context.Background(), p, rec, rec.Times[len(rec.Times)-1].Add(time.Hour))
	assert.ErrorContains(t, err, "no step")
}

// held is a panel of flat-sawn boards behind a batten that lets nothing move, with what its file says of its past.
func held(t *testing.T, past string) *panel.Panel {
	t.Helper()
	const text = "format = 1\n[panel]\naccession = \"INVENTED 30\"\nheight_mm = 700\nwidth_mm = 500\nwood = \"oak\"\nthickness_mm = 12\nboards = 2\n" +
		"[used_to]\nrh_pct = 50\n%PAST%[batten.a]\nalong_mm = 350\nfixing = \"glued\"\nwidth_mm = 60\ndepth_mm = 25\n"
	p, problems := panel.Read("held", []byte(strings.ReplaceAll(text, "%PAST%", past)))
	require.NoError(t, problems.Err())
	return p
}

func TestWhatItHasLivedThroughMovesTheTable(t *testing.T) {
	const seen = "since = 1990\nlast_inspected = \"2024-05-14\"\nunchanged = true\n"
	plain, lived := held(t, ""), held(t, seen+"lived_through_rh_pct = [38, 62]\n")
	without, with := grid(t, plain), grid(t, lived)
	later := 0
	for i, row := range with.Rows {
		far := row.Low
		if row.Low >= 0.5 {
			far = row.High
		}
		if far < 0.38 || far > 0.62 { // not a climate that it has known
			assert.Equal(t, without.Until[i], with.Until[i], "%v", row)
			continue
		}
		assert.GreaterOrEqual(t, with.Until[i].Act, without.Until[i].Act, "%v", row)
		for _, h := range Hours()[:4] {
			assert.NotEqual(t, Act, with.Until[i].At(h), "%v for %g hours", row, h)
		}
		if with.Until[i].Act > without.Until[i].Act*1.05 {
			later++
		}
	}
	assert.Positive(t, later)
	c := cards(t, lived, assessment.Question{})[0]
	require.NotNil(t, c.Outlived)
	assert.True(t, c.Outlived.Dry)
	assert.False(t, c.Outlived.Against)
	assert.Nil(t, cards(t, plain, assessment.Question{})[0].Outlived)
	changed := held(t, "since = 1990\nlast_inspected = \"2024-05-14\"\nunchanged = false\nlived_through_rh_pct = [38, 62]\n")
	assert.Equal(t, without.Until, grid(t, changed).Until, "found changed, its past is no evidence")
}

func TestHoursCountFromTheWorstSeason(t *testing.T) {
	p := described(t, "three_boards")
	plain := grid(t, p)
	season := cards(t, p, assessment.Question{Season: [2]moisture.RH{0.47, 0.53}})[0]
	require.True(t, season.Season)
	assert.InDelta(t, 0.47, float64(season.Grid.FromDry), 1e-12)
	assert.InDelta(t, 0.53, float64(season.Grid.FromDamp), 1e-12)
	noLater(t, season.Grid, plain)
	passed := cards(t, p, assessment.Question{Season: [2]moisture.RH{0.35, 0.65}})[0]
	assert.True(t, passed.Passed && !passed.Season, "past the point to call in its own winter by calculation: then its used-to humidity stays")
	milder := cards(t, p, assessment.Question{Season: [2]moisture.RH{0.52, 0.53}})[0]
	assert.InDelta(t, float64(plain.FromDry), float64(milder.Grid.FromDry), 1e-12, "the worse of season and what it is used to")
	year := &record.Record{Name: "made"}
	for h := range 2 * 365 * 24 {
		year.Times = append(year.Times, time.Date(2022, 1, 1, h, 0, 0, 0, time.UTC))
		year.RH = append(year.RH, 0.5+0.03*math.Sin(2*math.Pi*float64(h)/(365.25*24)))
	}
	home := cards(t, p, assessment.Question{Home: year})[0]
	assert.True(t, home.Season)
	assert.InDelta(t, 0.47, float64(home.Grid.FromDry), 0.01)
	assert.InDelta(t, 0.53, float64(home.Grid.FromDamp), 0.01)
	short := cards(t, p, assessment.Question{Home: spell(0.3, 1)})[0]
	assert.False(t, short.Season)
	assert.NotEmpty(t, short.SeasonWhy)
	assert.Equal(t, plain.Until, short.Grid.Until)
}

func TestACrateHasOneCardForAllItsPanels(t *testing.T) {
	a, b := described(t, "three_boards"), described(t, "quarter_oak_frame_tight")
	crate := NewCrate(slow{}, []*panel.Panel{a, b})
	of := [][]Card{cards(t, a, assessment.Question{Case: crate}), cards(t, b, assessment.Question{Case: crate})}
	got, soonest := CrateCards(of)
	assert.True(t, got[0].ByCase)
	assert.False(t, got[1].ByCase)
	for side, c := range got {
		require.NotNil(t, c.Grid)
		for i, u := range c.Grid.Until {
			x, y := of[0][side].Grid.Until[i], of[1][side].Grid.Until[i]
			assert.Equal(t, Until{min(x.Call, y.Call), min(x.Act, y.Act)}, u, "row %d", i)
		}
		if at := soonest[side]; at >= 0 {
			assert.Equal(t, of[at][side].First, c.First)
		}
	}
	flaking := cards(t, described(t, "single_flat_pith", `paint = "sound"`, `paint = "flaking"`), assessment.Question{Case: crate})
	got, _ = CrateCards(append(of, flaking))
	assert.Nil(t, got[0].Grid, "one without hours leaves the crate without")
	got, _ = CrateCards(append(of, nil))
	assert.Nil(t, got[1].Grid)
}

// weigh notes the wood that the air of a case feels.
type weigh struct {
	slow
	seen *assessment.Enclosed
}

func (w weigh) After(in assessment.Enclosed, _ moisture.RH, _ time.Duration) (moisture.RH, error) {
	*w.seen = in
	return in.From, nil
}

func TestAllWoodInACrateSteadiesItsAir(t *testing.T) {
	a, b := described(t, "three_boards"), described(t, "quarter_oak_frame_tight")
	alone := func(p *panel.Panel) assessment.Enclosed {
		in, err := assessment.Question{}.Panel(p)
		require.NoError(t, err)
		return in
	}
	var seen assessment.Enclosed
	_, err := NewCrate(weigh{seen: &seen}, []*panel.Panel{a, b}).After(alone(a), 0.3, time.Hour)
	require.NoError(t, err)
	assert.InDelta(t, alone(a).WoodKg+alone(b).WoodKg, seen.WoodKg, 1e-9)
	assert.Equal(t, max(alone(a).Follows, alone(b).Follows), seen.Follows)
	assert.InDelta(t, float64(alone(a).From), float64(seen.From), 1e-12)
}
