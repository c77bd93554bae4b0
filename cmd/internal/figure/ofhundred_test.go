package figure

import (
	"image/color"
	"math"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"gonum.org/v1/plot/vg/draw"
	"gonum.org/v1/plot/vg/recorder"
)

// The counts are invented.
func sampleOfHundred() OfHundred {
	return OfHundred{Meta: Meta{Invented: true}, What: "reach a limit", When: "in a year of 35 to 65 % RH", Situations: []Situation{
		{"as it is, if the cradle slides", "the climate of the store", 14, 22},
		{"as it is, if the cradle is seized", "", 71, 83},
		{"on loan, in a closed case", "12 weeks", 0.2, 0.4},
		{"after releasing every second member", "in the first damp-dry year", 2, 37},
	}}
}

func manyOfHundred() OfHundred {
	o := OfHundred{Meta: Meta{ID: "of-hundred-many", Invented: true}}
	nan := math.NaN()
	for i, v := range [][2]float64{{0, 0}, {100, 100}, {99.7, 99.9}, {0.3, 4}, {nan, nan}, {nan, 5}, {-4, 300}, {60, 40}, {1, 2}, {3, 4}} {
		o.Situations = append(o.Situations, Situation{Name: longName[i*3:], Note: longName[:9*i], Low: v[0], High: v[1]})
	}
	return o
}

// fills counts the filled shapes of a figure by colour and corners.
func fills(f Figure) map[color.NRGBA]map[int]int {
	var c recorder.Canvas
	f.onto(pen{c: draw.NewCanvas(&c, f.W, f.height(true)), keep: true}, true)
	out := map[color.NRGBA]map[int]int{}
	var now color.NRGBA
	for _, a := range c.Actions {
		switch a := a.(type) {
		case *recorder.SetColor:
			now = rgba(a.Color)
		case *recorder.Fill:
			if out[now] == nil {
				out[now] = map[int]int{}
			}
			out[now][len(a.Path)-1]++ // less the closing
		}
	}
	return out
}

func TestAsManyAreMarkedAsWereCounted(t *testing.T) {
	nan, inf := math.NaN(), math.Inf(1)
	for _, c := range []struct {
		why              string
		low, high        float64
		surely, perhaps  int
		open             int
		answer, sentence string
	}{
		{"a range", 14, 22, 14, 8, 78, "14 to 22 of 100", "14 to 22 of 100 such panels reach a limit"},
		{"one number", 7, 7, 7, 0, 93, "7 of 100", "7 of 100 such panels"},
		{"rounds to one", 6.6, 7.4, 7, 0, 93, "7 of 100", "7 of 100 such panels"},
		{"never none", 0, 0, 0, 0, 100, "fewer than 1 of 100", "Fewer than 1 of 100 such panels"},
		{"below one", 0.1, 0.45, 0, 0, 100, "fewer than 1 of 100", "Fewer than 1 of 100 such panels"},
		{"from below one", 0.1, 4, 0, 4, 96, "up to 4 of 100", "Up to 4 of 100 such panels"},
		{"never all", 100, 100, 100, 0, 0, "over 99 of 100", "Over 99 of 100 such panels"},
		{"more than tenfold", 2, 21, 2, 19, 79, "cannot be told yet", "Cannot be told yet how many of 100 such panels reach a limit (2 to 21 of 100)"},
		{"just tenfold", 2, 20, 2, 18, 80, "2 to 20 of 100", "2 to 20 of 100"},
		{"tenfold of one", 0, 11, 0, 11, 89, "cannot be told yet", "(up to 11 of 100)"},
		{"upside down", 30, 20, 20, 10, 70, "20 to 30 of 100", "20 to 30 of 100"},
		{"one end alone", nan, 5, 5, 0, 95, "5 of 100", "5 of 100"},
		{"beyond both ends", -5, inf, 0, 100, 0, "cannot be told yet", "(up to all 100)"},
		{"no count", nan, nan, 0, 0, 0, "cannot be told yet", "Cannot be told yet how many of 100 such panels reach a limit."},
	} {
		t.Run(c.why, func(t *testing.T) {
			f := OfHundred{Situations: []Situation{{Low: c.low, High: c.high}}}.Draw()
			got := fills(f)
			assert.Equal(t, c.surely, got[dark(vermilion)][4], "full squares")
			assert.Equal(t, c.perhaps, got[dark(vermilion)][3], "half squares")
			assert.Equal(t, c.open, got[white][4], "open squares")
			assert.Contains(t, texts(f), c.answer)
			assert.Contains(t, f.Sentence, c.sentence)
		})
	}
}

func TestSituationsStandSideBySide(t *testing.T) {
	f := sampleOfHundred().Draw()
	got := fills(f)
	assert.Equal(t, 14+71+0+2, got[dark(vermilion)][4])
	assert.Equal(t, 8+12+0+35, got[dark(vermilion)][3])
	all := strings.Join(texts(f), "|")
	assert.Contains(t, all, "Half full: perhaps.")
	assert.NotContains(t, all, "Dashed")
	assert.Contains(t, f.Sentence, "if the cradle slides: 14 to 22 of 100 such panels reach a limit in a year of 35 to 65 % RH. As it is, if the cradle is seized: 71 to 83 of 100.")
	assert.Contains(t, f.Desc, "14 marked, 8 perhaps.")
	a, b := find(t, f, "14 to 22 of 100"), find(t, f, "71 to 83 of 100")
	assert.Equal(t, a.box.Min.Y, b.box.Min.Y, "the answers stand in line")

	many := manyOfHundred().Draw()
	assert.Contains(t, strings.Join(texts(many), " "), "2 more are not drawn.")
	assert.Contains(t, strings.Join(texts(many), " "), "Dashed: not known.")
	empty := OfHundred{}.Draw()
	require.Empty(t, fills(empty))
	assert.Equal(t, "Nothing was counted.", empty.Sentence)
}
