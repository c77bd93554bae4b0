package survey

import (
	"context"
	"fmt"
	"math"
	"runtime"
	"slices"
	"strings"
	"sync"

	"crossgrain/moisture"
	"crossgrain/panel"
	"crossgrain/panel/assessment"
	"crossgrain/panel/response"
)

// Described is a panel as it was handed over.
type Described struct {
	File, Name string       // Name is that of the file without its ending
	Panel      *panel.Panel // nil where Failed says why it could not be read
	Failed     string       // in words, of reading it or of working it out
}

// Group says when a panel is to be looked at.
type Group string

// The groups, closed names.
const (
	First  Group = "look_first"
	Next   Group = "next"
	Wait   Group = "can_wait"
	Untold Group = "cannot_tell"
)

// Groups are all groups in the order of reports.
var Groups = [...]Group{First, Next, Wait, Untold}

// Of 100 such panels, above how many reaching a limit a panel is looked at first, and next (working choices).
const (
	manyOf100 = 20
	someOf100 = 5
)

// Why is the reason for a group, closed names.
type Why string

// The reasons. ByCount stands for all groups but Untold.
const (
	ByCount   Why = "count"
	Failed    Why = "failed"     // it could not be read or worked out
	Twice     Why = "twice"      // its number stands in more than one file
	Gated     Why = "gate"       // a finding stands before the figures
	Depends   Why = "depends"    // an unknown on which it hangs whether figures may be given
	Apart     Why = "apart"      // an unknown whose two answers differ more than tenfold
	NoStore   Why = "no_store"   // where it stands is not told
	NoClimate Why = "no_climate" // its store's record is too short for it
	Unlooked  Why = "unlooked"   // nobody has told whether anything crosses the grain at its back
)

// Row is one panel.
type Row struct {
	Described
	Number    string // accession number, else the name of the file
	Title     string
	Facts, Of int // first questions that its file answers
	Group     Group
	Why       Why
	Also      []string
	Gates     []panel.Gate
	Fork      *panel.Fork
	Store     int // where it stands, -1: not told
	Rack      string
	Cells     []Cell // one for each store; none where nothing was worked out
	UsedTo    moisture.RH
	Stays     bool
	Together  string
	Find      []assessment.Narrowing
	order     int
	maps      []assessment.LimitMap
	unfigured bool // one way of the fork allows no figures
	// Worked and Taken count the assessments that were worked out and those taken from what was kept.
	Worked, Taken int
	unkept        error
	wished        bool // what it is kept together with stands in its own file
}

// Known says that at least half of the first questions are answered: what is told rests on the panel rather than on what is assumed.
func (r *Row) Known() bool { return 2*r.Facts >= r.Of && r.Of > 0 }

// Unlooked lists what nobody has told of the panel and what every answer hangs on.
func (r *Row) Unlooked() []string {
	if r.Panel == nil {
		return nil
	}
	return r.Panel.Unlooked()
}

// Here is the cell of the store where it stands; nil where that or its climate is not told.
func (r *Row) Here() *Cell {
	if r.Store < 0 || r.Store >= len(r.Cells) || !r.Cells[r.Store].Told {
		return nil
	}
	return &r.Cells[r.Store]
}

// Cell is one panel in one store.
type Cell struct {
	Told      bool
	Untold    string      // why not
	Low, High moisture.RH // that its wood comes into balance with
	Few, Many float64     // of 100 such panels, over the ways of an unknown
	Mode      response.Mode
	Part      string // what most reach first, or what works hardest; "" nothing
}

// Twin is a number that stands in several files.
type Twin struct {
	Number string
	Files  []string
}

// Result is the answer.
type Result struct {
	Stores    *Stores
	Rows      []Row // in the order of racks, then of those without a place
	Twins     []Twin
	Missing   []string // in the list of stores, without a file
	Parted    []string // groups of the panels' own files that stand in more than one store
	Placement Placement
	Curve     Curve
	Day       Day
	Cases     int
	// Worked and Taken count the assessments of all panels; Unkept is why some could not be kept, nil where all were.
	Worked, Taken int
	Unkept        error
}

// Options are how the panels are worked out.
type Options struct {
	Samples  int // realisations of each panel, at least assessment.Fewest
	Seed     uint64
	Keeper   Keeper             // nil: nothing is kept
	Version  string             // of the program, for what is kept
	Progress func(done, of int) // told after each panel, from one goroutine at a time; nil: nobody asks
}

// Survey works all panels out. It returns an error when ctx ends or the options are bad, never for a panel.
func (s *Stores) Survey(ctx context.Context, panels []Described, o Options) (*Result, error) {
	if o.Samples < assessment.Fewest {
		return nil, fmt.Errorf("at least %d realisations are needed, got %d", assessment.Fewest, o.Samples)
	}
	r := &Result{Stores: s, Cases: o.Samples}
	r.rows(panels)
	if err := r.each(ctx, o); err != nil {
		return nil, err
	}
	for i := range r.Rows {
		row := &r.Rows[i]
		row.judge()
		r.Worked, r.Taken = r.Worked+row.Worked, r.Taken+row.Taken
		if r.Unkept == nil {
			r.Unkept = row.unkept
		}
	}
	r.place()
	r.plan()
	r.curve()
	r.day()
	return r, nil
}

// rows makes the rows, finds where they stand and which numbers stand twice.
func (r *Result) rows(panels []Described) {
	files := map[string][]string{}
	for _, d := range panels {
		row := Row{Described: d, Number: d.Name, Store: -1, order: math.MaxInt}
		if d.Panel != nil {
			if n := d.Panel.Accession(); n != "" {
				row.Number = n
			}
			row.Title = d.Panel.Title()
			row.Facts, row.Of = d.Panel.Facts()
			row.Gates = d.Panel.Gates()
		}
		key := row.Number
		if _, ok := r.Stores.stand[key]; !ok {
			key = d.Name
		}
		if at, ok := r.Stores.stand[key]; ok {
			row.Store, row.Rack, row.order = at.store, at.rack, at.order
			row.Stays, row.Together = r.Stores.stays[key], r.Stores.group[key]
			files[key] = append(files[key], d.File)
		}
		if key != row.Number || row.Store < 0 {
			files[row.Number] = append(files[row.Number], d.File)
		}
		r.Stores.kept(&row)
		r.Rows = append(r.Rows, row)
	}
	for i := range r.Rows {
		row := &r.Rows[i]
		if also := files[row.Number]; len(also) > 1 {
			row.Also = also
			if !slices.ContainsFunc(r.Twins, func(t Twin) bool { return t.Number == row.Number }) {
				r.Twins = append(r.Twins, Twin{row.Number, also})
			}
		}
	}
	r.apart()
	for _, n := range r.Stores.names {
		if len(files[n]) == 0 {
			r.Missing = append(r.Missing, n)
		}
	}
	slices.SortStableFunc(r.Rows, func(a, b Row) int {
		switch {
		case a.order < b.order:
			return -1
		case a.order > b.order:
			return 1
		}
		return 0
	})
}

// kept takes from the panel's own file what the list of stores does not tell: its store by name, its place, what it is kept together
// with, and whether it may be moved.
func (s *Stores) kept(row *Row) {
	if row.Panel == nil {
		return
	}
	name := strings.TrimSpace(row.Panel.Text("panel.store"))
	for i, st := range s.List {
		if row.Store < 0 && name != "" && (strings.EqualFold(name, st.Title) || strings.EqualFold(name, st.Name)) {
			row.Store, row.Rack = i, row.Panel.Text("panel.place")
		}
	}
	row.Stays = row.Stays || row.Panel.Text("panel.must_stay") == "yes"
	if row.Together == "" {
		row.Together, row.wished = row.Panel.Text("panel.group"), true
	}
}

// apart lets go of the groups of the panels' own files that do not stand in one store as it is: that is told, and binds no placement.
func (r *Result) apart() {
	store := map[string]int{}
	for i := range r.Rows {
		row := &r.Rows[i]
		if row.Together == "" || !row.wished || row.Store < 0 {
			continue
		}
		if at, ok := store[row.Together]; ok && at != row.Store && !slices.Contains(r.Parted, row.Together) {
			r.Parted = append(r.Parted, row.Together)
		}
		store[row.Together] = row.Store
	}
	for i := range r.Rows {
		if row := &r.Rows[i]; row.wished && slices.Contains(r.Parted, row.Together) {
			row.Together = ""
		}
	}
}

// each works the rows out on all cores; every row is written by one goroutine alone.
func (r *Result) each(ctx context.Context, o Options) error {
	next, done := make(chan int), 0
	var wg sync.WaitGroup
	var telling sync.Mutex
	for range min(runtime.GOMAXPROCS(0), len(r.Rows)) {
		wg.Go(func() {
			for i := range next {
				r.Rows[i].work(ctx, r.Stores, o)
				telling.Lock()
				if done++; o.Progress != nil {
					o.Progress(done, len(r.Rows))
				}
				telling.Unlock()
			}
		})
	}
	for i := 0; i < len(r.Rows) && ctx.Err() == nil; i++ {
		next <- i
	}
	close(next)
	wg.Wait()
	return ctx.Err()
}

// judge puts the row into its group.
func (r *Row) judge() {
	r.Group = Untold
	here := r.Here()
	gated := slices.ContainsFunc(r.Gates, func(g panel.Gate) bool { return g.NoFigures })
	switch {
	case r.Failed != "":
		r.Why = Failed
	case len(r.Also) > 1:
		r.Why = Twice
	case gated:
		r.Why = Gated
	case r.Store < 0:
		r.Why = NoStore
	case r.unfigured:
		r.Why = Depends
	case here == nil:
		r.Why = NoClimate
	case apart(here.Few, here.Many):
		r.Why = Apart
	case here.Many <= someOf100 && slices.Contains(r.Unlooked(), "panel.back"):
		r.Why = Unlooked
	default:
		r.Why = ByCount
		switch {
		case here.Many > manyOf100:
			r.Group = First
		case here.Many > someOf100:
			r.Group = Next
		default:
			r.Group = Wait
		}
	}
}

// apart says that two counts differ by more than tenfold, fewer than 1 of 100 taken as 1.
func apart(few, many float64) bool { return many > 10*max(few, 1) }
