package profile

import (
	"errors"
	"fmt"

	"crossgrain/moisture"
	"crossgrain/tables"
)

// Climate is the air of a room at one moment.
type Climate struct {
	RH moisture.RH      // 0..1
	T  moisture.Celsius // -40..60
}

// Wall is a board with its two faces.
type Wall struct {
	Thickness   float64 // mm, 0.1..500
	Density     float64 // ovendry mass by volume, kg/m3, 100..1500
	Storage     Storage
	Transport   Transport
	Back, Front Face
}

// Storage is how much water the wood holds.
type Storage struct {
	// Mean is the curve used without memory, and the source of the temperature term with it; nil is
	// the handbook equation.
	Mean moisture.Isotherm
	// Branches are the wetting and drying curves, needed for memory.
	Branches *moisture.Branches
	// Position is the branch the wood starts on: -1 wetting, 0 midway (small loops), 1 drying.
	Position float64
	// T is the temperature at which the mean curve is read, °C (0 is 0 °C). Branches carry their own;
	// give both the same.
	T moisture.Celsius
}

// Face is what stands between a face of the board and the room. The zero value is bare wood with the
// film of still room air.
type Face struct {
	Film    float64  // film coefficient, kg/(m2 s Pa), 1e-10..1; 0 is [StillAir]
	Sd      float64  // coating, metres of still air, 0..1e4
	Sealed  bool     // no exchange
	Offset  float64  // temperature of the face less that of the room, K, -30..30
	Backing *Backing // board behind the panel, if any
}

// StillAir is the film coefficient of a face in a quiet room, kg/(m2 s Pa), the usual indoor
// convention (memory).
const StillAir = 2e-8

// Backing is a board before a face with air between; it stores no water. Vapour passes the board
// and, side by side with it, the openings around it.
type Backing struct {
	Gap  float64 // air between, mm, 0..500
	Sd   float64 // the board, metres of still air, 0..1e4
	Leak float64 // the openings as sd in metres; 0 is tight
}

func (b *Backing) sd() float64 {
	board := b.Sd
	if b.Leak > 0 {
		board = b.Sd * b.Leak / (b.Sd + b.Leak)
	}
	return b.Gap/1000 + board
}

func (b *Backing) valid(which string) error {
	return errors.Join(
		tables.InRange("air gap, "+which, b.Gap, 0, 500, "mm", ""),
		tables.InRange("sd of the backing board, "+which, b.Sd, 0, 1e4, "m", ""),
		tables.InRange("sd of the openings, "+which, b.Leak, 0, 1e4, "m", "0 is tight"))
}

// resistance of the face to vapour, m2 s Pa/kg, in air of permeability delta.
func (f Face) resistance(delta float64) float64 {
	sd := f.Sd
	if f.Backing != nil {
		sd += f.Backing.sd()
	}
	return 1/f.film() + sd/delta
}

func (f Face) film() float64 {
	if f.Film == 0 {
		return StillAir
	}
	return f.Film
}

func (f Face) valid(which string) error {
	err := errors.Join(
		tables.InRange("film coefficient, "+which, f.film(), 1e-10, 1, "kg/(m2 s Pa)", "0 takes still air"),
		tables.InRange("sd of the coating, "+which, f.Sd, 0, 1e4, "m", "say sealed for more"),
		tables.InRange("temperature offset, "+which, f.Offset, -30, 30, "K", ""))
	if f.Backing != nil {
		err = errors.Join(err, f.Backing.valid(which))
	}
	return err
}

func (w Wall) valid(m Memory) error {
	err := errors.Join(
		tables.InRange("thickness", w.Thickness, 0.1, 500, "mm", ""),
		tables.InRange("dry density", w.Density, 100, 1500, "kg/m3", ""),
		tables.InRange("start between the branches", w.Storage.Position, -1, 1, "", "-1 wetting, 1 drying"),
		w.Transport.valid(), w.Back.valid("back"), w.Front.valid("front"))
	if m == Mean {
		return err
	}
	if b := w.Storage.Branches; b == nil || b.Ads == nil || b.Des == nil {
		err = errors.Join(err, fmt.Errorf("memory needs a wetting and a drying curve; without them choose the mean curve"))
	}
	return err
}
