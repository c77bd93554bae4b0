package response

import (
	"cmp"
	"fmt"
	"math"
	"slices"

	"crossgrain/moisture"
	"crossgrain/panel"
	"crossgrain/panel/restraint"
)

// Bay is a piece of the panel between two members glued to it, that may ripple when its swelling is
// held back.
type Bay struct {
	Part      string  // cradle, or batten.a and batten.b
	From, To  float64 // its edges across the grain, mm
	Low, High float64 // its ends along the grain, mm
	Thickness float64 // least in it, mm
	// Ripples are the held swelling at which it buckles with members that turn as far as their wood
	// lets them, and with members that do not turn. Between glued battens both are the same.
	Ripples [2]restraint.Ripples
	// At is the humidity in balance at which the free swelling from the used-to one reaches that,
	// all of it held back; +Inf when it is not reached at 100 % RH.
	At [2]moisture.RH
}

// Bays returns the pieces between the glued members of a cradle and between glued battens, those that
// ripple first in front. Members of a cradle are taken to turn over the whole height; its sliders do
// not hold them (cautious). It returns an error for a bay outside what [restraint.Bay] takes.
func (c *Case) Bays() ([]Bay, error) {
	var out []Bay
	if k := c.o.Cradle; k != nil {
		x := slices.Sorted(slices.Values(k.FixedX))
		rib := restraint.Rib{Width: k.FixedWidth, Depth: k.FixedDepth, G: (k.FixedWood.GLR + k.FixedWood.GLT) / 2}
		for i := 1; i < len(x); i++ {
			out = append(out, Bay{Part: "cradle", From: x[i-1] + k.FixedWidth/2, To: x[i] - k.FixedWidth/2, High: c.o.Along})
			if err := c.bay(&out[len(out)-1], rib, 1); err != nil {
				return nil, err
			}
		}
	}
	glued := c.gluedBattens()
	for i := 1; i < len(glued); i++ {
		a, b := glued[i-1], glued[i]
		out = append(out, Bay{
			Part: "batten." + a.Name + " and batten." + b.Name, From: math.Max(a.From, b.From), To: math.Min(a.To, b.To),
			Low: a.Y + a.Width/2, High: b.Y - b.Width/2,
		})
		if err := c.bay(&out[len(out)-1], restraint.Rib{}, 0); err != nil {
			return nil, err
		}
	}
	out = slices.DeleteFunc(out, func(b Bay) bool { return b.Thickness == 0 })
	slices.SortStableFunc(out, func(a, b Bay) int { return cmp.Compare(a.At[0], b.At[0]) })
	return out, nil
}

func (c *Case) gluedBattens() []panel.Batten {
	var out []panel.Batten
	for _, b := range c.o.Battens {
		if b.Glued && !b.Empty {
			out = append(out, b)
		}
	}
	slices.SortStableFunc(out, func(a, b panel.Batten) int { return cmp.Compare(a.Y, b.Y) })
	return out
}

// bay fills in one bay, whose second answer is for edges clamped so far. One without room between its
// members is left empty.
func (c *Case) bay(b *Bay, rib restraint.Rib, clamped float64) error {
	if b.To-b.From < 1 || b.High-b.Low < 1 {
		return nil
	}
	b.Thickness = math.Inf(1)
	p := c.plate()
	p.Across, p.Along, p.EAcross = b.To-b.From, b.High-b.Low, math.Inf(1)
	for i := range c.boards {
		if v := &c.boards[i]; v.Left < b.To && v.Left+v.Width > b.From {
			b.Thickness = math.Min(b.Thickness, v.Thickness)
			p.EAcross = math.Min(p.EAcross, v.stiff)
		}
	}
	p.T = b.Thickness
	for i, one := range []restraint.Bay{{Plate: p, Rib: rib}, {Plate: p, Clamped: clamped}} {
		var err error
		if b.Ripples[i], err = one.Ripples(0); err != nil {
			return fmt.Errorf("response: %s: %w", b.Part, err)
		}
		b.At[i] = c.swollen(b, b.Ripples[i].Critical)
	}
	return nil
}

// swollen returns the humidity at which the boards of a bay have swollen by a strain.
func (c *Case) swollen(b *Bay, strain float64) moisture.RH {
	at := func(rh float64) float64 {
		var most float64
		for i := range c.boards {
			if v := &c.boards[i]; v.Left < b.To && v.Left+v.Width > b.From {
				most = math.Max(most, v.across(v.mc(moisture.RH(rh), c.o.Temperature)-v.used))
			}
		}
		return most
	}
	lo, hi := float64(c.o.UsedTo), 1.0
	if at(hi) < strain {
		return moisture.RH(math.Inf(1))
	}
	for range 50 {
		if mid := (lo + hi) / 2; at(mid) < strain {
			lo = mid
		} else {
			hi = mid
		}
	}
	return moisture.RH(hi)
}
