package survey

import "math"

// Placement is where the panels would stand best in the room there is.
type Placement struct {
	Why      Unplaced
	Who      string // the group that cannot be kept together
	Moves    []Move
	Before   float64 // expected panels at a limit, of those that can be told
	After    float64
	Stores   []Room
	Told     int // panels that took part
	Standing int // panels that keep their place because nothing can be told about them
}

// Unplaced says why there is no placement; "" when there is one.
type Unplaced string

// The reasons.
const (
	NoRoom     Unplaced = "no_room"  // the panels do not fit into the places
	Parted     Unplaced = "parted"   // panels kept together that must stay in different stores
	TooMany    Unplaced = "too_many" // more groups than can be tried
	NothingSet Unplaced = "nothing"  // nothing can be told of any panel in a store
)

// Move is one panel that would stand better elsewhere.
type Move struct {
	Row      int
	From, To int
	Was, Is  float64 // of 100 such panels
	Plan     Plan
}

// Room is what one store holds, and what its last place is worth.
type Room struct {
	Places, Before, After int
	// Last is by how many expected panels the whole would be worse with one place fewer, Next better with one more; NaN where
	// with one fewer the panels do not fit.
	Last, Next float64
}

// moveCost is what a move must gain at least, of 100: moving has its own cost (working choice).
const moveCost = 1

// mostTrials is how many ways to put groups are tried at most.
const mostTrials = 20000

// unit is what is placed: the rows of a group, or one row.
type unit struct {
	rows []int
	cost []float64 // by store
}

// place finds the placement.
func (r *Result) place() {
	n := len(r.Stores.List)
	p := &r.Placement
	room := make([]int, n)
	p.Stores = make([]Room, n)
	var units []unit
	group := map[string]int{}
	for i := range r.Rows {
		row := &r.Rows[i]
		if row.Store < 0 || row.Why == Twice && r.seen(i) {
			continue
		}
		p.Stores[row.Store].Before++
		cost := row.costs(n)
		if row.Why == ByCount {
			p.Told++
			p.Before += row.Here().Many / 100
		} else {
			p.Standing++
		}
		if k, ok := group[row.Together]; ok && row.Together != "" {
			units[k].rows = append(units[k].rows, i)
			for j := range cost {
				units[k].cost[j] += cost[j]
			}
			continue
		}
		group[row.Together] = len(units)
		units = append(units, unit{[]int{i}, cost})
	}
	for j := range room {
		s := &p.Stores[j]
		if s.Places = r.Stores.List[j].Places; s.Places < 0 {
			s.Places = s.Before
		}
		room[j], s.Last, s.Next = s.Places, math.NaN(), math.NaN()
	}
	if p.Told == 0 {
		p.Why = NothingSet
		return
	}
	at, total, why := put(units, room)
	if p.Why = why; why != "" {
		p.Who = r.parted(units)
		return
	}
	p.After = r.settle(units, at)
	for j := range room {
		room[j]++
		if _, t, why := put(units, room); why == "" {
			p.Stores[j].Next = (total - t) / 100
		}
		room[j] -= 2
		if _, t, why := put(units, room); room[j] >= 0 && why == "" {
			p.Stores[j].Last = (t - total) / 100
		}
		room[j]++
	}
}

// seen says that a row's number has come before: one panel stands in one place, however many files it has.
func (r *Result) seen(i int) bool {
	for k := range i {
		if r.Rows[k].Number == r.Rows[i].Number {
			return true
		}
	}
	return false
}

// costs are the counts in each store, with the cost of moving there; a panel that stays has its own store alone.
func (r *Row) costs(n int) []float64 {
	out := make([]float64, n)
	for j := range out {
		switch {
		case j == r.Store && r.Why == ByCount:
			out[j] = r.Cells[j].Many
		case j == r.Store:
		case r.Stays || r.Why != ByCount || !r.Cells[j].Told:
			out[j] = math.Inf(1)
		default:
			out[j] = r.Cells[j].Many + moveCost
		}
	}
	return out
}

// put tries every way to put the groups, each with the best placement of the others.
func put(units []unit, room []int) (at []int, total float64, why Unplaced) {
	var groups, singles []int
	for k := range units {
		if len(units[k].rows) > 1 {
			groups = append(groups, k)
		} else {
			singles = append(singles, k)
		}
	}
	cost := make([][]float64, len(singles))
	for i, k := range singles {
		cost[i] = units[k].cost
	}
	total, tried := math.Inf(1), 0
	left, chosen := append([]int(nil), room...), make([]int, len(units))
	var try func(g int, sum float64)
	try = func(g int, sum float64) {
		if tried > mostTrials {
			return
		}
		if g < len(groups) {
			u := &units[groups[g]]
			for j := range left {
				if math.IsInf(u.cost[j], 1) || left[j] < len(u.rows) {
					continue
				}
				left[j] -= len(u.rows)
				chosen[groups[g]] = j
				try(g+1, sum+u.cost[j])
				left[j] += len(u.rows)
			}
			return
		}
		tried++
		best, t, ok := assign(cost, left)
		if !ok || sum+t > total-1e-9 {
			return
		}
		total = sum + t
		at = append([]int(nil), chosen...)
		for i, k := range singles {
			at[k] = best[i]
		}
	}
	try(0, 0)
	switch {
	case tried > mostTrials:
		return nil, 0, TooMany
	case at == nil:
		return nil, 0, NoRoom
	}
	return at, total, ""
}

// parted names a group that no store may hold whole; then that is why.
func (r *Result) parted(units []unit) string {
	for _, u := range units {
		free := false
		for _, c := range u.cost {
			free = free || !math.IsInf(c, 1)
		}
		if !free {
			r.Placement.Why = Parted
			return r.Rows[u.rows[0]].Together
		}
	}
	return ""
}

// settle notes the moves and what is left of the expected panels.
func (r *Result) settle(units []unit, at []int) (after float64) {
	p := &r.Placement
	to := make([]int, len(r.Rows))
	for i := range to {
		to[i] = -1
	}
	for k, u := range units {
		for _, i := range u.rows {
			to[i] = at[k]
		}
	}
	for i, j := range to {
		if j < 0 {
			continue
		}
		row := &r.Rows[i]
		p.Stores[j].After++
		if row.Why != ByCount {
			continue
		}
		is := row.Cells[j].Many
		after += is / 100
		if j != row.Store {
			p.Moves = append(p.Moves, Move{Row: i, From: row.Store, To: j, Was: row.Here().Many, Is: is})
		}
	}
	return after
}
