package figure

import (
	"bytes"
	"encoding/base64"
	"encoding/xml"
	"errors"
	"image/png"
	"io"
	"regexp"
	"strings"
	"sync"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// parsed is what an SVG holds.
type parsed struct {
	root  map[string]string
	ids   []string
	texts []string
	title string
	desc  string
}

func parse(t *testing.T, svg []byte) parsed {
	t.Helper()
	d := xml.NewDecoder(bytes.NewReader(svg))
	var p parsed
	var open string
	for {
		tok, err := d.Token()
		if errors.Is(err, io.EOF) {
			return p
		}
		require.NoError(t, err)
		switch e := tok.(type) {
		case xml.StartElement:
			open = e.Name.Local
			if p.root == nil {
				p.root = map[string]string{}
				for _, a := range e.Attr {
					require.NotContains(t, p.root, a.Name.Local, "an attribute stands twice")
					p.root[a.Name.Local] = a.Value
				}
			}
			for _, a := range e.Attr {
				if a.Name.Local == "id" {
					p.ids = append(p.ids, a.Value)
				}
			}
		case xml.EndElement:
			open = ""
		case xml.CharData:
			switch open {
			case "text":
				p.texts = append(p.texts, string(e))
			case "title":
				p.title += string(e)
			case "desc":
				p.desc += string(e)
			}
		}
	}
}

func TestSVGStandsInAPage(t *testing.T) {
	for _, s := range append(samples(), extremes()...) {
		t.Run(s.name, func(t *testing.T) {
			var b bytes.Buffer
			require.NoError(t, s.fig.SVG(&b))
			assert.True(t, strings.HasPrefix(b.String(), "<svg "), "no XML declaration")
			p := parse(t, b.Bytes())
			assert.Equal(t, "img", p.root["role"])
			assert.Contains(t, p.root["style"], "max-width:100%")
			assert.Equal(t, p.ids, strings.Fields(p.root["aria-labelledby"]))
			assert.Len(t, p.ids, 2)
			assert.Equal(t, s.fig.Title, p.title)
			assert.True(t, strings.HasPrefix(p.desc, s.fig.Sentence))
			assert.NotContains(t, p.texts, s.fig.Title, "the page's heading carries the title")
			var bare bytes.Buffer
			require.NoError(t, s.fig.Bare(&bare))
			assert.Equal(t, p.texts, parse(t, bare.Bytes()).texts)
			assert.NotContains(t, bare.String(), "role=")
		})
	}
}

func TestFileHoldsTheTitleAndAllLabels(t *testing.T) {
	for _, s := range samples() {
		var b bytes.Buffer
		require.NoError(t, s.fig.File(&b))
		assert.Equal(t, texts(s.fig), parse(t, b.Bytes()).texts, s.name)
		assert.Contains(t, texts(s.fig), s.fig.titleLines()[0])
	}
}

func TestIDsOfAPageAreUnique(t *testing.T) {
	seen := map[string]string{}
	for _, s := range samples() {
		assert.Regexp(t, regexp.MustCompile(`^[a-z0-9-]+$`), s.fig.ID)
		assert.Empty(t, seen[s.fig.ID], "%s and %s share an ID", s.name, seen[s.fig.ID])
		seen[s.fig.ID] = s.name
	}
	assert.Equal(t, "a-b-c", slug(" A_b/ç c"[:4]+"/c"))
}

func TestSameInputSameBytes(t *testing.T) {
	first, second := render(t), make([][]byte, len(samples()))
	var wg sync.WaitGroup
	for i, s := range samples() {
		wg.Go(func() {
			var b bytes.Buffer
			if assert.NoError(t, s.fig.File(&b)) {
				second[i] = b.Bytes()
			}
		})
	}
	wg.Wait()
	for i, s := range samples() {
		assert.Equal(t, first[i], second[i], s.name)
	}
	var a, b bytes.Buffer
	require.NoError(t, sampleRange().Draw().PNG(&a, 100))
	require.NoError(t, sampleRange().Draw().PNG(&b, 100))
	assert.Equal(t, a.Bytes(), b.Bytes())
}

func render(t *testing.T) [][]byte {
	var out [][]byte
	for _, s := range samples() {
		var b bytes.Buffer
		require.NoError(t, s.fig.File(&b))
		out = append(out, b.Bytes())
	}
	return out
}

func TestPNG(t *testing.T) {
	f := sampleBars().Draw()
	var b bytes.Buffer
	require.NoError(t, f.PNG(&b, 200))
	img, err := png.Decode(&b)
	require.NoError(t, err)
	assert.InDelta(t, 170/25.4*200, img.Bounds().Dx(), 1, "170 mm at 200 dots an inch")
	assert.Equal(t, 0xffff, int(first(img.At(0, 0).RGBA())), "on white")
	for _, dpi := range []float64{0, -1, 35, 1201, 1e9} {
		assert.ErrorContains(t, f.PNG(io.Discard, dpi), "36..1200 dots an inch")
	}
	assert.Error(t, Figure{}.PNG(io.Discard, 100))
	assert.Error(t, Figure{}.SVG(io.Discard))
}

func first(r, _, _, _ uint32) uint32 { return r }

func TestEveryExtremeIsABitmapToo(t *testing.T) {
	for _, s := range extremes() {
		assert.NoError(t, s.fig.PNG(io.Discard, 40), s.name)
	}
}

func TestFontCSS(t *testing.T) {
	css := FontCSS()
	faces := regexp.MustCompile(`base64,([^)]+)\)`).FindAllStringSubmatch(css, -1)
	require.Len(t, faces, 2, "regular and bold")
	for _, f := range faces {
		raw, err := base64.StdEncoding.DecodeString(f[1])
		require.NoError(t, err)
		assert.Equal(t, "wOF2", string(raw[:4]))
	}
	assert.Contains(t, css, `local("Liberation Sans Bold"),local("Arial Bold")`)
	assert.Less(t, len(css), 90_000)
	assert.Contains(t, FontLicence(), "SIL OPEN FONT LICENSE Version 1.1")
}
