package section

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

func free(t *testing.T, boards []Board, eR, eT float64) []Free {
	t.Helper()
	out := make([]Free, len(boards))
	for i := range boards {
		var err error
		out[i], err = boards[i].Free(eR, eT)
		require.NoError(t, err)
	}
	return out
}

// Three bonded boards: independent finite-element solution (order-4 elements, plane strain), this
// project's test data; another program (CalculiX, 240 x 16) differs from it by up to 2e-4 mm. The
// rise of the back face above the chord, front upwards; -5 per cent, small strains. Places at the
// joins themselves (200, 400) are left out: there the stress of the bond acts, which is not modelled.
// Asked: 2 % of the greatest rise. Found: 1.8 % (0.017 mm); at the joins 3.0 %.
func TestAssembleAgainstThreeBondedBoards(t *testing.T) {
	want := map[float64]float64{
		50: -0.61327, 100: -0.9852271, 150: -0.768138, 250: -0.1453513, 300: 0.002708322,
		350: 0.150707, 450: 0.701414, 500: 0.8695205, 550: 0.5621091,
	}
	const k = 1e-4
	piths := [][2]float64{{100, -50}, {150, 9}, {500, 68}} // from the panel's left edge
	boards := make([]Board, 3)
	for i, p := range piths {
		boards[i] = Board{Width: 200, Thickness: 18, PithKnown: true, PithX: p[0] - 200*float64(i), PithZ: p[1]}
	}
	p := Assemble(boards, free(t, boards, -0.0075*k, -0.015*k))
	seen := 0
	for i, x := range p.X {
		if w, ok := want[x]; ok {
			assert.InDelta(t, w, p.Z[i]/k, 0.02*0.985, "x = %g", x)
			seen++
		}
	}
	assert.Equal(t, len(want), seen)
	assert.InDelta(t, 0.002708, p.Cup/k, 0.02*0.985)
	assert.InEpsilon(t, -6.3281, p.Width/k, 0.002, "mean of the changes of back and front, -6.32675 and -6.32956 mm")
}

func TestOneBoardIsItself(t *testing.T) {
	b := []Board{{Width: 300, Thickness: 20, RingRadius: 150, Ring: 10}}
	f := free(t, b, -0.0075, -0.015)
	p := Assemble(b, f)
	assert.InDelta(t, f[0].CupBack, p.Cup, 1e-9)
	assert.InDelta(t, f[0].Width, p.Width, 5e-3, "edge faces against mid-thickness corners")
	assert.Len(t, p.X, Stations)
	assert.Zero(t, p.Z[0])
	assert.InDelta(t, 0, p.Z[Stations-1], 1e-12)
}

// Where the rings are wide, the free movement of a flat-sawn board is a shear that leaves its edge
// faces parallel: boards with hearts alike make scallops with a ridge at each join, no arc. The three
// bonded boards above show the same ridges. Narrow rings turn the edge faces too and add an arc.
func TestHeartsAlikeMakeScallops(t *testing.T) {
	const k = 1e-3
	one := Board{Width: 150, Thickness: 15, RingRadius: 1000}
	single := Assemble([]Board{one}, free(t, []Board{one}, -0.01*k, -0.02*k))
	alike := []Board{one, one}
	pair := Assemble(alike, free(t, alike, -0.01*k, -0.02*k))
	assert.InDelta(t, 0, pair.Cup/single.Cup, 0.01, "the join stays on the chord")
	assert.InEpsilon(t, single.Largest, pair.Largest, 0.01)
	near := one
	near.RingRadius = 60
	f := free(t, []Board{near}, -0.01*k, -0.02*k)
	alike = []Board{near, near}
	arc := Assemble(alike, free(t, alike, -0.01*k, -0.02*k))
	// by hand: the join stands at half a board's turn times its width
	assert.InEpsilon(t, f[0].Bend*150*150/2, arc.Cup, 0.01)
	assert.Negative(t, arc.Cup)
}

// Straight rings leaning in turn (a book match) make a roof: the edge faces, not the mid-lines, are
// glued together. By hand: each face leans by the shear g, so the join bends by 2 g.
func TestBookMatchMakesARoof(t *testing.T) {
	l := Board{Width: 100, Thickness: 10, Ring: 45, RingRadius: math.Inf(1)}
	r := l
	r.Ring = -45
	const eR, eT = -0.001, -0.002
	b := []Board{l, r}
	p := Assemble(b, free(t, b, eR, eT))
	shear := eT - eR // of rings at 45 degrees, leaning right
	assert.InDelta(t, shear*100, p.Cup, 1e-3*100*math.Abs(shear)*10, "the join gapes at the front, closing it hollows the front")
	same := []Board{l, l}
	assert.InDelta(t, 0, Assemble(same, free(t, same, eR, eT)).Cup, 1e-9)
}

func TestMirrorPanel(t *testing.T) {
	b := []Board{{Width: 120, Thickness: 12, Ring: 20, RingRadius: 200}, {Width: 180, Thickness: 18, Ring: -50, RingRadius: 300, HeartFront: true}}
	m := []Board{b[1], b[0]}
	m[0].Ring, m[1].Ring = -m[0].Ring, -m[1].Ring
	p, q := Assemble(b, free(t, b, -0.01, -0.02)), Assemble(m, free(t, m, -0.01, -0.02))
	n := len(p.Z)
	for i := range p.Z {
		assert.InDelta(t, p.Z[i], q.Z[n-1-i], 1e-9)
	}
	assert.InDelta(t, p.Cup, q.Cup, 1e-9)
	assert.InDelta(t, p.Width, q.Width, 1e-9)
}

func TestNoMovementNoShape(t *testing.T) {
	b := []Board{{Width: 120, Thickness: 12, RingRadius: 200}, {Width: 180, Thickness: 18, RingRadius: 300}}
	p := Assemble(b, free(t, b, 0, 0))
	for _, z := range p.Z {
		assert.InDelta(t, 0, z, 1e-9)
	}
	assert.Empty(t, Assemble(nil, nil).X)
}

func BenchmarkAssemble(b *testing.B) {
	boards := []Board{{Width: 200, Thickness: 18, RingRadius: 150}, {Width: 200, Thickness: 18, RingRadius: 300, Ring: 30}, {Width: 200, Thickness: 18, RingRadius: 150}}
	var f [3]Free
	for i := range boards {
		f[i], _ = boards[i].Free(-0.01, -0.02)
	}
	b.ReportAllocs()
	for b.Loop() {
		Assemble(boards, f[:])
	}
}
