package plan

import (
	"cmp"
	"fmt"
	"math"
	"slices"
)

// Patch is the place through which one fixing acts on the panel.
type Patch struct {
	X, Y   float64 // centre across and along the grain, mm
	Length float64 // footprint across the grain, mm; 0 = a point
	Along  float64 // footprint along the grain, mm; 0 = as Length
}

// Piece is a length of the strip with constant stiffness.
type Piece struct {
	From, To  float64 // mm across the grain
	Board     int     // index of the board it belongs to
	Thickness float64 // mm
	EA        float64 // stiffness in stretching, N
	D         float64 // stiffness in bending, N mm2
}

// Flex is a panel condensed to its patches along one batten line.
type Flex struct {
	X, Foot []float64 // patch centres and footprints across the grain, mm, from the left
	Along   []float64 // footprints along the grain, mm
	// U is the movement in x of patch i under a unit force in x on patch j, mm/N, row by row, n x n,
	// relative to a fixed reference: only its differences matter, since the forces of a batten on a
	// panel add up to nothing.
	U      []float64
	Pieces []Piece // from the left edge to the right one, without gaps
	Boards int
	Width  float64 // effective width along the grain, mm
}

// Drive is what moves the panel: the unheld free strain across the grain and the unheld free
// curvature, one value a board (one value alone holds for all), and the same of the batten.
type Drive struct {
	Strain, Curvature       []float64 // -, 1/mm; an empty list is nil everywhere
	BarStrain, BarCurvature float64   // of the batten along its length
}

// Of returns the free strain and curvature of a board.
func (d Drive) Of(board int) (strain, curvature float64) {
	return pick(d.Strain, board), pick(d.Curvature, board)
}

func pick(v []float64, i int) float64 {
	switch {
	case len(v) == 0:
		return 0
	case len(v) == 1:
		return v[0]
	}
	return v[i]
}

// Fits returns an error when the drive does not give one value a board, or one for all, or holds a
// value that is no number.
func (f *Flex) Fits(d Drive) error {
	for _, v := range [][]float64{d.Strain, d.Curvature} {
		if len(v) > 1 && len(v) != f.Boards {
			return fmt.Errorf("drive must give one value for each of %d boards or one for all, got %d", f.Boards, len(v))
		}
		for _, x := range v {
			if math.IsNaN(x) || math.IsInf(x, 0) {
				return fmt.Errorf("drive must be finite, got %g", x)
			}
		}
	}
	if s := d.BarStrain + d.BarCurvature; math.IsNaN(s) || math.IsInf(s, 0) {
		return fmt.Errorf("drive of the batten must be finite, got %g", s)
	}
	return nil
}

// PieceAt returns the index of the piece that holds x; the first or last one outside the panel.
func (f *Flex) PieceAt(x float64) int {
	for i, p := range f.Pieces {
		if x < p.To {
			return i
		}
	}
	return len(f.Pieces) - 1
}

// sortPatches returns the patches from the left and refuses those that overlap or lie off [0, w].
func sortPatches(patches []Patch, w float64) ([]Patch, error) {
	out := slices.Clone(patches)
	slices.SortStableFunc(out, func(a, b Patch) int { return cmp.Compare(a.X, b.X) })
	for i, p := range out {
		if !(p.X >= 0 && p.X <= w) {
			return nil, fmt.Errorf("fixing must lie between 0 and %g mm across the panel, got %g", w, p.X)
		}
		if !(p.Length >= 0 && p.Along >= 0) || math.IsInf(p.Length+p.Along, 0) {
			return nil, fmt.Errorf("footprint must be 0 mm or more, got %g by %g", p.Length, p.Along)
		}
		if p.Along == 0 {
			out[i].Along = p.Length
		}
		if i > 0 && p.X-out[i-1].X < (p.Length+out[i-1].Length)/2*(1-1e-9) || i > 0 && p.X == out[i-1].X {
			return nil, fmt.Errorf("fixings at %g and %g mm overlap", out[i-1].X, p.X)
		}
	}
	return out, nil
}
