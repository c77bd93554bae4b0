package intake

import (
	"fmt"
	"math"
	"regexp"
	"strings"
)

var (
	sizeSign   = regexp.MustCompile(`(?i)\s*(?:[x×✕*]|\bby\b|\bmal\b|\bsur\b|\bper\b|\bpor\b)\s*`)
	bracketed  = regexp.MustCompile(`\(([^()]*[0-9][^()]*)\)`)
	inBrackets = regexp.MustCompile(`(?i)\(\s*(h|w|b|l)\.?\s*\)`)
	sideLabel  = regexp.MustCompile(`(?i)^\s*(height|width|höhe|breite|hauteur|largeur|altezza|larghezza|h|w|b|l)\b\.?\s*[:=]?\s*`)
)

// size is height and width as typed, with what stood beside them.
type size struct {
	height, width span
	third         string // a third number as typed: the framed depth, most likely
	differs       string // the same size in another unit that does not fit
}

// sizeTolerance is how far two statements of one size may differ: 3 mm or one part in fifty, whichever
// is more (assumption: rounding to inches and halves of a centimetre).
func sizeTolerance(mm float64) float64 { return math.Max(3, mm/50) }

// parseSize reads height by width: "62 x 47,5 cm", "H 62 cm x W 47 cm", "24 1/2 x 18 3/4 in (62.2 x 47.6 cm)".
// A width that is labelled as such may stand first.
func parseSize(cell, unit string) (size, error) {
	plain := bracketed.ReplaceAllString(cell, "")
	out, err := sizeOf(plain, unit)
	if err != nil {
		return out, err
	}
	for _, m := range bracketed.FindAllStringSubmatch(cell, -1) {
		also, err := sizeOf(m[1], "")
		if err != nil || math.Abs(also.height.high-out.height.high) > sizeTolerance(out.height.high) ||
			math.Abs(also.width.high-out.width.high) > sizeTolerance(out.width.high) {
			out.differs = m[1]
		}
	}
	return out, nil
}

func sizeOf(s, unit string) (size, error) {
	pieces := sizeSign.Split(strings.TrimSpace(dashes.Replace(s)), -1)
	if len(pieces) < 2 || len(pieces) > 3 {
		return size{}, fmt.Errorf("not two numbers with an x between them")
	}
	labels := make([]string, len(pieces))
	for i, p := range pieces {
		for _, label := range []*regexp.Regexp{inBrackets, sideLabel} {
			if m := label.FindStringSubmatch(p); m != nil {
				labels[i] = strings.ToLower(m[1])
				p = strings.TrimSpace(label.ReplaceAllString(p, ""))
			}
		}
		pieces[i] = p
	}
	for i := len(pieces) - 1; i >= 0; i-- { // the last unit stands for those before it
		if _, u, err := parseUnit(strings.TrimRight(pieces[i], "? ")); err == nil && u != "" {
			unit = u
			break
		}
	}
	var out size
	var err error
	if out.height, err = parseLength(pieces[0], unit); err != nil {
		return out, err
	}
	if out.width, err = parseLength(pieces[1], unit); err != nil {
		return out, err
	}
	if len(pieces) == 3 {
		out.third = pieces[2]
	}
	if isWidth(labels[0]) && !isWidth(labels[1]) {
		out.height, out.width = out.width, out.height
	}
	return out, nil
}

func isWidth(label string) bool {
	switch label {
	case "width", "w", "breite", "b", "largeur", "larghezza", "l":
		return true
	}
	return false
}
