package panel_test

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"crossgrain/moisture"
	"crossgrain/panel"
)

const observedPanel = `format = 1
[panel]
accession = "INVENTED 8"
height_mm = 600
width_mm = 450
boards = 2
[used_to]
rh_pct = 50
since = 1990
last_inspected = "2023-05-01"
unchanged = true
lived_through_rh_pct = [40, 60]
[join.1-2]
between = ["1", "2"]
open_from = "top"
open_mm = 100
`

func readText(t *testing.T, src string) *panel.Panel {
	t.Helper()
	p, problems := panel.Read("invented.toml", []byte(src))
	require.NoError(t, problems.Err())
	return p
}

func TestObserved(t *testing.T) {
	p := readText(t, observedPanel+"[observed.winter]\nrh_pct = 38\ndays_at_this_rh = 20\ncup_mm = -2.5\nover_mm = 400\n"+
		"[observed.summer]\nrh_pct = 61\ngap_mm = 0.4\nat = \"join.1-2\"\nwidth_mm = 451\ninstrument_mm = 0.05\n")
	o := p.Observed()
	require.Len(t, o, 2)
	assert.Equal(t, panel.Observation{
		Name: "winter", RH: moisture.Percent(38), Days: 20, Cup: -2.5, Over: 400, HasCup: true, CupError: 0.5, GapError: 0.1, WidthError: 1,
	}, o[0])
	assert.Equal(t, "join.1-2", o[1].At)
	assert.True(t, o[1].HasGap && o[1].HasWidth && !o[1].HasCup)
	assert.Equal(t, 0.05, o[1].GapError)
	assert.Equal(t, 450.0, o[1].Over, "over the whole width when no chord is given")
	assert.NotContains(t, p.NotUsed(), "observed.cup_mm")
}

func TestObservedThatDoesNotAgree(t *testing.T) {
	for src, want := range map[string]string{
		"[observed.a]\ncup_mm = 2\n":                                      "rh_pct",
		"[observed.a]\nrh_pct = 40\ngap_mm = 0.2\n":                       "needs the part",
		"[observed.a]\nrh_pct = 40\ngap_mm = 0.2\nat = \"join.middle\"\n": "must be one of",
		"[observed.a]\nrh_pct = 140\ncup_mm = 1\n":                        "rh_pct",
	} {
		_, problems := panel.Read("invented.toml", []byte(observedPanel+src))
		require.Len(t, problems, 1, src)
		assert.ErrorContains(t, problems.Err(), want)
	}
}

func TestLivedIsEvidenceOnlyUnchanged(t *testing.T) {
	l := readText(t, observedPanel).Lived()
	assert.Equal(t, panel.Lived{Low: moisture.Percent(40), High: moisture.Percent(60), Since: "1990", Inspected: "2023-05-01"}, l)
	for add, why := range map[string]string{
		"[face.front]\npaint = \"flaking\"\n":                    "Paint is coming away",
		"[split.a]\nfrom = \"top\"\nage = \"fresh\"\n":           "Split a is fresh",
		"[treated.a]\nyear = 1995\nwhat = \"reglued\"\n":         "after it came there",
		"[treated.a]\nyear = \"2024-01-01\"\nwhat = \"eased\"\n": "after it was last looked at",
		"[treated.a]\nwhat = \"eased\"\n":                        "no year",
	} {
		assert.Contains(t, readText(t, observedPanel+add).Lived().Why, why)
	}
	assert.Empty(t, readText(t, observedPanel+"[treated.a]\nyear = 1930\n").Lived().Why, "a treatment from before counts for nothing")
	assert.Equal(t, panel.Lived{}, readText(t, "format = 1\n[panel]\naccession = \"INVENTED 8\"\nheight_mm = 600\nwidth_mm = 450\n").Lived())
}

func TestForks(t *testing.T) {
	p := readText(t, observedPanel+"[cradle]\n[batten.a]\nalong_mm = 300\nfixing = \"slotted\"\n[batten.b]\nalong_mm = 100\nfixing = \"nailed\"\n")
	forks := p.Forks()
	require.Len(t, forks, 2)
	assert.Equal(t, "cradle.moves", forks[0].Path)
	assert.Equal(t, "batten.a.moves", forks[1].Path)
	assert.Positive(t, forks[0].Minutes)
	stuck := p.With(forks[0].Path, forks[0].Ways[1].Value)
	o, err := stuck.Realise(nil)
	require.NoError(t, err)
	assert.Equal(t, 1.0, o.Cradle.ShareStuck)
	assert.Len(t, stuck.Forks(), 1)
	was, err := p.Realise(nil)
	require.NoError(t, err)
	assert.Equal(t, 0.5, was.Cradle.ShareStuck, "the panel itself is left as it was")
}
