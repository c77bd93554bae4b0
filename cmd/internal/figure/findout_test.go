package figure

import (
	"math"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
)

// The shares are invented.
func sampleFindOut() FindOut {
	return FindOut{Meta: Meta{Invented: true}, Part: "join left-middle opens", Low: 0.3, High: 1.4, Findings: []Finding{
		{"the thickness of the middle board at its edge", "calliper on the edge", "conservator", 5, true, 0.36, 1.3},
		{"whether the cradle slides", "feeler gauge in the slots, or a member moved by hand a little way", "structural conservator", 30, true, 0.5, 1.0},
		{"its warp in a dry and in a damp month", "photograph with a straightedge, humidity noted", "anyone who may handle it", 20, false, 0.45, 1.1},
		{"the humidity it hangs in", "logger on the back", "registrar", 43200, false, 0.35, 1.25},
		{"its age", "", "", 0, false, 0.3, 1.4},
	}}
}

func TestFindingsStandByHowMuchTheyNarrow(t *testing.T) {
	o := sampleFindOut()
	var got []string
	for _, d := range o.sorted() {
		got = append(got, o.narrower(d))
	}
	// 1 - (1.0-0.5)/(1.4-0.3) = 0.545; 1 - 0.65/1.1 = 0.409; 1 - 0.9/1.1 = 0.182; 1 - 0.94/1.1 = 0.145
	assert.Equal(t, []string{"55 in 100 narrower", "41 in 100 narrower", "18 in 100 narrower", "15 in 100 narrower"}, got)
	f := o.Draw()
	all := texts(f)
	assert.Contains(t, all, "55 in 100 narrower")
	assert.Contains(t, all, "1 more would not narrow it.")
	assert.Contains(t, strings.Join(all, " "), "conservator, touches the wood")
	assert.Contains(t, strings.Join(all, "|"), "logger on the back, 1 month, registrar")
	assert.Greater(t, float64(find(t, f, "55 in 100 narrower").box.Min.Y), float64(find(t, f, "15 in 100 narrower").box.Min.Y), "most first")
	assert.Equal(t, "To find out first: whether the cradle slides (feeler gauge in the slots, or a member moved by hand a little way, 30 min, structural conservator, touches the wood). "+
		"The answer, now 3 to 14 tenths of the limit, would be 5 to 10 as a rule.", f.Sentence)
}

func TestBarsOfFindingsEndAtTheirTenths(t *testing.T) {
	o := sampleFindOut()
	s := o.scale()
	assert.Equal(t, []float64{0, 14}, []float64{s.lo, s.hi})
	_, _, paths := drawn(o.Draw())
	for _, want := range [][2]float64{{3, 14}, {5, 10}, {4.5, 11}, {3.5, 12.5}, {3.6, 13}} {
		ok := false
		for _, p := range paths {
			ok = ok || len(p) == 5 && math.Abs(float64(p[0].Pos.X-s.at(want[0]))) < 0.01 && math.Abs(float64(p[2].Pos.X-s.at(want[1]))) < 0.01
		}
		assert.True(t, ok, "no bar over %v tenths", want)
	}
	for _, c := range []struct {
		high, top float64
		limit     bool
	}{{0.05, 2, false}, {0.5, 6, false}, {0.75, 12, true}, {1.21, 14, true}, {9, 40, true}, {1e12, 40, true}} {
		o.High = c.high
		assert.Equal(t, c.top, o.scale().hi, "up to %v", c.high)
		assert.Equal(t, c.limit, o.scale().holds(10))
	}
}

func TestNothingToFindOut(t *testing.T) {
	nan := math.NaN()
	for _, o := range []FindOut{
		{},
		{Low: nan, High: 1, Findings: sampleFindOut().Findings},
		{Low: 1, High: 1, Findings: []Finding{{Low: 1, High: 1}}},
		{Low: 0.5, High: 1, Findings: []Finding{{Low: nan, High: 1}, {Low: 0.4, High: 1.1}, {Low: 0.9, High: 0.6}}},
	} {
		f := o.Draw()
		assert.Contains(t, f.Sentence, "Nothing that can be found out")
		assert.NotContains(t, strings.Join(texts(f), "|"), "limit|")
	}
	assert.Equal(t, []string{"", "under 1 min", "5 min", "3 h", "2 days", "1 month"},
		[]string{minutes(nan), minutes(0.4), minutes(5), minutes(180), minutes(2880), minutes(43200)})
}
