package section

import (
	"fmt"
	"math"

	"gonum.org/v1/gonum/floats"
)

// Out is what the section does under one set of loads. Lengths mm, stress MPa, forces N for each mm along
// the grain. Make it with [Model.NewOut] and use it again.
type Out struct {
	// Warp is the rise of the back face of the wood at [Model.Stations] over the chord through its outer
	// edges, painted face rounded positive; Cup that at mid-width, Largest the one greatest in size.
	Warp         [Places]float64
	Cup, Largest float64
	// Width is the change of the distance between the outer edges at their mid-thickness, front and back.
	Width, WidthFront, WidthBack float64
	// FrontStress and BackStress are the stress across the grain in the wood next to its faces, at the
	// depth [Model.Depth], pulled positive; FrontStrain and BackStrain the whole strain across of the
	// wood's faces, under any ground: less the ground's own free strain it is what the ground must bear.
	FrontStress, BackStress [Places]float64
	FrontStrain, BackStrain [Places]float64
	Boards                  []BoardOut
	Joins                   []JoinOut
	// Stretch is the strain along the grain at the middle of the section, Bow the curvature along the
	// grain (painted face rounded positive), Edgewise that in the plane of the panel (right edge longer
	// positive), 1/mm. All nil when the section is held along.
	Stretch, Bow, Edgewise float64
	// Twist is d2w/dx dy, 1/mm, w the rise towards the painted face: one corner stands Twist x width x
	// height out of the plane of the other three. See [Model.Eval].
	Twist float64

	v, rows, spare []float64
}

// BoardOut is one board. Strain to Warp are those of the board by itself, not glued to its neighbours: they
// drive a panel on its battens.
type BoardOut struct {
	Thickness        [3]float64        // change at left edge, middle, right edge, of the wood in the joined panel
	Strain           [Stations]float64 // across, of the mid-line, at even places from edge to edge
	Curvature        [Stations]float64 // of the mid-line, 1/mm, painted face rounded positive
	MeanStrain, Warp float64           // change of its chord over the width; rise of its middle, mm
	MeanCurvature    float64           // of the arc with that rise: 8 Warp/Width^2, 1/mm
}

// JoinOut is one join. Forces are those on the board at its left: positive Force pulls the join open.
type JoinOut struct {
	Force, Slide []float64 // at the heights of [Model.JoinHeights], N/mm; across, and upwards
	Pull, Shear  []float64 // the same as tractions, MPa; both ends are singular and grow with the mesh
	N, V, M      float64   // sums: across, upwards, and moment about the middle of the panel, front pulled, N mm/mm
}

// NewOut returns an Out of the right lengths.
func (m *Model) NewOut() *Out {
	o := new(Out)
	m.fit(o)
	return o
}

func (m *Model) fit(o *Out) {
	if len(o.Boards) == len(m.parts) && len(o.v) == m.chain.cols && len(o.Joins) == len(m.seams) && len(o.spare) >= m.rank {
		return
	}
	o.Boards, o.Joins = make([]BoardOut, len(m.parts)), make([]JoinOut, len(m.seams))
	rows := 0
	for i := range m.boards {
		rows = max(rows, m.boards[i].rows)
	}
	for i, s := range m.seams {
		n := len(s.z)
		buf := make([]float64, 4*n)
		o.Joins[i] = JoinOut{Force: buf[:n:n], Slide: buf[n : 2*n : 2*n], Pull: buf[2*n : 3*n : 3*n], Shear: buf[3*n:]}
		rows = max(rows, 2*n)
	}
	o.v, o.rows, o.spare = make([]float64, m.chain.cols), make([]float64, max(rows, perAlone)), make([]float64, m.rank)
}

// Stations returns the places of the outputs across the panel, mm.
func (m *Model) Stations() [Places]float64 { return m.x }

// Boards returns the number of boards.
func (m *Model) Boards() int { return len(m.parts) }

// JoinHeights returns the heights of the forces of join j, mm from the back of the first board upwards.
func (m *Model) JoinHeights(j int) []float64 { return m.seams[j].z }

// Depth returns how far from the face of board i its face stress is read, at mid-width, mm.
func (m *Model) Depth(i int) float64 {
	g := m.parts[i].g
	return g.share[1] * m.parts[i].t.Thickness * (1 - 1/math.Sqrt(3)) / 2
}

// Eval puts into dst the answer to the loads, one list a board as made by [Model.Fill] (length
// [Model.Loads]); loads of a wrong length give an error and leave dst as it was. An hour costs one product of
// small matrices.
//
// Small strains, elastic, stiffness as given to Build. The twist is that of boards free of one another: with
// the grain turned by f from the panel's long side, curvatures ka across and kl along the grain turn into
// (ka-kl) sin f cos f; the mean over the boards by width. The stiffness of the joins against twist is left
// out, so it is an upper bound for boards that slope unlike.
func (m *Model) Eval(dst *Out, loads [][]float64) error { return m.eval(dst, loads, 0, 0, 1) }

// Unit returns the answers to a pull N of 1 N/mm across the panel, acting at the middle of the first
// board's thickness, and to a moment M of 1 N mm/mm that pulls the painted face, both on the outer edges and
// so alike at every place across. Multiply by N(x), M(x) of a restraint to get what it adds to strain and
// stress at x.
func (m *Model) Unit() (n, mo *Out, err error) {
	n, mo = m.NewOut(), m.NewOut()
	none := make([][]float64, len(m.parts))
	for i := range none {
		none[i] = make([]float64, m.Loads(i))
	}
	if err := m.eval(n, none, 1, 0, 0); err != nil {
		return nil, nil, err
	}
	return n, mo, m.eval(mo, none, 0, 1, 0)
}

func (m *Model) eval(dst *Out, loads [][]float64, pull, moment, one float64) error {
	if len(loads) != len(m.parts) {
		return fmt.Errorf("loads must be given for %d boards, got %d", len(m.parts), len(loads))
	}
	for i := range loads {
		if len(loads[i]) != m.Loads(i) {
			return fmt.Errorf("loads of board %d must be %d values, got %d", i+1, m.Loads(i), len(loads[i]))
		}
	}
	m.fit(dst)
	var balance [3]float64
	for i, p := range m.parts {
		copy(dst.v[m.chain.start[i]:], loads[i][:p.np])
		own := p.balanced(loads[i])
		for l := range 3 {
			balance[l] += own[l]
		}
		m.evalAlone(dst, i, loads[i][:p.np], own)
	}
	beside := [extraCols]float64{pull, moment, one}
	q := m.along(dst.v, balance, &beside)
	copy(beside[colAlong:], q[:])
	dst.Stretch, dst.Edgewise, dst.Bow = q[0]+q[1]*m.width/2+q[2]*m.mid, q[1], q[2]
	m.evalBoards(dst, &beside)
	m.evalJoins(dst, &beside)
	m.twist(dst)
	return nil
}

// balanced returns force and moments along the grain that a load of the board balances.
func (p *part) balanced(load []float64) [3]float64 {
	var r [3]float64
	for l := range 3 {
		row := p.along[l][perLayer*p.g.layers:]
		r[l] = floats.Dot(row, load[perLayer*p.g.layers:])
	}
	return r
}

func (m *Model) along(v []float64, balance [3]float64, beside *[extraCols]float64) [3]float64 {
	var q [3]float64
	if m.o.HeldAlong {
		return q
	}
	for a := range 3 {
		q[a] = floats.Dot(m.stretch[a], v)
		for b := range 3 {
			q[a] += m.balance[a][b]*balance[b] + m.beside[a][b]*beside[b]
		}
	}
	return q
}

func (m *Model) evalAlone(dst *Out, i int, load []float64, own [3]float64) {
	beside := [extraCols]float64{colAlong: own[0], colAlong + 1: own[1], colAlong + 2: own[2]}
	r := dst.rows[:perAlone]
	m.alone[i].apply(r, nil, load, &beside)
	b, w := &dst.Boards[i], m.parts[i].t.Width
	copy(b.Strain[:], r[:Stations])
	copy(b.Curvature[:], r[Stations:2*Stations])
	b.MeanStrain, b.Warp = r[aloneStretch]/w, r[aloneCup]
	b.MeanCurvature = 8 * b.Warp / (w * w)
}

func (m *Model) evalBoards(dst *Out, beside *[extraCols]float64) {
	var lo, hi end
	for i, p := range m.parts {
		var r [3]float64
		if i > 0 {
			m.rigid[i-1].apply(dst.rows, dst.spare, dst.v, beside)
			copy(r[:], dst.rows)
		}
		rows := dst.rows[:m.boards[i].rows]
		m.boards[i].apply(rows, dst.spare, dst.v, beside)
		for s := m.first[i]; s < m.first[i+1]; s++ {
			k := rows[(s-m.first[i])*perStation:]
			dst.Warp[s] = k[rowRise] + r[1] + r[2]*(m.x[s]-p.ref[0])
			dst.FrontStress[s], dst.BackStress[s] = k[rowFrontStress], k[rowBackStress]
			dst.FrontStrain[s], dst.BackStrain[s] = k[rowFrontStrain], k[rowBackStrain]
		}
		rest := rows[(m.first[i+1]-m.first[i])*perStation:]
		copy(dst.Boards[i].Thickness[:], rest)
		if c := m.width / 2; c >= p.g.left && c <= p.g.left+p.t.Width {
			dst.Cup = rest[3] + r[1] + r[2]*(c-p.ref[0])
		}
		rest = rest[4:]
		if i == 0 {
			lo = p.end(rest, r, 0)
			rest = rest[perEnd:]
		}
		if i == len(m.parts)-1 {
			hi = p.end(rest, r, p.t.Width)
		}
	}
	m.level(dst, lo, hi)
}

// end is an outer edge of the panel: where its back stands and moves, and its middle and front.
type end struct{ x, z, middle, front, zMiddle, zFront, z0 float64 }

func (p *part) end(k []float64, r [3]float64, at float64) end {
	x, edge := p.g.left+at, 0
	if at > 0 {
		edge = len(p.g.x) - 1
	}
	back, mid, front := p.g.Z[p.g.corner(edge, p.g.back())], p.g.Z[p.g.corner(edge, p.g.half())], p.g.Z[p.g.corner(edge, p.g.front())]
	return end{
		x: k[endBackX] + r[0] - r[2]*(back-p.ref[1]), z: k[endBackZ] + r[1] + r[2]*(x-p.ref[0]),
		middle: k[endMiddleX] + r[0] - r[2]*(mid-p.ref[1]), front: k[endFrontX] + r[0] - r[2]*(front-p.ref[1]),
		z0: back, zMiddle: mid, zFront: front,
	}
}

// level takes the movement of the chord through the outer edges of the back out.
func (m *Model) level(dst *Out, lo, hi end) {
	turn := (hi.z - lo.z) / m.width
	dst.Largest = 0
	for s, x := range m.x {
		dst.Warp[s] -= lo.z + turn*x
		if math.Abs(dst.Warp[s]) > math.Abs(dst.Largest) {
			dst.Largest = dst.Warp[s]
		}
	}
	dst.WidthBack = hi.x - lo.x + turn*(hi.z0-lo.z0)
	dst.Width = hi.middle - lo.middle + turn*(hi.zMiddle-lo.zMiddle)
	dst.WidthFront = hi.front - lo.front + turn*(hi.zFront-lo.zFront)
	dst.Cup -= lo.z + turn*m.width/2
}

func (m *Model) evalJoins(dst *Out, beside *[extraCols]float64) {
	for j, s := range m.seams {
		o := &dst.Joins[j]
		n := len(s.z)
		rows := dst.rows[:2*n]
		m.forces[j].apply(rows, dst.spare, dst.v, beside)
		o.N, o.V, o.M = 0, 0, 0
		for i, z := range s.z {
			o.Force[i], o.Slide[i] = rows[2*i], rows[2*i+1]
			o.N += o.Force[i]
			o.V += o.Slide[i]
			o.M += o.Force[i] * (z - m.mid)
		}
		share := s.share.RawMatrix()
		for i := range n {
			w := share.Data[i*share.Stride:][:n]
			o.Pull[i], o.Shear[i] = floats.Dot(w, o.Force), floats.Dot(w, o.Slide)
		}
	}
}

func (m *Model) twist(dst *Out) {
	dst.Twist = 0
	for i, p := range m.parts {
		if p.t.GrainSlope == 0 {
			continue
		}
		s, c := math.Sincos(p.t.GrainSlope)
		dst.Twist += (dst.Boards[i].MeanCurvature - dst.Bow) * s * c * p.t.Width / m.width
	}
}
