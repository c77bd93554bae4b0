package figure

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// slope is a map that rises across from minus to plus s MPa.
func slope(s float64, level bool) PullMap {
	m := PullMap{Panel: Panel{AcrossMM: 400, AlongMM: 600, GrainLevel: level, Boards: []PanelBoard{{"only", 400, false}}}}
	for i := range 9 {
		m.AcrossMM = append(m.AcrossMM, 50*float64(i))
	}
	for k := range 13 {
		m.AlongMM = append(m.AlongMM, 50*float64(k))
		var row []float64
		for _, x := range m.AcrossMM {
			row = append(row, s*(x/200-1))
		}
		m.MPa = append(m.MPa, row)
	}
	return m
}

// A straight course across: by hand, the level 1 of 3 MPa lies at 200 + 200/3 mm from the left, and what is
// above it is a third of the panel.
func TestContoursLieWhereTheStressIs(t *testing.T) {
	for _, level := range []bool{false, true} {
		m := slope(3, level)
		d := m.layout(m.Meta)
		lines := d.n.isolines(d.values, 1)
		require.Len(t, lines, 1)
		for _, q := range d.v.line(lines[0]) {
			want := d.at(200+200.0/3, 0)
			if level {
				assert.InDelta(t, float64(want.Y), float64(q.Y), 1e-6)
			} else {
				assert.InDelta(t, float64(want.X), float64(q.X), 1e-6, "from the back: mirrored")
			}
		}
		outline, _ := d.n.region(d.values, 1)
		assert.InDelta(t, 400.0*600/3*d.per*d.per, math.Abs(shoelace(d.v, outline)), 1e-3)
	}
}

func TestContoursRoundAPeakAreClosed(t *testing.T) {
	m := samplePull(false)
	d := m.layout(m.Meta)
	lines := d.n.isolines(d.values, 1.6)
	require.Len(t, lines, 1)
	q := d.v.line(lines[0])
	assert.Equal(t, q[0], q[len(q)-1])
	lines = d.n.isolines(d.values, -0.4)
	for _, line := range lines { // both run out at an edge of the panel
		q = d.v.line(line)
		assert.NotEqual(t, q[0], q[len(q)-1])
	}
}

func TestLevelsCoverTheStress(t *testing.T) {
	m := slope(3, false)
	d := m.layout(m.Meta)
	assert.InDelta(t, 0.5, d.step, 1e-12, "3 MPa over six steps")
	for _, s := range []string{"0.5", "−0.5", "2.5", "−2.5", "+3.0 MPa", "−3.0 MPa", "pulled", "pressed"} {
		assert.Contains(t, texts(m.Draw()), s)
	}
}

func TestLargestPullIsPlaced(t *testing.T) {
	m := samplePull(false)
	f := m.Draw()
	d := m.layout(m.Meta)
	assert.Equal(t, "Driest day, 9 Feb 2023, 35 % RH: pulled up to 1.9 MPa, 320 mm from the left, 730 mm up (from the front); pressed up to 0.88 MPa, 60 mm from the left, 470 mm up (from the front).", f.Sentence)
	assert.NotEmpty(t, circles(f, d.at(320, 730)), "a dot at the largest pull")
	assert.NotEmpty(t, circles(f, d.at(60, 470)), "a ring at the largest press")
	assert.Contains(t, f.Desc, "upper middle")
	assert.Contains(t, texts(f), "+1.9 MPa")
}

func TestMapsWithoutStress(t *testing.T) {
	m := slope(0.005, false)
	assert.Equal(t, "No stress above 0.01 MPa.", m.Draw().Sentence)
	assert.Contains(t, texts(m.Draw()), "no stress above 0.01 MPa")
	m.MPa = nil
	assert.Contains(t, m.Draw().Sentence, "was not calculated")
	assert.Contains(t, texts(m.Draw()), "not calculated")
	m = slope(3, false)
	m.AcrossMM[3] = m.AcrossMM[2]
	assert.Contains(t, texts(m.Draw()), "not calculated", "places that do not rise")
	m = slope(3, false)
	m.MPa[12][8] = 1e5
	assert.Contains(t, m.Draw().Sentence, "Pulled up to 3.0 MPa", "no wood bears that")
	m = slope(3, false)
	m.Panel.AcrossMM = 300
	assert.Contains(t, m.Draw().Sentence, "Pulled up to 1.5 MPa", "beyond the panel is not read")
}

func TestGridIsThinnedWithItsEnds(t *testing.T) {
	assert.Equal(t, []int{0, 1, 2}, every(3))
	assert.Empty(t, every(0))
	assert.Len(t, every(mostGrid), mostGrid)
	for _, n := range []int{62, 121, 122, 1000} {
		e := every(n)
		assert.LessOrEqual(t, len(e), mostGrid)
		assert.Equal(t, []int{0, n - 1}, []int{e[0], e[len(e)-1]})
	}
}

func BenchmarkPullMap(b *testing.B) {
	m := samplePull(false)
	b.ReportAllocs()
	for b.Loop() {
		if err := m.Draw().SVG(discard{}); err != nil {
			b.Fatal(err)
		}
	}
}
