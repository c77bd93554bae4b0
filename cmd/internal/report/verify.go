package report

import (
	"encoding/csv"
	"fmt"
	"io"
	"math"

	"crossgrain/tables/verify"
)

// Verify is the document of the command verify.
type Verify struct {
	Head
	Checks []Checked `json:"checks"`
	Failed int       `json:"failed"`
	// Findings are published values that the models do not meet; they are no checks and do not fail.
	Findings []Unmet `json:"findings"`
}

// Unmet is a published value beside what is predicted; the ends are alike where one value is, and null
// where there is none.
type Unmet struct {
	ID       string   `json:"id"`
	What     string   `json:"what"`
	Measured float64  `json:"measured"`
	Low      *float64 `json:"predicted_low"`
	High     *float64 `json:"predicted_high"`
	Unit     string   `json:"unit"`
	Remark   string   `json:"remark"`
	Source   string   `json:"source"`
}

// Checked is one check carried out. For measured wood Expected is the measurement, and Low and
// High are the ends of what was predicted; they are null elsewhere.
type Checked struct {
	ID        string   `json:"id"`
	What      string   `json:"what"`
	Kind      string   `json:"kind"`
	Expected  float64  `json:"expected"`
	Got       *float64 `json:"got"` // null where a band is predicted, or on an error
	Low       *float64 `json:"predicted_low"`
	High      *float64 `json:"predicted_high"`
	Unit      string   `json:"unit"`
	Tolerance float64  `json:"tolerance"` // absolute, in the unit
	Pass      bool     `json:"pass"`
	Error     string   `json:"error"`
	Source    string   `json:"source"`
}

// NewVerify makes the document from results in their order.
func NewVerify(h Head, results []verify.Result, findings []verify.Finding) Verify {
	h.Format, h.Kind = 1, "verify"
	v := Verify{Head: h, Findings: []Unmet{}}
	for _, f := range findings {
		u := Unmet{ID: f.ID, What: f.What, Measured: f.Measured, Unit: f.Unit, Remark: f.Remark, Source: f.Source}
		if !math.IsNaN(f.Low) && !math.IsInf(f.Low, 0) && !math.IsNaN(f.High) && !math.IsInf(f.High, 0) {
			u.Low, u.High = &f.Low, &f.High
		}
		v.Findings = append(v.Findings, u)
	}
	for _, r := range results {
		c := Checked{
			ID: r.Row.ID, What: r.Row.What, Kind: string(r.Row.Kind), Expected: r.Row.Want, Unit: r.Row.Unit,
			Tolerance: r.Row.Tolerance(), Pass: r.Pass, Source: r.Row.Source,
		}
		if r.Err != nil {
			c.Error = r.Err.Error()
		} else if r.Row.Band != nil {
			c.Low, c.High = &r.Low, &r.High
		}
		if !math.IsNaN(r.Got) && !math.IsInf(r.Got, 0) {
			c.Got = &r.Got
		}
		if !r.Pass {
			v.Failed++
		}
		v.Checks = append(v.Checks, c)
	}
	return v
}

// WriteText writes the checks by kind, then those that fail once more, then the count.
func (v Verify) WriteText(w io.Writer) error {
	t := &textPage{}
	t.paras(say("verify.lead", "n", fmt.Sprint(len(v.Checks))) + " " + plural("verify.failed", v.Failed))
	for _, k := range []struct {
		kind  verify.Kind
		title string
	}{{verify.Printed, "verify.printed"}, {verify.Closed, "verify.closed"}, {verify.Measured, "verify.measured"}} {
		v.kind(t, string(k.kind), say(k.title))
	}
	v.kind(t, "", say("verify.other"))
	v.findings(t)
	t.line("")
	t.paras(say("verify.lead", "n", fmt.Sprint(len(v.Checks))) + " " + plural("verify.failed", v.Failed))
	return t.to(w)
}

// kind writes the checks of one kind; "" stands for those of no known kind.
func (v Verify) kind(t *textPage, kind, title string) {
	begun := false
	for _, c := range v.Checks {
		if c.Kind != kind && (kind != "" || knownKind(c.Kind)) {
			continue
		}
		if !begun {
			t.line("")
			t.paras(title)
			begun = true
		}
		c.text(t)
	}
}

// findings writes what is not met, with its source.
func (v Verify) findings(t *textPage) {
	if len(v.Findings) == 0 {
		return
	}
	t.line("")
	t.paras(say("verify.findings"))
	for _, f := range v.Findings {
		t.hang("      ", f.ID+"  "+f.What)
		if f.Low != nil && *f.Low == *f.High {
			t.hang("      ", say("verify.finding.value", "measured", numeral(f.Measured), "got", numeral(*f.Low), "unit", f.Unit))
		} else if f.Low != nil {
			t.hang("      ", say("verify.row.band", "expected", numeral(f.Measured), "low", numeral(*f.Low), "high", numeral(*f.High), "unit", f.Unit))
		}
		if f.Remark != "" {
			t.hang("      ", f.Remark)
		}
		t.hang("      ", say("verify.row.source", "source", f.Source))
	}
}

func knownKind(k string) bool {
	return k == string(verify.Printed) || k == string(verify.Closed) || k == string(verify.Measured)
}

func (c Checked) text(t *textPage) {
	mark := say("verify.pass")
	if !c.Pass {
		mark = say("verify.fail")
	}
	t.hang(pad(mark, 4, false)+"  ", c.ID+"  "+c.What)
	t.hang("      ", c.values())
	if !c.Pass {
		t.hang("      ", say("verify.row.source", "source", c.Source))
	}
}

func (c Checked) values() string {
	switch {
	case c.Error != "":
		return say("verify.row.error", "error", c.Error)
	case c.Low != nil && c.High != nil:
		return say("verify.row.band", "expected", numeral(c.Expected), "low", numeral(*c.Low), "high", numeral(*c.High), "unit", c.Unit)
	case c.Got == nil:
		return say("verify.row.error", "error", say("verify.nonumber"))
	}
	return say("verify.row.value", "expected", numeral(c.Expected), "got", numeral(*c.Got), "tol", numeral(c.Tolerance), "unit", c.Unit)
}

// WriteCSV writes one row for each check; the unit of the numbers stands in its row.
func (v Verify) WriteCSV(w io.Writer) error {
	rows := [][]string{{"id_text", "what_text", "kind_text", "expected_in_row_unit", "got_in_row_unit", "predicted_low_in_row_unit",
		"predicted_high_in_row_unit", "tolerance_in_row_unit", "row_unit_text", "pass_yes_no", "error_text", "source_text"}}
	for _, c := range v.Checks {
		pass := "no"
		if c.Pass {
			pass = "yes"
		}
		rows = append(rows, []string{cellText(c.ID), cellText(c.What), c.Kind, cellNumber(c.Expected), cellPointer(c.Got), cellPointer(c.Low),
			cellPointer(c.High), cellNumber(c.Tolerance), cellText(c.Unit), pass, cellText(c.Error), cellText(c.Source)})
	}
	return csv.NewWriter(w).WriteAll(rows)
}
