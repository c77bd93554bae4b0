package restraint

import (
	"fmt"
	"math"
	"sync"

	"crossgrain/panel/internal/plan"
)

// solidAnswer is the panel of the rows SOLID-*: forces of the fixings by batten, and the shape.
type solidAnswer struct {
	slip, lift [2][]float64
	height     map[[2]float64]float64 // above the plane through three corners, mm
	width      map[float64]float64    // its change, mm
}

// checkSolidAt are the fixings across the panel; the battens' centre lines stand at checkSolidY, mm.
var checkSolidAt, checkSolidY = [...]float64{40, 120, 240, 360, 440}, [...]float64{150, 440}

// The places of the rows SOLID-Z and SOLID-DW, mm.
var checkSolidZ, checkSolidDW = [...][2]float64{{75, 0}, {240, 150}, {240, 300}, {240, 440}, {240, 600}, {480, 150}}, [...]float64{150, 300}

// solidMembers are the two battens with slots in slip and faces of which some only press.
func solidMembers() []Member {
	out := make([]Member, len(checkSolidY))
	for k, y := range checkSolidY {
		play := [...][5]float64{{0.3, 0, 0, 0.2, 0.25}, {0, 0.15, 0, 0, 0.4}}[k]
		press := [...][5]bool{{false, true, false, true, true}, {true, false, true, false, true}}[k]
		out[k] = Member{Name: fmt.Sprintf("batten %d", k+1), Y: y, Bar: Bar{E: 10000, G: 700, Width: 40, Depth: 20}}
		for i, x := range checkSolidAt {
			out[k].At = append(out[k].At, Attachment{X: x, Footprint: 20, Mount: Mount{
				Slip: &Hold{Stiff: 500, Play: play[i], Yield: math.Inf(1)},
				Lift: &Hold{Stiff: 3000, Presses: press[i], Yield: math.Inf(1)},
			}})
		}
	}
	return out
}

// besideSolid is the program's side of the comparison, as it runs for a reader.
func besideSolid() (r solidAnswer, err error) {
	l := plan.Layout{Length: 600, CellX: 20, CellY: 20}
	for i, e := range []float64{450, 700, 550} {
		l.Plates = append(l.Plates, plan.Plate{
			Width: []float64{150, 180, 150}[i], Thickness: 15, EX: e, EL: 11000, GXL: 700, GXZ: []float64{120, 200, 150}[i], GLZ: 800, NuLX: 0.4,
		})
	}
	looks := []Look{{X: 0, Y: 0, Out: true}, {X: 480, Y: 0, Out: true}, {X: 0, Y: 600, Out: true}}
	for _, p := range checkSolidZ {
		looks = append(looks, Look{X: p[0], Y: p[1], Out: true})
	}
	for _, y := range checkSolidDW {
		looks = append(looks, Look{X: 0, Y: y}, Look{X: 480, Y: y})
	}
	a, err := NewAssembly(l, 3, true, solidMembers(), nil, looks)
	if err != nil {
		return r, err
	}
	strain, bend := []float64{-0.004, -0.005, -0.003}, []float64{0, 2e-4, 0}
	const along = 0.03
	free := a.Free(checkLoads(a, map[plan.Load][]float64{
		plan.StrainX: strain, plan.BendX: bend, plan.StrainL: scaled(strain, along), plan.BendL: scaled(bend, along),
	}), []float64{-0.0003, -0.0003})
	move, st, err := settled(a, free)
	if err != nil {
		return r, err
	}
	r.read(a, st, move)
	return r, nil
}

func scaled(v []float64, by float64) []float64 {
	out := make([]float64, len(v))
	for i := range v {
		out[i] = by * v[i]
	}
	return out
}

// settled takes one step of an assembly and returns how its rows move.
func settled(a *Assembly, free []float64) (func(row int) float64, *Situation, error) {
	b, err := a.Body()
	if err != nil {
		return nil, nil, err
	}
	st, err := stepped(b, a.Mounts(), free)
	return func(row int) float64 { return b.Move(row, free, st.Force, st.Motion) }, st, err
}

func (r *solidAnswer) read(a *Assembly, st *Situation, move func(int) float64) {
	for k := range checkSolidY {
		for i := range checkSolidAt {
			row := a.Row(k, i)
			r.slip[k], r.lift[k] = append(r.slip[k], st.Force[row]), append(r.lift[k], st.Force[row+1])
		}
	}
	look := func(i int) float64 { return move(a.Look(i)) }
	r.height, r.width = map[[2]float64]float64{}, map[float64]float64{}
	o := look(0)
	for i, p := range checkSolidZ {
		r.height[p] = look(3+i) - o - (look(1)-o)*p[0]/480 - (look(2)-o)*p[1]/600
	}
	for i, y := range checkSolidDW {
		at := 3 + len(checkSolidZ) + 2*i
		r.width[y] = look(at+1) - look(at)
	}
}

// solidChecks adds the panel on two battens beside a solid model of it.
func solidChecks(got map[string]func() (float64, error)) {
	solved := sync.OnceValues(besideSolid)
	add := func(id string, f func(solidAnswer) float64) {
		got[id] = func() (float64, error) {
			r, err := solved()
			if err != nil {
				return 0, err
			}
			return f(r), nil
		}
	}
	for k := range checkSolidY {
		for i, x := range checkSolidAt {
			add(fmt.Sprintf("SOLID-SLIP-%d-%g", k+1, x), func(r solidAnswer) float64 { return r.slip[k][i] })
			add(fmt.Sprintf("SOLID-LIFT-%d-%g", k+1, x), func(r solidAnswer) float64 { return r.lift[k][i] })
		}
	}
	for _, p := range checkSolidZ {
		add(fmt.Sprintf("SOLID-Z-%g-%g", p[0], p[1]), func(r solidAnswer) float64 { return r.height[p] })
	}
	for _, y := range checkSolidDW {
		add(fmt.Sprintf("SOLID-DW-%g", y), func(r solidAnswer) float64 { return r.width[y] })
	}
}
