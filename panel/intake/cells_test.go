package intake

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// TestLengths: an inch is 25.4 mm exactly (international yard and pound agreement, 1959); the other
// lines are the decimal system.
func TestLengths(t *testing.T) {
	for _, c := range []struct {
		cell, unit string
		low, high  float64 // mm
		typed      string  // as the panel file holds it
		about      bool
	}{
		{"62 cm", "", 620, 620, `"62 cm"`, false},
		{"62", "cm", 620, 620, `"62 cm"`, false},
		{"62 mm", "cm", 62, 62, `"62 mm"`, false}, // the cell's own unit counts
		{"12,5", "mm", 12.5, 12.5, `"12,5 mm"`, false},
		{"12.5 mm", "", 12.5, 12.5, `"12.5 mm"`, false},
		{"24 1/2 in", "", 622.3, 622.3, `"24 1/2 in"`, false},
		{"24-1/2 in.", "", 622.3, 622.3, `"24-1/2 in"`, false},
		{"24½ in", "", 622.3, 622.3, `"24½ in"`, false},
		{`24 1/2"`, "", 622.3, 622.3, `"24 1/2 in"`, false},
		{"3/4 in", "", 19.05, 19.05, `"3/4 in"`, false},
		{"10-15 mm", "", 10, 15, `["10 mm", "15 mm"]`, false},
		{"10–15", "mm", 10, 15, `["10 mm", "15 mm"]`, false},
		{"10 to 15 mm", "", 10, 15, `["10 mm", "15 mm"]`, false},
		{"10 mm - 1,5 cm", "", 10, 15, `["10 mm", "1,5 cm"]`, false},
		{"10 bis 15", "mm", 10, 15, `["10 mm", "15 mm"]`, false},
		{"c. 12 mm", "", 12, 12, `"12 mm"`, true},
		{"ca. 12", "mm", 12, 12, `"12 mm"`, true},
		{"~12 mm", "", 12, 12, `"12 mm"`, true},
		{"12 mm?", "", 12, 12, `"12 mm"`, true},
		{"62 Zentimeter", "", 620, 620, `"62 cm"`, false},
		{"1.2 m", "", 1200, 1200, `"1.2 m"`, false},
		{"62\u00a0cm", "", 620, 620, `"62 cm"`, false},
		{"-3 mm", "", -3, -3, `"-3 mm"`, false}, // the panel file's range speaks of it
	} {
		s, err := parseLength(c.cell, c.unit)
		if assert.NoError(t, err, c.cell) {
			assert.InDelta(t, c.low, s.low, 1e-9, c.cell)
			assert.InDelta(t, c.high, s.high, 1e-9, c.cell)
			assert.Equal(t, c.typed, s.toml(), c.cell)
			assert.Equal(t, c.about, s.about, c.cell)
		}
	}
	_, err := parseLength("62", "")
	assert.Equal(t, errNoUnit, err, "cm and inch both look right")
	_, err = parseLength("47 x 30", "")
	assert.NotEqual(t, errNoUnit, err, "a unit would not help")
	assert.Error(t, err)
	for _, bad := range []string{"", "cm", "sixty", "15-10 mm", "1-2-3 mm", "12 furlongs", "1,234.5 mm", "1e3 mm", "12 mm 3", "NaN mm", "--3 mm", "1/0 in", "12 x 3 cm"} {
		_, err := parseLength(bad, "mm")
		assert.Error(t, err, bad)
	}
}

func TestSizes(t *testing.T) {
	for _, c := range []struct {
		cell, unit    string
		height, width float64 // mm
		third         string
		differs       bool
	}{
		{"62 x 47,5 cm", "", 620, 475, "", false},
		{"62 × 47.5 cm", "", 620, 475, "", false},
		{"62 cm x 47,5 cm", "", 620, 475, "", false},
		{"620x475", "mm", 620, 475, "", false},
		{"24 1/2 x 18 3/4 in", "", 622.3, 476.25, "", false},
		{"24 1/2 x 18 3/4 in. (62.2 x 47.6 cm)", "", 622.3, 476.25, "", false},
		{"24 1/2 x 18 3/4 in. (26.2 x 47.6 cm)", "", 622.3, 476.25, "", true},
		{"62 x 47,5 x 8 cm", "", 620, 475, "8 cm", false},
		{"H 62 cm x W 47 cm", "", 620, 470, "", false},
		{"W 47 x H 62 cm", "", 620, 470, "", false},
		{"62 (h) x 47 (w) cm", "", 620, 470, "", false},
		{"62 by 47 cm", "", 620, 470, "", false},
		{"c. 62 x 47 cm", "", 620, 470, "", false},
	} {
		s, err := parseSize(c.cell, c.unit)
		if assert.NoError(t, err, c.cell) {
			assert.InDelta(t, c.height, s.height.high, 1e-9, c.cell)
			assert.InDelta(t, c.width, s.width.high, 1e-9, c.cell)
			assert.Equal(t, c.third, s.third, c.cell)
			assert.Equal(t, c.differs, s.differs != "", c.cell)
		}
	}
	_, err := parseSize("62 x 47", "")
	assert.Equal(t, errNoUnit, err)
	for _, bad := range []string{"62 cm", "x", "62 x", "a x b cm", "1 x 2 x 3 x 4 cm", "62 x 47 cm or more"} {
		_, err := parseSize(bad, "cm")
		assert.Error(t, err, bad)
	}
}

func TestCracks(t *testing.T) {
	type want struct {
		from, off     string
		length, place float64 // mm, 0 for none
	}
	for cell, wants := range map[string][]want{
		"top 120 mm":                         {{"top", "", 120, 0}},
		"top 120; left 40 from bottom":       {{"top", "", 120, 0}, {"left", "bottom", 0, 40}},
		"Top 12 cm; bottom":                  {{"top", "", 120, 0}, {"bottom", "", 0, 0}},
		"oben 120 und unten 40":              {{"top", "", 120, 0}, {"bottom", "", 40, 0}},
		"haut 4 1/2 in":                      {{"top", "", 114.3, 0}},
		"top 40 mm from left":                {{"top", "left", 0, 40}},
		"crack at top 120":                   {{"top", "", 120, 0}},
		"bottom 100-120 mm; top c. 30 mm \n": {{"bottom", "", 120, 0}, {"top", "", 30, 0}},
	} {
		got, unread, bare := parseCracks(cell, "mm")
		assert.Empty(t, unread, cell)
		assert.False(t, bare, cell)
		if !assert.Len(t, got, len(wants), cell) {
			continue
		}
		for i, w := range wants {
			assert.Equal(t, w.from, got[i].from, cell)
			assert.Equal(t, w.off, got[i].off, cell)
			for _, p := range []struct {
				want float64
				s    *span
			}{{w.length, got[i].length}, {w.place, got[i].place}} {
				require.Equal(t, p.want != 0, p.s != nil, cell)
				if p.s != nil {
					assert.InDelta(t, p.want, p.s.high, 1e-9, cell)
				}
			}
		}
	}
	got, unread, bare := parseCracks("top 120; middle 30; left 40 from the sky", "")
	assert.Len(t, got, 1)
	assert.True(t, bare, "no unit anywhere")
	assert.Equal(t, []string{"middle 30", "left 40 from the sky"}, unread, "nothing is dropped")
}

func TestAnswers(t *testing.T) {
	for cell, want := range map[string]answer{
		"": blank, "  ": blank, "not recorded": blank, "?": cannotTell, "??": cannotTell, "unknown": cannotTell, "none": nothing, "None": nothing, "0": nothing, "no": nothing,
		"keine": nothing, "yes": yes, "Ja": yes, "oak": other, "oak?": other, "00": other, "-": other,
	} {
		assert.Equal(t, want, answerOf(cell), "%q", cell)
	}
}

func TestHeadings(t *testing.T) {
	for h, want := range map[string]string{
		"Accession No.": "accession", "Inv.-Nr.": "accession", "Numéro d'inventaire": "accession", "Height (cm)": "height cm", "height_cm": "height cm", "Höhe [mm]": "height mm",
		"Höhe in cm": "height cm", "Hauteur, cm": "height cm", "Height of panel (in)": "height in", "Breite": "width", "H x W": "size", "Maße (cm)": "size cm", "Dimensions": "size",
		"thickness_mm": "thickness mm", "Dicke mm": "thickness mm", "Tiefe": "depth", "Depth": "depth", "Holzart": "wood", "Bois": "wood", "Back": "back_support", "Rückseite": "back_support",
		"Parquetage": "back_support", "Cracks": "cracks", "Risse": "cracks", "warp_mm": "warp mm", "Standort": "place", "Rack": "place", "question": "question", "Must stay": "must_stay",
	} {
		f, unit, ok := fieldOf(h)
		assert.True(t, ok, h)
		assert.Equal(t, want, strings.TrimSpace(string(f)+" "+unit), h)
	}
	for _, h := range []string{"", "Frame height", "Value", "Insured for", "Height framed", "mm", "Colour"} {
		_, _, ok := fieldOf(h)
		assert.False(t, ok, "%q is nothing that is known", h)
	}
	for _, v := range vocabulary {
		for _, w := range v.words {
			f, _, ok := fieldOf(w)
			assert.True(t, ok && f == v.field, "%q stands for %s and is read as %s", w, v.field, f)
		}
	}
}

func TestNumbersThatSpreadsheetsSpoil(t *testing.T) {
	for _, c := range []struct {
		number, neighbours string
		id, detail         string
	}{
		{"2024-03-12", "12-4 12-5 12-7", NumberDate, ""},
		{"12 Mar", "12-4 12-5 12-7", NumberDate, ""},
		{"Mar-23", "3-24 3-25", NumberDate, ""},
		{"12.03.2024", "12-4 12-5 12-7", NumberDate, ""},
		{"45363", "12-4 12-5 12-7", NumberDate, ""},
		{"45363", "45364 45365 45366", "", ""}, // the house's own form
		{"1.92E+05", "1923.1a 1923.2a", NumberExponent, ""},
		{"1,92E+10", "1923.1a 1923.2a", NumberExponent, ""},
		{"1923.1", "1923.9 1923.11 1923.12", NumberZeros, "1923.10"},
		{"1923.1", "1923.1 1923.2", NumberZeros, "1923.10"},
		{"1923.1", "1923.2 1923.3 1923.10", "", ""},
		{"1923.1", "1923.2 1923.3", "", ""},
		{"1998.1", "1998.11 1998.12 1998.14", NumberZeros, "1998.10"},
		{"123", "00124 00125 00126", NumberZeros, "00123"},
		{"123", "124 125", "", ""},
		{"12–3", "12-4 12-5", NumberDash, ""},
		{"12-3", "12-4 12-5", "", ""},
		{"INV 7", "INV 8", "", ""},
	} {
		n := newNumbers(append(strings.Split(strings.ReplaceAll(c.neighbours, "  ", " "), " "), c.number))
		id, detail := n.doubt(c.number)
		assert.Equal(t, c.id, id, "%s beside %s", c.number, c.neighbours)
		assert.Equal(t, c.detail, detail, "%s beside %s", c.number, c.neighbours)
	}
}

func TestPlaces(t *testing.T) {
	order := []string{"A", "Rack 2", "rack 2b", "rack 10", "rack 010b", "S", ""}
	for i := range order {
		for j := range order {
			got := ComparePlaces(order[i], order[j])
			assert.Equal(t, sign(i-j), sign(got), "%q and %q", order[i], order[j])
		}
	}
}

func sign(x int) int {
	switch {
	case x < 0:
		return -1
	case x > 0:
		return 1
	}
	return 0
}
