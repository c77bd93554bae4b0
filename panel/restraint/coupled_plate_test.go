package restraint

import (
	"testing"

	"github.com/stretchr/testify/require"

	"crossgrain/panel/internal/plan"
)

// condense meshes the panel and condenses it to U, TurnX and W of each patch, with the loads that move it.
func (c *coupled) condense(t *testing.T, cell float64) (*plan.Condensed, []float64) {
	t.Helper()
	l := plan.Layout{Plates: c.plates, Length: c.length, CellX: cell, CellY: cell}
	var patches []plan.Patch
	for _, b := range c.battens {
		for _, f := range b.fix {
			patches = append(patches, plan.Patch{X: f.x, Y: b.y, Length: c.foot})
		}
	}
	l.Follow(patches, 4)
	m, err := plan.NewModel(l)
	require.NoError(t, err)
	var targets []plan.Target
	for _, p := range patches {
		for _, way := range []plan.Way{plan.U, plan.TurnX, plan.W} {
			v, err := m.Mean(p, way)
			require.NoError(t, err)
			targets = append(targets, v)
		}
	}
	d, err := m.Condense(targets)
	require.NoError(t, err)
	load := make([]float64, d.Loads)
	for i := range c.plates {
		load[m.LoadOf(i, plan.StrainX)], load[m.LoadOf(i, plan.BendX)] = c.strain[i], c.curve[i]
		load[m.LoadOf(i, plan.StrainL)], load[m.LoadOf(i, plan.BendL)] = c.along*c.strain[i], c.along*c.curve[i]
	}
	return d, load
}

// join adds the battens to the body, and lists their fixings.
func (c *coupled) join(t *testing.T, body Body, free []float64) (Body, []Mount) {
	t.Helper()
	var mounts []Mount
	row := 0
	for _, b := range c.battens {
		var touches []Touch
		for _, f := range b.fix {
			slip, lift := f.slip, f.lift
			slip.Row, lift.Row = row, row+1
			free[row] -= b.strain * (f.x - b.fix[0].x)
			touches = append(touches, Touch{X: f.x, Slip: row, Lift: row + 1, Turn: -1})
			mounts = append(mounts, Mount{X: f.x, Y: b.y, Slip: &slip, Lift: &lift})
			row += 2
		}
		var err error
		body, err = body.WithBar(b.bar(), b.depth/2, touches)
		require.NoError(t, err)
	}
	return body, mounts
}

// coupledPlate is the program's side of the comparison.
func coupledPlate(t *testing.T, c coupled, cell float64) coupledAnswer {
	t.Helper()
	d, load := c.condense(t, cell)
	body, free := c.body(d, load)
	c.yield(body)
	body, mounts := c.join(t, body, free)
	march, err := NewMarch(body, mounts)
	require.NoError(t, err)
	var st Situation
	_, err = march.Step(Incoming{Free: free}, &st)
	require.NoError(t, err)
	a := coupledAnswer{}
	for i := range mounts {
		a["slip"], a["lift"] = append(a["slip"], st.Move[2*i]), append(a["lift"], st.Move[2*i+1])
	}
	c.read(a)
	for i := range mounts {
		require.InDelta(t, st.Force[2*i], a["slip_force"][i], 1e-6)
		require.InDelta(t, st.Force[2*i+1], a["lift_force"][i], 1e-6)
	}
	c.bend(a)
	c.shape(t, a, d, load, &st)
	return a
}

func (b coupledBatten) bar() Bar { return Bar{E: b.ex, G: b.gxz, Width: b.width, Depth: b.depth} }

// body takes the panel's targets U, TurnX, W of each patch to slip at the back face and lift.
func (c *coupled) body(d *plan.Condensed, load []float64) (Body, []float64) {
	z := -c.plates[0].Thickness / 2
	n := d.N / 3 * 2
	parts := func(i int) (at [2]int, by [2]float64) {
		if i%2 == 0 {
			return [2]int{i / 2 * 3, i/2*3 + 1}, [2]float64{1, z}
		}
		return [2]int{i/2*3 + 2, 0}, [2]float64{1, 0}
	}
	b := Body{N: n, C: make([]float64, n*n), Motions: d.Motions, R: make([]float64, n*d.Motions)}
	free := make([]float64, n)
	all := d.Movement(nil, load, nil)
	for i := range n {
		ai, bi := parts(i)
		for p := range 2 {
			free[i] += bi[p] * all[ai[p]]
			for k := range d.Motions {
				b.R[i*d.Motions+k] += bi[p] * d.Rigid[ai[p]*d.Motions+k]
			}
			for j := range n {
				aj, bj := parts(j)
				for q := range 2 {
					b.C[i*n+j] += bi[p] * bj[q] * d.F[ai[p]*d.N+aj[q]]
				}
			}
		}
	}
	return b, free
}

// yield adds what wood yields under a patch on the face.
func (c *coupled) yield(b Body) {
	i := 0
	for _, q := range c.battens {
		for _, f := range q.fix {
			if c.yields != nil {
				y := c.yields[c.board(f.x)]
				b.C[i*b.N+i] += y[0]
				b.C[i*b.N+i+1] += y[1]
				b.C[(i+1)*b.N+i] += y[1]
				b.C[(i+1)*b.N+i+1] += y[2]
			}
			i += 2
		}
	}
}

// board is the board at x.
func (c *coupled) board(x float64) int {
	i := 0
	for ; x > c.plates[i].Width; i++ {
		x -= c.plates[i].Width
	}
	return i
}

// bend reads moment and deflection of the battens from the forces on them: M from what stands to the right of x,
//
//	M = sum [P (a - x) - face Q],   w,xx = M/EI
//
// deflection at the middle against the outer fixings.
func (c *coupled) bend(a coupledAnswer) {
	i := 0
	for _, b := range c.battens {
		n := len(b.fix)
		moment := func(x float64) (m float64) {
			for k, f := range b.fix {
				if f.x > x {
					m += a["lift_force"][i+k]*(f.x-x) - b.depth/2*a["slip_force"][i+k]
				}
			}
			return m
		}
		x0, x1 := b.fix[0].x, b.fix[n-1].x
		const steps = 400
		h := (x1 - x0) / steps
		w, slope := make([]float64, steps+1), 0.0
		for k := range steps {
			q := moment(x0+h*(float64(k)+0.5)) / b.bar().bending()
			w[k+1] = w[k] + h*slope + h*h/2*q
			slope += h * q
		}
		mid := w[steps/2] - (w[0]+w[steps])/2
		sag, k := 0.0, b.bar().shear()
		for j, f := range b.fix { // at the middle, less half of that at the outer end
			sag += a["lift_force"][i+j] * k * (min(f.x, (x0+x1)/2) - x0 - (f.x-x0)/2)
		}
		mid += sag
		for _, x := range coupledSections {
			a["batten_moment"] = append(a["batten_moment"], moment(x))
		}
		a["batten_deflection"] = append(a["batten_deflection"], mid)
		i += n
	}
}

// shape reads the panel's heights over the plane through three corners and the change of its width.
func (c *coupled) shape(t *testing.T, a coupledAnswer, d *plan.Condensed, load []float64, st *Situation) {
	t.Helper()
	force := make([]float64, d.N)
	for i := range d.N / 3 {
		s, l := st.Force[2*i], st.Force[2*i+1]
		force[3*i], force[3*i+1], force[3*i+2] = -s, s*c.plates[0].Thickness/2, -l
	}
	s, err := d.Shape(force, load, nil)
	require.NoError(t, err)
	w := 0.0
	for _, p := range c.plates {
		w += p.Width
	}
	height := func(x, y float64) float64 { return s.Move(x, y, false)[plan.W] }
	for _, p := range coupledShapeAt {
		a["height"] = append(a["height"], overCorners(height, w, c.length, p[0], p[1]))
	}
	for _, y := range coupledWidthAt {
		a["width"] = append(a["width"], s.Move(w, y, false)[plan.U]-s.Move(0, y, false)[plan.U])
	}
}

// overCorners is the height over the plane through three corners of a panel w by l.
func overCorners(height func(x, y float64) float64, w, l, x, y float64) float64 {
	o := height(0, 0)
	return height(x, y) - o - (height(w, 0)-o)*x/w - (height(0, l)-o)*y/l
}
