package logger_test

import (
	"math"
	"slices"
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"crossgrain/moisture/record/logger"
)

// without leaves out readings by their place.
func without(all []sample, places ...int) []sample {
	var out []sample
	for i, s := range all {
		if !slices.Contains(places, i) {
			out = append(out, s)
		}
	}
	return out
}

// TestMadeMissing writes what loggers and spreadsheets put where there is no value. Lines: head, then
// reading i on line i+2.
func TestMadeMissing(t *testing.T) {
	marks := []string{"", " ", "---", "-", "--.-", "***", "NaN", "nan", "NA", "N/A", "n/a", "#N/A", "#NV", "NULL", "None", "-999", "-999.0", "-9999", "9999", "999.9",
		"OL", "O.L", "OFL", "Err", "Error", "ERROR", "err", "1e30", "-32768", "65535", "#VALUE!", "#DIV/0!", "no data", "sensor fault", "?", "Inf", "over range", "missing"}
	var all []made
	for _, mark := range marks {
		both := plain()
		both.cells = func(x table, s sample) []string {
			if h := int(s.at.Sub(threeDays()[0].at).Hours()); h == 10 || h == 11 || h == 30 {
				return []string{mark, mark}
			}
			return []string{x.num(s.rh), x.num(s.t)}
		}
		all = append(all, made{name: "both " + mark, files: both.file(threeDays()), want: without(threeDays(), 10, 11, 30), aside: []aside{{3, []int{12, 13, 32}, ""}}})
		humid := plain()
		humid.cells = func(x table, s sample) []string {
			if s.at.Hour() == 5 {
				return []string{mark, x.num(s.t)}
			}
			return []string{x.num(s.rh), x.num(s.t)}
		}
		all = append(all, made{name: "humidity " + mark, files: humid.file(threeDays()), want: without(threeDays(), 5, 29, 53), aside: []aside{{3, []int{7, 31, 55}, "humidity"}}})
	}
	for _, mark := range []string{"", "---", "-999", "NaN"} {
		warm := plain()
		warm.cells = func(x table, s sample) []string {
			if s.at.Hour() == 5 {
				return []string{x.num(s.rh), mark}
			}
			return []string{x.num(s.rh), x.num(s.t)}
		}
		want := threeDays()
		for _, i := range []int{5, 29, 53} {
			want[i].t = math.NaN()
		}
		// The humidity is read without the temperature, or the rows are counted.
		t.Run("temperature "+mark, func(t *testing.T) {
			r, how, err := logger.Read(warm.file(threeDays()), logger.Options{})
			require.NoError(t, err)
			if m := (made{want: without(threeDays(), 5, 29, 53), aside: []aside{{3, []int{7, 31, 55}, "temperature"}}}); len(r.Times) == len(m.want) {
				same(t, m, r.Times, r.RH, r.T)
				m.setAside(t, how)
				return
			}
			same(t, made{want: want}, r.Times, r.RH, r.T)
		})
	}
	gap := plain()
	all = append(all, made{name: "rows not there", files: gap.file(without(threeDays(), 20, 21, 22)), want: without(threeDays(), 20, 21, 22)})
	runMade(t, all)
}

// TestMadeUnits writes units into the cells, or temperatures in °F.
func TestMadeUnits(t *testing.T) {
	fahrenheit := func(x table, s sample) []string { return []string{x.num(s.rh), x.num(tenth(s.t*1.8 + 32))} }
	back := threeDays()
	for i := range back {
		back[i].t = (tenth(back[i].t*1.8+32) - 32) / 1.8
	}
	both := func(rh, temp string) func(x table, s sample) []string {
		return func(x table, s sample) []string { return []string{x.num(s.rh) + rh, x.num(s.t) + temp} }
	}
	make := func(f func(x *table)) []logger.File { return change(f).file(threeDays()) }
	var all []made
	for _, u := range [][2]string{{" %RH", " °C"}, {"%", "°C"}, {" %", " C"}, {"%RH", "C"}, {" % rF", " °C"}, {" %r.F.", " °C"}, {" %HR", "°"}, {" rH%", " ° C"}} {
		all = append(all, made{name: "in cells" + u[0] + u[1], files: make(func(x *table) { x.head, x.cells = []string{"When", "Humidity", "Temperature"}, both(u[0], u[1]) }), want: threeDays()},
			made{name: "in cells with commas" + u[0] + u[1], files: make(func(x *table) { x.delim, x.decimal, x.cells = ";", ',', both(u[0], u[1]) }), want: threeDays()},
			made{name: "in cells without head" + u[0] + u[1], files: make(func(x *table) { x.head, x.cells = nil, both(u[0], u[1]) }), want: threeDays()})
	}
	for _, head := range []string{"T [°F]", "Temp (F)", "Temperature, °F", "deg F", "Fahrenheit", "Temp °F", "temp_f", "TempF"} {
		all = append(all, made{name: head, files: make(func(x *table) { x.head[2], x.cells, x.delim = head, fahrenheit, "\t" }), want: back})
	}
	all = append(all,
		made{name: "F in cells", files: make(func(x *table) {
			x.head[2] = "Temperature"
			x.cells = func(x table, s sample) []string { return []string{x.num(s.rh), fahrenheit(x, s)[1] + " °F"} }
		}), want: back},
		made{name: "F without a unit", files: make(func(x *table) { x.head[2], x.cells = "Temperature", fahrenheit }), want: back, guess: "fahrenheit|°F| F"},
		made{name: "F without a unit, told", files: make(func(x *table) { x.head[2], x.cells = "Temperature", fahrenheit }), want: back, o: logger.Options{Unit: "F"}},
		made{name: "C told", files: make(func(x *table) { x.head[2] = "Temperature" }), want: threeDays(), o: logger.Options{Unit: "C"}},
		made{name: "kelvin", files: make(func(x *table) {
			x.head[2] = "T [K]"
			x.cells = func(x table, s sample) []string { return []string{x.num(s.rh), x.num(s.t+273.15) + "5"} }
		}), want: kelvins()},
		made{name: "fraction", files: make(func(x *table) {
			x.head[1] = "RH"
			x.cells = func(x table, s sample) []string { return []string{strconvThousandths(s.rh / 100), x.num(s.t)} }
		}), want: threeDays(), guess: "fraction|0 to 1|1"},
		made{name: "fraction in the head", files: make(func(x *table) {
			x.head[1] = "RH [-]"
			x.cells = func(x table, s sample) []string { return []string{strconvThousandths(s.rh / 100), x.num(s.t)} }
		}), want: threeDays()},
	)
	runMade(t, all)
}

// kelvins are the temperatures that come back from one decimal of a kelvin and a five.
func kelvins() []sample {
	out := threeDays()
	for i := range out {
		out[i].t = tenthDown(out[i].t+273.15) + 0.05 - 273.15
	}
	return out
}

// tenthDown rounds as the writer of the table does.
func tenthDown(v float64) float64 { return numberOf(plain().num(v)) }

// doubtful is a file with a fault that must not pass in silence.
type doubtful struct {
	name  string
	files []logger.File
	want  []sample // if it is read
	lines []int    // that may be set aside instead
	flag  string   // if it is refused
}

// TestNeverSilent takes files that are read wrongly by whoever believes them. Each may be refused, put
// right with a sentence, or lose its faulty rows with count and lines; nothing else.
func TestNeverSilent(t *testing.T) {
	want := threeDays()
	hot := func(x table, s sample) []string { return []string{x.num(s.rh), x.num(tenth(s.t*1.8 + 32))} }
	back := threeDays()
	for i := range back {
		back[i].t = (tenth(back[i].t*1.8+32) - 32) / 1.8
	}
	bare := func(s string) string { return strings.Replace(s, ".", "", 1) }
	some := func(cells func(x table, s sample) []string) func(x table, s sample) []string {
		return func(x table, s sample) []string {
			if s.at.Day() == 14 && s.at.Hour() < 4 {
				return cells(x, s)
			}
			return []string{x.num(s.rh), x.num(s.t)}
		}
	}
	lines := []int{26, 27, 28}
	make := func(f func(x *table)) []logger.File { return change(f).file(want) }
	for _, d := range []doubtful{
		{name: "F under C", files: make(func(x *table) { x.cells = hot }), want: back, flag: "--unit"},
		{name: "F under C with dew point", files: make(func(x *table) {
			x.head = append(x.head, "Dew point [°C]")
			x.cells = func(x table, s sample) []string { return append(hot(x, s), x.num(dewPointOf(s))) }
		}), want: back},
		{name: "swapped heads with dew point", files: make(func(x *table) {
			x.head = []string{"Time", "T [°C]", "RH [%]", "Dew point [°C]"}
			x.cells = func(x table, s sample) []string { return []string{x.num(s.rh), x.num(s.t), x.num(dewPointOf(s))} }
		}), want: want},
		{name: "swapped heads", files: make(func(x *table) {
			x.head = []string{"Time", "T [°C]", "RH [%]"}
		}), want: want},
		{name: "lost decimal sign of humidity", files: make(func(x *table) {
			x.cells = some(func(x table, s sample) []string { return []string{bare(x.num(s.rh)), x.num(s.t)} })
		}), want: want, lines: lines},
		{name: "lost decimal sign of both", files: make(func(x *table) {
			x.cells = some(func(x table, s sample) []string { return []string{bare(x.num(s.rh)), bare(x.num(s.t))} })
		}), want: want, lines: lines},
		{name: "lost decimal sign all over", files: make(func(x *table) {
			x.cells = func(x table, s sample) []string { return []string{bare(x.num(s.rh)), bare(x.num(s.t))} }
		}), want: want},
		{name: "impossible pairs, warm and wet", files: make(func(x *table) {
			x.cells = some(func(x table, s sample) []string { return []string{"97.0", "71.0"} })
		}), lines: lines},
		{name: "below nought", files: make(func(x *table) {
			x.cells = some(func(x table, s sample) []string { return []string{"-12.0", x.num(s.t)} })
		}), lines: lines},
		{name: "far above 100", files: make(func(x *table) {
			x.cells = some(func(x table, s sample) []string { return []string{"130.0", x.num(s.t)} })
		}), lines: lines},
		{name: "dead sensor, 0.0", files: make(func(x *table) {
			x.cells = some(func(x table, s sample) []string { return []string{"0.0", "0.0"} })
		}), lines: lines},
		{name: "temperature of no place", files: make(func(x *table) {
			x.cells = some(func(x table, s sample) []string { return []string{x.num(s.rh), "850.0"} })
		}), lines: lines},
		{name: "dew point contradicts", files: make(func(x *table) {
			x.head = append(x.head, "Dew point [°C]")
			x.cells = func(x table, s sample) []string {
				if s.at.Day() == 14 && s.at.Hour() < 4 {
					return []string{x.num(s.rh + 25), x.num(s.t), x.num(dewPointOf(s))}
				}
				return []string{x.num(s.rh), x.num(s.t), x.num(dewPointOf(s))}
			}
		}), lines: lines},
	} {
		t.Run(d.name, func(t *testing.T) { d.run(t) })
	}
}

func (d doubtful) run(t *testing.T) {
	r, how, err := logger.Read(d.files, logger.Options{})
	if err != nil {
		assert.Contains(t, err.Error(), "made.csv")
		assert.Contains(t, err.Error(), d.flag)
		return
	}
	if n := asideCount(how); n > 0 && d.lines != nil {
		require.Len(t, how.SetAside, 1, "%+v", how.SetAside)
		assert.Equal(t, 4, n)
		assert.Equal(t, d.lines, how.SetAside[0].Lines)
		same(t, made{want: without(threeDays(), 24, 25, 26, 27)}, r.Times, r.RH, r.T)
		return
	}
	require.True(t, len(how.Guesses) > 0 || len(r.Notes) > 0, "read in silence")
	if d.want != nil {
		same(t, made{want: d.want}, r.Times, r.RH, r.T)
	}
}

// TestMadeSaturated keeps 100.0 and a little more: sensors overshoot in fog.
func TestMadeSaturated(t *testing.T) {
	all := threeDays()
	x := change(func(x *table) {
		x.cells = func(x table, s sample) []string {
			if s.at.Day() == 14 && s.at.Hour() == 3 {
				return []string{"100.4", x.num(s.t)}
			}
			return []string{x.num(s.rh), x.num(s.t)}
		}
	})
	r, how, err := logger.Read(x.file(all), logger.Options{})
	require.NoError(t, err)
	require.Len(t, r.Times, 72)
	assert.InDelta(t, 1, r.RH[27], 0.0041)
	assert.True(t, len(how.Guesses)+len(r.Notes) > 0, "100.4 in silence")
}

// TestMadeOrder has readings out of order, twice, or from a clock that was reset.
func TestMadeOrder(t *testing.T) {
	want := threeDays()
	down := slices.Clone(want)
	slices.Reverse(down)
	x := plain()
	lines := x.lines(want)
	twice := strings.Join(append(lines[:50:50], lines[44:]...), "\n") // 6 rows again
	conflict := slices.Clone(want[40:])
	for i := range conflict[:8] {
		conflict[i].rh = tenth(conflict[i].rh + 7)
	}
	reset := slices.Clone(want)
	for i := range reset[60:] {
		reset[60+i].at = time.Date(2000, 1, 1, i, 0, 0, 0, time.UTC)
	}
	early := slices.Clone(want)
	for i := range early[:3] {
		early[i].at = time.Date(1970, 1, 1, 0, i, 0, 0, time.UTC)
	}
	blocks := append(slices.Clone(want[30:]), want[:30]...)
	first, second := x.file(want[:48])[0], x.file(want[40:])[0]
	first.Name, second.Name = "first.csv", "second.csv"
	other := x.file(conflict)[0]
	other.Name = "second.csv"
	runMade(t, []made{
		{name: "newest first", files: x.file(down), want: want},
		{name: "blocks", files: x.file(blocks), want: want},
		{name: "six rows again", files: textFile(twice), want: want, aside: []aside{{6, []int{51, 52, 53}, "twice|again|repeat|duplicate|already"}}},
		{name: "two files", files: []logger.File{x.file(want[:30])[0], x.file(want[30:])[0]}, want: want},
		{name: "two files, later first", files: []logger.File{x.file(want[30:])[0], x.file(want[:30])[0]}, want: want},
		{name: "overlapping files", files: []logger.File{first, second}, want: want, aside: []aside{{8, nil, "twice|again|repeat|duplicate|already|overlap"}}},
		{name: "the same file twice", files: []logger.File{first, {Name: "copy.csv", Data: first.Data}}, want: want[:48], aside: []aside{{48, nil, "twice|again|repeat|duplicate|already|overlap"}}},
		{name: "clock reset", files: x.file(reset), want: want[:60], aside: []aside{{12, []int{62, 63, 64}, "clock|2000|reset"}}},
		{name: "clock not yet set", files: x.file(early), want: want[3:], aside: []aside{{3, []int{2, 3, 4}, "clock|1970|reset"}}},
	})
	_, how, err := logger.Read([]logger.File{first, other}, logger.Options{})
	if err == nil {
		assert.GreaterOrEqual(t, asideCount(how), 8, "eight readings contradict: %+v", how.SetAside)
		text := ""
		for _, s := range how.SetAside {
			text += s.Reason + "\n"
		}
		assert.True(t, saysOneOf(text+strings.Join(how.Guesses, "\n"), "differ|contradict|conflict|other value|another value|not equal|disagree"), "%+v %q", how.SetAside, how.Guesses)
	}
}
