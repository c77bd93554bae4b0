package cli

import (
	"math"
	"time"

	"crossgrain/cmd/internal/figure"
	"crossgrain/cmd/internal/report"
	"crossgrain/moisture"
	"crossgrain/moisture/record"
	"crossgrain/species"
)

// thinWindow is the time over which thin wood averages the air here (assumption: between the response
// of a veneer, hours, and that of a board, weeks).
const thinWindow = 7 * 24 * time.Hour

// mostStates is how many moments of a record the wood is followed through.
const mostStates = 6000

// moistureOf follows the moisture of thin wood through a record: by its mean curve and along its
// scanning loops with memory of turning points.
func moistureOf(rec *record.Record, w *species.Wood, start time.Time) (*report.RecordWood, figure.RecordWood) {
	s := w.Sorption()
	doc := &report.RecordWood{Wood: w.Name, Borrowed: s.Borrowed, Source: s.Source, WindowDays: thinWindow.Hours() / 24}
	fig := figure.RecordWood{Start: start, Wood: w.Name, Average: "7 days"}
	mean := rec.MovingMean(thinWindow)
	every := max(1, len(mean)/mostStates)
	var scan moisture.Scan
	begun := false
	for i := 0; i < len(mean); i += every {
		fig.Days = append(fig.Days, rec.Times[i].Sub(start).Hours()/24)
		h := mean[i]
		if math.IsNaN(h) {
			fig.MeanMC, fig.Loop = append(fig.MeanMC, math.NaN()), append(fig.Loop, math.NaN())
			continue
		}
		if !begun {
			scan, begun = moisture.StartAt(&s.Branches, h, moisture.Settled), true
		}
		u, _ := scan.At(&s.Branches, h)
		scan.Commit(&s.Branches, h)
		fig.MeanMC = append(fig.MeanMC, s.Mean.MC(moisture.RH(h), 20).Percent())
		fig.Loop = append(fig.Loop, 100*u)
	}
	doc.MeanLow, doc.MeanHigh = ends(fig.MeanMC)
	doc.LoopLow, doc.LoopHigh = ends(fig.Loop)
	return doc, fig
}

// ends are the lowest and the highest number; NaN where there is none.
func ends(v []float64) (lo, hi float64) {
	lo, hi = math.NaN(), math.NaN()
	for _, x := range v {
		if math.IsNaN(x) {
			continue
		}
		if !(x >= lo) {
			lo = x
		}
		if !(x <= hi) {
			hi = x
		}
	}
	return lo, hi
}
