package loan

import (
	"time"

	"crossgrain/moisture"
	"crossgrain/moisture/record/terms"
)

// Loan is a loan as described. Dates are civil, at midnight, in UTC.
type Loan struct {
	Number, Title    string
	Issue            int // 1, 2, ...: a later one replaces the one before; 0: the file leaves it to its papers
	Date             time.Time
	Lender, Borrower string
	OneRoom          bool    // the panels hang in one room
	Chance           float64 // of 100 panels, how many may reach a limit: 1, 5 or 10
	Offer            string  // terms that the borrower can hold, as typed; "" none
	Offered          terms.Terms
	Panels           []Panel
	Home             Place
	Case             *Case
	Venues           []Venue
	Legs             []Leg
	Contacts         []Contact
}

// Panel is one panel of a loan.
type Panel struct {
	Name, File string
	// Answered are parts such as split.top that a conservator has looked at for this loan and does
	// not hold against it.
	Answered               []string
	AnsweredBy, AnsweredOn string
	InspectedBy, Inspected string
	Frame                  string // words: how it hangs, backing
	Room                   string // words: panels with the same ones hang together; "" alone, or all in one room
}

// Place is a climate: a record, terms, or neither.
type Place struct {
	Record string // file
	Text   string // terms as typed
	Terms  terms.Terms
}

func (p Place) given() bool { return p.Record != "" || p.Text != "" }

// Venue is where panels are shown.
type Venue struct {
	Name, Title, Room string
	Place
	Measured string // where the logger stands
}

// Leg is a stretch of a loan.
type Leg struct {
	Name, Kind string
	From, To   time.Time // To is the day after the last
	Venue      string    // name; "" none
	Place                // its own, else its venue's
	InCase     bool
}

// Kinds of legs.
const (
	Transit = "transit"
	Store   = "store"
	OnShow  = "on show"
)

// Case is what panels travel in, or a sealed frame that they stay in.
type Case struct {
	Kind        string // case, sealed frame
	Litres      float64
	Changes     float64 // of its air a day
	BufferKg    float64
	Conditioned moisture.RH // 0: to what each panel is used to
	Assumed     bool        // Changes was not given
}

// The kinds of cases.
const (
	Travelling  = "case"
	SealedFrame = "sealed frame"
)

// Contact is somebody to call.
type Contact struct{ Name, Phone, Zone, Language string }

// Files lists the panel files and the record files, each once, in the order of the loan.
func (l *Loan) Files() (panels, records []string) {
	add := func(list *[]string, f string) {
		for _, have := range *list {
			if have == f {
				return
			}
		}
		if f != "" {
			*list = append(*list, f)
		}
	}
	for _, p := range l.Panels {
		add(&panels, p.File)
	}
	add(&records, l.Home.Record)
	for _, v := range l.Venues {
		add(&records, v.Record)
	}
	for _, g := range l.Legs {
		add(&records, g.Record)
	}
	return panels, records
}

// place is the climate of a leg.
func (l *Loan) place(g Leg) Place {
	if g.given() {
		return g.Place
	}
	if v := l.venue(g.Venue); v != nil {
		return v.Place
	}
	return Place{}
}

func (l *Loan) venue(name string) *Venue {
	for i := range l.Venues {
		if l.Venues[i].Name == name {
			return &l.Venues[i]
		}
	}
	return nil
}
