package section

import "math"

// Profile is the shape of boards glued edge to edge that nothing else holds.
type Profile struct {
	X []float64 // places across before the movement, mm; each board gives [Stations], so that places at joins stand twice
	Z []float64 // rise of the back face from its first place, chord through its outer edges, mm; painted face rounded positive
	// Cup is the rise at mid-width, and Largest the rise or fall that is greatest in size: boards
	// with hearts in turn make waves that the first misses.
	Cup, Largest float64
	Width        float64 // change of the panel's width at mid-thickness of the outer edge faces, mm
}

// Assemble joins boards, from the left, by rigid joins: each board turns until its edge face lies on
// the right face of the one before, by mean place and mean slope, front faces flush. What then does
// not match is balanced at the join and leaves no trace one thickness away. free holds the movement
// of each board, in the same order. An empty list gives an empty Profile; of lists of unlike length
// the longer one is cut.
//
// Exact for edge faces that stay straight, and boards of one stiffness. Derived here; held against
// an independent finite-element solution of three bonded boards in the tests.
func Assemble(boards []Board, free []Free) Profile {
	n := min(len(boards), len(free))
	if n == 0 {
		return Profile{}
	}
	buf := make([]float64, 2*n*Stations)
	p := Profile{X: buf[:n*Stations], Z: buf[n*Stations:]}
	s := seat{cos: 1}
	first, last := free[0].left, edge{}
	for i := range n {
		if i > 0 {
			s = next(&boards[i-1], &boards[i], last, free[i].left)
		}
		for k := range Stations {
			q := s.place(point{free[i].X[k], free[i].Z[k]})
			p.X[i*Stations+k], p.Z[i*Stations+k] = q.x, q.z // where it is now, until level
		}
		last = s.edge(free[i].right)
	}
	p.level(boards[:n])
	width := 0.0
	for i := range n {
		width += boards[i].Width
	}
	p.Width = last.middle.minus(first.middle).length() - width
	p.Cup = p.at(width / 2)
	for _, z := range p.Z {
		if math.Abs(z) > math.Abs(p.Largest) {
			p.Largest = z
		}
	}
	return p
}

// seat is where a board sits: its own frame turned by an angle, then shifted.
type seat struct {
	cos, sin float64
	shift    point
}

func (s seat) turn(p point) point  { return point{s.cos*p.x - s.sin*p.z, s.sin*p.x + s.cos*p.z} }
func (s seat) place(p point) point { return s.turn(p).plus(s.shift, 1) }
func (s seat) edge(e edge) edge    { return edge{s.place(e.middle), s.turn(e.up)} }

// next seats board b against the right edge face r of board a, where l is the left face of b in its
// own frame: same slope, and one place at half the common height below the flush front faces.
func next(a, b *Board, r, l edge) seat {
	var s seat
	s.sin, s.cos = math.Sincos(r.turned() - l.turned())
	c := min(a.Thickness, b.Thickness) / 2
	s.shift = r.at(a.Thickness/2 - c).minus(s.turn(l.at(b.Thickness/2 - c)))
	return s
}

// level turns the places in X, Z into places before the movement and rises above them, both from
// the chord through the outer back edges.
func (p *Profile) level(boards []Board) {
	n := len(p.X)
	width := 0.0
	for i := range boards {
		width += boards[i].Width
	}
	now, _ := chord(point{p.X[0], p.Z[0]}, point{p.X[n-1], p.Z[n-1]})
	was, _ := chord(point{0, -boards[0].Thickness}, point{width, -boards[len(boards)-1].Thickness})
	left := 0.0
	for i := range boards {
		for k := range Stations {
			j := i*Stations + k
			x := left + boards[i].Width*float64(k)/(Stations-1)
			p.Z[j] = now.place(point{p.X[j], p.Z[j]}).z - was.place(point{x, -boards[i].Thickness}).z
			p.X[j] = x
		}
		left += boards[i].Width
	}
}

// at returns the rise at x, by a parabola through the three nearest places of its board.
func (p *Profile) at(x float64) float64 {
	n := len(p.X)
	b := 0
	for (b+1)*Stations < n && p.X[(b+1)*Stations] <= x {
		b++
	}
	first := b * Stations
	step := p.X[first+1] - p.X[first]
	k := int(math.Round((x - p.X[first]) / step))
	k = min(max(k, 1), Stations-2)
	u := (x-p.X[first])/step - float64(k)
	z := p.Z[first+k-1 : first+k+2]
	return z[1] + u*(z[2]-z[0])/2 + u*u*(z[2]-2*z[1]+z[0])/2
}
