package profile_test

import (
	"math"
	"testing"

	"github.com/stretchr/testify/require"

	"crossgrain/moisture"
	"crossgrain/moisture/profile"
)

const (
	hour = 3600.0
	day  = 24 * hour
)

// oakBranches are the printed curves of oak. Source: Bratasz et al., Table 1.
func oakBranches() *moisture.Branches {
	return &moisture.Branches{Ads: moisture.GAB{Vm: 0.0619, C: 7.36, K: 0.72}, Des: moisture.GAB{Vm: 0.111, C: 7.26, K: 0.51}, T: 20}
}

// poplarBranches are the printed curves of poplar. Source: the same.
func poplarBranches() *moisture.Branches {
	return &moisture.Branches{Ads: moisture.GAB{Vm: 0.0595, C: 9.58, K: 0.73}, Des: moisture.GAB{Vm: 0.0813, C: 7.88, K: 0.68}, T: 20}
}

// board is an invented 20 mm board, bare at the back and painted at the front.
func board(b *moisture.Branches) profile.Wall {
	return profile.Wall{
		Thickness: 20, Density: 450, Storage: profile.Storage{Branches: b, T: 20},
		Transport: profile.Transport{Mu: 80, Growth: 1.8}, Front: profile.Face{Sd: 2},
	}
}

// room is an invented hourly year: season, days, and weather that wanders, 20 °C +- 4 K.
func room(hours int) []profile.Climate {
	out := make([]profile.Climate, hours)
	x, n := uint32(12345), 0.0
	for t := range out {
		x = 1664525*x + 1013904223
		n = 0.95*n + 0.03*(float64(x)/(1<<32)-0.5)
		a := 2 * math.Pi * float64(t)
		h := 0.5 + 0.12*math.Sin(a/8760-math.Pi/2) + 0.04*math.Sin(a/24) + n
		out[t] = profile.Climate{
			RH: moisture.RH(min(max(h, 0.15), 0.85)),
			T:  moisture.Celsius(20 + 4*math.Sin(a/8760-math.Pi/2) - math.Sin(a/24)),
		}
	}
	return out
}

func start(tb testing.TB, w profile.Wall, o profile.Options, c profile.Climate) *profile.Solver {
	tb.Helper()
	s, err := profile.New(w, o)
	require.NoError(tb, err)
	require.NoError(tb, s.Start(c))
	return s
}

// BenchmarkYear follows one board through an hourly year. Targets on one core, and no allocation:
// 40 intervals without memory 40 ms, 24 graded with memory 60 ms, 40 with memory 110 ms, coarse
// (16, steps of 3 h, backward Euler) 12 ms. Measured on an AMD EPYC core, November 2026: 28,
// 36, 57 and 5.5 ms, the best of several runs; beside other work 54, 66, 138 and once 46 ms. A step
// takes 2.1 iterations without memory and 3.6 with it.
func BenchmarkYear(b *testing.B) {
	fine := room(8761)
	for _, c := range []struct {
		name string
		o    profile.Options
	}{
		{"40 mean", profile.Options{Cells: 40, Memory: profile.Mean}},
		{"24 graded memory", profile.Default()},
		{"40 memory", profile.Options{Cells: 40}},
	} {
		b.Run(c.name, func(b *testing.B) {
			s := start(b, board(oakBranches()), c.o, fine[0])
			b.ReportAllocs()
			its := 0
			for b.Loop() {
				for t := range 8760 {
					r, err := s.Step(hour, fine[t], fine[t+1])
					if err != nil {
						b.Fatal(err)
					}
					its += r.Iterations
				}
			}
			b.ReportMetric(float64(its)/float64(b.N)/8760, "iterations/step")
		})
	}
	b.Run("coarse", func(b *testing.B) {
		means := profile.Means(nil, fine, 3)
		s := start(b, board(oakBranches()), profile.Coarse(), fine[0])
		b.ReportAllocs()
		for b.Loop() {
			for _, m := range means {
				if _, err := s.Step(3*hour, m, m); err != nil {
					b.Fatal(err)
				}
			}
		}
	})
}
