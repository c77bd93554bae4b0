package profile

import (
	"fmt"
	"math"
	"strconv"
	"strings"

	"crossgrain/moisture"
	"crossgrain/tables"
	"crossgrain/tables/verify"
)

// poplar are the printed curves of poplar. Source: Bratasz et al., table bratasz_gab.
func poplar() *moisture.Branches {
	return &moisture.Branches{Ads: moisture.GAB{Vm: 0.0595, C: 9.58, K: 0.73}, Des: moisture.GAB{Vm: 0.0813, C: 7.88, K: 0.68}, T: 20}
}

// measuredChecks are the experiments of table experiments/published that hang on moisture alone.
func measuredChecks() ([]verify.Row, error) {
	t, err := tables.Read("experiments/published")
	if err != nil {
		return nil, fmt.Errorf("moisture profile: %w", err)
	}
	var out []verify.Row
	plates := concerts(t)
	for _, r := range t.Rows {
		row := verify.Row{ID: r.Text("exp_id"), Unit: r.Text("unit"), Source: r.Text("reference"), Kind: verify.Measured}
		q := r.Text("quantity")
		switch {
		case row.ID == "P01" && strings.HasPrefix(q, "change of warp"):
			out = append(out, thinned(row))
		case row.ID == "P08":
			row.What, row.Want, row.Tol = "time to equilibrium at 12 over 24 °C (agreement: 1.7 to 2.4)", 2, 0.4
			row.Got = warmOverCold
			out = append(out, row)
		case row.ID == "P12" && strings.HasPrefix(q, "phase lag"):
			row.What, row.Want, row.Tol = "lag of sine over lag of triangle, poplar 45 to 75 % RH in 24 h (period taken; agreement: 1.3 to 1.7)", 1.5, 0.2
			row.Got = func() (float64, error) { return lagRatio(Day) }
			out = append(out, row)
		}
	}
	return append(out, plates...), nil
}

// thinned is the poplar panel of 10 mm that changed its warp by 1 cm over 1625 mm (taken as the width
// across the grain) within 2 h of a step of 10 points. Asked for is a factor of 2 with inputs in
// their ranges; only the slow end of them meets it, see [Findings].
func thinned(row verify.Row) verify.Row {
	row.What = "curvature gained by a thinned poplar panel in 2 h of air 10 points drier (slow end: film 1e-8, D 0.5e-10, radial; agreement: factor 2)"
	row.Unit, row.Want = "1/mm", thinnedMeasured
	row.Band = func() (low, high float64, err error) {
		low, _, err = thinnedBand()
		return low / 2, low * 2, err
	}
	row.MaxRatio = 4.001
	return row
}

const thinnedMeasured = 8 * 10 / (1625.0 * 1625.0) // 1/mm

// thinnedBand runs over film 1 to 3e-8, diffusion 0.5 to 1.5e-10 and radial or tangential movement.
func thinnedBand() (low, high float64, err error) {
	if low, err = thinnedCurvature(1e-8, 0.5e-10, 0.12); err != nil {
		return 0, 0, err
	}
	high, err = thinnedCurvature(3e-8, 1.5e-10, 0.27)
	return low, high, err
}

// thinnedCurvature is positive: dry air at a bare back makes a painted face rounder. swell is the
// movement per unit of moisture content; the coefficients of poplar are 0.12 (R) and 0.27 (T), table
// bratasz_gab.
func thinnedCurvature(film, diffusion, swell float64) (float64, error) {
	tr, err := Calibrate(Diffusion{D: diffusion, RH: 0.5, T: 20}, 400, nil, 0)
	if err != nil {
		return 0, err
	}
	s, err := New(Wall{Thickness: 10, Density: 400, Storage: Storage{Branches: poplar(), T: 20}, Transport: tr,
		Back: Face{Film: film}, Front: Face{Sealed: true}}, Options{Graded: true})
	if err != nil {
		return 0, err
	}
	if err := s.Start(Climate{0.55, 20}); err != nil {
		return 0, err
	}
	dry := Climate{0.45, 20}
	err = growing(7200, func(dt float64) error {
		_, err := s.Step(dt, dry, dry)
		return err
	})
	_, m1 := s.Moments()
	return swell * m1, err
}

// warmOverCold is the ratio of the half times at 12 and 24 °C of an invented board.
func warmOverCold() (float64, error) {
	w := Wall{Thickness: 20, Density: 450, Storage: Storage{T: 20}, Transport: Transport{Mu: 80, Growth: 1.8}, Front: Face{Sealed: true}}
	cold, err := ResponseTimes(w, Options{Memory: Mean}, Climate{0.5, 12})
	if err != nil {
		return 0, err
	}
	warm, err := ResponseTimes(w, Options{Memory: Mean}, Climate{0.5, 24})
	return cold.Half / warm.Half, err
}

// wave is a shape of humidity in a cycle, -1..1 at the phase 0..1; all are highest at 1/4.
type wave func(phase float64) float64

func sine(p float64) float64     { return math.Sin(2 * math.Pi * p) }
func triangle(p float64) float64 { return 1 - 4*math.Abs(math.Mod(p+0.25, 1)-0.5) }
func square(p float64) float64 {
	if p < 0.5 {
		return 1
	}
	return -1
}

// cycle returns the half swing and the lag (s, behind a quarter of the period) of the highest mean
// moisture content of a poplar block in cycles of 45 to 75 % RH, 4 mm along the grain between open
// ends; the diffusion along the grain, 1.2e-9 m2/s, and the film are assumptions.
func cycle(shape wave, period float64) (amplitude, lag float64, err error) {
	tr, err := Calibrate(Diffusion{D: 1.2e-9, RH: 0.5, T: 20}, 400, nil, 0)
	if err != nil {
		return 0, 0, err
	}
	s, err := New(Wall{Thickness: 4, Density: 400, Storage: Storage{Branches: poplar(), T: 20}, Transport: tr}, Options{Cells: 20, Tol: 1e-6})
	if err != nil {
		return 0, 0, err
	}
	if err := s.Start(Climate{0.60, 25}); err != nil {
		return 0, 0, err
	}
	const n, cycles = 480, 8
	air := func(i int) Climate {
		return Climate{moisture.RH(0.60 + 0.15*shape(math.Mod(float64(i)/n, 1))), 25}
	}
	lo, hi := math.Inf(1), math.Inf(-1)
	for i := range n * cycles {
		if _, err := s.Step(period/n, air(i), air(i+1)); err != nil {
			return 0, 0, err
		}
		if i < n*(cycles-1) {
			continue
		}
		m := s.Mean()
		lo = min(lo, m)
		if m > hi {
			hi, lag = m, (float64(i+1-n*(cycles-1))/n-0.25)*period
		}
	}
	return (hi - lo) / 2, lag, nil
}

func lagRatio(period float64) (float64, error) {
	_, a, err := cycle(sine, period)
	if err != nil {
		return 0, err
	}
	_, b, err := cycle(triangle, period)
	return a / b, err
}

// concerts are the four dry spells of a violin: one unknown, the exchanging area, is fitted to the
// four losses of mass; each must then come within 35 % (two nearly equal spells differ by 1.8 times).
func concerts(t *tables.Table) []verify.Row {
	var out []verify.Row
	for _, r := range t.Rows {
		if r.Text("exp_id") != "P07" {
			continue
		}
		c, ok := concertOf(r.Text("conditions"))
		if !ok {
			continue
		}
		want, _ := r.Float("value")
		c.loss = -want
		id := fmt.Sprintf("P07-%d", c.n)
		out = append(out, verify.Row{ID: id, What: "mass lost by a violin in " + strconv.FormatFloat(c.hours, 'g', -1, 64) + " h of drier air, area fitted to four concerts",
			Unit: "g", Want: c.loss, Tol: 0.35, Relative: true, Kind: verify.Measured, Source: r.Text("reference"),
			Got: func() (float64, error) { return concertLoss(t, c) }})
	}
	return out
}

type concert struct {
	from, to, hours float64
	n               int
	loss            float64 // g
}

func concertOf(text string) (c concert, ok bool) {
	n, err := fmt.Sscanf(text, "kept at %f %% RH, then %f %% RH for %f h (concert %d)", &c.from, &c.to, &c.hours, &c.n)
	return c, err == nil && n == 4
}

// concertLoss is the fitted area times the loss of one square metre.
func concertLoss(t *tables.Table, c concert) (float64, error) {
	area, n := 0.0, 0.0
	for _, r := range t.Rows {
		k, ok := concertOf(r.Text("conditions"))
		if r.Text("exp_id") != "P07" || !ok {
			continue
		}
		loss, _ := r.Float("value")
		one, err := plateLoss(k)
		if err != nil {
			return 0, err
		}
		area, n = area-loss/one, n+1
	}
	one, err := plateLoss(c)
	return area / n * one, err
}

// plateLoss is the loss in g of one square metre of a spruce plate of 3 mm, varnished outside (2 to
// 5 mm from memory; density, transport and film are assumptions, and go into the fitted area).
func plateLoss(c concert) (float64, error) {
	s, err := New(Wall{Thickness: 3, Density: 420, Storage: Storage{T: 20}, Transport: Transport{Mu: 80, Growth: 1.8},
		Front: Face{Sd: 0.5}}, Options{Graded: true, Memory: Mean})
	if err != nil {
		return 0, err
	}
	if err := s.Start(Climate{moisture.Percent(c.from), 20}); err != nil {
		return 0, err
	}
	air := Climate{moisture.Percent(c.to), 20}
	lost := 0.0
	err = growing(c.hours*3600, func(dt float64) error {
		b, err := s.Step(dt, air, air)
		lost -= 1000 * (b.Back + b.Front)
		return err
	})
	return lost, err
}
