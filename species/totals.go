package species

import (
	"slices"
	"strconv"
	"strings"

	"crossgrain/tables"
)

// totals returns the total shrinkage R and T, green to ovendry, of a wood of panel_woods: the
// middle of the values read, their ends, and all sources. The low and high ends are the smallest
// and largest value read, not 5 and 95 %.
func totals(key string) []Property {
	var out []Property
	for _, d := range [...]string{"R", "T"} {
		if p, ok := total(key, d); ok {
			out = append(out, p)
		}
	}
	return out
}

func total(key, direction string) (Property, bool) {
	var mid, ends []float64
	var sources []string
	for _, r := range tables.MustRead("panel_woods").Rows {
		if r.Text("wood") != key || r.Text("property") != "shrinkage_total" || r.Text("direction") != direction || r.Text("status") != "read" {
			continue
		}
		lo, hi, ok := span(r.Text("value"))
		if !ok {
			continue
		}
		mid, ends = append(mid, (lo+hi)/2), append(ends, lo, hi)
		if s := r.Text("source"); !slices.Contains(sources, s) {
			sources = append(sources, s)
		}
	}
	if len(mid) == 0 {
		return Property{}, false
	}
	grade := tables.Several
	if len(sources) == 1 {
		grade = tables.One
	}
	slices.Sort(mid)
	return Property{Name: ShrinkageTotal, Direction: direction, Datum: tables.Datum{
		Value: (mid[(len(mid)-1)/2] + mid[len(mid)/2]) / 2, Low: slices.Min(ends), High: slices.Max(ends),
		Unit: "%", Source: strings.Join(sources, "; "), Locator: "panel_woods", Status: "derived",
		Note: "median of the values read; low and high are the ends read", Grade: grade,
	}}, true
}

// span reads "4.4" or "4.4-4.8".
func span(cell string) (lo, hi float64, ok bool) {
	a, b, two := strings.Cut(cell, "-")
	lo, err := strconv.ParseFloat(strings.TrimSpace(a), 64)
	if err != nil || !two {
		return lo, lo, err == nil
	}
	hi, err = strconv.ParseFloat(strings.TrimSpace(b), 64)
	return lo, hi, err == nil
}
