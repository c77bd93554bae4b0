package report

import "io"

// Emc is the document of the command emc: wood in balance with air, either way.
type Emc struct {
	Head
	RHPct        float64 `json:"rh_pct"`
	TemperatureC float64 `json:"temperature_c"`
	EMCPct       float64 `json:"emc_pct"`
	Model        string  `json:"model"`
	Wood         string  `json:"wood"`     // empty: wood in general
	Borrowed     string  `json:"borrowed"` // wood whose curve stands in; empty: its own
	// The boundary curves of the wood; null for wood in general.
	WettingPct  *float64 `json:"wetting_emc_pct"`
	DryingPct   *float64 `json:"drying_emc_pct"`
	DewPointC   *float64 `json:"dew_point_c"` // null where it is not defined
	AbsoluteGM3 float64  `json:"absolute_humidity_g_m3"`
	FromMC      bool     `json:"from_moisture_content"` // the humidity was asked for
	Source      string   `json:"source"`
}

// WriteText writes the answer for a terminal.
func (e Emc) WriteText(w io.Writer) error {
	t := &textPage{}
	rh, temp, mc := oneDecimal(e.RHPct), plain(e.TemperatureC), oneDecimal(e.EMCPct)
	if e.FromMC {
		t.paras(say("emc.back", "mc", mc, "rh", rh, "temp", temp))
	} else {
		t.paras(say("emc.forward", "emc", mc, "rh", rh, "temp", temp))
	}
	if e.WettingPct != nil && e.DryingPct != nil {
		t.paras(say("emc.branches", "des", oneDecimal(*e.DryingPct), "ads", oneDecimal(*e.WettingPct)))
	}
	if e.Wood != "" {
		t.paras(say("emc.wood", "wood", e.Wood))
	}
	if e.Borrowed != "" {
		t.paras(say("emc.borrowed", "name", e.Borrowed))
	}
	if e.DewPointC != nil {
		t.paras(say("emc.air", "dew", oneDecimal(*e.DewPointC), "abs", oneDecimal(e.AbsoluteGM3)))
	} else {
		t.paras(say("emc.air.dry", "abs", oneDecimal(e.AbsoluteGM3)))
	}
	t.paras(say("emc.model", "model", e.Model))
	return t.to(w)
}
