package record

import (
	"math"
	"testing"
	"time"
)

// tenYears is an invented record of ten years at 10 minutes: 526 000 readings.
func tenYears() *Record {
	r := every(10*time.Minute, 526_000, func(d time.Duration) float64 {
		h := d.Hours()
		return 0.5 + 0.1*math.Sin(2*math.Pi*h/8766) + 0.05*math.Sin(2*math.Pi*h/24) + 0.02*math.Sin(h*h)
	})
	for i := range r.Times {
		r.T = append(r.T, 20+3*math.Sin(float64(i)/1000))
	}
	return r
}

func BenchmarkStatsAndBand(b *testing.B) {
	r := tenYears()
	b.ReportAllocs()
	for b.Loop() {
		if s := r.Stats(); s.Readings != 526_000 {
			b.Fatal(s.Readings)
		}
		if band := r.HistoricBand(BandOptions{}); !band.Applies {
			b.Fatal(band.WhyNot)
		}
	}
}

func BenchmarkChanges(b *testing.B) {
	r := tenYears()
	b.ReportAllocs()
	for b.Loop() {
		if c := r.Changes(WithinWindow); c.Day.Windows == 0 {
			b.Fatal(c.Day.WhyNot)
		}
	}
}

func BenchmarkFlags(b *testing.B) {
	r := tenYears()
	b.ReportAllocs()
	for b.Loop() {
		_ = r.Flags()
	}
}
