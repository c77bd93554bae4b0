package logger_test

import (
	"strings"
	"testing"

	"crossgrain/moisture/record/logger"
)

// reversed cells put temperature before humidity.
func warmFirst(x table, s sample) []string { return []string{x.num(s.t), x.num(s.rh)} }

// TestMadeHeads names the columns in several languages, in either order.
func TestMadeHeads(t *testing.T) {
	var all []made
	for _, head := range []string{
		"Time|RH|T", "Timestamp|Humidity|Temperature", "Date Time|RH (%)|Temp (°C)", "DateTime|%RH|°C",
		"time|humidity|temperature", "TIMESTAMP|RH_Avg|AirTC_Avg", "Logged at|Relative humidity / %|Air temperature / °C",
		"date_time|rel_humidity_pct|temp_c", "time|rh_percent|temp_degC", "Local time|Relative Humidity [%RH]|Temperature [deg C]",
		"Recorded|RH %|Temp C", "When|Hum.|Temp.", "Measurement time|Air humidity (%)|Air temp. (C)",
		"Zeit|rel. Feuchte [%]|Temperatur [°C]", "Datum/Uhrzeit|relative Luftfeuchtigkeit in %|Lufttemperatur in °C",
		"Zeitstempel|rF [%]|Temp. [°C]", "Messzeit|Luftfeuchte %|Temperatur °C", "Zeitpunkt|Feuchte % rF|Raumtemperatur",
		"Date/Heure|Humidité relative (%)|Température (°C)", "Horodatage|HR (%)|Temp. (°C)", "Date et heure|Humidité|Température",
		"Datum/Tijd|Relatieve vochtigheid (%)|Temperatuur (°C)", "Tijdstip|RV (%)|Temp (°C)", "Datum en tijd|Vochtigheid|Temperatuur",
		"Data/Ora|Umidità relativa (%)|Temperatura (°C)", "Data e ora|UR (%)|Temp. (°C)", "Data Ora|Umidità|Temperatura",
		"Fecha/Hora|Humedad relativa (%)|Temperatura (°C)", "Fecha y hora|HR %|Temp. °C", "Fecha Hora|Humedad|Temperatura",
		"Tidpunkt|Relativ luftfuktighet (%)|Temperatur (°C)", "Tid|RF (%)|Temp (°C)", "Data i godzina|Wilgotność względna (%)|Temperatura (°C)",
		"Data/hora|Humidade relativa (%)|Temperatura (°C)", "Dato|Luftfugtighed (%)|Temperatur (°C)",
	} {
		names := strings.Split(head, "|")
		x := change(func(x *table) { x.head, x.delim = names, ";" })
		y := change(func(x *table) {
			x.head, x.delim, x.cells = []string{names[0], names[2], names[1]}, "\t", warmFirst
		})
		all = append(all, made{name: head, files: x.file(threeDays()), want: threeDays()},
			made{name: head + " warm first", files: y.file(threeDays()), want: threeDays()})
	}
	runMade(t, all)
}

// TestMadeColumns has further columns, which are neither of the two.
func TestMadeColumns(t *testing.T) {
	var all []made
	for _, c := range []struct {
		name, head string
		cells      func(x table, s sample) []string
		noT        bool
	}{
		{"humidity only", "Time|RH [%]", func(x table, s sample) []string { return []string{x.num(s.rh)} }, true},
		{"dew point", "Time|RH [%]|T [°C]|Dew point [°C]", func(x table, s sample) []string {
			return []string{x.num(s.rh), x.num(s.t), x.num(dewPointOf(s))}
		}, false},
		{"dew point before", "Time|Taupunkt [°C]|Temperatur [°C]|Feuchte [%]", func(x table, s sample) []string {
			return []string{x.num(dewPointOf(s)), x.num(s.t), x.num(s.rh)}
		}, false},
		{"absolute humidity", "Time|Absolute humidity [g/m³]|T [°C]|RH [%]", func(x table, s sample) []string {
			return []string{"8.7", x.num(s.t), x.num(s.rh)}
		}, false},
		{"absolute humidity german", "Zeit|T [°C]|rel. Feuchte [%]|abs. Feuchte [g/m³]", func(x table, s sample) []string {
			return []string{x.num(s.t), x.num(s.rh), "8.7"}
		}, false},
		{"light and carbon dioxide", "Time|Lux|CO2 [ppm]|T [°C]|RH [%]|UV [µW/lm]|Pressure [hPa]|Battery [%]", func(x table, s sample) []string {
			return []string{"48", "611", x.num(s.t), x.num(s.rh), "21", "1013.2", "97"}
		}, false},
		{"wood moisture beside", "Time|Wood moisture [%]|RH [%]|T [°C]", func(x table, s sample) []string {
			return []string{"10.4", x.num(s.rh), x.num(s.t)}
		}, false},
		{"battery voltage", "Time|RH [%]|T [°C]|Battery [V]|Alarm", func(x table, s sample) []string {
			return []string{x.num(s.rh), x.num(s.t), "3.6", "no"}
		}, false},
		{"text column", "Time|Device|RH [%]|T [°C]|Remark", func(x table, s sample) []string {
			return []string{"unit-a", x.num(s.rh), x.num(s.t), ""}
		}, false},
		{"unnamed columns", "Time||RH [%]|T [°C]||", func(x table, s sample) []string {
			return []string{"", x.num(s.rh), x.num(s.t), "", ""}
		}, false},
		{"lowest and highest", "Time|RH mean [%]|RH min [%]|RH max [%]|T mean [°C]|T min [°C]|T max [°C]", func(x table, s sample) []string {
			return []string{x.num(s.rh), x.num(s.rh - 1), x.num(s.rh + 1), x.num(s.t), x.num(s.t - 1), x.num(s.t + 1)}
		}, false},
		{"set points", "Time|RH set point [%]|RH [%]|T set point [°C]|T [°C]", func(x table, s sample) []string {
			return []string{"50.0", x.num(s.rh), "20.0", x.num(s.t)}
		}, false},
	} {
		x := change(func(x *table) { x.head, x.cells, x.delim = strings.Split(c.head, "|"), c.cells, ";" })
		all = append(all, made{name: c.name, files: x.file(threeDays()), want: threeDays(), noT: c.noT})
	}
	last := table{delim: ",", eol: "\n", decimal: '.', head: []string{"T", "RH", "Time"}, stamp: clockForm("2006-01-02 15:04:05")}
	text := "T,RH,Time\n"
	for _, s := range threeDays() {
		text += last.num(s.t) + "," + last.num(s.rh) + "," + last.stamp(s.at) + "\n"
	}
	all = append(all, made{name: "time last", files: textFile(text), want: threeDays()})
	for _, head := range []string{"No.", "#", "Nr", "Index", "", "Sample", "Record"} {
		text := head + ",Date Time,RH [%],T [°C]\n"
		for i, s := range weeks() {
			text += itoa(i+1) + "," + plain().row(s) + "\n"
		}
		all = append(all, made{name: "row number " + head, files: textFile(text), want: weeks()})
	}
	text = strings.Join(plain().lines(threeDays()), "\n")
	text = strings.ReplaceAll(text, "\n", "\n7,")
	all = append(all, made{name: "row number without a head", files: textFile(text), want: threeDays()})
	runMade(t, all)
}

// TestMadeAbove has lines above the head.
func TestMadeAbove(t *testing.T) {
	blocks := map[string][]string{
		"title":           {"North store"},
		"title, empty":    {"North store", "", ""},
		"quoted title":    {`"North store, upper floor"`},
		"colons":          {"Serial number: 00000001", "Start: 2023-11-13 00:00:00", "Interval: 01:00:00", "Readings: 72", "Calibrated: 2022-02-01", "Alarm: 40.0 ... 60.0", ""},
		"cells":           {"Serial number,00000001,", "Start,2023-11-13 00:00:00,", "Stop,2023-11-15 23:00:00,", "Interval [min],60,", "Limits,40.0,60.0", ",,"},
		"equals signs":    {"serial=00000001", "start=2023-11-13 00:00", "rh_low=40", "rh_high=60"},
		"sections":        {"[Device]", "Name=store", "Firmware=1.2.3", "[Channels]", "1=RH", "2=T", "[Data]"},
		"statistics":      {"Statistics,RH [%],T [°C]", "Minimum,44.3,17.2", "Maximum,58.1,21.0", "Average,51.9,19.2", ""},
		"statistics when": {"Minimum,44.3,17.2,2023-11-13 04:00:00", "Maximum,58.1,21.0,2023-11-13 18:00:00", "Mean,51.9,19.2,", ""},
		"hash":            {"# store, invented", "# started 2023-11-13 00:00:00", "# rows: 72"},
		"slashes":         {"// store, invented", "// started 2023-11-13 00:00:00"},
		"semicolons":      {"; store, invented", "; started 2023-11-13 00:00:00"},
		"exclamation":     {"! store, invented", "! started 2023-11-13 00:00:00"},
		"sep":             {"sep=,"},
		"dates":           {"From,2023-11-13 00:00:00", "To,2023-11-15 23:00:00"},
		"sensors":         {"Channel,Sensor,Unit", "1,humidity,%RH", "2,temperature,°C", ""},
	}
	var all []made
	for _, name := range sortedNames(blocks) {
		x := change(func(x *table) { x.before = blocks[name] })
		spare := len(blocks[name]) // lines of statistics with a time may be counted
		all = append(all, made{name: name, files: x.file(threeDays()), want: threeDays(), spare: spare},
			made{name: name + " weeks", files: x.file(weeks()), want: weeks(), spare: spare})
		y := change(func(x *table) {
			x.delim, x.decimal, x.before = ";", ',', semicolons(blocks[name])
			x.head = []string{"Datum;Uhrzeit", "Feuchte [%]", "Temperatur [°C]"}
			x.stamp = clockForm("02.01.2006;15:04:05")
		})
		all = append(all, made{name: name + " german", files: y.file(threeDays()), want: threeDays(), spare: spare})
	}
	for _, mark := range []string{"#", "# ", "//", ";", "%", "!"} {
		x := change(func(x *table) { x.head[0] = mark + x.head[0] })
		all = append(all, made{name: "head in a comment " + mark, files: x.file(threeDays()), want: threeDays()})
	}
	units := change(func(x *table) { x.head = []string{"Time", "RH", "T"} })
	lines := units.lines(threeDays())
	below := func(l string) []string { return append([]string{lines[0], l}, lines[1:]...) }
	all = append(all,
		made{name: "units below", files: textFile(strings.Join(below(",%,°C"), "\n")), want: threeDays(), spare: 1},
		made{name: "units below in brackets", files: textFile(strings.Join(below("[-],[%],[°C]"), "\n")), want: threeDays(), spare: 1},
		made{name: "units and form below", files: textFile(strings.Join(below("yyyy-mm-dd hh:mm:ss,%RH,deg C"), "\n")), want: threeDays(), spare: 1},
		made{name: "rule below", files: textFile(strings.Join(below("-------------------,------,------"), "\n")), want: threeDays(), spare: 1},
		made{name: "empty cells below", files: textFile(strings.Join(below(",,"), "\n")), want: threeDays(), spare: 1},
	)
	runMade(t, all)
}

func semicolons(lines []string) []string {
	out := make([]string, len(lines))
	for i, l := range lines {
		out[i] = strings.NewReplacer(",", ";", ".", ",").Replace(l)
	}
	return out
}

// TestMadeBetween has lines between and below the readings that are none.
func TestMadeBetween(t *testing.T) {
	want := threeDays()
	lines := plain().lines(want)
	at := func(i int, more ...string) []logger.File {
		out := append(append(append([]string{}, lines[:i]...), more...), lines[i:]...)
		return textFile(strings.Join(out, "\n"))
	}
	some := func(n int, lines []int, word string) []aside { return []aside{{n, lines, word}} }
	event := "event|no value|no reading|not a reading|text"
	runMade(t, []made{
		{name: "head again", files: at(40, lines[0]), want: want, spare: 1},
		{name: "empty line and head again", files: at(40, "", lines[0]), want: want, spare: 1},
		{name: "title and head again", files: at(40, "", "North store", lines[0]), want: want, spare: 2},
		{name: "statistics below", files: at(73, "", "Min,44.3,17.2", "Max,58.1,21.0", "Average,51.9,19.2"), want: want, spare: 4},
		{name: "statistics below without a gap", files: at(73, "Minimum,44.3,17.2", "Maximum,58.1,21.0", "Mittelwert,51.9,19.2"), want: want, spare: 3},
		{name: "end of file", files: at(73, "End of file"), want: want, spare: 1},
		{name: "sentences below", files: at(73, "", "72 readings, exported 2023-11-16 09:12:00"), want: want, spare: 1},
		{name: "statistics below with times", files: at(73, "", "Lowest,44.3,17.2,2023-11-13 04:00:00", "Highest,58.1,21.0,2023-11-13 18:00:00"), want: want, spare: 2},
		{name: "logger started", files: at(1, "2023-11-13 00:00:00,Logger started,"), want: want, aside: some(1, []int{2}, event)},
		{name: "button", files: at(41, "2023-11-14 15:12:31,Button pressed,"), want: want, aside: some(1, []int{42}, event)},
		{name: "low battery", files: at(41, "2023-11-14 15:12:31,,,Low battery"), want: want, aside: some(1, []int{42}, event)},
		{name: "events without values", files: at(41, "2023-11-14 15:12:31,,", "2023-11-14 15:12:33,,"), want: want, aside: some(2, []int{42, 43}, event)},
	})
}
