package report

import (
	"encoding/csv"
	"fmt"
	"io"

	"crossgrain/panel/fault"
)

// WriteCSV writes one row for each card and row of readings; a card without hours has one row that says
// why, and a file that could not be read as well.
func (f Fault) WriteCSV(w io.Writer) error {
	head := []string{"place_text", "panel_text", "file_text", "reading_text", "low_rh_pct", "high_rh_pct", "call_after_h", "act_after_h"}
	for _, h := range fault.Hours() {
		head = append(head, fmt.Sprintf("up_to_%.0f_h_text", h))
	}
	rows := [][]string{append(head, "call_at_once_text")}
	blank := make([]string, len(fault.Hours()))
	for _, c := range f.Cards {
		id := []string{cellText(c.Place), cellText(c.name()), cellText(c.File), c.Reading}
		for i, r := range c.Rows {
			row := append(id[:4:4], cellNumber(r.LowRHPct), cellNumber(r.HighRHPct), cellPointer(r.CallH), cellPointer(r.ActH))
			rows = append(rows, append(append(row, c.Cells[i]...), ""))
		}
		for _, why := range c.CallAtOnce {
			rows = append(rows, append(append(append(id[:4:4], "", "", "0", ""), blank...), cellText(why)))
		}
	}
	for _, x := range f.Failed {
		row := []string{cellText(x.Place), cellText(x.name()), cellText(x.File), "", "", "", "0", ""}
		rows = append(rows, append(append(row, blank...), cellText(say("fault.once.unread", "why", firstLine(x.Why)))))
	}
	return csv.NewWriter(w).WriteAll(rows)
}
