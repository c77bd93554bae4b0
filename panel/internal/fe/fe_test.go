package fe

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"crossgrain/tables"
)

var spruce = Ortho{ER: 1000, ET: 500, EL: 10000, GRT: 60, NuRT: 0.6, NuLR: 0.4, NuLT: 0.5}

func even(d Stiffness) Law { return func(_ int, _, _ float64, out *Stiffness) { *out = d } }

func TestBandAgainstKnownFactor(t *testing.T) {
	b, err := NewBand(4, 2)
	require.NoError(t, err)
	for i := range 4 {
		b.Add(i, i, 4)
		for j := i + 1; j < 4; j++ {
			assert.Equal(t, j-i <= 2, b.Add(j, i, -1/float64(j-i)))
		}
	}
	x := []float64{1, 10, 2, 20, 3, 30, 4, 40}
	f := make([]float64, 8)
	for i := range 4 {
		for j := range 4 {
			f[2*i] += b.At(i, j) * x[2*j]
			f[2*i+1] += b.At(i, j) * x[2*j+1]
		}
	}
	require.Error(t, b.SolveRows(f, 2), "not factored")
	require.NoError(t, b.Factor())
	require.Error(t, b.Factor())
	require.Error(t, b.SolveRows(f, 3), "sizes")
	require.NoError(t, b.SolveRows(f, 2))
	assert.InDeltaSlice(t, x, f, 1e-13)
}

func TestRefusals(t *testing.T) {
	_, err := NewBand(3, 3)
	require.ErrorContains(t, err, "half-bandwidth")
	b, _ := NewBand(2, 1)
	b.Add(0, 0, 1)
	b.Add(0, 1, 2)
	b.Add(1, 1, 1)
	require.ErrorContains(t, b.Factor(), "not positive definite")
	b, _ = NewBand(2, 1)
	b.Add(0, 0, math.NaN())
	require.ErrorContains(t, b.Factor(), "must be finite")
	_, err = Ortho{ER: 1, ET: 1, EL: 1, GRT: 0}.Stiffness()
	require.ErrorContains(t, err, "rolling shear modulus")
	_, err = Ortho{ER: 1000, ET: 500, EL: 10000, GRT: 60, NuRT: 2}.Stiffness()
	require.ErrorContains(t, err, "too large")
	m := Block(1, 1, func(u, v float64) (float64, float64) { return u, v })
	_, err = NewBody(m, even(iso(t, 1, 0.3)), nil)
	require.ErrorContains(t, err, "can move")
	m.X[0], m.X[7] = 5, 5
	_, err = NewBody(m, even(iso(t, 1, 0.3)), []int{0, 1, 5})
	require.ErrorContains(t, err, "inside out")
}

func iso(t *testing.T, e, nu float64) Stiffness {
	d, err := Isotropic(e, nu).Stiffness()
	require.NoError(t, err)
	return d
}

// Stiffness times compliance is one, and turning by a quarter swaps R and T.
func TestStiffness(t *testing.T) {
	d, err := spruce.Stiffness()
	require.NoError(t, err)
	e := d.Stress([4]float64{1. / 1000, -0.6 / 1000, 0, -0.04 / 1000}) // 1 MPa along R
	assert.InDeltaSlice(t, []float64{1, 0, 0, 0}, e[:], 1e-12)
	var q Stiffness
	d.Turned(0, 1, &q)
	assert.InDelta(t, d[0][0], q[1][1], 1e-9)
	assert.InDelta(t, d[0][3], q[1][3], 1e-9)
	// turning stiffness and turning stress agree
	c, s := math.Cos(0.7), math.Sin(0.7)
	d.Turned(c, s, &q)
	strain := [4]float64{0.01, -0.02, 0.03, 0.004}
	local := [4]float64{c*c*0.01 - s*s*0.02 + c*s*0.03, s*s*0.01 - c*c*0.02 - c*s*0.03, -2*c*s*0.03 + (c*c-s*s)*0.03, 0.004}
	want, got := ToSection(d.Stress(local), c, s), q.Stress(strain)
	assert.InDeltaSlice(t, want[:], got[:], 1e-10)
	back := ToWood(want, c, s)
	l := d.Stress(local)
	assert.InDeltaSlice(t, l[:], back[:], 1e-10)
}

// Free swelling of turned wood in elements out of shape leaves no stress, along the grain neither.
func TestHygroPatch(t *testing.T) {
	m := Block(3, 3, func(u, v float64) (float64, float64) {
		return 10 * (u + 0.15*u*(1-u)*math.Sin(5*v)), 6 * (v + 0.1*v*(1-v)*math.Cos(4*u) + 0.2*u)
	})
	for i := range m.El { // straight sides
		el := m.El[i]
		for k := range 4 {
			a, b := el[k], el[(k+1)%4]
			m.X[el[4+k]], m.Z[el[4+k]] = (m.X[a]+m.X[b])/2, (m.Z[a]+m.Z[b])/2
		}
	}
	wood, err := spruce.Stiffness()
	require.NoError(t, err)
	c, s := math.Cos(0.6), math.Sin(0.6)
	var d Stiffness
	wood.Turned(c, s, &d)
	a := m.Nearest(0, 0)
	b := m.Nearest(10, 1.2)
	body, err := NewBody(m, even(d), []int{2 * a, 2*a + 1, 2*b + 1})
	require.NoError(t, err)
	free := ToSection(wood.Stress([4]float64{0.012, 0.024, 0, 0.0007}), c, s)
	u, g := make([]float64, 2*len(m.X)), make([][3]float64, 1)
	for e := range m.El {
		y := body.Load(u, 1, 0, e, nil, func(_, _ float64) [4]float64 { return free })
		for l := range 3 {
			g[0][l] += y[l]
		}
	}
	require.NoError(t, body.SolveAlong(u, g))
	assert.InDelta(t, 0.0007, g[0][0], 1e-12)
	worst := 0.0
	for e := range m.El {
		for _, p := range Gauss2() {
			t := stress(body, &p, e, u, d, g[0])
			for i := range t {
				worst = math.Max(worst, math.Abs(t[i]-free[i]))
			}
		}
	}
	assert.Less(t, worst, 1e-10*1000, "MPa; modulus 1000 times strain 1e-10")
}

func stress(b *Body, p *Point, e int, u []float64, d Stiffness, q [3]float64) [4]float64 {
	var x, z [8]float64
	var g Grad
	var ue [16]float64
	b.Mesh.Nodes(e, &x, &z)
	p.In(&x, &z, &g)
	for i, n := range b.Mesh.El[e] {
		ue[2*i], ue[2*i+1] = u[2*n], u[2*n+1]
	}
	xx, zz, xz := g.Strain(&ue)
	return d.Stress([4]float64{xx, zz, xz, q[0] + q[1]*g.X + q[2]*g.Z})
}

// Cook's membrane, plane stress; expected values of an independent program, rows of checks_mechanics.
func TestCook(t *testing.T) {
	tab := tables.MustRead("checks_mechanics")
	want := map[string]float64{}
	for _, r := range tab.Rows {
		v, _ := r.Float("expected")
		want[r.Text("id")] = v
	}
	for id, n := range map[string]int{"COOK-Q8-2": 2, "COOK-Q8-4": 4, "COOK-Q8-16": 16, "COOK-Q8-32": 32} {
		got, err := Cook(n)
		require.NoError(t, err)
		assert.InDelta(t, want[id], got, 0.001, id)
	}
	got, err := Cook(64)
	require.NoError(t, err)
	assert.InDelta(t, want["COOK-REF"], got, 0.001)
}

// A sector of a shrinking ring, free on all sides, holds no stress and turns its sides towards or from one another: the
// slit that frees a disc. Plane stress.
func TestSlitOpens(t *testing.T) {
	wood, err := Ortho{ER: 1046, ET: 693, EL: 14070, GRT: 54, NuRT: 0.4915}.Stiffness()
	require.NoError(t, err)
	wood = wood.PlaneStress()
	free := wood.Stress([4]float64{-0.012, -0.024, 0, 0})
	const nr, nt = 24, 6
	wedge := math.Pi / 6
	m := Block(nt, nr, func(u, v float64) (float64, float64) {
		r, a := 10*math.Pow(10, v), wedge*(u-0.5)
		return r * math.Sin(a), r * math.Cos(a)
	})
	law := func(_ int, x, z float64, d *Stiffness) {
		r := math.Hypot(x, z)
		wood.Turned(x/r, z/r, d)
	}
	load := func(b *Body) []float64 {
		u := make([]float64, 2*len(m.X))
		for e := range m.El {
			b.Load(u, 1, 0, e, nil, func(x, z float64) [4]float64 {
				r := math.Hypot(x, z)
				return ToSection(free, x/r, z/r)
			})
		}
		return u
	}
	// slit: a sector free on all sides closes or opens its angle by (eT - eR) and holds no stress
	a, b := m.Nearest(0, 10), m.Nearest(0, 100)
	body, err := NewBody(m, law, []int{2 * a, 2*a + 1, 2 * b})
	require.NoError(t, err)
	u := load(body)
	require.NoError(t, body.Solve(u, 1))
	c, s := math.Cos(wedge/2), math.Sin(wedge/2)
	e := m.Nearest(100*s, 100*c)
	f := m.Nearest(10*s, 10*c)
	turn := ((u[2*e]-u[2*f])*c - (u[2*e+1]-u[2*f+1])*s) / 90
	// a slit of the whole circle opens by 2 pi r |eT - eR| = 7.54 mm at r = 100
	assert.InDelta(t, 7.5398, -turn*2*math.Pi/(wedge/2)*100, 0.0005)
}

// A quarter of a closed ring, its cut sides held by symmetry.
func TestClosedRing(t *testing.T) {
	wood, err := Ortho{ER: 1046, ET: 693, EL: 14070, GRT: 54, NuRT: 0.4915}.Stiffness()
	require.NoError(t, err)
	wood = wood.PlaneStress()
	free := wood.Stress([4]float64{-0.012, -0.024, 0, 0})
	m := Block(24, 24, func(u, v float64) (float64, float64) {
		r, a := 10*math.Pow(10, v), math.Pi/2*u
		return r * math.Sin(a), r * math.Cos(a)
	})
	var held []int
	for i := range m.X {
		if math.Abs(m.X[i]) < 1e-9 {
			held = append(held, 2*i)
		}
		if math.Abs(m.Z[i]) < 1e-9 {
			held = append(held, 2*i+1)
		}
	}
	body, err := NewBody(m, func(_ int, x, z float64, d *Stiffness) {
		r := math.Hypot(x, z)
		wood.Turned(x/r, z/r, d)
	}, held)
	require.NoError(t, err)
	u := make([]float64, 2*len(m.X))
	for e := range m.El {
		body.Load(u, 1, 0, e, nil, func(x, z float64) [4]float64 {
			r := math.Hypot(x, z)
			return ToSection(free, x/r, z/r)
		})
	}
	require.NoError(t, body.Solve(u, 1))
	assert.InDelta(t, -1.78712, u[2*m.Nearest(0, 100)+1], 2e-4, "RING-U-100, closed form")
	worst := 0.0
	for e := range m.El {
		for _, p := range Gauss2() {
			var x, z [8]float64
			var g Grad
			m.Nodes(e, &x, &z)
			p.In(&x, &z, &g)
			r := math.Hypot(g.X, g.Z)
			var d Stiffness
			wood.Turned(g.X/r, g.Z/r, &d)
			s := stress(body, &p, e, u, d, [3]float64{})
			own := ToSection(free, g.X/r, g.Z/r)
			for i := range s {
				s[i] -= own[i]
			}
			w := ToWood(s, g.X/r, g.Z/r)
			sr, st := ring(r)
			worst = math.Max(worst, math.Max(math.Abs(w[0]-sr), math.Abs(w[1]-st)))
		}
	}
	assert.Less(t, worst, 0.002*17.39, "0.2 % of the largest stress, at the inner face")
}

// ring is the closed form: u = A r + B r^k + C r^-k, no radial stress at 10 and 100 mm.
func ring(r float64) (radial, hoop float64) {
	const er, et, nu, eR, eT = 1046.0, 693.0, 0.4915, -0.012, -0.024
	ntr := nu * et / er
	q := 1 - nu*ntr
	q11, q22, q12 := er/q, et/q, ntr*er/q
	k := math.Sqrt(et / er)
	a := ((q11-q12)*eR - (q22-q12)*eT) / (q11 - q22)
	sr := func(v, s, r float64) float64 { return q11*s + q12*v/r }
	base := func(r float64) float64 { return q11*(a-eR) + q12*(a-eT) }
	p := func(r float64) float64 { return sr(math.Pow(r, k), k*math.Pow(r, k-1), r) }
	n := func(r float64) float64 { return sr(math.Pow(r, -k), -k*math.Pow(r, -k-1), r) }
	det := p(10)*n(100) - p(100)*n(10)
	b := (-base(10)*n(100) + base(100)*n(10)) / det
	c := (-p(10)*base(100) + p(100)*base(10)) / det
	v := a*r + b*math.Pow(r, k) + c*math.Pow(r, -k)
	s := a + b*k*math.Pow(r, k-1) - c*k*math.Pow(r, -k-1)
	return q11*(s-eR) + q12*(v/r-eT), q12*(s-eR) + q22*(v/r-eT)
}

// A manufactured solution: movement converges with the third order, stress at the 2 x 2 points with the second.
func TestManufactured(t *testing.T) {
	wood, err := spruce.Stiffness()
	require.NoError(t, err)
	var d Stiffness
	wood.Turned(math.Cos(0.5), math.Sin(0.5), &d)
	strain := func(x, z float64) [4]float64 { // of u = sin x cos z, w = cos 2x sin z
		return [4]float64{math.Cos(x) * math.Cos(z), math.Cos(2*x) * math.Cos(z), -math.Sin(x)*math.Sin(z) - 2*math.Sin(2*x)*math.Sin(z), 0}
	}
	var eu, es [3]float64
	for k, n := range [3]int{8, 16, 32} {
		m := Block(n, n, func(u, v float64) (float64, float64) { return u + 0.05*math.Sin(6*v)*u*(1-u), v })
		for i := range m.El {
			el := m.El[i]
			for j := range 4 {
				p, q := el[j], el[(j+1)%4]
				m.X[el[4+j]], m.Z[el[4+j]] = (m.X[p]+m.X[q])/2, (m.Z[p]+m.Z[q])/2
			}
		}
		a, b := m.Nearest(0, 0), m.Nearest(1, 0)
		body, err := NewBody(m, even(d), []int{2 * a, 2*a + 1, 2*b + 1})
		require.NoError(t, err)
		u := make([]float64, 2*len(m.X))
		for e := range m.El { // free strain alike: the true movement holds no stress
			body.Load(u, 1, 0, e, nil, func(x, z float64) [4]float64 { return d.Stress(strain(x, z)) })
		}
		require.NoError(t, body.Solve(u, 1))
		// the true movement at the held corners is nil, so the frames agree
		for e := range m.El {
			for _, p := range Gauss3() {
				var x, z [8]float64
				var g Grad
				m.Nodes(e, &x, &z)
				p.In(&x, &z, &g)
				ux, uz := 0.0, 0.0
				for i, nd := range m.El[e] {
					ux += p.N[i] * u[2*nd]
					uz += p.N[i] * u[2*nd+1]
				}
				dx, dz := ux-math.Sin(g.X)*math.Cos(g.Z), uz-math.Cos(2*g.X)*math.Sin(g.Z)
				eu[k] += g.Area * (dx*dx + dz*dz)
			}
			for _, p := range Gauss3() {
				var x, z [8]float64
				var g Grad
				m.Nodes(e, &x, &z)
				p.In(&x, &z, &g)
				got, want := stress(body, &p, e, u, d, [3]float64{}), d.Stress(strain(g.X, g.Z))
				for i := range 3 {
					es[k] += g.Area * (got[i] - want[i]) * (got[i] - want[i])
				}
			}
		}
	}
	for k := range 2 {
		assert.InDelta(t, 3, math.Log2(eu[k]/eu[k+1])/2, 0.1, "movement")
		assert.InDelta(t, 2, math.Log2(es[k]/es[k+1])/2, 0.1, "stress")
	}
}

func BenchmarkColumns(b *testing.B) {
	wood, _ := spruce.Stiffness()
	m := Block(60, 8, func(u, v float64) (float64, float64) { return 300 * u, 20 * v })
	e := 2 * (len(m.X) - 17)
	for b.Loop() {
		body, err := NewBody(m, even(wood), []int{0, 1, e + 1})
		if err != nil {
			b.Fatal(err)
		}
		x := make([]float64, 2*len(m.X)*100)
		if err := body.Solve(x, 100); err != nil {
			b.Fatal(err)
		}
	}
}
