package survey

import (
	"context"
	"fmt"
	"math"
	"os"
	"path/filepath"
	"runtime"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"crossgrain/panel"
	"crossgrain/panel/assessment"
)

// described reads a panel file's text.
func described(t *testing.T, number, more string) Described {
	t.Helper()
	src := fmt.Sprintf("[panel]\naccession = %q\nheight_mm = 600\nwidth_mm = 420\nboards = 2\nwood = \"oak\"\nthickness_mm = 12\nend_grain = \"flat\"\n%s", number, more)
	p, problems := panel.Read(number+".toml", []byte(src))
	require.NoError(t, problems.Err())
	return Described{File: number + ".toml", Name: number, Panel: p}
}

func stores(t *testing.T, text string) *Stores {
	t.Helper()
	s, problems := Read("stores.toml", []byte(text))
	require.NoError(t, problems.Err())
	return s
}

const glued = "[used_to]\nrh_pct = 50\n[batten.a]\nalong_mm = 300\nfixing = \"glued\"\nwidth_mm = 60\ndepth_mm = 25\n"

// free is a panel at whose back somebody looked and found nothing; of bare nobody has told.
const (
	bare = "[used_to]\nrh_pct = 50\n"
	free = "back = \"nothing\"\n" + bare
)

const three = `
[store.narrow]
low_rh_pct = 48
high_rh_pct = 52
places = 2
[store.wide]
low_rh_pct = 35
high_rh_pct = 65
places = 3
panels = ["free", "glued", "flaking"]
[store.dry]
low_rh_pct = 20
high_rh_pct = 65
places = 1
`

func look(t *testing.T, s *Stores, panels ...Described) *Result {
	t.Helper()
	r, err := s.Survey(context.Background(), panels, Options{Samples: assessment.Fewest, Seed: 1})
	require.NoError(t, err)
	return r
}

func TestWiderClimatesAskMore(t *testing.T) {
	r := look(t, stores(t, three), described(t, "glued", glued), described(t, "free", free), described(t, "flaking", free+"[face.front]\npaint = \"flaking\"\n"))
	require.Len(t, r.Rows, 3)
	loose, held, flaking := r.Rows[0], r.Rows[1], r.Rows[2] // in the order of the list of stores
	require.Equal(t, []string{"free", "glued", "flaking"}, []string{loose.Number, held.Number, flaking.Number})
	for _, row := range []Row{loose, held} {
		assert.LessOrEqual(t, row.Cells[0].Many, row.Cells[1].Many, row.Number)
		assert.LessOrEqual(t, row.Cells[1].Many, row.Cells[2].Many, row.Number)
	}
	assert.Greater(t, held.Cells[1].Many, loose.Cells[1].Many, "a glued batten holds the panel against its movement")
	assert.NotEmpty(t, held.Cells[1].Part)
	assert.Equal(t, Untold, flaking.Group)
	assert.Equal(t, Gated, flaking.Why)
	assert.Empty(t, flaking.Cells, "no figures behind a gate")
	assert.NotEqual(t, Untold, held.Group)

	p := r.Placement
	require.Empty(t, p.Why)
	assert.Equal(t, 1, p.Standing)
	assert.LessOrEqual(t, p.After, p.Before)
	require.NotEmpty(t, p.Moves)
	for _, m := range p.Moves {
		assert.Greater(t, m.Was-m.Is, float64(moveCost))
		assert.Equal(t, 0, m.To, "to the narrow store")
	}
	before := 0
	for i, s := range p.Stores {
		assert.LessOrEqual(t, s.After, s.Places, i)
		before += s.Before
	}
	assert.Equal(t, 3, before)
	need, joining := 0, []string(nil)
	for _, s := range r.Curve.Steps {
		assert.GreaterOrEqual(t, s.Need, need)
		assert.Equal(t, s.Need-need, len(s.New))
		need = s.Need
		for _, i := range s.New {
			joining = append(joining, r.Rows[i].Number)
		}
	}
	assert.Equal(t, []string{"glued"}, joining, "what nothing holds needs no better room")
}

// What is read off the map is what an assessment over the same climate counts.
func TestMapAgainstAssessment(t *testing.T) {
	d := described(t, "glued", glued)
	r := look(t, stores(t, strings.Replace(three, `, "flaking"`, "", 1)), d, described(t, "free", free))
	held := r.Rows[1]
	a, err := assessment.Assess(context.Background(), d.Panel, assessment.Question{Low: 0.48, High: 0.52, Samples: assessment.Samples{Held: assessment.Fewest, Seed: 1}})
	require.NoError(t, err)
	assert.InDelta(t, a.Doubt.Ways[0].Count.Of100, held.Cells[0].Many, 1e-9)
}

func TestSameBitsOnAnyCores(t *testing.T) {
	run := func(n int) string {
		defer runtime.GOMAXPROCS(runtime.GOMAXPROCS(n))
		r := look(t, stores(t, three), described(t, "glued", glued), described(t, "free", free), described(t, "other", free))
		var b strings.Builder
		for _, row := range r.Rows {
			for _, c := range row.Cells {
				fmt.Fprintf(&b, "%s %x %x %s\n", row.Number, math.Float64bits(c.Many), math.Float64bits(float64(c.Low)), c.Part)
			}
		}
		fmt.Fprint(&b, r.Placement.Moves, r.Day.List)
		return b.String()
	}
	assert.Equal(t, run(1), run(8))
}

func TestOneFailsAndTheRestGoOn(t *testing.T) {
	bad := Described{File: "bad.toml", Name: "bad", Failed: "bad.toml:3: no width"}
	r := look(t, stores(t, three), described(t, "free", free), bad, described(t, "glued", glued), described(t, "glued", free), described(t, "nowhere", free))
	why := map[string]Why{}
	for _, row := range r.Rows {
		why[row.Number] = row.Why
	}
	assert.Equal(t, map[string]Why{"free": ByCount, "bad": Failed, "glued": Twice, "nowhere": NoStore}, why)
	assert.Equal(t, []string{"flaking"}, r.Missing)
	require.Len(t, r.Twins, 1)
	assert.Equal(t, "glued", r.Twins[0].Number)
}

// A cradle that nobody has tried: what is told rests on whether it slides, and trying it comes first on the day.
func TestUnknownCradle(t *testing.T) {
	r := look(t, stores(t, three), described(t, "free", bare+"[cradle]\n"))
	row := r.Rows[0]
	require.NotNil(t, row.Fork)
	assert.Equal(t, Untold, row.Group)
	assert.Contains(t, []Why{Depends, Apart}, row.Why)
	require.NotEmpty(t, r.Day.List)
	assert.Equal(t, row.Fork.Question, r.Day.List[0].What)
	assert.Equal(t, 1, r.Day.Settles)
	assert.LessOrEqual(t, r.Day.Minutes, float64(dayMinutes))
}

func TestStayAndTogether(t *testing.T) {
	text := three + "[stay]\npanels = [\"glued\"]\n[together.pair]\npanels = [\"glued\", \"free\"]\n"
	r := look(t, stores(t, text), described(t, "glued", glued), described(t, "free", free))
	assert.Empty(t, r.Placement.Why)
	assert.Empty(t, r.Placement.Moves, "what is kept with one that stays, stays")
	r = look(t, stores(t, strings.Replace(three, "places = 3", "places = 0", 1)+"[stay]\npanels = [\"glued\"]\n"), described(t, "glued", glued))
	assert.Equal(t, NoRoom, r.Placement.Why)
}

func TestBadLists(t *testing.T) {
	_, problems := Read("s.toml", []byte("[store.a]\nlow_rh_pct = 60\nhigh_rh_pct = 40\nplases = 3\n[store.b]\n[rack.x]\nstore = \"c\"\n[rack.y]\nstore = \"a\"\npanels = [\"1\", \"1\"]\n[stay]\npanels = [\"2\"]\n"))
	text := problems.Err().Error()
	for _, want := range []string{
		"s.toml:2: store.a.low_rh_pct: the band must run from a lower", "s.toml:4: store.a.plases: unknown key", "did you mean places?",
		"s.toml:5: store.b: has no climate", `s.toml:7: rack.x.store: must name a store, got "c"`, "s.toml:10: rack.y.panels: panel 1 stands twice", "s.toml:12: stay.panels: panel 2 stands in no store",
	} {
		assert.Contains(t, text, want)
	}
	for _, src := range []string{"", "store = 3", "[store.a]\nlow_rh_pct = nan\nhigh_rh_pct = 60", "[store.a]\nrecord = \"x\"\nlow_rh_pct = 3", "\xff"} {
		_, problems := Read("s.toml", []byte(src))
		assert.NotEmpty(t, problems, src)
	}
}

// The invented list of testdata can be read, and its records are there.
func TestInventedList(t *testing.T) {
	dir := filepath.Join("..", "..", "testdata", "survey")
	src, err := os.ReadFile(filepath.Join(dir, "stores.toml"))
	require.NoError(t, err)
	s := stores(t, string(src))
	require.Len(t, s.List, 3)
	for _, st := range s.List[:2] {
		_, err := os.Stat(filepath.Join(dir, st.File))
		assert.NoError(t, err)
	}
}

func TestOfABackThatNobodyLookedAtNothingIsTold(t *testing.T) {
	r := look(t, stores(t, three), described(t, "free", bare), described(t, "glued", glued))
	require.Equal(t, "free", r.Rows[0].Number)
	assert.Equal(t, Untold, r.Rows[0].Group)
	assert.Equal(t, Unlooked, r.Rows[0].Why)
	require.NotEmpty(t, r.Day.List)
	assert.Equal(t, "panel.back", r.Day.List[0].Path)
	assert.Equal(t, 1, r.Day.Settles)
}

func TestThePanelsOwnFileTellsWhereItIsKept(t *testing.T) {
	kept := "store = \"WIDE \"\nplace = \"rack 2\"\nmust_stay = true\ngroup = \"wings\"\n"
	r := look(t, stores(t, three), described(t, "a", kept+free), described(t, "b", "store = \"elsewhere\"\n"+free), described(t, "free", "store = \"dry\"\nmust_stay = true\ngroup = \"wings\"\n"+free))
	by := map[string]Row{}
	for _, row := range r.Rows {
		by[row.Number] = row
	}
	assert.Equal(t, 1, by["a"].Store)
	assert.Equal(t, "rack 2", by["a"].Rack)
	assert.Equal(t, "wings", by["a"].Together)
	assert.True(t, by["a"].Stays)
	assert.Equal(t, NoStore, by["b"].Why)
	assert.Equal(t, 1, by["free"].Store, "the list of stores comes before the panel's own file")
	assert.True(t, by["free"].Stays, "and what it does not tell stands in the file")
	assert.Equal(t, "wings", by["free"].Together)
}

func TestAGroupThatStandsApartBindsNoPlacement(t *testing.T) {
	text := strings.Replace(three, `, "flaking"`, "", 1) + "panels = [\"flaking\"]\n"
	r := look(t, stores(t, text), described(t, "glued", "group = \"wings\"\n"+glued), described(t, "flaking", "group = \"wings\"\n"+free), described(t, "free", free))
	assert.Equal(t, []string{"wings"}, r.Parted)
	assert.Empty(t, r.Placement.Why)
	for _, row := range r.Rows {
		assert.Empty(t, row.Together)
	}
}
