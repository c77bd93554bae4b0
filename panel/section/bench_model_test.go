package section

import (
	"runtime"
	"strconv"
	"testing"
)

func boards(n int) []Timber {
	out := make([]Timber, n)
	for i := range out {
		out[i] = timber(200, 18, 100, -60)
		out[i].Front = []Coat{{Thickness: 1, E: 1000, Nu: 0.3}}
	}
	return out
}

// Set-up with all columns, ground on the front.
func BenchmarkBuild(b *testing.B) {
	for _, v := range []struct {
		name string
		n    int
		f    Fineness
	}{{"fine", 3, Fine}, {"coarse", 1, Coarse}, {"coarse", 3, Coarse}, {"fine", 12, Fine}, {"coarse", 40, Coarse}} {
		b.Run(v.name+"/"+strconv.Itoa(v.n), func(b *testing.B) {
			b.ReportAllocs()
			for b.Loop() {
				if _, err := Build(boards(v.n), Options{Fineness: v.f}); err != nil {
					b.Fatal(err)
				}
			}
		})
	}
}

// A year of hours: all outputs of three boards, fine; and the same with the making of the loads from a profile of 41
// heights. For comparison, CalculiX 2.20 took 0.95 s for one state of the same mesh (TestLiveCalculiX, same machine, same
// day, one core): 8760 of them would take 2.3 hours, against 0.05 s of set-up and 0.11 s here.
func BenchmarkYear(b *testing.B) {
	m, err := Build(boards(3), Options{Fineness: Fine})
	if err != nil {
		b.Fatal(err)
	}
	at := make([]float64, 41)
	for i := range at {
		at[i] = float64(i) / 40
	}
	f := Movement{At: at, R: at, T: at}
	loads := make([][]float64, 3)
	for i := range loads {
		loads[i] = make([]float64, m.Loads(i))
	}
	out := m.NewOut()
	for _, fillToo := range []bool{false, true} {
		b.Run("fill="+strconv.FormatBool(fillToo), func(b *testing.B) {
			b.ReportAllocs()
			for b.Loop() {
				for range 8760 {
					for i := range loads {
						if fillToo {
							if _, err := m.Fill(loads[i], i, &f); err != nil {
								b.Fatal(err)
							}
						}
					}
					if err := m.Eval(out, loads); err != nil {
						b.Fatal(err)
					}
				}
			}
		})
	}
}

// Memory kept by a model of three boards, fine.
func BenchmarkMemory(b *testing.B) {
	var before, after runtime.MemStats
	runtime.GC()
	runtime.ReadMemStats(&before)
	m, err := Build(boards(3), Options{Fineness: Fine})
	if err != nil {
		b.Fatal(err)
	}
	runtime.GC()
	runtime.ReadMemStats(&after)
	for b.Loop() {
		m.Stations()
	}
	b.ReportMetric(float64(after.HeapAlloc-before.HeapAlloc)/1e6, "MB")
}
