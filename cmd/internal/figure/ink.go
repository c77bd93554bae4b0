package figure

import (
	"image/color"

	"gonum.org/v1/plot/vg"
)

// Width is the width of every figure: 170 mm, a full column of A4 or Letter.
const Width = 170 * vg.Millimeter

// Lines, in points.
const (
	hair   vg.Length = 0.5
	thin   vg.Length = 0.6
	limit  vg.Length = 0.8
	data   vg.Length = 0.9
	strong           = vg.Length(1.5)
)

// margin is kept free on each side of a drawing.
const margin vg.Length = 4

// Colours after Okabe and Ito, told apart by colour-blind eyes; each has a second sign beside it.
var (
	ink       = grey(0x33)
	quiet     = grey(0x59)
	faint     = grey(0xE2)
	pale      = grey(0xF0)
	white     = grey(0xFF)
	blue      = color.NRGBA{0x00, 0x72, 0xB2, 0xFF}
	vermilion = color.NRGBA{0xD5, 0x5E, 0x00, 0xFF}
	green     = color.NRGBA{0x00, 0x9E, 0x73, 0xFF}
	wood      = color.NRGBA{0xF4, 0xEA, 0xD6, 0xFF}
	woodDark  = color.NRGBA{0xDD, 0xC4, 0x98, 0xFF}
	ring      = color.NRGBA{0x9C, 0x6B, 0x30, 0xFF}
)

func grey(v uint8) color.NRGBA { return color.NRGBA{v, v, v, 0xFF} }

// veil is a colour made transparent; alpha from 0 to 1.
func veil(c color.NRGBA, alpha float64) color.NRGBA {
	c.A = uint8(255*alpha + 0.5)
	return c
}

// letters is how a text is set.
type letters struct {
	size  vg.Length
	bold  bool
	color color.Color
}

var (
	titleText = letters{10, true, ink}
	plainText = letters{9, false, ink}
	boldText  = letters{9, true, ink}
	quietText = letters{9, false, quiet}
	smallText = letters{8, false, quiet}
	smallBold = letters{8, true, ink}
)

// lead is the height of a line of text.
func (l letters) lead() vg.Length { return l.size * 1.25 }

// in is the same text in another colour.
func (l letters) in(c color.Color) letters {
	l.color = c
	return l
}

// stroke is how a line is drawn.
type stroke struct {
	width vg.Length
	color color.Color
	dash  []vg.Length
}

// series are the signs of up to six curves of one figure, told apart in grey by their dashes.
func series(i int) stroke {
	all := [...]stroke{
		{1.3, blue, nil},
		{1.3, vermilion, []vg.Length{5, 2.5}},
		{1.1, green, []vg.Length{7, 2, 1.5, 2}},
		{1.1, ink, []vg.Length{1.5, 2}},
		{0.9, quiet, nil},
		{0.9, quiet, []vg.Length{3, 1.5}},
	}
	return all[i%len(all)]
}
