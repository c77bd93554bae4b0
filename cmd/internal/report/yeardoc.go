package report

import (
	"cmp"
	"math"
	"time"

	"crossgrain/panel/assessment"
	"crossgrain/panel/response"
)

// Year is what the panel does in the course of a record.
type Year struct {
	First      string       `json:"first"`
	Last       string       `json:"last"`
	StepH      float64      `json:"step_h"`
	Steps      int          `json:"steps"`
	Lived      bool         `json:"record_is_home"` // it was run in through the record's first year
	RunInYears int          `json:"run_in_years"`
	Breaks     int          `json:"breaks"`            // gaps too long to bridge
	RunInSet   []float64    `json:"run_in_set_strain"` // added in each month, January first, when the first year was first run through
	ColdDays   int          `json:"days_below_0_c"`
	ColdestC   *float64     `json:"coldest_c"`
	Warp       Course       `json:"warp"`
	Hollow     []float64    `json:"warp_min_range_mm"`   // what ground and unknown heart sides leave of the least warp
	Round      []float64    `json:"warp_max_range_mm"`   // and of the greatest
	OneStiff   []float64    `json:"one_stiffness_error"` // shares: of the movement, of the stress at the faces
	Width      Course       `json:"width"`
	Boards     []YearBoard  `json:"boards"`
	Months     []YearMonth  `json:"months"`
	Members    []YearMember `json:"members"`
	LetGo      *LetGo       `json:"let_go"`                // null where closed forms stand alone or nothing holds it
	Open       int          `json:"balances_undetermined"` // which friction leaves open
	MisfitMM   float64      `json:"misfit_mm"`             // largest of all balances
	MisfitN    float64      `json:"misfit_n"`
	Words      []string     `json:"words"`
	thinnest   float64      // board, mm
	present    float64      // warp at the humidity it is used to, mm
}

// Course is the least and the greatest of a quantity, along the mean curve and with wood that
// remembers its turning points, and when.
type Course struct {
	MinMM       float64 `json:"min_mm"`
	MinAt       string  `json:"min_at"`
	MaxMM       float64 `json:"max_mm"`
	MaxAt       string  `json:"max_at"`
	MemoryMinMM float64 `json:"memory_min_mm"`
	MemoryMaxMM float64 `json:"memory_max_mm"`
	DayMM       float64 `json:"day_mm"` // middle of the daily swings, along the mean curve
}

// YearBoard is one board.
type YearBoard struct {
	Part       string     `json:"part"`
	HalfDays   float64    `json:"half_days"`
	MostDays   float64    `json:"most_days"` // 95 in 100 of a change
	Reaches    []float64  `json:"reaches"`   // share of a swing of a day, week, month, year that reaches its mean
	MCMinPct   float64    `json:"mc_min_pct"`
	MCMaxPct   float64    `json:"mc_max_pct"`
	SkinMinPct float64    `json:"skin_min_pct"`
	SkinMaxPct float64    `json:"skin_max_pct"`
	SetStrain  []float64  `json:"set_strain"` // left by crushing: crushing before creep, creep before crushing
	Stored     YearStored `json:"stored_mm"`
}

// YearStored is the movement that restraint has stored in a board, by when it comes back.
type YearStored struct {
	AtOnce float64 `json:"at_once_mm"`
	Weeks  float64 `json:"weeks_mm"`
	Cycles float64 `json:"damp_dry_cycles_mm"`
	Never  float64 `json:"never_mm"`
}

// YearMonth is one month of the course.
type YearMonth struct {
	Month     string  `json:"month"`
	RHMinPct  float64 `json:"rh_min_pct"`
	RHMaxPct  float64 `json:"rh_max_pct"`
	WarpMinMM float64 `json:"warp_min_mm"`
	WarpMaxMM float64 `json:"warp_max_mm"`
	WidthMM   float64 `json:"width_mm"` // middle of its days
	SetStrain float64 `json:"set_strain_added"`
}

// When is the moment of a record at which something was worst.
type When struct {
	Time  string  `json:"time"`
	Hour  float64 `json:"hour"` // since the first step
	RHPct float64 `json:"rh_pct"`
}

const (
	isoMinute = "2006-01-02T15:04"
	longDay   = "2 January 2006"
)

// yearOf turns the course of a record into its document; nil without one.
func yearOf(r *assessment.Result) *Year {
	y := r.Year
	if y == nil || len(y.Days) == 0 {
		return nil
	}
	out := &Year{
		First: y.From.Format(isoMinute), Last: y.To.Format(isoMinute), StepH: y.Step.Hours(), Steps: y.Steps,
		Lived: y.Lived, RunInYears: y.Repeats, Breaks: y.Breaks,
		Warp:  courseOf(y.Days, func(d *response.Day) ([2]float64, [2]float64) { return d.Warp, d.WarpMemory }),
		Width: courseOf(y.Days, func(d *response.Day) ([2]float64, [2]float64) { return d.Width, d.WidthMemory }),
	}
	out.Hollow, out.Round, out.OneStiff = y.Hollow[:], y.Round[:], y.OneStiffness[:]
	for i, b := range y.Boards {
		w := r.Object.Boards[i].Width
		out.Boards = append(out.Boards, YearBoard{
			Part: b.Part, HalfDays: b.Half.Hours() / 24, MostDays: b.Most.Hours() / 24, Reaches: b.Reaches[:],
			MCMinPct: b.MeanMC[0].Percent(), MCMaxPct: b.MeanMC[1].Percent(),
			SkinMinPct: b.SkinMC[0].Percent(), SkinMaxPct: b.SkinMC[1].Percent(), SetStrain: b.Set[:],
			Stored: YearStored{b.Stored.AtOnce * w, b.Stored.Weeks * w, b.Stored.Cycles * w, b.Stored.Never * w},
		})
	}
	if y.Lived {
		out.RunInSet = y.Crushed[:]
	}
	out.Members, out.LetGo, out.Open = yearMembers(y), LetGoOf(y), y.Undetermined
	out.MisfitMM, out.MisfitN = y.Misfit.Move, y.Misfit.Load
	out.cold(y.Days)
	var had float64
	if y.Lived {
		had = y.Days[0].Set
	}
	out.Months = monthsOf(y.Days, had)
	out.present = r.Object.Warp
	for _, b := range r.Object.Boards {
		out.thinnest = min(cmp.Or(out.thinnest, b.Thickness), b.Thickness)
	}
	out.Words = out.inWords()
	return out
}

// cold counts the days with frost.
func (y *Year) cold(days []response.Day) {
	coldest := math.Inf(1)
	for i := range days {
		t := days[i].T[0]
		if t < 0 {
			y.ColdDays++
		}
		if !math.IsNaN(t) {
			coldest = min(coldest, t)
		}
	}
	y.ColdestC = number(coldest)
}

func courseOf(days []response.Day, f func(*response.Day) (mean, memory [2]float64)) Course {
	c := Course{MinMM: math.Inf(1), MaxMM: math.Inf(-1), MemoryMinMM: math.Inf(1), MemoryMaxMM: math.Inf(-1)}
	swings := make([]float64, len(days))
	for i := range days {
		v, m := f(&days[i])
		if v[0] < c.MinMM {
			c.MinMM, c.MinAt = v[0], days[i].Time.Format("2006-01-02")
		}
		if v[1] > c.MaxMM {
			c.MaxMM, c.MaxAt = v[1], days[i].Time.Format("2006-01-02")
		}
		c.MemoryMinMM, c.MemoryMaxMM = min(c.MemoryMinMM, m[0]), max(c.MemoryMaxMM, m[1])
		swings[i] = v[1] - v[0]
	}
	c.DayMM = median(swings)
	return c
}

// monthsOf gathers the days by months; set is the crushing with which the first begins.
func monthsOf(days []response.Day, set float64) []YearMonth {
	var out []YearMonth
	var widths []float64
	for i := range days {
		d := &days[i]
		name := d.Time.Format("2006-01")
		if len(out) == 0 || out[len(out)-1].Month != name {
			widths = widths[:0]
			out = append(out, YearMonth{Month: name, RHMinPct: 100, WarpMinMM: math.Inf(1), WarpMaxMM: math.Inf(-1)})
		}
		m := &out[len(out)-1]
		m.RHMinPct, m.RHMaxPct = min(m.RHMinPct, 100*d.RH[0]), max(m.RHMaxPct, 100*d.RH[1])
		m.WarpMinMM, m.WarpMaxMM = min(m.WarpMinMM, d.Warp[0]), max(m.WarpMaxMM, d.Warp[1])
		widths = append(widths, (d.Width[0]+d.Width[1])/2)
		m.WidthMM = median(widths)
		m.SetStrain += d.Set - set
		set = d.Set
	}
	return out
}

// when dates a demand of a course; nil without a time.
func when(r *assessment.Result, w assessment.Worst) *When {
	if w.Time.IsZero() || r.Year == nil {
		return nil
	}
	return &When{w.Time.Format(isoMinute), w.Time.Sub(r.Year.From).Hours(), w.RH.Percent()}
}

// dated writes a day of the document in words.
func dated(iso string) string {
	for _, layout := range [...]string{isoMinute, "2006-01-02"} {
		if t, err := time.Parse(layout, iso); err == nil {
			return t.Format(longDay)
		}
	}
	return iso
}
