package section

import (
	"math"

	"gonum.org/v1/gonum/blas"
	"gonum.org/v1/gonum/blas/blas64"
	"gonum.org/v1/gonum/floats"
	"gonum.org/v1/gonum/mat"
)

// block is a set of outputs as small matrices: whole on the loads of the boards it belongs to, near to near+width;
// of low rank on those of other boards, whose forces reach it through a join and die away in a few shapes; and on what
// stands beside the loads (pull, moment, one, strains along the grain).
type block struct {
	rows, near, width int
	a                 []float64 // rows x width
	far               []outer   // before and after the near ones
	beside            []float64 // one list of rows for each of extraCols
}

// outer is the product of u (rows x rank) and v (rank x width) on the loads from lo on.
type outer struct {
	lo, width, rank int
	u, v            []float64
}

// small is the share of the largest value of a row below which what other boards do to it is left out.
const small = 1e-11

// cut makes a block of the rows of full, n loads and extraCols beside them; loads lo to hi are kept whole.
func cut(full *mat.Dense, n, lo, hi int) block {
	rows, _ := full.Dims()
	b := block{rows: rows, near: lo, width: hi - lo, beside: make([]float64, rows*extraCols), a: make([]float64, rows*(hi-lo))}
	scale := make([]float64, rows)
	for i := range rows {
		row := full.RawRowView(i)
		for _, v := range row[:n] {
			scale[i] = math.Max(scale[i], math.Abs(v))
		}
		copy(b.a[i*b.width:][:b.width], row[lo:hi])
		for k, v := range row[n:] {
			b.beside[k*rows+i] = v
		}
	}
	for _, r := range [2][2]int{{0, lo}, {hi, n}} {
		if r[1] > r[0] && rows > 0 {
			if o := few(full, scale, r[0], r[1]); o.rank > 0 {
				b.far = append(b.far, o)
			}
		}
	}
	return b
}

// few writes the columns lo to hi as a sum of outer products, largest rest first (cross approximation with full
// pivoting), until no value is above small of its row's scale.
func few(full *mat.Dense, scale []float64, lo, hi int) outer {
	rows, w := len(scale), hi-lo
	rest := make([]float64, rows*w)
	for i := range rows {
		copy(rest[i*w:], full.RawRowView(i)[lo:hi])
	}
	o := outer{lo: lo, width: w}
	var us [][]float64
	for o.rank < min(rows, w) {
		pi, pj, top := 0, 0, 0.0
		for i, s := range scale {
			for j, v := range rest[i*w:][:w] {
				if a := math.Abs(v); a > small*s && a/s > top {
					pi, pj, top = i, j, a/s
				}
			}
		}
		if top == 0 {
			break
		}
		v := append([]float64(nil), rest[pi*w:][:w]...)
		u := make([]float64, rows)
		for i := range rows {
			u[i] = rest[i*w+pj] / v[pj]
			floats.AddScaled(rest[i*w:][:w], -u[i], v)
		}
		us, o.v = append(us, u), append(o.v, v...)
		o.rank++
	}
	o.u = make([]float64, rows*o.rank)
	for k, u := range us {
		for i, v := range u {
			o.u[i*o.rank+k] = v
		}
	}
	return o
}

// apply puts the outputs into dst; spare must hold [block.rank] values.
func (b *block) apply(dst, spare, v []float64, beside *[extraCols]float64) {
	dst = dst[:b.rows]
	clear(dst)
	for k, w := range beside {
		if w != 0 {
			floats.AddScaled(dst, w, b.beside[k*b.rows:][:b.rows])
		}
	}
	product(dst, b.a, v[b.near:][:b.width])
	for i := range b.far {
		o := &b.far[i]
		t := spare[:o.rank]
		clear(t)
		product(t, o.v, v[o.lo:][:o.width])
		product(dst, o.u, t)
	}
}

func (b *block) rank() int {
	r := 0
	for i := range b.far {
		r = max(r, b.far[i].rank)
	}
	return r
}

// product adds a x to dst, a row by row.
func product(dst, a, x []float64) {
	if len(dst) == 0 || len(x) == 0 {
		return
	}
	blas64.Gemv(blas.NoTrans, 1, blas64.General{Rows: len(dst), Cols: len(x), Stride: len(x), Data: a},
		blas64.Vector{N: len(x), Inc: 1, Data: x}, 1, blas64.Vector{N: len(dst), Inc: 1, Data: dst})
}
