package response

import (
	"fmt"

	"crossgrain/moisture"
	"crossgrain/moisture/profile"
	"crossgrain/panel"
)

// pace is how finely a course is followed at a setting.
type pace struct {
	mesh   profile.Options
	layers int
}

func (s Setting) pace() pace {
	if s == Fine {
		return pace{mesh: profile.Options{Cells: 40, Graded: true}, layers: 12}
	}
	return pace{mesh: profile.Coarse(), layers: 8}
}

// wall is a board as moisture sees it. The curves carry no branch and no shift of the board: those
// come on afterwards, so that boards alike in build share one wall.
func (c *Case) wall(b *board) (profile.Wall, error) {
	t := c.o.Temperature
	w := profile.Wall{
		Thickness: b.Thickness, Density: b.Wood.Density * (1 - b.DensityLoss) / 1.12, // mass of water at 12 % taken off, swelling left out
		Storage: profile.Storage{Mean: b.Sorption.Mean, T: t},
		Back:    profile.Face{Film: film, Sd: c.o.Back.SdM}, Front: profile.Face{Film: film, Sd: c.o.Front.SdM},
	}
	if b.Sorption.Branches.Ads != nil {
		w.Storage.Branches = &b.Sorption.Branches
	}
	var err error
	w.Transport, err = profile.Calibrate(profile.Diffusion{D: b.Wood.Diffusion, RH: diffusionRH, T: 20}, w.Density, b.Sorption.Mean, growth)
	if err != nil {
		return w, fmt.Errorf("board %s: %w", b.Name, err)
	}
	return w, nil
}

// The diffusion coefficients of the woods hold at 12 % moisture content, in balance with about 65 % RH
// at 20 °C (handbook equation). Permeability grows with humidity as between the dry and wet cup
// values of softwood, mu 50 and 20: ISO 10456 (memory).
const (
	diffusionRH = moisture.RH(0.65)
	growth      = 1.83
)

// alike is what makes two boards share their moisture.
type alike struct {
	wood                       string
	thickness, density, spread float64
	back, front                panel.Face
}

func (c *Case) likeness(b *board) alike {
	return alike{b.WoodName, b.Thickness, b.Wood.Density * (1 - b.DensityLoss), b.Wood.Diffusion, c.o.Back, c.o.Front}
}

// of carries a moisture content of the wall over to the board: its place between the branches and
// the departure of its wood.
func (b *board) of(u float64, rh moisture.RH, t moisture.Celsius) float64 {
	if br := b.Sorption.Branches; b.Branch != 0 && br.Ads != nil {
		u += b.Branch * float64(br.Des.MC(rh, t)-br.Ads.MC(rh, t)) / 2
	}
	return u * (1 + b.SorptionShift)
}
