package figure

import (
	"math"
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"gonum.org/v1/plot/vg"
	"gonum.org/v1/plot/vg/draw"
	"gonum.org/v1/plot/vg/recorder"
)

func ramp(k float64) HeldCourse {
	c := HeldCourse{Name: "batten"}
	for i := range 11 {
		c.LowN, c.HighN = append(c.LowN, 0.5*k*float64(i)), append(c.HighN, k*float64(i))
	}
	return c
}

func rampYear() HoldYear {
	y := HoldYear{Start: time.Date(2023, 3, 1, 0, 0, 0, 0, time.UTC)}
	for i := range 11 {
		y.Days = append(y.Days, 30*float64(i))
	}
	y.Members = []HeldCourse{ramp(1), ramp(20)}
	return y
}

func TestHardestDayIsDated(t *testing.T) {
	y := rampYear()
	f := y.Draw()
	assert.Equal(t, "It is held hardest on 26 Dec 2023: 200 N (about 20 kg) on a fixing of batten.", f.Sentence, "1 March and 300 days; 20 N x 10")
	assert.Contains(t, texts(f), "200 N, about 20 kg, 26 Dec 2023")
	assert.Contains(t, texts(f), "10 N, about 1 kg, 26 Dec 2023")
	y.Members[0].LowN[4] = -900
	f = y.Draw()
	assert.Contains(t, f.Sentence, "on 29 Jun 2023: 900 N", "a push counts as a pull does: 1 March and 120 days")
}

func TestMembersShareOneScale(t *testing.T) {
	y := rampYear()
	all := y.courses(y.greatest(), 0, 300)
	require.Len(t, all, 2)
	assert.Equal(t, all[0].y.lo, all[1].y.lo)
	assert.Equal(t, all[0].y.hi, all[1].y.hi)
	assert.GreaterOrEqual(t, all[0].y.hi, 200.0)
	assert.InDeltaSlice(t, ramp(20).HighN, all[0].bands[0].hi, 1e-12, "the hardest first")
	assert.InDelta(t, 0.75*20*4, all[0].curves[0].y[4], 1e-12, "the line runs in the middle of the band")
	f := all[0].layout(box(0, 0, 400, 50))
	assert.InDelta(t, float64(f.sy.at(150)), float64(f.drawn[0][0][10].Y), 1e-6)
}

func TestBoundSlotsAreMarked(t *testing.T) {
	y := rampYear()
	y.Members = y.Members[1:]
	y.Members[0].Binds = []Interval{{30, 60, "slots bind"}, {120, 240, "slots bind"}, {250, 250, "slots bind"}, {math.NaN(), 3, "x"}}
	c := y.Members[0]
	z := c.zones()
	require.Len(t, z, 2, "what has no length is left out")
	assert.Equal(t, []string{"", "slots bind"}, []string{z[0].name, z[1].name}, "the longest is named")
	field := y.courses(y.Members, 0, 300)[0].layout(box(0, 10, 400, 60))
	var rec recorder.Canvas
	c.foot(pen{c: draw.NewCanvas(&rec, 400, 80)}, field)
	var feet [][2]vg.Length
	for _, a := range rec.Actions {
		if f, ok := a.(*recorder.Fill); ok {
			feet = append(feet, [2]vg.Length{f.Path[0].Pos.X, f.Path[1].Pos.X})
			assert.InDelta(t, float64(field.r.Min.Y), float64(f.Path[2].Pos.Y), 1e-9, "under the axis")
		}
	}
	assert.Equal(t, [][2]vg.Length{{field.sx.at(30), field.sx.at(60)}, {field.sx.at(120), field.sx.at(240)}}, feet)
	assert.Contains(t, y.Draw().Desc, "Slots bind from 29 Jun 2023 to 27 Oct 2023.")
	assert.Equal(t, 1, strings.Count(strings.Join(texts(y.Draw()), "|"), "slots bind"))
}

func TestSixMembersAreDrawn(t *testing.T) {
	y := rampYear()
	y.Every = 30
	for i := range 7 {
		y.Members = append(y.Members, ramp(2+float64(i)))
	}
	all := strings.Join(texts(y.Draw()), "|")
	assert.Contains(t, all, "every 30 days")
	assert.Contains(t, all, "The 6 greatest; 3 more carry less.")
	assert.Equal(t, 6, strings.Count(all, "batten / N"))
	assert.Equal(t, "Nothing holds this panel.", HoldYear{}.Draw().Sentence)
	y.Members = []HeldCourse{{Name: "a"}}
	assert.Equal(t, "The forces could not be calculated.", y.Draw().Sentence)
}
