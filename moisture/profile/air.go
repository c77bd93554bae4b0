package profile

import (
	"errors"
	"math"

	"crossgrain/moisture"
	"crossgrain/tables"
)

func (c Climate) valid() error {
	return errors.Join(
		tables.InRange("relative humidity", c.RH.Percent(), 0, 100, "%", ""),
		tables.InRange("temperature", float64(c.T), -40, 60, "°C", ""))
}

func mix(a, b Climate, x float64) Climate {
	return Climate{a.RH + moisture.RH(x)*(b.RH-a.RH), a.T + moisture.Celsius(x)*(b.T-a.T)}
}

// Means fills dst with the means of n readings each, for coarse steps: mean i stands for the whole
// time of readings i*n to i*n+n, and goes into [Solver.Step] as both its ends. Readings left over at
// the end are dropped. n below 1 counts as 1.
func Means(dst []Climate, readings []Climate, n int) []Climate {
	n = max(n, 1)
	for i := 0; i+n <= len(readings); i += n {
		var m Climate
		for _, c := range readings[i : i+n] {
			m.RH += c.RH / moisture.RH(n)
			m.T += c.T / moisture.Celsius(n)
		}
		dst = append(dst, m)
	}
	return dst
}

// drive is what the air does to the board at one moment.
type drive struct {
	press  [2]float64 // vapour pressure before back and front, Pa (a sheet: moisture content)
	g      [2]float64 // conductance of the faces by dry density, m/(s Pa) (a sheet: m/s)
	psat   []float64  // of the levels, Pa
	gc, gt []float64  // conductance between levels: on the potential, on the slope of temperature
	heat   float64    // factor on moisture content
	tilted bool       // faces of unlike temperature
	dew    bool       // air beyond saturation at a face
	one    Climate    // for which gc holds
	filled bool
}

// rest is the humidity of the back face in balance (of the front when the back is shut).
func (d *drive) rest() float64 {
	n := len(d.psat) - 1
	if d.g[0] > 0 || d.g[1] == 0 {
		return d.press[0] / d.psat[0]
	}
	return d.press[1] / d.psat[n]
}

// setAir works out the drive for room air.
func (s *Solver) setAir(c *Climate) {
	d, sat := &s.air, s.wall.Transport.Saturation
	last := len(s.z) - 1
	room := pressure(sat, c.T)
	if !d.filled || d.one.T != c.T {
		s.setWarm(c.T)
		d.filled = true
	}
	d.one = *c
	d.dew = false
	for k, level := range [2]int{0, last} {
		p := float64(c.RH) * room
		if p > d.psat[level] && d.g[k] > 0 {
			p, d.dew = d.psat[level], d.dew || p > d.psat[level]*(1+1e-9)
		}
		d.press[k] = p
	}
}

// pressure is the saturation pressure held to the range of the formula.
func pressure(sat moisture.Saturation, t moisture.Celsius) float64 {
	lo, hi := sat.Range()
	p, _ := sat.Pressure(min(max(t, lo), hi))
	return p
}

// setWarm works out all that hangs on temperature alone.
func (s *Solver) setWarm(t moisture.Celsius) {
	d, w := &s.air, &s.wall
	delta := DeltaAir(t)
	for k, f := range s.face {
		d.g[k] = 0
		if !f.Sealed {
			d.g[k] = 1 / (f.resistance(delta) * w.Density)
		}
	}
	back, front := moisture.Celsius(s.face[0].Offset), moisture.Celsius(s.face[1].Offset)
	d.tilted = back != front
	d.heat = s.warm(float64(t + (back+front)/2))
	pb := pressure(w.Transport.Saturation, t+back)
	if !d.tilted {
		for i := range d.psat {
			d.psat[i] = pb
		}
		for i := range s.dx {
			d.gc[i] = delta * pb / (w.Density * s.dx[i])
		}
		return
	}
	s.setTilt(delta, pb, pressure(w.Transport.Saturation, t+(back+front)/2), pressure(w.Transport.Saturation, t+front))
}

// setTilt takes the saturation pressure as a parabola through back, middle and front.
func (s *Solver) setTilt(delta, pb, pm, pf float64) {
	d := &s.air
	for i, z := range s.z {
		y := z / s.wall.Thickness
		d.psat[i] = pb*(1-y)*(1-2*y) + 4*pm*y*(1-y) + pf*y*(2*y-1)
	}
	for i := range s.dx {
		k := delta / (s.wall.Density * s.dx[i])
		d.gc[i] = k * (d.psat[i] + d.psat[i+1]) / 2
		d.gt[i] = k * (d.psat[i] - d.psat[i+1]) / 4
	}
}

// The temperature term of the mean curve, tabulated over these temperatures.
const (
	warmthLow  = -40
	warmthSpan = 100
)

// fillWarmth tabulates the ratio of the mean curve at 50 % RH to that at the temperature of the curves.
func (s *Solver) fillWarmth() {
	ref := float64(s.wall.Storage.Mean.MC(0.5, s.wall.Storage.T))
	for i := range s.warmth {
		s.warmth[i] = float64(s.wall.Storage.Mean.MC(0.5, moisture.Celsius(warmthLow+i))) / ref
	}
}

func (s *Solver) warm(t float64) float64 {
	x := min(max(t-warmthLow, 0), warmthSpan-1e-9)
	i := math.Floor(x)
	return s.warmth[int(i)] + (x-i)*(s.warmth[int(i)+1]-s.warmth[int(i)])
}
