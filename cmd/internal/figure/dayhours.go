package figure

import (
	"fmt"
	"image"
	"image/color"
	"math"
	"time"

	"gonum.org/v1/plot/vg"
)

// DayHours is the map of a record day by day and hour by hour in civil time: when does the plant
// fail? One shade for each cell, a hatch where there are no readings.
type DayHours struct {
	Meta
	Start time.Time   // midnight of the first day, civil time
	Cells [][]float64 // one row a day, each of equal parts of the day from midnight; NaN: no reading

	Departure bool    // the cells are departures from the moving mean in points, not % RH
	LowPct    float64 // ends of the scale; both nought: from the numbers
	HighPct   float64
}

const (
	mapHeight vg.Length = 168
	scaleRoom vg.Length = 74 // at the right of the map
	scaleWide vg.Length = 11
	weekRow   vg.Length = 7
)

// Draw lays the figure out.
func (d DayHours) Draw() Figure {
	meta := d.or("day-hours", "When does the plant fail?")
	words := d.words()
	head := headHeight(meta, words)
	h := head + axisNameRow + weekRow + mapHeight + bottomAxisHeight + margin
	return meta.figure(h, d.sentence(), d.desc(), func(p pen) {
		p.head(meta, h, words)
		x0 := margin + plainText.width("24") + tick + 4
		r := box(x0, margin+bottomAxisHeight, Width-margin-scaleRoom, h-head-axisNameRow-weekRow)
		d.draw(p, r)
	})
}

func (d DayHours) words() string {
	if d.Departure {
		return "Each column is a day, midnight at the foot. Pale: drier than the mean of the weeks around it; dark: damper. Hatched: no reading, or no full mean."
	}
	return "Each column is a day, midnight at the foot. Pale: dry; dark: damp."
}

func (d DayHours) draw(p pen, r vg.Rectangle) {
	p.text("Hour of the day", at(margin, r.Max.Y+weekRow+7.5), plainText, left)
	sy := scale{0, 24, r.Min.Y, r.Max.Y, false}
	for _, v := range ticks(0, 24, 6) {
		p.line(stroke{thin, ink, nil}, at(r.Min.X, sy.at(v)), at(r.Min.X-tick, sy.at(v)))
		p.text(fixed(v, 0), at(r.Min.X-tick-2, sy.at(v)-3.1), plainText, right)
	}
	days := float64(len(d.Cells))
	if days == 0 {
		days = 1
	}
	x := calendar(d.Start, 0, days)
	sx := scale{0, days, r.Min.X, r.Max.X, false}
	if img := d.picture(); img != nil {
		p.c.DrawImage(r, img)
		d.weekends(p, sx, r)
		d.scale(p, r)
	} else {
		p.text(noCurve, at((r.Min.X+r.Max.X)/2, (r.Min.Y+r.Max.Y)/2), plainText, middle)
	}
	p.rect(nil, stroke{hair, ink, nil}, r)
	p.bottomAxis(sx, r.Min.Y, x.ticks, x.write, x.name)
}

// weekends marks Saturdays and Sundays above the map, where there is room.
func (d DayHours) weekends(p pen, sx scale, r vg.Rectangle) {
	if sx.at(7)-sx.at(0) < 3.5 {
		return
	}
	for i := range d.Cells {
		switch d.Start.AddDate(0, 0, i).Weekday() {
		case time.Saturday, time.Sunday:
			p.rect(quiet, stroke{}, box(sx.at(float64(i)), r.Max.Y+2, sx.at(float64(i+1)), r.Max.Y+4.5))
		}
	}
	p.text("week-ends", at(r.Max.X+6, r.Max.Y+0.6), smallText, left)
}

// ends are the ends of the scale of shades: round numbers.
func (d DayHours) ends() (lo, hi float64) {
	if d.HighPct > d.LowPct {
		return d.LowPct, d.HighPct
	}
	var all []float64
	for _, row := range d.Cells {
		for _, v := range row {
			if usable(v) {
				all = append(all, v)
			}
		}
	}
	a, b, ok := spread98(all)
	switch {
	case !ok:
		return 0, 1
	case d.Departure:
		m := max(5, 5*math.Ceil(max(-a, b)/5-1e-9))
		return -m, m
	}
	return max(0, 10*math.Floor(a/10)), min(100, max(10*math.Floor(a/10)+10, 10*math.Ceil(b/10)))
}

// shade is the colour of a value, dark for damp: one hue, its grey falling evenly.
func shade(t float64) color.NRGBA {
	t = max(0, min(t, 1))
	stops := [...]color.NRGBA{{0xF4, 0xF8, 0xFB, 0xFF}, {0x9E, 0xC7, 0xE2, 0xFF}, {0x2F, 0x83, 0xBC, 0xFF}, {0x06, 0x27, 0x4A, 0xFF}}
	k := min(int(t*3), 2)
	f := 3*t - float64(k)
	mix := func(a, b uint8) uint8 { return uint8(float64(a) + f*(float64(b)-float64(a)) + 0.5) }
	a, b := stops[k], stops[k+1]
	return color.NRGBA{mix(a.R, b.R), mix(a.G, b.G), mix(a.B, b.B), 0xFF}
}

// picture is the map as dots: each cell some dots wide and high so that it keeps its edges.
func (d DayHours) picture() image.Image {
	days, parts, any := len(d.Cells), 0, false
	for _, row := range d.Cells {
		parts = max(parts, len(row))
		for _, v := range row {
			any = any || usable(v)
		}
	}
	if !any {
		return nil
	}
	lo, hi := d.ends()
	wide, high := max(1, min(40, 1800/days)), max(1, 384/parts)
	img := image.NewNRGBA(image.Rect(0, 0, days*wide, parts*high))
	for x := range days * wide {
		row := d.Cells[x/wide]
		for y := range parts * high {
			k := parts - 1 - y/high // midnight at the foot
			c := grey(0xE6)
			if k < len(row) && usable(row[k]) {
				c = shade((row[k] - lo) / (hi - lo))
			} else if (x+y)%12 < 3 {
				c = grey(0xA8)
			}
			img.SetNRGBA(x, y, c)
		}
	}
	return img
}

// scale draws the shades with their numbers at the right of the map.
func (d DayHours) scale(p pen, r vg.Rectangle) {
	lo, hi := d.ends()
	x := r.Max.X + 14
	q := box(x, r.Min.Y+22, x+scaleWide, r.Max.Y-16)
	const n = 60
	h := (q.Max.Y - q.Min.Y) / n
	for i := range n {
		y := q.Min.Y + vg.Length(i)*h
		p.rect(shade((float64(i)+0.5)/n), stroke{}, box(q.Min.X, y, q.Max.X, min(q.Max.Y, y+h+0.3)))
	}
	p.rect(nil, stroke{hair, ink, nil}, q)
	s := scale{lo, hi, q.Min.Y, q.Max.Y, false}
	write := rh
	if d.Departure {
		write = signedWhole
	}
	for _, v := range ticks(lo, hi, step(hi-lo, 8)) {
		p.line(stroke{thin, ink, nil}, at(q.Max.X, s.at(v)), at(q.Max.X+tick, s.at(v)))
		p.text(write(v), at(q.Max.X+tick+3, s.at(v)-3.1), plainText, left)
	}
	name := "% RH"
	if d.Departure {
		name = "points"
	}
	p.text(name, at(x, q.Max.Y+6), plainText, left)
	p.rect(grey(0xE6), stroke{hair, ink, nil}, box(x, r.Min.Y, x+scaleWide, r.Min.Y+scaleWide))
	p.hatch(stroke{hair, grey(0x8C), nil}, box(x, r.Min.Y, x+scaleWide, r.Min.Y+scaleWide), 3)
	none := "no reading"
	if d.Departure {
		none = "no value"
	}
	p.text(none, at(x+scaleWide+4, r.Min.Y+2.6), smallText, left)
}

func signedWhole(v float64) string {
	s := fixed(v, 0)
	if v > 0.5 {
		s = "+" + s
	}
	return s
}

// stray is the mean size of the departures of one month or one part of the day.
type stray struct {
	sum   float64
	count int
}

func (s stray) mean() float64 {
	if s.count == 0 {
		return math.NaN()
	}
	return s.sum / float64(s.count)
}

// hours3 is how many parts of the day are told apart in words.
const hours3 = 8

func (d DayHours) strays() (all stray, month [12]stray, part [hours3]stray) {
	for i, row := range d.Cells {
		m := int(d.Start.AddDate(0, 0, i).Month()) - 1
		for k, v := range row {
			if !usable(v) {
				continue
			}
			v = math.Abs(v)
			for _, s := range []*stray{&all, &month[m], &part[k*hours3/len(row)]} {
				s.sum += v
				s.count++
			}
		}
	}
	return all, month, part
}

func (d DayHours) sentence() string {
	if d.picture() == nil {
		return "There is no record to show."
	}
	if !d.Departure {
		lo, hi := d.hourMeans()
		return "By the clock it is driest about " + clock(lo) + " and dampest about " + clock(hi) + ", on the mean of all days."
	}
	all, month, part := d.strays()
	m, k := 0, 0
	for i := range month {
		if month[i].mean() > month[m].mean() || !usable(month[m].mean()) {
			m = i
		}
	}
	for i := range part {
		if part[i].mean() > part[k].mean() || !usable(part[k].mean()) {
			k = i
		}
	}
	s := "Readings stray " + points(all.mean()) + " from the mean of the weeks around them, on average; farthest in " +
		time.Month(m+1).String() + ", " + points(month[m].mean())
	if part[k].mean() > 1.15*all.mean() {
		s += fmt.Sprintf(", and from %d to %d h, %s", k*24/hours3, (k+1)*24/hours3, points(part[k].mean()))
	} else {
		s += ", and about as far at any hour"
	}
	return s + "."
}

// hourMeans are the parts of the day with the lowest and the highest mean, as hours.
func (d DayHours) hourMeans() (lo, hi float64) {
	var part [24]stray
	for _, row := range d.Cells {
		for k, v := range row {
			if usable(v) {
				s := &part[k*24/len(row)]
				s.sum, s.count = s.sum+v, s.count+1
			}
		}
	}
	a, b := -1, -1
	for i, s := range part {
		if s.count == 0 {
			continue
		}
		if a < 0 || s.mean() < part[a].mean() {
			a = i
		}
		if b < 0 || s.mean() > part[b].mean() {
			b = i
		}
	}
	return float64(a), float64(b)
}

func clock(h float64) string { return fixed(h, 0) + " h" }

func (d DayHours) desc() string {
	lo, hi := d.ends()
	unit := " % RH"
	if d.Departure {
		unit = " points"
	}
	s := fmt.Sprintf("%s from %s, shades from %s to %s%s. ", count(len(d.Cells), "day"), date(d.Start), fixed(lo, 0), fixed(hi, 0), unit)
	_, month, _ := d.strays()
	for i, m := range month {
		if m.count > 0 && d.Departure {
			s += time.Month(i+1).String() + ": " + points(m.mean()) + ". "
		}
	}
	return s
}
