package figure

import (
	"strings"
	"sync"
	"unicode"
	"unicode/utf8"

	"codeberg.org/go-fonts/liberation/liberationsansbold"
	"codeberg.org/go-fonts/liberation/liberationsansregular"
	stdfont "golang.org/x/image/font"
	"golang.org/x/image/font/opentype"
	"golang.org/x/image/font/sfnt"
	"gonum.org/v1/plot/font"
	"gonum.org/v1/plot/vg"
)

// ellipsis stands where a name was cut.
const ellipsis = "…"

func sans(bold bool) font.Font {
	f := font.Font{Typeface: "Liberation", Variant: "Sans"}
	if bold {
		f.Weight = stdfont.WeightBold
	}
	return f
}

// fonts parses the two faces, once.
var fonts = sync.OnceValue(func() *font.Cache {
	var all font.Collection
	for _, f := range []struct {
		bold bool
		ttf  []byte
	}{{false, liberationsansregular.TTF}, {true, liberationsansbold.TTF}} {
		face, err := opentype.Parse(f.ttf)
		if err != nil {
			panic("figure: linked-in font is broken: " + err.Error()) // cannot come from input
		}
		all = append(all, font.Face{Font: sans(f.bold), Face: face})
	}
	return font.NewCache(all)
})

func (l letters) face() font.Face { return fonts().Lookup(sans(l.bold), l.size) }

// width is the width of a text.
func (l letters) width(s string) vg.Length {
	f := l.face()
	return f.Width(s)
}

// drawable reports whether the letters have a sign for r.
func drawable(r rune) bool {
	var b sfnt.Buffer
	g, err := plainText.face().Face.GlyphIndex(&b, r)
	return err == nil && g != 0
}

// clean makes a text of somebody else fit for a drawing: one line, valid, without control signs.
func clean(s string) string {
	s = strings.ToValidUTF8(s, "?")
	s = strings.Map(func(r rune) rune {
		switch {
		case unicode.IsSpace(r):
			return ' '
		case unicode.IsControl(r) || r == utf8.RuneError || r == '\uFFFE' || r == '\uFFFF':
			return -1
		}
		return r
	}, s)
	return strings.Join(strings.Fields(s), " ")
}

// substitute puts a question mark for what the letters cannot draw; a bitmap would drop it silently.
func substitute(s string) string {
	return strings.Map(func(r rune) rune {
		if drawable(r) {
			return r
		}
		return '?'
	}, s)
}

// fit cuts a text to the width w with an ellipsis. It is empty where not even two letters fit.
func (l letters) fit(s string, w vg.Length) string {
	s = clean(s)
	if l.width(s) <= w {
		return s
	}
	r := []rune(s)
	if len(r) > 400 {
		r = r[:400]
	}
	for n := len(r) - 1; n >= 2; n-- {
		if t := strings.TrimRight(string(r[:n]), " ,;:") + ellipsis; l.width(t) <= w {
			return t
		}
	}
	return ""
}

// wrap breaks a text into at most most lines of width w; the last is cut with an ellipsis if need be.
func (l letters) wrap(s string, w vg.Length, most int) []string {
	words := strings.Fields(clean(s))
	var lines []string
	for len(words) > 0 {
		if len(lines) == most-1 {
			return append(lines, l.fit(strings.Join(words, " "), w))
		}
		n := 1
		for n < len(words) && l.width(strings.Join(words[:n+1], " ")) <= w {
			n++
		}
		lines = append(lines, l.fit(strings.Join(words[:n], " "), w))
		words = words[n:]
	}
	return lines
}
