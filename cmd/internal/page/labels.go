package page

import (
	"strings"

	"crossgrain/panel"
)

// labels names what the words of the file would not say by themselves.
var labels = map[string]string{
	"panel.accession": "Number", "panel.measured": "How the size was taken", "panel.boards": "How many boards",
	"panel.original_thickness": "Planed down?", "panel.painted": "Painted sides", "panel.transferred": "Paint moved to another support?",
	"panel.end_grain": "End grain", "panel.grain": "Grain runs", "panel.back": "What crosses the grain", "panel.cracks": "Cracks and open joins", "panel.note": "Note", "panel.weight_kg": "Weight",
	"used_to.rh_pct": "Humidity it is used to", "used_to.climate": "Or in words", "used_to.since": "There since",
	"used_to.unchanged": "Found unchanged then?", "used_to.lived_through_rh_pct": "Has borne unharmed", "used_to.last_inspected": "Last looked at closely",
	"board.lean": "Rings lean", "board.where": "Where the holes are", "board.insects": "Insect holes", "board.insects_active": "Live insects?",
	"board.impregnated": "Soaked with something?", "board.pith_across_mm": "Middle of the tree, across", "board.pith_behind_mm": "Middle of the tree, behind the back",
	"board.grain": "Its grain runs", "board.ring_angle_deg": "Angle of the rings", "board.heart_side": "Heart side", "board.ring_radius_mm": "Radius of the rings",
	"board.grain_slope_deg": "Slope of the grain", "board.sapwood_edge": "Edge with sapwood",
	"join.between": "Between boards", "join.open_from": "Stands open from", "join.open_mm": "Open length", "join.open_face": "Open on",
	"join.filled": "Dirt, fill or old glue in it?", "split.filled": "Dirt, fill or old glue in it?", "split.from": "Runs from",
	"split.across_mm": "Place across", "split.depth_mm": "Depth, if it does not go through", "split.age": "Old or fresh",
	"batten.along_mm": "Height of its middle", "batten.from_mm": "Begins at", "batten.to_mm": "Ends at", "batten.fixing": "How it is held",
	"batten.at_mm": "Places of its fixings", "batten.spacing_mm": "Or distance between fixings", "batten.footprint_mm": "Size of one fixing",
	"batten.clearance_mm": "Play of a fixing", "batten.moves": "Tried by hand, it moves", "batten.empty": "Only the channel is left?",
	"cradle.moves": "Tried by hand, the sliders move", "cradle.play_mm": "Play of a slider",
	"face.vapour_sd_m": "Resistance to vapour", "ends.state": "End grain is", "frame.pressing": "Do clips press it flat?", "frame.fit": "Can the panel move in it?",
	"observed.cup_mm": "Warp", "observed.over_mm": "Over a width of", "observed.gap_mm": "Gap", "observed.at": "Gap measured at",
	"observed.rh_pct": "Humidity then", "observed.days_at_this_rh": "Days at about this humidity", "observed.instrument_mm": "Instrument tells apart",
	"treated.year": "When", "treated.what": "What was done",
}

// labelOf names a field: by its own words, else by those of the file without its unit.
func labelOf(table string, k panel.AskedKey) string {
	if l, ok := labels[table+"."+k.Name]; ok {
		return l
	}
	name := k.Name
	for _, unit := range []string{"_mm", "_pct", "_kg", "_deg", "_c", "_l", "_n", "_m", "_n_per_mm"} {
		if cut, ok := strings.CutSuffix(name, unit); ok {
			name = cut
			break
		}
	}
	switch name {
	case "fixed_at_rh", "measured_at_rh":
		name = strings.TrimSuffix(name, "_rh") + "_humidity"
	case "slip_n_per", "spring_n_per":
		name = strings.TrimSuffix(name, "_n_per")
	}
	name = strings.ReplaceAll(name, "_", " ")
	return strings.ToUpper(name[:1]) + name[1:]
}

// titles of the tables that have no name of their own in the file.
var titles = map[string]string{
	"panel": "The panel as a whole", "used_to": "Where it lives", "cradle": "Cradle", "ends": "End grain", "frame": "Frame",
	"support": "Something glued over the whole back", "enclosure": "Case or sealed frame",
	"face.front": "The painted side", "face.back": "The back",
	"frame.left": "Frame, left side", "frame.right": "Frame, right side", "frame.top": "Frame, top", "frame.bottom": "Frame, bottom",
}

func titleOf(a panel.Asked, name string) string {
	path := a.Path
	if name != "" {
		path += "." + name
	}
	if t, ok := titles[path]; ok {
		return t
	}
	word := map[string]string{"observed": "Measured", "treated": "Treated", "insert": "Repair"}[a.Path]
	if word == "" {
		word = strings.ToUpper(a.Path[:1]) + a.Path[1:]
	}
	return word + " " + name
}
