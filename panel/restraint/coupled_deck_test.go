package restraint

import (
	"fmt"
	"math"
	"slices"
	"strings"
)

// coupledBlock is a rectangular block of 20-node bricks on a lattice: even places are corners, one odd place is a middle.
type coupledBlock struct {
	x, y, z []float64
	nodes   map[[3]int]int
}

// Corners of a brick on its own lattice 0..2, then the middles, in the order of CalculiX.
var coupledBrick = [20][3]int{
	{0, 0, 0}, {2, 0, 0}, {2, 2, 0}, {0, 2, 0}, {0, 0, 2}, {2, 0, 2}, {2, 2, 2}, {0, 2, 2},
	{1, 0, 0}, {2, 1, 0}, {1, 2, 0}, {0, 1, 0}, {1, 0, 2}, {2, 1, 2}, {1, 2, 2}, {0, 1, 2},
	{0, 0, 1}, {2, 0, 1}, {2, 2, 1}, {0, 2, 1},
}

func coupledHalf(v []float64, i int) float64 {
	if i%2 == 0 {
		return v[i/2]
	}
	return (v[i/2] + v[i/2+1]) / 2
}

func (s *coupledBlock) at(k [3]int) (x, y, z float64) {
	return coupledHalf(s.x, k[0]), coupledHalf(s.y, k[1]), coupledHalf(s.z, k[2])
}

// node is the number of the node at a place that must be on the lattice.
func (s *coupledBlock) node(x, y, z float64) int {
	var k [3]int
	for i, v := range [3][]float64{s.x, s.y, s.z} {
		k[i] = 2 * slices.IndexFunc(v, func(q float64) bool { return math.Abs(q-[3]float64{x, y, z}[i]) < 1e-9 })
	}
	id, ok := s.nodes[k]
	if !ok {
		panic(fmt.Sprintf("no node at %g, %g, %g", x, y, z))
	}
	return id
}

// lattice calls do for every node's place in order.
func (s *coupledBlock) lattice(do func(k [3]int)) {
	for i := range 2*len(s.x) - 1 {
		for j := range 2*len(s.y) - 1 {
			for q := range 2*len(s.z) - 1 {
				if i%2+j%2+q%2 < 2 {
					do([3]int{i, j, q})
				}
			}
		}
	}
}

// coupledLines returns lines through all marks, at most cell apart.
func coupledLines(cell float64, marks ...float64) []float64 {
	slices.Sort(marks)
	marks = slices.CompactFunc(marks, func(a, b float64) bool { return math.Abs(b-a) < 1e-9 })
	out := marks[:1:1]
	for i := 1; i < len(marks); i++ {
		n := math.Ceil((marks[i]-marks[i-1])/cell - 1e-9)
		for k := 1.0; k < n; k++ {
			out = append(out, marks[i-1]+(marks[i]-marks[i-1])*k/n)
		}
		out = append(out, marks[i])
	}
	return out
}

// coupledSolid says how the solid is made.
type coupledSolid struct {
	cell   float64 // largest size of a brick, mm
	foot   int     // bricks across a patch
	layers int     // bricks through the panel, even
	face   bool    // patches act on the face; otherwise spread through the panel's thickness as in a plate
	swells bool    // the thickness moves as much as the width; otherwise not at all
	gaps   bool    // CalculiX must iterate
}

// coupledDeck writes the case for CalculiX.
type coupledDeck struct {
	b        strings.Builder
	c        coupled
	how      coupledSolid
	nodes    int
	elements int
	panels   []*coupledBlock
	battens  []*coupledBlock
	heat     strings.Builder
	slips    [][2]int  // nodes that stand for slip and lift of each fixing
	section  [][][]int // elements of each batten about each section where its moment is read

}

// block writes nodes and elements of a block; heat gives the temperature by height.
func (d *coupledDeck) block(s *coupledBlock, name string, heat func(z float64) float64) {
	s.nodes = map[[3]int]int{}
	d.b.WriteString("*NODE,NSET=NALL\n")
	s.lattice(func(k [3]int) {
		d.nodes++
		s.nodes[k] = d.nodes
		x, y, z := s.at(k)
		fmt.Fprintf(&d.b, "%d,%.12g,%.12g,%.12g\n", d.nodes, x, y, z)
		fmt.Fprintf(&d.heat, "%d,%.12g\n", d.nodes, heat(z))
	})
	fmt.Fprintf(&d.b, "*ELEMENT,TYPE=C3D20R,ELSET=%s\n", name)
	for i := range len(s.x) - 1 {
		for j := range len(s.y) - 1 {
			for q := range len(s.z) - 1 {
				d.elements++
				fmt.Fprintf(&d.b, "%d", d.elements)
				for n, o := range coupledBrick {
					if n == 15 {
						d.b.WriteString(",\n")
					} else {
						d.b.WriteString(",")
					}
					fmt.Fprintf(&d.b, "%d", s.nodes[[3]int{2*i + o[0], 2*j + o[1], 2*q + o[2]}])
				}
				d.b.WriteString("\n")
			}
		}
	}
}

// wood writes a material; x, y, z are the axes of the panel.
func (d *coupledDeck) wood(name string, e, nu, g, grow [3]float64) {
	fmt.Fprintf(&d.b, "*MATERIAL,NAME=M%s\n*ELASTIC,TYPE=ENGINEERING CONSTANTS\n%g,%g,%g,%g,%g,%g,%g,%g\n%g,0\n*EXPANSION,TYPE=ORTHO\n%g,%g,%g\n",
		name, e[0], e[1], e[2], nu[0], nu[1], nu[2], g[0], g[1], g[2], grow[0], grow[1], grow[2])
	fmt.Fprintf(&d.b, "*SOLID SECTION,ELSET=%s,MATERIAL=M%s\n", name, name)
}

// coupledPart is a node's part in a mean.
type coupledPart struct {
	node int
	by   float64
}

// patch returns the mean over a square of the block's face at height z, or of all heights weighted as a plate's
// movement of that face: U + z TurnX is the mean of (1 + 12 z z'/t^2) u over heights z'.
func (s *coupledBlock) patch(x, y, foot, z float64, face, turn bool) (out []coupledPart) {
	sum := map[int]float64{}
	t, mid := s.z[len(s.z)-1]-s.z[0], (s.z[len(s.z)-1]+s.z[0])/2
	in := func(a, b, c float64) bool { return a > c-foot/2-1e-9 && b < c+foot/2+1e-9 }
	for i := range len(s.x) - 1 {
		for j := range len(s.y) - 1 {
			if !in(s.x[i], s.x[i+1], x) || !in(s.y[j], s.y[j+1], y) {
				continue
			}
			area := (s.x[i+1] - s.x[i]) * (s.y[j+1] - s.y[j]) / (foot * foot)
			for q := range len(s.z) - 1 {
				for _, o := range coupledBrick {
					id := s.nodes[[3]int{2*i + o[0], 2*j + o[1], 2*q + o[2]}]
					h := s.z[q+1] - s.z[q]
					if !face {
						f, c := coupledMean(o)
						w := f
						if turn {
							w = f*(1+12*(z-mid)*((s.z[q]+s.z[q+1])/2-mid)/(t*t)) + c*h/2*12*(z-mid)/(t*t)
						}
						sum[id] += area * h / t * w
						continue
					}
					if zz := coupledHalf(s.z, 2*q+o[2]); math.Abs(zz-z) < 1e-9 && o[2] != 1 {
						if o[0] == 1 || o[1] == 1 {
							sum[id] += area / 3
						} else {
							sum[id] -= area / 12
						}
					}
				}
			}
		}
	}
	total := 0.0
	s.lattice(func(k [3]int) {
		if v := sum[s.nodes[k]]; v != 0 {
			out = append(out, coupledPart{s.nodes[k], v})
			total += v
		}
	})
	if math.Abs(total-1) > 1e-9 {
		panic(fmt.Sprintf("patch at %g, %g: shares add up to %g", x, y, total))
	}
	return out
}

// coupledMean returns the mean of a brick's shape function, and that of it times zeta, -1..1.
func coupledMean(o [3]int) (f, zeta float64) {
	p := [3]float64{float64(o[0] - 1), float64(o[1] - 1), float64(o[2] - 1)}
	g := math.Sqrt(0.6)
	for _, a := range [3]float64{-g, 0, g} {
		for _, b := range [3]float64{-g, 0, g} {
			for _, c := range [3]float64{-g, 0, g} {
				w := 1.0
				q := [3]float64{a, b, c}
				n, odd, dot := 1.0, false, -2.0
				for i := range 3 {
					if q[i] == 0 {
						w *= 8. / 18
					} else {
						w *= 5. / 18
					}
					if p[i] == 0 {
						n *= 1 - q[i]*q[i]
						odd = true
					} else {
						n *= 1 + p[i]*q[i]
					}
					dot += p[i] * q[i]
				}
				if odd {
					n /= 4
				} else {
					n *= dot / 8
				}
				f += w * n
				zeta += w * n * c
			}
		}
	}
	return f, zeta
}

// relative makes the first movement of a new node the panel's mean less the batten's, in one direction.
func (d *coupledDeck) relative(x, y float64, dof int, panel, batten []coupledPart) int {
	d.nodes++
	fmt.Fprintf(&d.b, "*NODE,NSET=OUT\n%d,%g,%g,-100\n*EQUATION\n%d\n%d,1,-1", d.nodes, x, y, 1+len(panel)+len(batten), d.nodes)
	n := 1
	term := func(id int, by float64) {
		if n++; n%4 == 1 {
			d.b.WriteString("\n")
		} else {
			d.b.WriteString(",")
		}
		fmt.Fprintf(&d.b, "%d,%d,%.12g", id, dof, by)
	}
	for _, s := range panel {
		term(s.node, s.by)
	}
	for _, s := range batten {
		term(s.node, -s.by)
	}
	d.b.WriteString("\n")
	return d.nodes
}

// hold puts a law on the first movement of a node: a spring from a node that stands still, whose stretch is the
// movement. (The tangent of a nonlinear SPRING1 is wrong in CalculiX 2.20: it reads a length that was never set.)
func (d *coupledDeck) hold(node int, x, y float64, h Hold) {
	d.elements++
	d.nodes++
	fmt.Fprintf(&d.b, "*NODE\n%d,%g,%g,-100\n*BOUNDARY\n%d,1,3\n%d,2,3\n", d.nodes, x-coupledSpring, y, d.nodes, node)
	fmt.Fprintf(&d.b, "*ELEMENT,TYPE=SPRINGA,ELSET=S%d\n%d,%d,%d\n", d.elements, d.elements, d.nodes, node)
	if !d.how.gaps {
		fmt.Fprintf(&d.b, "*SPRING,ELSET=S%d\n\n%.6f\n", d.elements, h.Stiff)
		return
	}
	fmt.Fprintf(&d.b, "*SPRING,ELSET=S%d,NONLINEAR\n", d.elements)
	last := math.Inf(-1)
	for _, s := range []float64{-coupledSpring / 2, -h.Play, h.Play, coupledSpring / 2} {
		if s > last {
			fmt.Fprintf(&d.b, "%.6f,%.6f\n", h.stop(0, s), s)
		}
		last = s
	}
}

// coupledSpring is the length of a fixing's spring, mm: far above every movement, so that its table is never left.
const coupledSpring = 1e4

// coupledApartBlock is a block apart, held at all corners, of a material that could yield: it makes CalculiX iterate with
// small movements, which springs alone do not.
const coupledApartBlock = `*NODE,NSET=APART
900001,1000,0,0
900002,1010,0,0
900003,1010,10,0
900004,1000,10,0
900005,1000,0,10
900006,1010,0,10
900007,1010,10,10
900008,1000,10,10
*ELEMENT,TYPE=C3D8,ELSET=EAPART
900001,900001,900002,900003,900004,900005,900006,900007,900008
*MATERIAL,NAME=MAPART
*ELASTIC
1000,0.3
*PLASTIC
1e6,0
*SOLID SECTION,ELSET=EAPART,MATERIAL=MAPART
*BOUNDARY
APART,1,3
*NSET,NSET=NALL
APART
`
