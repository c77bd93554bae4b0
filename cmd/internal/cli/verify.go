package cli

import (
	"fmt"

	"github.com/spf13/cobra"

	"crossgrain/cmd/internal/report"
	"crossgrain/moisture"
	"crossgrain/moisture/profile"
	"crossgrain/moisture/record/scenario"
	"crossgrain/panel/fracture"
	"crossgrain/panel/response"
	"crossgrain/panel/restraint"
	"crossgrain/panel/section"
	"crossgrain/species"
	"crossgrain/tables/verify"
)

func newVerify(e env) *cobra.Command {
	var c common
	cmd := &cobra.Command{
		Use:   "verify",
		Short: "the checks: expected, got, tolerance, source",
		Long: `verify computes every published and independently derived value that the program
knows of and shows it beside what was expected. Measured wood is shown beside
the band that is predicted for it. It exits with 1 when a check fails.

No published value checks joins, splits or cradles on a real painting.`,
		Example: "  crossgrain verify\n  crossgrain verify --format csv",
		Args:    cobra.NoArgs,
		RunE: func(cmd *cobra.Command, _ []string) error {
			if err := c.checkFormat(cmd, "text", "json", "csv"); err != nil {
				return err
			}
			rows, err := allChecks()
			if err != nil {
				return &faultError{err}
			}
			findings, err := allFindings()
			if err != nil {
				return &faultError{err}
			}
			doc := report.NewVerify(head("verify"), verify.Run(rows), findings)
			if err := c.write(e.stdout, doc); err != nil {
				return err
			}
			if doc.Failed > 0 {
				return fmt.Errorf("%w: %d of %d", errFailedCheck, doc.Failed, len(doc.Checks))
			}
			return nil
		},
	}
	c.bind(cmd, "format")
	return cmd
}

// allChecks gathers the checks of every package, in the order of the import chain.
func allChecks() ([]verify.Row, error) {
	var all []verify.Row
	for _, p := range []struct {
		name   string
		checks func() ([]verify.Row, error)
	}{
		{"moisture", moisture.Checks},
		{"moisture through the thickness", profile.Checks},
		{"climates of buildings", scenario.Checks},
		{"species", species.Checks},
		{"section", section.Checks},
		{"restraint", restraint.Checks},
		{"fracture", fracture.Checks},
		{"relaxation and the panel seen from the front", response.Checks},
	} {
		rows, err := p.checks()
		if err != nil {
			return nil, fmt.Errorf("checks of %s: %w", p.name, err)
		}
		all = append(all, rows...)
	}
	return all, nil
}

// allFindings gathers what is known not to be met.
func allFindings() ([]verify.Finding, error) {
	var all []verify.Finding
	for _, of := range [...]func() ([]verify.Finding, error){profile.Findings, response.Findings} {
		found, err := of()
		if err != nil {
			return nil, err
		}
		all = append(all, found...)
	}
	return all, nil
}
