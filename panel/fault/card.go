package fault

import (
	"context"
	"math"

	"crossgrain/panel"
	"crossgrain/panel/assessment"
)

// Card is what stands on the card of one panel for one logger.
type Card struct {
	Panel *panel.Panel
	// InCase: the panel is in a closed case. ByCase: the reading is that of the logger inside it;
	// otherwise it is that of the room.
	InCase, ByCase bool
	// Thin is the thickness that was counted because none is recorded, mm; 0: it is recorded.
	Thin float64
	// First is what reaches its limit first, mode:part; empty when nothing does.
	First    string
	BareBack bool // the back was taken as bare because nothing is recorded of it
	// Outlived is what it has lived through, where that is evidence; nil: it is none.
	Outlived *assessment.Outlived
	// Season: hours count from the worst of the year's seasons; Passed: they do not, because it is past the point to call there by
	// calculation; SeasonWhy: they do not because its record gives none, in words.
	Season, Passed bool
	SeasonWhy      string
	// Grid is nil when no hours are given: then Gates and Withheld say why, and it is to call at once.
	Grid     *Grid
	Gates    []panel.Gate
	Withheld string // why there are no hours, where no gate says it
}

// thinnest is the least thickness that is counted where none is recorded, mm: under it the chart of
// waiting times gives no hours.
const thinnest = 8

// z95 is the standard normal that 5 in 100 lie beyond.
const z95 = 1.6449

// Cards assesses a panel and makes its cards: one by the reading of the room, or, for a closed case in
// the question, one by the reading of the case and one by that of the room around it.
//
// A thickness that nobody measured counts as thin, at the point that 5 in 100 lie below and not under
// 8 mm; where the panel as commonly found would answer sooner, that holds.
func Cards(ctx context.Context, p *panel.Panel, q assessment.Question) ([]Card, error) {
	r, err := assessment.Assess(ctx, p, q)
	if err != nil {
		return nil, err
	}
	cards := cardsOf(r, q)
	thin, mm := thinned(p)
	if thin == nil || cards[0].Grid == nil {
		return cards, nil
	}
	if r, err = assessment.Assess(ctx, thin, q); err != nil {
		return nil, err
	}
	for i, t := range cardsOf(r, q) {
		c := &cards[i]
		c.Grid, c.Thin = c.Grid.worse(t.Grid), mm
		c.Season, c.Passed = c.Season || t.Season, c.Passed || t.Passed
		if t.Outlived != nil && t.Outlived.Against {
			c.Outlived = t.Outlived
		}
	}
	return cards, nil
}

// cardsOf reads the cards off an assessment.
func cardsOf(r *assessment.Result, q assessment.Question) []Card {
	card := func(w *assessment.Wait) Card {
		c := Card{
			Panel: r.Panel, Gates: r.Gates, BareBack: r.Wait.BareBack, Outlived: r.Wait.Outlived,
			Season: r.Wait.Season, Passed: r.Wait.Passed, SeasonWhy: r.Wait.SeasonWhy,
		}
		if r.Wait.Withheld == "" {
			c.Grid, c.First = gridOf(w), w.First
		} else if len(r.Gates) == 0 {
			c.Withheld = r.Wait.Withheld
		}
		return c
	}
	in := card(r.Wait)
	if q.Case == nil {
		return []Card{in}
	}
	in.InCase, in.ByCase = true, true
	around := r.Wait.ByRoom
	if around == nil { // withheld
		around = r.Wait
	}
	out := card(around)
	out.InCase = true
	return []Card{in, out}
}

// thinned returns the panel as if the thickness that nobody measured had been measured as thin; nil when
// all of it is recorded.
func thinned(p *panel.Panel) (*panel.Panel, float64) {
	const path = "panel.thickness_mm"
	if p.Known(path) != panel.Assumed {
		return nil, 0
	}
	for _, in := range p.Inputs() {
		if in.Path == path {
			mm := math.Round(max(thinnest, in.Value(-z95)))
			return p.WithLength(path, mm), mm
		}
	}
	return nil, 0
}
