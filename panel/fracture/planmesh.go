package fracture

import (
	"fmt"
	"math"
	"slices"

	"crossgrain/panel/internal/plan"
)

// planRows says which rows of the mesh lie on a line and what they are at present.
type planRows struct {
	y     []float64
	state []planRow
	tips  []planTip
	fine  int // cells for each of the coarse mesh
}

// planRow is what a row of the line is to begin with.
type planRow struct {
	stretch int  // that it belongs to, -1 = closed
	opened  bool // it is open in the mesh itself: no tie to be taken out
	used    bool // its movements are asked for
}

// planTip is an end of an open stretch in the panel.
type planTip struct {
	stretch, row int
	up           bool
}

// planMesh is the panel condensed to what holds it and to the sides of one line.
type planMesh struct {
	planRows
	c      *plan.Condensed
	short  bool     // its wood is as stiff as under short loading
	nb     int      // rows of what holds
	at     [][5]int // place of each row's jumps among the targets, -1 = not asked for
	n      int      // number of jumps
	tie    [][5]float64
	opens  []float64  // what the opening of the line as it is adds to the flexibility of what holds; nil = nothing
	depth  float64    // of the face that both sides share, mm
	across float64    // modulus across the weaker side, MPa
	face   [2]float64 // heights of its painted side and its back above the plane of the movements
}

// planCells returns the places of mesh lines from 0 to length through all marks: even cells, halved
// where size asks for it.
func planCells(length, cell float64, marks []float64, size func(float64) float64) []float64 {
	at := []float64{0, length}
	for _, m := range marks {
		if m > planNear && m < length-planNear {
			at = append(at, m)
		}
	}
	slices.Sort(at)
	at = slices.CompactFunc(at, func(a, b float64) bool { return math.Abs(b-a) < planNear })
	at[len(at)-1] = length
	out := []float64{0}
	var halve func(a, b float64)
	halve = func(a, b float64) {
		if m := (a + b) / 2; b-a > 1.01*size(m) {
			halve(a, m)
			halve(m, b)
			return
		}
		out = append(out, b)
	}
	for i := 1; i < len(at); i++ {
		a, b := at[i-1], at[i]
		n := math.Max(1, math.Ceil((b-a)/cell-1e-6))
		for k := range int(n) {
			to := b
			if k+1 < int(n) {
				to = a + (b-a)*float64(k+1)/n
			}
			halve(a+(b-a)*float64(k)/n, to)
		}
	}
	return out
}

// planHalved halves the cells that do holds for.
func planHalved(v []float64, do func(a, b float64) bool) []float64 {
	out := v[:1:1]
	for i := 1; i < len(v); i++ {
		if do(v[i-1], v[i]) {
			out = append(out, (v[i-1]+v[i])/2)
		}
		out = append(out, v[i])
	}
	return out
}

func planMarks(v []float64) []plan.Mark {
	out := make([]plan.Mark, len(v))
	for i, x := range v {
		out[i].At = x
	}
	return out
}

// rowAt returns the row at y.
func (p *planRows) rowAt(y float64) int {
	best := 0
	for i, v := range p.y {
		if math.Abs(v-y) < math.Abs(p.y[best]-y) {
			best = i
		}
	}
	return best
}

// rowsOf sorts the rows of the line. The last back rows of an open stretch before a tip in the panel
// stay tied in the mesh, so that the release at the tip can be had from both sides; ahead is how many
// rows beyond a tip are asked for. Of a panel given whole only what is open there is open in the mesh.
func (l *PlanLine) rowsOf(y []float64, back, ahead int, hold *PlanHold) planRows {
	p := planRows{y: y, state: make([]planRow, len(y))}
	for i := range p.state {
		p.state[i].stretch = -1
	}
	top := len(y) - 1
	for i, o := range l.Open {
		from, to := p.rowAt(o.From), p.rowAt(o.To)
		lo, hi := from+1, to-1 // open rows; tips are tied
		if from == 0 {
			lo = 0
		} else {
			p.tips = append(p.tips, planTip{i, from, false})
		}
		if to == top {
			hi = top
		} else {
			p.tips = append(p.tips, planTip{i, to, true})
		}
		if from == to && from == 0 { // nothing open yet
			hi = -1
		}
		if from == to && to == top {
			lo = top + 1
		}
		for r := lo; r <= hi; r++ {
			inner := (from == 0 || r > from+back) && (to == top || r < to-back) && (!hold.Whole || p.openNow(hold.Open, r, back))
			p.state[r] = planRow{stretch: i, opened: inner && o.Depth == 0, used: true}
		}
	}
	for _, t := range p.tips {
		for r := max(0, t.row-ahead); r <= min(top, t.row+ahead); r++ {
			p.state[r].used = true
		}
	}
	return p
}

// openNow tells whether row r lies within a through opening as it is now, back rows from its tips.
func (p *planRows) openNow(now []PlanStretch, r, back int) bool {
	return slices.ContainsFunc(now, func(o PlanStretch) bool {
		from, to := p.rowAt(o.From), p.rowAt(o.To)
		return o.Depth == 0 && (from == 0 || r > from+back) && (to == len(p.y)-1 || r < to-back)
	})
}

// newPlanMesh condenses the panel; y and x are the places of the mesh lines.
func (l *PlanLine) newPlanMesh(lay plan.Layout, hold *PlanHold, yielded, x []float64, rows planRows) (*planMesh, error) {
	lay.CellX, lay.CellY = lay.Length+x[len(x)-1], lay.Length+x[len(x)-1]
	lay.AcrossX, lay.AlongY = planMarks(x), planMarks(rows.y)
	line := plan.Line{X: l.X, Bond: l.Bond, Live: true}
	top := len(rows.y) - 1
	for r := 0; r <= top; r++ {
		if !rows.state[r].opened {
			continue
		}
		q := r
		for q < top && rows.state[q+1].opened {
			q++
		}
		line.Open = append(line.Open, [2]float64{rows.y[max(r-1, 0)], rows.y[min(q+1, top)]})
		r = q
	}
	lay.Lines = append(slices.Clone(lay.Lines), line)
	m, err := plan.NewModel(lay, yielded...)
	if err != nil {
		return nil, err
	}
	p := &planMesh{planRows: rows, nb: len(hold.Rows)}
	if len(m.Grid.Y) != len(rows.y) {
		return nil, fmt.Errorf("line at %g mm ends too close to another place along the grain", l.X)
	}
	i := slices.IndexFunc(m.Grid.Left, func(c int) bool { return math.Abs(m.Grid.X[c]-l.X) < planNear })
	if i < 0 {
		return nil, fmt.Errorf("line at %g mm is not on the mesh", l.X)
	}
	var targets []plan.Target
	for k := range hold.Rows {
		q := &hold.Rows[k]
		t, err := m.Mean(q.Patch, q.Way)
		if q.Way == plan.U {
			t, err = m.MeanAt(q.Patch, q.Height)
		}
		if err != nil {
			return nil, fmt.Errorf("holding place %d: %w", k+1, err)
		}
		targets = append(targets, t)
	}
	for r := range rows.y {
		at := [5]int{-1, -1, -1, -1, -1}
		var k [5]float64
		if s := rows.state[r]; s.used {
			if k, _ = m.Tie(i, r); s.opened {
				k = [5]float64{}
			}
			for way := plan.U; way <= plan.TurnY; way++ {
				if s.opened && way != plan.U && way != plan.TurnX {
					continue
				}
				t, err := m.Jump(i, r, way)
				if err != nil {
					return nil, err
				}
				at[way] = p.n
				p.n++
				targets = append(targets, t)
			}
		}
		p.at, p.tie = append(p.at, at), append(p.tie, k)
	}
	if p.c, err = m.CondenseLast(targets); err != nil {
		return nil, err
	}
	p.faces(&lay, m.Grid.Board[m.Grid.Left[i]-1], m.Grid.Board[m.Grid.Left[i]+1])
	p.across = math.Min(m.Across(m.Grid.Board[m.Grid.Left[i]-1]), m.Across(m.Grid.Board[m.Grid.Left[i]+1]))
	return p, p.open(hold)
}

// faces finds the depth that the boards left and right of the line share and where it lies.
func (p *planMesh) faces(lay *plan.Layout, a, b int) {
	lo, hi := math.Inf(-1), math.Inf(1)
	for _, i := range [2]int{a, b} {
		q := &lay.Plates[i]
		mid := p.c.Middle(i)
		lo, hi = math.Max(lo, mid-q.Thickness/2), math.Min(hi, mid+q.Thickness/2)
	}
	p.depth, p.face = hi-lo, [2]float64{hi, lo}
}

// span is the length along the grain that a row's tie stands for.
func (p *planRows) span(r int) float64 {
	return (p.y[min(r+1, len(p.y)-1)] - p.y[max(r-1, 0)]) / 2
}

// tieOf is the flexibility of the wood across row r, mm/N: 1/tie, of the nearest row that has one.
func (p *planMesh) tieOf(r int) (k [3]float64) {
	q := r
	for d := 0; p.tie[q][0] == 0 && d < len(p.tie); d++ {
		if a := r - d; a >= 0 && p.tie[a][0] > 0 {
			q = a
		} else if b := r + d; b < len(p.tie) && p.tie[b][0] > 0 {
			q = b
		}
	}
	for i := range k {
		if p.tie[q][i] > 0 {
			k[i] = p.span(q) / (p.tie[q][i] * p.span(r))
		}
	}
	return k
}
