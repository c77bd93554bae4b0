package figure

import (
	"math"
	"testing"

	"github.com/stretchr/testify/require"

	"crossgrain/panel/section"
)

// oakish is invented and only of the size of oak: the drawings need shape, not data.
var oakish = section.Elastic{ER: 1200, ET: 700, EL: 11000, GRT: 300, NuRT: 0.5, NuLR: 0.35, NuLT: 0.45}

// invent is a board w by t mm with its pith, from its left edge and back.
func invent(w, t, pithX, pithZ float64) section.Timber {
	return section.Timber{Board: section.Board{Width: w, Thickness: t, PithKnown: true, PithX: pithX, PithZ: pithZ}, Wood: oakish}
}

// threeBoards has the heart at the back, nearly straight rings, and the heart in front.
func threeBoards(ground bool) []section.Timber {
	out := []section.Timber{invent(205, 24, 92, -48), invent(180, 24, -150, -60), invent(215, 24, 120, 70)}
	for i := range out {
		if ground {
			out[i].Front = []section.Coat{{Thickness: 1.2, E: 900, Nu: 0.3}}
		}
	}
	return out
}

// freeStrain is a movement with radial strains at the back, the middle and the painted face; tangential twice that.
func freeStrain(back, mid, front float64) section.Movement {
	return section.Movement{At: []float64{0, 0.5, 1}, R: []float64{back, mid, front}, T: []float64{2 * back, 2 * mid, 2 * front}}
}

type solved struct {
	boards []EndGrain
	field  section.Field
	out    *section.Out
}

func solve(t testing.TB, timbers []section.Timber, o section.Options, f section.Movement) solved {
	t.Helper()
	m, err := section.Build(timbers, o)
	require.NoError(t, err)
	loads := make([][]float64, m.Boards())
	for i := range loads {
		f.FrontCoats = make([]float64, len(timbers[i].Front))
		loads[i] = make([]float64, m.Loads(i))
		_, err := m.Fill(loads[i], i, &f)
		require.NoError(t, err)
	}
	s := solved{out: m.NewOut()}
	require.NoError(t, m.Eval(s.out, loads))
	s.field, err = m.Field(loads)
	require.NoError(t, err)
	left := 0.0
	for i, b := range s.field {
		g := EndGrain{Name: [...]string{"left", "middle", "right"}[i%3], XMM: b.X, ZMM: b.Z, Elements: b.Elements, Coat: b.Coat}
		px, pz, _ := timbers[i].Pith()
		for k := range b.X {
			g.RingMM = append(g.RingMM, math.Hypot(b.X[k]-left-px, b.Z[k]-pz))
		}
		s.boards = append(s.boards, g)
		left += timbers[i].Width
	}
	return s
}

func (s solved) state(label string, rhPct float64) DeformedState {
	st := DeformedState{Label: label, RHPct: rhPct, WarpMM: s.out.Cup, LargestMM: s.out.Largest, WiderMM: s.out.Width}
	for _, b := range s.field {
		st.DxMM, st.DzMM = append(st.DxMM, b.DX), append(st.DzMM, b.DZ)
	}
	return st
}

func (s solved) stress(label string, rhPct float64) StressState {
	st := StressState{Label: label, RHPct: rhPct}
	for _, b := range s.field {
		v := make([][4]float64, len(b.Elements))
		for k, q := range b.Points {
			v[k/4][k%4] = q.XX
		}
		st.MPa = append(st.MPa, v)
	}
	return st
}

// dry and damp are invented: the wood even through its thickness, or the bare back ahead of the front.
func sampleDeformed(t testing.TB, timbers []section.Timber) Deformed {
	dry := solve(t, timbers, section.Options{}, freeStrain(-0.008, -0.008, -0.008))
	damp := solve(t, timbers, section.Options{}, freeStrain(0.007, 0.007, 0.007))
	return Deformed{Meta: Meta{Invented: true}, Boards: dry.boards,
		States: []DeformedState{dry.state("dry", 35), {Label: "used to", RHPct: 55, UsedTo: true}, damp.state("damp", 75)}}
}

func sampleStressMap(t testing.TB, timbers []section.Timber) StressMap {
	dry := solve(t, timbers, section.Options{Fineness: section.Fine}, freeStrain(-0.006, -0.002, -0.0005))
	damp := solve(t, timbers, section.Options{Fineness: section.Fine}, freeStrain(0.007, 0.007, 0.007))
	return StressMap{Meta: Meta{Invented: true}, Boards: dry.boards,
		States: []StressState{dry.stress("a dry week, back ahead", 35), damp.stress("damp for good", 75)}}
}
