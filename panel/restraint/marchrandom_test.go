package restraint

import (
	"fmt"
	"math"
	"math/rand/v2"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// invented returns a positive flexibility with slip and lift of each of n fixings coupled by an
// eccentricity, two motions (sliding along, lifting off) and mounts of every kind; rows 2i and 2i+1.
func invented(r *rand.Rand, n int, mu, couple float64) (Body, []Mount) {
	rows := 2 * n
	a := make([]float64, rows*rows)
	for i := range a {
		a[i] = r.NormFloat64()
		if (i/rows-i%rows)%2 != 0 {
			a[i] *= couple
		}
	}
	b := Body{N: rows, C: make([]float64, rows*rows), Motions: 2, R: make([]float64, 2*rows)}
	product(b.C, a, transposed(a, rows), rows, rows)
	for i := range b.C {
		b.C[i] *= 1e-4 / float64(rows)
	}
	mounts := make([]Mount, n)
	for i := range n {
		b.C[2*i*rows+2*i] += 1e-4
		b.C[(2*i+1)*rows+2*i+1] += 1e-4
		b.R[2*i*2], b.R[(2*i+1)*2+1] = 1, 1
		mounts[i] = Mount{X: 50 * float64(i),
			Slip:     &Hold{Row: 2 * i, Stiff: pickOf(r, 0, inf, 300, 5000), Play: pickOf(r, 0, 0.3, 1), Yield: pickOf(r, inf, 200, 800)},
			Lift:     &Hold{Row: 2*i + 1, Stiff: pickOf(r, inf, 1000, 5000), Play: pickOf(r, 0, 0, 0.2), Yield: pickOf(r, inf, 2000), Presses: r.IntN(2) == 0, Spring: pickOf(r, 0, 20)},
			Friction: mu * pickOf(r, 0, 0.5, 1), Preload: pickOf(r, 0, 100), Keeper: r.IntN(3) == 0}
		if mounts[i].Lift.Spring > 0 {
			mounts[i].Lift.Pull = 150
		}
	}
	mounts[0].Lift.Presses, mounts[0].Lift.Yield, mounts[0].Lift.Stiff = false, inf, inf // something holds the panel
	mounts[0].Slip.Stiff, mounts[0].Slip.Yield = 5000, inf
	return b, mounts
}

func pickOf(r *rand.Rand, v ...float64) float64 { return v[r.IntN(len(v))] }

func transposed(a []float64, n int) []float64 {
	b := make([]float64, n*n)
	for i := range n {
		for j := range n {
			b[j*n+i] = a[i*n+j]
		}
	}
	return b
}

// renumber puts mounts and rows of a body into another order.
func renumber(r *rand.Rand, b Body, mounts []Mount, place bool) (Body, []Mount, []int) {
	p := r.Perm(b.N) // old row i becomes p[i]
	c := Body{N: b.N, Motions: b.Motions, C: make([]float64, len(b.C)), R: make([]float64, len(b.R))}
	for i := range b.N {
		for j := range b.N {
			c.C[p[i]*b.N+p[j]] = b.C[i*b.N+j]
		}
		copy(c.R[p[i]*b.Motions:][:b.Motions], b.R[i*b.Motions:][:b.Motions])
	}
	out := make([]Mount, len(mounts))
	for i, o := range r.Perm(len(mounts)) {
		m := mounts[o]
		s, l := *m.Slip, *m.Lift
		s.Row, l.Row = p[s.Row], p[l.Row]
		m.Slip, m.Lift = &s, &l
		if !place { // no places: ties and pivots then fall in the caller's order
			m.X = 0
		}
		out[i] = m
	}
	return c, out, p
}

// keeps holds one step against compatibility, balance and every law, from the answers alone.
func keeps(t *testing.T, b Body, mounts []Mount, in Incoming, old, st *Situation) {
	t.Helper()
	for i := range b.N {
		d := in.Free[i]
		for j := range b.N {
			d -= b.C[i*b.N+j] * st.Force[j]
		}
		for k := range b.Motions {
			d += b.R[i*b.Motions+k] * st.Motion[k]
		}
		require.InDelta(t, d, st.Move[i], 1e-8, "movement of row %d", i)
	}
	for k := range b.Motions {
		sum := -in.Load[k]
		for i := range b.N {
			sum += b.R[i*b.Motions+k] * st.Force[i]
		}
		require.InDelta(t, 0, sum, 1e-5, "balance %d", k)
	}
	for i, m := range mounts {
		s, l := m.Slip.Row, m.Lift.Row
		pressed := m.Preload + max(0, -st.Stop[l])
		if m.Keeper {
			pressed += max(0, st.Stop[l])
		}
		rub, cap := st.Friction[s], m.Friction*pressed
		require.LessOrEqual(t, math.Abs(rub), cap+1e-6, "friction of %d", i)
		if v := st.Move[s] - anchorOf(old, s); math.Abs(v) > 1e-8 {
			require.InDelta(t, math.Copysign(cap, v), rub, 1e-5, "sliding friction of %d", i)
		}
		stops(t, *m.Slip, centreOf(m.Slip, old), st.Move[s], st.Stop[s])
		stops(t, *m.Lift, centreOf(m.Lift, old), st.Move[l], st.Stop[l])
		require.InDelta(t, m.Lift.Spring*st.Move[l]+m.Lift.Pull+st.Stop[l], st.Force[l], 1e-6)
	}
}

// stops holds a stop's force against its play, side, stiffness and yield load.
func stops(t *testing.T, h Hold, centre, s, f float64) {
	t.Helper()
	require.LessOrEqual(t, math.Abs(f), h.Yield*(1+1e-9))
	over := math.Abs(s-centre) - h.Play
	switch {
	case h.Stiff == 0 || over < -1e-8 || h.Presses && s > centre:
		require.InDelta(t, 0, f, 1e-5)
	case math.IsInf(h.Stiff, 1):
		require.GreaterOrEqual(t, f*(s-centre), -1e-6)
		if math.IsInf(h.Yield, 1) {
			require.LessOrEqual(t, over, 1e-8)
		} else if over > 1e-7 {
			require.InDelta(t, math.Copysign(h.Yield, s-centre), f, 1e-5)
		}
	default:
		require.InDelta(t, math.Copysign(min(max(0, over)*h.Stiff, h.Yield), s-centre), f, 1e-4)
	}
}

func anchorOf(st *Situation, row int) float64 {
	if len(st.mem) == 0 {
		return 0
	}
	return st.Move[row]
}

// centreOf follows the middle of the play through the yielded movement, from the answers alone.
func centreOf(h *Hold, old *Situation) float64 {
	if len(old.mem) == 0 {
		return h.Centre
	}
	return old.Offset[h.Row]
}

func walk(r *rand.Rand, in Incoming, size float64) {
	for i := range in.Free {
		in.Free[i] = size * r.NormFloat64()
	}
	for k := range in.Load {
		in.Load[k] = 50 * r.NormFloat64()
	}
}

func incoming(b Body) Incoming {
	return Incoming{Free: make([]float64, b.N), Load: make([]float64, b.Motions)}
}

func TestMarchKeepsEveryLawInAnyOrder(t *testing.T) {
	for _, c := range []struct {
		mu, couple float64
		bare       bool // little but what the fixings share
	}{{0, 0, false}, {0, 1, true}, {0.4, 0, false}, {0.4, 1, false}, {0.4, 1, true}, {2, 0.05, true}, {2, 0.3, true}, {2, 1, true}, {5, 1, true}} {
		t.Run(fmt.Sprintf("mu=%g/couple=%g/bare=%t", c.mu, c.couple, c.bare), func(t *testing.T) {
			r := rand.New(rand.NewPCG(1, 7))
			turned, sprang, steps := 0, 0, 0
			for trial := range 40 {
				b, mounts := invented(r, 1+trial%10, c.mu, c.couple)
				for i := range b.N {
					if c.bare {
						b.C[i*b.N+i] -= 0.95e-4
					}
				}
				b2, mounts2, p := renumber(r, b, mounts, trial%2 == 0)
				m, m2 := march(t, b, mounts), march(t, b2, mounts2)
				var st, st2 Situation
				in, in2 := incoming(b), incoming(b2)
				for k := range 20 {
					walk(r, in, 0.5)
					for i := range in.Free {
						in2.Free[p[i]] = in.Free[i]
					}
					copy(in2.Load, in.Load)
					old := *st.clone()
					tr, err := m.Step(in, &st)
					steps++
					require.NoError(t, err, "trial %d step %d", trial, k)
					keeps(t, b, mounts, in, &old, &st)
					_, err = m2.Step(in2, &st2)
					require.NoError(t, err)
					if tr.Reversals > 0 {
						turned++
					}
					if tr.Sprang {
						sprang++
					}
					for i := range b.N {
						require.InDelta(t, st.Force[i], st2.Force[p[i]], 1e-9*(1e3+math.Abs(st.Force[i])), "trial %d step %d: order of fixings", trial, k)
					}
				}
			}
			t.Logf("%d steps, %d turned round, %d sprang", steps, turned, sprang)
			assert.LessOrEqual(t, sprang, steps/50)
			if c.mu*c.couple <= 0.4 {
				assert.Zero(t, turned)
			}
		})
	}
}

// Without preloaded springs, from no force: over any closed loop of free movement the panel does
// work on the fixings and never gains any. The force at the end of each step bounds the work from
// below, so the sum holds to rounding.
func TestMarchClosedLoopsCostEnergy(t *testing.T) {
	for _, mu := range []float64{0, 0.4, 2} {
		r := rand.New(rand.NewPCG(3, 9))
		spent := 0.0
		for trial := range 60 {
			b, mounts := invented(r, 1+trial%8, mu, []float64{0.1, 1}[trial%2])
			for i := range b.N {
				b.C[i*b.N+i] -= 0.9e-4
			}
			for i := range mounts {
				mounts[i].Lift.Pull = 0
			}
			m := march(t, b, mounts)
			var st Situation
			in := Incoming{Free: make([]float64, b.N)}
			last := make([]float64, b.N)
			work, size := 0.0, 0.0
			for k := range 40 {
				for i := range in.Free {
					in.Free[i] += 0.3 * r.NormFloat64()
					if k == 39 {
						in.Free[i] = 0
					}
				}
				_, err := m.Step(in, &st)
				require.NoError(t, err, "mu %g trial %d step %d", mu, trial, k)
				for i := range in.Free {
					w := st.Force[i] * (in.Free[i] - last[i])
					work += w
					size += math.Abs(w)
				}
				copy(last, in.Free)
			}
			require.GreaterOrEqual(t, work, -1e-9*size-1e-12, "mu %g trial %d", mu, trial)
			spent += work
		}
		assert.Positive(t, spent)
	}
}

// Friction grown from none is another way to the end of a step: it always arrives and keeps every
// law; where the answer is unique it is the same.
func TestMarchGrowthArrives(t *testing.T) {
	for _, mu := range []float64{0.4, 2, 5} {
		r := rand.New(rand.NewPCG(11, 7))
		turned := 0
		for trial := range 60 {
			couple := 1.0
			if mu < 1 {
				couple = 0.3
			}
			b, mounts := invented(r, 1+trial%12, mu, couple)
			for i := range b.N {
				b.C[i*b.N+i] -= 0.95e-4
			}
			m := march(t, b, mounts)
			var st Situation
			in := incoming(b)
			for k := range 10 {
				walk(r, in, 0.5)
				require.NoError(t, m.begin(&st))
				grown, old := st.clone(), st.clone()
				m.bring(in)
				m.moves, m.reversals = 0, 0
				m.shape(grown.mem, rubbing)
				copy(m.sp, grown.sp)
				copy(m.rp, grown.rp)
				copy(m.q, grown.Motion)
				require.True(t, m.grow(), "mu %g trial %d step %d", mu, trial, k)
				turned += m.reversals
				_, err := m.solve()
				require.NoError(t, err)
				m.settle(grown)
				keeps(t, b, mounts, in, old, grown)
				_, err = m.Step(in, &st)
				require.NoError(t, err)
				for i := range b.N {
					if mu < 1 {
						require.InDelta(t, st.Force[i], grown.Force[i], 1e-9*(1e3+math.Abs(st.Force[i])), "trial %d step %d", trial, k)
					}
				}
			}
		}
		t.Logf("mu %g: %d turns", mu, turned)
	}
}
