package treatment_test

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

	"crossgrain/moisture/record"
	"crossgrain/panel"
	"crossgrain/panel/assessment"
	"crossgrain/panel/response"
	"crossgrain/panel/treatment"
)

func read(t *testing.T, name, more string) *panel.Panel {
	t.Helper()
	src, err := os.ReadFile(filepath.Join("..", "..", "testdata", "panels", name))
	require.NoError(t, err)
	p, problems := panel.Read(name, append(src, more...))
	require.NoError(t, problems.Err())
	return p
}

func weigh(t *testing.T, p *panel.Panel, q assessment.Question) (*treatment.Result, map[string]*treatment.Option) {
	t.Helper()
	r, err := treatment.Weigh(context.Background(), p, q)
	require.NoError(t, err)
	by := map[string]*treatment.Option{}
	for i := range r.Options {
		by[r.Options[i].Name] = &r.Options[i]
		require.Empty(t, r.Options[i].Failed, r.Options[i].Name)
	}
	return r, by
}

// coarse is a range, worked out by elements where that can be.
var coarse = assessment.Question{Low: 0.35, High: 0.65, Setting: response.Coarse}

// Doing nothing is the panel as it is: every number of it is that of an assessment by itself.
func TestDoingNothingIsTheAssessment(t *testing.T) {
	for _, q := range []assessment.Question{coarse, {Low: 0.35, High: 0.65, Samples: assessment.Samples{Held: 64, Seed: 3}}} {
		p := read(t, "options_battens.toml", "")
		r, _ := weigh(t, p, q)
		want, err := assessment.Assess(context.Background(), p, q)
		require.NoError(t, err)
		o := r.Options[0]
		assert.True(t, o.Nothing)
		assert.Equal(t, want.Worst, o.Answer.Worst)
		require.Len(t, o.Answer.States, len(want.States))
		for i := range want.States { // other fields hold NaN, which equals nothing
			a, b := want.States[i], o.Answer.States[i]
			assert.Equal(t, a.Demands, b.Demands)
			assert.Equal(t, a.Bands, b.Bands)
			assert.Equal(t, []float64{a.Width, a.Cup, a.HeldShare}, []float64{b.Width, b.Cup, b.HeldShare})
			assert.Equal(t, a.Shape, b.Shape)
		}
		assert.Equal(t, want.Range, o.Answer.Range)
		require.Len(t, o.Modes, len(r.Options[len(r.Options)-1].Modes), "the same list for every option")
		for _, m := range o.Modes {
			assert.Equal(t, treatment.Same, m.Way)
			if m.At != nil && q.Samples.Held > 0 && m.Mode.SetsRange() {
				for _, c := range want.Doubt.Ways[0].Parts {
					if c.Mode == m.Mode && c.Part == m.Part {
						assert.Equal(t, &[2]float64{c.Of100, c.Of100}, m.Of100)
					}
				}
			}
		}
	}
}

func TestBattensOffHoldNothing(t *testing.T) {
	_, by := weigh(t, read(t, "options_battens.toml", ""), coarse)
	off, was := by["off"], by[""]
	assert.Greater(t, was.Does.HeldWarp, 0.8)
	assert.InDelta(t, 0, off.Does.HeldWidth, 1e-6)
	assert.InDelta(t, 0, off.Does.HeldWarp, 1e-3)
	assert.Equal(t, off.Does.Bare, off.Does.Carried, "nothing carries it but itself")
	assert.Greater(t, off.Does.Carried, was.Does.Carried)
	for i, s := range off.Answer.States {
		width, free := s.Shape.Width, was.Answer.States[i].Shape.Free
		assert.InDelta(t, free, width, 1e-3, "as wide as the panel with battens would be if they did not hold")
		for _, d := range s.Demands {
			if d.Part == "join.middle" || d.Part == "board.left" || d.Part == "board.right" {
				assert.Less(t, d.Share(), 0.01, d.Part)
			}
		}
	}
	for _, m := range off.Modes {
		if m.Mode == response.FixingOverload && (m.Part == "batten.upper" || m.Part == "batten.lower") {
			assert.Equal(t, treatment.Gone, m.Way)
			assert.Nil(t, m.At)
		}
	}
	assert.Equal(t, treatment.LetsAll, off.Letting)
	worse := map[string]treatment.Way{}
	for _, c := range off.Changes {
		worse[c.What] = c.Way
	}
	assert.Equal(t, treatment.Worse, worse["warp_season"], "what gets worse is told")
	assert.Equal(t, treatment.Worse, worse["carried"])
}

// A batten of half the depth bears an eighth: carried level, what the battens take off the panel's sag goes down by eight.
// Panel and battens share the load by their stiffness, so 1/sag - 1/bare goes with the depth cubed.
func TestHalvedBattenBendsAsABeam(t *testing.T) {
	_, by := weigh(t, read(t, "options_battens.toml", "\n[option.half.batten.upper]\ndepth_mm = 9\n[option.half.batten.lower]\ndepth_mm = 9\n"), assessment.Question{Low: 0.35, High: 0.65})
	stiff := func(o *treatment.Option) float64 { return 1/o.Does.Carried - 1/o.Does.Bare }
	assert.InEpsilon(t, 8, stiff(by[""])/stiff(by["half"]), 1e-6)
	assert.Equal(t, "ease", by["half"].Reach)
	assert.Equal(t, "no", by["half"].Touches, "planing a batten leaves the panel alone")
	assert.True(t, by["half"].Guessed)
}

// A case takes the day and leaves the season: held for a season in another humidity the wood gets there.
func TestEnclosingTakesTheDayNotTheSeason(t *testing.T) {
	_, by := weigh(t, read(t, "options_battens.toml", ""), coarse)
	in, was := by["sealed frame"], by[""]
	assert.Less(t, in.Does.Day, 0.2*was.Does.Day)
	assert.Less(t, in.Does.DayWarp, 0.2*was.Does.DayWarp)
	assert.Equal(t, was.Does.Width, in.Does.Width)
	assert.Equal(t, was.Does.Warp, in.Does.Warp)
	for i := range in.Modes {
		assert.Equal(t, treatment.Same, in.Modes[i].Way, in.Modes[i].Part)
	}
	assert.Equal(t, treatment.LetsNothing, in.Letting)
	assert.Equal(t, 18.0, in.Case.Litres)
	assert.False(t, in.Case.Guessed)
}

// A record with a week's fall: in the case the wood sees less of it, and the temperature may be missing.
func TestEnclosedRecord(t *testing.T) {
	rec := &record.Record{Name: "made"}
	for h := range 24 * 60 {
		rec.Times = append(rec.Times, time.Date(2001, 1, 1, h, 0, 0, 0, time.UTC))
		rh := 0.50
		if h > 24*20 && h < 24*27 {
			rh = 0.30
		}
		rec.RH = append(rec.RH, rh)
	}
	q := assessment.Question{Record: rec, Setting: response.Coarse}
	_, by := weigh(t, read(t, "options_battens.toml", ""), q)
	in, was := by["sealed frame"], by[""]
	assert.Less(t, in.Does.Width[1]-in.Does.Width[0], 0.1*(was.Does.Width[1]-was.Does.Width[0]))
	for i, m := range in.Modes {
		if w := was.Modes[i].At; w != nil && m.At != nil && w.Share() > 0.2 && m.Mode != response.FrameBound {
			assert.Less(t, m.At.Share(), w.Share(), m.Part)
		}
	}
	assert.Nil(t, rec.T, "the record itself stays as it was read")
}

// What lets go in part lies between nothing and what letting everything go brings.
func TestLettingGoInTime(t *testing.T) {
	_, by := weigh(t, read(t, "options_battens.toml", ""), coarse)
	off, part := by["off"], by["slots"]
	require.Len(t, off.Time, 4)
	assert.Equal(t, []string{"at_once", "two_days", "half_year", "first_year"}, []string{off.Time[0].When, off.Time[1].When, off.Time[2].When, off.Time[3].When})
	assert.Equal(t, treatment.LetsPart, part.Letting)
	for i, s := range off.Time {
		assert.LessOrEqual(t, s.Warp[0], s.Warp[1])
		assert.Equal(t, min(0, s.Warp[0]), part.Time[i].Warp[0])
		assert.Equal(t, max(0, s.Warp[1]), part.Time[i].Warp[1])
		c := off.Sheet.Rows[i]
		assert.Equal(t, s.Warp, c.Warp)
		assert.Less(t, c.Stop[0], s.Warp[0])
		assert.Greater(t, c.Stop[1], s.Warp[1])
	}
	assert.Greater(t, math.Abs(off.Time[0].Warp[0]), 0.2, "what was held comes back at once")
	assert.Equal(t, []string{"join.middle"}, off.Sheet.Lines)
	for _, row := range by["sealed frame"].Sheet.Rows {
		assert.Zero(t, row.Warp, "what lets nothing go should show no change")
	}
}

// What goes onto or into the wood does not come out again; a batten is not the painting; what the file says stands.
func TestUndoingAndOriginalWood(t *testing.T) {
	_, by := weigh(t, read(t, "options_battens.toml", `
[option.wax.face.back]
coating = "wax-resin"
[option.plane.batten.upper]
depth_mm = 12
[option.refixed.batten.upper]
fixing = "slotted"
[option.wider.frame]
clear_width_mm = 640
[option.said]
remove = ["batten.upper"]
reversible = "yes"
touches_original = false
`), assessment.Question{Low: 0.40, High: 0.60})
	for name, want := range map[string][3]string{
		"wax": {"no", "yes", "guessed"}, "plane": {"in part", "no", "guessed"}, "refixed": {"in part", "yes", "guessed"},
		"wider": {"yes", "no", "guessed"}, "said": {"yes", "no", ""}, "sealed frame": {"yes", "no", ""}, "off": {"in part", "yes", "guessed"},
	} {
		o := by[name]
		assert.Equal(t, want[:2], []string{o.Reversible, o.Touches}, name)
		assert.Equal(t, want[2] != "", o.Guessed, name)
	}
}

func TestStandardOptions(t *testing.T) {
	for file, want := range map[string]string{
		"three_boards.toml":                   "enclose ease remove reglue support",
		"four_board_poplar_glued_cradle.toml": "enclose ease remove support",
		"quarter_oak_frame_tight.toml":        "enclose fit",
		"single_flat_pith.toml":               "enclose",
		"six_facts.toml":                      "enclose ease remove reglue support",
	} {
		t.Run(file, func(t *testing.T) {
			p := read(t, file, "")
			r, by := weigh(t, p, assessment.Question{Low: 0.40, High: 0.60})
			var got []string
			for _, o := range r.Options[1:] {
				got = append(got, o.Reach)
				assert.Equal(t, o.Name, o.Reach)
			}
			assert.True(t, r.Standard)
			assert.Len(t, r.LeftOut, len(panel.Reaches())-len(got), "none is left out without saying why")
			if assert.Equal(t, want, strings.Join(got, " ")) && by["ease"] != nil {
				assert.Less(t, by["ease"].Does.Fixing, by[""].Does.Fixing)
			}
			if file != "six_facts.toml" {
				return
			}
			again := read(t, file, r.Text) // as if they had been put into the file
			s, _ := weigh(t, again, assessment.Question{Low: 0.40, High: 0.60})
			assert.False(t, s.Standard)
			for i := range s.Options {
				assert.Equal(t, r.Options[i].Does, s.Options[i].Does)
			}
		})
	}
}

// The fit is rebuilt so that the frame binds no more over the range.
func TestRebuiltFitDoesNotBind(t *testing.T) {
	_, by := weigh(t, read(t, "quarter_oak_frame_tight.toml", ""), coarse)
	bound := func(o *treatment.Option) float64 {
		for _, m := range o.Modes {
			if m.Mode == response.FrameBound && m.At != nil {
				return m.At.Share()
			}
		}
		return 0
	}
	assert.Greater(t, bound(by[""]), 1.0)
	assert.Less(t, bound(by["fit"]), 1.0)
}

func TestSettleAndCase(t *testing.T) {
	_, by := weigh(t, read(t, "single_flat_pith.toml", "\n[option.open.enclosure]\nseal = \"open\"\n[option.sealed.enclosure]\nseal = \"sealed\"\n"), assessment.Question{Low: 0.40, High: 0.60})
	open, sealed := by["open"], by["sealed"]
	assert.InEpsilon(t, 500, float64(sealed.Case.Half)/float64(open.Case.Half), 0.9)
	assert.Greater(t, sealed.Case.Half, open.Case.Half)
	assert.True(t, open.Case.Guessed, "the volume is not said")
	assert.GreaterOrEqual(t, open.Settle, by[""].Settle)
}

// An option that holds more is told as worse, in the same words as one that holds less is told as better.
func TestWorseIsToldLikeBetter(t *testing.T) {
	_, by := weigh(t, read(t, "options_battens.toml", "\n[option.seized]\nremove = [\"batten\"]\nadd = [\"batten.bar\"]\n[option.seized.batten.bar]\nfixing = \"glued\"\nalong_mm = 440\ndepth_mm = 25\nwidth_mm = 60\n"),
		assessment.Question{Low: 0.35, High: 0.65})
	ways := func(name string) map[treatment.Way]int {
		n := map[treatment.Way]int{}
		for i, m := range by[name].Modes {
			n[m.Way]++
			was := by[""].Modes[i].At
			switch m.Way {
			case treatment.Worse:
				assert.Greater(t, m.At.Share(), was.Share(), m.Part)
			case treatment.Better:
				assert.Less(t, m.At.Share(), was.Share(), m.Part)
			case treatment.New:
				assert.Nil(t, was)
			case treatment.Gone:
				assert.Nil(t, m.At)
			}
		}
		return n
	}
	assert.NotZero(t, ways("seized")[treatment.Worse])
	assert.NotZero(t, ways("seized")[treatment.New])
	assert.NotZero(t, ways("off")[treatment.Better])
	assert.Zero(t, ways("off")[treatment.Worse])
	assert.NotZero(t, ways("off")[treatment.Gone])
}

// A panel that is kept in a case meets the air of that case as it is too, and with every option that leaves it there.
func TestThePanelsOwnCaseCounts(t *testing.T) {
	const option = "\n[option.wax.face.back]\ncoating = \"wax\"\n[option.unboxed]\nremove = [\"enclosure\"]\n[option.sealed.enclosure]\nseal = \"sealed\"\n"
	const kept = "[enclosure]\nseal = \"ordinary\"\nvolume_l = 30\n"
	q := assessment.Question{Low: 0.40, High: 0.60}
	r, by := weigh(t, read(t, "single_flat_pith.toml", kept+option), q)
	require.NotNil(t, by[""].Case)
	assert.InDelta(t, 30, by[""].Case.Litres, 0)
	assert.False(t, by[""].Case.Guessed)
	assert.InDelta(t, 30, by["wax"].Case.Litres, 0)
	assert.Nil(t, by["unboxed"].Case)
	assert.Greater(t, by["unboxed"].Does.Day, by[""].Does.Day, "a day in the room moves it more than one in its case")
	assert.Less(t, by["sealed"].Does.Day, by[""].Does.Day)
	assert.False(t, r.NoVolume)

	_, open := weigh(t, read(t, "single_flat_pith.toml", option[:strings.Index(option, "\n[option.unboxed]")]), q)
	assert.Nil(t, open[""].Case)
	assert.InDelta(t, open[""].Does.Day, by["unboxed"].Does.Day, 1e-12, "out of its case it is as if it never had one")

	r, by = weigh(t, read(t, "single_flat_pith.toml", "[enclosure]\nseal = \"ordinary\"\n"+option), q)
	assert.Nil(t, by[""].Case, "no volume, no case")
	assert.True(t, r.NoVolume)
	_, by = weigh(t, read(t, "single_flat_pith.toml", "[enclosure]\nseal = \"open\"\nvolume_l = 30\n"+option), q)
	assert.Nil(t, by[""].Case)
}
