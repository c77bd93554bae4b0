package logger_test

import (
	"math"
	"os"
	"path/filepath"
	"runtime"
	"testing"
	"time"

	"crossgrain/moisture/record/logger"
)

// FuzzRead requires of any bytes: no panic, no hang, memory in proportion to the file, and of what was
// read: rising times, humidities that are possible, as many of one as of the other.
//
// By hand: go test -fuzz FuzzRead -fuzztime 10m -fuzzminimizetime 20x (without the last, minimising takes
// up all the time).
func FuzzRead(f *testing.F) {
	names, err := filepath.Glob(filepath.Join(layoutsDir, "*"))
	if err != nil || len(names) == 0 {
		f.Fatal("no layouts", err)
	}
	for _, name := range names {
		data, err := os.ReadFile(name)
		if err != nil {
			f.Fatal(err)
		}
		f.Add(data, filepath.Base(name), byte(0))
	}
	small := threeDays()[:12]
	x := plain()
	f.Add([]byte(x.text(small)), "made.csv", byte(1))
	f.Add(wide16(x.text(small)), "made.txt", byte(2))
	x.stamp = clockForm("02/01/2006 3:04 PM")
	f.Add([]byte(x.text(small)), "made.csv", byte(3))
	f.Add([]byte(`{"time":[1,2,3],"humidity":[45,46,47]}`), "made.json", byte(0))
	f.Add([]byte("[[[[[[\"2023-11-13\",45.2]]]]]]"), "made.json", byte(0))
	f.Fuzz(func(t *testing.T, data []byte, name string, choice byte) {
		o := [...]logger.Options{
			{}, {Channel: "Saal", Dates: "dmy"}, {Zone: time.FixedZone("", 3600), Unit: "F"}, {Dates: "mdy", Decimal: ","},
		}[choice%4]
		var before, after runtime.MemStats
		runtime.ReadMemStats(&before)
		began := time.Now()
		r, how, err := logger.Read([]logger.File{{Name: name, Data: data}}, o)
		took := time.Since(began)
		runtime.ReadMemStats(&after)
		// Fixed part: the packer of a workbook; the rest is a factor of the file.
		if used, allowed := after.TotalAlloc-before.TotalAlloc, uint64(2000*len(data)+64<<20); used > allowed {
			t.Fatalf("%d bytes of memory for a file of %d", used, len(data))
		}
		if took > 5*time.Second {
			t.Fatalf("%s for %d bytes", took, len(data))
		}
		if err != nil {
			if r != nil {
				t.Fatal("a record beside an error")
			}
			_ = err.Error()
			return
		}
		if r == nil || how == nil || len(r.RH) != len(r.Times) || r.T != nil && len(r.T) != len(r.Times) || len(r.Lines) != len(r.Times) || len(r.Times) == 0 {
			t.Fatalf("readings do not match: %+v", how)
		}
		for i, at := range r.Times {
			if i > 0 && !at.After(r.Times[i-1]) {
				t.Fatalf("times do not rise at %d: %s", i, at)
			}
			if !(r.RH[i] >= 0 && r.RH[i] <= 1.05) {
				t.Fatalf("humidity %g", r.RH[i])
			}
			if r.T != nil && (math.IsInf(r.T[i], 0) || math.Abs(r.T[i]) > 200) {
				t.Fatalf("temperature %g", r.T[i])
			}
			if at.Year() < 1949 || at.Year() > 2101 {
				t.Fatalf("year %d", at.Year())
			}
		}
		for _, s := range how.SetAside {
			if s.Count < len(s.Lines) || s.Count > 0 && len(s.Lines) == 0 || s.Reason == "" {
				t.Fatalf("set aside %+v", s)
			}
		}
	})
}

// wide16 writes UTF-16, low byte first, with a mark.
func wide16(s string) []byte {
	out := []byte{0xff, 0xfe}
	for _, r := range s {
		out = append(out, byte(r), byte(r>>8))
	}
	return out
}
