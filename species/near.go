package species

import (
	"cmp"
	"slices"
	"strings"

	"crossgrain/tables/problem"
)

const hints = 3 // names offered for an unknown one

// near returns the name nearest by spelling to the folded name, then names that hold it as a word,
// as "sugar maple" holds "maple", the shortest first.
func near(name string, names []string) []string {
	if name == "" {
		return nil
	}
	folded := make([]string, len(names))
	var out, holding []string
	for i, n := range names {
		folded[i] = Fold(n)
		if slices.Contains(strings.Fields(folded[i]), name) {
			holding = append(holding, n)
		}
	}
	if best := problem.Nearest(name, folded); best != "" {
		out = append(out, names[slices.Index(folded, best)])
	}
	slices.SortStableFunc(holding, func(a, b string) int { return cmp.Compare(len(a), len(b)) })
	for _, n := range holding {
		if !slices.Contains(out, n) {
			out = append(out, n)
		}
	}
	return out[:min(hints, len(out))]
}
