package section

import (
	"math"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// probe reads stress at a place from the 2 x 2 points: straight between the two points of each element of the column
// that holds x (side -1 or 1 picks the one left or right of it), then by the cubic through the four nearest heights.
func probe(f Field, x, z, side float64) Stress {
	var zs, xx, xz, al []float64
	for _, b := range f {
		for e, el := range b.Elements {
			x0, x1 := b.X[el[0]], b.X[el[1]]
			if xs := x + side*1e-6; b.Coat[e] || xs < x0 || xs > x1 {
				continue
			}
			u := (2*(x-x0)/(x1-x0) - 1) * math.Sqrt(3)
			for k := range 2 {
				p, q := b.Points[4*e+k], b.Points[4*e+2+k]
				zs = append(zs, p.Z)
				xx = append(xx, (1-u)/2*p.XX+(1+u)/2*q.XX)
				xz = append(xz, (1-u)/2*p.XZ+(1+u)/2*q.XZ)
				al = append(al, (1-u)/2*p.Along+(1+u)/2*q.Along)
			}
		}
	}
	i := 0
	for i+4 < len(zs) && math.Abs(zs[i+4]-z) < math.Abs(zs[i]-z) {
		i++
	}
	var s Stress
	for k, w := range derivatives(z, zs[i:i+4])[0] {
		s.XX += w * xx[i+k]
		s.XZ += w * xz[i+k]
		s.Along += w * al[i+k]
	}
	return s
}

// largest is the largest value of each kind of quantity in the case, by the start of its name.
func largest(rows []map[string]string) map[string]float64 {
	out := map[string]float64{}
	for _, r := range rows {
		v, _ := strconv.ParseFloat(r["value"], 64)
		k := kindOf(r["quantity"])
		out[k] = math.Max(out[k], math.Abs(v))
	}
	return out
}

func kindOf(q string) string {
	if strings.HasPrefix(q, "s") {
		return "stress"
	}
	return "movement"
}

// allowed is 0.2 % of the largest value of the kind, or the last trusted digit, whichever is larger.
func allowed(r map[string]string, want float64, top map[string]float64) float64 {
	tol := 0.002 * top[kindOf(r["quantity"])]
	if d, _ := strconv.Atoi(r["digits"]); d > 0 && want != 0 {
		tol = math.Max(tol, math.Pow(10, math.Floor(math.Log10(math.Abs(want)))+1-float64(d)))
	}
	return tol
}

func TestCaseA(t *testing.T) {
	rows := read(t, "../../testdata/solvers/case_a.csv")
	top := largest(rows)
	for _, name := range []string{"flat", "quarter", "deg45"} {
		for mode, held := range map[string]bool{"pe": true, "gps": false} {
			for _, f := range []Fineness{Coarse, Fine} {
				_, o := run(t, caseBoard(name), Options{Fineness: f, HeldAlong: held}, even(-0.0075, -0.015))
				ab(t, rows, name, mode, o, nil, top)
			}
		}
	}
}

// ab holds an Out of one board against the rows of cases A and B: their cup is positive when the front is hollow.
func ab(t *testing.T, rows []map[string]string, name, mode string, o *Out, f Field, top map[string]float64) {
	seen := 0
	for _, r := range rows {
		if r["variant"] != name || (r["mode"] != mode && r["mode"] != "any") {
			continue
		}
		want, err := strconv.ParseFloat(r["value"], 64)
		require.NoError(t, err)
		q := r["quantity"]
		got, ok := map[string]float64{
			"cup_back": -o.Cup, "dW_mid": o.Width, "dT_left": o.Boards[0].Thickness[0],
			"dT_centre": o.Boards[0].Thickness[1], "dT_right": o.Boards[0].Thickness[2],
			"cup_front": -(o.Cup + o.Boards[0].Thickness[1] - (o.Boards[0].Thickness[0]+o.Boards[0].Thickness[2])/2),
		}[q]
		if p := strings.Split(q, "_"); len(p) == 3 && f != nil && q[0] == 's' {
			s := probe(f, map[string]float64{"c": 150, "q": 225}[p[1]], map[string]float64{"back": 0, "mid": 10, "front": 20}[p[2]], 1)
			got, ok = map[string]float64{"sxx": s.XX, "szz": s.Along}[p[0]], true // z is along the grain there
		}
		if !ok {
			continue
		}
		assert.InDelta(t, want, got, allowed(r, want, top), "%s %s %s", name, mode, q)
		seen++
	}
	if mode == "pe" {
		require.GreaterOrEqual(t, seen, 6)
	}
}

func TestCaseB(t *testing.T) {
	rows := read(t, "../../testdata/solvers/case_b.csv")
	top := largest(rows)
	for _, name := range []string{"flat", "quarter", "deg45"} {
		for mode, held := range map[string]bool{"pe": true, "gps": false} {
			m, err := Build(caseBoard(name), Options{Fineness: Fine, HeldAlong: held, Across: 200, Through: 12}) // stress asks for more than Fine
			require.NoError(t, err)
			loads := fill(t, m, Movement{At: []float64{0, 1}, R: []float64{-0.0075, 0}, T: []float64{-0.015, 0}})
			o := m.NewOut()
			require.NoError(t, m.Eval(o, loads))
			f, err := m.Field(loads)
			require.NoError(t, err)
			ab(t, rows, name, mode, o, f, top)
			if name == "flat" && mode == "pe" {
				assert.Positive(t, o.Cup, "the back dries, the front is rounded")
			}
		}
	}
}

// Movements at setting Fine; the stress across the joins, which are singular at their ends, asks for the finer mesh of
// the long test.
func TestCaseC(t *testing.T) { holdCaseC(t, Options{Fineness: Fine}, "movement", 28) }

func holdCaseC(t *testing.T, o Options, kind string, least int) {
	rows := read(t, "../../testdata/solvers/case_c.csv")
	top := largest(rows)
	seen := 0
	for mode, held := range map[string]bool{"pe": true, "gps": false} {
		o.HeldAlong = held
		m, err := Build(caseC(), o)
		require.NoError(t, err)
		loads := fill(t, m, even(-0.0075, -0.015))
		out := m.NewOut()
		require.NoError(t, m.Eval(out, loads))
		f, err := m.Field(loads)
		require.NoError(t, err)
		for _, r := range rows {
			if r["mode"] != mode || kindOf(r["quantity"]) != kind {
				continue
			}
			want, err := strconv.ParseFloat(r["value"], 64)
			require.NoError(t, err)
			if got, ok := caseCValue(out, f, r["quantity"]); ok {
				seen++
				assert.InDelta(t, want, got, allowed(r, want, top), "%s %s", mode, r["quantity"])
			}
		}
	}
	require.GreaterOrEqual(t, seen, least)
}

func caseCValue(o *Out, f Field, q string) (float64, bool) {
	switch q {
	case "dW_back":
		return o.WidthBack, true
	case "dW_front":
		return o.WidthFront, true
	}
	if x, ok := strings.CutPrefix(q, "uy_back_"); ok {
		at, _ := strconv.ParseFloat(x, 64)
		return rise(f, at), true
	}
	p := strings.Split(q, "_")
	if len(p) == 3 && p[2] == "mid" {
		for _, sign := range []string{"+", "-"} {
			if a, b, ok := strings.Cut(p[1], sign); ok {
				x, _ := strconv.ParseFloat(a, 64)
				d, _ := strconv.ParseFloat(sign+b, 64)
				return probe(f, x+d, 9, 1).XX, true
			}
		}
	}
	if len(p) == 3 {
		x, err1 := strconv.ParseFloat(p[1], 64)
		z, err2 := strconv.ParseFloat(p[2], 64)
		if err1 == nil && err2 == nil {
			a, b := probe(f, x, z*18, -1), probe(f, x, z*18, 1)
			return map[string]float64{"sxx": (a.XX + b.XX) / 2, "sxy": (a.XZ + b.XZ) / 2}[p[0]], true
		}
	}
	return 0, false
}

// rise is the movement in z of the node of the back nearest to x.
func rise(f Field, x float64) float64 {
	best, v := math.Inf(1), 0.0
	for _, b := range f {
		for n := range b.X {
			if d := math.Hypot(b.X[n]-x, b.Z[n]); d < best {
				best, v = d, b.DZ[n]
			}
		}
	}
	return v
}

func TestCaseH(t *testing.T) {
	profiles := map[string]Movement{}
	at := make([]float64, 41)
	for i := range at {
		at[i] = float64(i) / 40
	}
	for _, r := range read(t, "../../testdata/solvers/case_h_profile.csv") {
		f := Movement{At: at}
		for i := range at {
			u, err := strconv.ParseFloat(r["u"+strconv.Itoa(i)], 64)
			require.NoError(t, err)
			f.R, f.T = append(f.R, 0.15*(u-0.10)), append(f.T, 0.30*(u-0.10))
		}
		profiles[r["hour"]] = f
	}
	rows := read(t, "../../testdata/solvers/case_h.csv")
	m, err := Build(caseBoard("flat"), Options{Fineness: Fine, HeldAlong: true})
	require.NoError(t, err)
	o := m.NewOut()
	cup := map[string]float64{}
	hi, lo := -9.0, 9.0
	for h, f := range profiles {
		require.NoError(t, m.Eval(o, fill(t, m, f)))
		cup[h] = -o.Cup
		hi, lo = math.Max(hi, -o.Cup), math.Min(lo, -o.Cup)
	}
	cup["max"], cup["min"] = hi, lo
	seen := 0
	for _, r := range rows {
		w := strings.Fields(r["quantity"])
		got, ok := cup[w[len(w)-1]]
		if w[0] != "cup_back" || !ok {
			continue
		}
		want, err := strconv.ParseFloat(r["value"], 64)
		require.NoError(t, err)
		assert.InDelta(t, want, got, 0.002*3.34, r["quantity"])
		seen++
	}
	require.Equal(t, 12, seen)
}
