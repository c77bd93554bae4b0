package page

import (
	"errors"
	"fmt"
	"math"
	"net/url"
	"path"
	"strings"
	"sync"
	"time"
	_ "time/tzdata" // zones by name where the system has none

	"crossgrain/cmd/internal/disk"
	"crossgrain/moisture"
	"crossgrain/moisture/record"
	"crossgrain/moisture/record/logger"
	"crossgrain/moisture/record/scenario"
	"crossgrain/moisture/record/terms"
	"crossgrain/panel/assessment"
)

// question is the climate that is asked about, as typed.
type question struct {
	Kind        string // "" usual, or range, terms, words, record
	Low, High   string // % RH
	Terms       string
	Words       string // a kind of building
	Record      string // a file in the folder of records
	Temperature string // °C
	reading
}

// reading settles what a logger's file leaves open.
type reading struct{ Channel, Dates, Zone, Unit, Decimal string }

// The fields of a question in forms, addresses and drafts.
func (q *question) fields() map[string]*string {
	return map[string]*string{
		"q:kind": &q.Kind, "q:low": &q.Low, "q:high": &q.High, "q:terms": &q.Terms, "q:words": &q.Words, "q:record": &q.Record,
		"q:temperature": &q.Temperature, "q:channel": &q.Channel, "q:dates": &q.Dates, "q:zone": &q.Zone, "q:unit": &q.Unit, "q:decimal": &q.Decimal,
	}
}

// take changes the fields that a form holds and says whether anything is new.
func (q *question) take(form url.Values) bool {
	before := *q
	for name, to := range q.fields() {
		if form.Has(name) {
			*to = strings.TrimSpace(form.Get(name))
		}
	}
	return *q != before
}

func (q question) encode() []byte {
	v := url.Values{}
	for name, from := range q.fields() {
		if *from != "" {
			v.Set(name, *from)
		}
	}
	return []byte(v.Encode() + "\n")
}

// askFile is where the question of a draft is kept.
func (sh *sheet) askFile() string { return path.Join(draftsDir, sh.key+".question") }

func (s *Server) draftAsk(sh *sheet) (q question) {
	src, err := s.folder.read(sh.askFile(), 1<<16)
	if err != nil {
		return q
	}
	if v, err := url.ParseQuery(strings.TrimSpace(string(src))); err == nil {
		q.take(v)
	}
	return q
}

// askError is what is wrong with a question, and where.
type askError struct {
	Field string // of the form
	Msg   string
	// Channels are the names to choose from where a file holds several rooms.
	Channels []string
}

func (e *askError) Error() string { return e.Msg }

// parse turns a question into that of the assessment. What was guessed in reading a record comes with it.
func (s *Server) parse(q question) (out assessment.Question, notes []string, err error) {
	if q.Temperature != "" {
		v, e := numberIn(q.Temperature, -20, 60, "°C")
		if e != nil {
			return out, nil, &askError{Field: "q:temperature", Msg: "the temperature " + e.Error()}
		}
		t := moisture.Celsius(v)
		out.Temperature = &t
	}
	switch q.Kind {
	case "range":
		out.Low, out.High, err = rangeOf(q)
	case "terms":
		out.Low, out.High, notes, err = termsOf(q)
	case "words":
		out.Record, err = building(q)
	case "record":
		if q.Record == "" {
			return out, nil, &askError{Field: "q:record", Msg: "drop a logger's file, or choose one that is here"}
		}
		var read *logger.Reading
		if out.Record, read, err = s.records.of(s.folder, q.Record, q.reading); err == nil {
			notes = append(notes, read.Guesses...)
			for _, a := range read.SetAside {
				notes = append(notes, fmt.Sprintf("%d rows set aside: %s", a.Count, a.Reason))
			}
		}
	}
	return out, notes, err
}

func rangeOf(q question) (low, high moisture.RH, err error) {
	l, err := numberIn(q.Low, 0, 100, "% RH")
	if err != nil {
		return 0, 0, &askError{Field: "q:low", Msg: "the lower humidity " + err.Error()}
	}
	h, err := numberIn(q.High, 0, 100, "% RH")
	if err != nil {
		return 0, 0, &askError{Field: "q:high", Msg: "the higher humidity " + err.Error()}
	}
	if l >= h {
		return 0, 0, &askError{Field: "q:low", Msg: fmt.Sprintf("the lower humidity must be the smaller one, got %g and %g", l, h)}
	}
	return moisture.Percent(l), moisture.Percent(h), nil
}

// numberIn reads a number with a point or a comma, between low and high.
func numberIn(s string, low, high float64, unit string) (float64, error) {
	var v float64
	t := strings.TrimSpace(strings.TrimSuffix(strings.TrimSpace(strings.Replace(s, ",", ".", 1)), "%"))
	if _, err := fmt.Sscanf(t+"\n", "%g\n", &v); err != nil || math.IsNaN(v) || v < low || v > high {
		return 0, fmt.Errorf("must lie between %g and %g %s, got %q", low, high, unit, s)
	}
	return v, nil
}

// termsOf takes the range of humidity out of terms; what they ask besides is told.
func termsOf(q question) (low, high moisture.RH, notes []string, err error) {
	t, err := terms.Read(q.Terms)
	if err != nil {
		return 0, 0, nil, &askError{Field: "q:terms", Msg: err.Error()}
	}
	found := false
	for _, c := range t.Clauses {
		if c.Of == record.Humidity && c.Window == 0 {
			low, high, found = moisture.RH(max(0, c.Low)), moisture.RH(min(1, c.High)), true
			continue
		}
		notes = append(notes, "“"+c.String()+"” is not part of this answer; a loan weighs it")
	}
	if !found || low >= high {
		return 0, 0, nil, &askError{Field: "q:terms", Msg: "the terms must hold a range of humidity such as 40..60, got " + fmt.Sprintf("%q", q.Terms)}
	}
	for _, c := range t.FromMemory() {
		notes = append(notes, "“"+c.String()+"” of "+t.Name+" is known from memory; compare it with the document")
	}
	return low, high, notes, nil
}

// building makes a year of a kind of building.
func building(q question) (*record.Record, error) {
	for _, k := range scenario.Kinds() {
		if string(k) == q.Words {
			r, err := scenario.Yearly(k, scenario.Clock{}, 1)
			if err == nil {
				r.Name = "a made year of: " + q.Words
			}
			return r, err
		}
	}
	return nil, &askError{Field: "q:words", Msg: "choose one of the kinds of buildings"}
}

// records keeps the record that was read last: reading one again takes long.
type records struct {
	mu   sync.Mutex
	key  string
	rec  *record.Record
	read *logger.Reading
}

func (c *records) of(f *folder, name string, how reading) (*record.Record, *logger.Reading, error) {
	o, err := how.options()
	if err != nil {
		return nil, nil, err
	}
	at := path.Join(recordsDir, path.Base(name))
	st, err := f.root.Stat(at)
	if err != nil {
		return nil, nil, &askError{Field: "q:record", Msg: fmt.Sprintf("cannot read %s: %v", name, disk.Cause(err))}
	}
	key := fmt.Sprintf("%s %d %s %v", name, st.Size(), st.ModTime(), how)
	c.mu.Lock()
	defer c.mu.Unlock()
	if c.key == key {
		return c.rec, c.read, nil
	}
	data, err := f.read(at, mostRecord)
	if err != nil {
		return nil, nil, &askError{Field: "q:record", Msg: err.Error()}
	}
	rec, read, err := logger.Read([]logger.File{{Name: path.Base(name), Data: data}}, o)
	var several *logger.ChannelError
	switch {
	case errors.As(err, &several):
		return nil, nil, &askError{Field: "q:channel", Msg: "this file holds several rooms; choose one", Channels: several.Names}
	case err != nil:
		return nil, nil, &askError{Field: unsettled(err.Error()), Msg: withoutFlags(err.Error())}
	}
	c.key, c.rec, c.read = key, rec, read
	return rec, read, nil
}

// options are those of the reader.
func (r reading) options() (o logger.Options, err error) {
	o = logger.Options{Channel: r.Channel, Dates: r.Dates, Unit: r.Unit, Decimal: r.Decimal}
	if r.Zone == "" {
		return o, nil
	}
	if o.Zone, err = time.LoadLocation(r.Zone); err != nil || strings.EqualFold(r.Zone, "local") {
		return o, &askError{Field: "q:zone", Msg: fmt.Sprintf("the zone must be one such as Europe/Rome or UTC, got %q", r.Zone)}
	}
	return o, nil
}

// unsettled finds the field that settles what a reader leaves open: its messages name the option of the command line.
func unsettled(msg string) string {
	for _, name := range []string{"dates", "zone", "unit", "decimal", "channel"} {
		if strings.Contains(msg, "--"+name) {
			return "q:" + name
		}
	}
	return "q:record"
}

// withoutFlags makes a message of the command line fit for a page, where the options are fields.
func withoutFlags(msg string) string {
	return strings.NewReplacer("--dates", "the order of the date below, such as", "--zone", "the time zone below, such as", "--unit", "the unit below,",
		"--decimal", "the decimal sign below,", "--channel NAME", "the room below", "--channel", "the room below").Replace(msg)
}
