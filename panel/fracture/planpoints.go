package fracture

import "math"

// points puts two meshes together for state s: energies between rows extrapolated to cells of no size,
// then their slopes at the rows.
func (f *planFollow) points(a, fine *planFront, s int) PlanRun {
	run := PlanRun{Stretch: a.tip.stretch, Up: a.tip.up}
	n, once := len(a.steps), f.atOnce()
	for fine != nil && n > 0 && !fine.reached(2*a.stages[n].row) {
		n--
	}
	at := make([]float64, n+1) // new crack since the first row
	slow, sudden := make([]planParts, n), make([]planParts, n)
	for k := range n {
		at[k+1] = at[k] + a.steps[k].length
		slow[k] = a.steps[k].slow[s]
		rough := slow[k].sum()
		if fine != nil {
			slow[k] = extrapolated(slow[k], fine.between(2*a.steps[k].row, s))
		}
		if sudden[k] = slow[k]; fine == nil {
			for i := range sudden[k] {
				sudden[k][i] *= once
			}
			continue
		}
		if sudden[k] = a.steps[k].sudden[s]; rough > 0 {
			for i := range sudden[k] {
				sudden[k][i] *= slow[k].sum() / rough
			}
		}
	}
	area := a.z.p.depth
	if o := f.l.Open[a.tip.stretch]; o.Depth > 0 && o.Depth < area {
		area = o.Depth
	}
	y := a.z.p.y
	o := f.l.Open[a.tip.stretch]
	for k := 0; k <= n && k < len(a.stages); k++ {
		r := a.stages[k].row
		if a.tip.up && r < a.tip.row || !a.tip.up && r > a.tip.row {
			continue
		}
		p := PlanPoint{Start: o.From, End: o.To}
		if a.tip.up {
			p.End = y[r]
		} else {
			p.Start = y[r]
		}
		if n > 0 {
			x := at[k]
			if fine == nil && k < n {
				x += planBehind * (at[k+1] - at[k])
			}
			p.Slow, p.Sudden = slopes(at, slow, k, x, area), slopes(at, sudden, k, x, area)
		}
		if p.End == p.Start {
			p.Slow, p.Sudden = PlanRelease{}, PlanRelease{}
		}
		st := &a.stages[k]
		if fine != nil {
			st = fine.stage(2 * r)
		}
		p.Profile, p.Forces = st.profile[s], st.forces[s]
		run.Points = append(run.Points, p)
	}
	f.finish(&run)
	return run
}

// planFew is how many lengths are followed at PlanCoarse.
const planFew = 3

// finish adds the panel's edge when every length was to be followed.
func (f *planFollow) finish(run *PlanRun) {
	if f.setting != PlanFine || len(run.Points) == 0 {
		run.Points = run.Points[:min(len(run.Points), planFew)]
		return
	}
	p := run.Points[len(run.Points)-1]
	last := PlanPoint{Start: p.Start, End: p.End}
	if run.Up {
		last.End = f.lay.Length
	} else {
		last.Start = 0
	}
	if last.Start == p.Start && last.End == p.End {
		run.Points = run.Points[:len(run.Points)-1]
		last.Profile, last.Forces = p.Profile, p.Forces
	}
	run.Points = append(run.Points, last)
	run.Through = true
}

// extrapolated takes the error of the front, which goes with the size of the cells, out.
func extrapolated(coarse, fine planParts) (out planParts) {
	for i := range out {
		out[i] = math.Min(math.Max(2*fine[i]-coarse[i], 0), 2*fine[i])
	}
	return out
}

// stage is the front at a row, nil when it does not get there.
func (f *planFront) stage(row int) *planStage {
	for i := range f.stages {
		if f.stages[i].row == row {
			return &f.stages[i]
		}
	}
	return nil
}

// reached tells whether the front comes to a row.
func (f *planFront) reached(row int) bool { return f.stage(row) != nil }

// between is what is set free in state s from a row of the coarser mesh, counted on the finer one, to the next.
func (f *planFront) between(row, s int) (out planParts) {
	for i := range f.steps {
		if d := f.steps[i].row - row; d == 0 || f.tip.up && d == 1 || !f.tip.up && d == -1 {
			for k, v := range f.steps[i].slow[s] {
				out[k] += v
			}
		}
	}
	return out
}

// planBehind is how far behind its place, in cells, a front on one mesh acts. Against two meshes extrapolated: 0.17 to 0.34
// for four woods and splits of 60 to 200 mm in a panel of 800.
const planBehind = 0.27

// slopes returns the energy set free for each mm of new crack at x, at or near place k, from the polynomial
// through the sums at up to two places on either side.
func slopes(at []float64, energy []planParts, k int, x, area float64) PlanRelease {
	n := len(energy)
	lo, hi := max(0, k-2), min(n, k+2)
	if lo == k || hi == k {
		lo, hi = max(0, k-1), min(n, k+1)
		if n > 1 && lo == k {
			hi = k + 2
		} else if n > 1 && hi == k {
			lo = k - 2
		}
	}
	var g planParts
	var sum planParts
	for m := lo; m <= hi; m++ {
		if m > lo {
			for i := range sum {
				sum[i] += energy[m-1][i]
			}
		}
		w := lagrange(at[lo:hi+1], m-lo, x)
		for i := range g {
			g[i] += w * sum[i]
		}
	}
	for i := range g {
		g[i] = math.Max(g[i], 0)
		if k > 0 && k < n { // between its neighbours, so that a kink does not swing
			a, b := energy[k-1][i]/(at[k]-at[k-1]), energy[k][i]/(at[k+1]-at[k])
			g[i] = math.Min(math.Max(g[i], math.Min(a, b)), math.Max(a, b))
		}
		g[i] /= area
	}
	return PlanRelease{Opening: g[0] + g[3], Sliding: g[1] + g[4], Tearing: g[2], Bending: g[2] + g[3] + g[4]}
}

// lagrange is the slope at a of the polynomial through x that is 1 at x[m] and nil at the others.
func lagrange(x []float64, m int, a float64) float64 {
	sum := 0.0
	for i := range x {
		if i == m {
			continue
		}
		v := 1 / (x[m] - x[i])
		for j := range x {
			if j != m && j != i {
				v *= (a - x[j]) / (x[m] - x[j])
			}
		}
		sum += v
	}
	return sum
}
