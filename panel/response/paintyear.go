package response

import (
	"math"
	"time"

	"crossgrain/panel"
	"crossgrain/panel/fracture"
	"crossgrain/panel/section"
)

// PaintKind says what can be told of the ground on a face.
type PaintKind string

// The kinds. Limits belong to a ground without cracks only.
const (
	PaintWhole   PaintKind = "whole"   // without cracks: limits and the law of swings apply
	PaintUnknown PaintKind = "unknown" // its state is not recorded: they apply if it has no cracks
	PaintIslands PaintKind = "islands" // cracked all over: its islands go with the wood; no limit was found for them
	PaintOnCloth PaintKind = "cloth"   // cloth, parchment or tow between wood and ground: no limit was found
	PaintLoose   PaintKind = "loose"   // lifting, flaking or blind cleavage: it must be secured first
)

// Swings sorts what was counted by how long a swing lasts: up to three days, up to 45 days, longer.
// The borders are working choices (assumption).
type Swings [3]float64

const dayHours, weekHours = 3 * 24.0, 45 * 24.0

// PaintClass is a class of swings of the ground's strain, from Low to High (+Inf: above Low).
type PaintClass struct{ Low, High, Cycles float64 }

// PaintYear is what a course asks of the ground on one face. It never sets a range or a rank: the law
// of swings was written down from memory, and no ground on an old panel was ever measured so.
// Strains are mechanical: how far wood stretches (positive) or presses the ground beyond what it would
// take up itself, from the humidity the panel is used to.
type PaintYear struct {
	Part    string // face.front, face.back
	Kind    PaintKind
	Ground  string
	Stretch Peak // greatest, 0 when it was never stretched
	Press   Peak // greatest, as a negative strain
	Limits  fracture.GessoLaw
	Beyond  [2]time.Duration // stretched beyond the brittle and beyond the yield limit
	Classes []PaintClass
	Damage  fracture.Damage // of this course alone; zero unless a limit applies
	Swings  Swings          // share of the swings' effect by how long they last; sums to 1, or 0
	Steps   int
	// Edge is what the greater of both strains asks of its bond at a free edge: at joins, splits and the rim of the panel. Zero
	// for loose paint.
	Edge fracture.EdgeShear
}

// Peak is a strain and when it was.
type Peak struct {
	Strain float64
	At     time.Time
}

// classes are the upper ends of the classes of swings: steps of 0.0005 about the limits 0.0025 and 0.004.
func classes() []float64 { return []float64{0.0005, 0.001, 0.0015, 0.002, 0.0025, 0.004, math.Inf(1)} }

// turnFrom is the swing of strain up to which a turn is not one: at that size the harsh slope of the law
// asks for more than ten million swings.
const turnFrom = 2e-5

// paintWatch sees every step of a course.
type paintWatch struct {
	c     *Case
	faces []*watchedFace
	begun time.Time
}

// watchedFace is one face with factors for the strain of its ground above each board.
type watchedFace struct {
	face   int // 0 back, 1 front
	per    []groundPer
	counts []fracture.Rainflow // by board
	boards []boardPaint
	year   PaintYear
}

// boardPaint is what was counted above one board.
type boardPaint struct {
	classes []PaintClass
	damage  fracture.Damage
	effect  Swings // sum of damage at the harsh end
	ranges  Swings // sum of range, where nothing is damaged
}

// groundPer is strain of a ground, stretched and pressed, per unit of free strain across its board and per
// unit of curvature (1/mm) that the board would take up by itself, by a moisture that differs through it.
type groundPer struct{ move, bend [2]float64 }

// newPaintWatch makes the faces ready. flat is the share, 0 to 1, of its free warp that the members of each
// board hold back; nil: none. It returns nil where no face has a ground.
func (c *Case) newPaintWatch(flat []float64) (*paintWatch, error) {
	law, err := fracture.Gesso()
	if err != nil {
		return nil, err
	}
	w := &paintWatch{c: c}
	for i, f := range [...]panel.Face{c.o.Back, c.o.Front} {
		if f.Ground == "none" || f.GroundMM == 0 {
			continue
		}
		wf := &watchedFace{face: i, counts: make([]fracture.Rainflow, len(c.boards)), boards: make([]boardPaint, len(c.boards))}
		wf.year = PaintYear{Part: [...]string{"face.back", "face.front"}[i], Kind: paintKind(f), Ground: f.Ground, Limits: law}
		for k := range c.boards {
			held := 0.0
			if flat != nil {
				held = math.Max(0, math.Min(flat[k], 1))
			}
			wf.per = append(wf.per, c.groundPer(k, i, held))
			wf.watch(k)
		}
		w.faces = append(w.faces, wf)
	}
	if len(w.faces) == 0 {
		return nil, nil
	}
	return w, nil
}

// paintKind says what can be told of a face.
func paintKind(f panel.Face) PaintKind {
	switch {
	case f.GroundState == "lifting" || f.GroundState == "lost" || f.Paint == "flaking" || f.Paint == "blind cleavage":
		return PaintLoose
	case f.GroundState == "craquelured":
		return PaintIslands
	case f.Interlayer == "canvas all over" || f.Interlayer == "parchment" || f.Interlayer == "tow":
		return PaintOnCloth
	case f.GroundState == "continuous":
		return PaintWhole
	}
	return PaintUnknown
}

// limited says that limits and law apply, if only for a ground that may be without cracks.
func (k PaintKind) limited() bool { return k == PaintWhole || k == PaintUnknown }

// unit is the free strain for which factors are derived; the stack is linear for each sign.
const unit = 0.001

// groundPer derives the factors of board k on a face. held is the share of its warp that is held back; in a
// board kept flat the ground takes all the movement.
func (c *Case) groundPer(k, face int, held float64) groundPer {
	var p groundPer
	b := &c.boards[k]
	grounds := [2]section.Ground{layer(c.o.Back, b.left), layer(c.o.Front, b.left)}
	wood := section.Layer{E: b.stiff * b.left, Thickness: b.Thickness, Width: 1}
	for i := range p.move {
		free := [2]float64{unit, -unit}[i]
		wood.Strain = free
		r := section.OnWood(wood, grounds[1], grounds[0], free)
		e := [2]float64{r.BackStrain, r.FrontStrain}[face] / free
		if math.IsNaN(e) {
			e = 1 // it carries nothing, and goes with the wood
		}
		bend := c.bendStrain(b, grounds, face, i == 1)
		p.move[i] = (1-held)*e + held
		p.bend[i] = (1 - held) * bend
	}
	return p
}

// bendStrain is the strain of a face's ground per unit of curvature that the wood alone would take up: the
// moment that keeps the wood flat, E I kappa, let go on wood and grounds together.
func (c *Case) bendStrain(b *board, grounds [2]section.Ground, face int, pressed bool) float64 {
	var layers []section.Layer
	at := 0
	add := func(g section.Ground, f int) {
		e := g.ETension
		if pressed {
			e = g.ECompression
		}
		if !(g.Thickness > 0 && e > 0) || g.State == "lifting" || g.State == "lost" {
			return
		}
		if f == face {
			at = len(layers)
		}
		layers = append(layers, section.Layer{E: e, Thickness: g.Thickness, Width: 1})
	}
	wood := section.Layer{E: b.stiff * b.left, Thickness: b.Thickness, Width: 1}
	add(grounds[0], 0)
	if face == 0 && len(layers) == 0 || face == 1 {
		at = len(layers)
	}
	layers = append(layers, wood)
	add(grounds[1], 1)
	r, err := section.Stack(layers)
	if err != nil {
		return 0
	}
	kappa := wood.E * math.Pow(wood.Thickness, 3) / 12 / r.EI
	return kappa * (r.Middle(at) - r.Centroid)
}

// watch hands the counter of board k its account.
func (f *watchedFace) watch(k int) {
	b, law, tell := &f.boards[k], f.year.Limits, f.year.Kind.limited()
	for i, high := range classes() {
		low := 0.0
		if i > 0 {
			low = classes()[i-1]
		}
		b.classes = append(b.classes, PaintClass{Low: low, High: high})
	}
	f.counts[k] = fracture.Rainflow{Threshold: turnFrom, Each: func(y fracture.Cycle) {
		for i := range b.classes {
			if y.Range < b.classes[i].High {
				b.classes[i].Cycles += y.Count
				break
			}
		}
		long := 2
		if y.Lasts <= dayHours {
			long = 0
		} else if y.Lasts <= weekHours {
			long = 1
		}
		b.ranges[long] += y.Count * y.Range
		if tell {
			d := law.Of(y)
			b.damage = b.damage.Plus(d)
			b.effect[long] += d.High
		}
	}}
}

// step takes one step of the course: free strain across each board and curvature by its gradient. dt is how
// long it stands.
func (w *paintWatch) step(t time.Time, dt time.Duration, m *moment) {
	if w == nil {
		return
	}
	if w.begun.IsZero() {
		w.begun = t
	}
	hours := t.Sub(w.begun).Hours()
	for _, f := range w.faces {
		f.year.Steps++
		top := math.Inf(-1)
		for k := range w.c.boards {
			e := w.strain(f, k, m)
			f.counts[k].Add(hours, e)
			top = math.Max(top, e)
			if e > f.year.Stretch.Strain {
				f.year.Stretch = Peak{e, t}
			}
			if e < f.year.Press.Strain {
				f.year.Press = Peak{e, t}
			}
		}
		for i, limit := range [...]float64{f.year.Limits.Brittle, f.year.Limits.Yield} {
			if top > limit {
				f.year.Beyond[i] += dt
			}
		}
	}
}

// strain is the mechanical strain of the ground of f above board k.
func (w *paintWatch) strain(f *watchedFace, k int, m *moment) float64 {
	b, p := &w.c.boards[k], &f.per[k]
	free := b.across(m.mc[k]-b.used) + m.set[k]
	e := p.move[0]*free + p.bend[0]*m.bend[k]
	if e < 0 {
		e = p.move[1]*free + p.bend[1]*m.bend[k]
	}
	return e
}

// finish closes the counts; each face is told above the board that does most to it.
func (w *paintWatch) finish() []PaintYear {
	if w == nil {
		return nil
	}
	out := make([]PaintYear, 0, len(w.faces))
	for i := len(w.faces) - 1; i >= 0; i-- { // the painted face first
		f := w.faces[i]
		for k := range f.counts {
			f.counts[k].Close()
		}
		worst := 0
		for k := range f.boards {
			if f.boards[k].most() > f.boards[worst].most() {
				worst = k
			}
		}
		b := &f.boards[worst]
		f.year.Classes, f.year.Damage, f.year.Swings = b.classes, b.damage, b.shares()
		f.year.Edge = w.c.groundEdge(f.face, &f.year)
		out = append(out, f.year)
	}
	return out
}

func (b *boardPaint) most() float64 {
	if b.damage.High > 0 {
		return b.damage.High
	}
	return b.ranges[0] + b.ranges[1] + b.ranges[2]
}

// shares returns by how long they last what swings do: damage where there is any, else their sizes.
func (b *boardPaint) shares() Swings {
	v := b.effect
	if b.damage.High == 0 {
		v = b.ranges
	}
	sum := v[0] + v[1] + v[2]
	if !(sum > 0) {
		return Swings{}
	}
	return Swings{v[0] / sum, v[1] / sum, v[2] / sum}
}

// PaintOver tells the same of states in balance, without a course: no swings are counted.
func (c *Case) PaintOver(states []State) ([]PaintYear, error) {
	law, err := fracture.Gesso()
	if err != nil {
		return nil, err
	}
	var out []PaintYear
	for i, f := range [...]panel.Face{c.o.Front, c.o.Back} {
		if f.Ground == "none" || f.GroundMM == 0 {
			continue
		}
		y := PaintYear{Part: [...]string{"face.front", "face.back"}[i], Kind: paintKind(f), Ground: f.Ground, Limits: law}
		for k := range states {
			e := states[k].GroundStrain[1-i]
			y.Stretch.Strain, y.Press.Strain = math.Max(y.Stretch.Strain, e), math.Min(y.Press.Strain, e)
			if math.IsNaN(e) {
				y.Stretch.Strain, y.Press.Strain = 0, 0
			}
		}
		y.Edge = c.groundEdge(1-i, &y)
		out = append(out, y)
	}
	return out, nil
}
