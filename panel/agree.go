package panel

import (
	"fmt"
	"math"
	"strings"
)

// agree looks at what must fit together: boards and width, joins and boards, splits, members and
// frame within the panel. What could not be read is left out.
func (r *reader) agree() {
	r.boardsAgree()
	for _, pt := range r.panel.parts {
		switch pt.table {
		case "board":
			r.boardAgrees(pt)
		case "join":
			r.joinAgrees(pt)
		case "split":
			r.splitAgrees(pt)
		case "batten":
			r.battenAgrees(pt)
		case "insert":
			r.inside(pt, "across_mm", r.across(), "across the grain")
			r.inside(pt, "along_mm", r.along(), "along the grain")
		case "observed":
			r.observedAgrees(pt)
		}
	}
	r.lookedAgrees()
	r.battensApart()
	r.frameAgrees()
	r.climateAgrees()
}

// at reports a problem with one key of a part.
func (r *reader) at(pt part, key, msg, hint string) {
	path := []string{pt.as, pt.name, key}
	if pt.name == "" {
		path = []string{pt.as, key}
	}
	label := strings.Join(path, ".")
	if key == "" {
		path, label = path[:len(path)-1], strings.TrimSuffix(label, ".")
	}
	r.add(path, label, msg, hint)
}

// got returns a number of a part in the file.
func (r *reader) got(pt part, key string) (low, high float64, ok bool) {
	q, ok := r.panel.Number(pt.at(key))
	return q.Low, q.High, ok
}

// across and along are the size of the panel, +Inf when it could not be read. A size taken in the
// frame is smaller than the panel, so it bounds nothing.
func (r *reader) across() float64 { return r.size(r.panel.Across()) }
func (r *reader) along() float64  { return r.size(r.panel.Along()) }

func (r *reader) size(q Quantity) float64 {
	if q.High == 0 || r.framed() {
		return math.Inf(1)
	}
	return q.High
}

func (r *reader) framed() bool {
	m := r.panel.word("panel.measured")
	return m == "sight" || m == "framed"
}

// within is how far a length may run over the panel's size: the precision of a tape, 2 mm
// (common practice).
const within = 2

func (r *reader) inside(pt part, key string, size float64, way string) {
	if low, high, ok := r.got(pt, key); ok && (high > size+within || low < 0) {
		r.at(pt, key, fmt.Sprintf("must lie within the panel, 0 to %s mm %s, got %s", showNumber(size), way, showNumber(high)), "")
	}
}

func (r *reader) boardsAgree() {
	boards := r.panel.Names("board")
	n, ok := r.panel.Number("panel.boards")
	if ok && len(boards) > 0 && int(n.Nominal) != len(boards) {
		r.add([]string{"panel", "boards"}, "panel.boards",
			fmt.Sprintf("says %d, but %d are described", int(n.Nominal), len(boards)),
			"describe all boards, or leave out boards")
	}
	if len(boards) == 0 {
		return
	}
	var low, high float64
	missing := 0
	for _, b := range boards {
		if r.broken["board."+b+".width_mm"] {
			return
		}
		q, ok := r.panel.Number("board." + b + ".width_mm")
		if !ok {
			missing++
		}
		low, high = low+q.Low, high+q.High
	}
	r.widthsAgree(low, high, missing)
}

// widthsAgree compares the sum of the board widths with the panel's size across the grain; they
// may differ by one part in a hundred or 3 mm, whichever is more (assumption: rulers and rough edges).
func (r *reader) widthsAgree(low, high float64, missing int) {
	size := r.panel.Across()
	way := map[bool]string{false: "width_mm", true: "height_mm"}[r.panel.GrainLevel()]
	slack := max(3, size.Nominal/100)
	path := []string{"panel", way}
	sum := showNumber(low)
	if high > low {
		sum = "[" + showNumber(low) + ", " + showNumber(high) + "]"
	}
	switch {
	case size.Nominal == 0 || r.framed():
	case missing > 0 && low >= size.High:
		r.add(path, "panel."+way, fmt.Sprintf("is %s mm, but the boards with a width come to %s mm and %d more have none",
			showNumber(size.High), sum, missing), "")
	case missing == 0 && (low > size.High+slack || high < size.Low-slack):
		r.add(path, "panel."+way, fmt.Sprintf("is %s mm, but the boards across the grain come to %s mm",
			showNumber(size.Nominal), sum), "they may differ by "+showNumber(math.Round(slack))+" mm; is a board missing, or the grain level?")
	}
}

func (r *reader) boardAgrees(pt part) {
	_, wide, haveWidth := r.got(pt, "width_mm")
	for _, k := range []string{"thickness_mm", "thickness_left_mm", "thickness_right_mm"} {
		if _, t, ok := r.got(pt, k); ok && haveWidth && t > wide {
			r.at(pt, k, fmt.Sprintf("must not exceed the board's width, %s mm, got %s", showNumber(wide), showNumber(t)), "are the two exchanged?")
		}
	}
	if _, w, ok := r.got(pt, "bevel_width_mm"); ok && w > 0 && !r.has(pt.at("edge_thickness_mm")) && !r.broken[pt.at("edge_thickness_mm")] {
		r.at(pt, "bevel_width_mm", "needs edge_thickness_mm as well", "measure the thickness left at the edge")
	}
	_, a, okA := r.got(pt, "pith_across_mm")
	_, b, okB := r.got(pt, "pith_behind_mm")
	given := func(k string) bool { return r.has(pt.at(k)) || r.broken[pt.at(k)] }
	switch {
	case okA && !given("pith_behind_mm"):
		r.at(pt, "pith_across_mm", "needs pith_behind_mm as well", "")
	case okB && !given("pith_across_mm"):
		r.at(pt, "pith_behind_mm", "needs pith_across_mm as well", "")
	case okA && okB && (r.has(pt.at("ring_angle_deg")) || r.has(pt.at("ring_radius_mm"))):
		r.at(pt, "pith_across_mm", fmt.Sprintf("gives angle and radius of the rings already (pith at %s, %s mm); leave out ring_angle_deg and ring_radius_mm",
			showNumber(a), showNumber(b)), "")
	}
}

func (r *reader) frameAgrees() {
	q, ok := r.panel.Number("frame.clear_width_mm")
	size := r.panel.Across()
	if ok && !r.framed() && size.Low > 0 && q.High < size.Low {
		r.add([]string{"frame", "clear_width_mm"}, "frame.clear_width_mm",
			fmt.Sprintf("must be at least the panel's size across the grain, %s mm, got %s", showNumber(size.Low), showNumber(q.High)),
			"measure between the rebates, not the opening seen from the front")
	}
}

func (r *reader) climateAgrees() {
	lived, ok := r.panel.Number("used_to.lived_through_rh_pct")
	used, okU := r.panel.Number("used_to.rh_pct")
	if ok && okU && (used.High < lived.Low || used.Low > lived.High) {
		r.add([]string{"used_to", "rh_pct"}, "used_to.rh_pct",
			fmt.Sprintf("must lie within what it has lived through, %s to %s %% RH, got %s", showNumber(lived.Low), showNumber(lived.High), showNumber(used.Nominal)), "")
	}
}

// missingBoard says that a board does not exist and which name is near.
func (r *reader) missingBoard(pt part, key, name string) {
	boards := r.panel.boards
	hint := "boards: " + strings.Join(boards[:min(len(boards), 8)], ", ")
	if n := nearest(name, boards); n != "" {
		hint = "did you mean " + n + "?"
	}
	r.at(pt, key, "there is no board "+shown(name), hint)
}
