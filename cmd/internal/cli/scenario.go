package cli

import (
	"fmt"
	"math"
	"slices"
	"strconv"
	"strings"
	"time"

	"github.com/spf13/cobra"

	"crossgrain/moisture"
	"crossgrain/moisture/record"
	"crossgrain/moisture/record/scenario"
	"crossgrain/panel/assessment"
	"crossgrain/tables/problem"
)

// scenarioForms are the clauses of a made climate, for messages.
const scenarioForms = "such as \"step to 35 % RH, hold 60 days\", \"step to 30, return after 3 days\", \"ramp to 40 at 2 a day\" " +
	"or \"heated house, 2 years\"; and of a case \"case 60 litres, 0.5 changes a day, buffer 2 kg\""

// Times of a made climate that are not given, working choices (assumption).
const (
	madeBefore = 2 * 24 * time.Hour // in the humidity it is used to
	madeHold   = 90 * 24 * time.Hour
	madeAfter  = 60 * 24 * time.Hour // after the return
)

// bufferGrams is the water that a kilogram of buffer takes up, g per point: the low end for silica gel
// about 50 % RH (memory).
const bufferGrams = 2

// madeClimate is what the clauses of a scenario say.
type madeClimate struct {
	kind         scenario.Kind
	years        int
	to           moisture.RH
	away         bool    // to is given
	rate         float64 // points a day; 0: at once
	hold, gone   time.Duration
	litres       float64 // of the case; 0: none
	changes      float64 // a day
	bufferKg     float64
	hasC, hasBuf bool
}

// parseScenario reads the clauses, separated by commas.
func parseScenario(cmd *cobra.Command, text string) (m madeClimate, err error) {
	m.changes, m.hold, m.years = 1, madeHold, 1
	rest := strings.ToLower(strings.TrimSpace(text))
	for _, k := range scenario.Kinds() { // their names may hold a comma
		if after, ok := strings.CutPrefix(rest, strings.ToLower(string(k))); ok {
			m.kind, rest = k, strings.TrimPrefix(strings.TrimSpace(after), ",")
			break
		}
	}
	for clause := range strings.SplitSeq(rest, ",") {
		words := scenarioWords(clause)
		if len(words) == 0 {
			continue
		}
		if !m.clause(words) {
			hint := scenarioForms
			if near := problem.Nearest(strings.TrimSpace(clause), kindNames()); near != "" {
				hint = "did you mean " + near + "? Or " + scenarioForms
			}
			return m, badUsage(cmd, hint+"; kinds of building are "+strings.Join(kindNames(), ", "), "--scenario does not know %q", strings.TrimSpace(clause))
		}
	}
	return m, m.check(cmd)
}

func kindNames() []string {
	var out []string
	for _, k := range scenario.Kinds() {
		out = append(out, string(k))
	}
	return out
}

// scenarioWords cuts a clause into words without the units of humidity.
func scenarioWords(clause string) []string {
	return slices.DeleteFunc(strings.Fields(strings.ReplaceAll(clause, "%", " ")), func(w string) bool {
		return w == "rh" || w == "points" || w == "point"
	})
}

// clause takes one clause; false when it is none.
func (m *madeClimate) clause(w []string) bool {
	switch {
	case len(w) == 3 && (w[0] == "step" || w[0] == "ramp") && w[1] == "to", len(w) == 7 && w[0] == "ramp" && w[1] == "to":
		var v float64
		ok := number(w[2], &v)
		m.to, m.away = moisture.Percent(v), true
		if len(w) == 7 {
			return ok && w[3] == "at" && number(w[4], &m.rate) && m.rate > 0 && w[5] == "a" && w[6] == "day"
		}
		return ok && w[0] == "step"
	case len(w) == 3 && (w[0] == "hold" || w[0] == "for"):
		return lasts(w[1:], &m.hold)
	case len(w) == 4 && w[0] == "return" && w[1] == "after":
		return lasts(w[2:], &m.gone)
	case len(w) == 2 && (w[1] == "year" || w[1] == "years"):
		n, err := strconv.Atoi(w[0])
		m.years = n
		return err == nil && m.kind != ""
	case len(w) == 3 && w[0] == "case" && (w[2] == "l" || w[2] == "litres" || w[2] == "liters" || w[2] == "litre"):
		m.hasC = true
		return number(w[1], &m.litres)
	case len(w) == 4 && (w[1] == "changes" || w[1] == "change") && w[2] == "a" && w[3] == "day":
		return number(w[0], &m.changes)
	case len(w) == 3 && w[0] == "buffer" && w[2] == "kg":
		m.hasBuf = true
		return number(w[1], &m.bufferKg)
	}
	return false
}

func number(s string, v *float64) bool {
	x, err := strconv.ParseFloat(s, 64)
	*v = x
	return err == nil && !math.IsNaN(x) && !math.IsInf(x, 0)
}

// lasts reads a length of time such as "3 days".
func lasts(w []string, d *time.Duration) bool {
	units := map[string]time.Duration{"hour": time.Hour, "h": time.Hour, "day": 24 * time.Hour, "week": 7 * 24 * time.Hour, "month": 30 * 24 * time.Hour}
	unit, ok := units[strings.TrimSuffix(w[1], "s")]
	var n float64
	if !ok || !number(w[0], &n) || n <= 0 || n*unit.Hours() > 10*8760 {
		return false
	}
	*d = time.Duration(n * float64(unit))
	return true
}

// check refuses what does not belong together or lies out of range.
func (m *madeClimate) check(cmd *cobra.Command) error {
	switch {
	case m.kind == "" && !m.away:
		return badUsage(cmd, scenarioForms, "--scenario must say where the humidity goes or name a kind of building")
	case m.kind != "" && m.away:
		return badUsage(cmd, "", "--scenario must be a kind of building or a change of humidity, not both")
	case m.away && !(m.to >= 0 && m.to <= 1):
		return badUsage(cmd, "", "--scenario must go to a humidity from 0 to 100 %% RH, got %g", m.to.Percent())
	case m.hasBuf && !m.hasC:
		return badUsage(cmd, "", "--scenario has a buffer and no case: say \"case 60 litres\" too")
	case m.rate > 0 && m.gone > 0:
		return badUsage(cmd, "", "--scenario must ramp and hold, or step and return")
	}
	return nil
}

// room is the climate outside the case; used is what the panel is used to.
func (m *madeClimate) room(used scenario.Climate) (*record.Record, error) {
	to := scenario.Climate{RH: m.to, T: used.T}
	var clock scenario.Clock
	switch {
	case m.kind != "":
		return scenario.Yearly(m.kind, clock, m.years)
	case m.rate > 0:
		return scenario.Ramp(clock, used, to, m.rate, madeBefore, m.hold)
	case m.gone > 0:
		return scenario.StepAndReturn(clock, used, to, madeBefore, m.gone, madeAfter)
	}
	return scenario.StepAndHold(clock, used, to, madeBefore, m.hold)
}

// closedCase is a case of the scenario as the assessment asks of it.
type closedCase struct{ scenario.Case }

// with is the case with the panel in it.
func (c closedCase) with(in assessment.Enclosed) scenario.Case {
	out := c.Case
	out.Start = scenario.Climate{RH: in.From, T: in.T}
	out.Wood = scenario.Wood{Mass: in.WoodKg, Isotherm: in.Isotherm, Hours: min(1e5, max(0.1, in.Follows.Hours()))}
	return out
}

// After gives the humidity in the case.
func (c closedCase) After(in assessment.Enclosed, room moisture.RH, closed time.Duration) (moisture.RH, error) {
	inside, err := c.with(in).After(scenario.Climate{RH: room, T: in.T}, closed.Hours())
	return inside.RH, err
}

// ajar are the air changes a day of a case that is opened little by little (assumption).
func (c closedCase) ajar() []float64 {
	return slices.DeleteFunc([]float64{1, 3, 10, 30, 100, 300}, func(v float64) bool { return v < 1.5*c.Exchange })
}

// Opening gives how long it takes to open the case little by little.
func (c closedCase) Opening(in assessment.Enclosed, room moisture.RH, perDay float64) (time.Duration, error) {
	stages, err := c.with(in).Opening(scenario.Climate{RH: room, T: in.T}, perDay, c.ajar()...)
	var hours float64
	for _, s := range stages {
		hours += s.Hours
	}
	return time.Duration(hours * float64(time.Hour)), err
}

// make fills in the question: the record, inside the case where there is one, and the case.
func (m *madeClimate) make(cmd *cobra.Command, q *assessment.Question, in assessment.Enclosed, text string) error {
	room, err := m.room(scenario.Climate{RH: in.From, T: in.T})
	if err != nil {
		return fmt.Errorf("--scenario: %w", err)
	}
	q.Record = room
	if m.hasC {
		c := m.closed()
		if q.Record, err = c.with(in).Inside(room); err != nil {
			return fmt.Errorf("--scenario: %w", err)
		}
		q.Case = c
		if m.away {
			q.Room = m.to
		}
	}
	q.Record.Name = "made climate: " + strings.TrimSpace(text)
	for _, n := range q.Record.Notes {
		cmd.PrintErrln("remark:", n.Msg)
	}
	return nil
}
