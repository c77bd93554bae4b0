package fe

import (
	"fmt"
	"math"

	"gonum.org/v1/gonum/floats"
)

// Mesh is a set of eight-node elements. Number the nodes along the short side.
type Mesh struct {
	X, Z []float64 // places of the nodes, mm
	El   [][8]int  // nodes of each element, in the order of [Point]
}

// Nodes puts the places of the nodes of element e into x and z.
func (m *Mesh) Nodes(e int, x, z *[8]float64) {
	for i, n := range m.El[e] {
		x[i], z[i] = m.X[n], m.Z[n]
	}
}

// Law gives the stiffness of element e at the place x, z.
type Law func(e int, x, z float64, d *Stiffness)

// Body is a mesh with its stiffness, factored. Unknown 2n is the movement of node n in x, 2n+1 in z.
type Body struct {
	Mesh   *Mesh
	Law    Law
	Border [][3]float64  // force on each unknown for a unit of q0, q1, q2
	Along  [3][3]float64 // force and moments along the grain for the same, N, N mm, N mm2 per unit
	band   *Band
	kept   *Band // not factored, for the residual
	held   []int
	points [9]Point
}

// residualLimit is the largest residual, relative to |K| |u| + |f|, that a solution may leave.
const residualLimit = 1e-10

// NewBody integrates and factors the stiffness of the mesh; held unknowns do not move. An element
// turned inside out, a stiffness that is no number, and a body that can move are refused.
func NewBody(m *Mesh, law Law, held []int) (*Body, error) {
	n := 2 * len(m.X)
	if len(m.El) == 0 || len(m.Z) != len(m.X) {
		return nil, fmt.Errorf("mesh must have elements and one x and z a node, got %d elements, %d and %d places", len(m.El), len(m.X), len(m.Z))
	}
	wide := 0
	for e, el := range m.El {
		lo, hi := el[0], el[0]
		for _, v := range el {
			lo, hi = min(lo, v), max(hi, v)
		}
		if lo < 0 || hi >= len(m.X) {
			return nil, fmt.Errorf("element %d names node %d or %d of %d", e, lo, hi, len(m.X))
		}
		wide = max(wide, hi-lo)
	}
	for _, h := range held {
		if h < 0 || h >= n {
			return nil, fmt.Errorf("held unknown must be 0 to %d, got %d", n-1, h)
		}
	}
	band, err := NewBand(n, min(2*wide+1, n-1))
	if err != nil {
		return nil, err
	}
	b := &Body{Mesh: m, Law: law, Border: make([][3]float64, n), band: band, held: held, points: Gauss3()}
	if err := b.assemble(); err != nil {
		return nil, err
	}
	b.kept = band.Clone()
	return b, band.Factor()
}

func (b *Body) assemble() error {
	var x, z [8]float64
	for e := range b.Mesh.El {
		b.Mesh.Nodes(e, &x, &z)
		if err := b.element(e, &x, &z); err != nil {
			return err
		}
	}
	trace := 0.0
	n, _ := b.band.Size()
	for i := range n {
		trace += b.band.At(i, i)
	}
	for _, h := range b.held {
		b.band.Hold(h, trace/float64(n))
	}
	return nil
}

func (b *Body) element(e int, x, z *[8]float64) error {
	var k [16][16]float64
	var c [3][16]float64
	var d Stiffness
	var g Grad
	for i := range b.points {
		if !b.points[i].In(x, z, &g) {
			return fmt.Errorf("element %d at %.4g, %.4g mm is turned inside out", e, g.X, g.Z)
		}
		b.Law(e, g.X, g.Z, &d)
		g.addStiffness(&k, &d)
		p := [3]float64{1, g.X, g.Z}
		for j, v := range p {
			g.addForce(&c[j], d[0][3], d[1][3], d[2][3], v*g.Area)
			for l, w := range p {
				b.Along[j][l] += d[3][3] * v * w * g.Area
			}
		}
	}
	el := &b.Mesh.El[e]
	for i := range 16 {
		p := 2*el[i/2] + i%2
		for j := i; j < 16; j++ {
			b.band.Add(p, 2*el[j/2]+j%2, k[i][j])
		}
		for l := range 3 {
			b.Border[p][l] += c[l][i]
		}
	}
	return nil
}

// Load adds to f, the forces on the unknowns in rows of m, column col, those that balance the stress
// s(x, z) = xx, zz, xz, yy in element e; shape, when not nil, multiplies it by a function of the
// element's own coordinates. It returns the same along the grain: force and moments about x and z.
func (b *Body) Load(f []float64, m, col, e int, shape func(xi, eta float64) float64, s func(x, z float64) [4]float64) (along [3]float64) {
	var x, z [8]float64
	var g Grad
	var fe [16]float64
	b.Mesh.Nodes(e, &x, &z)
	for i := range b.points {
		p := &b.points[i]
		p.In(&x, &z, &g)
		w := g.Area
		if shape != nil {
			w *= shape(p.Xi, p.Eta)
		}
		t := s(g.X, g.Z)
		g.addForce(&fe, t[0], t[1], t[2], w)
		along[0] += t[3] * w
		along[1] += t[3] * w * g.X
		along[2] += t[3] * w * g.Z
	}
	el := &b.Mesh.El[e]
	for i := range 16 {
		f[(2*el[i/2]+i%2)*m+col] += fe[i]
	}
	return along
}

// Solve replaces the forces in x, rows of m columns, by the movements they cause at q = 0, and holds a
// mixture of all columns against the stiffness.
func (b *Body) Solve(x []float64, m int) error {
	n, _ := b.band.Size()
	if m < 1 || len(x) != n*m {
		return fmt.Errorf("forces must be %d rows of %d values, got %d values", n, m, len(x))
	}
	for _, h := range b.held {
		clear(x[h*m:][:m])
	}
	mix := make([]float64, m)
	for i := range n {
		for j, v := range x[i*m:][:m] {
			mix[j] = math.Max(mix[j], math.Abs(v))
		}
	}
	for j, v := range mix {
		if v > 0 {
			mix[j] = 1 / (v * float64(1+j%7))
		}
	}
	f, u := make([]float64, n), make([]float64, n)
	for i := range f {
		f[i] = floats.Dot(mix, x[i*m:][:m])
	}
	if err := b.band.SolveRows(x, m); err != nil {
		return err
	}
	if b.kept == nil {
		return nil
	}
	for i := range u {
		u[i] = floats.Dot(mix, x[i*m:][:m])
	}
	r, err := b.kept.Residual(u, f)
	if err == nil && !(r <= residualLimit) {
		err = fmt.Errorf("equations are not solved: residual %.2g, at most %.2g", r, residualLimit)
	}
	return err
}

// Release drops what only the residual needs.
func (b *Body) Release() { b.kept = nil }
