package fe

import "math"

// Point is an integration point of the eight-node element on the square -1..1: its weight, the
// shape functions and their slopes. Nodes: corners (-1,-1) (1,-1) (1,1) (-1,1), then the middles of
// the sides in the same turn, from the lower one.
type Point struct {
	Xi, Eta, W   float64
	N, NXi, NEta [8]float64
}

// At returns the shape functions at xi, eta, with the weight w.
func At(xi, eta, w float64) Point {
	p := Point{Xi: xi, Eta: eta, W: w}
	cx, ce := [4]float64{-1, 1, 1, -1}, [4]float64{-1, -1, 1, 1}
	for i := range 4 {
		a, b := cx[i], ce[i]
		u, v := a*xi, b*eta
		p.N[i] = (1 + u) * (1 + v) * (u + v - 1) / 4
		p.NXi[i] = a * (1 + v) * (2*u + v) / 4
		p.NEta[i] = b * (1 + u) * (2*v + u) / 4
	}
	for i, b := range [2]float64{-1, 1} { // lower 4, upper 6
		k := 4 + 2*i
		p.N[k] = (1 - xi*xi) * (1 + b*eta) / 2
		p.NXi[k] = -xi * (1 + b*eta)
		p.NEta[k] = b * (1 - xi*xi) / 2
	}
	for i, a := range [2]float64{1, -1} { // right 5, left 7
		k := 5 + 2*i
		p.N[k] = (1 + a*xi) * (1 - eta*eta) / 2
		p.NXi[k] = a * (1 - eta*eta) / 2
		p.NEta[k] = -eta * (1 + a*xi)
	}
	return p
}

// Gauss3 returns the 3 x 3 points, eta running fastest.
func Gauss3() [9]Point {
	g := math.Sqrt(0.6)
	at, w := [3]float64{-g, 0, g}, [3]float64{5. / 9, 8. / 9, 5. / 9}
	var out [9]Point
	for i := range 3 {
		for j := range 3 {
			out[3*i+j] = At(at[i], at[j], w[i]*w[j])
		}
	}
	return out
}

// Gauss2 returns the 2 x 2 points, eta running fastest.
func Gauss2() [4]Point {
	g := 1 / math.Sqrt(3)
	return [4]Point{At(-g, -g, 1), At(-g, g, 1), At(g, -g, 1), At(g, g, 1)}
}

// Grad is a point of an element in the section: its place, its area dA, and the slopes of the shape
// functions in x and z.
type Grad struct {
	X, Z, Area float64
	NX, NZ     [8]float64
}

// In puts into g the point p of the element with the nodes x, z. It returns false when the element is
// turned inside out there.
func (p *Point) In(x, z *[8]float64, g *Grad) bool {
	var xu, xv, zu, zv float64
	g.X, g.Z = 0, 0
	for i := range 8 {
		g.X += p.N[i] * x[i]
		g.Z += p.N[i] * z[i]
		xu += p.NXi[i] * x[i]
		xv += p.NEta[i] * x[i]
		zu += p.NXi[i] * z[i]
		zv += p.NEta[i] * z[i]
	}
	det := xu*zv - xv*zu
	if !(det > 0) {
		return false
	}
	g.Area = p.W * det
	r := 1 / det
	for i := range 8 {
		g.NX[i] = (p.NXi[i]*zv - p.NEta[i]*zu) * r
		g.NZ[i] = (p.NEta[i]*xu - p.NXi[i]*xv) * r
	}
	return true
}

// Strain returns the strain xx, zz, xz of the node displacements u (x and z of each node in turn).
func (g *Grad) Strain(u *[16]float64) (xx, zz, xz float64) {
	for i := range 8 {
		xx += g.NX[i] * u[2*i]
		zz += g.NZ[i] * u[2*i+1]
		xz += g.NZ[i]*u[2*i] + g.NX[i]*u[2*i+1]
	}
	return xx, zz, xz
}

// addForce adds the node forces that balance the stress xx, zz, xz over the area w.
func (g *Grad) addForce(f *[16]float64, xx, zz, xz, w float64) {
	for i := range 8 {
		f[2*i] += w * (g.NX[i]*xx + g.NZ[i]*xz)
		f[2*i+1] += w * (g.NZ[i]*zz + g.NX[i]*xz)
	}
}

// addStiffness adds the upper triangle of the point's stiffness.
func (g *Grad) addStiffness(k *[16][16]float64, d *Stiffness) {
	for i := range 8 {
		a, b := g.NX[i]*g.Area, g.NZ[i]*g.Area
		x0, x1, x2 := a*d[0][0]+b*d[0][2], a*d[0][1]+b*d[1][2], a*d[0][2]+b*d[2][2]
		z0, z1, z2 := b*d[0][1]+a*d[0][2], b*d[1][1]+a*d[1][2], b*d[1][2]+a*d[2][2]
		kx, kz := &k[2*i], &k[2*i+1]
		for j := i; j < 8; j++ {
			nx, nz := g.NX[j], g.NZ[j]
			kx[2*j] += x0*nx + x2*nz
			kx[2*j+1] += x1*nz + x2*nx
			kz[2*j] += z0*nx + z2*nz
			kz[2*j+1] += z1*nz + z2*nx
		}
	}
}
