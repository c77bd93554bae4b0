package cli

import (
	"strings"

	"github.com/spf13/cobra"

	"crossgrain/moisture/record/scenario"
	"crossgrain/panel"
)

// Air changes a day by how tight a case is. A good modern one has 0.1 to 0.2 (trade page,
// https://preservatech.com/air-change-calculations/), of which the leakier end is taken; plain and older
// ones have one to several (common practice), of which 4 are taken (assumption, as for treatment options).
const (
	sealedChanges   = 0.2
	ordinaryChanges = 4
)

// closed is the case that clauses describe.
func (m *madeClimate) closed() closedCase {
	c := closedCase{scenario.Case{Volume: m.litres, Exchange: m.changes, Buffer: scenario.Buffer{Mass: m.bufferKg}}}
	if m.bufferKg > 0 {
		c.Buffer.Capacity = bufferGrams
	}
	return c
}

// parseCase reads the clauses of --case; nil without any.
func parseCase(cmd *cobra.Command, text string) (*closedCase, error) {
	if strings.TrimSpace(text) == "" {
		return nil, nil
	}
	const hint = "such as \"60 litres, 0.5 changes a day, buffer 2 kg\""
	m := madeClimate{changes: 1}
	for clause := range strings.SplitSeq(strings.ToLower(text), ",") {
		w := scenarioWords(clause)
		if len(w) == 2 {
			w = append([]string{"case"}, w...)
		}
		if len(w) == 0 || w[0] == "step" || w[0] == "ramp" || w[0] == "hold" || w[0] == "for" || w[0] == "return" || !m.clause(w) {
			return nil, badUsage(cmd, hint, "--case does not know %q", strings.TrimSpace(clause))
		}
	}
	if !m.hasC {
		return nil, badUsage(cmd, hint, "--case must say how many litres of air it holds")
	}
	c := m.closed()
	if err := c.Validate(); err != nil {
		return nil, badUsage(cmd, hint, "--case: %v", err)
	}
	return &c, nil
}

// caseOf is the closed case that a panel stands in: that of the flag, or that of its file. why tells of
// one that is in the file and cannot be taken.
func caseOf(p *panel.Panel, flag *closedCase) (in *closedCase, why string) {
	if flag != nil {
		return flag, ""
	}
	if !p.Has("enclosure") || p.Text("enclosure.seal") == "open" {
		return nil, ""
	}
	volume, ok := p.Number("enclosure.volume_l")
	if !ok {
		return nil, "its case has no volume_l, so there is a card for the room alone, as if it hung open"
	}
	m := madeClimate{litres: volume.Low, changes: ordinaryChanges} // the smaller it is, the less it waits
	if p.Text("enclosure.seal") == "sealed" {
		m.changes = sealedChanges
	}
	if b, ok := p.Number("enclosure.buffer_kg"); ok {
		m.bufferKg = b.Low
	}
	c := m.closed()
	return &c, ""
}
