package assessment

import (
	"cmp"
	"math"
	"slices"
	"strings"

	"crossgrain/moisture"
	"crossgrain/panel"
	"crossgrain/panel/internal/chance"
)

// Narrowing is something that can be found out about the panel, and what the answer would be worth then.
type Narrowing struct {
	Path    string // input of the panel, or what would be measured: observed.warp, observed.gap, observed.width
	What    string // in words
	Means   string
	Minutes float64
	By      string // who may do it
	Touches bool   // a tool touches the wood, never the paint
	Share   float64
	// Now and After are the share of limit of the part that decides: 5 to 95 in 100 of the realisations, and what would be left
	// of that about its middle.
	Now, After Band
}

// Narrow is what is worth finding out, most first.
type Narrow struct {
	key
	List        []Narrowing
	First       []string // the three inputs that matter most, whether or not they can be found out
	Unexplained float64  // share of the variance that the fit leaves, 0 to 1
	SameOrder   float64  // share of the repeated fits in which the first three come in that order
}

// refits is how often the fit is repeated on drawn realisations.
const refits = 50

// narrow finds what the spread of one part's share rests on. x holds the share of every realisation.
func narrow(p *panel.Panel, z [][]float64, x, w []float64, k key, touching bool) (*Narrow, error) {
	in := p.Inputs()
	y := make([]float64, len(x))
	for i, v := range x {
		y[i] = math.Log(max(v, 1e-3))
	}
	o := chance.Options{Basis: chance.Hermite, Degree: 3, Weights: w}
	fit, err := chance.Fit(z, y, o)
	if err != nil {
		return nil, err
	}
	again, err := chance.Bootstrap(z, y, o, refits, 1)
	if err != nil {
		return nil, err
	}
	n := &Narrow{key: k, Unexplained: fit.Unexplained, SameOrder: again.SameOrder}
	now := bandOf(x, w)
	order := make([]int, len(in))
	for i := range order {
		order[i] = i
	}
	slices.SortStableFunc(order, func(a, b int) int { return cmp.Compare(fit.Total[b], fit.Total[a]) })
	for r, i := range order {
		if r < 3 && fit.Total[i] > noShare {
			n.First = append(n.First, in[i].What)
		}
		if !in[i].Measurable || in[i].TouchesObject && !touching || fit.First[i] < noShare {
			continue
		}
		n.List = append(n.List, Narrowing{
			Path: in[i].Path, What: in[i].What, Means: in[i].Means, Minutes: in[i].Minutes, By: in[i].Who(), Touches: in[i].TouchesObject,
			Share: fit.First[i], Now: now, After: now.narrowed(fit.First[i]),
		})
	}
	return n, nil
}

// noShare is the share of the variance below which nothing is told.
const noShare = 0.03

// narrowed is what is left of a band, by its logarithm, when a share of the variance is gone.
func (b Band) narrowed(share float64) Band {
	lo, hi := math.Log(max(b.Low, 1e-3)), math.Log(max(b.High, 1e-3))
	mid, half := (lo+hi)/2, (hi-lo)/2*math.Sqrt(1-min(max(share, 0), 1))
	return Band{math.Exp(mid - half), math.Exp(mid + half)}
}

// watch adds what measuring the panel itself at two humidities would tell: see gives what would be read on each realisation, err the
// error of such a reading.
func (n *Narrow) watch(x, w, see []float64, err float64, t Narrowing) {
	var sw, sy, ss, yy, s2, ys float64
	for i, v := range x {
		weight := 1.0
		if w != nil {
			weight = w[i]
		}
		y := math.Log(max(v, 1e-3))
		sw, sy, ss = sw+weight, sy+weight*y, ss+weight*see[i]
		yy, s2, ys = yy+weight*y*y, s2+weight*see[i]*see[i], ys+weight*y*see[i]
	}
	yy, s2, ys = yy/sw-sy*sy/(sw*sw), s2/sw-ss*ss/(sw*sw), ys/sw-sy*ss/(sw*sw)
	if !(yy > 0) || !(s2 > 0) {
		return
	}
	t.Share = ys * ys / (yy * (s2 + err*err))
	if t.Share < noShare {
		return
	}
	t.Now = bandOf(x, w)
	t.After = t.Now.narrowed(t.Share)
	n.List = append(n.List, t)
	slices.SortStableFunc(n.List, func(a, b Narrowing) int { return cmp.Compare(b.Share, a.Share) })
}

// narrow finds what is worth finding out for the part that decides; where nothing about that can be found out, for the next parts
// that some realisations take to their limit.
func (s *study) narrow(way *Ways, keys []key, z, worst [][]float64, w []float64, more func(*Narrow, []float64)) error {
	for r, j := range deciding(keys, worst, w) {
		if b := bandOf(worst[j], w); r > 0 && b.High < 1 || r > 3 {
			break
		}
		n, err := narrow(s.p, z, worst[j], w, keys[j], s.q.Touching)
		if err != nil {
			return err
		}
		if more != nil {
			more(n, worst[j])
		}
		if way.Narrow == nil || len(n.List) > 0 {
			way.Narrow = n
		}
		if len(n.List) > 0 {
			break
		}
	}
	return nil
}

// deciding lists the parts that set a range, first that which most realisations see nearest to its limit: by the middle, in
// proportion, of the band of its share.
func deciding(keys []key, worst [][]float64, w []float64) []int {
	var out []int
	mid := make([]float64, len(keys))
	for j, k := range keys {
		if !k.SetsRange() || len(worst[j]) == 0 {
			continue
		}
		b := bandOf(worst[j], w)
		if mid[j] = math.Sqrt(max(b.Low, 0) * max(b.High, 0)); mid[j] > 0 {
			out = append(out, j)
		}
	}
	round := func(j int) float64 { return math.Round(mid[j] * 1e6) }
	slices.SortStableFunc(out, func(a, b int) int { return cmp.Compare(round(b), round(a)) })
	return out
}

// watched adds what a straightedge or a feeler gauge in a dry and in a damp month would tell: ten points drier and ten points damper
// than it is used to, or as far as the grid goes.
func (s *study) watched(n *Narrow, h *held, ones []*one, x, w []float64) {
	dry, damp := nearestOf(h.grid, s.r.Object.UsedTo-0.10), nearestOf(h.grid, s.r.Object.UsedTo+0.10)
	if dry == damp {
		return
	}
	see := make([]float64, len(ones))
	read := func(f func(o *one, g int) float64) []float64 {
		for i, o := range ones {
			see[i] = f(o, damp) - f(o, dry)
		}
		return see
	}
	a, b := &s.sweep[damp], &s.sweep[dry]
	free := math.Abs(a.Cup - b.Cup)
	stands := free
	if a.Shape != nil && b.Shape != nil {
		stands = math.Abs(a.Shape.Warp - b.Shape.Warp)
	}
	err := math.Hypot(math.Sqrt2*0.5, math.Hypot(modelFree*stands, modelHeld*(free-stands)))
	part := 1.0 // of the free warp is what stands
	if free > 0 {
		part = stands / free
	}
	n.watch(x, w, read(func(o *one, g int) float64 { return part * o.warp[g] }), err, Narrowing{
		Path: "observed.warp", What: "its warp in a dry and in a damp month", Means: "photograph with a straightedge, humidity noted",
		Minutes: 20, By: panel.Anyone,
	})
	for i, l := range a.Lines {
		err := math.Hypot(math.Sqrt2*0.1, modelOpen*math.Abs(l.Opening-b.Lines[i].Opening)+leastOpen)
		n.watch(x, w, read(func(o *one, g int) float64 { return o.open[g][i] }), err, Narrowing{
			Path: "observed.gap." + l.Part, What: "the gap of " + spoken(l.Part) + " in a dry and in a damp month",
			Means: "photograph with a scale, or a feeler gauge in the open part, humidity noted", Minutes: 20, By: "conservator",
		})
	}
}

// spoken is a part as it is spoken of: join.a as join a.
func spoken(part string) string { return strings.Replace(part, ".", " ", 1) }

func nearestOf(grid []moisture.RH, rh moisture.RH) (best int) {
	for g := range grid {
		if math.Abs(float64(grid[g]-rh)) < math.Abs(float64(grid[best]-rh)) {
			best = g
		}
	}
	return best
}
