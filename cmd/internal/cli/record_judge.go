package cli

import (
	"fmt"
	"strings"

	"github.com/spf13/cobra"

	"crossgrain/moisture/record"
	"crossgrain/moisture/record/terms"
	"crossgrain/species"
)

// judge is what the user chose to judge a record by.
type judge struct {
	wood      *species.Wood
	floor     bool
	terms     []terms.Terms
	confirmed bool
	reading   record.Reading // of a change within a time
	without   []record.Suspicion
}

// judge checks what the user chose to judge the record by.
func (o *recordOptions) judge(cmd *cobra.Command) (judge, error) {
	j := judge{floor: o.floor10, confirmed: o.confirm}
	if o.dailyChange != "" {
		var err error
		if j.reading, err = record.ParseReading(o.dailyChange); err != nil {
			return j, badUsage(cmd, readingsHint(), "--daily-change: %v", err)
		}
	}
	for _, w := range o.without {
		k, ok := map[string]record.Suspicion{"spikes": record.Spike, "stuck": record.Stuck}[strings.ToLower(w)]
		if !ok {
			return j, badUsage(cmd, "", "--without must be spikes or stuck, got %q", w)
		}
		j.without = append(j.without, k)
	}
	for _, s := range o.terms {
		t, err := terms.Read(s)
		if err != nil {
			return j, err
		}
		if m := t.FromMemory(); len(m) > 0 && !o.confirm {
			return j, badUsage(cmd, "compare them with the document, then add --confirm-terms; or type the terms that were agreed",
				"these figures of %s are known from memory only: %s (%s)", t.Name, clauses(m), t.Source)
		}
		j.terms = append(j.terms, t)
	}
	return j, nil
}

func clauses(c []terms.Clause) string {
	var out []string
	for _, x := range c {
		out = append(out, x.String())
	}
	return strings.Join(out, "; ")
}

// readingsHint says what each reading of a change means.
func readingsHint() string {
	var out []string
	for _, h := range record.Readings() {
		out = append(out, fmt.Sprintf("%s: %s", h, h.Words(day24)))
	}
	return strings.Join(out, "; ")
}

// flags notes what looks like a fault, and takes out of the record what was asked for.
func (st *study) flags() {
	st.noticed = st.rec.Flags()
	mark := make([]string, len(st.rec.Times))
	var out []record.Flag
	for _, f := range st.noticed {
		if st.removes(f) {
			out = append(out, f)
			continue
		}
		for i := f.First; i <= f.Last; i++ {
			mark[i] = kindWords(f.Kind)
		}
	}
	if len(out) > 0 {
		kept := mark[:0]
		drop := make([]bool, len(mark))
		for _, f := range out {
			for i := f.First; i <= f.Last; i++ {
				drop[i] = true
			}
		}
		for i, m := range mark {
			if !drop[i] {
				kept = append(kept, m)
			}
		}
		mark, st.rec = kept, st.rec.Without(out)
	}
	if len(st.noticed) > len(out) {
		st.flag = mark
	}
}

// removes says whether the user asked for such readings to be taken out.
func (j judge) removes(f record.Flag) bool {
	for _, k := range j.without {
		if k == f.Kind {
			return true
		}
	}
	return false
}

// kindWords is the kind of a flag as the document names it.
func kindWords(k record.Suspicion) string {
	switch k {
	case record.Spike:
		return "spikes"
	case record.Stuck:
		return "stuck"
	case record.Saturated:
		return "end of scale"
	}
	return "carried"
}
