package scenario

import (
	"errors"
	"math"

	"crossgrain/moisture"
	"crossgrain/tables"
)

// Buffer is a material that holds the humidity of a case, such as silica gel or board. Its content
// hangs on the humidity alone, not on the temperature (assumption; wood is the other case).
type Buffer struct {
	Mass     float64 // dry, 0 to 1e5 kg
	Capacity float64 // water taken up, g per kg and point of RH, 0 to 50
}

// Wood is wood that shares its water with the air of the case: the panel itself, frame, crate.
type Wood struct {
	Mass float64 // dry, 0 to 1e5 kg
	// Isotherm is moisture content against humidity and temperature; nil means the curve of the wood
	// handbook, which falls with temperature: the reason why warmed wood makes its box damper.
	Isotherm moisture.Isotherm
	// Quick is the share of the mass that keeps up with the air at once, 0 to 1; the rest follows it
	// with the time constant Hours (0.1 to 1e5 h; not used when Quick is 1).
	Quick, Hours float64
}

// Case is a closed case, frame or crate: air, its exchange with the room, what buffers it, and its
// temperature. With zero Buffer and Wood it is empty.
type Case struct {
	Volume   float64 // air inside, 0.1 to 1e7 L
	Exchange float64 // air changes per day, 0 (sealed) to 1e5; +Inf is an open case
	Buffer   Buffer
	Wood     Wood
	Lag      float64 // time constant with which its temperature follows the room, 0 to 1e4 h
	Start    Climate // inside when it is closed; buffer and wood in balance with it
}

// Validate says which number lies out of the range its field states, with a *tables.RangeError.
func (c Case) Validate() error {
	if err := c.Start.validate("in the case at the start"); err != nil {
		return err
	}
	for _, x := range []struct {
		what         string
		v, low, high float64
		unit         string
	}{
		{"volume of the case", c.Volume, 0.1, 1e7, "L"},
		{"mass of the buffer", c.Buffer.Mass, 0, 1e5, "kg"},
		{"capacity of the buffer", c.Buffer.Capacity, 0, 50, "g per kg and point"},
		{"mass of wood", c.Wood.Mass, 0, 1e5, "kg"},
		{"quick share of the wood", c.Wood.Quick, 0, 1, ""},
		{"time constant of the temperature", c.Lag, 0, 1e4, "h"},
	} {
		if err := tables.InRange(x.what, x.v, x.low, x.high, x.unit, ""); err != nil {
			return err
		}
	}
	if c.slow() > 0 {
		if err := tables.InRange("time constant of the slow wood", c.Wood.Hours, 0.1, 1e5, "h", ""); err != nil {
			return err
		}
	}
	if !math.IsInf(c.Exchange, 1) {
		return tables.InRange("air exchange", c.Exchange, 0, 1e5, "changes per day", "infinite for an open case")
	}
	return nil
}

// open says whether the case is none: its air is the room's.
func (c Case) open() bool { return math.IsInf(c.Exchange, 1) }

// slow is the mass of wood that follows late, kg.
func (c Case) slow() float64 { return c.Wood.Mass * (1 - c.Wood.Quick) }

func (w Wood) isotherm() moisture.Isotherm {
	if w.Isotherm == nil {
		return moisture.HailwoodHorrobin{}
	}
	return w.Isotherm
}

func (w Wood) mc(h, t float64) float64 {
	return float64(w.isotherm().MC(moisture.RH(h), moisture.Celsius(t)))
}

func (w Wood) slope(h, t float64) float64 {
	return w.isotherm().Slope(moisture.RH(h), moisture.Celsius(t))
}

// perRH is the water in the air of the case at saturation, g.
func (c Case) perRH(t float64) float64 {
	return c.Volume / 1000 * moisture.AbsoluteHumidity(saturation(t), moisture.Celsius(t))
}

// quickWater is the water in air, buffer and quick wood, g, at RH h and t in °C.
func (c Case) quickWater(h, t float64) float64 {
	w := c.perRH(t)*h + 100*c.Buffer.Mass*c.Buffer.Capacity*h
	if m := c.Wood.Mass * c.Wood.Quick; m > 0 {
		w += 1000 * m * c.Wood.mc(h, t)
	}
	return w
}

// quickSlope is d(quickWater)/dh, g.
func (c Case) quickSlope(h, t float64) float64 {
	s := c.perRH(t) + 100*c.Buffer.Mass*c.Buffer.Capacity
	if m := c.Wood.Mass * c.Wood.Quick; m > 0 {
		s += 1000 * m * c.Wood.slope(h, t)
	}
	return s
}

// slowSlope is the water the slow wood takes up per unit of RH once it has followed, g.
func (c Case) slowSlope(h, t float64) float64 {
	if m := c.slow(); m > 0 {
		return 1000 * m * c.Wood.slope(h, t)
	}
	return 0
}

// HalfTime returns the hours in which the case goes half way to the humidity of a room of its own
// temperature, all its wood keeping up:
//
//	t1/2 = ln 2 (C/(V cs)) / N,   C = dW/dh
//
// with cs the vapour of saturated air, g/m3. For an empty case it is ln 2/N; where a buffer of B kg
// per m3 and M g per kg and point outweighs the air it becomes 100 ln 2 M B/(cs N), whose factor is
// 4.02 at 20 °C. A sealed case gives +Inf. Errors as [Case.Validate].
func (c Case) HalfTime() (float64, error) {
	if err := c.Validate(); err != nil {
		return 0, err
	}
	h, t := float64(c.Start.RH), float64(c.Start.T)
	if c.open() {
		return 0, nil
	}
	return 24 * math.Ln2 * (c.quickSlope(h, t) + c.slowSlope(h, t)) / (c.perRH(t) * c.Exchange), nil
}

// Warming returns by how much the humidity of the case rises (positive) or falls when it is warmed,
// sealed, in points per K, all its wood keeping up:
//
//	dh/dT = -(V h dcs/dT + M du/dT) / (dW/dh)
//
// Empty it falls by some 3 points per K at 50 %; with wood enough it rises. Errors as [Case.Validate].
func (c Case) Warming() (float64, error) {
	if err := c.Validate(); err != nil {
		return 0, err
	}
	const d = 0.01 // K
	h, t := float64(c.Start.RH), float64(c.Start.T)
	all := c
	all.Wood.Quick = 1
	change := (all.quickWater(h, t+d) - all.quickWater(h, t-d)) / (2 * d)
	return -100 * change / all.quickSlope(h, t), nil
}

// NeutralWood returns the wood, kg per 100 L of air, with which a sealed case keeps its humidity when
// it is warmed from the given climate; with less it gets drier, with more damper. The error is that
// of the climate, or says that the curve of the wood does not fall with temperature there.
func NeutralWood(at Climate) (float64, error) {
	if err := at.validate("in the case"); err != nil {
		return 0, err
	}
	const d = 0.01 // K
	h, t := float64(at.RH), float64(at.T)
	box, wood := Case{Volume: 100}, Wood{Mass: 1, Quick: 1}
	air := h * (box.perRH(t+d) - box.perRH(t-d))
	given := 1000 * (wood.mc(h, t-d) - wood.mc(h, t+d))
	if given <= 0 {
		return 0, errors.New("wood does not give off water on warming at this climate")
	}
	return air / given, nil
}
