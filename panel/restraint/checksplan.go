package restraint

import (
	"fmt"
	"math"

	"crossgrain/panel/internal/plan"
)

const checkSoft = 1e-3 // flexibility of the single fixing of the rows MEM-*, mm/N

// memberChecks adds fixings and members whose answer is known by hand.
func memberChecks(got map[string]func() (float64, error)) {
	got["MEM-TWO"] = twoOnABar
	slot := Mount{Slip: &Hold{Stiff: 1000, Play: 0.5, Yield: 400}}
	rub := Mount{Slip: &Hold{Yield: math.Inf(1)}, Friction: 0.5, Preload: 100}
	for id, c := range map[string]struct {
		mount Mount
		free  []float64
	}{
		"MEM-GAP-INSIDE": {slot, []float64{0.4}},
		"MEM-GAP-BEARS":  {slot, []float64{0.4, 0.9}},
		"MEM-GAP-YIELDS": {slot, []float64{0.9, 2}},
		"MEM-GAP-BACK":   {slot, []float64{0.9, 2, 1.5}},
		"MEM-GAP-TURNED": {slot, []float64{0.9, 2, 1.5, 0.6, -0.5}},
		"MEM-FRIC-HOLDS": {rub, []float64{0.03}},
		"MEM-FRIC-SLIPS": {rub, []float64{0.03, 1}},
		"MEM-FRIC-BACK":  {rub, []float64{0.03, 1, 0.98}},
		"MEM-FRIC-TURNS": {rub, []float64{0.03, 1, 0.98, 0.5}},
	} {
		got[id] = func() (float64, error) {
			f, err := singleLed(c.mount, c.free)
			if err != nil {
				return 0, err
			}
			return f[len(f)-1], nil
		}
	}
	got["MEM-FRIC-LOOP"] = func() (float64, error) { return rubbedLoop(rub) }
	for _, depth := range []float64{30, 15} {
		got[fmt.Sprintf("MEM-MID-%g", depth)] = func() (float64, error) { return pressedMiddle(depth) }
	}
	for _, depth := range []float64{10, 20, 40} {
		got[fmt.Sprintf("MEM-GLUE-%g", depth)] = func() (float64, error) { return gluedStack(depth) }
	}
	got["MEM-LOOPS"] = loopsCost
	got["MEM-RENUMBER"] = renumbered
}

// singleLed leads one fixing through free movements and returns its forces.
func singleLed(x Mount, free []float64) ([]float64, error) {
	m, err := NewMarch(Body{N: 1, C: []float64{checkSoft}}, []Mount{x})
	if err != nil {
		return nil, err
	}
	var st Situation
	out := make([]float64, len(free))
	for i, f := range free {
		if _, err := m.Step(Incoming{Free: []float64{f}}, &st); err != nil {
			return nil, err
		}
		out[i] = st.Force[0]
	}
	return out, nil
}

// rubbedLoop returns what a fixing that rubs takes up from 1 mm to -1 mm and back, N mm; the corners of its
// line lie on steps, so that the mean force of each step is exact.
func rubbedLoop(rub Mount) (float64, error) {
	free := []float64{1, 0.9, -1, -0.9, 1}
	f, err := singleLed(rub, free)
	if err != nil {
		return 0, err
	}
	work := 0.0
	for i := 1; i < len(free); i++ {
		work += (f[i] + f[i-1]) / 2 * (free[i] - free[i-1])
	}
	return work, nil
}

// twoOnABar returns the force of two fixings 600 mm apart between a strip and a bar kept flat.
func twoOnABar() (float64, error) {
	b := Body{N: 2, C: []float64{0, 0, 0, 600 / checkPanel}, Motions: 1, R: []float64{1, 1}}
	b, err := b.WithBar(Bar{E: 11000, Width: 40, Depth: 20, HoldsFlat: true}, 0,
		[]Touch{{X: 0, Slip: 0, Lift: -1, Turn: -1}, {X: 600, Slip: 1, Lift: -1, Turn: -1}})
	if err != nil {
		return 0, err
	}
	mounts := []Mount{
		{X: 0, Slip: &Hold{Row: 0, Stiff: 700, Yield: math.Inf(1)}},
		{X: 600, Slip: &Hold{Row: 1, Stiff: 700, Yield: math.Inf(1)}},
	}
	st, err := stepped(b, mounts, []float64{0, -6})
	if err != nil {
		return 0, err
	}
	return st.Force[0], nil
}

// stepped takes one step from the moment of fixing.
func stepped(b Body, mounts []Mount, free []float64) (*Situation, error) {
	m, err := NewMarch(b, mounts)
	if err != nil {
		return nil, err
	}
	st := &Situation{}
	_, err = m.Step(Incoming{Free: free}, st)
	return st, err
}

// pressedMiddle returns the force at the middle of a batten of 500 mm on two keepers whose middle is pressed
// 2 mm out.
func pressedMiddle(depth float64) (float64, error) {
	touches, mounts := make([]Touch, 3), make([]Mount, 3)
	for i := range touches {
		x := 250 * float64(i)
		touches[i] = Touch{X: x, Slip: -1, Lift: i, Turn: -1}
		mounts[i] = Mount{X: x, Lift: &Hold{Row: i, Stiff: math.Inf(1), Yield: math.Inf(1)}}
	}
	b, err := Body{N: 3, C: make([]float64, 9)}.WithBar(Bar{E: 11000, Width: 40, Depth: depth}, 0, touches)
	if err != nil {
		return 0, err
	}
	st, err := stepped(b, mounts, []float64{0, 2, 0})
	if err != nil {
		return 0, err
	}
	return st.Force[1], nil
}

// gluedStack returns the force that passes from a strip shrinking 1 % into a batten glued to its back, both free
// to bend, as two members on five points that let nothing move.
func gluedStack(depth float64) (float64, error) {
	const n = 5
	touches, mounts, free := make([]Touch, n), make([]Mount, n), make([]float64, 3*n)
	for i := range n {
		x := 150 * float64(i)
		rigid := func(row int) *Hold { return &Hold{Row: row, Stiff: math.Inf(1), Yield: math.Inf(1)} }
		touches[i] = Touch{X: x, Slip: 3 * i, Lift: 3*i + 1, Turn: 3*i + 2}
		mounts[i] = Mount{X: x, Slip: rigid(3 * i), Lift: rigid(3*i + 1), Turn: rigid(3*i + 2)}
		free[3*i] = -0.01 * x
	}
	b, err := Body{N: 3 * n, C: make([]float64, 9*n*n)}.WithBar(Bar{E: 693, Width: 300, Depth: 20}, -10, touches)
	if err != nil {
		return 0, err
	}
	if b, err = b.WithBar(Bar{E: 11000, Width: 40, Depth: depth}, depth/2, touches); err != nil {
		return 0, err
	}
	st, err := stepped(b, mounts, free)
	if err != nil {
		return 0, err
	}
	return st.Force[0], nil
}

// checkRow is a strip on seven fixings with play, friction under the force that presses, and yield, its fixings
// numbered in the order told; rows 2i slip and 2i + 1 lift.
func checkRow(order [7]int) (Body, []Mount) {
	const n = len(order)
	b := Body{N: 2 * n, C: make([]float64, 4*n*n), Motions: 2, R: make([]float64, 4*n)}
	mounts := make([]Mount, n)
	for i, a := range order {
		for j, c := range order {
			b.C[2*i*2*n+2*j] = 5e-6 * (1 + float64(min(a, c)))
			b.C[(2*i+1)*2*n+2*j+1] = 1e-4 * math.Exp(-math.Abs(float64(a-c)))
		}
		b.R[2*i*2], b.R[(2*i+1)*2+1] = 1, 1
		mounts[i] = Mount{
			X: 0, Slip: &Hold{Row: 2 * i, Stiff: 700, Play: 0.1 * float64(a%3), Yield: 150 + 20*float64(a)},
			Lift:     &Hold{Row: 2*i + 1, Stiff: 3000, Yield: math.Inf(1), Presses: a%2 == 1},
			Friction: 0.3, Preload: 10 * float64(a),
		}
	}
	return b, mounts
}

// checkPath returns the free movements of step k: to and fro, and back to nil at the last.
func checkPath(order [7]int, k, steps int) []float64 {
	free := make([]float64, 2*len(order))
	if k == steps {
		return free
	}
	a, c := math.Sin(0.9*float64(k)), math.Cos(0.37*float64(k))
	for i, o := range order {
		x := float64(o) - 3
		free[2*i] = 0.4 * a * x
		free[2*i+1] = 0.05*c*x*x + 0.02*a*x
	}
	return free
}

// renumbered returns the largest difference of a force between two orders of the fixings over a history, as a
// share of the largest force.
func renumbered() (float64, error) {
	const steps = 60
	var marches [2]*March
	var at [2]Situation
	orders := [2][7]int{{0, 1, 2, 3, 4, 5, 6}, {4, 1, 6, 0, 3, 5, 2}}
	for s, o := range orders {
		b, mounts := checkRow(o)
		var err error
		if marches[s], err = NewMarch(b, mounts); err != nil {
			return 0, err
		}
	}
	worst, top := 0.0, 0.0
	for k := range steps {
		for s, o := range orders {
			if _, err := marches[s].Step(Incoming{Free: checkPath(o, k, steps)}, &at[s]); err != nil {
				return 0, err
			}
		}
		for i, o := range orders[1] {
			for way := range 2 {
				f := at[0].Force[2*o+way]
				worst, top = max(worst, math.Abs(f-at[1].Force[2*i+way])), max(top, math.Abs(f))
			}
		}
	}
	return worst / top, nil
}

// loopsCost returns what closed loops of the strip cost, the least of twelve, as a share of all work that passed.
func loopsCost() (float64, error) {
	order := [7]int{0, 1, 2, 3, 4, 5, 6}
	least := math.Inf(1)
	for steps := 4; steps <= 48; steps += 4 {
		b, mounts := checkRow(order)
		m, err := NewMarch(b, mounts)
		if err != nil {
			return 0, err
		}
		var st Situation
		last := make([]float64, b.N)
		work, passed := 0.0, 0.0
		for k := 1; k <= steps; k++ {
			free := checkPath(order, k, steps)
			if _, err := m.Step(Incoming{Free: free}, &st); err != nil {
				return 0, err
			}
			for i, f := range free {
				w := st.Force[i] * (f - last[i])
				work, passed = work+w, passed+math.Abs(w)
			}
			last = free
		}
		least = min(least, work/passed)
	}
	return least, nil
}

// checkLoads are the loads of an assembly, by board.
func checkLoads(a *Assembly, of map[plan.Load][]float64) []float64 {
	load := make([]float64, a.Loads())
	for l, v := range of {
		for b := range a.Boards() {
			load[a.LoadOf(b, l)] = v[b]
		}
	}
	return load
}
