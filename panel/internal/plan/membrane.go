package plan

import "math"

// element is the stiffness of one rectangular cell. Corners (-,-) (+,-) (+,+) (-,+); movements u, v
// in the face; w, and the turns bx, by of the normal, so that u(z) = u + z bx. Curvature is the
// slope of the turn: xx = bx,x, yy = by,y, xy = bx,y + by,x.
type element struct {
	mm  [8][8]float64   // u, v of each corner
	mb  [8][12]float64  // coupling
	bb  [12][12]float64 // w, bx, by of each corner
	all [20][20]float64 // the three together, upper half
}

// corner returns the place of corner i on the square -1..1.
func corner(i int) (xi, eta float64) {
	return [4]float64{-1, 1, 1, -1}[i], [4]float64{-1, -1, 1, 1}[i]
}

// gauss2 is the place of the two-point rule.
const gauss2 = 0.57735026918962576451

// slopes returns the shape functions' slopes at xi, eta of a rectangle a by b.
func slopes(a, b, xi, eta float64) (nx, ny [4]float64) {
	for i := range 4 {
		p, q := corner(i)
		nx[i] = p * (1 + q*eta) / (2 * a)
		ny[i] = q * (1 + p*xi) / (2 * b)
	}
	return nx, ny
}

// newElement integrates the cell a by b of the board with 2 x 2 points.
//
// Stretching: four-node rectangle with the incompatible modes 1 - xi^2 and 1 - eta^2 (E. L. Wilson
// and others 1973; exact in pure bending in its plane), eliminated here. Bending: [plateShear].
func newElement(a, b float64, l *laminate, coupled bool) element {
	var e element
	var kaa [4][4]float64
	var kau [4][20]float64
	w := a * b / 4
	for _, xi := range [2]float64{-gauss2, gauss2} {
		for _, eta := range [2]float64{-gauss2, gauss2} {
			nx, ny := slopes(a, b, xi, eta)
			sx, sy := -4*xi/a, -4*eta/b
			inner := [4][3]float64{{sx, 0, 0}, {0, 0, sy}, {0, 0, sx}, {0, sy, 0}}
			for i := range 4 {
				c := [2][3]float64{{nx[i], 0, ny[i]}, {0, ny[i], nx[i]}}
				for p := range 2 {
					sa, sb, sd := l.a.times(c[p]), l.b.times(c[p]), l.d.times(c[p])
					for k := range 4 {
						kau[k][2*i+p] += w * dot3(&inner[k], &sa)
						if coupled {
							kau[k][8+3*i+1+p] += w * dot3(&inner[k], &sb)
						}
					}
					for j := range 4 {
						e.mm[2*i+p][2*j] += w * (sa[0]*nx[j] + sa[2]*ny[j])
						e.mm[2*i+p][2*j+1] += w * (sa[1]*ny[j] + sa[2]*nx[j])
						e.bb[3*i+1+p][3*j+1] += w * (sd[0]*nx[j] + sd[2]*ny[j])
						e.bb[3*i+1+p][3*j+2] += w * (sd[1]*ny[j] + sd[2]*nx[j])
						if coupled {
							e.mb[2*i+p][3*j+1] += w * (sb[0]*nx[j] + sb[2]*ny[j])
							e.mb[2*i+p][3*j+2] += w * (sb[1]*ny[j] + sb[2]*nx[j])
						}
					}
				}
			}
			for k := range 4 {
				s := l.a.times(inner[k])
				for m := range 4 {
					kaa[k][m] += w * dot3(&inner[m], &s)
				}
			}
		}
	}
	e.plateShear(a, b, l.sx, l.sy)
	e.condense(&kaa, &kau, coupled)
	for i := range 8 {
		copy(e.all[i][:], e.mm[i][:])
		copy(e.all[i][8:], e.mb[i][:])
	}
	for i := range 12 {
		copy(e.all[8+i][8:], e.bb[i][:])
	}
	return e
}

func dot3(a, b *[3]float64) float64 { return a[0]*b[0] + a[1]*b[1] + a[2]*b[2] }

// condense takes the inner modes out: K - y^T y, y = L^-1 kau, kaa = L L^T.
func (e *element) condense(kaa *[4][4]float64, kau *[4][20]float64, coupled bool) {
	n := 8
	if coupled {
		n = 20
	}
	for p := range 4 {
		r := 1 / math.Sqrt(kaa[p][p])
		for m := p; m < 4; m++ {
			kaa[m][p] *= r
		}
		for j := range n {
			kau[p][j] *= r
		}
		for m := p + 1; m < 4; m++ {
			for q := p + 1; q <= m; q++ {
				kaa[m][q] -= kaa[m][p] * kaa[q][p]
			}
			for j := range n {
				kau[m][j] -= kaa[m][p] * kau[p][j]
			}
		}
	}
	for p := range 4 {
		y := &kau[p]
		for i := range 8 {
			for j := range 8 {
				e.mm[i][j] -= y[i] * y[j]
			}
		}
		if !coupled {
			continue
		}
		for j := range 12 {
			for i := range 8 {
				e.mb[i][j] -= y[i] * y[8+j]
			}
			for i := range 12 {
				e.bb[i][j] -= y[8+i] * y[8+j]
			}
		}
	}
}
