package report

import (
	"bytes"
	"encoding/csv"
	"encoding/json"
	"math"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// inventedRecord is an invented room beside invented terms, with something of everything.
func inventedRecord() RoomRecord {
	r := RoomRecord{
		Head: Head{Format: 1, Kind: "record", Version: "test"}, Invented: true,
		Files: []RecordFile{{
			Name: "store/room.csv", Encoding: "UTF-8", Delimiter: "semicolon", Decimal: "comma", Dates: "day/month/year", Zone: "Europe/Rome",
			Unit: "C", Lines: 10_003, Rows: 10_000, First: "2023-03-10T00:00:00+01:00", Last: "2024-05-09T23:00:00+02:00",
			Channel: "store", Channels: []string{"store", "hall"}, Columns: []string{"Data", "store RH", "store T"},
		}},
		Channel: "store", Zone: "Europe/Rome", Rows: 10_000, First: "2023-03-10T00:00:00+01:00", Last: "2024-05-09T23:00:00+02:00",
		IntervalS: 3600, CoveredPct: 97.6, Guesses: []string{"dates read as day/month because line 14 has 25"},
		Gaps:     []RecordGap{{"2023-07-01T00:00:00+02:00", "2023-07-11T00:00:00+02:00", 240}, {"2024-01-01T05:00:00+01:00", "2024-01-01T09:00:00+01:00", 4}},
		SetAside: []RecordSetAside{{"store/room.csv", "no value for humidity (---, NaN, empty)", 3, []int{17, 18, 90}}},
		RH:       RecordRH{48.1234, 31.2, 71.9, 33, 38.2, 48, 59.9, 66},
		Temperature: &RecordTemperature{
			MeanC: 19.25, MinC: 14, MaxC: 26.1, P1C: 15, P7C: 16, P50C: 19, P93C: 23, P99C: 25,
		},
		Band: RecordBand{Applies: true, LowDeparture: -4.8, HighDeparture: 5.2, MeanPct: 48.4, MovingLowPct: 41, MovingHighPct: 58, WindowDays: 30, Rule: RecordBandRule()},
		Changes: RecordChanges{
			Reading: "range", ReadingIn: "largest less smallest reading within any 24 hours",
			Max1h: ptr(6), Max24h: ptr(17.25), Max7d: ptr(21), Max24hAt: "2023-08-03T14:00:00+02:00", Max24hK: ptr(4.1),
			Others: []RecordChange{{"half_range", "plus and minus", ptr(8.6), "2023-08-03T14:00:00+02:00"}},
		},
		Months: []RecordMonth{{"2023-03", 71}, {"2023-04", 100}, {"2023-07", 67.7}},
		Hours:  RecordHours{Covered: 9990, Above75: 0, Below25: 12, In40To60: 8000},
		Cycles: RecordCycles{Year: []RecordMean{{7, 52, 24, 500}}, Day: []RecordMean{{0, 50, 19, 400}, {1, 50.2, 18.9, 400}},
			Swing: ptr(7.25), Dampest: "2023-08-23T12:00:00+02:00", DayRange: ptr(5.5), DayRangeP90: ptr(9), Days: 400},
		Terms: []RecordTerms{{
			Name: "45..55, 5/24h", Text: "45..55, 5/24h", Source: "an agreement, invented", Evidence: "as typed", InsidePct: 51,
			Reading: "largest less smallest reading within any 24 hours", Remarks: []string{"who decides is not judged"},
			Clauses: []RecordClause{
				{Words: "45 to 55 % RH", InsidePct: 51.2, OutsideHours: 4880, LongestHours: 700, LongestFrom: "2023-12-03T10:00:00+01:00", LongestTo: "2024-01-01T14:00:00+01:00", Worst: 31.2, WorstAt: "2023-12-20T03:00:00+01:00", Unit: "% RH"},
				{Words: "not over 5 points in 24 hours", InsidePct: 99.9, OutsideHours: 10, LongestHours: 10, LongestFrom: "2023-08-03T10:00:00+02:00", Worst: 17.25, WorstAt: "2023-08-03T14:00:00+02:00", Unit: "points"},
				{Words: "18 to 22 °C", InsidePct: math.NaN(), Worst: math.NaN(), Unit: "°C", WhyNot: "the record has no temperature"},
			},
		}},
		Flags:    []RecordFlag{{Kind: "stuck", From: "2023-09-01T00:00:00+02:00", To: "2023-09-03T00:00:00+02:00", Count: 49, Words: "the same reading again and again"}},
		Wood:     &RecordWood{Wood: "oak", WindowDays: 7, MeanLow: 8, MeanHigh: 11, LoopLow: 8.4, LoopHigh: 10.6},
		Cautions: RecordCautions(),
		Series: RecordSeries{
			Time: []string{"2023-03-10T00:00:00+01:00", "2023-03-10T01:00:00+01:00"}, RH: []float64{48.1, 48.25}, TC: []float64{19, math.NaN()}, Flag: []string{"", "stuck"},
		},
	}
	return r
}

func TestRecordSchema(t *testing.T) { golden(t, "schema_record.txt", Schema(RoomRecord{})) }

func TestRecordText(t *testing.T) {
	var b bytes.Buffer
	require.NoError(t, inventedRecord().WriteText(&b))
	golden(t, "record_invented.txt", b.String())
	for l := range strings.Lines(b.String()) {
		assert.LessOrEqual(t, displayWidth(strings.TrimSuffix(l, "\n")), columns, l)
	}
}

func TestRecordOpening(t *testing.T) {
	memory := func(r *RoomRecord) { r.Terms[0].Evidence = "from memory" }
	none := func(r *RoomRecord) { r.Terms = nil }
	tests := []struct {
		name  string
		alter []func(*RoomRecord)
		want  [3]string
	}{
		{"terms left", nil, [3]string{"45 to 55 % RH was left for 49 of 100 hours", "29 days, from 3 Dec 2023", "Agree terms"}},
		{"terms from memory", []func(*RoomRecord){memory}, [3]string{"was left", "longest", "from memory only"}},
		{"kept", []func(*RoomRecord){func(r *RoomRecord) {
			r.Flags = nil
			for i := range r.Terms[0].Clauses {
				r.Terms[0].Clauses[i].OutsideHours, r.Terms[0].Clauses[i].InsidePct = 0, 100
			}
		}}, [3]string{"kept all that was asked", "17 points", "accepts up to 10"}},
		{"flags", []func(*RoomRecord){none}, [3]string{"between 31 and 72 % RH", "17 points", "49 readings"}},
		{"band", []func(*RoomRecord){none, func(r *RoomRecord) { r.Flags, r.Band.LowDeparture = nil, -23.4 }},
			[3]string{"mean of 48", "98 of 100", "knows 23 points below and 5 points above"}},
		{"damp", []func(*RoomRecord){none, func(r *RoomRecord) { r.Flags, r.Hours.Above75 = nil, 5400 }},
			[3]string{"stayed", "17 points", "above 75 % RH for 54 of 100 hours"}},
		{"no band", []func(*RoomRecord){none, func(r *RoomRecord) {
			r.Flags, r.Band, r.Changes.Max24h = nil, RecordBand{WhyNot: "it covers 5 months"}, nil
		}}, [3]string{"stayed", "No change within a day", "does not carry"}},
		{"nothing", []func(*RoomRecord){func(r *RoomRecord) { *r = RoomRecord{} }}, [3]string{"no humidity", "No change", "does not carry"}},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			r := inventedRecord()
			for _, f := range tt.alter {
				f(&r)
			}
			got := r.Opening()
			require.Len(t, got, 3)
			for i, s := range got {
				assert.Contains(t, s, tt.want[i])
				words := len(strings.Fields(strings.ReplaceAll(s, " % RH", "% RH")))
				assert.LessOrEqual(t, words, 25, s)
				assert.LessOrEqual(t, len(aNumber.FindAllString(strings.ReplaceAll(s, " of 100", ""), -1)), 3, s)
			}
		})
	}
}

func TestClausesSayHowTheyWereKept(t *testing.T) {
	c := inventedRecord().Terms[0].Clauses
	assert.Equal(t, "outside for 49 of 100 hours, longest 29 days", c[0].Note())
	assert.Equal(t, "not judged", c[2].Note())
	c[0].OutsideHours = 0
	assert.Equal(t, "kept", c[0].Note())
}

func TestRecordJSONHasItsKeys(t *testing.T) {
	var back map[string]any
	require.NoError(t, json.Unmarshal([]byte(toJSON(t, inventedRecord())), &back))
	for _, k := range []string{"files", "rows", "first", "last", "interval_s", "gaps", "set_aside", "guesses", "rh", "temperature",
		"historic_band", "changes", "months", "hours", "terms", "flags"} {
		assert.Contains(t, back, k)
	}
	assert.Equal(t, 48.1234, back["rh"].(map[string]any)["mean_pct"])
	assert.NotContains(t, back, "Series")
	assert.Equal(t, []any{}, toAny(t, RoomRecord{})["gaps"], "an empty list is a list")
	assert.Nil(t, toAny(t, RoomRecord{})["temperature"])
}

func toAny(t *testing.T, doc any) map[string]any {
	var back map[string]any
	require.NoError(t, json.Unmarshal([]byte(toJSON(t, doc)), &back))
	return back
}

func TestRecordCSV(t *testing.T) {
	var b bytes.Buffer
	require.NoError(t, inventedRecord().WriteCSV(&b))
	rows, err := csv.NewReader(&b).ReadAll()
	require.NoError(t, err)
	assert.Equal(t, [][]string{
		{"time", "rh_pct", "t_c", "flag"},
		{"2023-03-10T00:00:00+01:00", "48.1", "19", ""},
		{"2023-03-10T01:00:00+01:00", "48.25", "", "stuck"},
	}, rows)
}

func TestRecordPage(t *testing.T) {
	r := inventedRecord()
	evil := `</style></title><script>alert(1)</script><img src=x onerror=alert(1)>"}body{display:none}`
	r.Files[0].Name, r.Channel, r.Guesses[0], r.SetAside[0].Reason, r.Terms[0].Name, r.Terms[0].Clauses[0].Words = evil, evil, evil, evil, evil, evil
	var b bytes.Buffer
	require.NoError(t, r.WriteHTML(&b, inventedFigures(), ""))
	got := b.String()
	assert.NotContains(t, got, "<script")
	assert.NotContains(t, got, "<img")
	assert.NotContains(t, got, `"}body`)
	assert.NotContains(t, got, "ZgotmplZ")
	assert.Contains(t, got, `@top-right{content:"INVENTED EXAMPLE"}`)
	assert.Contains(t, got, "must not be justified by it")
	for _, c := range RecordCautions() {
		assert.Contains(t, got, keepUnits(c))
	}
	assert.Less(t, strings.Index(got, `id="recread"`), strings.Index(got, `id="figure-panel"`))
	assert.Greater(t, strings.Index(got, `id="recband"`), strings.Index(got, `id="recstats"`))
}
