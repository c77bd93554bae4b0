package cli

import (
	"strings"

	"github.com/spf13/cobra"

	"crossgrain/cmd/internal/report"
	"crossgrain/moisture"
	"crossgrain/species"
)

type emcOptions struct {
	common
	wood, mc string
}

func newEMC(e env) *cobra.Command {
	var o emcOptions
	cmd := &cobra.Command{
		Use:   "emc (--rh RH | --mc MC) [--temp T] [--wood NAME]",
		Short: "moisture content of wood from humidity and temperature, and back",
		Long: `emc tells how much water wood holds in balance with air, or, with --mc, which
humidity keeps wood at a moisture content. With --wood it uses the curve of that
wood and gives its wetting and drying branch; without it, the curve printed for
wood in general.`,
		Example: "  crossgrain emc --rh 50 --temp 20\n  crossgrain emc --rh 50 --wood oak\n  crossgrain emc --mc 9",
		Args:    cobra.NoArgs,
		RunE: func(cmd *cobra.Command, _ []string) error {
			doc, remark, err := o.answer(cmd)
			if err != nil {
				return err
			}
			if remark != "" {
				cmd.PrintErrln("remark:", remark)
			}
			if o.format == "json" {
				return report.WriteJSON(e.stdout, doc)
			}
			return doc.WriteText(e.stdout)
		},
	}
	o.bind(cmd, "temp")
	f := cmd.Flags()
	f.StringVar(&o.rh, "rh", "", "relative humidity `RH` in % RH, 0 to 100")
	f.StringVar(&o.mc, "mc", "", "moisture content `MC` in parts of water to 100 parts of dry wood")
	f.StringVar(&o.wood, "wood", "", "wood by `NAME`, such as oak; absent: wood in general")
	f.StringVar(&o.format, "format", "text", "`FORM` of the result on stdout: text or json")
	return cmd
}

// answer computes the document; remark says when a value lies outside what the source printed.
func (o *emcOptions) answer(cmd *cobra.Command) (doc report.Emc, remark string, err error) {
	if err = o.checkFormat(cmd, "text", "json"); err != nil {
		return doc, "", err
	}
	if (o.rh == "") == (o.mc == "") {
		return doc, "", badUsage(cmd, "such as --rh 50, or --mc 9", "give either --rh or --mc")
	}
	t := moisture.Celsius(o.temp)
	doc = report.Emc{Head: head("emc"), TemperatureC: o.temp, FromMC: o.mc != ""}
	iso, branches, err := o.curve(&doc)
	if err != nil {
		return doc, "", err
	}
	h, err := o.humidity(cmd, iso, t)
	if err != nil {
		return doc, "", err
	}
	doc.RHPct, doc.EMCPct = h.Percent(), iso.MC(h, t).Percent()
	if branches != nil {
		wet, dry := branches.Ads.MC(h, t).Percent(), branches.Des.MC(h, t).Percent()
		doc.WettingPct, doc.DryingPct = &wet, &dry
	}
	if g, ok := iso.(moisture.HailwoodHorrobin); ok && !g.InTable(h, t) {
		remark = "outside the printed table of the source (-1.1 to 93.3 °C, 5 to 95 % RH): the formula is carried on beyond it"
	}
	return doc, remark, air(&doc, h, t)
}

// humidity is the one that was given, or the one that keeps the wood at the given content.
func (o *emcOptions) humidity(cmd *cobra.Command, iso moisture.Isotherm, t moisture.Celsius) (moisture.RH, error) {
	if o.rh != "" {
		p, err := parseRH(cmd, strings.TrimSuffix(o.rh, "%"))
		return moisture.Percent(p), err
	}
	u, err := parseNumber(cmd, "mc", o.mc, 0, 100, "parts of water to 100 parts of dry wood")
	if err != nil {
		return 0, err
	}
	return iso.RH(moisture.MC(u/100), t)
}

// curve chooses the curve and names it in the document; branches is nil for wood in general.
func (o *emcOptions) curve(doc *report.Emc) (moisture.Isotherm, *moisture.Branches, error) {
	if o.wood == "" {
		doc.Model = "Hailwood and Horrobin, two hydrates, one curve for all woods"
		doc.Source = "Glass and Zelinka 2010, Wood Handbook FPL-GTR-190, ch. 4, eq. (4-5)"
		return moisture.HailwoodHorrobin{}, nil, nil
	}
	w, err := species.Lookup(o.wood)
	if err != nil {
		return nil, nil, err
	}
	s := w.Sorption()
	doc.Wood, doc.Borrowed, doc.Source = w.Name, s.Borrowed, s.Source
	doc.Model = "Guggenheim, Anderson and de Boer, midway between wetting and drying"
	if s.Branches.Ads == nil || s.Branches.Des == nil {
		doc.Model = "Hailwood and Horrobin, two hydrates, one curve for all woods"
		return s.Mean, nil, nil
	}
	return s.Mean, &s.Branches, nil
}

// air fills in what the air itself holds. Dry air has no dew point.
func air(doc *report.Emc, h moisture.RH, t moisture.Celsius) error {
	var p moisture.Saturation
	e, err := p.Vapour(h, t)
	if err != nil {
		return err
	}
	doc.AbsoluteGM3 = moisture.AbsoluteHumidity(e, t)
	if dew, err := p.DewPoint(h, t); err == nil {
		v := float64(dew)
		doc.DewPointC = &v
	}
	return nil
}

// head begins a document that belongs to no panel.
func head(kind string) report.Head {
	return report.Head{Format: 1, Kind: kind, Version: Version()}
}
