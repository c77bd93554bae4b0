package panel

import (
	"slices"
	"strings"
)

// observedAgrees looks at one observation: a gap needs the join or split at which it was measured.
func (r *reader) observedAgrees(pt part) {
	if _, _, ok := r.got(pt, "gap_mm"); !ok {
		return
	}
	lines := r.panel.gapParts()
	at := r.panel.word(pt.at("at"))
	switch {
	case at == "" && len(lines) == 0:
		r.at(pt, "gap_mm", "needs the join or split at which it was measured, but the file describes none", "")
	case at == "":
		r.at(pt, "gap_mm", `needs the part at which it was measured, as in at = "`+lines[0]+`"`, "")
	case !slices.Contains(lines, at):
		r.at(pt, "at", "must be one of "+strings.Join(quoted(lines), ", ")+", got "+shown(at), "")
	}
}

// gapParts are the joins and splits that the file describes.
func (p *Panel) gapParts() []string {
	var out []string
	for _, pt := range p.parts {
		if pt.table == "join" || pt.table == "split" {
			out = append(out, pt.path())
		}
	}
	return out
}
