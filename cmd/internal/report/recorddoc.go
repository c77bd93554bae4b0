package report

// RoomRecord is the document of the command record: what a humidity record holds and how it was read.
// Times are RFC 3339 with the offset of the record's zone; where the zone is not known they are civil
// times as they stand in the file, without one. A figure that the record does not carry is null.
type RoomRecord struct {
	Head
	Invented    bool               `json:"invented"`
	Sentences   []string           `json:"sentences"`
	Files       []RecordFile       `json:"files"`
	Channel     string             `json:"channel"`
	Zone        string             `json:"zone"` // empty: not known
	Rows        int                `json:"rows"`
	First       string             `json:"first"`
	Last        string             `json:"last"`
	IntervalS   float64            `json:"interval_s"` // the usual one
	CoveredPct  float64            `json:"covered_pct"`
	Gaps        []RecordGap        `json:"gaps"`
	SetAside    []RecordSetAside   `json:"set_aside"`
	Guesses     []string           `json:"guesses"`
	RH          RecordRH           `json:"rh"`
	Temperature *RecordTemperature `json:"temperature"` // null: no temperatures
	Band        RecordBand         `json:"historic_band"`
	Changes     RecordChanges      `json:"changes"`
	Months      []RecordMonth      `json:"months"`
	Hours       RecordHours        `json:"hours"`
	Cycles      RecordCycles       `json:"cycles"`
	Terms       []RecordTerms      `json:"terms"`
	Flags       []RecordFlag       `json:"flags"`
	Wood        *RecordWood        `json:"wood"` // null: none was asked for
	Cautions    []string           `json:"cautions"`

	Series RecordSeries
}

// RecordFile says how one file was read.
type RecordFile struct {
	Name      string   `json:"name"`
	SHA256    string   `json:"sha256"`
	Encoding  string   `json:"encoding"`
	Delimiter string   `json:"delimiter"`
	Decimal   string   `json:"decimal"`
	Dates     string   `json:"dates"`
	Zone      string   `json:"zone"`
	Unit      string   `json:"temperature_unit"`
	Channel   string   `json:"channel"`
	Channels  []string `json:"channels"`
	Columns   []string `json:"columns"`
	Lines     int      `json:"lines"`
	Rows      int      `json:"rows"`
	First     string   `json:"first"`
	Last      string   `json:"last"`
}

// RecordGap is a stretch without readings, from the last reading before it to the first after it.
type RecordGap struct {
	From  string  `json:"from"`
	To    string  `json:"to"`
	Hours float64 `json:"hours"`
}

// RecordSetAside counts rows that were not taken, with the first three lines.
type RecordSetAside struct {
	File   string `json:"file"`
	Reason string `json:"reason"`
	Count  int    `json:"count"`
	Lines  []int  `json:"lines"`
}

// RecordRH is the humidity of the whole record; the mean is weighted by time.
type RecordRH struct {
	MeanPct float64 `json:"mean_pct"`
	MinPct  float64 `json:"min_pct"`
	MaxPct  float64 `json:"max_pct"`
	P1Pct   float64 `json:"p1_pct"`
	P7Pct   float64 `json:"p7_pct"`
	P50Pct  float64 `json:"p50_pct"`
	P93Pct  float64 `json:"p93_pct"`
	P99Pct  float64 `json:"p99_pct"`
}

// RecordTemperature is the temperature of the whole record; the mean is weighted by time.
type RecordTemperature struct {
	MeanC   float64 `json:"mean_c"`
	MinC    float64 `json:"min_c"`
	MaxC    float64 `json:"max_c"`
	P1C     float64 `json:"p1_c"`
	P7C     float64 `json:"p7_c"`
	P50C    float64 `json:"p50_c"`
	P93C    float64 `json:"p93_c"`
	P99C    float64 `json:"p99_c"`
	Missing int     `json:"missing_rows"`
}

// RecordBand is the band of EN 15757. Departures are in points from the moving mean.
type RecordBand struct {
	Applies        bool    `json:"applies"`
	WhyNot         string  `json:"why_not"`
	LowDeparture   float64 `json:"low_departure_pct"`
	HighDeparture  float64 `json:"high_departure_pct"`
	MeanPct        float64 `json:"mean_pct"` // of the year
	MovingLowPct   float64 `json:"moving_mean_min_pct"`
	MovingHighPct  float64 `json:"moving_mean_max_pct"`
	Floor          bool    `json:"floor"` // the limits were widened to 10 points where they were narrower
	CalculatedLow  float64 `json:"calculated_low_departure_pct"`
	CalculatedHigh float64 `json:"calculated_high_departure_pct"`
	WindowDays     float64 `json:"window_days"`
	Windows        int     `json:"windows"`
	Rule           string  `json:"rule"`
}

// RecordChanges are the largest changes, read as named. Points of RH and K.
type RecordChanges struct {
	Reading   string         `json:"reading"`
	ReadingIn string         `json:"reading_words"`
	Max1h     *float64       `json:"max_1h_pct"`
	Max24h    *float64       `json:"max_24h_pct"`
	Max7d     *float64       `json:"max_7d_pct"`
	Max1hAt   string         `json:"max_1h_at"`
	Max24hAt  string         `json:"max_24h_at"`
	Max7dAt   string         `json:"max_7d_at"`
	Max1hK    *float64       `json:"max_1h_c"`
	Max24hK   *float64       `json:"max_24h_c"`
	Max7dK    *float64       `json:"max_7d_c"`
	Others    []RecordChange `json:"other_readings"`
}

// RecordChange is the largest change in 24 h by another reading of the words "in 24 h".
type RecordChange struct {
	Reading string   `json:"reading"`
	Words   string   `json:"words"`
	Max24h  *float64 `json:"max_24h_pct"`
	At      string   `json:"at"`
}

// RecordMonth is the coverage of one calendar month.
type RecordMonth struct {
	Month      string  `json:"month"` // 2011-02
	CoveredPct float64 `json:"covered_pct"`
}

// RecordHours counts the hours for which readings stand.
type RecordHours struct {
	Covered  float64 `json:"covered"`
	Above75  float64 `json:"above_75"`
	Below25  float64 `json:"below_25"`
	In40To60 float64 `json:"from_40_to_60"`
}

// RecordCycles are means over the year and over the day, in civil time.
type RecordCycles struct {
	Year        []RecordMean `json:"year"`                 // January first
	Day         []RecordMean `json:"day"`                  // from midnight
	Swing       *float64     `json:"year_half_swing_pct"`  // of the cosine of a year that fits best; null: under a year
	Dampest     string       `json:"year_dampest"`         // when that is highest
	DayRange    *float64     `json:"day_range_median_pct"` // highest less lowest reading of a calendar day
	DayRangeP90 *float64     `json:"day_range_p90_pct"`
	Days        int          `json:"days"` // counted for it: readings cover 80 % of each
}

// RecordMean is the mean of one month or of one hour of the day.
type RecordMean struct {
	Part  int     `json:"part"` // month 1 to 12, or hour 0 to 23
	RHPct float64 `json:"rh_mean_pct"`
	TC    float64 `json:"temperature_mean_c"`
	Hours float64 `json:"hours"`
}

// RecordTerms is a record beside one set of terms.
type RecordTerms struct {
	Name      string         `json:"name"`
	Text      string         `json:"text"`
	Source    string         `json:"source"`
	Evidence  string         `json:"evidence"`
	Confirmed bool           `json:"confirmed"` // by the user, where the figures are known from memory only
	Reading   string         `json:"reading"`   // of a change within a time; empty: none is asked
	InsidePct float64        `json:"inside_pct"`
	Clauses   []RecordClause `json:"clauses"`
	Remarks   []string       `json:"remarks"`
}

// RecordClause is one clause of terms. Shares are of the time for which readings stand.
type RecordClause struct {
	Words        string  `json:"words"`
	Text         string  `json:"text"`
	Evidence     string  `json:"evidence"`
	WhyNot       string  `json:"why_not"` // why nothing was judged
	InsidePct    float64 `json:"inside_pct"`
	InsideHours  float64 `json:"inside_hours"`
	OutsideHours float64 `json:"outside_hours"`
	AboveHours   float64 `json:"above_hours"` // also changing too fast
	BelowHours   float64 `json:"below_hours"`
	LongestHours float64 `json:"longest_outside_hours"`
	LongestFrom  string  `json:"longest_outside_from"`
	LongestTo    string  `json:"longest_outside_to"`
	Worst        float64 `json:"worst"` // in the unit
	WorstAt      string  `json:"worst_at"`
	Unit         string  `json:"unit"` // "% RH", "points", "°C" or "K"
}

// RecordFlag is a run of readings that look like a fault of the sensor.
type RecordFlag struct {
	Kind    string `json:"kind"` // "spikes", "stuck", "end of scale" or "carried"
	From    string `json:"from"`
	To      string `json:"to"`
	Count   int    `json:"count"`
	Line    int    `json:"line"` // of the first in its file; 0: not known
	Removed bool   `json:"removed"`
	Words   string `json:"words"`
}

// RecordWood is the moisture of thin wood in balance with the record's running means.
type RecordWood struct {
	Wood       string  `json:"wood"`
	Borrowed   string  `json:"borrowed"`
	Source     string  `json:"source"`
	WindowDays float64 `json:"window_days"`
	MeanLow    float64 `json:"mean_curve_min_emc_pct"`
	MeanHigh   float64 `json:"mean_curve_max_emc_pct"`
	LoopLow    float64 `json:"loop_min_emc_pct"`
	LoopHigh   float64 `json:"loop_max_emc_pct"`
}

// RecordSeries is the cleaned series, for the table of the figures and the CSV form. Slices of equal
// length; TC is nil without temperatures; Flag is empty where nothing was noticed.
type RecordSeries struct {
	Time   []string
	RH, TC []float64
	Flag   []string
}
