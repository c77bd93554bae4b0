package logger_test

import (
	"math"
	"slices"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"crossgrain/moisture/record/logger"
)

func itoa(i int) string { return strconv.Itoa(i) }

func sortedNames[V any](m map[string]V) []string {
	var out []string
	for k := range m {
		out = append(out, k)
	}
	slices.Sort(out)
	return out
}

// dewPointOf is the dew point of a sample, °C, by the Magnus formula over water with 17.62 and 243.12 °C
// (WMO Guide to Instruments and Methods of Observation, annex 4.B).
func dewPointOf(s sample) float64 {
	const a, b = 17.62, 243.12
	g := math.Log(s.rh/100) + a*s.t/(b+s.t)
	return b * g / (a - g)
}

// attic is another room: damper and colder, with the same clock.
func attic(all []sample) []sample {
	out := slices.Clone(all)
	for i := range out {
		out[i].rh, out[i].t = tenth(out[i].rh+11), tenth(out[i].t-6)
	}
	return out
}

// TestMadeRooms holds several rooms or channels in one file.
func TestMadeRooms(t *testing.T) {
	hall, top := weeks(), attic(weeks())
	num := plain().num
	wide := func(head string, cells func(a, b sample) string) string {
		out := head + "\n"
		for i := range hall {
			out += hall[i].at.Format("2006-01-02 15:04:05") + ";" + cells(hall[i], top[i]) + "\n"
		}
		return out
	}
	pairs := func(a, b sample) string { return num(a.rh) + ";" + num(a.t) + ";" + num(b.rh) + ";" + num(b.t) }
	kinds := func(a, b sample) string { return num(a.rh) + ";" + num(b.rh) + ";" + num(a.t) + ";" + num(b.t) }
	long := func(head string, row func(name string, s sample) string) string {
		out := head + "\n"
		for i := range hall {
			out += row("Hall", hall[i]) + "\n" + row("Attic", top[i]) + "\n"
		}
		return out
	}
	stamp := func(s sample) string { return s.at.Format("2006-01-02 15:04:05") }
	blocks := long("Time,Room,RH [%],T [°C]", func(name string, s sample) string { return stamp(s) + "," + name + "," + num(s.rh) + "," + num(s.t) })
	lines := strings.Split(strings.TrimSuffix(blocks, "\n"), "\n")
	slices.SortStableFunc(lines[1:], func(a, b string) int { return strings.Compare(strings.Split(b, ",")[1], strings.Split(a, ",")[1]) })
	four := func(sep string, name func(string) string) string {
		out := strings.Join([]string{"time", name("channel"), name("quantity"), "value"}, sep) + "\n"
		for i := range hall {
			for _, r := range []struct {
				name string
				s    sample
			}{{"Hall", hall[i]}, {"Attic", top[i]}} {
				out += strings.Join([]string{stamp(r.s), r.name, "humidity", num(r.s.rh)}, sep) + "\n" +
					strings.Join([]string{stamp(r.s), r.name, "temperature", num(r.s.t)}, sep) + "\n"
			}
		}
		return out
	}
	same := func(s string) string { return s }
	for name, text := range map[string]string{
		"wide":             wide("Time;Hall RH [%];Hall T [°C];Attic RH [%];Attic T [°C]", pairs),
		"wide, name last":  wide("Time;RH Hall [%];T Hall [°C];RH Attic [%];T Attic [°C]", pairs),
		"wide, brackets":   wide("Time;RH (Hall) [%];T (Hall) [°C];RH (Attic) [%];T (Attic) [°C]", pairs),
		"wide, underscore": wide("time;Hall_RH;Hall_T;Attic_RH;Attic_T", pairs),
		"wide, colon":      wide("Zeit;Hall: Feuchte [%];Hall: Temperatur [°C];Attic: Feuchte [%];Attic: Temperatur [°C]", pairs),
		"wide, by kind":    wide("Time;Hall RH [%];Attic RH [%];Hall T [°C];Attic T [°C]", kinds),
		"rooms above":      wide(";Hall;;Attic;\nTime;RH [%];T [°C];RH [%];T [°C]", pairs),
		"rooms above each": wide("Time;Hall;Hall;Attic;Attic\n;RH [%];T [°C];RH [%];T [°C]", pairs),
		"long":             blocks,
		"long in blocks":   strings.Join(lines, "\n"),
		"long, sensor":     strings.Replace(blocks, "Room", "Sensor name", 1),
		"long, device":     strings.Replace(blocks, "Room", "Device", 1),
		"name first":       long("Location;Time;RH;T", func(name string, s sample) string { return name + ";" + stamp(s) + ";" + num(s.rh) + ";" + num(s.t) }),
		"one value a row":  four(",", same),
		"one value, tabs":  four("\t", func(s string) string { return map[string]string{"channel": "Sensor", "quantity": "Parameter"}[s] }),
	} {
		t.Run(name, func(t *testing.T) {
			_, _, err := logger.Read(textFile(text), logger.Options{})
			var several *logger.ChannelError
			require.ErrorAs(t, err, &several)
			assert.ElementsMatch(t, []string{"Hall", "Attic"}, several.Names)
			for room, want := range map[string][]sample{"Hall": hall, "Attic": top} {
				runMade(t, []made{{name: room, files: textFile(text), o: logger.Options{Channel: room}, want: want},
					{name: room + " in lower case", files: textFile(text), o: logger.Options{Channel: strings.ToLower(room)}, want: want}})
			}
		})
	}
}

// TestMadeLong has one room and one value a row.
func TestMadeLong(t *testing.T) {
	want := threeDays()
	num := plain().num
	each := func(head string, row func(s sample, kind string, v float64) string, kinds ...string) []logger.File {
		out := head + "\n"
		for _, s := range want {
			out += row(s, kinds[0], s.rh) + "\n" + row(s, kinds[1], s.t) + "\n"
		}
		return textFile(out)
	}
	stamp := func(s sample) string { return s.at.Format("2006-01-02 15:04:05") }
	comma := func(s sample, kind string, v float64) string { return stamp(s) + "," + kind + "," + num(v) }
	runMade(t, []made{
		{name: "quantity", files: each("time,quantity,value", comma, "RH", "T"), want: want},
		{name: "parameter and unit", files: each("time,parameter,value,unit", func(s sample, kind string, v float64) string {
			return comma(s, kind, v) + "," + map[string]string{"humidity": "%", "temperature": "°C"}[kind]
		}, "humidity", "temperature"), want: want},
		{name: "variable first", files: each("variable,time,value", func(s sample, kind string, v float64) string {
			return kind + "," + stamp(s) + "," + num(v)
		}, "Relative Humidity", "Temperature"), want: want},
		{name: "german", files: each("Zeit;Messgröße;Wert", func(s sample, kind string, v float64) string {
			return stamp(s) + ";" + kind + ";" + strings.Replace(num(v), ".", ",", 1)
		}, "rel. Feuchte", "Temperatur"), want: want},
		{name: "channel names the quantity", files: each("time,channel,value", comma, "RH", "T"), want: want},
	})
}

func strconvThousandths(v float64) string { return strconv.FormatFloat(v, 'f', 3, 64) }

func numberOf(s string) float64 {
	v, err := strconv.ParseFloat(s, 64)
	if err != nil {
		return math.NaN()
	}
	return v
}
