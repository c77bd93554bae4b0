package intake

import (
	"regexp"
	"strings"

	"crossgrain/species"
)

// crack is one crack of a cell such as "top 120; left 40 from bottom".
type crack struct {
	from   string // top, bottom, left, right; empty when only its length is told
	length *span  // along the grain, from that end
	place  *span  // of the crack from the edge named by off
	off    string
	typed  string
}

var sides = map[string]string{
	"top": "top", "above": "top", "oben": "top", "haut": "top", "en haut": "top", "alto": "top", "in alto": "top", "arriba": "top", "boven": "top", "upper": "top",
	"bottom": "bottom", "below": "bottom", "unten": "bottom", "bas": "bottom", "en bas": "bottom", "basso": "bottom", "in basso": "bottom", "abajo": "bottom", "onder": "bottom", "lower": "bottom",
	"left": "left", "links": "left", "gauche": "left", "a gauche": "left", "sinistra": "left", "izquierda": "left",
	"right": "right", "rechts": "right", "droite": "right", "a droite": "right", "destra": "right", "derecha": "right",
}

var (
	crackParts = regexp.MustCompile(`\s*(?:;|\n|\+|&|\band\b|\bund\b|\bet\b|\be\b|\by\b|\ben\b)\s*`)
	crackForm  = regexp.MustCompile(`^([\p{L} ]*?)\s*((?:c\.|ca\.?)?\s*[0-9½¼¾⅛⅜⅝⅞][^\p{L}]*(?:mm|cm|m|in|inch|inches)?\b\.?)?\s*(?:(?:from|von|de|da|desde|van)\s+(?:the\s+)?([\p{L}]+))?$`)
)

// parseCracks reads the cracks of a cell, "; " between them. What cannot be read comes back as typed.
func parseCracks(cell, unit string) (out []crack, unread []string, unitless bool) {
	for _, piece := range crackParts.Split(strings.TrimSpace(dashes.Replace(cell)), -1) {
		if piece = strings.TrimSpace(piece); piece == "" {
			continue
		}
		c, bare, ok := oneCrack(piece, unit)
		if !ok {
			unread = append(unread, piece)
			continue
		}
		unitless = unitless || bare
		out = append(out, c)
	}
	return out, unread, unitless
}

// oneCrack reads "top 120 mm" (from the top, 120 mm long) or "left 40 mm from bottom" (from the left
// edge, 40 mm above the bottom).
func oneCrack(piece, unit string) (c crack, bare, ok bool) {
	c.typed = piece
	m := crackForm.FindStringSubmatch(piece)
	if m == nil {
		return c, false, false
	}
	side := strings.TrimSpace(strings.TrimPrefix(strings.TrimPrefix(species.Fold(m[1]), "crack "), "at "))
	if c.from = sides[side]; c.from == "" {
		return c, false, false
	}
	if m[3] != "" {
		if c.off = sides[species.Fold(m[3])]; c.off == "" || m[2] == "" {
			return c, false, false
		}
	}
	if m[2] == "" {
		return c, false, true
	}
	s, err := parseLength(m[2], unit)
	switch {
	case err == errNoUnit:
		return c, true, true
	case err != nil:
		return c, false, false
	case c.off != "":
		c.place = &s
	default:
		c.length = &s
	}
	return c, false, true
}

// across says from which edge the panel file counts across the grain: left, or below where it is level.
func (c crack) across(level bool) (toml string, ok bool) {
	if c.place == nil {
		return "", false
	}
	return c.place.toml(), c.off == map[bool]string{false: "left", true: "bottom"}[level]
}

// fits says whether the crack's end is an end of the grain.
func (c crack) fits(level bool) bool { return (c.from == "left" || c.from == "right") == level }
