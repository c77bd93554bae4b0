package record

import (
	"crypto/sha256"
	"encoding/csv"
	"encoding/hex"
	"math"
	"os"
	"slices"
	"strconv"
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

const (
	records = "../../testdata/records/"
	month   = 30 * 24 * time.Hour
)

// The open records (testdata/records/README.md) and their SHA-256 as published beside them.
var openRecords = []struct{ name, sum string }{
	{"indoor_house_tampere_2010-2012_hourly.csv", "e98e53944a33bb6b32ecebe1819467f15a9d869bbf566d0bd3cca64ae87e6f33"},
	{"attic_unheated_tampere_2010-2012_hourly.csv", "28ae1a6afeb4a808d47bc0e7719bf135b0c5d80972394cfe7334bdbd28405801"},
	{"outdoor_tampere_2010-2012_hourly.csv", "34d3c653d08de2d73ccaf1a16fa786f13e8861a205b0c859c6d88037bd93a689"},
	{"indoor_half_heated_tampere_2020-2021_10min.csv", "77eb93529be448b5610ca4feee834905d4fcd7126dffc161a573fa11b8570436"},
}

// openRecord reads one of the open records, whose first column is a local time without summer time.
func openRecord(tb testing.TB, name string) *Record {
	tb.Helper()
	src, err := os.ReadFile(records + name)
	require.NoError(tb, err)
	sum := sha256.Sum256(src)
	for _, o := range openRecords {
		if o.name == name {
			require.Equal(tb, o.sum, hex.EncodeToString(sum[:]), "the file is not the published one")
		}
	}
	rows, err := csv.NewReader(strings.NewReader(string(src))).ReadAll()
	require.NoError(tb, err)
	col := func(names ...string) int {
		return slices.IndexFunc(rows[0], func(h string) bool { return slices.Contains(names, h) })
	}
	zone := time.FixedZone("UTC+2", 7200)
	r := &Record{Name: name, Zone: zone}
	for i, row := range rows[1:] {
		at, err := time.ParseInLocation(time.DateTime, row[0], zone)
		require.NoError(tb, err)
		rh, err := strconv.ParseFloat(row[col("RH", "RHe")], 64)
		require.NoError(tb, err)
		temp, err := strconv.ParseFloat(row[col("T", "Te")], 64)
		require.NoError(tb, err)
		r.Times, r.RH, r.T, r.Lines = append(r.Times, at), append(r.RH, rh/100), append(r.T, temp), append(r.Lines, i+2)
	}
	return r
}

// The expected values were worked out from the open records apart from this program
// (testdata/records/reference_statistics.csv; its rules stand in README.md beside it).
func TestOpenRecordsAgreeWithReference(t *testing.T) {
	src, err := os.ReadFile(records + "reference_statistics.csv")
	require.NoError(t, err)
	rows, err := csv.NewReader(strings.NewReader(string(src))).ReadAll()
	require.NoError(t, err)
	require.Len(t, rows, 30, "head and 29 statistics")
	for k, name := range rows[0][1:] {
		t.Run(name, func(t *testing.T) {
			got := figuresOf(t, openRecord(t, name))
			for _, row := range rows[1:] {
				want, key := row[k+1], row[0]
				if want == "" {
					continue
				}
				if key == "year_first" {
					assert.Equal(t, want, got.first, key)
					continue
				}
				w, err := strconv.ParseFloat(want, 64)
				require.NoError(t, err)
				v, ok := got.numbers[key]
				require.True(t, ok, key)
				assert.InDelta(t, w, v, 5.0001e-5, key) // half of the last digit given
			}
		})
	}
}

// figures are the statistics of a record by the names of the reference, % and °C.
type figures struct {
	numbers map[string]float64
	first   string
}

func figuresOf(t *testing.T, r *Record) figures {
	s, m, c := r.Stats(), r.HistoricBand(BandOptions{}).Moving, r.Change(Humidity, 24*time.Hour, WithinWindow)
	assert.False(t, s.TimeWeighted, "the steps are even")
	assert.Empty(t, s.Gaps)
	hours := func(h float64) float64 { return h / s.HoursCovered }
	out := figures{numbers: map[string]float64{
		"rows": float64(s.Readings), "step_s": s.Step.Seconds(), "mean_T": s.MeanT,
		"mean_RH": 100 * s.MeanRH, "min_RH": 100 * s.MinRH, "max_RH": 100 * s.MaxRH,
		"RH_p1": 100 * s.RH.P1, "RH_p7": 100 * s.RH.P7, "RH_p50": 100 * s.RH.P50, "RH_p93": 100 * s.RH.P93, "RH_p99": 100 * s.RH.P99,
		"ma_rows": float64(m.Readings), "ma_min": 100 * m.Lowest, "ma_max": 100 * m.Highest,
		"fluct_p7": 100 * m.P7, "fluct_p93": 100 * m.P93, "fluct_min": 100 * m.Least, "fluct_max": 100 * m.Most,
		"range24_max": 100 * c.Largest, "range24_p50": 100 * c.P50, "range24_p95": 100 * c.P95, "share_range24_over10": c.OverTen,
		"share_40_60": hours(s.Hours40To60), "share_over75": hours(s.HoursAbove75), "share_under25": hours(s.HoursBelow25),
	}}
	if b := r.HistoricBand(BandOptions{}); b.Applies {
		assert.Equal(t, 8760, b.Used)
		out.numbers["year_mean_RH"], out.numbers["year_fluct_p7"], out.numbers["year_fluct_p93"] = 100*b.Mean, 100*b.P7, 100*b.P93
		out.first = b.From.Format(time.DateTime)
	}
	return out
}

// Single moving means worked out apart from this program (testdata/records/README.md), % RH.
func TestMovingMeansOfOpenRecords(t *testing.T) {
	for _, tt := range []struct {
		file int
		at   string
		want float64
	}{
		{0, "2010-11-30 00:00:00", 31.9028}, {0, "2011-09-12 00:00:00", 60.5485}, {0, "2012-06-24 00:00:00", 45.5411},
		{1, "2010-11-30 00:00:00", 76.9531}, {1, "2011-08-17 12:00:00", 68.7074},
		{2, "2011-09-12 00:00:00", 89.2150}, {3, "2021-03-02 19:35:00", 32.3867},
	} {
		r := openRecord(t, openRecords[tt.file].name)
		i := slices.IndexFunc(r.Times, func(x time.Time) bool { return x.Format(time.DateTime) == tt.at })
		require.GreaterOrEqual(t, i, 0, tt.at)
		assert.InDelta(t, tt.want, 100*r.MovingMean(month)[i], 5e-5, "%s %s", r.Name, tt.at)
	}
}

// A cosine of a year comes back as it was made; the hottest day of a real attic lies in summer.
func TestYearlyCycle(t *testing.T) {
	var r Record
	t0 := time.Date(2023, 1, 1, 0, 0, 0, 0, time.UTC)
	top := time.Date(2023, 8, 20, 0, 0, 0, 0, time.UTC)
	for i := range 2 * 8766 {
		at := t0.Add(time.Duration(i) * time.Hour)
		r.Times = append(r.Times, at)
		r.RH = append(r.RH, 0.45+0.12*math.Cos(2*math.Pi*at.Sub(top).Seconds()/tropicalYear))
	}
	h, err := r.Yearly(Humidity)
	require.NoError(t, err)
	assert.InDelta(t, 0.45, h.Mean, 1e-9)
	assert.InDelta(t, 0.12, h.Amplitude, 1e-9)
	assert.WithinDuration(t, top, h.Maximum, time.Minute)
	attic := openRecord(t, openRecords[1].name)
	year := attic.Between(attic.Times[0], attic.Times[0].AddDate(1, 0, 0))
	h, err = year.Yearly(Temperature)
	require.NoError(t, err)
	assert.Contains(t, []time.Month{time.July, time.August}, h.Maximum.Month())
	_, err = attic.Between(attic.Times[0], attic.Times[4000]).Yearly(Humidity)
	assert.ErrorContains(t, err, "at least 365 days")
	_, err = (&Record{}).Yearly(Humidity)
	assert.Error(t, err)
}
