package figure

import (
	"fmt"
	"math"
	"time"
)

// The samples are invented; their numbers follow no wood and no model.

func sampleHold() HoldPlan {
	h := HoldPlan{Meta: Meta{Invented: true}, Panel: samplePanel()}
	for k, m := range h.Panel.Members {
		for i, f := range m.Fixings {
			x := float64(i) - 2.5
			q := HeldFixing{Name: m.Name, AcrossMM: f.AcrossMM, AlongMM: f.AlongMM, N: 130 * math.Abs(x) * x / (1 + float64(k)), RHPct: 35, PullAcross: x}
			switch {
			case k == 0 && i == 0:
				q.Does = Yields
			case k == 1 && i > 3:
				q.Does = Slides
			case i == 2:
				q.Does, q.N = Idle, 0
			}
			h.Fixings = append(h.Fixings, q)
		}
	}
	return h
}

// sampleHeldCradle has seven glued members and six sliding ones, a fixing wherever they cross.
func sampleHeldCradle(level bool) HoldPlan {
	h := HoldPlan{Meta: Meta{Invented: true}, Panel: Panel{AcrossMM: 760, AlongMM: 980, GrainLevel: level,
		Boards: []PanelBoard{{"a", 260, false}, {"b", 250, false}, {"c", 250, true}}}}
	for i := range 7 {
		x := 50 + 110*float64(i)
		m := Member{AcrossFrom: x - 17, AcrossTo: x + 17, AlongFrom: 10, AlongTo: 970, Cradle: true}
		if i == 0 {
			m.Name, m.Note = "glued members, with the grain", "7, oak"
		}
		h.Panel.Members = append(h.Panel.Members, m)
	}
	for k := range 6 {
		y := 90 + 160*float64(k)
		m := Member{Name: fmt.Sprintf("slider %d", k+1), AcrossFrom: 5, AcrossTo: 755, AlongFrom: y - 15, AlongTo: y + 15, Cradle: true}
		for i := range 7 {
			x := 50 + 110*float64(i)
			s := float64(i) - 3
			f := HeldFixing{Name: m.Name, AcrossMM: x, AlongMM: y, N: 40 * s * float64(k+1), RHPct: 62, Does: Slides, PullAcross: -s, PullAlong: 0.2 * float64(k-2)}
			if k == 4 {
				f.Does = Bears
			}
			h.Fixings = append(h.Fixings, f)
		}
		h.Panel.Members = append(h.Panel.Members, m)
	}
	return h
}

func sampleHeldYear() HoldYear {
	y := HoldYear{Meta: Meta{Invented: true}, Start: time.Date(2023, 1, 1, 0, 0, 0, 0, time.UTC), UsedToPct: 50}
	for d := range 365 {
		x := float64(d)
		y.Days = append(y.Days, x+0.5)
		r := 50 - 13*math.Cos(2*math.Pi*(x-30)/365) + 3*math.Sin(x/4.1)
		if d >= 200 && d < 222 {
			r = math.NaN()
		}
		y.LowPct, y.HighPct = append(y.LowPct, r-3), append(y.HighPct, r+3)
	}
	member := func(name string, k, slip float64) HeldCourse {
		c := HeldCourse{Name: name}
		for d := range y.Days {
			f := k * math.Abs(y.HighPct[d]-53)
			if f > slip {
				f = slip + 0.05*(f-slip)
			}
			c.LowN, c.HighN = append(c.LowN, 0.85*f), append(c.HighN, 1.1*f+4)
		}
		return c
	}
	y.Members = []HeldCourse{member("lower batten", 11, 400), member("upper batten", 30, 1e9), member("cross slider", 4, 18)}
	y.Members[0].Binds = []Interval{{8, 52, "slots bind"}, {190, 198, "slots bind"}, {340, 364.5, "slots bind"}}
	return y
}

func sampleLetGo() LetGo {
	return LetGo{Meta: Meta{Invented: true}, Steps: []LetGoStep{
		{Label: "at once", WarpLow: 0.3, WarpHigh: 0.9, WidthLow: -0.4, WidthHigh: -0.2},
		{Label: "after 12 hours", WarpLow: 0.4, WarpHigh: 1.3, WidthLow: -0.6, WidthHigh: -0.2},
		{Label: "after 4 weeks", WarpLow: 0.6, WarpHigh: 2.1, WidthLow: -0.9, WidthHigh: -0.3},
		{Label: "after the first damp and dry year", WarpLow: 1.1, WarpHigh: 4.6, WidthLow: -1.7, WidthHigh: -0.5},
		{Label: "never", WarpLow: 0.5, WarpHigh: 2.2, WidthLow: -1.1, WidthHigh: -0.4, Stays: true},
	}}
}

func samplePull(level bool) PullMap {
	m := PullMap{Meta: Meta{Invented: true}, Panel: samplePanel(), Label: "driest day, 9 Feb 2023", RHPct: 35}
	m.Panel.GrainLevel = level
	for i := range 65 {
		m.AcrossMM = append(m.AcrossMM, 10*float64(i))
	}
	for k := range 93 {
		z := 10 * float64(k)
		m.AlongMM = append(m.AlongMM, z)
		var row []float64
		for _, x := range m.AcrossMM {
			near := func(x0, z0, s float64) float64 { return math.Exp(-((x-x0)*(x-x0) + (z-z0)*(z-z0)) / (s * s)) }
			v := 1.9*near(320, 730, 170) + 1.5*near(300, 190, 150) - 0.9*near(60, 470, 140) - 0.5*near(590, 470, 130)
			row = append(row, v)
		}
		m.MPa = append(m.MPa, row)
	}
	return m
}

func holdSamples() []named {
	return []named{
		{"30-hold-plan", sampleHold().Draw()}, {"30-hold-cradle", sampleHeldCradle(false).Draw()}, {"30-hold-level", sampleHeldCradle(true).Draw()},
		{"31-hold-year", sampleHeldYear().Draw()}, {"32-let-go", sampleLetGo().Draw()},
		{"33-pull-map", samplePull(false).Draw()}, {"33-pull-level", samplePull(true).Draw()},
	}
}

func holdExtremes() []named {
	nan, inf := math.NaN(), math.Inf(1)
	zero := sampleHold()
	for i := range zero.Fixings {
		zero.Fixings[i].N, zero.Fixings[i].Does = 0, Bears
	}
	huge := sampleHold()
	huge.Fixings[0].N = 4e7
	many := HoldPlan{Meta: Meta{Invented: true}, Panel: manyParts(false)}
	for i := range 60 {
		many.Fixings = append(many.Fixings, HeldFixing{Name: longName, AcrossMM: 8 + float64(i)*16, AlongMM: 620, N: 90 + 3*float64(i%9), RHPct: 70, Does: Holding(i % 4), PullAcross: 1})
	}
	narrow := HoldPlan{Meta: Meta{Invented: true}, Panel: Panel{AcrossMM: 120, AlongMM: 1900, Boards: []PanelBoard{{longName, 120, true}}}}
	for k := range 4 {
		narrow.Panel.Members = append(narrow.Panel.Members, Member{Name: longName, AcrossTo: 120, AlongFrom: 300 * float64(k+1), AlongTo: 300*float64(k+1) + 50})
		narrow.Fixings = append(narrow.Fixings, HeldFixing{Name: longName, AcrossMM: 60, AlongMM: 300*float64(k+1) + 25, N: 1200, RHPct: 30, PullAlong: 1})
	}
	bad := HoldPlan{Panel: samplePanel(), Fixings: []HeldFixing{{AcrossMM: nan}, {AcrossMM: 1e300, N: inf}, {AcrossMM: 5e4, AlongMM: 3, N: 30}, {N: nan, RHPct: nan, PullAcross: inf},
		{AcrossMM: 100, AlongMM: 100, N: 1e300, Does: 99, PullAlong: nan}, {AcrossMM: 100, AlongMM: 100, N: 50}, {AcrossMM: 100, AlongMM: 100, N: 50}}}
	still, spike := sampleHeldYear(), sampleHeldYear()
	for i := range still.Members {
		still.Members[i].LowN, still.Members[i].HighN = make([]float64, 365), make([]float64, 365)
	}
	spike.Members[0].HighN[3] = 5e8
	wild := []float64{nan, 1e300, inf, -4}
	crowd := sampleHeldYear()
	for i := range 12 {
		crowd.Members = append(crowd.Members, HeldCourse{Name: longName, LowN: scaled(crowd.Members[1].HighN, -1/float64(i+2)), HighN: scaled(crowd.Members[1].HighN, 1/float64(i+2))})
		crowd.Members[0].Binds = append(crowd.Members[0].Binds, Interval{float64(i) * 20, float64(i)*20 + 2, longName})
	}
	week := HoldYear{Days: []float64{0.5, 1.5, 2.5}, Members: []HeldCourse{{Name: "a", LowN: []float64{1, 2, 3}, HighN: []float64{20, 30, 31}, Binds: []Interval{{-9, 90, "slots bind"}, {nan, 3, ""}, {5, 4, ""}}}}}
	signs := LetGo{Meta: Meta{Invented: true}}
	for i := range 9 {
		signs.Steps = append(signs.Steps, LetGoStep{Label: longName, WarpLow: -12.4, WarpHigh: float64(i), WidthLow: nan, Stays: i > 4})
	}
	flat, nanMap := samplePull(false), samplePull(false)
	flat.MPa = nil
	nanMap.MPa[40][30], nanMap.MPa[3] = nan, nil
	nanMap.MPa[92][64] = 1e6
	one := samplePull(false)
	one.Panel = Panel{AcrossMM: 640, AlongMM: 920, Boards: []PanelBoard{{"only", 640, false}}}
	return []named{
		{"x-hold-empty", HoldPlan{}.Draw()}, {"x-hold-one", HoldPlan{Panel: Panel{AcrossMM: 180, AlongMM: 240, Boards: []PanelBoard{{Name: "only", WidthMM: 180}}}}.Draw()},
		{"x-hold-zero", zero.Draw()}, {"x-hold-huge", huge.Draw()}, {"x-hold-many", many.Draw()}, {"x-hold-narrow", narrow.Draw()}, {"x-hold-bad", bad.Draw()},
		{"x-holdyear-empty", HoldYear{}.Draw()}, {"x-holdyear-still", still.Draw()}, {"x-holdyear-spike", spike.Draw()}, {"x-holdyear-crowd", crowd.Draw()}, {"x-holdyear-week", week.Draw()},
		{"x-holdyear-bad", HoldYear{Days: wild, LowPct: wild, HighPct: wild, Members: []HeldCourse{{Name: longName, LowN: wild, HighN: wild, Binds: []Interval{{nan, inf, "x"}}}, {}}}.Draw()},
		{"x-letgo-empty", LetGo{}.Draw()}, {"x-letgo-zero", LetGo{Steps: make([]LetGoStep, 5)}.Draw()}, {"x-letgo-signs", signs.Draw()},
		{"x-letgo-bad", LetGo{Steps: []LetGoStep{{"a", inf, 1e300, -inf, 3, true}, {"b", nan, 1, 2, nan, false}}}.Draw()},
		{"x-pull-beyond", PullMap{Panel: samplePanel(), AcrossMM: []float64{-300, 0, 320, 640, 1e4}, AlongMM: []float64{0, 500, 920, 2000},
			MPa: [][]float64{{1, 2, 3, 4, 5}, {1, -2, 3, 4, 5}, {1, 2, 3, -4, 50}, {9, 9, 9, 9, 9}}}.Draw()},
		{"x-pull-still", PullMap{Panel: samplePanel(), AcrossMM: []float64{0, 640}, AlongMM: []float64{0, 920}, MPa: [][]float64{{0, 0.001}, {0, 0}}}.Draw()},
		{"x-pull-empty", PullMap{}.Draw()}, {"x-pull-nil", flat.Draw()}, {"x-pull-nan", nanMap.Draw()}, {"x-pull-one", one.Draw()},
		{"x-pull-falling", PullMap{Panel: samplePanel(), AcrossMM: []float64{100, 50, 0}, AlongMM: []float64{nan, 1}, MPa: [][]float64{{1, 2, 3}, {3, -4}}}.Draw()},
	}
}
