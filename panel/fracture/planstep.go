package fracture

import "slices"

// planStep is a front that goes on from one row to the next.
type planStep struct {
	row    int
	length float64     // new crack, mm
	slow   []planParts // of each state, N mm
	sudden []planParts // nil when not asked for
}

// planParts is an energy by the movement that sets it free: U, V, W, TurnX, TurnY.
type planParts [5]float64

func (p planParts) sum() float64 { return p[0] + p[1] + p[2] + p[3] + p[4] }

// scaled returns the parts with what is below nothing left out, so that they add up to total.
func (p planParts) scaled(total float64) (out planParts) {
	s := 0.0
	for i := range p {
		p[i] = max(p[i], 0)
		s += p[i]
	}
	if !(s > 0) || !(total > 0) {
		return out
	}
	for i := range p {
		out[i] = p[i] * total / s
	}
	return out
}

// planStage is a line at one length: what stands before the row is cut.
type planStage struct {
	row     int
	profile [][]PlanOpening // of each state
	forces  [][]float64
}

// planFront leads one tip through the panel on one mesh.
type planFront struct {
	line   *PlanLine
	tip    planTip
	z      *planZip
	short  *planZip // the same with short stiffness; nil = not asked for
	touch  []planTouch
	order  []int
	steps  []planStep
	stages []planStage
}

// newFront opens what is open at present but for the rows before the tip, and lists the rows to go.
func newFront(l *PlanLine, tip planTip, z, short *planZip, ahead int) (*planFront, bool) {
	f := &planFront{line: l, tip: tip, z: z, short: short}
	z.grown = tip.stretch
	if short != nil {
		short.grown = tip.stretch
	}
	p := z.p
	healed := func(r int) bool {
		return p.state[r].stretch == tip.stretch && (tip.up && r >= tip.row-planBack*p.fine || !tip.up && r <= tip.row+planBack*p.fine)
	}
	for r, s := range p.state {
		if s.stretch < 0 || !z.shut[r] || healed(r) {
			continue
		}
		if !z.cut(r, nil) || short != nil && !short.cut(r, nil) {
			return f, false
		}
	}
	way := 1
	if !tip.up {
		way = -1
	}
	r := tip.row
	for q := r - way; q >= 0 && q < len(p.y) && healed(q) && z.shut[q]; q -= way {
		r = q
	}
	for n := 0; r >= 0 && r < len(p.y) && n <= ahead; r += way {
		if z.shut[r] && p.state[r].used {
			f.order = append(f.order, r)
			if way*(r-tip.row) >= 0 {
				n++
			}
		}
	}
	f.touch = make([]planTouch, z.states)
	return f, true
}

// planBack is how many rows before a tip are followed as well.
const planBack = 2

// run goes through the rows.
func (f *planFront) run() {
	f.settle()
	for n, r := range f.order {
		f.look(r)
		if n == len(f.order)-1 || f.z.tied() <= 2 || !f.onward(r) {
			return
		}
	}
}

// settle finds what touches at the present length.
func (f *planFront) settle() {
	var pins []planPin
	for r := range f.z.shut {
		if !f.z.shut[r] && f.z.p.at[r][0] >= 0 {
			pins = append(pins, f.z.pins(f.line, r)...)
		}
	}
	for s := range f.touch {
		f.touch[s] = f.z.touch(pins, f.before(s, pins), f.z.v, s, f.z.states)
	}
}

// before says which of the pins touched at the last length.
func (f *planFront) before(s int, pins []planPin) []bool {
	was := map[[2]int]bool{}
	for i, q := range f.touch[s].pins {
		if f.touch[s].on[i] && q.z == f.z.p.face[0] {
			was[[2]int{q.row, 0}] = true
		} else if f.touch[s].on[i] {
			was[[2]int{q.row, 1}] = true
		}
	}
	on := make([]bool, len(pins))
	for i, q := range pins {
		k := 1
		if q.z == f.z.p.face[0] {
			k = 0
		}
		on[i] = was[[2]int{q.row, k}]
	}
	return on
}

// jump returns the movements of row r in state s with what touches.
func (f *planFront) jump(r, s int) (j planParts) {
	for way, at := range f.z.p.at[r] {
		if at >= 0 {
			j[way] = f.z.with(&f.touch[s], at, s)
		}
	}
	return j
}

// onward cuts row r; false = the panel would come apart.
func (f *planFront) onward(r int) bool {
	z := f.z
	st := planStep{row: r, length: f.ahead(r)}
	pull := make([]planParts, z.states) // forces of the tie
	was := slices.Clone(f.touch)
	for s := range pull {
		pull[s] = f.jump(r, s)
		for way := range pull[s] {
			pull[s][way] *= z.p.tie[r][way]
		}
	}
	free := make([]float64, z.states)
	if !z.cut(r, free) {
		return false
	}
	if f.short != nil {
		if !f.short.cut(r, nil) {
			return false
		}
		for s := range pull {
			st.sudden = append(st.sudden, f.sudden(r, &was[s], pull[s]))
		}
	}
	f.settle()
	for s := range pull {
		parts := f.jump(r, s)
		for way := range parts {
			parts[way] *= pull[s][way] / 2
		}
		st.slow = append(st.slow, parts.scaled(free[s]+was[s].energy-f.touch[s].energy))
	}
	f.steps = append(f.steps, st)
	return true
}

// ahead is the length of the cell in front of row r.
func (f *planFront) ahead(r int) float64 {
	y := f.z.p.y
	if f.tip.up {
		return y[min(r+1, len(y)-1)] - y[r]
	}
	return y[r] - y[max(r-1, 0)]
}

// sudden is the energy set free when row r lets go of what it bears while the wood answers as under short
// loading and what touches stays in touch:
//
//	t^T (C + 1/tie) t/2
//
// C is the flexibility of the open row.
func (f *planFront) sudden(r int, was *planTouch, pull planParts) planParts {
	z := f.short
	v := make([]float64, z.all)
	at := &z.p.at[r]
	for i := range v {
		for way, t := range pull {
			v[i] += z.f[i*z.n+at[way]] * t
		}
	}
	var pins []planPin
	for i, q := range was.pins {
		if was.on[i] {
			q.both, q.gap = true, 0
			pins = append(pins, q)
		}
	}
	pins = append(pins, z.pins(f.line, r)...)
	for i := range pins {
		pins[i].gap = 0
	}
	t := z.touch(pins, nil, v, 0, 1)
	one := *z.planHeld
	one.v, one.states = v, 1
	as := &planZip{planHeld: &one, p: z.p}
	var parts planParts
	total := -t.energy
	for way, q := range pull {
		total += q * (v[at[way]] + q/z.p.tie[r][way]) / 2
		parts[way] = q * (as.with(&t, at[way], 0) + q/z.p.tie[r][way]) / 2
	}
	return parts.scaled(total)
}

// look keeps the opening and the forces of the fixings before row r is cut.
func (f *planFront) look(r int) {
	st := planStage{row: r}
	z := f.z
	if r%z.p.fine == 0 {
		for s := range f.touch {
			var open []PlanOpening
			for q, shut := range z.shut {
				if shut || z.p.at[q][0] < 0 {
					continue
				}
				j := f.jump(q, s)
				open = append(open, PlanOpening{
					Y: z.p.y[q], Middle: j[0] + (z.p.face[0]+z.p.face[1])/2*j[3],
					Front: j[0] + z.p.face[0]*j[3], Back: j[0] + z.p.face[1]*j[3],
				})
			}
			force := make([]float64, z.p.nb)
			for i := range force {
				force[i] = z.with(&f.touch[s], z.n+i, s)
			}
			st.profile, st.forces = append(st.profile, open), append(st.forces, force)
		}
	}
	f.stages = append(f.stages, st)
}
