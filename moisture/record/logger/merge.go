package logger

import (
	"cmp"
	"fmt"
	"math"
	"slices"
	"time"

	"crossgrain/moisture/record"
)

// part is one table brought to instants, fractions and °C.
type part struct {
	table *table
	zone  *time.Location // nil: not stated
	exact bool           // its times are instants
}

// merge sorts the readings of all parts into one record; of readings at the same time the first one is
// kept.
func merge(parts []part, a *aside) *record.Record {
	n := 0
	for _, p := range parts {
		n += len(p.table.list)
	}
	all := make([]reading, 0, n)
	for i, p := range parts {
		for _, r := range p.table.list {
			r.file = int32(i)
			all = append(all, r)
		}
	}
	byTime := func(x, y reading) int {
		return cmp.Or(cmp.Compare(x.at, y.at), cmp.Compare(x.file, y.file), cmp.Compare(x.line, y.line))
	}
	if !slices.IsSortedFunc(all, byTime) {
		slices.SortFunc(all, byTime)
	}
	out := &record.Record{Times: make([]time.Time, 0, n), RH: make([]float64, 0, n), Lines: make([]int, 0, n)}
	warm := make([]float64, 0, n)
	zone, shown := time.UTC, parts[0].zone
	if shown != nil {
		zone = shown
	}
	any := false
	for i, r := range all {
		if i > 0 && all[i-1].at == r.at {
			name := parts[r.file].table.grid.name
			if same(r, all[i-1]) {
				a.add(name, "read again: the same time and values stand already", int(r.line))
				all[i] = all[i-1]
				continue
			}
			a.add(name, fmt.Sprintf("other values than line %d%s at the same time", all[i-1].line, elsewhere(parts, all[i-1], r)), int(r.line))
			all[i] = all[i-1]
			continue
		}
		out.Times = append(out.Times, time.UnixMilli(r.at).In(zone))
		out.RH = append(out.RH, r.rh)
		out.Lines = append(out.Lines, int(r.line))
		warm = append(warm, r.t)
		any = any || !math.IsNaN(r.t)
	}
	if any {
		out.T = warm
	}
	out.Zone = shown
	return out
}

func same(x, y reading) bool {
	return x.rh == y.rh && (x.t == y.t || math.IsNaN(x.t) || math.IsNaN(y.t))
}

// elsewhere names the other file.
func elsewhere(parts []part, first, again reading) string {
	if first.file == again.file {
		return ""
	}
	return " of " + parts[first.file].table.grid.name
}
