package chance

import (
	"math"
	"slices"

	"gonum.org/v1/gonum/floats"
)

// forward is the selection of terms. Columns and residual carry the square root of the weight, so that
// plain scalar products are weighted ones.
type forward struct {
	o        Options
	points   []table
	y        []float64
	constant bool      // y has one value
	root     []float64 // square root of the weight
	n        float64   // effective number of points

	columns  []column // candidates
	left     []float64
	leverage []float64
	chosen   []Term
	loo      float64 // mean square of the leave-one-out error of the terms chosen
}

type column struct {
	term   Term
	v      []float64
	start  float64 // squares before anything was taken off
	chosen bool
}

// level is the least share of a column, and of y, that is more than rounding.
const level = 1e-10

func newForward(x [][]float64, y []float64, o Options) (*forward, error) {
	o, err := checked(x, y, o)
	if err != nil {
		return nil, err
	}
	f := &forward{o: o, y: y, n: float64(len(y)), root: orEqual(nil, len(y)), leverage: make([]float64, len(y))}
	if o.Weights != nil {
		f.n = Effective(o.Weights)
		for i, w := range o.Weights {
			f.root[i] = math.Sqrt(w)
		}
	}
	for _, row := range x {
		t := newTable(len(row), o.Degree)
		t.fill(o.Basis, row)
		f.points = append(f.points, t)
	}
	f.left = make([]float64, len(y))
	floats.MulTo(f.left, f.root, y)
	squares := floats.Dot(f.left, f.left)
	f.take(slices.Clone(f.root)) // the constant
	rest := floats.Dot(f.left, f.left)
	if rest <= level*level*squares {
		f.constant = true
		return f, nil
	}
	f.loo = f.outside()
	f.singles(len(x[0]))
	f.products(f.strongest(len(x[0])))
	f.run(rest)
	return f, nil
}

// take turns v into a direction of length 1, takes it off what is left of y and adds its leverage.
func (f *forward) take(v []float64) {
	floats.Scale(1/floats.Norm(v, 2), v)
	floats.AddScaled(f.left, -floats.Dot(v, f.left), v)
	for i, q := range v {
		f.leverage[i] += q * q
	}
	for j := range f.columns {
		if c := &f.columns[j]; !c.chosen {
			floats.AddScaled(c.v, -floats.Dot(v, c.v), v)
		}
	}
}

// outside returns the weighted mean square of what each point misses when it is left out of the fit.
func (f *forward) outside() float64 {
	var sum float64
	for i, r := range f.left {
		if r != 0 {
			r /= max(1-f.leverage[i], level)
			sum += r * r
		}
	}
	return sum / float64(len(f.left))
}

func (f *forward) add(m Term) {
	v := make([]float64, len(f.y))
	for i, t := range f.points {
		v[i] = f.root[i] * t.product(m)
	}
	start := floats.Dot(v, v)
	mean := floats.Dot(f.root, v) / float64(len(v))
	floats.AddScaled(v, -mean, f.root)
	f.columns = append(f.columns, column{term: m, v: v, start: start})
}

func (f *forward) singles(d int) {
	for i := range d {
		for k := 1; k <= f.o.Degree; k++ {
			f.add(Term{I: i, DegreeI: k})
		}
	}
}

// strongest returns the inputs that act in products, in their own order; an input that never changes is
// not among them.
func (f *forward) strongest(d int) []int {
	by := make([]float64, d)
	for j := range f.columns {
		by[f.columns[j].term.I] += f.gain(&f.columns[j])
	}
	most := order(by)[:min(max(f.o.Pairs, 0), d)]
	most = slices.DeleteFunc(most, func(i int) bool { return by[i] == 0 })
	slices.Sort(most)
	return most
}

func (f *forward) products(inputs []int) {
	for a, i := range inputs {
		for _, j := range inputs[a+1:] {
			for k := 1; k < f.o.Degree; k++ {
				for l := 1; k+l <= f.o.Degree; l++ {
					f.add(Term{I: i, DegreeI: k, J: j, DegreeJ: l})
				}
			}
		}
	}
}

// gain returns the squares that a column would take off; 0 when nothing of it is left.
func (f *forward) gain(c *column) float64 {
	own := floats.Dot(c.v, c.v)
	if c.chosen || own <= level*c.start {
		return 0
	}
	g := floats.Dot(c.v, f.left)
	return g * g / own
}

func (f *forward) run(start float64) {
	bar := 2 * math.Log(float64(max(2, len(f.columns))))
	best, kept := f.loo, 0
	for len(f.chosen) < f.o.Terms {
		rest := floats.Dot(f.left, f.left)
		if rest <= level*level*start {
			break
		}
		var top *column
		var most float64
		for j := range f.columns {
			if g := f.gain(&f.columns[j]); g > most {
				top, most = &f.columns[j], g
			}
		}
		// t^2 of the term: its squares over the mean square of what stays, by effective points.
		free := f.n - float64(len(f.chosen)) - 2
		if top == nil || most*free < bar*(rest-most) {
			break
		}
		top.chosen = true
		f.take(top.v)
		f.chosen = append(f.chosen, top.term)
		if loo := f.outside(); loo < best {
			best, kept = loo, len(f.chosen)
		}
	}
	f.chosen, f.loo = f.chosen[:kept], best
}
