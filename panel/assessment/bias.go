package assessment

import (
	"context"
	"math"

	"crossgrain/panel"
	"crossgrain/panel/internal/chance"
	"crossgrain/panel/response"
)

// Bias is how far the model that the realisations went through is off for one part, by what both models say of the panel as
// described. The realisations are put right by it; where it is more than a fifth of their spread the rough model is refused
// there and nothing is counted.
type Bias struct {
	key
	Rough, Fine float64 // shares of limit
	Spread      float64 // standard deviation of the realisations, of the logarithm of their share
	Refused     bool
}

// off is the largest bias that is let pass, as a share of the spread.
const off = 0.2

// bias compares shares of the two models beside the spread of the realisations; x gives the share of one realisation.
func bias(k key, rough, fine float64, x, w []float64) Bias {
	b := Bias{key: k, Rough: rough, Fine: fine}
	const nothing = 1e-3
	var s, ss, all float64
	for i, v := range x {
		weight := 1.0
		if w != nil {
			weight = w[i]
		}
		v = math.Log(max(v, nothing))
		s, ss, all = s+weight*v, ss+weight*v*v, all+weight
	}
	b.Spread = math.Sqrt(max(0, ss/all-s*s/(all*all)))
	apart := math.Abs(math.Log(max(rough, nothing) / max(fine, nothing)))
	// a part far from its limit in both models counts nowhere
	b.Refused = apart > off*b.Spread && max(rough, fine) > callAt/2
	return b
}

// biases tells of every part that sets a range how the course by setting Coarse differs from that by Fine.
func (s *coursed) biases(rough, fine *along, w []float64) []Bias {
	a, b := s.shares(rough), s.shares(fine)
	var out []Bias
	x := make([]float64, len(s.share))
	for j, k := range s.keys {
		if !k.SetsRange() || len(x) == 0 {
			continue
		}
		for i := range s.share {
			x[i] = s.share[i][j]
		}
		out = append(out, bias(k, a[j], b[j], x, w))
	}
	return out
}

// finest follows the record at setting Fine, for the panel as described.
func finest(ctx context.Context, p *panel.Panel, q Question) (*along, error) {
	o, err := p.Realise(nil)
	if err != nil {
		return nil, err
	}
	c, err := q.prepareAt(o, response.Fine)
	if err != nil {
		return nil, err
	}
	c.Refine()
	return followed(ctx, c, q)
}

// quantiles of a column of shares.
func column(ones []*one, g, j int) []float64 {
	x := make([]float64, len(ones))
	for i, o := range ones {
		x[i] = o.share[g][j]
	}
	return x
}

func sharesBand(ones []*one, w []float64, g, j int) Band {
	x := column(ones, g, j)
	return Band{chance.Quantile(x, w, 0.05), chance.Quantile(x, w, 0.95)}
}
