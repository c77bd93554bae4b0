package assessment

import (
	"cmp"
	"context"
	"runtime"
	"slices"
	"sync"
	"time"

	"crossgrain/panel"
	"crossgrain/panel/internal/chance"
	"crossgrain/panel/response"
)

// Samples asks for doubt by many realisations of the panel. The zero value asks for none: then every input is moved by itself.
type Samples struct {
	Held   int // realisations by the closed forms, at humidities held for Question.For; 0: none
	Course int // of which the first are taken through the record at setting Coarse, at most Held
	Seed   uint64
	// Progress is told how far a stage has come, from one goroutine at a time; nil: nobody asks.
	Progress func(stage string, done, of int)
}

// Fewest is how many realisations are needed at least for a count to be told (assumption).
const Fewest = 50

// Stages of sampling as told to Progress.
const (
	StageHeld   = "cases held at each humidity"
	StageCourse = "cases taken through the record"
)

// each runs f for 0 to n-1 on all cores and returns how many of the first are done when all are, or when ctx ends.
// The first error by index ends it.
func each(ctx context.Context, n int, tell func(done int), f func(i int) error) (int, error) {
	done, errs := make([]bool, n), make([]error, n)
	var mu sync.Mutex
	next, told := 0, 0
	var wg sync.WaitGroup
	var broken fault
	for range min(runtime.GOMAXPROCS(0), max(n, 1)) {
		wg.Go(func() {
			defer broken.catch()
			for {
				mu.Lock()
				i := next
				next++
				mu.Unlock()
				if i >= n || ctx.Err() != nil {
					return
				}
				err := f(i)
				mu.Lock()
				errs[i], done[i] = err, true
				told++
				if err != nil {
					next = n
				}
				if tell != nil {
					tell(told)
				}
				mu.Unlock()
			}
		})
	}
	wg.Wait()
	broken.raise()
	for i := range n {
		switch {
		case !done[i]:
			return i, nil
		case errs[i] != nil:
			return i, errs[i]
		}
	}
	return n, nil
}

// telling wraps Progress for one stage.
func (s Samples) telling(stage string, of int) func(int) {
	if s.Progress == nil {
		return nil
	}
	return func(done int) { s.Progress(stage, done, of) }
}

// lead is how many inputs, those that matter most, are drawn evenly against one another too.
const lead = 10

// draw returns n points of standard normals for all inputs. The inputs that matter most by themselves come first
// in the sequence.
func (d *doubt) draw(n int, seed uint64) [][]float64 {
	order := d.order()
	points := chance.Normals(n, len(order), min(lead, len(order)), seed)
	out := make([][]float64, n)
	for i, p := range points {
		out[i] = make([]float64, len(order))
		for k, in := range order {
			out[i][in] = p[k]
		}
	}
	return out
}

// order lists the inputs by the largest part of the doubt that each makes up anywhere by itself.
func (d *doubt) order() []int {
	size := make([]float64, len(d.part))
	order := make([]int, len(d.part))
	for i := range d.part {
		order[i] = i
		for g := range d.part[i] {
			var all, own float64
			for j, s := range d.part[i][g] {
				share := max(d.states[g].Demands[j].Share(), 1e-3)
				own += s.log*s.log + s.add*s.add/(share*share)
				t := d.spread[g][j]
				all += t.log*t.log + t.add*t.add/(share*share)
			}
			if all > 0 {
				size[i] = max(size[i], own/all)
			}
		}
	}
	slices.SortStableFunc(order, func(a, b int) int { return cmp.Compare(size[b], size[a]) })
	return order
}

// realised is one realisation. Heart sides that nobody recorded are drawn with the rest and known in it.
func (q Question) realised(p *panel.Panel, z []float64, set response.Setting) (*response.Case, error) {
	o, err := p.Realise(z)
	if err != nil {
		return nil, err
	}
	for i := range o.Boards {
		o.Boards[i].HeartKnown = true
	}
	if q.Temperature != nil {
		o.Temperature = *q.Temperature
	}
	return response.Prepare(o, set)
}

// hold is how long each humidity is held.
func (q Question) hold() time.Duration {
	if q.For <= 0 || q.For >= season {
		return season
	}
	return q.For
}

// season as a duration.
const season = time.Duration(response.Season) * time.Second
