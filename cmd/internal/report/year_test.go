package report

import (
	"math"
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"crossgrain/moisture"
	"crossgrain/panel"
	"crossgrain/panel/assessment"
	"crossgrain/panel/response"
)

// inventedYear is the course of an invented record: dry in winter, damp and warped in August.
func inventedYear() *assessment.Result {
	y := &response.Year{Step: 3 * time.Hour, Steps: 2920, Lived: true, Repeats: 3, Hollow: [2]float64{-3, -2}, Round: [2]float64{2, 3}}
	start := time.Date(2023, 1, 1, 0, 0, 0, 0, time.UTC)
	for d := range 365 {
		s := -math.Cos(2 * math.Pi * float64(d-15) / 365)
		y.Days = append(y.Days, response.Day{
			Time: start.AddDate(0, 0, d), RH: [2]float64{0.45 + 0.1*s, 0.50 + 0.1*s}, T: [2]float64{4 + 8*s, 9 + 8*s},
			Width: [2]float64{3*s - 0.1, 3*s + 0.1}, Warp: [2]float64{-2*s - 0.5, -2*s + 0.5},
			WidthMemory: [2]float64{2 * s, 2 * s}, WarpMemory: [2]float64{-s, -s}, Set: -0.002,
		})
	}
	y.From, y.To = start, start.AddDate(1, 0, 0)
	y.Crushed[7], y.Crushed[8] = -0.0015, -0.0005
	board := response.BoardYear{
		Part: "board.a", Half: 60 * time.Hour, Most: 300 * time.Hour, Reaches: [4]float64{0.07, 0.3, 0.7, 0.999},
		MeanMC: [2]moisture.MC{0.08, 0.12}, Set: [2]float64{-0.002, 0}, Stored: response.Stored{AtOnce: -0.001, Weeks: -0.0005, Never: 0.002},
	}
	y.Boards = []response.BoardYear{board}
	return &assessment.Result{Year: y, Object: &panel.Object{Boards: []panel.Board{{Name: "a", Width: 400, Thickness: 2}}}}
}

func TestYearInWords(t *testing.T) {
	r := inventedYear()
	y := yearOf(r)
	words := strings.Join(y.Words, "\n")
	for _, want := range []string{
		"run through 3 times before",
		"Quickest is board a: half of a change has come in after 3 days, nearly all after 13 days",
		"Of a swing of a day 7 in 100 reach its middle, of a week 30, of a month 70, of a year over 99",
		"from 2.5 mm hollow on 17 July 2023 (by ground and heart side 2.0 to 3.0 hollow) to 2.5 mm rounded on 16 January 2023 (2.0 to 3.0 rounded)",
		"mostly in August, when the first year was first lived through",
		"between 0.0 and 2.0 mm on a metre",
		"0.4 mm narrower at once, 0.2 mm narrower in the weeks after",
		"it would stay 0.8 mm narrower for good, by crushing",
		"Warps of more than 2.0 mm, the thickness of the thinnest board",
		"On 121 days the air fell below 0 °C, down to -4 °C",
	} {
		assert.Contains(t, words, want)
	}
	assert.Len(t, y.Months, 12)
	assert.Len(t, y.RunInSet, 12)
	assert.InDelta(t, 1.0, y.Width.DayMM*5, 1e-9, "0.2 mm a day")
	table := y.table()
	assert.Equal(t, "Aug 2023", table.Rows[7][0])

	far := func(warp, thick float64) bool {
		r.Object.Warp, r.Object.Boards[0].Thickness = warp, thick
		return strings.Contains(strings.Join(yearOf(r).Words, "\n"), "Warps of more than")
	}
	assert.False(t, far(0, 3))
	assert.True(t, far(1, 3), "3.5 mm rounded with its present warp")
	assert.True(t, far(-1, 3), "3.5 mm hollow")
	assert.False(t, far(1, 4))

	r.Year.Lived, r.Year.Breaks = false, 2
	for i := range r.Year.Days {
		r.Year.Days[i].T = [2]float64{math.NaN(), math.NaN()}
		if r.Year.Days[i].Time.Month() < time.November {
			r.Year.Days[i].Set = 0
		}
	}
	words = strings.Join(yearOf(r).Words, "\n")
	assert.Contains(t, words, "begins in balance with the humidity it is used to")
	assert.Contains(t, words, "2 gaps too long to bridge")
	assert.Contains(t, words, "mostly in November 2023")
	assert.NotContains(t, words, "below 0")
	r.Year.Boards[0].Set = [2]float64{}
	assert.Contains(t, strings.Join(yearOf(r).Words, "\n"), "Nothing that counts is crushed")
	assert.Nil(t, yearOf(&assessment.Result{}))
}

// inventedWait has two readings: one that is reached, one that perhaps is.
func inventedWait() *assessment.Wait {
	nan := moisture.RH(math.NaN())
	inf := math.Inf(1)
	reach := assessment.Reach{
		Dry: []moisture.RH{nan, 0.35}, DryQuick: []moisture.RH{0.30, 0.42}, DrySlow: []moisture.RH{nan, 0.22},
		Damp: []moisture.RH{nan, 0.64}, DampQuick: []moisture.RH{nan, 0.60}, DampSlow: []moisture.RH{nan, nan},
	}
	return &assessment.Wait{
		Hours: []float64{4, 720}, FromDry: 0.5, FromDamp: 0.5, Call: reach, Act: reach, First: "fixing_overload:batten.upper",
		Levels: []assessment.Level{
			{RH: 0.35, Call: assessment.Span{Quick: 0, Middle: 30, Slow: 24 * 20}, Act: assessment.Span{Quick: 20, Middle: 24 * 30, Slow: inf}},
			{RH: 0.40, Call: assessment.Span{Quick: 24 * 6, Middle: inf, Slow: inf}, Act: assessment.Span{Quick: inf, Middle: inf, Slow: inf}},
			{RH: 0.45, Call: assessment.Span{Quick: inf, Middle: inf, Slow: inf}, Act: assessment.Span{Quick: inf, Middle: inf, Slow: inf}},
		},
	}
}

func TestWaitInWords(t *testing.T) {
	w := waitOf(inventedWait())
	rows := w.table().Rows
	require.Len(t, rows, 2, "a reading that nothing answers is left out")
	assert.Equal(t, []string{"35", "1 day (under 1 hour to 3 weeks)", "1 month (from 20 hours on)"}, rows[0])
	assert.Equal(t, []string{"40", "perhaps after 6 days", "–"}, rows[1])
	byTime := w.Table().Rows
	assert.Equal(t, []string{"4 hours", "perhaps at 30", "perhaps at 30", "–", "–"}, byTime[0])
	assert.Equal(t, []string{"1 month", "35 (22 to 42)", "35 (22 to 42)", "64 (60 or farther)", "64 (60 or farther)"}, byTime[1])
	text := strings.Join(w.paras(), " ")
	assert.Contains(t, text, "Counted from 50 % RH")
	assert.Contains(t, text, "batten upper: a fixing is overloaded")

	season := inventedWait()
	season.Season, season.FromDry, season.FromDamp = true, 0.41, 0.58
	assert.Contains(t, waitOf(season).paras()[0], "41 % RH in the wood for the dry side, 58 % RH for the damp side")
	season.Season, season.Passed = false, true
	assert.Contains(t, waitOf(season).paras()[0], "past the point to call already")
	season.Withheld = "a board is thinner than 8 mm and answers within hours"
	held := waitOf(season)
	assert.Equal(t, []string{"No waiting time is given: a board is thinner than 8 mm and answers within hours."}, held.paras())
	assert.Empty(t, held.table().Rows)
}

func TestWaitInACase(t *testing.T) {
	in := inventedWait()
	assert.Contains(t, strings.Join(waitOf(in).paras(), " "), "Read the air at the panel")
	in.ByRoom = inventedWait()
	in.Closed = &assessment.Closed{Room: 0.35, PerDay: 5, Time: 90 * time.Hour}
	w := waitOf(in)
	assert.Equal(t, "case", w.Reading)
	text := strings.Join(w.paras(), " ")
	assert.Contains(t, text, "readings inside the closed case")
	assert.Contains(t, text, "in a room at 35 % RH, with at most 5 points of change a day, the case stands open after 4 days")
	room, words := w.roomTable()
	assert.Equal(t, "Room, % RH", room.Head[0])
	assert.Len(t, room.Rows, 2)
	assert.Contains(t, words, "By the reading of the room")
	in.Closed.Time = 10 * time.Hour
	assert.Contains(t, strings.Join(waitOf(in).paras(), " "), "24 hours closed after a journey are usual")
	in.Closed.Why = "it is too open"
	assert.Contains(t, strings.Join(waitOf(in).paras(), " "), "No time can be given")
	in.ByRoom.Levels = nil
	room, words = waitOf(in).roomTable()
	assert.Empty(t, room.Rows)
	assert.Contains(t, words, "nothing reaches half of its limit")
	_, words = waitOf(inventedWait()).roomTable()
	assert.Empty(t, words)
}

func TestLastingIsSaidAsPeopleSayIt(t *testing.T) {
	for h, want := range map[float64]string{
		0: "under 1 hour", 1.2: "1 hour", 17: "17 hours", 22: "1 day", 60: "3 days", 11.6 * 24: "12 days",
		336: "2 weeks", 600: "1 month", 720: "1 month", 1000: "6 weeks", 2160: "3 months",
	} {
		assert.Equal(t, want, lasting(h), "%g h", h)
	}
}
