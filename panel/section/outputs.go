package section

import (
	"math"

	"gonum.org/v1/gonum/floats"

	"crossgrain/panel/internal/fe"
)

// Rows of outputs of one board: perStation for each station, then the changes of thickness and the
// rise at the middle of the panel, then the ends of the panel.
const (
	rowRise = iota
	rowFrontStress
	rowBackStress
	rowFrontStrain
	rowBackStrain
	perStation
)

// Rows of an end of the panel, and of a board by itself.
const (
	endBackX = iota
	endBackZ
	endMiddleX
	endFrontX
	perEnd

	aloneStretch = 2 * Stations // after the strains and the curvatures
	aloneCup     = aloneStretch + 1
	perAlone     = aloneCup + 1
)

// outputs makes the rows of the stations at the places x of the panel and of its centre, and those of the ends that this
// board has; then those of the board by itself.
func (p *part) outputs(x []float64, ends [2]bool, centre float64) {
	n := len(x)*perStation + 4
	for _, e := range ends {
		if e {
			n += perEnd
		}
	}
	p.rows = make([]float64, n*p.m)
	row := func(i int) []float64 { return p.rows[i*p.m:][:p.m] }
	for i, at := range x {
		k := i * perStation
		p.point(row(k+rowRise), p.onFace(at, p.g.back()), 1, 1)
		p.surface(row(k+rowFrontStress), row(k+rowFrontStrain), at, p.g.layers-1, 1)
		p.surface(row(k+rowBackStress), row(k+rowBackStrain), at, 0, -1)
	}
	k := len(x) * perStation
	for i, at := range [3]float64{0, p.t.Width / 2, p.t.Width} {
		p.point(row(k+i), p.onFace(p.g.left+at, p.g.front()), 1, 1)
		p.point(row(k+i), p.onFace(p.g.left+at, p.g.back()), 1, -1)
	}
	if at := centre - p.g.left; at >= 0 && at <= p.t.Width {
		p.point(row(k+3), p.onFace(centre, p.g.back()), 1, 1)
	}
	k += 4
	for i, e := range ends {
		if e {
			at := p.g.left + float64(i)*p.t.Width
			p.point(row(k+endBackX), p.onFace(at, p.g.back()), 0, 1)
			p.point(row(k+endBackZ), p.onFace(at, p.g.back()), 1, 1)
			p.point(row(k+endMiddleX), p.onFace(at, p.g.half()), 0, 1)
			p.point(row(k+endFrontX), p.onFace(at, p.g.front()), 0, 1)
			k += perEnd
		}
	}
	p.aloneRows()
}

// surface makes the rows of the stress across the grain at the 2 x 2 points next to a face of the wood
// (in the layer, on the side side = 1 or -1), and of the strain across on the face itself; both straight
// between and beyond the two points of the element that holds x.
func (p *part) surface(stress, strain []float64, x float64, layer int, side float64) {
	col, xi := p.g.place(x - p.g.left)
	e := p.g.element(col, p.g.first+layer)
	g2 := 1 / math.Sqrt(3)
	for i, at := range [2]float64{-g2, g2} {
		w := (1 + float64(2*i-1)*xi/g2) / 2
		p.stressRow(stress, e, at, side*g2, w)
		p.strainRow(strain, e, at, side, w)
	}
}

func (p *part) strainRow(row []float64, e int, xi, eta, w float64) {
	pt := fe.At(xi, eta, 1)
	var g fe.Grad
	var ex, ez [8]float64
	p.g.Nodes(e, &ex, &ez)
	pt.In(&ex, &ez, &g)
	for i, n := range p.g.El[e] {
		floats.AddScaled(row, w*g.NX[i], p.x[2*n*p.m:][:p.m])
	}
}

// stressRow adds w times the stress xx in wood at a point of an element.
func (p *part) stressRow(row []float64, e int, xi, eta, w float64) {
	pt := fe.At(xi, eta, 1)
	var g fe.Grad
	var ex, ez [8]float64
	p.g.Nodes(e, &ex, &ez)
	pt.In(&ex, &ez, &g)
	var d fe.Stiffness
	p.law(e, g.X, g.Z, &d)
	for i, n := range p.g.El[e] {
		floats.AddScaled(row, w*(d[0][0]*g.NX[i]+d[0][2]*g.NZ[i]), p.x[2*n*p.m:][:p.m])
		floats.AddScaled(row, w*(d[0][1]*g.NZ[i]+d[0][2]*g.NX[i]), p.x[(2*n+1)*p.m:][:p.m])
	}
	for l, v := range [3]float64{1, g.X, g.Z} {
		row[p.m-3+l] += w * d[0][3] * v
	}
	c, s := p.rays.at(g.X-p.g.left, g.Z-p.g.base)
	k := perLayer * (e%p.g.rows - p.g.first)
	for i, f := range [4]float64{c * c, c * c * eta, s * s, s * s * eta} {
		row[k+i] -= w * f
	}
}

// aloneRows makes the rows of the strain and curvature of the board's mid-line, of the change of its
// chord and of its warp.
func (p *part) aloneRows() {
	p.alone = make([]float64, perAlone*p.m)
	row := func(i int) []float64 { return p.alone[i*p.m:][:p.m] }
	k := p.g.half()
	for i := range Stations {
		x := p.t.Width * float64(i) / (Stations - 1)
		at, first, second := p.slopes(x)
		for j, col := range at {
			n := p.g.corner(col, k)
			floats.AddScaled(row(i), first[j], p.x[2*n*p.m:][:p.m])
			floats.AddScaled(row(Stations+i), -second[j], p.x[(2*n+1)*p.m:][:p.m])
		}
	}
	l, m, r := p.onFace(p.g.left, k), p.onFace(p.g.left+p.t.Width/2, k), p.onFace(p.g.left+p.t.Width, k)
	p.point(row(aloneStretch), r, 0, 1)
	p.point(row(aloneStretch), l, 0, -1)
	p.point(row(aloneCup), m, 1, 1)
	p.point(row(aloneCup), l, 1, -0.5)
	p.point(row(aloneCup), r, 1, -0.5)
}

// slopes returns the five columns' edges nearest to x that are not crowded, and the weights of their values
// in the first and second derivative at x.
func (p *part) slopes(x float64) (at []int, first, second []float64) {
	n := len(p.g.regular)
	w := min(5, n)
	i := 0
	for i+w < n && math.Abs(p.g.x[p.g.regular[i+w]]-x) < math.Abs(p.g.x[p.g.regular[i]]-x) {
		i++
	}
	at = p.g.regular[i : i+w]
	places := make([]float64, w)
	for j, c := range at {
		places[j] = p.g.x[c]
	}
	d := derivatives(x, places)
	return at, d[1], d[2]
}

// derivatives returns the weights of values at the places v in the value, first and second derivative at x
// of the polynomial through them. Fornberg, Math. Comp. 51 (1988) 699.
func derivatives(x float64, v []float64) [3][]float64 {
	var d [3][]float64
	for k := range d {
		d[k] = make([]float64, len(v))
	}
	d[0][0] = 1
	c1, c4 := 1.0, v[0]-x
	for i := 1; i < len(v); i++ {
		c2, c5 := 1.0, c4
		c4 = v[i] - x
		for j := range i {
			c3 := v[i] - v[j]
			c2 *= c3
			if j == i-1 {
				for k := 2; k >= 1; k-- {
					d[k][i] = c1 * (float64(k)*d[k-1][i-1] - c5*d[k][i-1]) / c2
				}
				d[0][i] = -c1 * c5 * d[0][i-1] / c2
			}
			for k := 2; k >= 1; k-- {
				d[k][j] = (c4*d[k][j] - float64(k)*d[k-1][j]) / c3
			}
			d[0][j] = c4 * d[0][j] / c3
		}
		c1 = c2
	}
	return d
}
