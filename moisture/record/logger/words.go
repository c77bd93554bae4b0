package logger

import (
	"strings"
	"unicode"

	"golang.org/x/text/unicode/norm"
)

// quantity is what a column may hold.
type quantity int8

const (
	other quantity = iota
	moment
	dateOnly
	clockOnly
	humidity
	warmth
	dewPoint
	absolute // g/m3
	place    // channel, sensor, room
	kind     // name of a quantity, in a long table
	value    // in a long table
	yearPart
	monthPart
	dayPart
	hourPart
	minutePart
	dayOfYear
)

// vocabulary holds the words of heads in many languages, lower case, without accents and signs. The
// longer ones are tried first, as whole words or as the beginning of one where a * stands.
func vocabulary() []struct {
	q     quantity
	words []string
} {
	return []struct {
		q     quantity
		words []string
	}{
		{dewPoint, []string{"dew*", "dew point*", "dewpoint*", "taupunkttemp*", "frost point*", "temperature de rosee", "dewpt", "dp", "td", "taupunkt*", "taupkt", "point de rosee", "rosee", "punto di rugiada", "rugiada", "punto de rocio", "rocio",
			"dauwpunt", "ponto de orvalho", "orvalho", "daggpunkt", "dugpunkt", "kastepiste", "punkt rosy", "rosy", "rosny bod", "rosneho bodu"}},
		{absolute, []string{"absolute humidity", "abs humidity", "absolute feuchte", "abs feuchte", "humidite absolue", "umidita assoluta", "humedad absoluta",
			"abs hum", "ah", "mixing ratio", "enthalpy", "absolute vochtigheid", "vapour*", "vapor*"}},
		{humidity, []string{"relative humidity", "rel humidity", "rel hum", "rh", "rhe", "rhi", "hr", "ur", "rf", "rv", "lf", "humid*", "hum", "feucht*", "luftfeucht*", "relf*",
			"relative feuchte", "rel feuchte", "umid*", "humed*", "vochtigheid*", "vocht*", "luftfuktighet*", "fuktighet*", "fugtighed*", "luftfugtighed*", "fugt*", "kosteus*",
			"wilgotnosc*", "vlhkost*", "relhum", "r h", "%rh", "hygro*", "ilmankosteus*", "humidade", "relfeuchte"}},
		{warmth, []string{"temp*", "t", "te", "ti", "ta", "tair*", "t air", "airt*", "air t*", "temperatur*", "dry bulb", "drybulb", "celsius", "fahrenheit", "degc", "degf", "lampotila*",
			"teplota*", "temperatuur*", "lufttemperatur*", "tc", "tf", "kelvin"}},
		{kind, []string{"quantity", "parameter", "measurand", "variable", "property", "observable", "messgroesse", "messgrosse", "groesse", "grosse", "grandeur", "grandezza",
			"magnitud", "grootheid", "type", "measurement", "signal", "storhet", "stoerrelse", "suure", "wielkosc", "velicina"}},
		{value, []string{"value", "reading", "wert", "messwert", "valeur", "valore", "valor", "waarde", "varde", "vaerdi", "arvo", "wartosc", "hodnota", "result"}},
		{place, []string{"channel", "sensor*", "room", "location", "device*", "logger", "site", "station", "kanal", "raum", "salle", "stanza", "sala", "kamer",
			"ruimte", "rum", "huone", "pokoj", "mistnost", "place", "probe", "fuhler", "messstelle", "capteur", "sonde", "sensore", "point", "node", "standort", "lieu", "ort"}},
		{moment, []string{"date time", "datetime", "date and time", "timestamp", "time stamp", "zeitstempel", "datum zeit", "datum uhrzeit", "date heure", "data ora",
			"fecha hora", "when", "zeitpunkt", "moment", "epoch", "unix*", "seconds since*", "local time", "utc", "hour ending", "t utc", "tijdstip", "tidpunkt", "tidspunkt",
			"aikaleima", "horodat*", "date/time", "recorded*", "logged*", "observed*", "measured at", "data hora", "data godzina", "datum a cas", "time utc", "gmt"}},
		{yearPart, []string{"year", "jahr", "annee", "anno", "ano", "jaar", "ar", "vuosi", "rok", "yyyy", "yr"}},
		{monthPart, []string{"month", "monat", "mois", "mese", "mes", "maand", "manad", "maned", "kuukausi", "miesiac", "mesic", "mm", "mo"}},
		{dayOfYear, []string{"day of year", "doy", "julian*", "yday", "jour julien"}},
		{dayPart, []string{"day", "tag", "jour", "giorno", "dia", "dag", "paiva", "dzien", "den", "dd"}},
		{hourPart, []string{"hour", "stunde", "uur", "timme", "tunti", "godz", "hh", "hr of day", "hod"}},
		{minutePart, []string{"minute", "min of hour", "minuto", "minut", "mi"}},
		{dateOnly, []string{"date", "datum", "data", "fecha", "dato", "paivamaara", "pvm", "dat", "day date"}},
		{clockOnly, []string{"time", "zeit", "uhrzeit", "heure", "ora", "hora", "tijd", "tid", "klokkeslet", "klockslag", "aika", "kello", "klo", "czas", "godzina", "cas", "clock", "heures"}},
	}
}

// fold writes a head in lower case without accents and signs.
func fold(s string) string {
	var b strings.Builder
	blank := true
	for _, r := range norm.NFD.String(strings.ToLower(s)) {
		switch {
		case unicode.Is(unicode.Mn, r):
			continue
		case r == 'ł':
			r = 'l'
		case r == 'ø':
			r = 'o'
		case r == 'đ':
			r = 'd'
		}
		if r == '%' || unicode.IsLetter(r) || unicode.IsDigit(r) {
			b.WriteRune(r)
			blank = false
		} else if !blank {
			b.WriteByte(' ')
			blank = true
		}
	}
	return strings.TrimSpace(strings.ReplaceAll(strings.ReplaceAll(b.String(), "ß", "ss"), "æ", "ae"))
}

// unitOf parts a head into its name and the unit in brackets, after a comma or a slash, or at its end.
func unitOf(head string) (name, unit string) {
	for _, pair := range [...]string{"[]", "()", "{}"} {
		i := strings.LastIndexByte(head, pair[0])
		if i < 0 {
			continue
		}
		if j := strings.IndexByte(head[i:], pair[1]); j > 0 {
			u := strings.TrimSpace(head[i+1 : i+j])
			if humidUnit(strings.ToLower(u)) || warmUnit(u) != 0 || u == "" {
				return strings.TrimSpace(head[:i] + " " + head[i+j+1:]), u
			}
		}
	}
	for _, sep := range [...]string{",", "/", " in ", "_", ";", " "} {
		if i := strings.LastIndex(head, sep); i > 0 {
			u := strings.TrimSpace(head[i+len(sep):])
			if len(u) > 0 && (humidUnit(strings.ToLower(u)) || warmUnit(u) != 0) && !(sep == " " && len(u) < 2 && !strings.ContainsAny(u, "%CF")) {
				return strings.TrimSpace(head[:i]), u
			}
		}
	}
	// "Temp, °C (serial numbers)": the unit stands between.
	if i := strings.IndexByte(head, ','); i > 0 {
		rest := strings.TrimSpace(head[i+1:])
		u, _, _ := strings.Cut(rest, " ")
		u, _, _ = strings.Cut(u, "(")
		if humidUnit(strings.ToLower(u)) || warmUnit(u) != 0 {
			return strings.TrimSpace(head[:i]), u
		}
	}
	if strings.HasSuffix(head, "%") {
		return strings.TrimSpace(strings.TrimSuffix(head, "%")), "%"
	}
	return head, ""
}

// Signs that are left out of units before these are compared.
var (
	humidSigns = strings.NewReplacer(" ", "", ".", "", "-", "", "_", "")
	warmSigns  = strings.NewReplacer(" ", "", ".", "", "°", "", "º", "", "˚", "", "\u00c2", "", "*", "")
)

// humidUnit recognises units of relative humidity, in lower case.
func humidUnit(u string) bool {
	u = humidSigns.Replace(u)
	switch u {
	case "%", "%rh", "rh%", "%rf", "%hr", "%ur", "%rv", "%rhum", "%relh", "%rlf", "%rel", "%relf", "%humidity", "%rhe", "%lf", "%rel.feuchte", "percent", "pct",
		"prozent", "rh", "%rhod", "%relhum", "%relfeuchte", "pctrh", "rhpct", "%feuchte", "%wilg", "%vlhk", "%rlv", "%uf", "%fuktighet", "%r.h":
		return true
	}
	return false
}

// warmUnit returns 'C', 'F' or 'K' for a unit of temperature, 0 for another text.
func warmUnit(u string) byte {
	u = warmSigns.Replace(strings.TrimSpace(u))
	switch strings.ToLower(u) {
	case "c", "degc", "celsius", "gradc", "grad", "centigrade", "oc", "ºc", "deg", "℃", "cel":
		return 'C'
	case "f", "degf", "fahrenheit", "℉", "of":
		return 'F'
	case "k", "kelvin", "degk":
		return 'K'
	}
	if u == "" {
		return 0
	}
	return 0
}

// meaning returns what a head names, and the word of the vocabulary it was known by.
func meaning(head string) (q quantity, word, unit string) {
	name, unit := unitOf(head)
	f := fold(name)
	if unit == "" && warmUnit(head) != 0 {
		return warmth, "", head
	}
	if beside(f) {
		return other, "", unit
	}
	f = spaced(f)
	best, most := -1, -1
	var measured quantity // of the room, beside what the column is called
	var by string
	for _, v := range vocabulary() {
		for _, w := range v.words {
			stem, open := strings.CutSuffix(w, "*")
			n := len(stem)
			if n <= best && n <= most || !holdsWord(f, stem, open) {
				continue
			}
			if n > best {
				q, word, best = v.q, stem, n
			}
			if (v.q == humidity || v.q == warmth || v.q == dewPoint) && n > most {
				measured, by, most = v.q, stem, n
			}
		}
	}
	if most > 0 && (q == place || q == kind || q == value) { // RH of sensor 1
		q, word = measured, by
	}
	switch {
	case humidUnit(strings.ToLower(unit)) && q != humidity && q != dewPoint && q != absolute && q != value:
		if strings.ToLower(unit) != "rh" || q == other || q == place {
			return humidity, "", unit
		}
	case warmUnit(unit) != 0 && q != warmth && q != dewPoint && q != value && q != humidity:
		return warmth, "", unit
	}
	if q == warmth && (word == "celsius" || word == "degc" || word == "tc") {
		unit = "C"
	}
	if q == warmth && (word == "fahrenheit" || word == "degf" || word == "tf") {
		unit = "F"
	}
	return q, word, unit
}

// spaced parts letters from the digits behind them: rh1 becomes rh 1.
func spaced(f string) string {
	var b strings.Builder
	var last rune
	for _, r := range f {
		if unicode.IsDigit(r) && unicode.IsLetter(last) {
			b.WriteByte(' ')
		}
		b.WriteRune(r)
		last = r
	}
	return b.String()
}

// beside recognises columns that have a unit of humidity or temperature and are neither of the room.
func beside(f string) bool {
	for _, w := range [...]string{"batter*", "batt", "akku", "pile", "accu", "bateria", "batteria", "wood*", "holz*", "bois", "legno", "madera", "hout*", "soil*", "boden*", "moisture content",
		"cloud*", "signal*", "rssi", "charge*", "valve*", "co2*", "light*", "oxygen*", "emc", "mc", "wall surface", "humidity ratio", "specific humidity", "absolute*", "wet bulb*", "wetbulb*", "heat index*", "wind chill*", "windchill", "feels like",
		"gefuhlt*", "feuchtkugel*", "apparent*", "vpd", "gust*", "rain*", "precip*", "supply voltage", "duty", "fan"} {
		stem, open := strings.CutSuffix(w, "*")
		if holdsWord(f, stem, open) {
			return true
		}
	}
	return false
}

// derived recognises columns of limits and statistics, which count only where no plain column stands.
func derived(head string) bool {
	f := fold(head)
	for _, w := range [...]string{"min", "max", "minimum", "maximum", "set", "setpoint", "soll*", "limit*", "alarm*", "std", "stdev", "dev", "consigne", "low", "high", "target", "grenz*", "smp", "tmn", "tmx", "delta"} {
		stem, open := strings.CutSuffix(w, "*")
		if holdsWord(f, stem, open) {
			return true
		}
	}
	return false
}

// holdsWord looks for a word in a folded head, whole or as the beginning of one.
func holdsWord(f, w string, open bool) bool {
	for at := 0; ; {
		i := strings.Index(f[at:], w)
		if i < 0 {
			return false
		}
		i += at
		end := i + len(w)
		if (i == 0 || f[i-1] == ' ') && (open || end == len(f) || f[end] == ' ') {
			return true
		}
		if open && len(w) >= 4 { // compounds: raumtemperatur, luftfeuchte
			return true
		}
		at = i + 1
	}
}
