package section

import (
	"math"
	"slices"

	"crossgrain/panel/internal/fe"
)

// grid is the mesh of one board: columns of elements from left to right, rows from the back upwards:
// coats of the back, wood, coats of the front.
type grid struct {
	fe.Mesh
	x             []float64 // edges of the columns from the board's left edge, mm
	share         []float64 // edges of the rows of wood, shares of the thickness
	rows          int       // of elements in all
	first, layers int       // first row of wood and their number
	left, base    float64   // of the board's own frame: x of its left edge, z of its back face at mid-width
	regular       []int     // columns' edges that are not crowded, for slopes and curvatures
}

// Elements a board, across and through the wood.
const (
	coarseAcross, coarseThrough = 30, 4
	fineAcross, fineThrough     = 60, 8
	mostAcross                  = 160
	halvings                    = 3 // of the outermost columns, fine
)

// newGrid meshes the board t with its frame at left, base.
func newGrid(t *Timber, o *Options, left, base float64) *grid {
	g := &grid{left: left, base: base}
	g.across(t, o)
	g.through(o)
	g.first = len(t.Back)
	g.rows = g.first + g.layers + len(t.Front)
	h := 2*g.rows + 1
	for i := range g.x {
		lo := g.column(t, o, g.x[i])
		for k := range h {
			g.add(left+g.x[i], mid(lo, k))
		}
		if i+1 == len(g.x) {
			break
		}
		hi := g.column(t, o, g.x[i+1])
		for r := range lo {
			g.add(left+(g.x[i]+g.x[i+1])/2, (lo[r]+hi[r])/2)
		}
	}
	for i := range len(g.x) - 1 {
		for r := range g.rows {
			g.El = append(g.El, [8]int{
				g.corner(i, 2*r), g.corner(i+1, 2*r), g.corner(i+1, 2*r+2), g.corner(i, 2*r+2),
				g.middle(i, r), g.corner(i+1, 2*r+1), g.middle(i, r+1), g.corner(i, 2*r+1),
			})
		}
	}
	return g
}

func mid(v []float64, k int) float64 {
	if k%2 == 0 {
		return v[k/2]
	}
	return (v[k/2] + v[k/2+1]) / 2
}

func (g *grid) add(x, z float64) { g.X, g.Z = append(g.X, x), append(g.Z, z) }

// corner returns the node k half rows up at the left edge of column i; middle that halfway along the
// lower side of row r.
func (g *grid) corner(i, k int) int { return i*(3*g.rows+2) + k }
func (g *grid) middle(i, r int) int { return i*(3*g.rows+2) + 2*g.rows + 1 + r }

// element returns the number of the element in column i, row r.
func (g *grid) element(i, r int) int { return i*g.rows + r }

// back and front are the half rows of the faces of the wood; half that of mid-thickness.
func (g *grid) back() int  { return 2 * g.first }
func (g *grid) front() int { return 2 * (g.first + g.layers) }
func (g *grid) half() int  { return g.back() + g.layers }

// column returns the heights of the edges of the rows at x from the board's left edge.
func (g *grid) column(t *Timber, o *Options, x float64) []float64 {
	z := make([]float64, 0, g.rows+1)
	h := t.thick(x)
	back := g.base
	if o.Flush == FlushFront {
		back += t.Thickness - h
	}
	at := back
	for _, c := range t.Back {
		at -= c.Thickness
	}
	for i := len(t.Back) - 1; i >= 0; i-- {
		z = append(z, at)
		at += t.Back[i].Thickness
	}
	for _, s := range g.share {
		z = append(z, back+s*h)
	}
	at = back + h
	for _, c := range t.Front {
		at += c.Thickness
		z = append(z, at)
	}
	return z
}

// across sets the edges of the columns: even between the kinks of the outline, halved towards the edges
// of the board when fine.
func (g *grid) across(t *Timber, o *Options) {
	n, halve := coarseAcross, 0
	if o.Fineness == Fine {
		n, halve = fineAcross, halvings
		if px, pz, ok := t.Pith(); ok { // rings much tighter than the board ask for more
			dx := math.Max(0, math.Max(-px, px-t.Width))
			dz := math.Max(0, math.Max(-pz, pz-t.Thickness))
			n = min(mostAcross, max(n, int(6*t.Width/math.Max(1, math.Hypot(dx, dz)))))
		}
	}
	if o.Across > 0 {
		n = o.Across
	}
	if o.Even {
		halve = 0
	}
	kinks := []float64{0}
	if t.BevelLeft.Width > 0 {
		kinks = append(kinks, t.BevelLeft.Width)
	}
	if t.BevelRight.Width > 0 {
		kinks = append(kinks, t.Width-t.BevelRight.Width)
	}
	kinks = append(kinks, t.Width)
	for i := range len(kinks) - 1 {
		a, b := kinks[i], kinks[i+1]
		m := max(2, int(math.Round(float64(n)*(b-a)/t.Width)))
		for k := range m {
			g.x = append(g.x, a+(b-a)*float64(k)/float64(m))
		}
	}
	g.x = append(g.x, t.Width)
	regular := slices.Clone(g.x)
	for range halve {
		n := len(g.x)
		g.x = append(g.x, 0, 0)
		copy(g.x[2:], g.x[1:n])
		g.x[1] = g.x[2] / 2
		g.x[n+1] = t.Width
		g.x[n] = (g.x[n-1] + t.Width) / 2
	}
	for _, x := range regular {
		i, _ := slices.BinarySearch(g.x, x)
		g.regular = append(g.regular, i)
	}
}

// through sets the edges of the rows of wood: an even number, thin at the faces, as day and week act there.
func (g *grid) through(o *Options) {
	g.layers = coarseThrough
	if o.Fineness == Fine {
		g.layers = fineThrough
	}
	if o.Through > 0 {
		g.layers = o.Through + o.Through%2
	}
	for i := range g.layers + 1 {
		u := float64(i) / float64(g.layers)
		if !o.Even {
			u -= crowd / (2 * math.Pi) * math.Sin(2*math.Pi*u)
		}
		g.share = append(g.share, u)
	}
	g.share[g.layers/2], g.share[g.layers] = 0.5, 1
}

// crowd is how far the rows are thinned at the faces: they are 1-crowd of the mean there, 1+crowd in the
// middle, nearly.
const crowd = 0.75

// place returns the column that holds x from the board's left edge, and where in it, -1 to 1.
func (g *grid) place(x float64) (column int, xi float64) {
	i, found := slices.BinarySearch(g.x, x)
	if !found {
		i--
	}
	i = min(max(i, 0), len(g.x)-2)
	return i, 2*(x-g.x[i])/(g.x[i+1]-g.x[i]) - 1
}
