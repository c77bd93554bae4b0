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

// doubt holds the states over a grid of humidity with the standard deviation of every share.
type doubt struct {
	grid   []moisture.RH
	states []State
	sd     [][]float64 // [grid][demand]
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
	next := make(chan int)
	for range min(runtime.GOMAXPROCS(0), 2*n) {
		wg.Go(func() {
			for i := range next {
				shares[i], errs[i] = oneAtATime(p, q, n, i, grid, nominal)
			}
		})
	}
	for i := 0; i < 2*n && ctx.Err() == nil; i++ {
		next <- i
	}
	close(next)
	wg.Wait()
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

// oneAtATime returns the shares with input i/2 moved up (even i) or down (odd i).
func oneAtATime(p *panel.Panel, q Question, n, i int, grid []moisture.RH, nominal []response.State) ([][]float64, error) {
	z := make([]float64, n)
	z[i/2] = 1 - 2*float64(i%2)
	o, err := p.Realise(z)
	if err != nil {
		return nil, err
	}
	if q.Temperature != nil {
		o.Temperature = *q.Temperature
	}
	c, err := response.Prepare(o, q.Setting)
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
	if j < len(ds) && ds[j].Mode == like.Mode && ds[j].Part == like.Part {
		return ds[j]
	}
	k := slices.IndexFunc(ds, func(d response.Demand) bool { return d.Mode == like.Mode && d.Part == like.Part })
	if k < 0 {
		return response.Demand{Capacity: math.Inf(1)}
	}
	return ds[k]
}

func combine(grid []moisture.RH, nominal []response.State, shares [][][]float64) *doubt {
	d := &doubt{grid: grid, sd: make([][]float64, len(grid))}
	for g := range grid {
		d.sd[g] = make([]float64, len(nominal[g].Demands))
		s := State{State: nominal[g]}
		for j, dem := range nominal[g].Demands {
			var sum float64
			for i := 0; i+1 < len(shares); i += 2 {
				half := (shares[i][g][j] - shares[i+1][g][j]) / 2
				sum += half * half
			}
			d.sd[g][j] = math.Sqrt(sum)
			s.Bands = append(s.Bands, band(dem.Share(), d.sd[g][j]))
		}
		d.states = append(d.states, s)
	}
	return d
}

func band(share, sd float64) Band {
	return Band{Low: max(0, share-z95*sd), High: share + z95*sd}
}

// bands gives the doubt of a state that is not on the grid, from its neighbours.
func (d *doubt) bands(s *response.State) []Band {
	out := make([]Band, len(s.Demands))
	for j, dem := range s.Demands {
		out[j] = band(dem.Share(), d.sdAt(s.RH, j, dem))
	}
	return out
}

// sdAt interpolates the standard deviation of the share of one mode and part.
func (d *doubt) sdAt(rh moisture.RH, j int, like response.Demand) float64 {
	i, exact := slices.BinarySearch(d.grid, rh)
	if exact || i == 0 {
		return d.sdOf(i, j, like)
	}
	if i == len(d.grid) {
		return d.sdOf(i-1, j, like)
	}
	f := float64(rh-d.grid[i-1]) / float64(d.grid[i]-d.grid[i-1])
	return (1-f)*d.sdOf(i-1, j, like) + f*d.sdOf(i, j, like)
}

func (d *doubt) sdOf(g, j int, like response.Demand) float64 {
	ds := d.states[g].Demands
	if j < len(ds) && ds[j].Mode == like.Mode && ds[j].Part == like.Part {
		return d.sd[g][j]
	}
	k := slices.IndexFunc(ds, func(x response.Demand) bool { return x.Mode == like.Mode && x.Part == like.Part })
	if k < 0 {
		return 0
	}
	return d.sd[g][k]
}
