package fracture

import (
	"math"

	"gonum.org/v1/gonum/floats"
)

// planZip takes the ties of a line out row by row and keeps flexibility and states up to date:
//
//	F after = F + F_r^T D^-1 F_r,   D = 1/tie - F_rr,   set free: j_r^T D^-1 j_r/2
//
// so that all lengths come from one elimination (ordered Schur complement of the ties).
type planZip struct {
	*planHeld
	p     *planMesh
	shut  []bool // of each row: still tied
	grown int    // stretch that grows on into rows closed at present, -1 = none
}

func (p *planMesh) zip(h *planHeld) *planZip {
	z := &planZip{planHeld: h, p: p, shut: make([]bool, len(p.y)), grown: -1}
	for r, s := range p.state {
		z.shut[r] = !s.opened
	}
	return z
}

// clone returns a copy that goes its own way.
func (z *planZip) clone() *planZip {
	h := *z.planHeld
	h.f, h.v = append([]float64(nil), h.f...), append([]float64(nil), h.v...)
	return &planZip{planHeld: &h, p: z.p, shut: append([]bool(nil), z.shut...), grown: z.grown}
}

// cut takes out the tie of row r and adds to energy what that sets free in each state, if nothing
// touches; nil = not wanted. It says false, and does nothing, when the panel would come apart.
func (z *planZip) cut(r int, energy []float64) bool {
	y, e, ok := z.leave(r)
	if !ok {
		return false
	}
	for i := range z.all {
		row := z.f[i*z.n:][:z.n]
		for k := range y {
			if w := y[k][i]; w != 0 {
				floats.AddScaled(row, w, y[k][:z.n])
				floats.AddScaled(z.v[i*z.states:][:z.states], w, e[k])
			}
		}
	}
	z.shut[r] = false
	for s := range energy {
		for k := range e {
			energy[s] += e[k][s] * e[k][s] / 2
		}
	}
	return true
}

// leave returns the rows of L^-1 F_r and L^-1 j_r, L L^T = D.
func (z *planZip) leave(r int) (y, e [5][]float64, ok bool) {
	at, tie := z.p.at[r], z.p.tie[r]
	var l [5][5]float64
	for i := range 5 {
		for j := range i + 1 {
			d := -z.f[at[i]*z.n+at[j]]
			if i == j {
				d += 1 / tie[i]
			}
			for k := range j {
				d -= l[i][k] * l[j][k]
			}
			switch {
			case i != j:
				l[i][j] = d / l[j][j]
			case !(d > planLoose/tie[i]):
				return y, e, false
			default:
				l[i][i] = math.Sqrt(d)
			}
		}
	}
	for i := range 5 {
		y[i], e[i] = make([]float64, z.all), append([]float64(nil), z.v[at[i]*z.states:][:z.states]...)
		copy(y[i], z.f[at[i]*z.n:][:z.n])
		for m := z.n; m < z.all; m++ {
			y[i][m] = z.f[m*z.n+at[i]]
		}
		for k := range i {
			floats.AddScaled(y[i], -l[i][k], y[k])
			floats.AddScaled(e[i], -l[i][k], e[k])
		}
		floats.Scale(1/l[i][i], y[i])
		floats.Scale(1/l[i][i], e[i])
	}
	return y, e, true
}

// planLoose is the share of a tie's flexibility below which what is left beside it is taken as nothing:
// the panel hangs on this tie.
const planLoose = 1e-9

// tied counts the rows still tied.
func (z *planZip) tied() int {
	n := 0
	for _, s := range z.shut {
		if s {
			n++
		}
	}
	return n
}
