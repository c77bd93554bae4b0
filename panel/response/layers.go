package response

import (
	"math"

	"crossgrain/moisture"
	"crossgrain/panel/internal/creep"
	"crossgrain/species"
)

// layered is one board cut into layers, free of all restraint and as it is held at its members.
type layered struct {
	free *creep.Strip    // nothing holds it: its warp
	held [2]*creep.Strip // at its members; crushing before creep and creep before crushing. nil: nothing holds it
	in   creep.In
	soft float64 // relative change of the short modulus per unit of moisture content
	size []float64
}

// layers makes the strips of a board. axial and bending are the shares, 0 to 1, of its free
// movement and of its free warp that its members hold back.
func (c *Case) layers(b *board, n int, axial, bending float64) (*layered, error) {
	l := &layered{size: make([]float64, n)}
	for i := range l.size {
		l.size[i] = b.Thickness / float64(n)
	}
	l.in = creep.In{Moisture: make([]float64, n), Free: make([]float64, n), Stiffness: make([]float64, n)}
	const du = 0.02
	damp := b.Ring.Modulus(b.Wood.At(b.used+du)) * b.StiffnessReduction
	l.soft = (damp/b.stiff - 1) / du
	spec, err := b.spec(l.size)
	if err != nil {
		return nil, err
	}
	if l.free, err = creep.New(spec); err != nil {
		return nil, err
	}
	if axial == 0 && bending == 0 {
		return l, nil
	}
	// K/(K + E left) is the share held back of what changes over a season.
	stiff := b.stiff * b.left
	hold := creep.Support{
		Axial:   stiff * ratio(axial),
		Bending: stiff * math.Pow(b.Thickness, 3) / 12 * ratio(bending),
	}
	for i, order := range [...]creep.Order{creep.SetFirst, creep.CreepFirst} {
		spec.Order = order
		if l.held[i], err = creep.New(spec); err != nil {
			return nil, err
		}
		if err := l.held[i].Hold(hold); err != nil {
			return nil, err
		}
	}
	return l, nil
}

// ratio is K over the wood's own stiffness for a share held back.
func ratio(share float64) float64 {
	share = math.Max(0, math.Min(share, 0.99))
	return share / (1 - share)
}

// spec describes the strips of a board: chains of spruce by its ring angle, moisture-driven creep as
// seen on slices. Only spruce has been measured; for other woods both are estimates.
func (b *board) spec(layers []float64) (creep.Spec, error) {
	angle := math.Abs(float64(b.Ring))
	pull, err := creep.Across(angle, creep.Tension, 65)
	if err != nil {
		return creep.Spec{}, err
	}
	press, err := creep.Across(angle, creep.Compression, 65)
	if err != nil {
		return creep.Spec{}, err
	}
	w := math.Pow(math.Sin(angle*math.Pi/180), 2)
	r, t := creep.Slices(creep.Radial), creep.Slices(creep.Tangential)
	moist := make([]creep.MoistureDriven, len(r))
	for i := range r {
		moist[i] = creep.MoistureDriven{M: w*r[i].M + (1-w)*t[i].M, Path: r[i].Path}
	}
	return creep.Spec{
		Layers: layers, E: b.stiff, Duration: species.Short, Pull: pull, Press: press, Moist: moist,
		Dead: creep.Threshold, Limit: species.CompressionSlow().Value,
	}, nil
}

// each calls f with every strip there is.
func (l *layered) each(f func(*creep.Strip) error) error {
	for _, s := range [...]*creep.Strip{l.free, l.held[0], l.held[1]} {
		if s == nil {
			continue
		}
		if err := f(s); err != nil {
			return err
		}
	}
	return nil
}

// drive sets the state of the layers from their moisture.
func (l *layered) drive(b *board, mc []float64) {
	for i, u := range mc {
		l.in.Moisture[i] = u
		l.in.Free[i] = b.across(moisture.MC(u) - b.used)
		l.in.Stiffness[i] = math.Max(0.05, 1+l.soft*(u-float64(b.used)))
	}
}

func (l *layered) start() error {
	return l.each(func(s *creep.Strip) error { return s.Start(l.in) })
}

func (l *layered) step(dt float64) error {
	return l.each(func(s *creep.Strip) error { _, err := s.Step(dt, l.in); return err })
}

// set returns the strain that crushing has left where the board is held, mean over its thickness, in
// both orders of crushing and creep.
func (l *layered) set() (out [2]float64) {
	for k, s := range l.held {
		if s == nil {
			continue
		}
		for i, v := range s.Set() {
			out[k] += v * l.size[i]
		}
		out[k] /= total(l.size)
	}
	return out
}

func total(v []float64) (sum float64) {
	for _, x := range v {
		sum += x
	}
	return sum
}
