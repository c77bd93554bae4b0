package species

import (
	"math"

	"crossgrain/tables"
)

// Gap is a value that the wood lacks, what was taken instead and where it comes from. A gap without
// a value (NaN) was filled with nothing.
type Gap struct {
	Property, Direction string
	From                string // "" when nothing was taken
	Value               float64
	Unit                string
	Grade               tables.Grade
}

// Share of a draw in one property: how strongly it follows density, and the normal of its own.
type follow struct {
	exponent float64 // x grows with density to this power
	own      float64 // standard normal that moves what density leaves open
}

// Numbers returns plain numbers at 12 % MC and 20 °C for one draw, and all values that are not the
// wood's own. The zero Draw gives the nominal values. Every field is filled but SwellR and SwellT of
// a wood whose movement is unknown: they are NaN, with a Gap (see [Wood.Movable]).
//
// A draw multiplies: x exp(b s_rho z_rho + s z), with b the power of density that the property
// follows and s what is left of its coefficient of variation, so that the total spread is that of
// the table and values stay above zero. Where density alone would exceed the total, b is cut.
// Poisson ratios are not drawn.
//
// Powers of density: movement 1 (Wood Handbook 2021 eq. 4-12, shrinkage proportional to density),
// stiffness and strength as in table fits, toughness 1 (rises with density: Conrad, Smith and
// Fernlund 2003; the power is an assumption), diffusion and movement along the grain 0.
func (w *Wood) Numbers(d Draw) (Numbers, []Gap) {
	r := realiser{wood: w, draw: d}
	r.density = logSigma(w.taken().values[[2]string{Density, ""}].CV)
	n := Numbers{Density: r.take(Density, "", follow{exponent: 1})}
	n.SwellR = r.movement("R")
	n.SwellT = r.movement("T")
	n.SwellL = r.take(Swelling, "L", follow{0, d.Swelling})
	r.stiffness(&n)
	r.strength(&n)
	n.GcStart, n.GcPlateau = r.toughness()
	n.PerMC = w.taken().perMC
	n.Diffusion = r.take(Diffusion, "", follow{0, d.Diffusion})
	return n, r.gaps
}

// realiser fills one Numbers and notes the gaps.
type realiser struct {
	wood    *Wood
	draw    Draw
	density float64 // width of ln density
	gaps    []Gap
}

func (r *realiser) stiffness(n *Numbers) {
	z := r.draw.Stiffness
	bL, bR, bT := 0.703, 1.30, 1.74 // table fits, hardwoods
	if r.wood.Group == Softwood {
		bL, bT = 0.838, 1.45
	}
	n.EL = r.take(Modulus, "L", follow{bL, z})
	n.ER = r.take(Modulus, "R", follow{bR, z})
	n.ET = r.take(Modulus, "T", follow{bT, z})
	n.GLR = r.take(ShearModulus, "LR", follow{bL, z})
	n.GLT = r.take(ShearModulus, "LT", follow{bL, z})
	n.GRT = r.take(ShearModulus, "RT", follow{bT, z})
	n.NuRT = r.fixed(Poisson, "RT")
	n.NuLT = r.fixed(Poisson, "LT")
}

func (r *realiser) strength(n *Numbers) {
	z := r.draw.Strength
	tension, press := 1.30, 2.09 // table fits, hardwoods
	if r.wood.Group == Softwood {
		tension, press = 1.11, 1.57
	}
	n.TensionR = r.take(StrengthTension, "R", follow{tension, z})
	n.TensionT = r.take(StrengthTension, "T", follow{tension, z})
	n.CompressionR = r.take(CompressionLimit, "R", follow{press, z})
	n.CompressionT = r.take(CompressionLimit, "T", follow{press, z})
	n.Rolling = r.take(RollingShear, "RT", follow{tension, z})
}

// toughness returns start and plateau in N/mm for a crack TL, the weaker plane of the two along the
// grain; the plateau is never below the start.
func (r *realiser) toughness() (start, plateau float64) {
	f := follow{1, r.draw.Toughness}
	start = r.take(ToughnessStart, "TL", f) / 1000
	plateau = r.take(ToughnessPlateau, "TL", f) / 1000
	return start, max(start, plateau)
}

func (r *realiser) movement(dir string) float64 {
	if _, ok := r.wood.own(Swelling, dir); !ok {
		r.gaps = append(r.gaps, Gap{Property: Swelling, Direction: dir, Value: math.NaN(), Unit: "%/%MC", Grade: tables.Estimate})
		return math.NaN()
	}
	return r.take(Swelling, dir, follow{1, r.draw.Swelling})
}

func (r *realiser) fixed(name, dir string) float64 { return r.note(name, dir).Value }

// take returns the drawn value of a property or of its stand-in.
func (r *realiser) take(name, dir string, f follow) float64 {
	p := r.note(name, dir)
	total := logSigma(p.CV)
	dense := min(f.exponent*r.density, total)
	rest := math.Sqrt(max(total*total-dense*dense, 0))
	return p.Value * math.Exp(dense*r.draw.Density+rest*f.own)
}

// note returns the value and lists it as a gap when it is not the wood's own.
func (r *realiser) note(name, dir string) Property {
	c := r.wood.taken().values[[2]string{name, dir}]
	if c.gap {
		r.gaps = append(r.gaps, Gap{Property: name, Direction: dir, From: c.from, Value: c.Value, Unit: c.Unit, Grade: c.Grade})
	}
	return c.Property
}

// taken holds what Numbers takes for one wood, found once.
type taken struct {
	values map[[2]string]choice
	perMC  PerMC
}

type choice struct {
	Property
	from string
	gap  bool
}

func (w *Wood) take() taken {
	t := taken{values: map[[2]string]choice{}, perMC: w.perMC()}
	for _, k := range [...][2]string{
		{Density, ""}, {Swelling, "R"}, {Swelling, "T"}, {Swelling, "L"},
		{Modulus, "L"}, {Modulus, "R"}, {Modulus, "T"},
		{ShearModulus, "LR"}, {ShearModulus, "LT"}, {ShearModulus, "RT"}, {Poisson, "RT"}, {Poisson, "LT"},
		{StrengthTension, "R"}, {StrengthTension, "T"}, {CompressionLimit, "R"}, {CompressionLimit, "T"},
		{RollingShear, "RT"}, {ToughnessStart, "TL"}, {ToughnessPlateau, "TL"}, {Diffusion, ""},
	} {
		p, from, ok := w.value(k[0], k[1])
		if !ok {
			p.Value = math.NaN()
		}
		t.values[k] = choice{Property: p, from: from, gap: from != "" || !ok}
	}
	return t
}
