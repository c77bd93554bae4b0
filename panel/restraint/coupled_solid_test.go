package restraint

import (
	"fmt"
	"math"
)

// newDeck writes the whole case: boards with their joins tied, battens, fixings, and six movements of the panel and
// three of each batten held, which is no restraint.
func newDeck(c coupled, how coupledSolid) *coupledDeck {
	d := &coupledDeck{c: c, how: how}
	d.boards()
	for i := range d.panels[1:] {
		d.tie(d.panels[i], d.panels[i+1])
	}
	for i := range c.battens {
		d.batten(i)
	}
	d.fix()
	d.finish()
	return d
}

// across returns the lines through a patch about x.
func (d *coupledDeck) across(x float64) (out []float64) {
	for k := range d.how.foot + 1 {
		out = append(out, x+d.c.foot*(float64(k)/float64(d.how.foot)-0.5))
	}
	return out
}

func (d *coupledDeck) boards() {
	c := d.c
	t := c.plates[0].Thickness
	ys := []float64{0, c.length}
	for _, b := range c.battens {
		ys = append(ys, d.across(b.y)...)
	}
	for _, p := range coupledShapeAt {
		ys = append(ys, p[1])
	}
	ys = coupledLines(d.how.cell, append(ys, coupledWidthAt...)...)
	left := 0.0
	for i, p := range c.plates {
		right := left + p.Width
		xs := []float64{left, right}
		add := func(x float64) {
			if x > left && x < right {
				xs = append(xs, x)
			}
		}
		for _, b := range c.battens {
			for _, f := range b.fix {
				for _, x := range d.across(f.x) {
					add(x)
				}
			}
		}
		for _, q := range coupledShapeAt {
			add(q[0])
		}
		s := &coupledBlock{x: coupledLines(d.how.cell, xs...), y: ys, z: coupledLines(t/float64(d.how.layers), -t/2, t/2)}
		name := fmt.Sprintf("P%d", i)
		d.block(s, name, func(z float64) float64 { return c.strain[i] + c.curve[i]*z })
		// nu_xy = nu_LX E_x/E_L; both through the thickness are free to act
		thick := 0.0
		if d.how.swells {
			thick = 1
		}
		d.wood(name, [3]float64{p.EX, p.EL, p.EX}, [3]float64{p.NuLX * p.EX / p.EL, 0.3, 0.4}, [3]float64{p.GXL, p.GXZ, p.GLZ}, [3]float64{1, c.along, thick})
		d.panels = append(d.panels, s)
		left = right
	}
}

// tie makes the nodes of two boards' common face move as one.
func (d *coupledDeck) tie(a, b *coupledBlock) {
	far := 2*len(a.x) - 2
	a.lattice(func(k [3]int) {
		if k[0] != far {
			return
		}
		p, q := a.nodes[k], b.nodes[[3]int{0, k[1], k[2]}]
		for dof := 1; dof <= 3; dof++ {
			fmt.Fprintf(&d.b, "*EQUATION\n2\n%d,%d,1,%d,%d,-1\n", q, dof, p, dof)
		}
	})
}

func (d *coupledDeck) batten(i int) {
	b, t := d.c.battens[i], d.c.plates[0].Thickness
	xs := []float64{b.from, b.to}
	for _, x := range coupledSections {
		xs = append(xs, x-coupledSlab/2, x+coupledSlab/2)
	}
	for _, f := range b.fix {
		xs = append(xs, d.across(f.x)...)
	}
	top := -t / 2
	s := &coupledBlock{x: coupledLines(d.how.cell, xs...), y: coupledLines(d.c.foot/float64(d.how.foot), b.y-b.width/2, b.y+b.width/2),
		z: []float64{top - b.depth, top - b.depth/2, top}}
	name := fmt.Sprintf("B%d", i)
	e := d.elements
	d.block(s, name, func(float64) float64 { return b.strain })
	d.wood(name, [3]float64{b.ex, b.ez, b.ez}, [3]float64{0.35, 0.35, 0.3}, [3]float64{b.gxz, b.gxz, b.ez / 8}, [3]float64{1, 0, 0})
	d.battens = append(d.battens, s)
	var sections [][]int
	per := (len(s.y) - 1) * 2
	for _, x := range coupledSections {
		var section []int
		for k := range (len(s.x) - 1) * per {
			if q := k / per; s.x[q] > x-coupledSlab/2-1e-9 && s.x[q+1] < x+coupledSlab/2+1e-9 {
				section = append(section, e+k+1)
			}
		}
		sections = append(sections, section)
	}
	d.section = append(d.section, sections)
	z := top - b.depth/2
	fmt.Fprintf(&d.b, "*BOUNDARY\n%d,2,2\n%d,2,2\n%d,2,2\n", s.node(b.from, b.y, z), s.node(b.to, b.y, z), s.node(b.from, b.y, top))
}

// fix joins panel and battens.
func (d *coupledDeck) fix() {
	top := -d.c.plates[0].Thickness / 2
	for i, b := range d.c.battens {
		for _, f := range b.fix {
			var board *coupledBlock
			for _, s := range d.panels {
				if f.x > s.x[0] && f.x < s.x[len(s.x)-1] {
					board = s
				}
			}
			on := d.battens[i].patch(f.x, b.y, d.c.foot, top, true, true)
			slip := d.relative(f.x, b.y, 1, board.patch(f.x, b.y, d.c.foot, top, d.how.face, true), on)
			lift := d.relative(f.x, b.y, 3, board.patch(f.x, b.y, d.c.foot, top, d.how.face, false), on)
			d.hold(slip, f.x, b.y, f.slip)
			d.hold(lift, f.x, b.y, f.lift)
			d.slips = append(d.slips, [2]int{slip, lift})
		}
	}
}

// on is the node of the panel's mid-plane at x, y.
func (d *coupledDeck) on(x, y float64) int {
	for _, s := range d.panels {
		if x <= s.x[len(s.x)-1] {
			return s.node(x, y, 0)
		}
	}
	panic("off the panel")
}

func (d *coupledDeck) width() float64 {
	w := 0.0
	for _, p := range d.c.plates {
		w += p.Width
	}
	return w
}

func (d *coupledDeck) finish() {
	w := d.width()
	fmt.Fprintf(&d.b, "*BOUNDARY\n%d,1,3\n%d,2,3\n%d,3,3\n", d.on(0, 0), d.on(w, 0), d.on(0, d.c.length))
	ids := []int{d.on(0, 0), d.on(w, 0), d.on(0, d.c.length)}
	for _, p := range coupledShapeAt {
		ids = append(ids, d.on(p[0], p[1]))
	}
	for _, y := range coupledWidthAt {
		ids = append(ids, d.on(0, y), d.on(w, y))
	}
	for i := range d.battens {
		for _, n := range d.spine(i) {
			ids = append(ids, n)
		}
	}
	d.b.WriteString("*NSET,NSET=OUT\n")
	for _, n := range ids {
		fmt.Fprintf(&d.b, "%d\n", n)
	}
	d.b.WriteString("*ELSET,ELSET=SECTION\n")
	for _, sections := range d.section {
		for _, s := range sections {
			for _, e := range s {
				fmt.Fprintf(&d.b, "%d\n", e)
			}
		}
	}
	if d.how.gaps {
		d.b.WriteString(coupledApartBlock)
	}
	d.b.WriteString("*INITIAL CONDITIONS,TYPE=TEMPERATURE\nNALL,0\n*STEP\n*STATIC\n1,1\n*TEMPERATURE\n")
	d.b.WriteString(d.heat.String())
	d.b.WriteString("*NODE PRINT,NSET=OUT\nU\n*EL PRINT,ELSET=SECTION\nS\n*END STEP\n")
}

// spine returns the nodes on a batten's axis at its outer fixings and at the middle.
func (d *coupledDeck) spine(i int) [3]int {
	b := d.c.battens[i]
	n := len(b.fix)
	z := -d.c.plates[0].Thickness/2 - b.depth/2
	x0, x1 := b.fix[0].x, b.fix[n-1].x
	return [3]int{d.battens[i].node(x0, b.y, z), d.battens[i].node((x0+x1)/2, b.y, z), d.battens[i].node(x1, b.y, z)}
}

// answer reads what CalculiX printed: u of each node, sxx at the points of each element in the order of its rule.
func (d *coupledDeck) answer(u map[int][3]float64, sxx map[int][]float64) coupledAnswer {
	a := coupledAnswer{}
	for _, p := range d.slips {
		a["slip"], a["lift"] = append(a["slip"], u[p[0]][0]), append(a["lift"], u[p[1]][0])
	}
	d.c.read(a)
	for i, s := range d.battens {
		n := d.spine(i)
		a["batten_deflection"] = append(a["batten_deflection"], u[n[1]][2]-(u[n[0]][2]+u[n[2]][2])/2)
		for _, section := range d.section[i] {
			a["batten_moment"] = append(a["batten_moment"], s.moment(section, sxx))
		}
	}
	w := d.width()
	height := func(x, y float64) float64 { return u[d.on(x, y)][2] }
	for _, p := range coupledShapeAt {
		a["height"] = append(a["height"], overCorners(height, w, d.c.length, p[0], p[1]))
	}
	for _, y := range coupledWidthAt {
		a["width"] = append(a["width"], u[d.on(w, y)][0]-u[d.on(0, y)][0])
	}
	return a
}

// coupledSlab is the length of batten over which its moment is averaged, mm.
const coupledSlab = 20

// moment integrates stress times height over the bricks of a section, - sum sxx z dV / length.
func (s *coupledBlock) moment(section []int, sxx map[int][]float64) (m float64) {
	per := (len(s.y) - 1) * 2
	for k, e := range section {
		j, q := k%per/2, k%2
		v := (s.z[q+1] - s.z[q]) * (s.y[j+1] - s.y[j]) / float64(len(section)/per) / 8
		for p, stress := range sxx[e] { // two by two by two points, height slowest
			z := (s.z[q]+s.z[q+1]-s.z[0]-s.z[2])/2 + (s.z[q+1]-s.z[q])/2*math.Copysign(1/math.Sqrt(3), float64(p/4)-0.5)
			m -= stress * z * v
		}
	}
	return m
}

// newProbe writes the panel alone with a unit force in turn on slip and on lift of the middle three fixings of the first
// batten, one in each board.
func newProbe(c coupled, how coupledSolid) *coupledDeck {
	d := &coupledDeck{c: c, how: how}
	d.boards()
	for i := range d.panels[1:] {
		d.tie(d.panels[i], d.panels[i+1])
	}
	top := -c.plates[0].Thickness / 2
	for i, f := range c.battens[0].fix[1:4] {
		y, p := c.battens[0].y, d.panels[i]
		slip := d.relative(f.x, y, 1, p.patch(f.x, y, c.foot, top, how.face, true), nil)
		lift := d.relative(f.x, y, 3, p.patch(f.x, y, c.foot, top, how.face, false), nil)
		fmt.Fprintf(&d.b, "*BOUNDARY\n%d,2,3\n%d,2,3\n", slip, lift)
		d.slips = append(d.slips, [2]int{slip, lift})
	}
	fmt.Fprintf(&d.b, "*BOUNDARY\n%d,1,3\n%d,2,3\n%d,3,3\n", d.on(0, 0), d.on(d.width(), 0), d.on(0, c.length))
	d.b.WriteString("*INITIAL CONDITIONS,TYPE=TEMPERATURE\nNALL,0\n")
	for _, p := range d.slips {
		for _, n := range p {
			fmt.Fprintf(&d.b, "*STEP\n*STATIC\n*CLOAD,OP=NEW\n%d,1,1\n*NODE PRINT,NSET=OUT\nU\n*END STEP\n", n)
		}
	}
	return d
}
