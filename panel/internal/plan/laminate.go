package plan

import (
	"fmt"
	"math"
)

// Plate is one board of the panel seen from the front, from the left: its wood, and where its
// thickness lies. Stiffnesses in MPa, lengths in mm.
type Plate struct {
	Width     float64 // across the grain
	Thickness float64
	// Centre is the height of mid-thickness above the plane in which the movements are read. Boards
	// flush at the front face z = f have Centre = f - Thickness/2; nil when mid-planes are flush.
	Centre   float64
	EX, EL   float64 // across and along the grain
	GXL      float64 // shear in the face: between across and along
	GXZ, GLZ float64 // shear through the thickness: rolling shear, and along the grain
	NuLX     float64 // shortening across for a stretch along the grain, per stretch
	// ShearYield is the share, 0 to 1, that the three shear moduli have in the yielding of EX: they
	// fall to 1/[1 + (s-1) ShearYield]. Rolling shear of spruce at 65 % RH crept 0.50 to 0.65 of its
	// first strain where tension across crept 1.95 (Maas & Wittel, open data): about 0.3; shear along
	// the grain was not measured (assumption).
	ShearYield float64
	Density    float64 // g/cm3, for own weight; nil = weightless
	Ground     Ground
}

// Ground is an isotropic layer on the painted face; its stiffness enters here and nowhere else.
type Ground struct {
	Thickness, E, Nu float64
	Yields           bool // its modulus falls as that of the wood across the grain
}

// shearShare corrects the even shear strain through the thickness (E. Reissner 1945: 5/6).
const shearShare = 5.0 / 6

// creptPlate returns the board after its wood has yielded by the factor s, 1 = short loading:
// the modulus across the grain falls to 1/s, those in shear by their share in it; the one along the
// grain stays, and so does a ground unless it yields.
func (p Plate) creptPlate(s float64) Plate {
	q := 1 + (s-1)*p.ShearYield
	if p.Ground.Yields {
		p.Ground.E /= s
	}
	p.EX, p.GXL, p.GXZ, p.GLZ = p.EX/s, p.GXL/q, p.GXZ/q, p.GLZ/q
	return p
}

func (p Plate) valid() error {
	for _, q := range []struct {
		name string
		v    float64
		unit string
	}{
		{"width", p.Width, "mm"},
		{"thickness", p.Thickness, "mm"},
		{"modulus across the grain", p.EX, "MPa"},
		{"modulus along the grain", p.EL, "MPa"},
		{"shear modulus in the face", p.GXL, "MPa"},
		{"rolling shear modulus", p.GXZ, "MPa"},
		{"shear modulus along the grain through the thickness", p.GLZ, "MPa"},
	} {
		if !(q.v > 0) || math.IsInf(q.v, 0) {
			return fmt.Errorf("%s must be above 0 %s, got %g", q.name, q.unit, q.v)
		}
	}
	if !(p.ShearYield >= 0 && p.ShearYield <= 1) {
		return fmt.Errorf("share of shear in the yielding must be 0 to 1, got %g", p.ShearYield)
	}
	if !(p.NuLX*p.NuLX*p.EX < p.EL) {
		return fmt.Errorf("poisson number %g is too large for the moduli %g and %g MPa", p.NuLX, p.EX, p.EL)
	}
	if !(p.Density >= 0) || math.IsInf(p.Density, 0) || math.IsNaN(p.Centre) || math.IsInf(p.Centre, 0) {
		return fmt.Errorf("density must be 0 g/cm3 or more and the centre finite, got %g and %g mm", p.Density, p.Centre)
	}
	if g := p.Ground; g.Thickness != 0 && !(g.Thickness > 0 && g.E > 0 && g.Nu > -1 && g.Nu < 0.5) {
		return fmt.Errorf("ground must have a thickness and a modulus above 0 and a Poisson number of -1 to 0.5, got %g mm, %g MPa, %g",
			g.Thickness, g.E, g.Nu)
	}
	return nil
}

// m3 is a symmetric 3 x 3 matrix over xx, yy, xy.
type m3 [3][3]float64

// plane returns the stiffness of an orthotropic sheet, stress yy along the grain.
func plane(ex, el, nulx, g float64) m3 {
	d := 1 - nulx*nulx*ex/el
	return m3{{ex / d, nulx * ex / d, 0}, {nulx * ex / d, el / d, 0}, {0, 0, g}}
}

func (a *m3) add(q *m3, f float64) {
	for i := range 3 {
		for j := range 3 {
			a[i][j] += f * q[i][j]
		}
	}
}

func (a *m3) times(v [3]float64) (out [3]float64) {
	for i := range 3 {
		out[i] = a[i][0]*v[0] + a[i][1]*v[1] + a[i][2]*v[2]
	}
	return out
}

// laminate holds the stiffness of a board per unit of face: N = A e + B k, M = B e + D k, shear
// force = S times the shear strain through the thickness; f likewise gives the forces that hold a
// free strain and curvature of the wood alone.
type laminate struct {
	a, b, d    m3
	fa, fb, fd m3 // wood alone
	fc         m3 // moment for a free strain; fb itself unless taken apart
	sx, sy     float64
	weight     float64 // N/mm2
}

// gravity in N per g/cm3 and mm3: 9.81 m/s2 (standard value 9.80665).
const gravity = 9.80665e-6

func (p Plate) laminate() laminate {
	var l laminate
	q, t := plane(p.EX, p.EL, p.NuLX, p.GXL), p.Thickness
	l.layer(&q, t, p.Centre)
	l.fa, l.fb, l.fc, l.fd = l.a, l.b, l.b, l.d
	l.sx, l.sy = shearShare*p.GXZ*t, shearShare*p.GLZ*t
	if g := p.Ground; g.Thickness > 0 {
		q := plane(g.E, g.E, g.Nu, g.E/(2*(1+g.Nu)))
		l.layer(&q, g.Thickness, p.Centre+(t+g.Thickness)/2)
	}
	l.weight = p.Density * gravity * t
	return l
}

// layer adds a layer of thickness t with its middle at z.
func (l *laminate) layer(q *m3, t, z float64) {
	l.a.add(q, t)
	l.b.add(q, t*z)
	l.d.add(q, t*z*z+t*t*t/12)
}

// part takes stretching and bending apart: bending goes about the plane, one for each direction, in
// which it brings no force, and the movement in the face is that of this plane. The free strain and
// curvature are brought to it. Exact when that plane is the same for all directions.
func (l *laminate) part() {
	c := [3][3]float64{} // inverse of A times B
	det := l.a[0][0]*l.a[1][1] - l.a[0][1]*l.a[1][0]
	for j := range 3 {
		c[0][j] = (l.a[1][1]*l.b[0][j] - l.a[0][1]*l.b[1][j]) / det
		c[1][j] = (l.a[0][0]*l.b[1][j] - l.a[1][0]*l.b[0][j]) / det
		c[2][j] = l.b[2][j] / l.a[2][2]
	}
	shift := func(e, k *m3) m3 { // k - c^T e
		out := *k
		for i := range 3 {
			for j := range 3 {
				for q := range 3 {
					out[i][j] -= c[q][i] * e[q][j]
				}
			}
		}
		return out
	}
	l.d = shift(&l.b, &l.d)
	l.fd = shift(&l.fb, &l.fd)
	// a strain at the reference plane bends a board with ground: that stays as a moment
	l.fc = shift(&l.fa, &l.fb)
	l.b = m3{}
}

// neutral returns how high above the wood's middle the plane lies, across the grain, in which bending
// brings no force: 0 without a ground.
func (l *laminate) neutral() float64 {
	det := l.a[0][0]*l.a[1][1] - l.a[0][1]*l.a[1][0]
	return (l.a[1][1]*l.b[0][0] - l.a[0][1]*l.b[1][0]) / det
}
