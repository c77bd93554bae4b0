package report

import (
	"encoding/csv"
	"io"
	"strings"
)

// WriteCSV writes one row for each state and mode: humidity, movement and warp of the panel, and
// the demand on one part with its share of limit. The unit stands in every column name; demand
// and capacity are in the unit named in their row. An empty cell means that there is no number.
// Text that a spreadsheet would take for a formula is written with an apostrophe before it.
func (a Assess) WriteCSV(w io.Writer) error {
	c := csv.NewWriter(w)
	rows := [][]string{{
		"panel_text", "state_text", "humidity_rh_pct", "moisture_content_pct", "width_change_mm",
		"width_change_loop_mm", "held_pct", "cup_mm", "mode_text", "part_text", "demand_in_row_unit",
		"capacity_in_row_unit", "row_unit_text", "share_of_limit_1", "share_low_1", "share_high_1",
		"sets_range_yes_no", "evidence_text",
	}}
	for _, s := range a.States {
		for _, m := range s.Modes {
			rows = append(rows, a.csvRow(s, m))
		}
	}
	if err := c.WriteAll(rows); err != nil {
		return err
	}
	return c.Error()
}

func (a Assess) csvRow(s State, m Mode) []string {
	sets := "no"
	if m.SetsRange {
		sets = "yes"
	}
	return []string{
		cellText(a.Panel.Accession), cellText(s.Label), cellNumber(s.RHPct), cellNumber(s.EMCPct),
		cellNumber(s.WidthChangeMM), cellNumber(s.WidthChangeLoopMM), cellNumber(s.HeldPct),
		cellNumber(s.CupMM), cellText(m.Mode), cellText(m.Part), cellNumber(m.Demand),
		cellPointer(m.Capacity), cellText(m.Unit), cellPointer(m.Share), cellPointer(m.ShareLow),
		cellPointer(m.ShareHigh), sets, cellText(m.Evidence),
	}
}

func cellNumber(v float64) string {
	if s := numeral(v); s != "null" {
		return s
	}
	return ""
}

func cellPointer(v *float64) string {
	if v == nil {
		return ""
	}
	return cellNumber(*v)
}

// cellText keeps a spreadsheet from running text as a formula.
func cellText(s string) string {
	if s != "" && strings.ContainsRune("=+-@\t\r", rune(s[0])) {
		return "'" + s
	}
	return s
}
