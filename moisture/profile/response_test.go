package profile_test

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"crossgrain/moisture"
	"crossgrain/moisture/profile"
)

var mild = profile.Climate{RH: 0.5, T: 20}

// A board calibrated to 1e-10 m2/s, bare at one face, against the printed days of a sheet without
// film (9.11 and 52.3 for 20 mm): the film of 2e-8 has a Biot number of 128 here, which adds 3 %,
// and the curve bends.
func TestResponseTimes(t *testing.T) {
	tr, err := profile.Calibrate(profile.Diffusion{D: 1e-10, RH: 0.5, T: 20}, 450, nil, 0)
	require.NoError(t, err)
	w := profile.Wall{Thickness: 20, Density: 450, Transport: tr, Storage: profile.Storage{T: 20}, Front: profile.Face{Sealed: true}}
	r, err := profile.ResponseTimes(w, profile.Options{Memory: profile.Mean}, mild)
	require.NoError(t, err)
	assert.InEpsilon(t, 9.11, r.Half/day, 0.10)
	assert.InEpsilon(t, 52.3, r.Most/day, 0.10)

	w.Storage.Branches = poplarBranches()
	m, err := profile.ResponseTimes(w, profile.Default(), mild)
	require.NoError(t, err)
	assert.Less(t, m.Half, r.Half, "the loop holds less water per point and follows faster")

	w.Back.Sealed = true
	_, err = profile.ResponseTimes(w, profile.Default(), mild)
	assert.ErrorContains(t, err, "sealed")
}

// Printed: a sheet of 20 mm with D 1e-10 and one face open lets through 0.0586 of the day, 0.155 of
// the week, 0.324 of the month and 0.954 of the year (SIN-M rows); the skin follows nearly at once.
func TestAttenuation(t *testing.T) {
	tr, err := profile.Calibrate(profile.Diffusion{D: 1e-10, RH: 0.5, T: 20}, 450, nil, 0)
	require.NoError(t, err)
	w := profile.Wall{Thickness: 20, Density: 450, Transport: tr, Storage: profile.Storage{T: 20},
		Back: profile.Face{Film: 1}, Front: profile.Face{Sealed: true}}
	for period, want := range map[float64]float64{profile.Day: 0.05863, profile.Week: 0.15516, profile.Month: 0.32354, profile.Year: 0.95422} {
		a, err := profile.Attenuate(w, profile.Options{Cells: 200, Memory: profile.Mean}, mild, period)
		require.NoError(t, err)
		assert.InEpsilon(t, want, a.Mean.Share, 1e-3, "period %g d", period/day)
		assert.InDelta(t, 1, a.Skin.Share, 1e-3)
		assert.Greater(t, a.Painted.Lag, a.Mean.Lag)
	}
}

// The linear answer is what the solver does with a small swing.
func TestAttenuationAgainstSteps(t *testing.T) {
	againstSteps(t, profile.Options{Cells: 40, Memory: profile.Mean, Tol: 1e-8}, (moisture.HailwoodHorrobin{}).Slope(0.5, 20))
	// A closed loop of 1 point, by the memory itself.
	scan := moisture.StartAt(oakBranches(), 0.495, moisture.Settled)
	scan.Commit(oakBranches(), 0.505)
	hi, _ := scan.At(oakBranches(), 0.505)
	lo, _ := scan.At(oakBranches(), 0.495)
	againstSteps(t, profile.Options{Cells: 40, Tol: 1e-8}, (hi-lo)/0.01)
}

func againstSteps(t *testing.T, o profile.Options, slope float64) {
	t.Helper()
	w := board(oakBranches())
	const period = 10 * day
	a, err := profile.Attenuate(w, o, mild, period)
	require.NoError(t, err)
	s := start(t, w, o, mild)
	air := func(i int) profile.Climate {
		return profile.Climate{RH: moisture.RH(0.5 + 0.005*math.Sin(2*math.Pi*float64(i)*hour/period)), T: 20}
	}
	lo, hi := 1.0, 0.0
	for i := range 240 * 20 {
		_, err := s.Step(hour, air(i), air(i+1))
		require.NoError(t, err)
		if i > 240*18 {
			lo, hi = min(lo, s.Mean()), max(hi, s.Mean())
		}
	}
	assert.InEpsilon(t, a.Mean.Share, (hi-lo)/(0.01*slope), 0.02)
}

// Printed: mu 50, 450 kg/m3, 20 °C and 50 % amount to 1.2483e-10 m2/s (DIF-MU-50, Magnus).
func TestCalibrate(t *testing.T) {
	const slope = 0.1608717
	d, err := profile.Transport{Mu: 50, Saturation: moisture.MagnusWMO}.Coefficient(mild, 450, slope)
	require.NoError(t, err)
	assert.InEpsilon(t, 1.2483e-10, d, 1e-3)
	for _, growth := range []float64{0, 3} {
		at := profile.Diffusion{D: 8e-11, RH: 0.65, T: 23}
		tr, err := profile.Calibrate(at, 600, nil, growth)
		require.NoError(t, err)
		back, err := tr.Coefficient(profile.Climate{RH: 0.65, T: 23}, 600, (moisture.HailwoodHorrobin{}).Slope(0.65, 23))
		require.NoError(t, err)
		assert.InEpsilon(t, 8e-11, back, 1e-9)
	}
	_, err = profile.Calibrate(profile.Diffusion{D: 1, RH: 0.5, T: 20}, 600, nil, 0)
	assert.ErrorContains(t, err, "diffusion coefficient")
	tr, err := profile.CupTests(200, 50)
	require.NoError(t, err)
	assert.InEpsilon(t, 100, tr.Mu, 1e-12)
	for h, mu := range map[moisture.RH]float64{0.25: 200, 0.75: 50} { // the two tests themselves
		d, err := tr.Coefficient(profile.Climate{RH: h, T: 20}, 450, 0.16)
		require.NoError(t, err)
		same, err := profile.Transport{Mu: mu}.Coefficient(mild, 450, 0.16)
		require.NoError(t, err)
		assert.InEpsilon(t, same, d, 1e-9)
	}
	assert.InDelta(t, 1.937e-10, profile.DeltaAir(20), 1e-13)
}

func TestColumns(t *testing.T) {
	w := board(oakBranches())
	under := w.UnderMember(1.6)
	r, err := profile.ResponseTimes(w, profile.Default(), mild)
	require.NoError(t, err)
	slow, err := profile.ResponseTimes(under, profile.Default(), mild)
	require.NoError(t, err)
	assert.Greater(t, slow.Half, 1.5*r.Half)
	assert.Zero(t, w.Back.Sd, "the board itself is not changed")

	for d, want := range map[float64]float64{0: 8, 15: 14, 30: 20, 90: 20} {
		b, err := w.Bevelled(8, 30, d)
		require.NoError(t, err)
		assert.InDelta(t, want, b.Thickness, 1e-12)
	}
	_, err = w.Bevelled(30, 30, 0)
	assert.ErrorContains(t, err, "thickness at the edge")

	// 500 mm of still air are 0.5 m: as a coating of that sd
	gap, coat := w, w
	gap.Back.Backing, coat.Back.Sd = &profile.Backing{Gap: 500}, 0.5
	ofGap, err := profile.ResponseTimes(gap, profile.Default(), mild)
	require.NoError(t, err)
	ofCoat, err := profile.ResponseTimes(coat, profile.Default(), mild)
	require.NoError(t, err)
	assert.InEpsilon(t, ofCoat.Half, ofGap.Half, 1e-9)

	w.Back.Backing = &profile.Backing{Gap: 10, Sd: 2}
	behind, err := profile.ResponseTimes(w, profile.Default(), mild)
	require.NoError(t, err)
	w.Back.Backing = &profile.Backing{Gap: 10, Sd: 2, Leak: 0.1}
	leaky, err := profile.ResponseTimes(w, profile.Default(), mild)
	require.NoError(t, err)
	assert.Greater(t, behind.Half, leaky.Half)
	assert.Greater(t, leaky.Half, r.Half)
}

// Along the grain with 1.2e-9 m2/s an open end has made 60 % of the step at 20 mm after 7 d and at
// 40 mm after 30 d (erfc, worked out by hand: 20/(2 sqrt(1.2e-9 x 7 d)) = 0.371, erfc 0.600).
func TestEdge(t *testing.T) {
	e := profile.Edge{D: 1.2e-9, S: math.Inf(1)}
	assert.InDelta(t, 0.600, e.Share(20, 7*day), 1e-3)
	assert.InDelta(t, 0.612, e.Share(40, 30*day), 1e-3)
	film := profile.Edge{D: 1e-10, S: 2e-7}
	for _, c := range []struct{ mm, s float64 }{{0, day}, {2, day}, {1, 100 * day}, {5, 1000 * day}} {
		// a very thick sheet is a half space
		f := moisture.Faces{Back: film.S * 1 / film.D}
		assert.InDelta(t, f.Local(c.mm/1000, film.D*c.s), film.Share(c.mm, c.s), 1e-9)
	}
	assert.InDelta(t, 1-0.4*0.3, profile.BothWays(0.6, 0.7), 1e-12)
	assert.Greater(t, e.Strip(0.3, 20, 7*day), 0.3)
	assert.InDelta(t, 1.4, profile.Patch([]float64{1, 2}, []float64{0.6, 0.4}), 1e-12)
	assert.True(t, math.IsNaN(profile.Patch([]float64{1}, nil)))
	assert.True(t, math.IsNaN(profile.Edge{}.Share(1, 1)))
}
