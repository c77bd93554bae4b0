package panel

import "math"

// fixingGuess holds the defaults of one way of fixing a batten.
type fixingGuess struct {
	slip, yield, clearance, friction, preload guess
	footprint                                 float64 // mm
	free                                      bool    // never yields
}

var none = assumption(0, 0, 0, Triangular, "none by its kind")

// friction of wood on wood lies between 0.1 and 0.7: Scots pine 0.24 at rest, 0.17 moving (Aira et
// al. 2014), chestnut 0.46 and 0.33 (Villar-Garcia et al. 2020).
func woodFriction() guess {
	return assumption(0.35, 0.1, 0.7, Triangular, "Scots pine 0.24 (Aira et al. 2014) to chestnut 0.46 (Villar-Garcia et al. 2020), widened: assumption")
}

// fixingDefaults are the defaults by the kind of fixing.
func fixingDefaults(kind string) fixingGuess {
	// Tested nail joints slip 510 to 670 N/mm at first (Journal of the Korean Wood Science and
	// Technology 53-2, table 4); old hand-forged nails in wormed wood may be anywhere around it.
	nailSlip := assumption(600, 200, 1500, LogNormal, "assumption around 510 to 670 N/mm of tested nail joints (J. Korean Wood Sci. 53-2, table 4)")
	// It gives at a slip of about 0.7 mm, so its yield load goes with its slip modulus.
	nailYield := assumption(400, 240, 660, LogNormal, "assumption: hand-forged nail in old wood, gives at a slip of 0.4 to 1.1 mm")
	// A 6 mm screw in softwood and hardwood: 3469 N/mm by rule, new and tight.
	screwSlip := assumption(1500, 600, 3500, LogNormal, "assumption below 3469 N/mm of a new 6 mm screw by rule")
	screwYield := assumption(1500, 900, 2500, LogNormal, "assumption: wood screw, gives at a slip of 0.6 to 1.7 mm")
	stick := assumption(2000, 500, 5000, LogNormal, "assumption: stiffness until it slides")
	play := func(nominal, low, high float64) guess {
		return assumption(nominal, low, high, Triangular, "assumption")
	}
	press := func(nominal, low, high float64) guess {
		return assumption(nominal, low, high, LogNormal, "assumption")
	}
	switch kind {
	case "screwed":
		return fixingGuess{slip: screwSlip, yield: screwYield, clearance: none, friction: none, preload: none, footprint: 12}
	case "slotted":
		return fixingGuess{slip: screwSlip, yield: screwYield, clearance: play(2, 0.5, 5), friction: woodFriction(), preload: press(50, 10, 200), footprint: 20}
	case "sliding dovetail":
		return fixingGuess{slip: stick, clearance: play(20, 10, 40), friction: woodFriction(), preload: press(20, 5, 100), footprint: 40, free: true}
	case "on springs":
		return fixingGuess{slip: assumption(5, 1, 30, LogNormal, "assumption: leaf or coil spring, sideways"), clearance: none, friction: woodFriction(), preload: press(10, 3, 30), footprint: 20, free: true}
	case "held by keepers":
		return fixingGuess{slip: stick, clearance: play(5, 2, 10), friction: woodFriction(), preload: press(10, 2, 50), footprint: 30, free: true}
	}
	return fixingGuess{slip: nailSlip, yield: nailYield, clearance: none, friction: none, preload: none, footprint: 10}
}

// battenSize and the places of battens that nobody measured.
func battenWidth() guess { return assumption(50, 30, 80, Triangular, "assumption") }
func battenDepth() guess { return assumption(20, 10, 40, Triangular, "assumption") }

// channelDepth is that of an empty channel that nobody measured.
func channelDepth(thickness float64) guess {
	return assumption(round(thickness/3), round(thickness/5), round(thickness/2), Triangular, "assumption: a third of the thickness")
}
func fixingSpacing(length float64) guess {
	return assumption(math.Min(150, length/2), math.Min(80, length/3), math.Min(250, length*2/3), Triangular, "assumption")
}

// Middle batten glue: the length that is glued when a batten is held at its middle only, mm
// (assumption).
const gluedMiddle = 60

// cradleGuess holds the defaults of a cradle that is there but not described.
type cradleGuess struct{ fixedCount, sliderCount, width, depth, play guess }

// cradleDefaults: spans of 80 to 150 mm between glued members, sliders about 200 mm apart, play 0.1
// to 0.5 mm (common practice).
func cradleDefaults(across, along float64) cradleGuess {
	n, m := math.Max(2, math.Round(across/110)), math.Max(2, math.Round(along/200))
	fixed := func(v float64, why string) guess { return assumption(v, v, v, Triangular, why) }
	return cradleGuess{
		fixedCount:  fixed(math.Min(n, 60), "assumption: one about every 110 mm"),
		sliderCount: fixed(math.Min(m, 60), "assumption: one about every 200 mm"),
		width:       assumption(30, 20, 50, Triangular, "assumption"),
		depth:       assumption(12, 8, 25, Triangular, "assumption"),
		play:        assumption(0.3, 0.1, 0.5, Triangular, "common practice: 0.1 to 0.5 mm"),
	}
}

// stuckShare is how much of a cradle is stuck, by what was found when it was tried: 0 slides
// freely, 1 is held.
func stuckShare(moves string) guess {
	switch moves {
	case "by hand":
		return assumption(0.05, 0, 0.3, Triangular, "assumption: slides by hand")
	case "with taps":
		return assumption(0.3, 0.05, 0.7, Triangular, "assumption: slides with taps")
	case "seized":
		return assumption(1, 1, 1, Triangular, "seized")
	}
	return assumption(0.5, 0, 1, Uniform, "assumption: nobody has tried it")
}

// notchFriction is the force that moves a slider in one notch, N.
func notchFriction(moves string) guess {
	if moves == "by hand" {
		return assumption(20, 5, 60, LogNormal, "assumption: moved by hand")
	}
	return assumption(100, 30, 300, LogNormal, "assumption: moved with taps")
}
