package moisture

import "crossgrain/tables"

const standardPressure = 101325 // Pa

// psychrometricChecks covers the rows PSY. The saturation mixing ratios carry no enhancement factor,
// which makes them 0.6 % low at 50 degC. DIF rows belong to diffusion.
func psychrometricChecks(t *tables.Table, g got) {
	pressure := func(s Saturation) func([]float64) (float64, error) {
		return func(p []float64) (float64, error) { return s.Pressure(Celsius(p[0])) }
	}
	each(t, g, "PSY-ASH-%g", pressure(HylandWexler))
	each(t, g, "PSY-SBI-P%g", pressure(Sonntag1994))
	each(t, g, "PSY-MAG-%g", pressure(MagnusWMO))
	each(t, g, "PSY-SON-%g", pressure(Sonntag1994))
	each(t, g, "PSY-HW-%g", pressure(HylandWexler))
	each(t, g, "PSY-SBI-C%g", func(p []float64) (float64, error) {
		e, err := Sonntag1994.Pressure(Celsius(p[0]))
		return AbsoluteHumidity(e, Celsius(p[0])), err
	})
	each(t, g, "PSY-E-%g-%g", magnusVapour)
	each(t, g, "PSY-TD-%g-%g", func(p []float64) (float64, error) {
		td, err := MagnusWMO.DewPoint(Percent(p[1]), Celsius(p[0]))
		return float64(td), err
	})
	each(t, g, "PSY-MR-%g-%g", func(p []float64) (float64, error) {
		e, err := magnusVapour(p)
		if err != nil {
			return 0, err
		}
		w, err := MixingRatio(e, standardPressure)
		return 1000 * w, err
	})
	each(t, g, "PSY-AHO-%g-%g", func(p []float64) (float64, error) {
		e, err := magnusVapour(p)
		return AbsoluteHumidity(e, Celsius(p[0])), err
	})
	each(t, g, "PSY-WS-%g", func(p []float64) (float64, error) {
		e, err := Sonntag1994.Pressure(Celsius(p[0]))
		if err != nil {
			return 0, err
		}
		return MixingRatio(e, standardPressure)
	})
	each(t, g, "PSY-SURF-%g", func(p []float64) (float64, error) {
		h, err := MagnusWMO.RHAt(0.5, 20, Celsius(p[0]))
		return float64(h), err
	})
	singleAirChecks(g)
}

func singleAirChecks(g got) {
	g["PSY-W-500"] = func() (float64, error) { return MixingRatio(3169.7, 95461) }
	g["PSY-DP-25-80"] = func() (float64, error) {
		td, err := HylandWexler.DewPoint(0.80, 25)
		return float64(td), err
	}
	g["PSY-EX1-W"] = func() (float64, error) { return HylandWexler.MixingRatioWet(40, 20, standardPressure) }
	g["PSY-AH-22-78"] = func() (float64, error) {
		e, err := Sonntag1994.Vapour(0.78, 22)
		return AbsoluteHumidity(e, 22), err
	}
	g["DIF-T-PSAT"] = func() (float64, error) {
		hot, err := MagnusWMO.Pressure(24)
		if err != nil {
			return 0, err
		}
		cold, err := MagnusWMO.Pressure(12)
		return hot / cold, err
	}
}

func magnusVapour(p []float64) (float64, error) {
	return MagnusWMO.Vapour(Percent(p[1]), Celsius(p[0]))
}
