package survey

import (
	"context"
	"fmt"
	"slices"

	"crossgrain/moisture"
	"crossgrain/panel"
	"crossgrain/panel/assessment"
	"crossgrain/panel/response"
)

// countedLow and countedHigh are the humidities over which a panel is assessed whose store is not told.
const countedLow, countedHigh = moisture.RH(0.30), moisture.RH(0.70)

// work works one panel out in every store. What goes wrong is told in Failed.
func (r *Row) work(ctx context.Context, s *Stores, o Options) {
	if r.Failed != "" || slices.ContainsFunc(r.Gates, func(g panel.Gate) bool { return g.NoFigures }) {
		return
	}
	defer func() {
		if p := recover(); p != nil {
			r.Failed, r.Cells = fmt.Sprintf("a fault of the program: %v", p), nil
		}
	}()
	if err := r.stores(ctx, s, o); err != nil && ctx.Err() == nil {
		r.Failed, r.Cells = err.Error(), nil
	}
}

// stores assesses the panel over the climate of the store where it stands, which counts every pair of
// humidities within the caps too, and once more for each store beyond these.
func (r *Row) stores(ctx context.Context, s *Stores, o Options) error {
	object, err := r.Panel.Realise(nil)
	if err != nil {
		return err
	}
	c, err := response.Prepare(object, response.Quick)
	if err != nil {
		return err
	}
	boards, err := c.Boards()
	if err != nil {
		return err
	}
	r.UsedTo = object.UsedTo
	cells := make([]Cell, len(s.List))
	for i := range s.List {
		cells[i] = s.List[i].climate(boards)
	}
	ask := assessment.Question{Low: countedLow, High: countedHigh, NoWait: true, Setting: response.Quick, Samples: assessment.Samples{Held: o.Samples, Seed: o.Seed}}
	home := r.Store >= 0 && cells[r.Store].Told
	if home {
		ask.Low, ask.High = cells[r.Store].Low, cells[r.Store].High
	}
	a, err := r.told(ctx, ask, o)
	if err != nil {
		return err
	}
	r.Fork, r.Find, r.maps, r.unfigured = a.Fork, a.Find, a.Maps, a.Unfigured
	for i := range cells {
		cell := &cells[i]
		switch {
		case !cell.Told || r.unfigured:
			continue
		case home && i == r.Store:
			cell.count(a)
		case cell.over(r.maps):
			cell.hardest(a)
		default:
			ask.Low, ask.High = cell.Low, cell.High
			b, err := r.told(ctx, ask, o)
			if err != nil {
				return err
			}
			cell.count(b)
		}
	}
	r.Cells = cells
	return nil
}

// climate is what the wood of a panel comes into balance with in the store.
func (s *Store) climate(boards []response.Board) Cell {
	if s.Record == nil {
		return Cell{Told: true, Low: s.Low, High: s.High}
	}
	c := Cell{Told: true, Low: 1}
	for _, b := range boards {
		low, _, high, err := s.Record.RunningMean(b.Window)
		if err != nil {
			return Cell{Untold: err.Error()}
		}
		c.Low, c.High = min(c.Low, moisture.RH(low)), max(c.High, moisture.RH(high))
	}
	return c
}

// count takes the counts of an assessment over the climate of the cell.
func (c *Cell) count(a *told) {
	c.Few, c.Many, c.Mode, c.Part = a.Few, a.Many, a.Mode, a.Part
	if c.Part == "" {
		c.hardest(a)
	}
}

// hardest finds what works hardest over the climate of the cell, for the panel as described.
func (c *Cell) hardest(a *told) {
	most := 0.0
	for _, s := range a.Hardest {
		if s.RH < c.Low-0.03 || s.RH > c.High+0.03 { // the humidities of the sweep are five points apart
			continue
		}
		if s.Share > most*(1+1e-9) {
			most, c.Mode, c.Part = s.Share, s.Mode, s.Part
		}
	}
}

// over reads the counts off the maps; false beyond the humidities that were counted.
func (c *Cell) over(maps []assessment.LimitMap) bool {
	few, many, ok := assessment.CountOver(maps, c.Low, c.High)
	if ok {
		c.Few, c.Many = few, many
	}
	return ok
}
