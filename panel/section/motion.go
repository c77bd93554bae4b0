package section

import "math"

// motion moves the points of a board without stress, up to a rigid motion.
type motion struct {
	rings      bool
	px, pz     float64 // pith
	cx, cz     float64 // unit vector from the pith to the board's middle: there the turn is nil
	kr, kt     float64 // r' = kr r, th' = kt th
	xx, xz, zz float64 // straight rings: symmetric stretch
}

func (b Board) motion(eR, eT float64) motion {
	px, pz, ok := b.Pith()
	if !ok {
		ex, ez, g := straight(b.Ring, eR, eT)
		return motion{xx: 1 + ex, zz: 1 + ez, xz: g / 2}
	}
	dx, dz := b.Width/2-px, b.Thickness/2-pz
	r := math.Hypot(dx, dz)
	// r' = r (1+eR), th' = th (1+eT)/(1+eR): both metric coefficients scale as the rings ask, and
	// the map is one-to-one in a sector that leaves the pith out.
	return motion{rings: true, px: px, pz: pz, cx: dx / r, cz: dz / r, kr: 1 + eR, kt: (1 + eT) / (1 + eR)}
}

// at returns where the point x, z goes.
func (m *motion) at(x, z float64) point {
	if !m.rings {
		return point{m.xx*x + m.xz*z, m.xz*x + m.zz*z}
	}
	dx, dz := x-m.px, z-m.pz
	along, across := dx*m.cx+dz*m.cz, dz*m.cx-dx*m.cz
	r := m.kr * math.Sqrt(dx*dx+dz*dz)
	sin, cos := math.Sincos(m.kt * math.Atan2(across, along))
	return point{m.px + r*(m.cx*cos-m.cz*sin), m.pz + r*(m.cz*cos+m.cx*sin)}
}

// point is a place in the section, or a vector.
type point struct{ x, z float64 }

func (p point) minus(q point) point           { return point{p.x - q.x, p.z - q.z} }
func (p point) plus(q point, f float64) point { return point{p.x + f*q.x, p.z + f*q.z} }
func (p point) length() float64               { return math.Sqrt(p.x*p.x + p.z*p.z) }

// frame turns and shifts: the chord from a to b comes to lie along x, a at its origin.
type frame struct {
	origin   point
	cos, sin float64
}

func chord(a, b point) (f frame, length float64) {
	d := b.minus(a)
	length = d.length()
	return frame{a, d.x / length, d.z / length}, length
}

func (f frame) place(p point) point { return f.turn(p.minus(f.origin)) }

func (f frame) turn(p point) point {
	return point{f.cos*p.x + f.sin*p.z, f.cos*p.z - f.sin*p.x}
}

// edge is an edge face of a board as a straight line fitted to it: its middle, and the vector of 1
// mm of its height.
type edge struct{ middle, up point }

// at returns the place at the height z above the middle.
func (e edge) at(z float64) point { return e.middle.plus(e.up, z) }

// turned is the angle by which the face has turned from upright.
func (e edge) turned() float64 { return math.Atan2(-e.up.x, e.up.z) }

// edgeAt fits the edge face at x by its mean and its moment, with three Gauss points: what is left
// out has neither force nor moment and does not reach far into the next board.
func (m *motion) edgeAt(x, t float64) edge {
	z := t / 2 * math.Sqrt(0.6)
	low, mid, high := m.at(x, t/2-z), m.at(x, t/2), m.at(x, t/2+z)
	d := high.minus(low)
	return edge{
		middle: point{(5*low.x + 8*mid.x + 5*high.x) / 18, (5*low.z + 8*mid.z + 5*high.z) / 18},
		up:     point{d.x / (2 * z), d.z / (2 * z)},
	}
}
