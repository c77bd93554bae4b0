package figure

import (
	"math"
	"time"

	"gonum.org/v1/plot/vg"
)

// Outside asks when a record was outside terms: one strip for each clause, day by day, above the line
// for too damp, too warm or changing too fast, below it for too dry or too cold.
type Outside struct {
	Meta
	Start  time.Time // midnight of the first day, civil time
	Strips []Strip   // at most eight are drawn
}

// Strip is one clause, one value a day.
type Strip struct {
	Name  string    // such as "45 to 55 % RH"
	Note  string    // such as "outside 31 of 100 hours, longest 12 days"
	Above []float64 // share of the day that was too high or too fast, 0 to 1; NaN: no readings that day
	Below []float64 // share too low; empty where the clause has no low side
}

const (
	stripHalf  vg.Length = 17 // of a whole day outside, to one side
	stripRoom  vg.Length = 16 // over each strip, for its name
	mostStrips           = 8
)

// Draw lays the figure out.
func (o Outside) Draw() Figure {
	meta := o.or("outside", "When was the room outside the terms?")
	strips := o.Strips[:min(len(o.Strips), mostStrips)]
	days := 1
	for _, s := range strips {
		days = max(days, len(s.Above), len(s.Below))
	}
	words := "Height: how much of the day. Above the line: too damp, too warm or too fast. Below: too dry or too cold."
	var body vg.Length
	for _, s := range strips {
		body += s.height()
	}
	if len(strips) == 0 {
		body = 30
	}
	head := headHeight(meta, words)
	h := head + body + 5 + bottomAxisHeight + margin
	desc := ""
	for _, s := range strips {
		desc += clean(s.Name) + ": " + clean(s.Note) + ". "
	}
	return meta.figure(h, o.sentence(strips), desc, func(p pen) {
		p.head(meta, h, words)
		x := calendar(o.Start, 0, float64(days))
		sx := scale{0, float64(days), margin + 10, Width - margin - 10, false}
		y := h - head
		for _, s := range strips {
			y -= s.height()
			s.draw(p, sx, x, y)
		}
		if len(strips) == 0 {
			p.text(noCurve, at((sx.a+sx.b)/2, y-18), plainText, middle)
		}
		p.bottomAxis(sx, margin+bottomAxisHeight, x.ticks, x.write, x.name)
	})
}

// twoSided says whether the clause can be left on both sides.
func (s Strip) twoSided() bool { return len(s.Below) > 0 }

func (s Strip) height() vg.Length {
	if s.twoSided() {
		return stripRoom + 2*stripHalf + 6
	}
	return stripRoom + stripHalf + 6
}

// draw draws the strip with its lower edge at y.
func (s Strip) draw(p pen, sx scale, x axis, y vg.Length) {
	y += 3
	line := y
	if s.twoSided() {
		line += stripHalf
	}
	p.rect(pale, stroke{}, box(sx.a, y, sx.b, line+stripHalf))
	for _, t := range x.ticks {
		p.line(stroke{hair, white, nil}, at(sx.at(t), y), at(sx.at(t), line+stripHalf))
	}
	for _, q := range missing(s.Above) {
		r := box(sx.at(q[0]), y, sx.at(q[1]), line+stripHalf)
		p.rect(white, stroke{}, r)
		p.hatch(stroke{hair, grey(0x9A), nil}, r, 4)
	}
	p.bars(sx, line, stripHalf, s.Above, blue)
	p.bars(sx, line, -stripHalf, s.Below, dark(vermilion))
	p.line(stroke{thin, ink, nil}, at(sx.a, line), at(sx.b, line))
	top := line + stripHalf + 4
	name := boldText.fit(clean(s.Name), (sx.b-sx.a)*0.6)
	p.text(name, at(sx.a, top), boldText, left)
	room := sx.b - sx.a - boldText.width(name) - 8
	p.text(plainText.fit(clean(s.Note), room), at(sx.a+boldText.width(name)+8, top), plainText, left)
}

// bars draws the shares of the days as filled columns on a line; full is a whole day.
func (p pen) bars(sx scale, line, full vg.Length, share []float64, c interface {
	RGBA() (r, g, b, a uint32)
}) {
	for i := 0; i < len(share); {
		if !(share[i] > 0) {
			i++
			continue
		}
		poly := []vg.Point{at(sx.at(float64(i)), line)}
		j := i
		for j < len(share) && share[j] > 0 {
			y := line + full*vg.Length(max(0.06, min(share[j], 1)))
			poly = append(poly, at(sx.at(float64(j)), y), at(sx.at(float64(j+1)), y))
			j++
		}
		poly = append(poly, at(sx.at(float64(j)), line))
		p.shape(c, stroke{}, poly)
		i = j
	}
}

// missing are the stretches of days without readings, from and to.
func missing(v []float64) [][2]float64 {
	var out [][2]float64
	for i := 0; i < len(v); i++ {
		j := i
		for j < len(v) && math.IsNaN(v[j]) {
			j++
		}
		if j > i {
			out = append(out, [2]float64{float64(i), float64(j)})
			i = j
		}
	}
	return out
}

func (o Outside) sentence(strips []Strip) string {
	worst, most := "", 0.0
	for _, s := range strips {
		share, days := 0.0, 0.0
		for i := range s.Above {
			if usable(s.Above[i]) {
				share, days = share+s.Above[i], days+1
			}
			if i < len(s.Below) && usable(s.Below[i]) {
				share += s.Below[i]
			}
		}
		if days > 0 && share/days > most {
			worst, most = clean(s.Name), share/days
		}
	}
	switch {
	case len(strips) == 0:
		return "No terms were given."
	case worst == "":
		return "The room kept the terms as long as it was recorded."
	}
	return "The room was farthest from keeping " + worst + ": outside for " + ofHundred(most) + " of 100 hours."
}

// ofHundred writes a share as a whole number of a hundred.
func ofHundred(share float64) string {
	switch n := 100 * share; {
	case n > 0 && n < 0.5:
		return "fewer than 1"
	case n > 99.5 && n < 100:
		return "over 99"
	default:
		return fixed(n, 0)
	}
}
