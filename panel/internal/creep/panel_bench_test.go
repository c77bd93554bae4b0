package creep

import (
	"math"
	"testing"

	"github.com/stretchr/testify/require"

	"crossgrain/moisture"
	"crossgrain/moisture/profile"
)

// follower is an invented board with the moisture in it and the strips that remember.
type follower struct {
	water *profile.Solver
	two   [2]*Strip
	in    In
	z, mc []float64
}

func newFollower(b *testing.B, thickness float64, o profile.Options) *follower {
	b.Helper()
	oak := &moisture.Branches{Ads: moisture.GAB{Vm: 0.0619, C: 7.36, K: 0.72}, Des: moisture.GAB{Vm: 0.111, C: 7.26, K: 0.51}, T: 20}
	f := &follower{in: uniform(8, 0, 0)}
	var err error
	f.water, err = profile.New(profile.Wall{
		Thickness: thickness, Density: 600, Storage: profile.Storage{Branches: oak, T: 20},
		Transport: profile.Transport{Mu: 80, Growth: 1.8}, Front: profile.Face{Sd: 2},
	}, o)
	require.NoError(b, err)
	require.NoError(b, f.water.Start(profile.Climate{RH: 0.5, T: 20}))
	f.z, _ = f.water.Cells()
	for i, order := range []Order{SetFirst, CreepFirst} {
		p := spec(b, thickness, 8)
		p.Layers, p.Moist, p.Limit, p.Order = Graded(thickness, 8, 1.5), Slices(Tangential), 0.0075, order
		f.two[i], err = New(p)
		require.NoError(b, err)
		f.read()
		require.NoError(b, f.two[i].Start(f.in))
		require.NoError(b, f.two[i].Hold(Support{Axial: 200, Bending: 1e5}))
	}
	return f
}

// read takes the moisture at the points of the layers, straight between the levels.
func (f *follower) read() {
	f.mc = f.water.MC(f.mc)
	k := 1
	for l, a := range f.two[0].arm {
		z := min(max(a+f.two[0].h/2, 0), f.z[len(f.z)-1])
		for f.z[k] < z {
			k++
		}
		x := (z - f.z[k-1]) / (f.z[k] - f.z[k-1])
		w := f.mc[k-1] + x*(f.mc[k]-f.mc[k-1])
		f.in.Moisture[l], f.in.Free[l] = w, 0.3*(w-0.09)
	}
}

func (f *follower) step(dt float64, from, to profile.Climate) error {
	if _, err := f.water.Step(dt, from, to); err != nil {
		return err
	}
	f.read()
	for _, s := range f.two {
		if _, err := s.Step(dt, f.in); err != nil {
			return err
		}
	}
	return nil
}

// BenchmarkTenYears follows a panel of three unlike boards (12, 20 and 30 mm) hour by hour for ten
// years, moisture with memory and both orders of creep and crushing; coarse is the same in steps of
// 3 h. Asked for: under 5 s on one core. Measured on an AMD EPYC core, November 2026: 1.5 s,
// coarse 0.35 s; no memory is taken in a step.
func BenchmarkTenYears(b *testing.B) {
	air := func(h int) profile.Climate {
		a := 2 * math.Pi * float64(h)
		return profile.Climate{
			RH: moisture.RH(0.5 + 0.12*math.Sin(a/8760) + 0.04*math.Sin(a/168) + 0.03*math.Sin(a/24)),
			T:  moisture.Celsius(20 + 4*math.Sin(a/8760) - math.Sin(a/24)),
		}
	}
	for _, c := range []struct {
		name string
		o    profile.Options
		n    int
	}{{"hourly", profile.Default(), 1}, {"coarse", profile.Coarse(), 3}} {
		b.Run(c.name, func(b *testing.B) {
			b.ReportAllocs()
			for b.Loop() {
				var boards []*follower
				for _, mm := range []float64{12, 20, 30} {
					boards = append(boards, newFollower(b, mm, c.o))
				}
				for h := 0; h < 87600; h += c.n {
					from, to := air(h), air(h+c.n)
					for _, f := range boards {
						require.NoError(b, f.step(float64(c.n)*hour, from, to))
					}
				}
			}
		})
	}
}
