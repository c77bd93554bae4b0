package cli

import (
	"math"
	"strconv"
	"strings"

	"github.com/spf13/cobra"
	"github.com/spf13/pflag"

	"crossgrain/tables/problem"
)

// common holds the flags that several commands share. A command binds those it needs.
type common struct {
	out, format, rh          string
	records                  []string
	temp                     float64
	seed                     int
	quick, fine, failOnLimit bool
}

// bind adds the named flags to a command: out, format, rh, temp, record, seed, quick,
// fail-on-limit. A name that is not in this list is a programmer's error and panics.
func (c *common) bind(cmd *cobra.Command, names ...string) {
	f := cmd.Flags()
	add := map[string]func(){
		"out":    func() { f.StringVar(&c.out, "out", "", "write the report, its data and figures to the folder `DIR`") },
		"format": func() { f.StringVar(&c.format, "format", "text", "`FORM` of the result on stdout: text, json or csv") },
		"rh":     func() { f.StringVar(&c.rh, "rh", "", "relative humidity in % RH, as a range `LOW..HIGH`") },
		"temp":   func() { f.Float64Var(&c.temp, "temp", 20, "air temperature `T` in °C") },
		"record": func() {
			f.StringArrayVar(&c.records, "record", nil, "humidity record `FILE` instead of a range, read as the command record reads it; several make one record")
		},
		"seed":  func() { f.IntVar(&c.seed, "seed", 1, "starting number `N` of the draws") },
		"quick": func() { f.BoolVar(&c.quick, "quick", false, "closed forms only, no figures") },
		"fine":  func() { f.BoolVar(&c.fine, "fine", false, "finer elements, levels and steps; slower") },
		"fail-on-limit": func() {
			f.BoolVar(&c.failOnLimit, "fail-on-limit", false, "exit with 1 when a limit is reached within the range")
		},
	}
	for _, n := range names {
		add[n]()
	}
}

// checkFormat refuses a format that the command does not write.
func (c *common) checkFormat(cmd *cobra.Command, forms ...string) error {
	for _, f := range forms {
		if c.format == f {
			return nil
		}
	}
	hint := ""
	if near := problem.Nearest(c.format, forms); near != "" {
		hint = "did you mean " + near + "?"
	}
	return badUsage(cmd, hint, "--format must be %s, got %q", strings.Join(forms, " or "), c.format)
}

// parseRange reads "35..65" of a flag as two humidities in % RH, 0 to 100, the lower first.
func parseRange(cmd *cobra.Command, flag, s string) (low, high float64, err error) {
	hint := "two numbers with two dots between them, such as --" + flag + " 35..65"
	a, b, ok := strings.Cut(s, "..")
	if !ok {
		return 0, 0, badUsage(cmd, hint, "--%s must be a range LOW..HIGH in %% RH, got %q", flag, s)
	}
	if low, err = parseNumber(cmd, flag, a, 0, 100, "% RH"); err != nil {
		return 0, 0, err
	}
	if high, err = parseNumber(cmd, flag, b, 0, 100, "% RH"); err != nil {
		return 0, 0, err
	}
	if low >= high {
		return 0, 0, badUsage(cmd, hint, "--%s must run from a lower to a higher humidity, got %q", flag, s)
	}
	return low, high, nil
}

// parseRH reads one humidity in % RH, 0 to 100.
func parseRH(cmd *cobra.Command, s string) (float64, error) {
	v, err := strconv.ParseFloat(strings.TrimSpace(s), 64)
	if err != nil || math.IsNaN(v) || v < 0 || v > 100 {
		return 0, badUsage(cmd, "", "--rh must lie between 0 and 100 %% RH, got %q", s)
	}
	return v, nil
}

// parseNumber reads a number between low and high, naming flag and unit in the error.
func parseNumber(cmd *cobra.Command, flag, s string, low, high float64, unit string) (float64, error) {
	v, err := strconv.ParseFloat(strings.TrimSpace(s), 64)
	if err != nil || math.IsNaN(v) || v < low || v > high {
		return 0, badUsage(cmd, "", "--%s must lie between %g and %g %s, got %q", flag, low, high, unit, s)
	}
	return v, nil
}

// flagHint explains an error of the flag reader and names the nearest flag.
func flagHint(cmd *cobra.Command, err error) error {
	msg, hint := err.Error(), ""
	if name, ok := strings.CutPrefix(msg, "unknown flag: "); ok {
		if near := problem.Nearest(strings.TrimLeft(name, "-"), flagNames(cmd)); near != "" {
			hint = "did you mean --" + near + "?"
		}
	}
	return badUsage(cmd, hint, "%s", msg)
}

func flagNames(cmd *cobra.Command) []string {
	var out []string
	cmd.Flags().VisitAll(func(f *pflag.Flag) { out = append(out, f.Name) })
	return out
}
