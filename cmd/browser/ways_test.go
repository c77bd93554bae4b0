package browser

import (
	"os"
	"path/filepath"
	"testing"

	"github.com/chromedp/chromedp"
	"github.com/stretchr/testify/require"
)

// testdata is a file of the project's test data.
func testdata(t *testing.T, names ...string) string {
	t.Helper()
	path, err := filepath.Abs(filepath.Join(append([]string{"..", "..", "testdata"}, names...)...))
	require.NoError(t, err)
	return path
}

// bring puts files into the folder of the page before it is opened.
func (s *served) bring(t *testing.T, files map[string]string) {
	t.Helper()
	for to, from := range files {
		data, err := os.ReadFile(from)
		require.NoError(t, err)
		to = filepath.Join(s.dir, filepath.FromSlash(to))
		require.NoError(t, os.MkdirAll(filepath.Dir(to), 0o777))
		require.NoError(t, os.WriteFile(to, data, 0o666))
	}
}

// choose puts files into a file field.
func choose(css string, files ...string) chromedp.Action[chromedp.Void] {
	return chromedp.SetUploadFiles(chromedp.CSS(css), files)
}

// set gives a field a value at once, as choosing in a list or a calendar does.
func set(css, value string) chromedp.Action[chromedp.Void] {
	return chromedp.SetValue(chromedp.CSS(css), value)
}

// TestRegistrarsWay: two panels, two venues, terms and a record, an offer; schedules at the end.
func TestRegistrarsWay(t *testing.T) {
	s := serve(t)
	s.bring(t, map[string]string{"oak.toml": testdata(t, "panels", "three_boards.toml"), "lime.toml": testdata(t, "panels", "single_flat_pith.toml")})
	ctx := tab(t, 1280, 900)
	do(t, ctx,
		chromedp.Navigate(s.url+"/task/loan"),
		choose("#d-record", testdata(t, "records", "indoor_house_tampere_2010-2012_hourly.csv")),
		click(`input[name=panel][value=lime]`),
		typed("#t-number", "INVENTED 2026-7"), typed("#t-borrower", "Invented borrower"), typed("#t-inspected_by", "an invented conservator"), set("#t-inspected_on", "2026-02-11"),
		typed("#t-venue1_name", "Invented hall"), set("#t-venue1_from", "2026-10-07"), set("#t-venue1_to", "2026-12-20"), typed("#t-venue1_terms", "45..55, 5/24h"),
		typed("#t-offer", "40-60, 10 in 24 h"),
	)
	picture(t, ctx, "loan-form")
	do(t, ctx, click(".task button.first"))
	says(t, ctx, ".papers", "Covering sheet")
	picture(t, ctx, "loan-done")
	schedule := ask[string](t, ctx, `[...document.querySelectorAll(".papers a")].find(a => a.href.includes("schedule")).href`)
	do(t, ctx, chromedp.Navigate(schedule))
	says(t, ctx, "body", "Invented hall")
	picture(t, ctx, "loan-schedule")
}

// TestManagersWay: a spreadsheet dropped on the desk becomes panel files, and those are looked over against two stores.
func TestManagersWay(t *testing.T) {
	s := serve(t)
	ctx := tab(t, 1280, 900)
	do(t, ctx, chromedp.Navigate(s.url+"/"), choose("#file", testdata(t, "collection", "collection.csv")), click(".drop button"))
	says(t, ctx, "h1", "A list of panels")
	picture(t, ctx, "list-form")
	do(t, ctx, click(".task button.first"))
	says(t, ctx, ".said", "Nothing has been written yet")
	picture(t, ctx, "list-read")
	do(t, ctx, click(`button[name=write]`))
	says(t, ctx, ".said", "panel files were written")
	do(t, ctx, chromedp.Navigate(s.url+"/"))
	require.Greater(t, ask[int](t, ctx, `document.querySelectorAll(".panels li").length`), 20)
	picture(t, ctx, "desk-full")
	do(t, ctx,
		chromedp.Navigate(s.url+"/task/survey"),
		typed("#t-store1_name", "Store A"), typed("#t-store1_low", "35"), typed("#t-store1_high", "65"),
		typed("#t-store2_name", "Store B"), typed("#t-store2_low", "45"), typed("#t-store2_high", "55"), typed("#t-store2_places", "6"),
	)
	picture(t, ctx, "survey-form")
	do(t, ctx, click(".task button.first"))
	says(t, ctx, ".papers", "Papers")
	picture(t, ctx, "survey-done")
}

// TestConservatorsWay: an invented panel opened, its text changed by a field, options set side by side, cards, a line by telephone.
func TestConservatorsWay(t *testing.T) {
	s := serve(t)
	s.bring(t, map[string]string{"two.toml": testdata(t, "panels", "options_battens.toml"), "records/room.csv": testdata(t, "records", "indoor_house_tampere_2010-2012_hourly.csv")})
	ctx := tab(t, 1280, 900)
	do(t, ctx, chromedp.Navigate(s.url+"/panel/two"))
	says(t, ctx, ".stage", "Counted")
	do(t, ctx, typed("#p-reading", "33"), typed("#p-hours", "30"), click(".phone button"))
	says(t, ctx, "[data-line]", "33 % RH at the panel for 30 hours")
	do(t, ctx, chromedp.Navigate(s.url+"/task/treat?panel=two"), typed("#t-low", "40"), typed("#t-high", "60"), click(".task button.first"))
	says(t, ctx, ".papers", "Papers")
	picture(t, ctx, "treat-done")
	do(t, ctx, chromedp.Navigate(s.url+"/task/cards?panel=two"), click(".task button.first"))
	says(t, ctx, ".papers", "Papers")
	picture(t, ctx, "cards-done")
	do(t, ctx, click(".papers button.first"))
	says(t, ctx, ".papers", "Kept in the folder papers/cards-")
	kept, err := filepath.Glob(filepath.Join(s.dir, "papers", "cards-*", "fault.html"))
	require.NoError(t, err)
	require.Len(t, kept, 1)
	do(t, ctx, chromedp.Navigate(s.url+"/task/record"), set("#t-record", "room.csv"), typed("#t-terms", "40..60, 10/24h"), click(".task button.first"))
	says(t, ctx, ".papers", "Papers")
	picture(t, ctx, "record-done")
	do(t, ctx, chromedp.Navigate(s.url+"/task/event?panel=two"), set("#t-record", "room.csv"), typed("#t-from", "2011-02-10"), typed("#t-to", "2011-02-20"), click(".task button.first"))
	says(t, ctx, ".papers", "Papers")
	picture(t, ctx, "event-done")
}
