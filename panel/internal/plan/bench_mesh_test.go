package plan

import "testing"

// fineLayout is three boards, two battens of seven fixings each, one split and one candidate line.
func fineLayout(coarse bool) (Layout, []Patch) {
	var patches []Patch
	for _, y := range []float64{200, 600} {
		for i := range 7 {
			patches = append(patches, Patch{X: 40 + 85*float64(i), Y: y, Length: 15, Along: 15})
		}
	}
	a, b, c := spruceLike(15), spruceLike(15), spruceLike(15)
	a.Width, b.Width, c.Width = 190, 210, 190
	l := Layout{Plates: []Plate{a, b, c}, Length: 800, CellX: 30, CellY: 800.0 / 28, Lines: []Line{{X: 300, Open: [][2]float64{{0, 180}}}, {X: 90, Live: true}}}
	if !coarse {
		l.CellX, l.CellY = 20, 20
		l.Follow(patches, 2)
		l.FollowMember(200, 60)
		l.FollowMember(600, 60)
	}
	return l, patches
}

func setUp(b *testing.B, l Layout, patches []Patch, ways ...Way) {
	b.Helper()
	b.ReportAllocs()
	cells, cols := [2]int{}, 0
	for b.Loop() {
		for _, s := range []float64{1, 3} {
			m, err := NewModel(l, s)
			if err != nil {
				b.Fatal(err)
			}
			cells[0], cells[1] = m.Grid.Cells()
			var targets []Target
			for _, p := range patches {
				for _, way := range ways {
					t, err := m.Mean(p, way)
					if err != nil {
						b.Fatal(err)
					}
					targets = append(targets, t)
				}
			}
			c, err := m.Condense(targets)
			if err != nil {
				b.Fatal(err)
			}
			cols = c.N + c.Loads
		}
	}
	b.ReportMetric(float64(cells[0]), "cells_x")
	b.ReportMetric(float64(cells[1]), "cells_y")
	b.ReportMetric(float64(cols), "columns")
}

// Two states of the wood, factors and columns.
func BenchmarkFine(b *testing.B)   { l, p := fineLayout(false); setUp(b, l, p, U, V, W, TurnX) }
func BenchmarkCoarse(b *testing.B) { l, p := fineLayout(true); setUp(b, l, p, U, W) }
func BenchmarkFineCoupled(b *testing.B) {
	l, p := fineLayout(false)
	l.Coupled = true
	setUp(b, l, p, U, V, W, TurnX)
}

// The whole set-up with the shares of the boards.
func BenchmarkFineStates(b *testing.B) {
	l, p := fineLayout(false)
	for b.Loop() {
		if _, err := l.Condense(3, onPatches(p, U, V, W, TurnX)); err != nil {
			b.Fatal(err)
		}
	}
}

func BenchmarkCoarseStates(b *testing.B) {
	l, p := fineLayout(true)
	for b.Loop() {
		if _, err := l.Condense(3, onPatches(p, U, W)); err != nil {
			b.Fatal(err)
		}
	}
}

// Twenty by twenty-eight cells, one board.
func Benchmark20x28(b *testing.B) {
	l := Layout{Plates: []Plate{spruceLike(15)}, Length: 800}
	_, p := fineLayout(true)
	for b.Loop() {
		if _, err := l.Condense(3, onPatches(p, U, W)); err != nil {
			b.Fatal(err)
		}
	}
}
