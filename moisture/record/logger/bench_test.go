package logger_test

import (
	"bytes"
	"fmt"
	"testing"
	"time"

	"crossgrain/moisture/record"
	"crossgrain/moisture/record/logger"
)

// tenYears is ten years at 10 minutes: 526 000 rows, about 20 MB.
func tenYears() logger.File {
	var b bytes.Buffer
	b.WriteString("Date and time,Relative humidity [%],Temperature [°C],Remark\n")
	at := time.Date(2013, 1, 1, 0, 0, 0, 0, time.UTC)
	for i, s := range series(at, 526_000, 10*time.Minute) {
		_, _ = fmt.Fprintf(&b, "%s,%.1f,%.1f,%d\n", s.at.Format("2006-01-02 15:04:05"), s.rh, s.t, i)
	}
	return logger.File{Name: "ten years.csv", Data: b.Bytes()}
}

// BenchmarkRead reads ten years at 10 minutes. Aim: below half a second, below 250 MB.
func BenchmarkRead(b *testing.B) {
	f := tenYears()
	b.SetBytes(int64(len(f.Data)))
	b.ReportAllocs()
	for b.Loop() {
		r, _, err := logger.Read([]logger.File{f}, logger.Options{})
		if err != nil || len(r.Times) != 526_000 {
			b.Fatal(err, len(r.Times))
		}
	}
}

// BenchmarkTenYears reads, looks for spikes and stuck sensors, and draws the band. Aim: below 1.0 s,
// below 250 MB.
func BenchmarkTenYears(b *testing.B) {
	f := tenYears()
	b.SetBytes(int64(len(f.Data)))
	b.ReportAllocs()
	for b.Loop() {
		r, _, err := logger.Read([]logger.File{f}, logger.Options{})
		if err != nil {
			b.Fatal(err)
		}
		r = r.Without(r.Flags())
		if band := r.HistoricBand(record.BandOptions{}); !band.Applies {
			b.Fatal(band.WhyNot)
		}
	}
}

// BenchmarkForms compares layouts of the same 20 000 rows.
func BenchmarkForms(b *testing.B) {
	all := series(time.Date(2023, 1, 13, 0, 0, 0, 0, time.UTC), 20_000, 10*time.Minute)
	for _, c := range []struct {
		name string
		x    table
	}{
		{"iso", plain()},
		{"german", change(func(x *table) { x.delim, x.decimal, x.stamp = ";", ',', clockForm("02.01.2006 15:04:05") })},
		{"us12h", change(func(x *table) { x.stamp = clockForm("1/2/2006 3:04:05 PM") })},
		{"quoted", change(func(x *table) { x.quoted = true })},
		{"words", change(func(x *table) { x.stamp = clockForm("02-Jan-2006 15:04") })},
	} {
		f := c.x.file(all)
		b.Run(c.name, func(b *testing.B) {
			b.SetBytes(int64(len(f[0].Data)))
			b.ReportAllocs()
			for b.Loop() {
				if _, _, err := logger.Read(f, logger.Options{}); err != nil {
					b.Fatal(err)
				}
			}
		})
	}
}
