package plan

import (
	"fmt"
	"math"
	"sync"

	"gonum.org/v1/gonum/mat"
)

// The sheet of the rows PLAN-D: 600 x 800 x 15 mm, shrinking 0.5 %, on six patches of 20 x 20 mm at mid-length,
// 100 mm apart, joined by a bar.
const (
	checkPatches = 6
	checkThick   = 15.0
	checkShrink  = -0.005
)

// checkFields are the places of the rows PLAN-D-*-SXX, mm.
var checkFields = [...][2]float64{
	{300, 400}, {100, 400}, {200, 400}, {300, 425}, {300, 450}, {300, 500}, {300, 800}, {150, 400}, {250, 400},
}

// checkSheet is that sheet, condensed once for all its rows.
type checkSheet struct {
	c    *Condensed
	load []float64
	free []float64
}

// newCheckSheet meshes it, ten cells to a patch.
func newCheckSheet() (*checkSheet, error) {
	p := Plate{Width: 600, Thickness: checkThick, EX: 700, EL: 11000, GXL: 700, GXZ: 60, GLZ: 650, NuLX: 0.4}
	l := Layout{Plates: []Plate{p}, Length: 800, CellX: 20, CellY: 20}
	patches := make([]Patch, checkPatches)
	for i := range patches {
		patches[i] = Patch{X: 50 + 100*float64(i), Y: 400, Length: 20}
	}
	l.Follow(patches, 10)
	m, err := NewModel(l)
	if err != nil {
		return nil, err
	}
	targets := make([]Target, checkPatches)
	for i, q := range patches {
		if targets[i], err = m.Mean(q, U); err != nil {
			return nil, err
		}
	}
	s := &checkSheet{}
	if s.c, err = m.Condense(targets); err != nil {
		return nil, err
	}
	s.load = make([]float64, s.c.Loads)
	s.load[m.LoadOf(0, StrainX)] = checkShrink
	s.free = s.c.Movement(nil, s.load, nil)
	return s, nil
}

// sheetAnswer is what one bar and one slip modulus give.
type sheetAnswer struct {
	force []float64 // on the panel, N
	slip  float64   // of the first patch against the bar, mm
	shape *Shape
}

// solve joins the patches by a bar of stiffness ea, N, through fixings of a slip modulus, N/mm:
//
//	free_i + sum_j (F_ij + bar_ij + delta_ij/K) f_j + c = 0,   sum f = 0
func (s *checkSheet) solve(slip, ea float64) (a sheetAnswer, err error) {
	const n = checkPatches
	k, b := mat.NewDense(n+1, n+1, nil), mat.NewVecDense(n+1, nil)
	for i := range n {
		for j := range n {
			k.Set(i, j, s.c.F[i*n+j]+100*float64(min(i, j))/ea)
		}
		k.Set(i, i, k.At(i, i)+1/slip)
		k.Set(i, n, 1)
		k.Set(n, i, 1)
		b.SetVec(i, -s.free[i])
	}
	var x mat.VecDense
	if err := x.SolveVec(k, b); err != nil {
		return a, err
	}
	a.force = x.RawVector().Data[:n]
	a.slip = -a.force[0] / slip
	a.shape, err = s.c.Shape(a.force, s.load, nil)
	return a, err
}

// addSheetChecks adds forces, width and stresses of the six variants.
func addSheetChecks(got map[string]func() (float64, error)) {
	sheet := sync.OnceValues(newCheckSheet)
	for _, v := range []struct {
		name     string
		slip, ea float64
	}{
		{"RIGID-500", 500, math.Inf(1)}, {"ELASTIC-500", 500, 1.2e7},
		{"RIGID-5000", 5000, math.Inf(1)}, {"ELASTIC-5000", 5000, 1.2e7},
		{"RIGID-INF", math.Inf(1), math.Inf(1)}, {"ELASTIC-INF", math.Inf(1), 1.2e7},
	} {
		solved := sync.OnceValues(func() (sheetAnswer, error) {
			s, err := sheet()
			if err != nil {
				return sheetAnswer{}, err
			}
			return s.solve(v.slip, v.ea)
		})
		add := func(quantity string, f func(sheetAnswer) float64) {
			got["PLAN-D-"+v.name+"-"+quantity] = func() (float64, error) {
				a, err := solved()
				if err != nil {
					return 0, err
				}
				return f(a), nil
			}
		}
		addSheetRows(add)
		if math.IsInf(v.ea, 1) && !math.IsInf(v.slip, 1) {
			add("SLIP1", func(a sheetAnswer) float64 { return a.slip })
		}
	}
}

func addSheetRows(add func(string, func(sheetAnswer) float64)) {
	for i := range 3 {
		add(fmt.Sprintf("F%d", i+1), func(a sheetAnswer) float64 { return a.force[i] })
	}
	for _, y := range []float64{0, 400} {
		add(fmt.Sprintf("DW-%g", y), func(a sheetAnswer) float64 {
			return a.shape.Move(600, y, false)[U] - a.shape.Move(0, y, false)[U]
		})
	}
	for _, p := range checkFields {
		add(fmt.Sprintf("SXX-%g-%g", p[0], p[1]), func(a sheetAnswer) float64 {
			return a.shape.Resultant(p[0], p[1], false).N[0] / checkThick
		})
	}
	add("SYY-300-400", func(a sheetAnswer) float64 { return a.shape.Resultant(300, 400, false).N[1] / checkThick })
}
