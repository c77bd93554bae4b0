package response

import (
	"math"
	"time"

	"crossgrain/moisture"
	"crossgrain/panel"
)

// Surface and air, for how fast a board follows the air. Film of indoor air 2e-8 kg/(m2 s Pa):
// Lewis relation with 3 W/(m2 K) (memory). Permeability of air 1.937e-10 kg/(m s Pa) at 20 degC:
// Schirmer (memory).
const (
	film    = 2e-8
	airPerm = 1.937e-10
)

// follow returns the time in which the mean moisture content of a board makes the share of a
// change, between its two faces with film and coatings.
func (c *Case) follow(b *board, share float64) (time.Duration, error) {
	s, err := c.slab(b).Time(share)
	if err != nil {
		return 0, err
	}
	return time.Duration(math.Min(s, 1e9) * float64(time.Second)), nil
}

// slab is the board as a sheet between two faces: Biot number S h/D with S = psat/(rho0 du/dh R) and
// R = 1/film + sd/air.
func (c *Case) slab(b *board) moisture.Slab {
	t := c.o.Temperature
	psat, err := moisture.Sonntag1994.Pressure(t)
	if err != nil {
		psat, _ = moisture.Sonntag1994.Pressure(20)
	}
	dry := b.Wood.Density / 1.12 // mass of water at 12 % taken off, swelling left out
	slope := b.Sorption.Mean.Slope(c.o.UsedTo, t)
	biot := func(f panel.Face) float64 {
		r := 1/film + f.SdM/airPerm
		return psat / (dry * slope * r) * b.Thickness / 1000 / b.Wood.Diffusion
	}
	return moisture.Slab{
		Thickness: b.Thickness, Diffusion: b.Wood.Diffusion,
		Faces: moisture.Faces{Back: biot(c.o.Back), Front: biot(c.o.Front)},
	}
}

// swings are the periods of which it is told how much reaches a board: a day, a week, a month and a year.
func swings() [4]time.Duration {
	const day = 24 * time.Hour
	return [...]time.Duration{day, 7 * day, 30 * day, 365 * day}
}

// pace returns how a board follows the air: the times to half and to 95 in 100 of a change, and the
// shares of swings that reach its mean.
func (c *Case) pace(b *board) (most, half time.Duration, reaches [4]float64, err error) {
	if most, err = c.follow(b, 0.95); err != nil {
		return most, half, reaches, err
	}
	if half, err = c.follow(b, 0.5); err != nil {
		return most, half, reaches, err
	}
	s := c.slab(b)
	for i, p := range swings() {
		if reaches[i], _, err = s.Swing(p.Seconds()); err != nil {
			break
		}
	}
	return most, half, reaches, err
}
