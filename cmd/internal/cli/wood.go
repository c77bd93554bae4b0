package cli

import (
	"io"
	"strings"

	"github.com/spf13/cobra"

	"crossgrain/cmd/internal/report"
	"crossgrain/species"
)

func newWood(e env) *cobra.Command {
	var c common
	cmd := &cobra.Command{
		Use:   "wood [NAME]",
		Short: "what is known of a wood, with sources and evidence",
		Long: `wood lists the woods, or shows what is known of one: each value with its spread,
unit, evidence and source. A wood is found by its trade name in several
languages or by its botanical name.`,
		Example: "  crossgrain wood\n  crossgrain wood oak\n  crossgrain wood \"Quercus robur\" --format json",
		RunE: func(cmd *cobra.Command, args []string) error {
			if err := c.checkFormat(cmd, "text", "json", "csv"); err != nil {
				return err
			}
			if len(args) == 0 {
				return c.write(e.stdout, listWoods())
			}
			w, err := species.Lookup(strings.Join(args, " "))
			if err != nil {
				return err
			}
			return c.write(e.stdout, describeWood(w))
		},
	}
	c.bind(cmd, "format")
	return cmd
}

// written is a document in the forms that stdout takes.
type written interface {
	WriteText(io.Writer) error
	WriteCSV(io.Writer) error
}

// write writes a document in the form that was asked for.
func (c *common) write(w io.Writer, doc written) error {
	switch c.format {
	case "json":
		return report.WriteJSON(w, doc)
	case "csv":
		return doc.WriteCSV(w)
	}
	return doc.WriteText(w)
}

func listWoods() report.Woods {
	doc := report.Woods{Head: head("woods")}
	for _, w := range species.All() {
		doc.Woods = append(doc.Woods, report.WoodName{Wood: w.Name, Botanical: w.Botanical})
	}
	return doc
}

func describeWood(w *species.Wood) report.Wood {
	doc := report.Wood{Head: head("wood"), Wood: w.Name, Botanical: w.Botanical}
	for _, p := range w.Properties() {
		doc.Properties = append(doc.Properties, report.Property{
			Name: p.Name, Direction: p.Direction, Value: p.Value, Unit: p.Unit, Spread: []float64{p.Low, p.High},
			Duration: p.Duration.String(), Evidence: p.Grade.String(), Source: p.Source,
		})
	}
	return doc
}
