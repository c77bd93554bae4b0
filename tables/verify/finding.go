package verify

// Finding is a published value that a model does not meet with its inputs inside their stated ranges. It
// is kept apart from the checks and shown as it is; nothing is tuned to it.
type Finding struct {
	ID, What, Unit, Source string
	Measured               float64
	Low, High              float64 // what is predicted
	Remark                 string
}

// Misses turns rows that are known to fail into findings. A row that passes after all is left out, and
// one that cannot be computed gives its error.
func Misses(rows []Row) ([]Finding, error) {
	var out []Finding
	for _, r := range Run(rows) {
		if r.Err != nil {
			return nil, r.Err
		}
		if r.Pass {
			continue
		}
		f := Finding{ID: r.Row.ID, What: r.Row.What, Unit: r.Row.Unit, Source: r.Row.Source, Measured: r.Row.Want, Low: r.Got, High: r.Got}
		if r.Row.Band != nil {
			f.Low, f.High = r.Low, r.High
		}
		out = append(out, f)
	}
	return out, nil
}
