package survey

import (
	"fmt"
	"slices"
	"strings"

	"github.com/BurntSushi/toml"

	"crossgrain/moisture"
	"crossgrain/moisture/record"
	"crossgrain/tables/problem"
)

// MaxFile is the largest list of stores that is read, in bytes.
const MaxFile = 4 << 20

// typed is what problems call such a list.
var typed = problem.Kind{
	Name: "list of stores", Most: MaxFile, Table: "[store.north]",
	Empty: "`crossgrain survey --help` shows one", Plain: "a list of stores is plain text",
}

// mostStores is far above what collections have.
const mostStores = 50

// Stores is the list of stores as described.
type Stores struct {
	List  []Store
	stand map[string]stand // by panel
	names []string         // the panels of the list in its order
	stays map[string]bool
	group map[string]string // what a panel is kept together with
}

// Store is one store.
type Store struct {
	Name, Title string
	File        string         // of its record; "" where it has a band
	Record      *record.Record // handed over by the caller
	Low, High   moisture.RH    // of its band
	Places      int            // -1: as many as stand there
}

// stand is where a panel stands.
type stand struct {
	store, order int
	rack         string
}

// list is the file as written.
type list struct {
	Format int64
	Store  map[string]struct {
		Name, Record string
		Low          *float64 `toml:"low_rh_pct"`
		High         *float64 `toml:"high_rh_pct"`
		Places       *int64
		Panels       []string
	}
	Rack map[string]struct {
		Store  string
		Panels []string
	}
	Stay     struct{ Panels []string }
	Together map[string]struct{ Panels []string }
}

// known are the keys of each table, for hints.
var known = map[string][]string{
	"":         {"format", "store", "rack", "stay", "together"},
	"store":    {"name", "record", "low_rh_pct", "high_rh_pct", "places", "panels"},
	"rack":     {"store", "panels"},
	"stay":     {"panels"},
	"together": {"panels"},
}

// reader collects what is wrong with a list.
type reader struct {
	file     string
	lines    problem.Lines
	problems problem.List
	out      *Stores
}

// Read reads a list of stores; name is used in problems only. All problems are found at once, sorted by line;
// with any problem the list is nil. Records are not read: the caller sets them.
func Read(name string, src []byte) (*Stores, problem.List) {
	var l list
	meta, lines, problems := typed.Decode(name, src, &l)
	if len(problems) > 0 {
		return nil, problems
	}
	r := &reader{file: name, lines: lines, out: &Stores{stand: map[string]stand{}, stays: map[string]bool{}, group: map[string]string{}}}
	if l.Format != 1 && meta.IsDefined("format") {
		r.add("", "format", fmt.Sprintf("must be 1, got %d", l.Format), "this program reads format 1")
	}
	r.unknown(meta)
	names := func(table string) (out []string) {
		for _, k := range meta.Keys() {
			if len(k) >= 2 && k[0] == table && !slices.Contains(out, k[1]) {
				out = append(out, k[1])
			}
		}
		return out
	}
	r.stores(&l, names("store"))
	r.racks(&l, names("rack"))
	r.groups(&l, names("together"))
	for _, p := range l.Stay.Panels {
		r.placed("stay", p)
		r.out.stays[p] = true
	}
	if len(r.problems) > 0 {
		r.problems.Sort()
		return nil, r.problems
	}
	return r.out, nil
}

func (r *reader) add(table, key, msg, hint string) {
	part := strings.Trim(table+"."+key, ".")
	r.problems.Add(problem.Problem{File: r.file, Line: r.lines.Of(strings.Split(part, ".")...), Part: part, Msg: msg, Hint: hint})
}

// unknown tells the keys that nothing reads.
func (r *reader) unknown(meta toml.MetaData) {
	for _, k := range meta.Undecoded() {
		table, key := strings.Join(k[:len(k)-1], "."), k[len(k)-1]
		names := known[""]
		if len(k) > 1 {
			if names = known[k[0]]; names == nil {
				continue // its table is told
			}
		}
		hint := "known here: " + strings.Join(names, ", ")
		if n := problem.Nearest(key, names); n != "" {
			hint = "did you mean " + n + "?"
		}
		r.add(table, key, "unknown key", hint)
	}
}

// stores reads the stores, each with a record or a band.
func (r *reader) stores(l *list, names []string) {
	for _, n := range names {
		in := l.Store[n]
		t := "store." + n
		s := Store{Name: n, Title: strings.Join(strings.Fields(in.Name), " "), File: in.Record, Places: -1}
		if s.Title == "" {
			s.Title = n
		}
		band := in.Low != nil || in.High != nil
		switch {
		case band && s.File != "":
			r.add(t, "record", "stands beside a band; which of them is the climate?", "give record, or low_rh_pct and high_rh_pct")
		case !band && s.File == "":
			r.add(t, "", "has no climate", "give record, or low_rh_pct and high_rh_pct")
		case band && (in.Low == nil || in.High == nil):
			r.add(t, "", "has a band with one end", "give low_rh_pct and high_rh_pct")
		case band:
			if !(*in.Low >= 0 && *in.High <= 100 && *in.Low < *in.High) {
				r.add(t, "low_rh_pct", fmt.Sprintf("the band must run from a lower to a higher humidity within 0 to 100 %% RH, got %g to %g", *in.Low, *in.High), "")
			}
			s.Low, s.High = moisture.Percent(*in.Low), moisture.Percent(*in.High)
		}
		if in.Places != nil {
			if s.Places = int(*in.Places); *in.Places < 0 || *in.Places > 100000 {
				r.add(t, "places", fmt.Sprintf("must lie between 0 and 100000 panels, got %d", *in.Places), "")
			}
		}
		r.out.List = append(r.out.List, s)
	}
	if n := len(names); n == 0 || n > mostStores {
		r.add("", "", fmt.Sprintf("must hold 1 to %d stores, got %d", mostStores, n), "as in [store.north]")
	}
}

// racks reads which panels stand where, in racks first and then those that stand in none.
func (r *reader) racks(l *list, names []string) {
	for _, n := range names {
		in := l.Rack[n]
		t := "rack." + n
		at := slices.IndexFunc(r.out.List, func(s Store) bool { return s.Name == in.Store })
		if at < 0 {
			var stores []string
			for _, s := range r.out.List {
				stores = append(stores, s.Name)
			}
			r.add(t, "store", fmt.Sprintf("must name a store, got %q", in.Store), "stores: "+strings.Join(stores, ", "))
			continue
		}
		r.standing(t, in.Panels, at, n)
	}
	for i, s := range r.out.List {
		r.standing("store."+s.Name, l.Store[s.Name].Panels, i, "")
	}
}

func (r *reader) standing(table string, panels []string, store int, rack string) {
	for _, p := range panels {
		if _, twice := r.out.stand[p]; twice {
			r.add(table, "panels", fmt.Sprintf("panel %s stands twice in this list", p), "a panel stands in one place")
			continue
		}
		r.out.stand[p] = stand{store: store, order: len(r.out.names), rack: rack}
		r.out.names = append(r.out.names, p)
	}
}

func (r *reader) groups(l *list, names []string) {
	for _, n := range names {
		for _, p := range l.Together[n].Panels {
			r.placed("together."+n, p)
			if other, twice := r.out.group[p]; twice {
				r.add("together."+n, "panels", fmt.Sprintf("panel %s is kept together with %s too", p, other), "put all of them into one group")
			}
			r.out.group[p] = n
		}
	}
}

// placed tells a panel of a wish that stands nowhere.
func (r *reader) placed(table, p string) {
	if _, ok := r.out.stand[p]; !ok {
		r.add(table, "panels", fmt.Sprintf("panel %s stands in no store of this list", p), "name it under a rack or a store first")
	}
}
