package report

import (
	"encoding/csv"
	"io"
)

// WriteCSV writes one row for each option and each way for a part to give way, by the rules of [Assess.WriteCSV].
func (t Treat) WriteCSV(w io.Writer) error {
	rows := [][]string{{
		"panel_text", "option_text", "reach_text", "mode_text", "part_text", "humidity_rh_pct", "share_of_limit_1", "share_low_1", "share_high_1",
		"of_100_low_1", "of_100_high_1", "change_text",
	}}
	for _, o := range t.done() {
		for _, m := range o.Modes {
			row := []string{cellText(t.Panel.Accession), cellText(o.name()), cellText(o.Reach), cellText(m.Mode), cellText(m.Part)}
			if m.There {
				row = append(row, cellNumber(m.RHPct))
			} else {
				row = append(row, "")
			}
			row = append(row, cellPointer(m.Share), cellPointer(m.ShareLow), cellPointer(m.ShareHigh))
			if len(m.Of100) == 2 {
				row = append(row, cellNumber(m.Of100[0]), cellNumber(m.Of100[1]))
			} else {
				row = append(row, "", "")
			}
			rows = append(rows, append(row, cellText(m.Change)))
		}
	}
	c := csv.NewWriter(w)
	return c.WriteAll(rows)
}
