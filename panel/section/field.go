package section

import (
	"crossgrain/panel/internal/fe"
)

// Field is the whole section under one set of loads, for drawings and maps. Board by board.
type Field []BoardField

// BoardField is one board: places and movements of its nodes (mm, in the axes of the panel, z from the back of
// the first board; the chord through the outer edges of the back does not move), its elements by their nodes
// (corners first, then middles of sides), and the stress at the 2 x 2 points of each.
type BoardField struct {
	X, Z, DX, DZ []float64
	Elements     [][8]int
	Coat         []bool // the element is ground or paint, not wood
	Points       []Stress
	// Radial gives the direction of the rays at each of Points: (cos, sin) in x, z.
	Radial [][2]float64
}

// Stress is the stress at one place: in the section, and in the axes of the wood. MPa, pulled positive.
type Stress struct {
	X, Z                         float64
	XX, ZZ, XZ, Along            float64
	Radial, Tangential, Rolling  float64
	StrainXX, StrainZZ, StrainXZ float64 // whole strain, free movement included
}

// Field returns the whole section under loads as for [Model.Eval]. It costs a solution of every board, some
// milliseconds.
func (m *Model) Field(loads [][]float64) (Field, error) {
	out := m.NewOut()
	if err := m.Eval(out, loads); err != nil {
		return nil, err
	}
	q := m.alongOf(out)
	f := make(Field, len(m.parts))
	rig := m.rigidOf(out, q)
	lo, hi := m.ends(out, q, rig)
	turn := (hi.z - lo.z) / m.width
	for i, p := range m.parts {
		u, err := p.moves(m, out, i, loads[i], q)
		if err != nil {
			return nil, wrap(i, err)
		}
		f[i] = p.field(u, loads[i], q)
		b := &f[i]
		for n := range b.X {
			ux, uz := p.rigid(b.X[n], b.Z[n])
			for k := range 3 {
				b.DX[n] += ux[k] * rig[i][k]
				b.DZ[n] += uz[k] * rig[i][k]
			}
			b.DX[n] += turn*(b.Z[n]-lo.z0) - lo.x
			b.DZ[n] -= turn*b.X[n] + lo.z
		}
	}
	return f, nil
}

// alongOf returns the strain along the grain at x = z = 0 and its slopes.
func (m *Model) alongOf(o *Out) [3]float64 {
	return [3]float64{o.Stretch - o.Edgewise*m.width/2 - o.Bow*m.mid, o.Edgewise, o.Bow}
}

func (m *Model) besideOf(q [3]float64) *[extraCols]float64 {
	return &[extraCols]float64{colOne: 1, colAlong: q[0], colAlong + 1: q[1], colAlong + 2: q[2]}
}

func (m *Model) rigidOf(o *Out, q [3]float64) [][3]float64 {
	r := make([][3]float64, len(m.parts))
	for i := 1; i < len(r); i++ {
		m.rigid[i-1].apply(o.rows, o.spare, o.v, m.besideOf(q))
		copy(r[i][:], o.rows)
	}
	return r
}

func (m *Model) ends(o *Out, q [3]float64, rig [][3]float64) (lo, hi end) {
	last := len(m.parts) - 1
	for i, p := range m.parts {
		if i != 0 && i != last {
			continue
		}
		rows := make([]float64, m.boards[i].rows)
		m.boards[i].apply(rows, o.spare, o.v, m.besideOf(q))
		rest := rows[(m.first[i+1]-m.first[i])*perStation+4:]
		if i == 0 {
			lo = p.end(rest, rig[i], 0)
			rest = rest[perEnd:]
		}
		if i == last {
			hi = p.end(rest, rig[i], p.t.Width)
		}
	}
	return lo, hi
}

// moves solves the board for its own load, the forces of its joins and the strain along the grain.
func (p *part) moves(m *Model, o *Out, i int, load []float64, q [3]float64) ([]float64, error) {
	u := make([]float64, 2*len(p.g.X))
	slope := func(_, eta float64) float64 { return eta }
	for e := range p.g.El {
		if c := p.coatOf(e % p.g.rows); c >= 0 {
			s := p.coatStress(c, load)
			p.body.Load(u, 1, 0, e, nil, func(_, _ float64) [4]float64 { return s })
			continue
		}
		for k, shape := range [2]func(_, _ float64) float64{nil, slope} {
			w := p.woodStress(e, load, k)
			p.body.Load(u, 1, 0, e, shape, func(x, z float64) [4]float64 {
				c, s := p.rays.at(x-p.g.left, z-p.g.base)
				return fe.ToSection(w, c, s)
			})
		}
	}
	for n, c := range p.body.Border {
		u[n] -= c[0]*q[0] + c[1]*q[1] + c[2]*q[2]
	}
	push := func(ties []tie, j *JoinOut, sign float64) {
		for k, t := range ties {
			for a, n := range t.node {
				u[2*n] += sign * t.w[a] * j.Force[k]
				u[2*n+1] += sign * t.w[a] * j.Slide[k]
			}
		}
	}
	if i > 0 {
		push(p.left, &o.Joins[i-1], -1)
	}
	if i < len(o.Joins) {
		push(p.right, &o.Joins[i], 1)
	}
	return u, p.body.Solve(u, 1)
}

// woodStress is the free stress of the load in an element of wood, RR, TT, RT, LL: mean (k = 0) or slope.
func (p *part) woodStress(e int, load []float64, k int) [4]float64 {
	l := e%p.g.rows - p.g.first
	return [4]float64{load[perLayer*l+k], load[perLayer*l+2+k], 0, load[p.np+2*l+k]}
}

func (p *part) coatStress(c int, load []float64) [4]float64 {
	e := load[perLayer*p.g.layers+c]
	return p.coats[c].Stress([4]float64{e, e, 0, e})
}

func (p *part) field(u, load []float64, q [3]float64) BoardField {
	n := len(p.g.X)
	b := BoardField{X: p.g.X, Z: p.g.Z, DX: make([]float64, n), DZ: make([]float64, n), Elements: p.g.El}
	for i := range n {
		b.DX[i], b.DZ[i] = u[2*i], u[2*i+1]
	}
	points := fe.Gauss2()
	for e := range p.g.El {
		b.Coat = append(b.Coat, p.coatOf(e%p.g.rows) >= 0)
		for k := range points {
			s, c := p.stressAt(e, &points[k], u, load, q)
			b.Points, b.Radial = append(b.Points, s), append(b.Radial, c)
		}
	}
	return b
}

// stressAt returns the stress at a point of an element, and the direction of the rays.
func (p *part) stressAt(e int, pt *fe.Point, u, load []float64, q [3]float64) (Stress, [2]float64) {
	var x, z [8]float64
	var g fe.Grad
	var ue [16]float64
	p.g.Nodes(e, &x, &z)
	pt.In(&x, &z, &g)
	for i, n := range p.g.El[e] {
		ue[2*i], ue[2*i+1] = u[2*n], u[2*n+1]
	}
	var d fe.Stiffness
	p.law(e, g.X, g.Z, &d)
	xx, zz, xz := g.Strain(&ue)
	t := d.Stress([4]float64{xx, zz, xz, q[0] + q[1]*g.X + q[2]*g.Z})
	c, s := p.rays.at(g.X-p.g.left, g.Z-p.g.base)
	var free [4]float64
	if k := p.coatOf(e % p.g.rows); k >= 0 {
		free = p.coatStress(k, load)
	} else {
		a, b := p.woodStress(e, load, 0), p.woodStress(e, load, 1)
		for i := range a {
			a[i] += b[i] * pt.Eta
		}
		free = fe.ToSection(a, c, s)
	}
	for i := range t {
		t[i] -= free[i]
	}
	w := fe.ToWood(t, c, s)
	return Stress{X: g.X, Z: g.Z, XX: t[0], ZZ: t[1], XZ: t[2], Along: t[3],
		Radial: w[0], Tangential: w[1], Rolling: w[2], StrainXX: xx, StrainZZ: zz, StrainXZ: xz}, [2]float64{c, s}
}
