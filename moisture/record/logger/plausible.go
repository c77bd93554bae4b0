package logger

import (
	"fmt"
	"math"
	"slices"

	"crossgrain/tables/problem"
	"crossgrain/tables/sheet"
)

// Working limits of what a reading may be (assumption), but for the dew point: none was ever measured
// above 35 °C at a weather station, bar the Persian Gulf (memory).
const (
	mostRH      = 105.0 // per cent; up to here a sensor overshoots and is read as 100
	leastT      = -60.0 // °C
	mostT       = 80.0
	mostDew     = 35.0
	hotRoom     = 45.0 // median, °C: above it the unit is in doubt
	dewTrust    = 1.0  // K: mean departure of the dew point column from the one calculated
	dewConflict = 2.0  // K
)

// view is one way to understand the columns of humidity and temperature.
type view struct {
	unit    byte // of temperature: 'C', 'F', 'K'
	swapped bool
	why     string
}

func (v view) of(r reading) (rh, t float64) {
	rh, t = r.rh, r.t
	if v.swapped {
		rh, t = t, rh
	}
	return rh, celsius(t, v.unit)
}

func celsius(t float64, unit byte) float64 {
	switch unit {
	case 'F':
		return (t - 32) / 1.8
	case 'K':
		return t - 273.15
	}
	return t
}

// settle gives every reading humidity as a fraction and temperature in °C, and sets aside what cannot be.
func (t *table) settle(r room, o Options, a *aside) (unit string, guesses []string, err error) {
	if r.guessed != "" {
		guesses = append(guesses, r.guessed)
	}
	if says, err := t.fraction(r); err != nil {
		return "", nil, err
	} else if says != "" {
		guesses = append(guesses, says)
	}
	if err := t.lostSign(); err != nil {
		return "", nil, err
	}
	if t.noWarmth(a) {
		t.list = t.within(view{unit: 'C'}, a, &guesses)
		return "", guesses, nil
	}
	v, err := t.view(r, o)
	if err != nil {
		return "", nil, err
	}
	if v.why != "" {
		guesses = append(guesses, v.why)
	}
	t.dewInC(r, v)
	if v.swapped {
		for i := range t.list {
			t.list[i].rh, t.list[i].t = t.list[i].t, t.list[i].rh
		}
	}
	t.list = t.within(v, a, &guesses)
	t.dewCheck(a, &guesses)
	return string(v.unit), guesses, nil
}

// noWarmth says whether the record goes without temperatures; where it has them, the few rows without
// are set aside.
func (t *table) noWarmth(a *aside) bool {
	none := 0
	for i := range t.list {
		if math.IsNaN(t.list[i].t) {
			none++
		}
	}
	if none == len(t.list) {
		return true
	}
	if none > 0 && none*10 <= len(t.list) {
		t.list = slices.DeleteFunc(t.list, func(r reading) bool {
			if math.IsNaN(r.t) {
				a.add(t.grid.name, noWarmth, int(r.line))
				return true
			}
			return false
		})
	}
	return false
}

// fraction turns humidity given from 0 to 1 into per cent.
func (t *table) fraction(r room) (string, error) {
	high, sum, n := 0.0, 0.0, 0
	for i := range t.list {
		if v := t.list[i].rh; !math.IsNaN(v) {
			high, sum, n = max(high, v), sum+v, n+1
		}
	}
	if n == 0 || high > 1.05 || sum/float64(n) < 0.03 {
		return "", nil
	}
	for i := range t.list {
		t.list[i].rh *= 100
	}
	if r.rhUnit == "-" || r.rhUnit == "1" {
		return "", nil
	}
	return fmt.Sprintf("humidity read as a fraction of 1, because its highest value is %.3g", high), nil
}

// lostSign refuses a record that has lost its decimal sign altogether.
func (t *table) lostSign() error {
	over, line, what := 0, 0, 0.0
	for i := range t.list {
		if v := t.list[i].rh; v > mostRH && v == math.Trunc(v) {
			over++
			if line == 0 {
				line, what = int(t.list[i].line), v
			}
		}
	}
	if over*2 <= len(t.list) || len(t.list) == 0 {
		return nil
	}
	return problem.List{{File: t.grid.name, Line: line, Part: "humidity", Msg: fmt.Sprintf("most values lie above 105 %% RH, the first is %g: the decimal sign has been lost", what),
		Hint: "export the record again with the decimal sign of your country, or as a workbook"}}.Err()
}

// view decides the unit of temperature and whether the two columns are exchanged: by the flag, the head
// and the cells first, then by what is physically likely, and by the dew point where there is one.
func (t *table) view(r room, o Options) (view, error) {
	stated := warmUnit(r.unit)
	if stated == 0 && r.t >= 0 {
		stated = t.unitInCells(r)
	}
	if o.Unit != "" {
		return view{unit: o.Unit[0]}, nil
	}
	asIs := view{unit: stated}
	if stated == 0 {
		asIs.unit = 'C'
	}
	if best, ok := t.byDew(r, asIs); ok {
		return best, nil
	}
	rh, warm := t.middles(asIs)
	switch {
	case asIs.unit == 'C' && warm > 200:
		return view{unit: 'K', why: fmt.Sprintf("temperature read as kelvin, because its middle value is %.0f", warm)}, nil
	case asIs.unit != 'C' || warm <= hotRoom:
		return asIs, nil
	}
	exchanged := rh > -20 && rh < 30 && warm <= 100
	if exchanged || stated == 'C' && r.unit != "" && warm > 120 {
		return view{}, problem.List{{File: t.grid.name, Line: int(t.list[0].line), Part: "temperature",
			Msg:  fmt.Sprintf("the middle temperature would be %.0f °C at %.0f %% RH: the two columns may be exchanged, or temperatures stand in °F", warm, rh),
			Hint: "put the names in the head right, or say the unit with --unit F or --unit C"}}.Err()
	}
	return view{unit: 'F', why: fmt.Sprintf("temperature read as °F, because a middle value of %.0f °C is not likely; --unit C says otherwise", warm)}, nil
}

// unitInCells is the unit that the cells of the temperature carry.
func (t *table) unitInCells(r room) byte {
	var cells [][]byte
	for k := range min(len(t.list), 20) {
		i := int(t.list[k].line) - 1
		if t.grid.rows != nil {
			i = slices.IndexFunc(t.grid.rows, func(w sheet.Row) bool { return w.Line == int(t.list[k].line) })
		}
		if i < 0 || i >= t.grid.len() {
			continue
		}
		if cells = t.grid.split(i, cells); r.t < len(cells) {
			if u := cellUnit(cells[r.t]); u != 0 && u != '%' {
				return u
			}
		}
	}
	return 0
}

// middles are the medians of humidity and temperature, so that a few wild values do not count.
func (t *table) middles(v view) (rh, warm float64) {
	var hs, ws []float64
	step := max(1, len(t.list)/2000)
	for i := 0; i < len(t.list); i += step {
		h, w := v.of(t.list[i])
		if !math.IsNaN(h) && !math.IsNaN(w) {
			hs, ws = append(hs, h), append(ws, w)
		}
	}
	if len(hs) == 0 {
		return math.NaN(), math.NaN()
	}
	slices.Sort(hs)
	slices.Sort(ws)
	return hs[len(hs)/2], ws[len(ws)/2]
}

// byDew finds the view in which the dew point column fits; false when there is none or none fits.
func (t *table) byDew(r room, asIs view) (view, bool) {
	if r.dew < 0 {
		return view{}, false
	}
	views := []view{asIs,
		{unit: 'F', why: "temperature read as °F, because only so the dew points fit"},
		{unit: asIs.unit, swapped: true, why: "humidity and temperature exchanged, because only so the dew points fit"}}
	best, least := -1, dewTrust
	for k, v := range views {
		for _, u := range dewUnits(r, v) {
			if d := t.dewMiss(v, u); d < least && (k == 0 || d*2 < least) {
				best, least = k, d
			}
		}
		if k == 0 && best == 0 {
			break
		}
	}
	if best < 0 {
		return view{}, false
	}
	return views[best], true
}

// dewUnits are the units in which the dew point may stand.
func dewUnits(r room, v view) []byte {
	if u := warmUnit(r.dewUnit); u != 0 && u == v.unit {
		return []byte{u}
	}
	return []byte{'C', v.unit}
}

// dewMiss is the middle departure of the dew points from those calculated, K.
func (t *table) dewMiss(v view, unit byte) float64 {
	var off []float64
	step := max(1, len(t.list)/2000)
	for i := 0; i < len(t.list); i += step {
		rh, warm := v.of(t.list[i])
		if d := math.Abs(dewOf(warm, rh/100) - celsius(t.list[i].dew, unit)); !math.IsNaN(d) && rh > 0 && rh <= mostRH {
			off = append(off, d)
		}
	}
	if len(off) < 3 {
		return math.Inf(1)
	}
	slices.Sort(off)
	return off[len(off)/2]
}

// dewInC brings the dew points to °C.
func (t *table) dewInC(r room, v view) {
	if r.dew < 0 {
		return
	}
	best, unit := math.Inf(1), v.unit
	for _, u := range dewUnits(r, v) {
		if d := t.dewMiss(v, u); d < best {
			best, unit = d, u
		}
	}
	for i := range t.list {
		t.list[i].dew = celsius(t.list[i].dew, unit)
	}
}

// within turns the values into fractions and °C and sets aside what no air can be.
func (t *table) within(v view, a *aside, guesses *[]string) []reading {
	kept := t.list[:0]
	over := 0
	for _, r := range t.list {
		r.t = celsius(r.t, v.unit)
		why := ""
		switch {
		case r.rh > mostRH && r.rh <= 1050 && r.rh == math.Trunc(r.rh):
			why = "humidity above 105 % RH; a decimal sign may be lost"
		case r.rh > mostRH:
			why = "humidity above 105 % RH"
		case r.rh < 0:
			why = "humidity below 0 % RH"
		case r.rh == 0:
			why = "humidity of exactly 0 % RH: a dead sensor"
		case r.t < leastT || r.t > mostT:
			why = fmt.Sprintf("temperature outside %.0f to %.0f °C", leastT, mostT)
		case r.t > mostDew && dewOf(r.t, r.rh/100) > mostDew:
			why = fmt.Sprintf("humidity and temperature impossible together: a dew point above %.0f °C", mostDew)
		}
		if why != "" {
			a.add(t.grid.name, why, int(r.line))
			continue
		}
		if r.rh > 100 {
			over++
			r.rh = 100
		}
		r.rh /= 100
		kept = append(kept, r)
	}
	if over > 0 {
		*guesses = append(*guesses, fmt.Sprintf("readings between 100 and 105 %% RH taken as 100 %%: %d", over))
	}
	return kept
}

// dewCheck sets readings aside whose dew point contradicts them, where most agree; where most do not,
// it says that the column was not used.
func (t *table) dewCheck(a *aside, guesses *[]string) {
	bad := func(r reading) bool {
		d := dewOf(r.t, r.rh)
		return d > -10 && math.Abs(d-r.dew) > dewConflict
	}
	n, off := 0, 0
	for _, r := range t.list {
		if !math.IsNaN(r.dew) && !math.IsNaN(r.t) {
			n++
			if bad(r) {
				off++
			}
		}
	}
	if off == 0 {
		return
	}
	if off*5 > n {
		*guesses = append(*guesses, fmt.Sprintf("the dew point column was not used: %d of %d values depart by more than %.0f K from those calculated", off, n, dewConflict))
		return
	}
	t.list = slices.DeleteFunc(t.list, func(r reading) bool {
		if bad(r) {
			a.add(t.grid.name, fmt.Sprintf("the dew point beside it contradicts it by more than %.0f K", dewConflict), int(r.line))
			return true
		}
		return false
	})
}
