package report

import (
	"encoding/csv"
	"io"
)

// Wood is the document of the command wood for one wood: what is known of it.
type Wood struct {
	Head
	Wood       string     `json:"wood"`
	Botanical  string     `json:"botanical"`
	Properties []Property `json:"properties"`
}

// Property is one value of a wood. Spread holds its ends; they are equal where none is known.
type Property struct {
	Name      string    `json:"name"`
	Direction string    `json:"direction"`
	Value     float64   `json:"value"`
	Unit      string    `json:"unit"`
	Spread    []float64 `json:"spread"`
	Duration  string    `json:"duration"` // short or long loading, where it matters
	Evidence  string    `json:"evidence"`
	Source    string    `json:"source"`
}

// Woods is the document of the command wood without a name.
type Woods struct {
	Head
	Woods []WoodName `json:"woods"`
}

// WoodName is one line of the list of woods.
type WoodName struct {
	Wood      string `json:"wood"`
	Botanical string `json:"botanical"`
}

func (p Property) spread() string {
	if len(p.Spread) != 2 || p.Spread[0] == p.Spread[1] {
		return ""
	}
	return say("range.cell", "low", plain(p.Spread[0]), "high", plain(p.Spread[1]))
}

func (p Property) direction() string {
	if p.Duration == "" {
		return p.Direction
	}
	if p.Direction == "" {
		return p.Duration
	}
	return p.Direction + ", " + p.Duration
}

// WriteText writes what is known of the wood for a terminal.
func (d Wood) WriteText(w io.Writer) error {
	t := &textPage{}
	name := d.Wood
	if d.Botanical != "" {
		name += " (" + d.Botanical + ")"
	}
	t.paras(upperFirst(name), say("wood.note"))
	t.line("")
	tb := Table{Align: "llrrlll", Head: []string{
		say("wood.head.name"), say("wood.head.direction"), say("wood.head.value"), say("wood.head.spread"),
		say("wood.head.unit"), say("wood.head.evidence"), say("wood.head.source"),
	}}
	for _, p := range d.Properties {
		tb.Rows = append(tb.Rows, []string{p.Name, p.direction(), plain(p.Value), p.spread(), p.Unit, p.Evidence, p.Source})
	}
	t.rows(tb)
	return t.to(w)
}

// WriteCSV writes one row for each property; the unit of a value stands in its row.
func (d Wood) WriteCSV(w io.Writer) error {
	rows := [][]string{{"wood_text", "name_text", "direction_text", "value_in_row_unit", "low_in_row_unit",
		"high_in_row_unit", "row_unit_text", "duration_text", "evidence_text", "source_text"}}
	for _, p := range d.Properties {
		low, high := "", ""
		if len(p.Spread) == 2 {
			low, high = cellNumber(p.Spread[0]), cellNumber(p.Spread[1])
		}
		rows = append(rows, []string{cellText(d.Wood), cellText(p.Name), cellText(p.Direction), cellNumber(p.Value), low, high,
			cellText(p.Unit), cellText(p.Duration), cellText(p.Evidence), cellText(p.Source)})
	}
	return csv.NewWriter(w).WriteAll(rows)
}

// WriteText writes the list of woods for a terminal.
func (d Woods) WriteText(w io.Writer) error {
	t := &textPage{}
	tb := Table{Head: []string{say("wood.list.head.wood"), say("wood.list.head.botanical")}}
	for _, x := range d.Woods {
		tb.Rows = append(tb.Rows, []string{x.Wood, x.Botanical})
	}
	t.rows(tb)
	t.paras(say("wood.list.lead"))
	return t.to(w)
}

// WriteCSV writes one row for each wood.
func (d Woods) WriteCSV(w io.Writer) error {
	rows := [][]string{{"wood_text", "botanical_text"}}
	for _, x := range d.Woods {
		rows = append(rows, []string{cellText(x.Wood), cellText(x.Botanical)})
	}
	return csv.NewWriter(w).WriteAll(rows)
}
