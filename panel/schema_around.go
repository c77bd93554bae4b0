package panel

// memberTables are the tables of what is fixed across the grain.
func memberTables() []table {
	moves := word("moves", "tried by hand", "by hand", "with taps", "seized").onFirst().by("push each sliding member gently by hand", 5)
	return []table{
		{path: "batten", named: true, doc: "a member across the grain", keys: []key{
			length("along_mm", 0, 10000, "its centre line, from the lower or left end", "150").by("tape measure", 2),
			length("from_mm", 0, 10000, "where it begins, from the panel's left edge", "0"),
			length("to_mm", 0, 10000, "where it ends", "450"),
			wood("wood", "its wood"),
			length("width_mm", 2, 500, "size along the panel's grain", "45").by("ruler", 2),
			length("depth_mm", 1, 300, "size away from the panel", "18").by("ruler", 2),
			word("side", "where it lies", "back", "front", "let in"),
			word("fixing", "how it is held; nothing = it lies loose", "glued", "glued at the middle", "nailed", "screwed", "sliding dovetail", "slotted", "on springs", "held by keepers", "nothing").onFirst().by("look at the batten with a torch", 5),
			lengths("at_mm", 0, 10000, "places of its fixings, from the panel's left edge", "[40, 150, 260, 400]").by("tape measure", 5),
			length("spacing_mm", 5, 5000, "distance between its fixings (instead of at_mm)", "120"),
			length("footprint_mm", 1, 500, "length of the patch each fixing acts through", "10"),
			length("clearance_mm", 0, 100, "free play of each fixing, each way", "1.5").by("feeler gauge", 10),
			rh("measured_at_rh_pct", "humidity when the play was measured", "52"),
			moves,
			length("channel_depth_mm", 0, 200, "depth of the channel it runs in", "8"),
			yesNo("empty", "only the channel is left, the batten is gone").eg("false"),
			rh("fixed_at_rh_pct", "humidity when it was fixed", "[50, 60]").forExperts(),
			number("slip_n_per_mm", "N/mm", 1, 1e6, "stiffness of one fixing", "600").forExperts(),
			number("spring_n_per_mm", "N/mm", 0.01, 1e4, "stiffness of one spring along the batten", "5").forExperts(),
			number("friction", "", 0, 2, "coefficient of friction", "0.35").forExperts(),
			number("yield_n", "N", 1, 1e6, "force at which one fixing gives", "400").forExperts(),
			number("preload_n", "N", 0, 1e5, "force with which one fixing presses", "20").forExperts(),
		}},
		{path: "cradle", doc: "glued members along the grain with sliders across; empty = it has one, not described", keys: []key{
			count("fixed_count", 1, 60, "number of glued members", "5").by("count", 1),
			length("fixed_width_mm", 2, 300, "width of one", "30").by("ruler", 2),
			length("fixed_depth_mm", 1, 200, "depth of one", "14").by("ruler", 2),
			wood("fixed_wood", "their wood"),
			count("slider_count", 0, 60, "number of sliders", "4").by("count", 1),
			length("slider_width_mm", 2, 300, "width of one, along the panel's grain", "30").by("ruler", 2),
			length("slider_depth_mm", 1, 200, "depth of one", "10").by("ruler", 2),
			wood("slider_wood", "their wood"),
			length("play_mm", 0, 20, "play of a slider in its notches", "0.3").by("feeler gauge", 5),
			rh("measured_at_rh_pct", "humidity when the play was measured", "52"),
			moves,
			rh("fixed_at_rh_pct", "humidity when it was glued on", "[50, 60]").forExperts(),
		}},
	}
}

// aroundTables are the tables of faces, ends, frame, surroundings and history.
func aroundTables() []table {
	sides := []string{"left", "right", "top", "bottom"}
	return []table{
		{path: "face", named: true, names: []string{"front", "back"}, doc: "what lies on a face; front is the painted side", keys: []key{
			word("ground", "ground under the paint", "gypsum-glue", "chalk-glue", "oil", "double", "none"),
			length("ground_mm", 0, 20, "thickness of the ground, only where a section shows it", "0.8").forExperts(),
			word("ground_state", "craquelured = with a net of fine cracks", "continuous", "craquelured", "lifting", "lost").by("look in raking light", 5),
			word("paint", "state of the paint", "sound", "blind cleavage", "flaking").onFirst().by("look in raking light", 10),
			word("interlayer", "cloth or other layer under the ground", "none", "canvas all over", "canvas on joins", "parchment", "tow"),
			word("coating", "what covers the face", "none", "varnish", "oil paint", "wax", "wax-resin", "acrylic", "paper", "foil or sheet"),
			word("backing", "board or sheet behind the panel", "none", "open backboard", "sealed backboard").notYet(),
			number("vapour_sd_m", "m", 0, 2000, "resistance to vapour as metres of air", "2").forExperts(),
		}},
		{path: "ends", doc: "the end grain; ends = \"bare\" at the top of the file says the same", keys: []key{
			word("state", "what covers the end grain", "bare", "coated", "covered").by("look", 1),
		}},
		{path: "frame", doc: "what surrounds the panel", keys: []key{
			length("clear_width_mm", 10, 10000, "room for the panel across its grain", "456").by("tape measure in the rebate", 5),
			length("clear_depth_mm", 1, 1000, "room for the panel and its warp", "30"),
			rh("measured_at_rh_pct", "humidity when the fit was measured", "52"),
			count("clips", 0, 200, "number of clips or keepers", "4").notYet(),
			yesNo("pressing", "do they press the panel flat?").by("look, do not loosen", 5),
		}},
		{path: "frame", named: true, names: sides, doc: "one side of the frame", keys: []key{
			word("kind", "engaged = fixed to the panel before painting", "engaged", "groove", "rebate"),
			length("depth_mm", 0, 500, "depth of groove or rebate; of an engaged side its thickness in front of the panel", "12"),
			length("width_mm", 0, 500, "width of rebate or engaged side, or thickness of the wood about the groove", "9"),
			length("build_up_mm", 0, 500, "build-up on the frame", "6").notYet(),
			word("fit", "can the panel move in it?", "loose", "stuck").by("try with a slip of card", 5),
		}},
		{path: "support", doc: "anything glued over the whole back", keys: []key{
			word("kind", "what it is", "second panel", "plywood or board", "balsa", "laminate", "honeycomb", "closed cradle", "cloth", "paper", "wax-resin layer", "other"),
			length("thickness_mm", 0.1, 300, "its thickness", "20").notYet(),
			when("year", "when it was put on", "1932").notYet(),
			text("note", "anything else").notYet(),
		}},
		{path: "enclosure", doc: "case, box or sealed frame it is kept in", keys: []key{
			number("volume_l", "l", 0.01, 1e6, "volume of air", "25").notYet(),
			word("seal", "how tight it is", "sealed", "ordinary", "open").notYet(),
			number("buffer_kg", "kg", 0, 1e4, "mass of buffer in it", "0.5").notYet(),
			word("wall", "wall it hangs on", "inner", "outer").notYet(),
		}},
		{path: "observed", named: true, doc: "what was measured on one day", keys: []key{
			when("date", "the day", `"2024-02-10"`),
			rh("rh_pct", "humidity then", "38").must(),
			number("days_at_this_rh", "d", 0, 1e5, "days it had been at about this humidity", "20"),
			length("cup_mm", -500, 500, "warp across the grain; positive = painted face rounded", "3.5").by("straightedge and ruler", 5),
			length("over_mm", 1, 10000, "over this chord; the whole width when not recorded", "400"),
			length("gap_mm", 0, 50, "gap", "0.4"),
			text("at", "part where the gap was measured").eg(`"join.1-2"`),
			length("width_mm", 10, 10000, "width of the panel across the grain", "449.5"),
			length("instrument_mm", 0, 10, "what the instrument can tell apart", "0.1"),
		}},
		{path: "treated", named: true, doc: "a past treatment", keys: []key{
			when("year", "when", "1932"),
			text("what", "what was done").eg(`"thinned and cradled"`),
		}},
	}
}
