package moisture

import "crossgrain/tables"

const day = 86400 // s

// uptakeChecks covers the rows CRK, ROB, TWO, TIM and CUP.
func uptakeChecks(t *tables.Table, g got) {
	bare := bareFront()
	each(t, g, "CRK-E-%g", func(p []float64) (float64, error) { return bare.Uptake(p[0]), nil })
	each(t, g, "CRK-INV-%g", func(p []float64) (float64, error) { return bare.Fourier(p[0]) })
	each(t, g, "CRK-SEAL-%g", func(p []float64) (float64, error) { return bare.Local(0, p[0]), nil })
	each(t, g, "CRK-MID-%g", func(p []float64) (float64, error) { return bare.Local(0.5, p[0]), nil })
	each(t, g, "CRK-SUP-%g", func(p []float64) (float64, error) {
		return bare.Uptake(p[0]) - bare.Uptake(p[0]-0.3), nil
	})
	each(t, g, "CRK-RMP-%g", func(p []float64) (float64, error) { return bare.Ramp(p[0], 0.5), nil })
	g.plain("CRK-PUB", func() float64 {
		return Slab{Thickness: 0.2, Diffusion: 1e-10, Faces: bare}.Uptake(100)
	})
	filmChecks(t, g)
	each(t, g, "TWO-%g-%g-%g", func(p []float64) (float64, error) { return Faces{p[0], p[1]}.Uptake(p[2]), nil })
	g.plain("TWO-ROOT1", func() float64 { return firstRoots(20, 0.5, 1) })
	each(t, g, "TIM-%g-%g-%g", func(p []float64) (float64, error) {
		s, err := ResponseTime(p[1], p[0], p[2]/100)
		return s / day, err
	})
	each(t, g, "CUP-K-%g", func(p []float64) (float64, error) { return bare.Moment(p[0]), nil })
	each(t, g, "CUP-PK-%g", func(p []float64) (float64, error) {
		k, _, err := Faces{Front: p[0]}.Peak()
		return k, err
	})
	each(t, g, "CUP-PKF-%g", func(p []float64) (float64, error) {
		_, fo, err := Faces{Front: p[0]}.Peak()
		return fo, err
	})
}

func filmChecks(t *tables.Table, g got) {
	film := func(bi float64) Faces { return Faces{Front: bi} }
	each(t, g, "ROB-ROOT-%g-%g", func(p []float64) (float64, error) { return firstRoots(0, p[0], int(p[1])), nil })
	each(t, g, "ROB-E-%g-%g", func(p []float64) (float64, error) { return film(p[0]).Uptake(p[1]), nil })
	each(t, g, "ROB-F50-%g", func(p []float64) (float64, error) { return film(p[0]).Fourier(0.50) })
	each(t, g, "ROB-F95-%g", func(p []float64) (float64, error) { return film(p[0]).Fourier(0.95) })
	for id, c := range map[string][3]float64{ // y, Biot number, Fourier number
		"ROB-LOC-1-S": {0, 1, 1}, "ROB-LOC-1-X": {1, 1, 1}, "ROB-LOC-5-S": {0, 5, 0.5}, "ROB-LOC-5-X": {1, 5, 0.5},
	} {
		g.plain(id, func() float64 { return film(c[1]).Local(c[0], c[2]) })
	}
}

// firstRoots returns the nth root for the two Biot numbers.
func firstRoots(back, front float64, n int) float64 {
	m := Faces{back, front}.solve()
	return m[n-1].b
}

// swingChecks covers the rows SIN.
func swingChecks(t *tables.Table, g got) {
	each(t, g, "SIN-D-%g-%g", func(p []float64) (float64, error) { return AttenuationDepth(p[0], p[1]*day), nil })
	swing := func(p []float64) (share, lag float64, err error) {
		return Slab{Thickness: p[0], Diffusion: 1e-10, Faces: Faces{Front: p[2]}}.Swing(p[1] * day)
	}
	each(t, g, "SIN-M-%g-%g-%g", func(p []float64) (float64, error) {
		share, _, err := swing(p)
		return share, err
	})
	each(t, g, "SIN-L-%g-%g-%g", func(p []float64) (float64, error) {
		_, lag, err := swing(p)
		return lag / day, err
	})
}
