package scenario

import (
	"math"
	"time"

	"crossgrain/moisture"
	"crossgrain/tables"
	"crossgrain/tables/verify"
)

// Checks returns the published and independently worked out values that made climates and closed
// cases must give: air exchange, heating arithmetic, half-times, boxes with wood.
func Checks() ([]verify.Row, error) {
	t, err := tables.Read("checks_climate")
	if err != nil {
		return nil, err
	}
	got := map[string]func() (float64, error){}
	exchangeChecks(got)
	airChecks(got)
	woodChecks(got)
	return verify.FromTable(t, got)
}

func exchangeChecks(got map[string]func() (float64, error)) {
	for n, id := range []string{"1", "2", "3"} {
		got["CLI-AIREX-D-"+id] = func() (float64, error) { return 100 * inSteps(0.1, n+1), nil }
		got["CLI-AIREX-C-"+id] = func() (float64, error) { return dryCase().standing(Climate{1, 20}, n+1) }
	}
	got["CLI-AIREX-D-HALF"] = func() (float64, error) { return math.Log(0.5) / math.Log1p(-0.1), nil }
	got["CLI-AIREX-C-HALF"] = dryCase().HalfTime
	got["CLI-LEAK-GOOD-LOW"] = Case{Volume: 1000, Exchange: Leakages()[0].Low, Start: Climate{0.5, 20}}.HalfTime
	got["CLI-LEAK-GOOD-HIGH"] = Case{Volume: 1000, Exchange: Leakages()[0].High, Start: Climate{0.5, 20}}.HalfTime
	got["CLI-HALF-FACTOR"] = func() (float64, error) {
		const m, b = 10, 1e5
		h, err := Case{Volume: 1000, Exchange: 1, Buffer: Buffer{Mass: b, Capacity: m}, Start: Climate{0.5, 20}}.HalfTime()
		return h / 24 / (m * b), err
	}
}

// inSteps is the share of the way to the room after n exchanges of a fraction of the air, all at
// once each: the form of the worked example, which is a little quicker than the continuous one.
func inSteps(fraction float64, n int) float64 { return 1 - math.Pow(1-fraction, float64(n)) }

// dryCase is the empty case of the worked example.
func dryCase() Case { return Case{Volume: 100, Exchange: 2.4, Start: Climate{0, 20}} }

// standing is the humidity, %, after so many hours in a room that stays as it is, from Run.
func (c Case) standing(room Climate, hours int) (float64, error) {
	r, err := Sequence{Legs: []Leg{{Lasts: time.Duration(hours) * time.Hour, Climate: room}}}.Record()
	if err != nil {
		return 0, err
	}
	res, err := c.Run(r)
	if err != nil {
		return 0, err
	}
	return 100 * res.Record.RH[hours], nil
}

func airChecks(got map[string]func() (float64, error)) {
	for id, x := range map[string]struct {
		h        moisture.RH
		from, to moisture.Celsius
	}{
		"CLI-HEAT-0": {0.9, 0, 20}, "CLI-HEAT-M10": {0.9, -10, 20}, "CLI-HEAT-5": {0.85, 5, 12},
		"CLI-COOL-20": {0.5, 20, 12}, "CLI-WARM-10": {0.7, 10, 20},
	} {
		got[id] = func() (float64, error) {
			h, err := moisture.MagnusWMO.RHAt(x.h, x.from, x.to)
			return h.Percent(), err
		}
	}
}

func woodChecks(got map[string]func() (float64, error)) {
	at := Climate{0.5, 20}
	got["CLI-SEALED-EMPTY"] = Case{Volume: 100, Start: at}.Warming
	got["CLI-SEALED-WOOD"] = Case{Volume: 0.1, Wood: Wood{Mass: 1e5, Quick: 1}, Start: at}.Warming
	for id, kg := range map[string]float64{"CLI-SEALED-10K-0": 0, "CLI-SEALED-10K-1": 1} {
		got[id] = func() (float64, error) {
			box := Case{Volume: 100, Wood: Wood{Mass: kg, Quick: 1}, Start: at}
			h, err := box.standing(Climate{0.5, 30}, 1)
			return h - at.RH.Percent(), err
		}
	}
	got["CLI-NEUTRAL"] = func() (float64, error) { return NeutralWood(at) }
	for id, hours := range map[string]int{"CLI-CRATE-6": 6, "CLI-CRATE-30": 30, "CLI-CRATE-240": 240} {
		got[id] = func() (float64, error) { return crate().standing(Climate{0.35, 12}, hours) }
	}
}

// crate is the invented crate of the checks.
func crate() Case {
	return Case{Volume: 200, Exchange: 1, Buffer: Buffer{Mass: 2, Capacity: 2},
		Wood: Wood{Mass: 20, Quick: 0.3, Hours: 48}, Lag: 6, Start: Climate{0.5, 20}}
}
