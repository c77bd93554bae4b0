package moisture_test

import (
	"fmt"
	"math"

	"crossgrain/moisture"
)

func ExampleHailwoodHorrobin() {
	// Wood Handbook FPL-GTR-190, Table 4-2, p. 4-4: 70 °F, 50 % RH, printed 9.2 %.
	fmt.Printf("%.1f %%\n", moisture.HailwoodHorrobin{}.MC(0.50, 21.1).Percent())
	// Output: 9.2 %
}

func ExampleSaturation_RHAt() {
	// A panel on a cold outer wall: room 20 °C and 50 % RH, panel 17 °C.
	h, err := moisture.Sonntag1994.RHAt(0.50, 20, 17)
	fmt.Printf("%.0f %% RH %v\n", h.Percent(), err)
	// Output: 60 % RH <nil>
}

func ExampleScan() {
	// Poplar (Bratasz et al., Table 1) settled at 50 % RH, through a damp and a dry spell and back.
	b := &moisture.Branches{
		Ads:     moisture.GAB{Vm: 0.0595, C: 9.58, K: 0.73},
		Des:     moisture.GAB{Vm: 0.0813, C: 7.88, K: 0.68},
		Closure: 1, T: 20,
	}
	s := moisture.StartAt(b, 0.50, moisture.Settled)
	for _, h := range []float64{0.50, 0.65, 0.35, 0.65} {
		s.Commit(b, h)
		u, _ := s.At(b, h)
		fmt.Printf("%.0f %% RH: %.2f %% MC\n", 100*h, 100*u)
	}
	// Output:
	// 50 % RH: 8.91 % MC
	// 65 % RH: 10.99 % MC
	// 35 % RH: 7.30 % MC
	// 65 % RH: 10.99 % MC
}

func ExampleSlab() {
	// 20 mm of poplar or spruce, bare back without film, sealed front.
	s := moisture.Slab{Thickness: 20, Diffusion: 1e-10, Faces: moisture.Faces{Back: math.Inf(1)}}
	half, _ := s.Time(0.5)
	cup, when, _ := s.Peak()
	fmt.Printf("half of the change after %.1f days; most cupping (%.2f) after %.1f days\n", half/86400, cup, when/86400)
	// Output: half of the change after 9.1 days; most cupping (-0.96) after 3.9 days
}
