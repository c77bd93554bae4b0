package response

import (
	"math"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"crossgrain/moisture"
	"crossgrain/panel"
)

// gessoed is one quarter-sawn board of oak with a ground of 1 mm on its front.
func gessoed(t testing.TB, width, thickness float64, state string) *panel.Object {
	o := object(oakBoard(t, "a", width, thickness, 90))
	o.Front = panel.Face{Painted: true, Ground: "chalk-glue", GroundMM: 1, GroundState: state, GroundE: 3000, GroundEIntact: 3000, Paint: "sound"}
	return o
}

func paintWatchOf(t testing.TB, o *panel.Object, flat ...float64) (*Case, *paintWatch) {
	t.Helper()
	c, err := Prepare(o, Quick)
	require.NoError(t, err)
	w, err := c.newPaintWatch(flat)
	require.NoError(t, err)
	return c, w
}

// A board whose free strain swings between -0.002 and 0.002 (invented), kept flat: the ground takes all of
// it, so each swing is 0.004. Three swings of a day: five halves of 0.004 and two of 0.002 at the ends;
// by the rainflow of the standard 0 + - + - + - 0: a half of 0.002, five of 0.004, a half of 0.002.
func TestPaintCountsByHand(t *testing.T) {
	c, w := paintWatchOf(t, gessoed(t, 300, 15, "continuous"), 1)
	b := &c.boards[0]
	m := c.still()
	start := time.Date(2025, 1, 1, 0, 0, 0, 0, time.UTC)
	for i := range 3*24 + 1 {
		m.mc[0] = b.used + unitMC(b, 0.002*math.Sin(2*math.Pi*float64(i)/24))
		w.step(start.Add(time.Duration(i)*time.Hour), time.Hour, &m)
	}
	y := w.finish()[0]
	assert.Equal(t, "face.front", y.Part)
	assert.InDelta(t, 0.002, y.Stretch.Strain, 1e-9)
	assert.InDelta(t, -0.002, y.Press.Strain, 1e-9)
	assert.Equal(t, start.Add(6*time.Hour), y.Stretch.At)
	var n float64
	for _, k := range y.Classes {
		if k.Low >= 0.0025 {
			n += k.Cycles
		}
	}
	assert.InDelta(t, 2.5, n, 1e-9, "five halves of 0.004")
	assert.Equal(t, Swings{1, 0, 0}, y.Swings)
	// harsh: a swing of 0.004 is at the strain that cracks at once in the law: each counts whole.
	assert.GreaterOrEqual(t, y.Damage.High, 2.5*0.99)
	assert.Less(t, y.Damage.Low, y.Damage.High)
	assert.Zero(t, y.Beyond[0])
}

// unitMC is the moisture content that moves a board by a strain.
func unitMC(b *board, strain float64) moisture.MC { return moisture.MC(strain / b.per) }

// The watch and the state in balance tell the same strain where nothing is held and no gradient acts, on
// thin and thick wood, pressed and pulled.
func TestPaintAgreesWithState(t *testing.T) {
	for _, h := range []float64{5, 15, 200} {
		c, w := paintWatchOf(t, gessoed(t, 300, h, "continuous"))
		for _, s := range settle(t, c.o, 0.3, 0.45, 0.7) {
			m := c.still()
			m.mc[0] = s.MC
			got := w.strain(w.faces[0], 0, &m)
			assert.InDelta(t, s.GroundStrain[1], got, 1e-5, "%g mm at %g", h, s.RH.Percent())
			assert.Equal(t, s.RH > 0.5, got > 0, "damp wood stretches the ground, dry wood presses it")
		}
	}
}

// A board that would round towards the painted face stretches its ground: alone, by half its thickness and
// half the ground's times the curvature, less what the ground holds back; nothing when kept flat.
func TestPaintTakesBending(t *testing.T) {
	o := gessoed(t, 300, 200, "continuous")
	o.Front.GroundMM, o.Front.GroundE, o.Front.GroundEIntact = 0.1, 1, 1 // holds nothing back
	c, w := paintWatchOf(t, o)
	m := c.still()
	m.mc[0], m.bend[0] = c.boards[0].used, 1e-5
	assert.InEpsilon(t, 1e-5*(100+0.05), w.strain(w.faces[0], 0, &m), 1e-3)
	_, flat := paintWatchOf(t, o, 1)
	assert.Zero(t, flat.strain(flat.faces[0], 0, &m))

	o.Back = o.Front // on the back it is pressed
	_, both := paintWatchOf(t, o)
	require.Len(t, both.faces, 2)
	assert.InEpsilon(t, -1e-5*(100+0.05), both.strain(both.faces[0], 0, &m), 1e-3)
}

// Cracked, on cloth and loose grounds get no damage; a state that is not recorded is told as one that may be whole.
func TestPaintKinds(t *testing.T) {
	for _, row := range []struct {
		state, paint, layer string
		want                PaintKind
	}{
		{"continuous", "sound", "none", PaintWhole},
		{"continuous", "sound", "canvas on joins", PaintWhole},
		{"continuous", "sound", "canvas all over", PaintOnCloth},
		{"craquelured", "sound", "canvas all over", PaintIslands},
		{"continuous", "flaking", "", PaintLoose},
		{"continuous", "blind cleavage", "", PaintLoose},
		{"lifting", "sound", "", PaintLoose},
		{"not recorded", "not recorded", "", PaintUnknown},
	} {
		o := gessoed(t, 300, 15, row.state)
		o.Front.Paint, o.Front.Interlayer = row.paint, row.layer
		c, w := paintWatchOf(t, o, 1)
		m := c.still()
		for i := range 10 {
			m.mc[0] = c.boards[0].used + unitMC(&c.boards[0], 0.003*float64(i%2))
			w.step(time.Unix(int64(i)*86400*50, 0), time.Hour, &m)
		}
		y := w.finish()[0]
		assert.Equal(t, row.want, y.Kind)
		assert.Equal(t, row.want.limited(), y.Damage.High > 0, row.want)
		assert.Equal(t, Swings{0, 0, 1}, y.Swings, "a swing of a hundred days belongs to the seasons")
	}
}

func TestNoGroundNoWatch(t *testing.T) {
	o := object(oakBoard(t, "a", 300, 15, 90))
	o.Front = panel.Face{Ground: "none"}
	_, w := paintWatchOf(t, o)
	assert.Nil(t, w)
	assert.Empty(t, w.finish())
	w.step(time.Time{}, 0, nil)
}

func TestPaintOverStates(t *testing.T) {
	c, _ := paintWatchOf(t, gessoed(t, 300, 15, "continuous"))
	s := settle(t, c.o, 0.3, 0.5, 0.7)
	y, err := c.PaintOver(s)
	require.NoError(t, err)
	require.Len(t, y, 1)
	assert.Equal(t, s[2].GroundStrain[1], y[0].Stretch.Strain)
	assert.Equal(t, s[0].GroundStrain[1], y[0].Press.Strain)
	assert.Empty(t, y[0].Classes)
}
