package restraint

import "math"

// Phrase tells in one phrase what the fixings of a member do.
func Phrase(does []Bearing) string {
	var count [len(bearingWords)]int
	for _, d := range does {
		count[d]++
	}
	return words(len(does), count)
}

// Bent is what its fixings do to a member. Moments N mm, positive where it becomes rounded towards the
// panel; Sag is its departure from the chord through its outermost fixings, mm, positive towards the panel.
type Bent struct{ Moment, Sag float64 }

// Bend returns the moment of largest size in a bar under the forces that its fixings, from the left at
// the places at, resist with: lift pulls it towards the panel, slip to the right at its face, face mm
// and each step (nil: none) from its centroid. Beam theory with shear; a bar that is kept flat does not sag.
func (b Bar) Bend(at, slip, lift []float64, face float64, step []float64) (out Bent) {
	var m, v, slope, w float64 // moment, shear force, and w'' = -m/EI
	soft := 1 / b.bending()
	if b.HoldsFlat {
		soft = 0
	}
	type kink struct{ x, w float64 }
	var line []kink
	for i, x := range at {
		if i > 0 {
			l := x - at[i-1]
			w += slope*l - soft*(m*l*l/2+v*l*l*l/6) + b.shear()*v*l
			slope -= soft * (m*l + v*l*l/2)
			m += v * l
		}
		larger(&out.Moment, m)
		m -= slip[i] * face
		if step != nil {
			m -= slip[i] * step[i]
		}
		v -= lift[i]
		larger(&out.Moment, m)
		line = append(line, kink{x, w})
	}
	if n := len(line); n > 1 && !math.IsInf(soft, 0) {
		first, last := line[0], line[n-1]
		for _, k := range line {
			chord := last.w * (k.x - first.x) / (last.x - first.x)
			larger(&out.Sag, k.w-chord)
		}
	}
	return out
}
