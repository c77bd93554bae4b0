package response

import (
	"errors"
	"fmt"
	"math"
	"sync"
	"time"

	"crossgrain/moisture"
	"crossgrain/panel"
	"crossgrain/panel/internal/creep"
	"crossgrain/panel/section"
	"crossgrain/species"
	"crossgrain/tables"
)

// Season is how long a humidity is held at setting Quick before it is judged, in seconds.
const Season = 90 * 24 * 3600.0

// StoredShare is the share of the strain built in when a part was fixed at another humidity than
// the used-to one that is taken to be left after years. A spruce chain alone leaves 0.34
// tangentially (Maas & Wittel 2026, evaluated to its end), with moisture-driven creep 0.02 to
// 0.08; a tenth is an estimate between them.
const StoredShare = 0.1

// Case is one realised panel made ready: geometry, moisture curves, restraints and lines.
type Case struct {
	o          *panel.Object
	setting    Setting
	boards     []board
	restraints []restrained
	lines      []line
	asTheyAre  [][2]skin // what the grounds do to each board
	uncracked  [][2]skin // the same if they had no crack
	grain      *endgrain // the cross-section by finite elements; nil before Refine
	planned    *whole    // the panel on all its members by finite elements; nil before Refine
	glued      bool      // of lines only those open from end to end are taken as open there
}

// Board says how one board follows the air.
type Board struct {
	Name         string
	PithX, PithZ float64       // from its left edge, upwards from its back face, mm
	Curved       bool          // its rings are curved about that pith
	Window       time.Duration // time to nine tenths and a half (95 %) of a change, bare or coated back
	Half         time.Duration // time to half of a change
	PerPercent   float64       // free movement across its width, strain per unit of MC
}

type board struct {
	*panel.Board
	section section.Board
	used    moisture.MC // mean curve at the used-to humidity
	left    float64     // stiffness left after a season across the board
	stiff   float64     // short modulus across the board, free to shear, MPa
	per     float64     // free strain across its width per unit of MC, with its curved rings
	breaks  float64     // strain held for a season at which sound wood would part
	heartUp bool
	// breaksBy is the evidence of breaks: of slow tests, or of short ones where those decide.
	breaksBy tables.Grade
}

// Prepare makes a case. It returns an error for a setting that is not built and for an object
// whose numbers are not finite.
func Prepare(o *panel.Object, set Setting) (*Case, error) {
	if set < Quick || set > Fine {
		return nil, fmt.Errorf("response: setting must be quick, coarse or fine, got %d", set)
	}
	if len(o.Boards) == 0 {
		return nil, errors.New("response: the panel has no board")
	}
	c := &Case{o: o, setting: set}
	for i := range o.Boards {
		b, err := c.prepareBoard(&o.Boards[i])
		if err != nil {
			return nil, fmt.Errorf("board %s: %w", o.Boards[i].Name, err)
		}
		c.boards = append(c.boards, b)
	}
	c.asTheyAre = c.skins(func(g section.Ground) section.Ground { return g })
	c.uncracked = c.skins(uncracked(1))
	if err := c.prepareRestraints(); err != nil {
		return nil, err
	}
	c.prepareLines()
	return c, nil
}

func (c *Case) prepareBoard(pb *panel.Board) (board, error) {
	b := board{Board: pb, heartUp: pb.HeartFront}
	b.used = b.mc(c.o.UsedTo, c.o.Temperature)
	n := pb.Wood.At(b.used)
	b.stiff = pb.Ring.Modulus(n) * pb.StiffnessReduction
	cos2 := math.Pow(math.Cos(pb.Ring.Theta()), 2)
	r, t := seasonLeft()
	b.left = r*cos2 + t*(1-cos2)
	b.section = section.Board{
		Width: pb.Width, Thickness: pb.Thickness, Ring: pb.Ring, RingRadius: pb.RingRadius,
		HeartFront: pb.HeartFront, PithKnown: pb.PithKnown, PithX: pb.PithAcross, PithZ: -pb.PithBehind,
	}
	slow, fast := species.SlowBreak(), n.FastBreak(pb.Ring)
	b.breaks, b.breaksBy = slow.Value, slow.Grade
	if v := fast.Value / b.left; v < b.breaks { // what relaxation leaves meets the short strength first
		b.breaks, b.breaksBy = v, fast.Grade
	}
	b.breaks *= pb.StiffnessReduction // galleries gather the strain between them (assumption)
	const du = 0.01
	b.per = c.free(&b, du, b.heartUp).Width / b.Width / du
	for _, v := range [...]float64{b.stiff, pb.Wood.SwellT + pb.Wood.SwellR, float64(b.used)} {
		if !(v > 0) || math.IsInf(v, 0) {
			return b, fmt.Errorf("stiffness %g MPa, swelling %g, moisture content %g: each must be above 0",
				b.stiff, pb.Wood.SwellT+pb.Wood.SwellR, float64(b.used))
		}
	}
	return b, nil
}

// seasonLeft returns the share of an elastic stress left after a season, radially and tangentially.
var seasonLeft = sync.OnceValues(func() (r, t float64) {
	return creep.Left(creep.Radial, creep.Tension, Season), creep.Left(creep.Tangential, creep.Tension, Season)
})

// mc returns the moisture content of the board in balance with the air, along the mean curve.
func (b *board) mc(rh moisture.RH, t moisture.Celsius) moisture.MC {
	u := b.Sorption.Mean.MC(rh, t)
	if br := b.Sorption.Branches; b.Branch != 0 && br.Ads != nil {
		u += moisture.MC(b.Branch) * (br.Des.MC(rh, t) - br.Ads.MC(rh, t)) / 2
	}
	return u * moisture.MC(1+b.SorptionShift)
}

// loop returns the change of moisture content from the used-to humidity along a scanning loop.
func (b *board) loop(used, rh moisture.RH) moisture.MC {
	br := b.Sorption.Branches
	return (moisture.Loop(&br, used, rh) - moisture.Loop(&br, used, used)) * moisture.MC(1+b.SorptionShift)
}

// strains returns the free strain R and T for a change of moisture content.
func (b *board) strains(du moisture.MC) (eR, eT float64) {
	return b.Wood.SwellR * float64(du), b.Wood.SwellT * float64(du)
}

// across returns the free strain across the board's width for a change of moisture content.
func (b *board) across(du moisture.MC) float64 { return b.per * float64(du) }

// Boards says how each board follows the air.
func (c *Case) Boards() ([]Board, error) {
	out := make([]Board, len(c.boards))
	for i := range c.boards {
		b := &c.boards[i]
		nearly, half, _, err := c.pace(b)
		if err != nil {
			return nil, fmt.Errorf("board %s: %w", b.Name, err)
		}
		out[i] = Board{Name: b.Name, Window: nearly, Half: half, PerPercent: b.across(1)}
		out[i].PithX, out[i].PithZ, out[i].Curved = b.section.Pith()
	}
	return out, nil
}
