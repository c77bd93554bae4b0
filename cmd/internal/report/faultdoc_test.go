package report

import (
	"bytes"
	"encoding/csv"
	"errors"
	"math"
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"crossgrain/moisture/record"
	"crossgrain/panel"
	"crossgrain/panel/assessment"
	"crossgrain/panel/fault"
	"crossgrain/panel/response"
)

// inventedStore is an invented store: a panel with hours, one in a case, one behind a gate, one not read.
func inventedStore(t *testing.T) Fault {
	t.Helper()
	read := func(number string) *panel.Panel {
		p, problems := panel.Read("x", []byte("format = 1\n[panel]\naccession = \"INVENTED "+number+"\"\nheight_mm = 700\nwidth_mm = 500\nboards = 2\n"))
		require.NoError(t, problems.Err())
		return p
	}
	grid := func(scale float64) *fault.Grid {
		g := &fault.Grid{Rows: fault.Readings(), FromDry: 0.5, FromDamp: 0.5}
		for i := range g.Rows {
			far := math.Abs(float64(i) - 6.5)
			g.Until = append(g.Until, fault.Until{Call: scale * 300 / math.Exp(far), Act: scale * 900 / math.Exp(far)})
		}
		return g
	}
	a, b, c := read("1"), read("2"), read("3")
	return BuildFault(Head{Version: "test"}, "Store 2", true, []FaultSource{
		{File: "1/a.toml", Place: "rack 1", Panel: a, Cards: []fault.Card{{Panel: a, Thin: 13, First: "join_tension:join.1-2", BareBack: true, Grid: grid(1)}}},
		{File: "1/b.toml", Place: "rack 1", Panel: b, Case: &FaultCase{60, 0.5, 2}, Cards: []fault.Card{
			{Panel: b, InCase: true, ByCase: true, Grid: grid(0.5)}, {Panel: b, InCase: true, Grid: grid(40)},
		}},
		{File: "2/c.toml", Place: "rack 2", Panel: c, Cards: []fault.Card{{Panel: c, Gates: []panel.Gate{{ID: "flaking", Text: "The paint is flaking. Secure it first: more words."}}}}},
		{File: "2/d.toml", Place: "rack 2", Err: errors.New("1 problem, nothing was computed\n2/d.toml:3: height_mm <b>: must be a number")},
	})
}

func TestFaultDocument(t *testing.T) {
	f := inventedStore(t)
	require.Len(t, f.Cards, 4)
	assert.Equal(t, []string{"room", "case", "room", "room"}, []string{f.Cards[0].Reading, f.Cards[1].Reading, f.Cards[2].Reading, f.Cards[3].Reading})
	assert.Equal(t, []string{"The paint is flaking."}, f.Cards[3].CallAtOnce)
	assert.Empty(t, f.Cards[3].Rows)
	for _, c := range f.Cards[:3] {
		require.Len(t, c.Cells, len(c.Rows))
		for i, row := range c.Cells {
			require.Len(t, row, len(c.ColumnsH))
			for j, word := range row { // the words by the hours beside them
				want := "wait"
				if c.Rows[i].ActH != nil && c.ColumnsH[j] >= *c.Rows[i].ActH {
					want = "act"
				} else if c.Rows[i].CallH != nil && c.ColumnsH[j] >= *c.Rows[i].CallH {
					want = "call"
				}
				assert.Equal(t, want, word)
			}
		}
	}
	require.NotNil(t, f.Door)
	assert.Equal(t, f.Cards[0].Cells, f.Door.Cells, "the case of the second waits longer, and the door sheet reads the room")
	assert.Len(t, f.Door.Panels, 4, "nobody is left out")
	assert.Equal(t, "INVENTED 1", f.Door.Order[0][0].Accession)
}

func TestFaultTextNamesEveryPanelOfTheDoor(t *testing.T) {
	var b bytes.Buffer
	require.NoError(t, inventedStore(t).WriteText(&b))
	got := b.String()
	for _, want := range []string{
		"INVENTED EXAMPLE", "Door sheet: Store 2", "WAIT", "CALL", "ACT", "rack 1, INVENTED 1", "Do not reheat fast",
		"rack 2, INVENTED 3: The paint is flaking.", "rack 2, d: Its file could not be read", "has not seen the panel",
	} {
		assert.Contains(t, got, want)
	}
	for l := range strings.Lines(got) {
		assert.LessOrEqual(t, displayWidth(strings.TrimSuffix(l, "\n")), columns, l)
	}
}

func TestFaultPage(t *testing.T) {
	f := inventedStore(t)
	f.Cards[0].Title = `<script>alert(1)</script>`
	var b bytes.Buffer
	require.NoError(t, f.WriteHTML(&b, ""))
	got := b.String()
	assert.NotContains(t, got, "<script", "no script, and text is escaped")
	assert.NotContains(t, got, "http://")
	assert.NotContains(t, got, "https://", "nothing is fetched")
	assert.Equal(t, 4, strings.Count(got, `class="card"`))
	assert.Equal(t, 1, strings.Count(got, `class="door"`))
	assert.Contains(t, got, `href="#card-4"`)
	assert.Contains(t, got, "Reading INSIDE the closed case")
	assert.Contains(t, got, "Reading of the ROOM around the closed case")
	acts := 0
	for _, g := range append([]FaultGrid{f.Door.FaultGrid}, f.Cards[0].FaultGrid, f.Cards[1].FaultGrid, f.Cards[2].FaultGrid) {
		for _, row := range g.Cells {
			for _, c := range row {
				if c == "act" {
					acts++
				}
			}
		}
	}
	assert.Equal(t, acts, strings.Count(got, `<svg aria-hidden="true"><use href="#act"/></svg><b>ACT</b>`), "hatch and word in every cell")
	assert.True(t, strings.Contains(got, "counts as thin (13"))
	assert.True(t, strings.Contains(got, "(68 °F)"), "both scales")
}

func TestFaultCSV(t *testing.T) {
	f := inventedStore(t)
	var b bytes.Buffer
	require.NoError(t, f.WriteCSV(&b))
	rows, err := csv.NewReader(&b).ReadAll()
	require.NoError(t, err)
	assert.Len(t, rows, 1+3*len(fault.Readings())+1+1)
	assert.Equal(t, "The paint is flaking.", rows[len(rows)-2][len(rows[0])-1])
}

func TestCoolingAndWarmingOfAir(t *testing.T) {
	// By hand, Magnus form over water: psat(20) = 2333.4, psat(12) = 1401.0, psat(10) = 1226.9 Pa
	// (611.2 exp(17.62 T / (243.12 + T))): 50 x 2333.4/1401.0 = 83.3, 70 x 1226.9/2333.4 = 36.8.
	assert.Contains(t, airWords(), "is at 83 % RH")
	assert.Contains(t, airWords(), "is at 37 % RH")
}

func TestRowsAndTimesInWords(t *testing.T) {
	assert.Equal(t, "under 20", FaultRow{LowRHPct: 0, HighRHPct: 20}.words())
	assert.Equal(t, "45 to 50", FaultRow{LowRHPct: 45, HighRHPct: 50}.words())
	assert.Equal(t, "from 80", FaultRow{LowRHPct: 80, HighRHPct: 100}.words())
	for h, want := range map[float64]string{0.2: "<1h", 1.9: "1h", 23.9: "23h", 47: "1d", 167: "6d", 168: "1w"} {
		assert.Equal(t, want, shortTime(h))
	}
}

func TestEventSheet(t *testing.T) {
	p, problems := panel.Read("x", []byte("format = 1\n[panel]\naccession = \"INVENTED 1\"\nheight_mm = 700\nwidth_mm = 500\nboards = 2\n"))
	require.NoError(t, problems.Err())
	rec := &record.Record{Name: "room.csv"}
	start := time.Date(2024, 1, 14, 0, 0, 0, 0, time.UTC)
	for h := range 100 {
		rec.Times, rec.RH = append(rec.Times, start.Add(time.Duration(h)*time.Hour)), append(rec.RH, 0.5-0.002*float64(h))
	}
	e := &fault.Event{
		Panel: p, Start: 0.5, Gates: []panel.Gate{{Text: "Board a has live insects. More."}},
		Parts: []fault.Part{
			{Demand: response.Demand{Mode: "join_tension", Part: "join.1-2", Value: 1.2, Capacity: 1}, Band: assessment.Band{Low: 0.6, High: 2.4}, RH: 0.4, Time: start.Add(90 * time.Hour), First: start.Add(80 * time.Hour), Season: 0.8, HasSeason: true},
			{Demand: response.Demand{Mode: "check_growth", Part: "split.top", Value: 0.7, Capacity: 1}, Band: assessment.Band{Low: 0.4, High: 1.1}, RH: 0.4, Time: start.Add(90 * time.Hour)},
		},
		Slow: fault.Slow{Mean: 0.4, Set: 0.001},
	}
	whole := rec
	f := BuildEvent(Head{Version: "test"}, "Store 2", whole, rec.Between(start.Add(48*time.Hour), start.Add(100*time.Hour)), []EventSource{
		{File: "a.toml", Place: "rack 1", Event: e}, {File: "b.toml", Err: errors.New("nothing")},
	})
	assert.Equal(t, "2024-01-16T00:00", f.Record.First)
	assert.Equal(t, "2024-01-14T00:00", f.Record.From)
	require.NotNil(t, f.Record.Most24hPct)
	assert.InDelta(t, 4.8, *f.Record.Most24hPct, 1e-6, "0.2 points an hour")
	require.Len(t, f.Panels[0].Slow.Season, 1, "slow change stands apart from the event")
	var b bytes.Buffer
	require.NoError(t, f.WriteText(&b))
	got := b.String()
	for _, want := range []string{
		"Look at this first: Board a has live insects.", "Join 1-2", "12 (6 to", "17 Jan", "[ ] looked at", "stayed for a season, in tenths: join 1-2 (the join opens) 8",
		"1.0 mm on a metre", "b.toml could not be read: nothing", "nothing of causes",
	} {
		assert.Contains(t, strings.Join(strings.Fields(got), " "), want)
	}
	for _, never := range []string{"because", "caused by", "fault of", "blame"} {
		assert.NotContains(t, got, never)
	}
	b.Reset()
	require.NoError(t, f.WriteHTML(&b, ""))
	assert.NotContains(t, b.String(), "<script")
	assert.Less(t, strings.Index(b.String(), "hours and days"), strings.Index(b.String(), "months and years"))
	b.Reset()
	require.NoError(t, f.WriteCSV(&b))
	rows, err := csv.NewReader(&b).ReadAll()
	require.NoError(t, err)
	assert.Len(t, rows, 4)
}
