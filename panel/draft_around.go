package panel

import "math"

func (d *draft) faces() {
	d.o.Front = d.face("front", true)
	ground := d.p.word("face.back.ground")
	painted := d.p.word("panel.painted") == "both" || d.p.word("face.back.paint") != "" || ground != "" && ground != "none"
	d.o.Back = d.face("back", painted)
	d.o.Ends = d.words(part{table: "ends"}, "state", "bare", "common practice")
}

func (d *draft) face(side string, painted bool) Face {
	pt := part{table: "face", name: side}
	f := Face{
		Painted: painted, Ground: "none", GroundState: d.p.word(pt.at("ground_state")),
		Paint: orNotRecorded(d.p.word(pt.at("paint"))), Interlayer: d.p.word(pt.at("interlayer")),
		Coating: d.p.word(pt.at("coating")),
	}
	if painted {
		f.Ground = d.words(pt, "ground", GroundNotRecorded, "common practice")
	}
	if f.Ground != "none" {
		d.ground(pt, &f)
	}
	f.SdM = d.vapour(pt, f)
	return f
}

// ground fills in thickness, state and moduli of a ground.
func (d *draft) ground(pt part, f *Face) {
	f.GroundState = d.words(pt, "ground_state", "craquelured", "assumption: as nearly all old grounds, common practice")
	f.GroundMM = d.number(pt, "ground_mm", "ground", groundGuess())
	if f.GroundState == "lost" {
		f.GroundMM = 0
	}
	one := func(path, what, unit string, g guess) float64 {
		g.what, g.unit, g.group = "face "+pt.name+", "+what, unit, "ground"
		return d.assume(pt.at(path), g, key{})
	}
	f.GroundEIntact = one("ground_modulus", "modulus of the ground without cracks", "MPa", groundModulus(f.Ground))
	share := one("ground_share", "share of that modulus which acts when pulled", "", groundShare(f.GroundState))
	f.GroundE = f.GroundEIntact * math.Min(1, share)
}

// vapour returns the resistance of a face to vapour, metres of air.
func (d *draft) vapour(pt part, f Face) float64 {
	return d.number(pt, "vapour_sd_m", "ground", vapour(f.Painted, f.GroundState, f.Coating))
}

func (d *draft) frame() {
	if !d.p.Has("frame") {
		return
	}
	pt := part{table: "frame"}
	f := &Frame{
		Sides:      map[string]FrameSide{},
		ClearWidth: d.known(pt, "clear_width_mm"), ClearDepth: d.known(pt, "clear_depth_mm"),
		ClearRH:  d.humidity(pt, "measured_at_rh_pct", "fixings", 0, ""),
		Clips:    int(d.known(pt, "clips")),
		Pressing: orNotRecorded(d.p.word(pt.at("pressing"))),
	}
	for _, name := range d.p.Names("frame") {
		if side := (part{table: "frame", name: name}); name != "" {
			f.Sides[name] = FrameSide{
				Kind: d.p.word(side.at("kind")), Depth: d.known(side, "depth_mm"), Width: d.known(side, "width_mm"),
				Stuck: d.p.word(side.at("fit")) == "stuck",
			}
		}
	}
	d.o.Frame = f
}
