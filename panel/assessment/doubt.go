package assessment

import (
	"context"
	"math"
	"runtime"
	"slices"
	"sync"

	"crossgrain/moisture"
	"crossgrain/panel"
	"crossgrain/panel/response"
)

// z95 is the standard normal value with 5 in 100 above it.
const z95 = 1.6448536269514722

// doubt holds the states over a grid of humidity with the spread of every share.
type doubt struct {
	grid   []moisture.RH
	states []State
	spread [][]spread   // [grid][demand]
	part   [][][]spread // [input][grid][demand]: what each input adds
}

// spread is the standard deviation of a share: of its logarithm, from inputs that multiply it (a
// stiffness, a strength), and of itself, from inputs that shift it (the used-to humidity).
type spread struct{ log, add float64 }

// spreadOf returns what one input adds when it moves the share from s to up and down. A change within
// a factor of five either way counts as multiplying.
func spreadOf(s, up, down float64) spread {
	if min(up, down) > s/5 && max(up, down) < 5*s && s > 1e-6 {
		return spread{log: math.Abs(math.Log(up/down)) / 2}
	}
	return spread{add: math.Abs(up-down) / 2}
}

// high returns the share with z standard deviations of doubt on top; low with as many taken off.
func (d spread) high(share, z float64) float64 { return share*math.Exp(z*d.log) + z*d.add }

func (d spread) low(share, z float64) float64 {
	return max(0, share*math.Exp(-z*d.log)-z*d.add)
}

func (d spread) band(share float64) Band {
	return Band{Low: d.low(share, z95), High: d.high(share, z95)}
}

// doubtOver settles the nominal case over the grid and moves every input by one standard
// deviation each way. Work is done by index, so the result does not depend on the cores.
func doubtOver(ctx context.Context, p *panel.Panel, c *response.Case, q Question, grid []moisture.RH) (*doubt, error) {
	nominal, err := c.Settle(grid)
	if err != nil {
		return nil, err
	}
	n := len(p.Inputs())
	shares := make([][][]float64, 2*n) // [run][grid][demand]
	errs := make([]error, 2*n)
	var wg sync.WaitGroup
	var broken fault
	next := make(chan int)
	for range min(runtime.GOMAXPROCS(0), 2*n) {
		wg.Go(func() {
			for i := range next {
				func() {
					defer broken.catch()
					shares[i], errs[i] = oneAtATime(p, q, n, i, grid, nominal)
				}()
			}
		})
	}
	for i := 0; i < 2*n && ctx.Err() == nil; i++ {
		next <- i
	}
	close(next)
	wg.Wait()
	broken.raise()
	if ctx.Err() != nil {
		return nil, ctx.Err()
	}
	for _, err := range errs {
		if err != nil {
			return nil, err
		}
	}
	return combine(grid, nominal, shares), nil
}

// swept settles the panel as described over the grid, with the doubt that was found.
func (d *doubt) swept(c *response.Case, grid []moisture.RH) ([]State, error) {
	states, err := c.Settle(grid)
	if err != nil {
		return nil, err
	}
	out := make([]State, len(states))
	for i := range states {
		out[i] = State{State: states[i], Bands: d.bands(&states[i])}
	}
	return out, nil
}

// oneAtATime returns the shares with input i/2 moved up (even i) or down (odd i).
func oneAtATime(p *panel.Panel, q Question, n, i int, grid []moisture.RH, nominal []response.State) ([][]float64, error) {
	z := make([]float64, n)
	z[i/2] = 1 - 2*float64(i%2)
	o, err := p.Realise(z)
	if err != nil {
		return nil, err
	}
	c, err := q.prepare(o)
	if err != nil {
		return nil, err
	}
	states, err := c.Settle(grid)
	if err != nil {
		return nil, err
	}
	out := make([][]float64, len(grid))
	for g := range states {
		out[g] = make([]float64, len(nominal[g].Demands))
		for j, d := range nominal[g].Demands {
			out[g][j] = find(states[g].Demands, j, d).Share()
		}
	}
	return out, nil
}

// find returns the demand of the same mode and part; j is where it is likely to stand.
func find(ds []response.Demand, j int, like response.Demand) response.Demand {
	if k := place(ds, j, like); k >= 0 {
		return ds[k]
	}
	return response.Demand{Capacity: math.Inf(1)}
}

func place(ds []response.Demand, j int, like response.Demand) int {
	if j < len(ds) && ds[j].Mode == like.Mode && ds[j].Part == like.Part {
		return j
	}
	return slices.IndexFunc(ds, func(d response.Demand) bool { return d.Mode == like.Mode && d.Part == like.Part })
}

func combine(grid []moisture.RH, nominal []response.State, shares [][][]float64) *doubt {
	d := &doubt{grid: grid, spread: make([][]spread, len(grid)), part: make([][][]spread, len(shares)/2)}
	for i := range d.part {
		d.part[i] = make([][]spread, len(grid))
		for g := range grid {
			for j, dem := range nominal[g].Demands {
				d.part[i][g] = append(d.part[i][g], spreadOf(dem.Share(), shares[2*i][g][j], shares[2*i+1][g][j]))
			}
		}
	}
	for g := range grid {
		s := State{State: nominal[g]}
		for j, dem := range nominal[g].Demands {
			var sum spread
			for i := range d.part {
				q := d.part[i][g][j]
				sum.log += q.log * q.log
				sum.add += q.add * q.add
			}
			sum = spread{math.Sqrt(sum.log), math.Sqrt(sum.add)}
			d.spread[g] = append(d.spread[g], sum)
			s.Bands = append(s.Bands, sum.band(dem.Share()))
		}
		d.states = append(d.states, s)
	}
	return d
}

// bands gives the doubt of a state that is not on the grid, from its neighbours.
func (d *doubt) bands(s *response.State) []Band {
	out := make([]Band, len(s.Demands))
	for j, dem := range s.Demands {
		out[j] = d.at(s.RH, j, dem).band(dem.Share())
	}
	return out
}

// at interpolates the spread of the share of one mode and part.
func (d *doubt) at(rh moisture.RH, j int, like response.Demand) spread {
	i, exact := slices.BinarySearch(d.grid, rh)
	if exact || i == 0 {
		return d.of(i, j, like)
	}
	if i == len(d.grid) {
		return d.of(i-1, j, like)
	}
	f := float64(rh-d.grid[i-1]) / float64(d.grid[i]-d.grid[i-1])
	a, b := d.of(i-1, j, like), d.of(i, j, like)
	return spread{(1-f)*a.log + f*b.log, (1-f)*a.add + f*b.add}
}

func (d *doubt) of(g, j int, like response.Demand) spread {
	if k := place(d.states[g].Demands, j, like); k >= 0 {
		return d.spread[g][k]
	}
	return spread{}
}
