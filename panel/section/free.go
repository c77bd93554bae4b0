package section

import "crossgrain/tables"

// Stations is the number of places along the back face of a board at which its shape is given, both
// edges among them, evenly spaced.
const Stations = 9

// Free is the movement of one board that nothing holds. Lengths mm. Warp is the height of the face
// at mid-width above the chord through its edges, positive when the painted face is rounded.
type Free struct {
	Width, WidthFront, WidthBack float64    // change of the chord at mid-thickness, of the painted face, of the back
	Cup, CupFront, CupBack       float64    // warp of the same three lines
	Curvature                    float64    // of the arc with the same Cup: 8 Cup / Width^2, 1/mm
	Thickness                    [3]float64 // change of thickness at left edge, middle, right edge
	TurnLeft, TurnRight          float64    // turn of the edge faces against the chord at mid-thickness, rad
	// Bend is the curvature by which the edge faces turn, -(TurnRight-TurnLeft)/Width, 1/mm: only this
	// adds up over boards glued edge to edge. The rest of Curvature is shear inside the board; it
	// makes a ridge at the joins. Wide flat-sawn rings have a Bend near 0.
	Bend float64

	X, Z [Stations]float64 // the back face after the movement; chord at mid-thickness along x from 0, at height t/2

	left, right edge // in the same frame
}

// Free returns the stress-free movement under the radial and tangential free strains eR and eT, each
// from -0.5 to 0.5: the exact polar map when the pith is known or the ring radius finite, the
// rotation of the strains otherwise. Whatever the panel does, its boards want to do this.
//
// A board that is not valid gives a *[tables.RangeError]; one that holds its pith a
// *[PithInsideError]. No shear lag, no stress: exact. Derived here; check CUP-FLAT.
func (b Board) Free(eR, eT float64) (Free, error) {
	var f Free
	if err := b.Validate(); err != nil {
		return f, err
	}
	for _, e := range [...]float64{eR, eT} {
		if err := tables.InRange("free strain", e, -0.5, 0.5, "(as a fraction)", ""); err != nil {
			return f, err
		}
	}
	m := b.motion(eR, eT)
	w, t := b.Width, b.Thickness
	ml, mm, mr := m.at(0, t/2), m.at(w/2, t/2), m.at(w, t/2)
	fl, fm, fr := m.at(0, t), m.at(w/2, t), m.at(w, t)
	var back [Stations]point
	for i := range back {
		back[i] = m.at(w*float64(i)/(Stations-1), 0)
	}
	bl, bm, br := back[0], back[Stations/2], back[Stations-1]

	f.Width, f.Cup = sag(ml, mm, mr, w)
	f.WidthFront, f.CupFront = sag(fl, fm, fr, w)
	f.WidthBack, f.CupBack = sag(bl, bm, br, w)
	f.Curvature = 8 * f.Cup / (w * w)
	f.Thickness = [3]float64{fl.minus(bl).length() - t, fm.minus(bm).length() - t, fr.minus(br).length() - t}

	fr0, _ := chord(ml, mr)
	for i, p := range back {
		q := fr0.place(p)
		f.X[i], f.Z[i] = q.x, q.z+t/2
	}
	f.left, f.right = fr0.edge(m.edgeAt(0, t), t), fr0.edge(m.edgeAt(w, t), t)
	f.TurnLeft, f.TurnRight = f.left.turned(), f.right.turned()
	f.Bend = -(f.TurnRight - f.TurnLeft) / w
	return f, nil
}

// sag returns the change of the chord l-r from w, and the height of m above it.
func sag(l, m, r point, w float64) (change, height float64) {
	f, c := chord(l, r)
	return c - w, f.place(m).z
}

// edge brings an edge into the frame, its chord at height t/2.
func (f frame) edge(e edge, t float64) edge {
	m := f.place(e.middle)
	return edge{middle: point{m.x, m.z + t/2}, up: f.turn(e.up)}
}
