package cli

import (
	"bytes"
	"context"
	"encoding/json"
	"fmt"
	"math"
	"os"
	"path/filepath"
	"regexp"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// issuedLoan is what this test reads of loan.json: nothing of the program's own types.
type issuedLoan struct {
	Status   string
	Proposed struct {
		Low  float64 `json:"low_rh_pct"`
		High float64 `json:"high_rh_pct"`
		Day  float64 `json:"max_24h_pct"`
		Days float64 `json:"days_closed"`
	}
	Panels []struct {
		Name, Accession string
		Range           *struct {
			Low  float64 `json:"low_rh_pct"`
			High float64 `json:"high_rh_pct"`
		}
		Own *struct {
			Day   float64  `json:"max_24h_pct"`
			Hours *float64 `json:"closed_hours"`
		}
		Terms  *struct{}
		Alarms []struct {
			RH   float64  `json:"rh_pct"`
			Call *float64 `json:"call_hours"`
			Act  *float64 `json:"act_hours"`
		}
	}
	AlarmHours []float64 `json:"alarm_hours"`
}

// TestScheduleFollowsFromItsJSON works the conditions out again from the data beside the schedules.
func TestScheduleFollowsFromItsJSON(t *testing.T) {
	dir := t.TempDir()
	var out, remarks bytes.Buffer
	file := filepath.Join("..", "..", "..", "testdata", "loans", "two_rooms.toml")
	require.Equal(t, exitDone, Run(context.Background(), []string{"loan", file, "--cases", "200", "--out", dir}, strings.NewReader(""), &out, &remarks), remarks.String())
	src, err := os.ReadFile(filepath.Join(dir, "loan.json"))
	require.NoError(t, err)
	var d issuedLoan
	require.NoError(t, json.Unmarshal(src, &d))
	assert.Equal(t, "draft", d.Status)

	low, high, day, days := 0.0, 100.0, 100.0, 1.0
	for _, p := range d.Panels {
		if p.Range == nil {
			continue
		}
		low, high, day = math.Max(low, p.Range.Low), math.Min(high, p.Range.High), math.Min(day, p.Own.Day)
		if p.Own.Hours != nil {
			days = math.Max(days, math.Ceil(*p.Own.Hours/24))
		}
	}
	step := 5.0
	if math.Floor(high/5)*5-math.Ceil(low/5)*5 < 10 {
		step = 1
	}
	assert.InDelta(t, math.Ceil(low/step)*step, d.Proposed.Low, 1e-9)
	assert.InDelta(t, math.Floor(high/step)*step, d.Proposed.High, 1e-9)
	assert.InDelta(t, math.Min(day, d.Proposed.High-d.Proposed.Low), d.Proposed.Day, 1e-9)
	assert.InDelta(t, days, d.Proposed.Days, 1e-9)

	for _, p := range d.Panels {
		html, err := os.ReadFile(filepath.Join(dir, "schedule-"+p.Name+".html"))
		require.NoError(t, err)
		page := strings.ReplaceAll(string(html), "\u00a0", " ")
		at := -1
		for n, h := range []string{"Number, status", "The work", "The loan", "Condition relied on", "In short", "Climate to be kept", "From arrival to hanging",
			"If the climate fails", "Who to call", "Display", "Journey", "Readings", "Inspections", "Return", "Reasons", "Borrower&#39;s record", "Doubt", "Not covered", "Agreed"} {
			next := strings.Index(page, fmt.Sprintf("<span>%d</span> %s</h2>", n+1, h))
			assert.Greater(t, next, at, "%s: heading %d, %s, in its order", p.Name, n+1, h)
			at = next
		}
		assert.Equal(t, 2, strings.Count(page, `<div class="sheet sheet-`))
		assert.NotContains(t, page, "<script")
		signs := []int{strings.Index(page, "<b>Conservator</b>"), strings.Index(page, "<b>Lender, registrar</b>"), strings.Index(page, "<b>Borrower</b>")}
		assert.True(t, 0 < signs[0] && signs[0] < signs[1] && signs[1] < signs[2], "the conservator signs first")
		for _, o := range d.Panels {
			if o.Name != p.Name {
				assert.NotContains(t, page, o.Accession, "nothing of another panel leaves with a schedule")
			}
		}
		kept := fmt.Sprintf("From %.0f to %.0f %% RH", d.Proposed.Low, d.Proposed.High)
		if p.Terms == nil {
			assert.Contains(t, page, "No figures are offered for signature")
			assert.NotContains(t, page, kept)
			continue
		}
		assert.Contains(t, page, kept)
		assert.Contains(t, page, fmt.Sprintf("at most %.0f points", d.Proposed.Day))
		rows := regexp.MustCompile(`<tr><th scope="row">(\d+) % RH</th>(.*?)</tr>`).FindAllStringSubmatch(page, -1)
		require.NotEmpty(t, rows)
		for _, row := range rows {
			var want []string
			for _, a := range p.Alarms {
				if fmt.Sprintf("%.0f", a.RH) != row[1] {
					continue
				}
				for _, h := range d.AlarmHours {
					word := "wait"
					if a.Call != nil && h >= *a.Call {
						word = "CALL"
					}
					if a.Act != nil && h >= *a.Act {
						word = "ACT"
					}
					want = append(want, word)
				}
			}
			var got []string
			for _, m := range regexp.MustCompile(`<b>(\w+)</b>`).FindAllStringSubmatch(row[2], -1) {
				got = append(got, m[1])
			}
			assert.Equal(t, want, got, "%s at %s %% RH", p.Name, row[1])
		}
	}
}

// TestIssuedStaysAsItIs: an issue is not written over; the next one names it.
func TestIssuedStaysAsItIs(t *testing.T) {
	dir := t.TempDir()
	root := filepath.Join("..", "..", "..", "testdata")
	src, err := os.ReadFile(filepath.Join(root, "loans", "two_rooms.toml"))
	require.NoError(t, err)
	abs, err := filepath.Abs(root)
	require.NoError(t, err)
	text := strings.ReplaceAll(string(src), "../", filepath.ToSlash(abs)+"/")
	start, end := strings.Index(text, "[panel.poplar]"), strings.Index(text, "[panel.oak]")
	text = text[:start] + text[end:] // the two others are enough
	file := filepath.Join(dir, "loan.toml")
	run := func(text string, args ...string) (int, string) {
		require.NoError(t, os.WriteFile(file, []byte(text), 0o644))
		var out, remarks bytes.Buffer
		code := Run(context.Background(), append([]string{"loan", file, "--cases", "50"}, args...), strings.NewReader(""), &out, &remarks)
		return code, remarks.String()
	}
	to := filepath.Join(dir, "out")
	const slug = "INVENTED-2026-041-issue-"
	read := func(name string) string {
		b, err := os.ReadFile(filepath.Join(to, name))
		require.NoError(t, err)
		return string(b)
	}
	code, remarks := run(text, "--out", to, "--issue")
	require.Equal(t, exitDone, code, remarks)
	first := read(slug + "1-schedule-lime.html")
	assert.Contains(t, first, `<p class="state">ISSUED</p>`)
	assert.NotContains(t, first, "DRAFT")
	assert.Contains(t, read("schedule-oak.html"), "DRAFT", "without figures nothing is issued")

	fixed := strings.Replace(text, "[loan]", "[loan]\nissue = 1", 1)
	for _, again := range [][]string{{"--out", to}, {"--out", to, "--issue"}} {
		code, remarks = run(fixed, again...)
		assert.Equal(t, exitBadInput, code)
		assert.Contains(t, remarks, "was issued on 2026-03-04 and stays as it is")
		assert.Contains(t, remarks, "issue = 2")
	}
	code, remarks = run(text, "--out", to)
	require.Equal(t, exitDone, code, remarks)
	assert.Contains(t, read("schedule-lime.html"), "issue 2: a draft of 4 March 2026")
	assert.Equal(t, first, read(slug+"1-schedule-lime.html"), "a draft marks nothing")

	code, remarks = run(text, "--out", to, "--issue")
	require.Equal(t, exitDone, code, remarks)
	second := read(slug + "2-schedule-lime.html")
	assert.Contains(t, second, "It replaces issue 1 of 4 March 2026.")
	for _, name := range []string{"schedule-lime.html", "cover.html"} {
		old := read(slug + "1-" + name)
		assert.Contains(t, old, "SUPERSEDED by issue 2 of 4 March 2026", name)
		assert.Contains(t, old, "@page{@left-middle{content:", name)
	}
	assert.Contains(t, read(slug+"1-loan.json"), `"superseded_by": {"issue": 2, "date": "2026-03-04"}`)
	mark := regexp.MustCompile(`<aside id="paper-mark" data-issue.*?</aside>`)
	assert.Equal(t, first, mark.ReplaceAllString(read(slug+"1-schedule-lime.html"), `<aside id="paper-mark" hidden></aside>`), "the mark is the only change")

	code, remarks = run(strings.Replace(text, "2026-03-04", "2026-03-03", 1), "--out", to, "--issue")
	assert.Equal(t, exitBadInput, code)
	assert.Contains(t, remarks, "an issue cannot be older than the one that it replaces")
	assert.Equal(t, second, read(slug+"2-schedule-lime.html"))
}
