package species

import (
	"math"

	"crossgrain/tables"
)

// Two books that never mix. What wood bears in slow tests has relaxation inside and is compared
// with strain held back over weeks; what it bears in tests of minutes is compared with elastic
// strain. The marker fields keep the two limits from being converted into one another.
type (
	slowBook struct{}
	fastBook struct{}
)

// HeldStrain is the strain that something holds back, slowly: the free movement denied to the
// wood, nothing relaxed from it.
type HeldStrain float64

// ElasticStrain is a strain that comes on at once or that is left as stress over modulus.
type ElasticStrain float64

// SlowLimit is a strain borne in slow loading, with its doubt.
type SlowLimit struct {
	Value, Low, High float64
	Source           string // key of table sources
	Grade            tables.Grade
	_                slowBook
}

// FastLimit is a strain borne in tests of minutes, with its doubt.
type FastLimit struct {
	Value, Low, High float64
	Source           string
	Grade            tables.Grade
	_                fastBook
}

// Share returns demand over capacity, 1 at the limit. Give the strain in the sense of the limit as
// positive; a negative one gives a negative share.
func (e HeldStrain) Share(l SlowLimit) float64 { return float64(e) / l.Value }

// Share returns demand over capacity, 1 at the limit; signs as [HeldStrain.Share].
func (e ElasticStrain) Share(l FastLimit) float64 { return float64(e) / l.Value }

// SlowYield returns the strain at which wood begins to give way slowly, 0.004 (Richard, Mecklenburg
// and Tumosa 1998), in tension.
func SlowYield() SlowLimit { return slow("slow_yield") }

// SlowBreak returns the strain at which wood breaks slowly, 0.009 or more between 35 and 65 % RH
// (Richard, Mecklenburg and Tumosa 1998); the ends 0.006 and 0.012 are assumptions.
func SlowBreak() SlowLimit { return slow("slow_break") }

// CompressionSlow returns the elastic limit of wood pressed across the grain, 0.005 to 0.010
// (Hoadley 1998); beyond it the strain is set. Positive is compression here.
func CompressionSlow() SlowLimit { return slow("slow_compression") }

func slow(limit string) SlowLimit {
	r, ok := find("limits", "limit", limit)
	if !ok {
		panic("species: table limits has no row " + limit) // a fault of the build
	}
	l := SlowLimit{Source: r.Text("source")}
	l.Value, _ = r.Float("value")
	if l.Low, ok = r.Float("low"); !ok {
		l.Low = l.Value
	}
	if l.High, ok = r.Float("high"); !ok {
		l.High = l.Value
	}
	l.Grade, _ = tables.ParseGrade(r.Text("evidence"))
	return l
}

const (
	strengthCV = 0.30 // across the grain, table panel_wood_defaults
	// Onset strains in notched spruce beams: 0.0013 RL, 0.0023 TL, 0.0037 with rings at 40 to 50
	// degrees (Kunecky et al. 2025): soft wood between the directions bears 2.06 times the mean of
	// both, not the four to five times that strength over modulus would give.
	onsetRL, onsetTL, onset45 = 0.0013, 0.0023, 0.0037
)

// FastBreak returns the elastic strain at which sound wood breaks across the board, by ring angle:
// strength over modulus, held below the strain interpolated between R and T and raised towards 45
// degrees in the ratio of the onset strains seen there. The ends are 5 and 95 % of the strength.
func (n Numbers) FastBreak(a RingAngle) FastLimit {
	stress := a.Tension(n) / a.Modulus(n)
	s, c := math.Sincos(a.Theta())
	r, t := n.TensionR/n.ER, n.TensionT/n.ET
	between := math.Pow(2*s*c, 2) // sin² 2 theta: 0 at R and T, 1 at 45 degrees
	strain := (r*c*c + t*s*s) * (1 + (onset45/((onsetRL+onsetTL)/2)-1)*between)
	v := min(stress, strain)
	f := math.Exp(width95 * logSigma(strengthCV))
	return FastLimit{Value: v, Low: v / f, High: v * f, Source: "KUNECKY2025", Grade: tables.Estimate}
}
