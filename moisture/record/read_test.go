package record

import (
	"math"
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

func TestForms(t *testing.T) {
	want := time.Date(2024, 3, 31, 14, 0, 0, 0, time.UTC)
	for _, src := range []string{
		"time,RH,T\n2024-03-31 14:00:00,45.5,20\n",
		"\ufeffT,RH,time\r\n20,45.5,2024-03-31T14:00\r\n",
		"time;T (°C);RH [%]\n2024-03-31 14:00;20,0;45,5\n",
		"Time\tRH %\tTemperature\n2024-03-31 14:00:00\t45.5\t20\n",
		"t_UTC+2,T,RH\n2024-03-31 16:00:00,20,45.5\n",
		"timestamp,rh,t\n2024-03-31T16:00:00+02:00,45.5,20\n",
		"Date,Time,RH,T\n2024-03-31,14:00,45.5,20\n",
		"Time,Date,RH,T\n14:00,2024-03-31,45.5,20\n",
	} {
		r, err := ReadCSV("a.csv", []byte(src))
		if !assert.NoError(t, err, src) {
			continue
		}
		assert.True(t, want.Equal(r.Times[0]), "%s: %s", src, r.Times[0])
		assert.InDelta(t, 0.455, r.RH[0], 1e-12, src)
		assert.InDelta(t, 20, r.T[0], 1e-12, src)
		assert.Equal(t, []int{2}, r.Lines)
		assert.Empty(t, r.Notes)
	}
}

func TestRefused(t *testing.T) {
	row := func(s string) string { return "time,T,RH\n2024-03-31 14:00,20,50\n" + s + "\n" }
	for src, want := range map[string]string{
		"": "empty",
		"2024-03-31 14:00,20,50\n2024-03-31 15:00,20,50\n": "a.csv:1: the first line must name a time column",
		"time,T\n2024-03-31 14:00,20\n":                    "relative humidity",
		"time,T,RH,rh\n":                                   `two columns could be meant, "RH" and "rh"`,
		"time,T (°F),RH\n":                                 "temperature must be in °C",
		"t_UTC+20,T,RH\n":                                  "zone must lie between -12 and +14 hours",
		"time,T,RH\n":                                      "holds no readings",
		"time,RH\n2024-03-31,0.5\n2024-04-01,0.6\n":        "must be in per cent",
		"time,RH\n2024-03-31,\xff\n":                       "UTF-8",
		row("31/03/2024 15:00,20,50"):                      `a.csv:3: time: must be a date and time as 2024-03-31 14:00, got "31/03/2024 15:00"`,
		row("2024-03-31 15:00,20,101"):                     "a.csv:3: RH: must lie between 0 and 100 %, got 101",
		row("2024-03-31 15:00,20,-1"):                      "must lie between 0 and 100 %, got -1",
		row("2024-03-31 15:00,300,50"):                     "a.csv:3: T: must lie between -60 and 80 °C, got 300",
		row("2024-03-31 13:00,20,50"):                      "a.csv:3: time: times must rise, got 2024-03-31 13:00:00 after 2024-03-31 14:00:00",
		row("2024-03-31 14:00,20,50"):                      "times must rise",
		row("2024-03-31 15:00,20,NaN"):                     `must be a number with a decimal point, got "NaN"`,
		row("2024-03-31 15:00,20,0x10"):                    "must be a number",
		row("2024-03-31 15:00,20,5,5"):                     "a.csv:3: row must have 3 cells as the head line, got 4",
		row(`2024-03-31 15:00,"20,50`):                     "quotation marks",
	} {
		r, err := ReadCSV("a.csv", []byte(src))
		assert.Nil(t, r, src)
		assert.ErrorContains(t, err, want, src)
	}
}

func TestAllFaultsAreListedUpToALimit(t *testing.T) {
	_, err := ReadCSV("a.csv", []byte("time,RH\n"+strings.Repeat("yesterday,200\n", 50)))
	require.Error(t, err)
	assert.Equal(t, shown, strings.Count(err.Error(), "a.csv:"+"")-1)
	assert.ErrorContains(t, err, "and 80 more faults")
}

func TestWhatIsLeftOutIsNoted(t *testing.T) {
	src := "time,T,RH,ws\n2024-01-01 00:00,20,50,1\n2024-01-01 01:00,,51,1\n2024-01-01 02:00,20,,1\n" +
		"2024-01-01 03:00,20,,1\n2024-01-01 04:00,20,,1\n2024-01-01 05:00,20,,1\n2024-01-01 06:00,20,52,1\n2024-01-01 07:00,20,52,1\n"
	r, err := ReadCSV("a.csv", []byte(src))
	require.NoError(t, err)
	assert.Equal(t, []int{2, 3, 8, 9}, r.Lines)
	assert.True(t, math.IsNaN(r.T[1]))
	notes := r.Notes.Error()
	assert.Contains(t, notes, "ws: column is not read")
	assert.Contains(t, notes, "relative humidity: 4 empty cells, the first on line 4, 5, 6: the readings are left out as gaps")
	assert.Contains(t, notes, "temperature: 1 empty cells, the first on line 3")
	s := r.Stats()
	require.Len(t, s.Gaps, 1)
	assert.Equal(t, 5*time.Hour, s.Gaps[0].To.Sub(s.Gaps[0].From))
	assert.Equal(t, 1, s.WithoutTemperature)
}

func FuzzReadCSV(f *testing.F) {
	for _, s := range []string{
		"time,RH,T\n2024-03-31 14:00:00,45.5,20\n", "time;T (°C);RH [%]\n2024-03-31 14:00;20,0;45,5\n",
		"Date,Time,RH\n2024-03-31,14:00,\n", "t_UTC+2,T,RH\n31/12/99,1e9,-1\n\"", "\ufeff", "a\tb\n",
	} {
		f.Add([]byte(s))
	}
	f.Fuzz(func(t *testing.T, src []byte) {
		r, err := ReadCSV("f", src)
		if err != nil {
			assert.NotEmpty(t, err.Error())
			assert.Nil(t, r)
			return
		}
		_ = r.Notes.Error()
		require.Len(t, r.RH, len(r.Times))
		require.Len(t, r.Lines, len(r.Times))
		s := r.Stats()
		assert.True(t, s.MinRH >= 0 && s.MaxRH <= 1 && s.MinRH <= s.MeanRH+1e-9 && s.MeanRH <= s.MaxRH+1e-9)
		if lo, mid, hi, err := r.RunningMean(time.Hour); err == nil {
			assert.True(t, lo <= mid+1e-9 && mid <= hi+1e-9)
		}
	})
}
