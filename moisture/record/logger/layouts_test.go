package logger_test

import (
	"encoding/csv"
	"math"
	"os"
	"path/filepath"
	"strconv"
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"crossgrain/moisture/record"
	"crossgrain/moisture/record/logger"
)

const layoutsDir = "../../../testdata/records/layouts"

// layoutRow is one line of layouts.csv, by the name of its column.
type layoutRow map[string]string

func (w layoutRow) number(t testing.TB, column string) float64 {
	t.Helper()
	v, err := strconv.ParseFloat(w[column], 64)
	require.NoError(t, err, column)
	return v
}

// instant reads a moment of the table; without an offset it is the clock as it stands.
func (w layoutRow) instant(t testing.TB, column string) time.Time {
	t.Helper()
	for _, form := range []string{time.RFC3339, "2006-01-02T15:04:05"} {
		if at, err := time.Parse(form, w[column]); err == nil {
			return at
		}
	}
	require.Fail(t, "no moment", w[column])
	return time.Time{}
}

func layoutRows(t testing.TB) []layoutRow {
	t.Helper()
	f, err := os.Open(filepath.Join(layoutsDir, "layouts.csv"))
	require.NoError(t, err)
	defer func() { _ = f.Close() }()
	cells, err := csv.NewReader(f).ReadAll()
	require.NoError(t, err)
	var out []layoutRow
	for _, line := range cells[1:] {
		w := layoutRow{}
		for i, name := range cells[0] {
			w[name] = line[i]
		}
		out = append(out, w)
	}
	return out
}

func layoutFile(t testing.TB, name string) logger.File {
	t.Helper()
	data, err := os.ReadFile(filepath.Join(layoutsDir, name))
	require.NoError(t, err)
	return logger.File{Name: name, Data: data}
}

func berlin(t testing.TB) *time.Location {
	t.Helper()
	zone, err := time.LoadLocation("Europe/Berlin")
	require.NoError(t, err)
	return zone
}

// options are those that the file leaves open: the channel, and the zone of the two files in civil
// time that does not say where.
func (w layoutRow) options(t testing.TB) logger.Options {
	o := logger.Options{Channel: w["channel"]}
	if w["zone"] == "local civil time, central Europe, not stated in file" {
		o.Zone = berlin(t)
	}
	return o
}

// complete returns the readings of which both quantities are there, T in °C and RH in per cent.
func complete(r *record.Record) (at []time.Time, temps, rhs []float64) {
	for i := range r.Times {
		if r.T == nil || math.IsNaN(r.T[i]) {
			continue
		}
		at, temps, rhs = append(at, r.Times[i]), append(temps, r.T[i]), append(rhs, 100*r.RH[i])
	}
	return at, temps, rhs
}

func plainMean(v []float64) float64 {
	s := 0.0
	for _, x := range v {
		s += x
	}
	return s / float64(len(v))
}

// gapsOver counts the places where two readings lie more than 1.5 steps apart.
func gapsOver(at []time.Time, step time.Duration) int {
	n := 0
	for i := 1; i < len(at); i++ {
		if at[i].Sub(at[i-1]) > step*3/2 {
			n++
		}
	}
	return n
}

// TestLayouts compares the reading of every layout with layouts.csv (invented; written apart from
// this reader). Printed digits: values 2 decimals, means 3 decimals.
func TestLayouts(t *testing.T) {
	for _, w := range layoutRows(t) {
		t.Run(w["file"]+w["channel"], func(t *testing.T) {
			r, how, err := logger.Read([]logger.File{layoutFile(t, w["file"])}, w.options(t))
			require.NoError(t, err)
			at, temps, rhs := complete(r)
			require.Len(t, at, int(w.number(t, "rows")))
			last := len(at) - 1
			assert.True(t, at[0].Equal(w.instant(t, "first")), "first reading at %s", at[0])
			assert.True(t, at[last].Equal(w.instant(t, "last")), "last reading at %s", at[last])
			assert.InDelta(t, w.number(t, "first_T_C"), temps[0], 0.0051)
			assert.InDelta(t, w.number(t, "first_RH"), rhs[0], 0.0051)
			assert.InDelta(t, w.number(t, "last_T_C"), temps[last], 0.0051)
			assert.InDelta(t, w.number(t, "last_RH"), rhs[last], 0.0051)
			assert.InDelta(t, w.number(t, "mean_T_C"), plainMean(temps), 0.00051)
			assert.InDelta(t, w.number(t, "mean_RH"), plainMean(rhs), 0.00051)
			step := time.Duration(w.number(t, "interval_s")) * time.Second
			assert.Equal(t, int(w.number(t, "gaps")), gapsOver(at, step), "gaps")
			assert.Equal(t, step, r.Step(), "interval")
			w.found(t, how)
		})
	}
}

// found compares what the reader says of the file with the table.
func (w layoutRow) found(t *testing.T, how *logger.Reading) {
	require.Len(t, how.Files, 1)
	f := how.Files[0]
	assert.Equal(t, w["file"], f.Name)
	assert.Equal(t, w["temperature_unit"], f.Unit, "unit")
	assert.Equal(t, w["channel"] != "", f.Channel == w["channel"] && f.Channel != "" && len(f.Channels) > 1, "channel %q of %q", f.Channel, f.Channels)
	if d := map[string]string{"comma": "comma", "semicolon": "semicolon", "tab": "tab", "spaces (several)": "spaces", "cells": "cells"}[w["delimiter"]]; d != "" {
		assert.Equal(t, d, f.Delimiter)
	}
	if f.Delimiter != "cells" && f.Encoding != "JSON" {
		assert.Equal(t, w["decimal"], f.Decimal, "decimal sign")
	}
	if e := map[string]string{"UTF-8": "UTF-8", "UTF-16LE": "UTF-16LE", "ISO-8859-1": "Windows-1252", "Windows-1252": "Windows-1252"}[w["encoding"]]; e != "" && f.Encoding != "JSON" {
		assert.True(t, strings.HasPrefix(f.Encoding, e), "encoding %q", f.Encoding)
	}
	lines := int(w.number(t, "data_lines"))
	if f.Encoding != "JSON" {
		assert.Equal(t, lines, f.Lines, "lines of data")
	}
	if twice := int(w.number(t, "duplicate_lines")); twice > 0 {
		assert.Equal(t, twice, asideCount(how), "lines set aside")
	}
	for _, s := range how.SetAside {
		assert.Len(t, s.Lines, min(3, s.Count), s.Reason)
		assert.NotEmpty(t, s.Reason)
	}
}

func asideCount(how *logger.Reading) int {
	n := 0
	for _, s := range how.SetAside {
		n += s.Count
	}
	return n
}

// TestLayoutsRefused holds the files that cannot be read without a word of the user.
func TestLayoutsRefused(t *testing.T) {
	_, _, err := logger.Read([]logger.File{layoutFile(t, "two_rooms_wide_semicolon.csv")}, logger.Options{})
	var several *logger.ChannelError
	require.ErrorAs(t, err, &several)
	assert.Equal(t, []string{"Saal", "Depot"}, several.Names)
	assert.Empty(t, several.Asked)
	assert.Contains(t, err.Error(), "two_rooms_wide_semicolon.csv")
	assert.Contains(t, err.Error(), "--channel")

	_, _, err = logger.Read([]logger.File{layoutFile(t, "two_rooms_wide_semicolon.csv")}, logger.Options{Channel: "Attic"})
	require.ErrorAs(t, err, &several)
	assert.Equal(t, "Attic", several.Asked)

	// 03/04/24 alone, up to the day before the 13th: nothing but the steps, which are 6 h either way
	// within a day, so cut the file to one day.
	f := layoutFile(t, "dmy_slash_two_digit_year.csv")
	f.Data = firstLines(f.Data, 5)
	_, _, err = logger.Read([]logger.File{f}, logger.Options{})
	require.Error(t, err)
	assert.Contains(t, err.Error(), "--dates")
	for _, order := range []struct {
		option string
		first  time.Time
	}{{"dmy", time.Date(2024, 4, 3, 0, 0, 0, 0, time.UTC)}, {"mdy", time.Date(2024, 3, 4, 0, 0, 0, 0, time.UTC)}} {
		r, _, err := logger.Read([]logger.File{f}, logger.Options{Dates: order.option})
		require.NoError(t, err, order.option)
		assert.True(t, r.Times[0].Equal(order.first), "%s: %s", order.option, r.Times[0])
	}
}

func firstLines(b []byte, n int) []byte {
	for i, c := range b {
		if c == '\n' {
			if n--; n == 0 {
				return b[:i+1]
			}
		}
	}
	return b
}
