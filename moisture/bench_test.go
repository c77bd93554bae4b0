package moisture

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
)

func TestScanDoesNotAllocate(t *testing.T) {
	b := poplar()
	s := StartAt(b, 0.5, Settled)
	i := 0
	n := testing.AllocsPerRun(2000, func() {
		h := 0.5 + 0.4*math.Sin(float64(i*i))*math.Exp(-float64(i%50)/20)
		s.At(b, h)
		s.Commit(b, h)
		i++
	})
	assert.Zero(t, n)
}

func BenchmarkAt(b *testing.B) {
	w := poplar()
	s := StartAt(w, 0.5, Settled)
	walk(&s, w, 0.7, 0.3, 0.6, 0.4)
	b.ReportAllocs()
	for b.Loop() {
		s.At(w, 0.45)
		s.At(w, 0.35)
	}
}

func BenchmarkCommit(b *testing.B) {
	w := poplar()
	s := StartAt(w, 0.5, Settled)
	b.ReportAllocs()
	i := 0
	for b.Loop() {
		s.Commit(w, 0.5+0.15*math.Sin(float64(i)/1400)+0.03*math.Sin(float64(i)/4))
		i++
	}
}

func BenchmarkHandbookMC(b *testing.B) {
	b.ReportAllocs()
	for b.Loop() {
		HailwoodHorrobin{}.MC(0.5, 20)
	}
}

func BenchmarkHandbookInverse(b *testing.B) {
	b.ReportAllocs()
	for b.Loop() {
		if _, err := (HailwoodHorrobin{}).RH(0.09, 20); err != nil {
			b.Fatal(err)
		}
	}
}

func BenchmarkUptake(b *testing.B) {
	f := Faces{Back: 100, Front: 0.5}
	b.ReportAllocs()
	for b.Loop() {
		f.Uptake(0.1)
	}
}

func BenchmarkResponseTime(b *testing.B) {
	b.ReportAllocs()
	for b.Loop() {
		if _, err := ResponseTime(20, 1e-10, 0.95); err != nil {
			b.Fatal(err)
		}
	}
}
