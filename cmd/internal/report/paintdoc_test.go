package report

import (
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"crossgrain/panel/assessment"
	"crossgrain/panel/fracture"
	"crossgrain/panel/response"
)

// Each kind of ground has its own sentence; only one to which limits apply has an account of swings; loose paint has no number.
func TestGroundAndPaintInWords(t *testing.T) {
	day := time.Date(2023, 8, 9, 10, 0, 0, 0, time.UTC)
	face := func(kind response.PaintKind) response.PaintYear {
		return response.PaintYear{
			Part: "face.front", Kind: kind, Stretch: response.Peak{Strain: 0.0031, At: day}, Press: response.Peak{Strain: -0.0012, At: day},
			Damage: fracture.Damage{Low: 0.002, High: 0.4}, Swings: response.Swings{0.2, 0.7, 0.1},
		}
	}
	for kind, want := range map[response.PaintKind]string{
		response.PaintWhole: "recorded without cracks", response.PaintUnknown: "not recorded", response.PaintIslands: "cracked all over",
		response.PaintOnCloth: "layer of its own", response.PaintLoose: "secured first",
	} {
		r := &assessment.Result{Year: &response.Year{}, Paint: []response.PaintYear{face(kind)}}
		a := Assess{Paint: paintOf(r)}
		words := strings.Join(a.paintWords(), "\n")
		assert.Contains(t, words, want)
		rows := a.paintTable().Rows
		if kind == response.PaintLoose {
			assert.Empty(t, rows)
			continue
		}
		require.Len(t, rows, 1)
		assert.Equal(t, []string{"3.1", "9 August 2023", "1.2", "9 August 2023"}, rows[0][1:])
		assert.Contains(t, words, "fewer than 1 to 40 of the 100 parts")
		assert.Contains(t, words, "swings of weeks")
	}
	r := &assessment.Result{AtLines: []response.GroundAtLine{{Part: "split.top", Face: "front", Bears: 0.008, Opens: 0.5, Cracks: true}, {Part: "join.a", Face: "front"}}}
	words := Assess{PaintLines: paintLines(r)}.paintWords()
	require.Len(t, words, 1)
	assert.Contains(t, words[0], "opens by 0.5 mm")
}

// One sentence for each face says what would lift the ground at its edges, and how; too little to tell is left out.
func TestGroundAtItsEdgesInWords(t *testing.T) {
	say := func(e fracture.EdgeShear) string {
		r := &assessment.Result{Paint: []response.PaintYear{{Part: "face.front", Kind: response.PaintIslands, Edge: e}}}
		return strings.Join(Assess{Paint: paintOf(r)}.paintWords(), "\n")
	}
	pressed := say(fracture.EdgeShear{Energy: 0.00312, Lifts: true})
	assert.Contains(t, pressed, "rise like a tent when it is pressed most; letting go there sets free 3.1 J/m2")
	assert.Contains(t, pressed, "low confidence")
	assert.Contains(t, say(fracture.EdgeShear{Energy: 0.00312}), "curl up when it is stretched most")
	assert.NotContains(t, say(fracture.EdgeShear{Energy: 1e-5, Lifts: true}), "J/m2")
}

// A line that closes says where, one that cannot says why; what asks least is a step of five points.
func TestReglueInWords(t *testing.T) {
	r := &assessment.Result{Reglue: []response.Reglue{
		{Part: "join.a", Closes: response.ClosesAt, ClosesRH: 0.62, Low: 0.50, High: 0.55, Indoors: true, Half: 48 * time.Hour, Most: 240 * time.Hour,
			At: response.GlueAt{Pull: 0.31, Press: 0.28}, Used: response.GlueAt{Pull: 0.05, Press: 0.62}, MoreThan: true,
			Next: response.Demand{Mode: response.CheckGrowth, Part: "split.top", Value: 0.7, Capacity: 1}},
		{Part: "split.top", Closes: response.ClosesFree},
	}}
	a := Assess{Reglue: reglues(r)}
	rows := a.reglueTable().Rows
	require.Len(t, rows, 2)
	assert.Equal(t, []string{"join a", "at 62 % RH", "50 to 55", "3", "6", "10 days"}, rows[0])
	assert.Equal(t, "any", rows[1][2])
	words := strings.Join(a.reglueWords(), "\n")
	for _, want := range []string{"Once join a holds, nearest to giving way by dryness is split top, it lengthens, at 7 tenths", "more than hand pressure", "do not force it", "Glue brings water"} {
		assert.Contains(t, words, want)
	}
	assert.Empty(t, Assess{}.reglueWords())
}
