package loan

import (
	"errors"
	"fmt"
	"math"
	"slices"
	"strings"
	"time"

	"crossgrain/moisture"
	"crossgrain/moisture/record/terms"
	"crossgrain/tables/problem"
)

// MaxFile is the largest loan file that is read, in bytes.
const MaxFile = 1 << 20

// typed is what problems call such a file.
var typed = problem.Kind{
	Name: "loan file", Most: MaxFile, Table: "[venue.first]",
	Empty: "`go doc ./panel/loan` lists what stands in one", Plain: "a loan file is plain text",
}

// Most that a loan file may hold, far above what loans do.
const (
	mostPanels = 200
	mostLegs   = 40
	mostYears  = 5
)

// reader takes a decoded file apart and collects what is wrong with it.
type reader struct {
	file     string
	lines    problem.Lines
	order    map[string][]string // names under a table, in the order of the file
	problems problem.List
}

// table is one table of the file; what is taken from it is struck out.
type table struct {
	r    *reader
	path string
	keys map[string]any
	took []string
}

// Read reads a loan file; name is used in problems only. All problems are found at once, sorted by
// line; with any problem the loan is nil.
func Read(name string, src []byte) (*Loan, problem.List) {
	doc := map[string]any{}
	meta, lines, problems := typed.Decode(name, src, &doc)
	if len(problems) > 0 {
		return nil, problems
	}
	r := &reader{file: name, lines: lines, order: map[string][]string{}}
	for _, k := range meta.Keys() {
		if len(k) == 2 {
			r.order[k[0]] = append(r.order[k[0]], k[1])
		}
	}
	l := r.loan(doc)
	if len(r.problems) > 0 {
		r.problems.Sort()
		return nil, r.problems
	}
	return l, nil
}

func (r *reader) add(part, msg, hint string) {
	r.problems.Add(problem.Problem{File: r.file, Line: r.lines.Of(strings.Split(part, ".")...), Part: part, Msg: msg, Hint: hint})
}

// loan reads all tables.
func (r *reader) loan(doc map[string]any) *Loan {
	l := &Loan{Chance: 5}
	known := []string{"format", "loan", "panel", "home", "case", "venue", "leg", "contact"}
	if v, ok := doc["format"]; ok && v != int64(1) {
		r.add("format", fmt.Sprintf("must be 1, got %v", v), "this program reads format 1")
	}
	for name := range doc {
		if !slices.Contains(known, name) {
			r.add(name, "unknown table", hint(name, known))
		}
	}
	t := r.table(doc, "loan")
	t.head(l)
	for _, t := range r.named(doc, "panel") {
		l.Panels = append(l.Panels, t.panel())
	}
	if t := r.table(doc, "home"); t != nil {
		l.Home = t.place()
		t.done()
	}
	if t := r.table(doc, "case"); t != nil {
		l.Case = t.enclosure()
	}
	for _, t := range r.named(doc, "venue") {
		l.Venues = append(l.Venues, t.venue())
	}
	for _, t := range r.named(doc, "leg") {
		l.Legs = append(l.Legs, t.leg(l.Case != nil && l.Case.Kind == SealedFrame))
	}
	for _, t := range r.named(doc, "contact") {
		c := Contact{Name: t.text("name"), Phone: t.text("phone"), Zone: t.text("zone"), Language: t.text("language")}
		t.done()
		l.Contacts = append(l.Contacts, c)
	}
	r.agree(l)
	return l
}

// table returns a table that stands once, nil when it is not in the file.
func (r *reader) table(doc map[string]any, name string) *table {
	raw, ok := doc[name]
	if !ok {
		return nil
	}
	m, ok := raw.(map[string]any)
	if !ok {
		r.add(name, "must be a table", "write ["+name+"] on a line of its own")
		return nil
	}
	return &table{r: r, path: name, keys: m}
}

// named returns the tables [name.X] in the order of the file.
func (r *reader) named(doc map[string]any, name string) (out []*table) {
	all := r.table(doc, name)
	if all == nil {
		return nil
	}
	seen := map[string]bool{}
	for _, n := range r.order[name] {
		if seen[n] {
			continue
		}
		seen[n] = true
		m, ok := all.keys[n].(map[string]any)
		if !ok {
			r.add(name+"."+n, "unknown key", "tables of "+name+" have a name, as in ["+name+".first]")
			continue
		}
		out = append(out, &table{r: r, path: name + "." + n, keys: m})
	}
	return out
}

func (t *table) name() string { return t.path[strings.Index(t.path, ".")+1:] }

func (t *table) add(key, msg, hint string) { t.r.add(t.path+"."+key, msg, hint) }

// take returns a key and strikes it out.
func (t *table) take(key string) (any, bool) {
	t.took = append(t.took, key)
	v, ok := t.keys[key]
	return v, ok
}

// done reports the keys that nothing took.
func (t *table) done() {
	for k := range t.keys {
		if !slices.Contains(t.took, k) {
			t.add(k, "unknown key", hint(k, t.took))
		}
	}
}

func hint(name string, known []string) string {
	if n := problem.Nearest(name, known); n != "" {
		return "did you mean " + n + "?"
	}
	return "known here: " + strings.Join(known, ", ")
}

func (t *table) text(key string) string {
	v, ok := t.take(key)
	if !ok {
		return ""
	}
	s, ok := v.(string)
	if d, isDate := v.(time.Time); isDate {
		return d.Format(time.DateOnly)
	}
	if !ok || strings.TrimSpace(s) == "" {
		t.add(key, fmt.Sprintf("must be words in quotes, got %v", v), "")
	}
	return strings.Join(strings.Fields(s), " ")
}

func (t *table) needed(key, hint string) string {
	s := t.text(key)
	if _, ok := t.keys[key]; !ok {
		t.r.add(t.path, "the key "+key+" is missing", hint)
	}
	return s
}

func (t *table) word(key string, words ...string) string {
	s := t.text(key)
	if s != "" && !slices.Contains(words, s) {
		t.add(key, fmt.Sprintf("must be %s, got %q", strings.Join(words, " or "), s), hint(s, words))
	}
	return s
}

// number reads a number between low and high; given is false where the key is not there.
func (t *table) number(key string, low, high float64, unit string) (v float64, given bool) {
	raw, ok := t.take(key)
	if !ok {
		return 0, false
	}
	switch n := raw.(type) {
	case int64:
		v = float64(n)
	case float64:
		v = n
	default:
		v = math.NaN()
	}
	if !(v >= low && v <= high) {
		t.add(key, strings.TrimSpace(fmt.Sprintf("must lie between %g and %g %s", low, high, unit))+fmt.Sprintf(", got %v", raw), "")
		return low, true
	}
	return v, true
}

func (t *table) yes(key string) (v, given bool) {
	raw, given := t.take(key)
	v, ok := raw.(bool)
	if given && !ok {
		t.add(key, fmt.Sprintf("must be true or false, got %v", raw), "without quotes")
	}
	return v, given
}

func (t *table) list(key string) (out []string) {
	raw, ok := t.take(key)
	if !ok {
		return nil
	}
	items, ok := raw.([]any)
	for _, x := range items {
		s, is := x.(string)
		ok = ok && is
		out = append(out, s)
	}
	if !ok {
		t.add(key, fmt.Sprintf("must be a list of words, got %v", raw), `such as ["split.top"]`)
	}
	return out
}

// day reads a date; of a month alone its first day, or with last its last.
func (t *table) day(key string, last bool) time.Time {
	raw, ok := t.take(key)
	if !ok {
		return time.Time{}
	}
	s := fmt.Sprint(raw)
	if d, ok := raw.(time.Time); ok {
		s = d.Format(time.DateOnly)
	}
	d, err := time.Parse(time.DateOnly, s)
	if err != nil {
		if d, err = time.Parse("2006-01", s); err == nil && last {
			d = d.AddDate(0, 1, -1)
		}
	}
	if err != nil || d.Year() < 1900 || d.Year() > 2200 {
		t.add(key, fmt.Sprintf("must be a date between 1900 and 2200, got %q", s), `such as "2026-10-05", or "2026-10" for a whole month`)
		return time.Time{}
	}
	return d
}

// place reads record and terms.
func (t *table) place() Place {
	p := Place{Record: t.text("record"), Text: t.text("terms")}
	p.Terms = t.terms("terms", p.Text)
	return p
}

func (t *table) terms(key, text string) terms.Terms {
	if text == "" {
		return terms.Terms{}
	}
	out, err := terms.Read(text)
	var list problem.List
	switch {
	case errors.As(err, &list):
		for _, p := range list {
			t.add(key, p.Part+": "+p.Msg, p.Hint)
		}
	case err != nil:
		t.add(key, err.Error(), "")
	case len(out.FromMemory()) > 0:
		t.add(key, fmt.Sprintf("the figures of %s are known from memory only", out.Name), "type the figures of the agreement, such as 40..60, 10/24h")
	case !hasRange(out):
		t.add(key, "must hold a range of humidity with two ends", "such as 40..60, 10/24h")
	}
	return out
}

func hasRange(t terms.Terms) bool {
	lo, hi := humidityOf(t)
	return lo < hi
}

func (t *table) panel() Panel {
	p := Panel{
		Name: t.name(), File: t.needed("file", "the panel file, as `crossgrain start` writes one"),
		Answered: t.list("answered"), AnsweredBy: t.text("answered_by"), AnsweredOn: t.text("answered_on"),
		InspectedBy: t.text("inspected_by"), Inspected: t.text("inspected_on"), Frame: t.text("frame"), Room: t.text("room"),
	}
	if len(p.Answered) > 0 && (p.AnsweredBy == "" || p.AnsweredOn == "") {
		t.add("answered", "must say by whom and when", "add answered_by and answered_on")
	}
	t.done()
	return p
}

func (t *table) head(l *Loan) {
	if t == nil {
		if len(l.Panels) == 0 {
			return // told by agree
		}
		return
	}
	l.Number, l.Title = t.needed("number", `such as "2026-041"`), t.text("title")
	l.Lender, l.Borrower = t.text("lender"), t.text("borrower")
	if v, ok := t.number("issue", 1, 99, ""); ok {
		l.Issue = int(v)
		if float64(l.Issue) != v {
			t.add("issue", fmt.Sprintf("must be a whole number, got %g", v), "")
		}
	}
	l.Date = t.day("date", false)
	l.OneRoom, _ = t.yes("one_room")
	if v, ok := t.number("of_100", 1, 10, "panels of 100"); ok {
		if l.Chance = v; v != 1 && v != 5 && v != 10 {
			t.add("of_100", fmt.Sprintf("must be 1, 5 or 10, got %g", v), "")
		}
	}
	l.Offer = t.text("offer")
	l.Offered = t.terms("offer", l.Offer)
	t.done()
}

func (t *table) enclosure() *Case {
	c := &Case{Kind: t.word("kind", Travelling, SealedFrame)}
	if c.Kind == "" {
		c.Kind = Travelling
	}
	var ok bool
	if c.Litres, ok = t.number("volume_l", 1, 1e5, "L"); !ok {
		t.r.add(t.path, "the key volume_l is missing", "the air inside, in litres")
	}
	if c.Changes, ok = t.number("air_changes_per_day", 0, 1000, "a day"); !ok {
		c.Changes, c.Assumed = changesAssumed, true
	}
	c.BufferKg, _ = t.number("buffer_kg", 0, 1000, "kg")
	if v, ok := t.number("conditioned_rh_pct", 20, 80, "% RH"); ok {
		c.Conditioned = moisture.Percent(v)
	}
	t.done()
	return c
}

func (t *table) venue() Venue {
	v := Venue{Name: t.name(), Title: t.text("name"), Room: t.text("room"), Measured: t.text("measured"), Place: t.place()}
	if v.Title == "" {
		v.Title = v.Name
	}
	t.done()
	return v
}

func (t *table) leg(sealed bool) Leg {
	g := Leg{
		Name: t.name(), Kind: t.word("kind", Transit, Store, OnShow), Venue: t.text("venue"), Place: t.place(),
		From: t.day("from", false), To: t.day("to", true),
	}
	if g.Kind == "" {
		t.r.add(t.path, "the key kind is missing", "transit, store or on show")
	}
	in, given := t.yes("in_case")
	g.InCase = in || !given && (g.Kind == Transit || sealed)
	if g.From.IsZero() || g.To.IsZero() {
		t.r.add(t.path, "the keys from and to are needed", `dates such as "2026-10-05", or "2026-10" for a whole month`)
	} else {
		g.To = g.To.AddDate(0, 0, 1)
		if !g.To.After(g.From) {
			t.add("to", "must not lie before from", "")
		}
	}
	t.done()
	return g
}

// agree looks at what must fit together.
func (r *reader) agree(l *Loan) {
	if l.Number == "" && r.lines.Of("loan") == 0 {
		r.add("loan", "the table [loan] is missing", "it holds at least number")
	}
	if n := len(l.Panels); n == 0 || n > mostPanels {
		r.add("panel", fmt.Sprintf("must name between 1 and %d panels, got %d", mostPanels, n), `such as [panel.first] with file = "panel.toml"`)
	}
	if n := len(l.Legs); n == 0 || n > mostLegs {
		r.add("leg", fmt.Sprintf("must name between 1 and %d legs, got %d", mostLegs, n), "such as [leg.out] with kind, from and to")
	}
	for _, p := range l.Panels {
		if p.Room != "" && l.OneRoom {
			r.add("panel."+p.Name+".room", "one_room says that all panels hang in one room", "leave out one_room where panels say in which room they hang")
		}
	}
	l.OneRoom = l.OneRoom || len(l.Panels) == 1
	for i, g := range l.Legs {
		at := "leg." + g.Name
		if g.Venue != "" && l.venue(g.Venue) == nil {
			var names []string
			for _, v := range l.Venues {
				names = append(names, v.Name)
			}
			r.add(at+".venue", fmt.Sprintf("no venue %q", g.Venue), hint(g.Venue, names))
		}
		if g.InCase && l.Case == nil && g.Kind != Transit {
			r.add(at+".in_case", "there is no case", "add the table [case] with volume_l")
		}
		if i > 0 && !g.From.IsZero() && !l.Legs[i-1].To.IsZero() {
			switch gap := g.From.Sub(l.Legs[i-1].To).Hours() / 24; {
			case gap > 0:
				r.add(at+".from", fmt.Sprintf("%g days lie between this leg and the one before", gap), "add a leg of kind store for them")
			case gap < -1 || gap == -1 && !l.Legs[i-1].From.Before(g.From):
				r.add(at+".from", "begins before the leg before it has ended", "legs follow one another; they may share one day")
			case gap == -1:
				l.Legs[i-1].To = g.From // the day of arrival
			}
		}
	}
	if n := len(l.Legs); n > 0 && l.Legs[n-1].To.Sub(l.Legs[0].From).Hours() > mostYears*366*24 {
		r.add("leg", fmt.Sprintf("a loan must not last longer than %d years", mostYears), "")
	}
}
