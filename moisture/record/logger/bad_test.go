package logger_test

import (
	"bytes"
	"image"
	"image/color"
	"image/jpeg"
	"image/png"
	"runtime"
	"strings"
	"testing"
	"time"
	"unicode"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"github.com/xuri/excelize/v2"

	"crossgrain/moisture/record/logger"
)

func photograph() image.Image {
	m := image.NewRGBA(image.Rect(0, 0, 90, 60))
	for i := range m.Pix {
		m.Pix[i] = byte(i * i % 251)
	}
	m.Set(3, 3, color.White)
	return m
}

// refused requires an error that names the file, in lower case, without a full stop.
func refused(t *testing.T, name string, data []byte) string {
	t.Helper()
	began := time.Now()
	r, _, err := logger.Read([]logger.File{{Name: name, Data: data}}, logger.Options{})
	require.Error(t, err, name)
	assert.Nil(t, r)
	assert.Less(t, time.Since(began), 5*time.Second)
	text := err.Error()
	assert.Less(t, len(text), 2000, "a message of %d bytes", len(text))
	for _, line := range strings.Split(text, "\n") {
		line = strings.TrimSpace(line)
		assert.False(t, strings.HasSuffix(line, "."), "full stop: %q", line)
		rest := strings.TrimPrefix(strings.TrimPrefix(line, name), "hint: ")
		rest = strings.TrimLeft(rest, ": 0123456789")
		if rest != "" {
			assert.False(t, unicode.IsUpper([]rune(rest)[0]) && !strings.HasPrefix(rest, "UTF") && !strings.HasPrefix(rest, "JSON"), "capital: %q", line)
		}
	}
	assert.Contains(t, text, name)
	assert.False(t, strings.ContainsFunc(text, func(r rune) bool { return r < ' ' && r != '\n' && r != '\t' || r == unicode.ReplacementChar }), "unprintable: %q", text)
	return text
}

// TestRefused holds files without readings; some are no text at all.
func TestRefused(t *testing.T) {
	var pngFile, jpegFile bytes.Buffer
	require.NoError(t, png.Encode(&pngFile, photograph()))
	require.NoError(t, jpeg.Encode(&jpegFile, photograph(), nil))
	head := strings.Join(plain().lines(nil), "\n") + "\n"
	emptyBook := book(t, func(*excelize.File) {})[0].Data
	for _, c := range []struct {
		name, data string
		words      string
	}{
		{"photograph.csv", pngFile.String(), "picture|image|photograph|not text|no text|not plain text"},
		{"photograph2.csv", jpegFile.String(), "picture|image|photograph|not text|no text|not plain text"},
		{"page.csv", "%PDF-1.7\n%\xe2\xe3\xcf\xd3\n1 0 obj\n", ""},
		{"empty.csv", "", "empty"},
		{"blank.csv", " \n\n\t\n", "empty|no readings|no reading"},
		{"mark.csv", "\ufeff", "empty"},
		{"zeros.csv", strings.Repeat("\x00", 4096), ""},
		{"head.csv", head, "no readings|no reading|holds no"},
		{"letter.txt", "Dear colleague,\n\nthe panel came back on Monday.\nIt has 3 boards and 2 battens, 45.2 and 20.1 cm wide.\n", ""},
		{"notimes.csv", "RH,T\n45.2,20.1\n45.3,20.2\n45.4,20.3\n45.1,20.0\n", "time|date"},
		{"novalues.csv", "Time,Place\n2023-11-13 00:00,store\n2023-11-13 01:00,store\n2023-11-13 02:00,store\n", "humidity"},
		{"warmonly.csv", "Time,T [°C]\n2023-11-13 00:00,20.1\n2023-11-13 01:00,20.2\n2023-11-13 02:00,20.3\n", "humidity"},
		{"onlymissing.csv", "Time,RH,T\n2023-11-13 00:00,---,---\n2023-11-13 01:00,---,---\n2023-11-13 02:00,---,---\n", ""},
		{"empty.json", "{}", ""},
		{"array.json", "[]", ""},
		{"cut.json", `[{"time":"2023-11-13T00:00:00","humidity":45.2},{"time":"2023-11`, ""},
		{"deep.json", strings.Repeat("[", 200000), ""},
		{"deepobject.json", strings.Repeat(`{"a":`, 100000), ""},
		{"empty.xlsx", string(emptyBook), ""},
		{"cut.xlsx", string(emptyBook[:len(emptyBook)/2]), ""},
		{"fake.xlsx", "PK\x03\x04 not a workbook", ""},
		{"page.html", "<!doctype html><html><body><p>Sign in</p></body></html>", ""},
	} {
		t.Run(c.name, func(t *testing.T) {
			text := refused(t, c.name, []byte(c.data))
			if c.words != "" {
				assert.True(t, saysOneOf(text, c.words), "none of %q in %q", c.words, text)
			}
		})
	}
}

// TestRefusedNothing has no file at all.
func TestRefusedNothing(t *testing.T) {
	_, _, err := logger.Read(nil, logger.Options{})
	require.Error(t, err)
}

// TestWide reads or refuses a row of a million cells, and a line without an end, in bounded memory.
func TestWide(t *testing.T) {
	row := "2023-11-13 00:00:00" + strings.Repeat(",1", 1_000_000) + "\n"
	head := "Time" + strings.Repeat(",x", 1_000_000) + "\n"
	for name, data := range map[string]string{
		"a million columns": head + row + row,
		"a million, named":  "Time" + strings.Repeat(",RH", 1_000_000) + "\n" + row + row,
		"a line of 2 MB":    strings.Repeat("45.2 ", 400_000),
		"a quote of 2 MB":   `"` + strings.Repeat("45.2,", 400_000),
		"a cell of 2 MB":    "Time,RH\n2023-11-13 00:00:00," + strings.Repeat("4", 2_000_000) + "\n",
		"commas":            strings.Repeat(",", 2_000_000),
		"empty lines":       strings.Repeat("\n", 2_000_000),
	} {
		var before, after runtime.MemStats
		runtime.ReadMemStats(&before)
		began := time.Now()
		_, _, err := logger.Read([]logger.File{{Name: "wide.csv", Data: []byte(data)}}, logger.Options{})
		took := time.Since(began)
		runtime.ReadMemStats(&after)
		if assert.Error(t, err, name) {
			assert.Less(t, len(err.Error()), 4000, "%s: message", name)
		}
		assert.Less(t, took, 10*time.Second, name)
		assert.Less(t, after.TotalAlloc-before.TotalAlloc, uint64(128*len(data)+1<<20), "%s: memory for %d bytes", name, len(data))
	}
}

// TestFarYears sets aside, or refuses, what no logger has seen.
func TestFarYears(t *testing.T) {
	want := threeDays()
	for _, form := range []string{"9999-12-31 23:00:00", "0001-01-01 00:00:00", "1899-12-30 00:00:00", "2160-01-01 00:00:00"} {
		lines := plain().lines(want)
		lines[30] = form + ",45.2,20.1"
		r, how, err := logger.Read(textFile(strings.Join(lines, "\n")), logger.Options{})
		require.NoError(t, err, form)
		require.Len(t, r.Times, 71, form)
		require.Equal(t, 1, asideCount(how), form)
		assert.Equal(t, []int{31}, how.SetAside[0].Lines, form)
		assert.Less(t, r.Times[70].Sub(r.Times[0]), 72*time.Hour)
	}
	far := series(time.Date(9999, 12, 29, 0, 0, 0, 0, time.UTC), 72, time.Hour)
	refused(t, "made.csv", []byte(plain().text(far)))
}

// TestDaysThatAreNone has 30 February and 25 o'clock.
func TestDaysThatAreNone(t *testing.T) {
	for _, form := range []string{"2023-02-30 01:00:00", "2023-11-14 25:00:00", "2023-11-14 05:61:00", "2023-13-14 05:00:00"} {
		lines := plain().lines(threeDays())
		lines[30] = form + ",45.2,20.1"
		r, how, err := logger.Read(textFile(strings.Join(lines, "\n")), logger.Options{})
		if err != nil {
			assert.Contains(t, err.Error(), "made.csv", form)
			continue
		}
		require.Len(t, r.Times, 71, form)
		assert.Equal(t, 1, asideCount(how), form)
	}
}

// TestQuoteLeftOpen loses at most the line it stands in, counted, or is refused.
func TestQuoteLeftOpen(t *testing.T) {
	lines := plain().lines(threeDays())
	lines[30] = `"` + lines[30]
	r, how, err := logger.Read(textFile(strings.Join(lines, "\n")), logger.Options{})
	if err != nil {
		assert.Contains(t, err.Error(), "made.csv")
		return
	}
	assert.Equal(t, 72, len(r.Times)+asideCount(how))
	assert.GreaterOrEqual(t, len(r.Times), 71)
}

// TestChannelErrors says what there is, also when a file of one room is asked for another.
func TestChannelErrors(t *testing.T) {
	e := &logger.ChannelError{File: "a.csv", Names: []string{"Hall", "Attic"}}
	assert.Contains(t, e.Error(), "Hall, Attic")
	e.Asked = "Cellar"
	assert.Contains(t, e.Error(), `"Cellar"`)
}
