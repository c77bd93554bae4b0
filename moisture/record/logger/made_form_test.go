package logger_test

import (
	"encoding/binary"
	"fmt"
	"strings"
	"testing"
	"unicode/utf16"

	"github.com/stretchr/testify/require"
	"golang.org/x/text/encoding/charmap"

	"crossgrain/moisture/record/logger"
)

func wide(s string, order binary.AppendByteOrder, mark bool) []byte {
	if mark {
		s = "\ufeff" + s
	}
	var out []byte
	for _, u := range utf16.Encode([]rune(s)) {
		out = order.AppendUint16(out, u)
	}
	return out
}

// TestMadeEncodings writes one file in the encodings that spreadsheets and loggers write.
func TestMadeEncodings(t *testing.T) {
	x := change(func(x *table) {
		x.delim, x.decimal, x.eol = ";", ',', "\r\n"
		x.head = []string{"Zeit", "rel. Feuchte [%]", "Temperatur Süd [°C]"}
	})
	text := x.text(threeDays())
	narrow, err := charmap.Windows1252.NewEncoder().String(text)
	require.NoError(t, err)
	var all []made
	for _, c := range []struct {
		name string
		data []byte
	}{
		{"utf-8", []byte(text)},
		{"utf-8 with mark", []byte("\ufeff" + text)},
		{"windows-1252", []byte(narrow)},
		{"utf-16le with mark", wide(text, binary.LittleEndian, true)},
		{"utf-16be with mark", wide(text, binary.BigEndian, true)},
		{"utf-16le without mark", wide(text, binary.LittleEndian, false)},
		{"utf-16be without mark", wide(text, binary.BigEndian, false)},
	} {
		all = append(all, made{name: c.name, files: []logger.File{{Name: "made.txt", Data: c.data}}, want: threeDays()})
	}
	runMade(t, all)
}

// TestMadeDelimiters crosses delimiters and decimal signs.
func TestMadeDelimiters(t *testing.T) {
	var all []made
	for _, c := range []struct {
		name, delim string
		decimal     byte
		quoted      bool
	}{
		{"comma point", ",", '.', false},
		{"comma point quoted", ",", '.', true},
		{"comma comma quoted", ",", ',', true},
		{"semicolon comma", ";", ',', false},
		{"semicolon point", ";", '.', false},
		{"semicolon comma quoted", ";", ',', true},
		{"tab comma", "\t", ',', false},
		{"tab point", "\t", '.', false},
		{"spaces point", "   ", '.', false},
		{"spaces comma", "   ", ',', false},
		{"bar point", "|", '.', false},
		{"comma and blank point", ", ", '.', false},
		{"semicolon and blank comma", "; ", ',', false},
	} {
		x := change(func(x *table) { x.delim, x.decimal, x.quoted = c.delim, c.decimal, c.quoted })
		if c.delim == "   " {
			x.head = []string{"Date", "Time", "RH[%]", "T[°C]"}
		}
		for _, n := range []struct {
			name string
			want []sample
		}{{"three days", threeDays()}, {"weeks", weeks()}} {
			all = append(all, made{name: c.name + " " + n.name, files: x.file(n.want), want: n.want})
			whole := x
			whole.head = nil
			all = append(all, made{name: c.name + " without head " + n.name, files: whole.file(n.want), want: n.want})
		}
	}
	runMade(t, all)
}

// TestMadeAligned parts columns by runs of blanks, with single blanks inside the names of the head.
func TestMadeAligned(t *testing.T) {
	wide := change(func(x *table) { x.delim = "   " })
	right := change(func(x *table) {
		x.delim, x.head = "", []string{"Time               ", "  RH [%]", "   T [°C]"}
		x.cells = func(x table, s sample) []string {
			return []string{fmt.Sprintf("%8.1f", s.rh), fmt.Sprintf("%9.1f", s.t)}
		}
	})
	named := change(func(x *table) {
		x.delim, x.head = "  ", []string{"Date and time", "Relative humidity (%)", "Temperature (°C)"}
	})
	runMade(t, []made{
		{name: "three blanks", files: wide.file(threeDays()), want: threeDays()},
		{name: "aligned right", files: right.file(threeDays()), want: threeDays()},
		{name: "two blanks, long names", files: named.file(threeDays()), want: threeDays()},
		{name: "tabs and blanks", files: textFile(strings.ReplaceAll(change(func(x *table) { x.delim = "\t" }).text(threeDays()), "\t", " \t ")), want: threeDays()},
	})
}

// TestMadeLineEnds holds what file transfers do to the ends of lines.
func TestMadeLineEnds(t *testing.T) {
	want := threeDays()
	lines := plain().lines(want)
	mixed := ""
	for i, l := range lines {
		mixed += l + []string{"\n", "\r\n"}[i%2]
	}
	text := plain().text(want)
	commas := change(func(x *table) { x.last = "," }).text(want)
	many := change(func(x *table) { x.delim, x.last = ";", ";;;;" }).text(want)
	cut := strings.Join(lines, "\n")
	cut = cut[:len(cut)-len(",48.0,19.0")] // the last line loses its values
	runMade(t, []made{
		{name: "carriage returns only", files: textFile(strings.ReplaceAll(text, "\n", "\r")), want: want},
		{name: "mixed", files: textFile(mixed), want: want},
		{name: "carriage return doubled", files: textFile(strings.ReplaceAll(text, "\n", "\r\r\n")), want: want},
		{name: "empty line after each", files: textFile(strings.ReplaceAll(text, "\n", "\n\n")), want: want},
		{name: "no end of last line", files: textFile(strings.TrimSuffix(text, "\n")), want: want},
		{name: "trailing comma", files: textFile(commas), want: want},
		{name: "many trailing semicolons", files: textFile(many), want: want},
		{name: "blanks at the end", files: textFile(strings.ReplaceAll(text, "\n", "  \n")), want: want},
		{name: "end-of-file sign", files: textFile(text + "\x1a"), want: want, spare: 1},
		{name: "last line cut", files: textFile(cut), want: want[:71], aside: []aside{{1, []int{73}, ""}}},
	})
}

// TestMadeNulls has zero bytes at the end or in the middle of a file, as after a flat battery: refused
// by that name, or every line is read or counted.
func TestMadeNulls(t *testing.T) {
	lines := plain().lines(threeDays())
	end := strings.Join(lines, "\n") + "\n" + strings.Repeat("\x00", 512)
	lines[40] += strings.Repeat("\x00", 64)
	for name, text := range map[string]string{"end": end, "middle": strings.Join(lines, "\n")} {
		r, how, err := logger.Read(textFile(text), logger.Options{})
		if err != nil {
			require.ErrorContains(t, err, "zero bytes", name)
			require.ErrorContains(t, err, "made.csv", name)
			continue
		}
		require.GreaterOrEqual(t, len(r.Times)+asideCount(how), 72, name)
		require.GreaterOrEqual(t, len(r.Times), 71, name)
	}
}

// TestMadeThousands groups digits; pressure and light stand beside the climate.
func TestMadeThousands(t *testing.T) {
	want := threeDays()
	point := change(func(x *table) {
		x.head = []string{"Time", "Light [lx]", "RH [%]", "T [°C]"}
		x.quoted = true
		x.cells = func(x table, s sample) []string { return []string{"1,250.5", x.num(s.rh), x.num(s.t)} }
	})
	comma := change(func(x *table) {
		x.delim, x.decimal = ";", ','
		x.head = []string{"Zeit", "Licht [lx]", "Feuchte [%]", "Temperatur [°C]"}
		x.cells = func(x table, s sample) []string { return []string{"1.250,5", x.num(s.rh), x.num(s.t)} }
	})
	runMade(t, []made{
		{name: "commas group", files: point.file(want), want: want},
		{name: "points group", files: comma.file(want), want: want},
	})
}
