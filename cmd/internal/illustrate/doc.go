// Package illustrate chooses and fills the figures of a result: results and their documents in, drawn figures with the tables behind
// them out. Package figure draws; this package knows what is worth drawing.
package illustrate

import (
	"fmt"
	"strings"

	"crossgrain/cmd/internal/figure"
	"crossgrain/cmd/internal/report"
)

// Drawn is one figure of a paper.
type Drawn struct {
	figure.Figure
	Annex bool          // off the first pages
	Table *report.Table // the numbers behind it; nil: they stand elsewhere in the paper
}

// InPage makes figures ready to stand in a page.
func InPage(figs []Drawn) ([]report.Figure, error) {
	var out []report.Figure
	for _, f := range figs {
		var bare strings.Builder
		if err := f.Bare(&bare); err != nil {
			return nil, fmt.Errorf("%s.svg: %w", f.ID, err)
		}
		out = append(out, report.Figure{
			ID: f.ID, Title: f.Title, Sentence: f.Sentence, SVG: bare.String(), Annex: f.Annex, Table: f.Table,
		})
	}
	return out, nil
}
