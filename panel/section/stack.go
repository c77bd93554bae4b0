package section

import (
	"math"

	"crossgrain/tables"
)

// Layer is one layer of a stack, or a member beside it.
type Layer struct {
	E         float64 // MPa, above 0, of the duration in question
	Thickness float64 // mm, above 0
	Width     float64 // mm, above 0
	Strain    float64 // free strain, longer positive
}

// Result is a stack of layers glued to one another, ordered from back to front, and free.
type Result struct {
	Layers    []Layer
	Strain0   float64 // at the centroid
	Curvature float64 // 1/mm; painted face rounded positive
	EA        float64 // N
	EI        float64 // N mm2
	Centroid  float64 // mm from the back of the stack
}

// Stack returns strain and curvature of a free stack of layers, ordered from back to front:
//
//	A = Sum E b t,  zc = Sum E b t z/A,  D = Sum E b [t^3/12 + t (z-zc)^2]
//	eps0 = Sum E b t e/A,   kappa = Sum E b t e (z-zc)/D
//
// An empty stack, or a layer that is not above 0 in E, Thickness or Width, gives an error. Exact for
// strips (no Poisson's effect). Form: composite beam, textbook; Timoshenko 1925 for two layers.
func Stack(layers []Layer) (Result, error) {
	if len(layers) == 0 {
		return Result{}, &tables.RangeError{Quantity: "number of layers", Value: 0, Min: 1, Max: math.MaxInt32, Unit: ""}
	}
	for i := range layers {
		if err := layers[i].validate(); err != nil {
			return Result{}, err
		}
	}
	return stack(layers), nil
}

func (l *Layer) validate() error {
	for _, v := range [...]struct {
		what, unit string
		v          float64
	}{{"modulus of a layer", "MPa", l.E}, {"thickness of a layer", "mm", l.Thickness}, {"width of a layer", "mm", l.Width}} {
		if !(v.v > 0) || math.IsInf(v.v, 1) {
			return &tables.RangeError{Quantity: v.what, Value: v.v, Min: math.SmallestNonzeroFloat64, Max: math.MaxFloat64, Unit: v.unit}
		}
	}
	return tables.InRange("free strain of a layer", l.Strain, -0.5, 0.5, "(as a fraction)", "")
}

func stack(layers []Layer) Result {
	r := Result{Layers: layers}
	var ez, en, z float64
	for i := range layers {
		l := &layers[i]
		n := l.E * l.Width * l.Thickness
		r.EA += n
		ez += n * (z + l.Thickness/2)
		en += n * l.Strain
		z += l.Thickness
	}
	r.Centroid, r.Strain0 = ez/r.EA, en/r.EA
	var em float64
	z = 0
	for i := range layers {
		l := &layers[i]
		n, a := l.E*l.Width*l.Thickness, z+l.Thickness/2-r.Centroid
		r.EI += n * (l.Thickness*l.Thickness/12 + a*a)
		em += n * l.Strain * a
		z += l.Thickness
	}
	r.Curvature = em / r.EI
	return r
}

// Stress returns the stress in layer i at the height z (mm) above the back of the stack, MPa, when
// the stack is free to bend:
//
//	sigma = E_i [ eps0 + kappa (z-zc) - e_i ]
func (r Result) Stress(i int, z float64) float64 {
	l := &r.Layers[i]
	return l.E * (r.Strain0 + r.Curvature*(z-r.Centroid) - l.Strain)
}

// FlatStress returns the stress in layer i when the stack is held flat but free to lengthen, MPa.
func (r Result) FlatStress(i int) float64 { return r.Layers[i].E * (r.Strain0 - r.Layers[i].Strain) }

// FlatMoment returns the moment that holds the stack flat, N mm.
func (r Result) FlatMoment() float64 { return -r.Curvature * r.EI }

// Middle returns the height of the middle of layer i above the back of the stack, mm.
func (r Result) Middle(i int) float64 {
	z := r.Layers[i].Thickness / 2
	for k := range i {
		z += r.Layers[k].Thickness
	}
	return z
}
