package report

import (
	"math"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"crossgrain/moisture"
	"crossgrain/panel/response"
	"crossgrain/panel/restraint"
)

func inventedWeight() *response.OwnWeight {
	w := &response.OwnWeight{WeightKg: 4.6, Grown: [2]float64{1.9, 2.6}, Bears: [2]float64{2, 1.5}, Part: "join.a-b"}
	lain := func(sag, stress float64) restraint.Lain {
		l := restraint.Lain{Short: restraint.Borne{Deflection: -sag, Stress: stress}, Sag: [2]float64{-1.9 * sag, -2.6 * sag}}
		return l
	}
	w.Bearers = []response.WeightLying{{At: []float64{124, 476}, Lain: lain(2, 0.3)}, {At: []float64{87, 300, 513}, Lain: lain(0.4, 0.15)}}
	w.Edges = [2]restraint.OnFourEdges{{Deflection: 1, StressAcross: 0.1}, {Deflection: 1.5, Reach: restraint.Outside}}
	w.Ends.Deflection, w.Ends.Stress = 0.5, 0.4
	w.Standing = [2]response.WeightStanding{
		{AsIs: true, Now: restraint.Stood{More: 0.1}, Season: restraint.Stood{Share: 0.02, More: 0.2}},
		{Level: true, Now: restraint.Stood{Share: 0.5, More: 3}, Season: restraint.Stood{Share: 1.2, More: math.Inf(1), Buckles: true, Reach: restraint.Outside}},
	}
	return w
}

func weightWords(w *OwnWeight, bays []BayRow) string {
	var t textPage
	weightText(&t, nil, w, bays)
	return strings.Join(strings.Fields(t.b.String()), " ")
}

func TestOwnWeightText(t *testing.T) {
	w := inventedWeight()
	doc := ownWeightOf(w)
	require.Len(t, doc.Lying, 4, "no battens, no row for them")
	assert.InDelta(t, 0.2, *doc.Lying[0].Share, 1e-12, "0.3 of 1.5 MPa for a season")
	assert.Equal(t, 2.0, doc.Lying[0].SagMM, "an edge that rises is a sag all the same")
	s := weightWords(doc, nil)
	for _, want := range []string{
		"ITS OWN WEIGHT", "4.6 kg", "join a-b, is taken to bear 2 MPa for a moment and 1.5 MPa for a season", "124 mm",
		"3.8 to 5.2", "1.9 to 2.6 times", "outside the model", "grain upright, held at the top and leaning a little, it bends 0.2 mm more in a season, and bears 50 times its weight",
		"Turned with its grain level, held at foot and top alone, it would give way sideways in a season",
	} {
		assert.Contains(t, s, want)
	}
	assert.NotContains(t, s, "RIPPLING")
	w.Standing[1].Season = restraint.Stood{Share: 0.05, More: 0.1}
	assert.NotContains(t, weightWords(ownWeightOf(w), nil), "Turned", "nobody asked")
	w.Standing[0].Season = restraint.Stood{Share: 0.9, More: 30, Reach: restraint.Outside}
	assert.Contains(t, weightWords(ownWeightOf(w), nil), "30 mm more in a season: outside the model. Hold it all around.")
	w.Battens = restraint.Carried{Sag: restraint.Sag{Deflection: 0.2, Stress: 0.1}}
	assert.Contains(t, weightWords(ownWeightOf(w), nil), "with its battens")
	w.Bears[0] = 1.52
	assert.Contains(t, weightWords(ownWeightOf(w), nil), "1.5 MPa, for a moment or for a season")
	assert.Nil(t, ownWeightOf(nil))
	assert.Empty(t, weightSections(nil, nil, nil))
}

func TestSmallStress(t *testing.T) {
	for v, want := range map[float64]string{0: "under 0.01", 0.004: "under 0.01", 0.0149: "0.01", 0.05: "0.05", 0.0949: "0.09", 0.096: "0.1", 1.26: "1.3"} {
		assert.Equal(t, want, small(v), "%g", v)
	}
}

func TestRippleWords(t *testing.T) {
	bay := func(low, high moisture.RH) []BayRow {
		b := response.Bay{Part: "cradle", From: 100, To: 184, High: 900, Thickness: 6, At: [2]moisture.RH{low, high}}
		return baysOf([]response.Bay{b})
	}
	never := moisture.RH(math.Inf(1))
	assert.Contains(t, weightWords(nil, bay(0.66, 0.98)), "6.0 mm of wood, 84 mm wide between glued members and 900 mm along the grain")
	assert.Contains(t, weightWords(nil, bay(0.66, 0.98)), "between 66 and 98 % RH")
	assert.Contains(t, weightWords(nil, bay(0.84, never)), "from 84 % RH on, and would not")
	assert.Contains(t, weightWords(nil, bay(0.7, 0.7)), "from about 70 % RH on")
	assert.Empty(t, weightWords(nil, bay(never, never)), "a thick panel: nothing to say")
	s := weightSections(nil, ownWeightOf(inventedWeight()), bay(0.66, 0.98))
	require.Len(t, s, 2)
	assert.Equal(t, "ripple", s[1].ID)
}
