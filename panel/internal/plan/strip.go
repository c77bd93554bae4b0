package plan

import (
	"fmt"
	"math"
)

// StripBoard is one board of the strip under a batten, from the left.
type StripBoard struct {
	Width, Thickness float64 // mm
	E                float64 // modulus across the grain, MPa; short, or already lowered for long loading
	// Bending is the effective width along the grain in bending, mm; 0 = as in stretching.
	Bending float64
}

// Strip condenses a strip of effective width b along the grain, mm, to its patches. Between the
// patches the strip stretches with E t b and bends with E t^3 b/12; a footprint spreads its force
// evenly and its movement is the mean over it. The boards' mid-planes lie at one height.
//
// Widths, thicknesses and moduli must be above 0; patches must lie on the boards and may not
// overlap. Their order does not matter. Exact for a bar (strength of materials).
func Strip(boards []StripBoard, b float64, patches []Patch) (*Flex, error) {
	f := &Flex{Boards: len(boards), Width: b}
	if len(boards) == 0 {
		return nil, fmt.Errorf("strip needs at least one board, got none")
	}
	if !(b > 0) || math.IsInf(b, 0) {
		return nil, fmt.Errorf("effective width must be above 0 mm, got %g", b)
	}
	x := 0.0
	for i, s := range boards {
		if !(s.Width > 0 && s.Thickness > 0 && s.E > 0 && s.Bending >= 0) || math.IsInf(s.Width+s.Thickness+s.E+s.Bending, 0) {
			return nil, fmt.Errorf("board %d: width, thickness and modulus must be above 0 mm and MPa, got %g, %g, %g",
				i+1, s.Width, s.Thickness, s.E)
		}
		bend := s.Bending
		if bend == 0 {
			bend = b
		}
		f.Pieces = append(f.Pieces, Piece{From: x, To: x + s.Width, Board: i, Thickness: s.Thickness,
			EA: s.E * s.Thickness * b, D: s.E * bend * s.Thickness * s.Thickness * s.Thickness / 12})
		x += s.Width
	}
	sorted, err := sortPatches(patches, x)
	if err != nil {
		return nil, err
	}
	for _, p := range sorted {
		f.X, f.Foot, f.Along = append(f.X, p.X), append(f.Foot, p.Length), append(f.Along, p.Along)
	}
	f.U = f.Chain(func(p Piece) float64 { return 1 / p.EA })
	return f, nil
}

// Chain returns the flexibility of a chain in which each piece yields by soft(piece), 1/N per mm,
// at the patches of f, row by row. The reference is the left edge.
//
//	U_ij = integral from the left edge to the nearer patch of soft dx
//
// averaged over both footprints; within one footprint this takes L/6 of soft off the diagonal.
func (f *Flex) Chain(soft func(Piece) float64) []float64 {
	n := len(f.X)
	u, to := make([]float64, n*n), make([]float64, n)
	for i, x := range f.X {
		for _, p := range f.Pieces {
			to[i] += soft(p) * max(0, min(x, p.To)-p.From)
		}
	}
	for i := range n {
		for j := range n {
			u[i*n+j] = to[min(i, j)]
		}
		u[i*n+i] -= f.Foot[i] / 6 * soft(f.Pieces[f.PieceAt(f.X[i])])
	}
	return u
}
