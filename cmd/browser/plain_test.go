package browser

import (
	"bytes"
	"fmt"
	"os"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"github.com/chromedp/cdproto/emulation"
	"github.com/chromedp/chromedp"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// TestWithoutScript does with scripts switched off what the others do with them.
func TestWithoutScript(t *testing.T) {
	s := serve(t)
	s.bring(t, map[string]string{"records/room.csv": testdata(t, "records", "indoor_house_tampere_2010-2012_hourly.csv")})
	ctx := tab(t, 820, 900)
	_, err := chromedp.Call(ctx, emulation.SetScriptExecutionDisabled, emulation.SetScriptExecutionDisabledParams{Value: true})
	require.NoError(t, err)
	do(t, ctx, chromedp.Navigate(s.url+"/"),
		typed("#f-number", "INVENTED 77"), typed("#f-height", "62 cm"), typed("#f-width", "47,5 cm"), click(`input[name=back][value=battens]`),
		click(`.facts button.first`), chromedp.WaitVisible(chromedp.CSS(".opening")),
		typed("#k-panel-thickness_mm", "12"), chromedp.KeyEvent("\r"), // the enter key answers, and adds or renames nothing
	)
	holds := func(name, words string) {
		assert.Eventually(t, func() bool {
			data, err := os.ReadFile(filepath.Join(s.dir, name))
			return err == nil && strings.Contains(string(data), words)
		}, patience, 50*time.Millisecond, name)
	}
	holds("drafts/invented-77.toml", "thickness_mm = 12\n")
	do(t, ctx, chromedp.WaitVisible(chromedp.CSS(".opening")))
	picture(t, ctx, "panel-without-script")
	do(t, ctx, chromedp.Focus(chromedp.CSS(".saving button")), chromedp.KeyEvent("\r"))
	holds("invented-77.toml", "thickness_mm = 12\n")
	do(t, ctx, chromedp.WaitVisible(chromedp.CSS(".opening")))
	do(t, ctx, chromedp.Navigate(s.url+"/task/record"), set("#t-record", "room.csv"), click(".task button.first"), chromedp.WaitVisible(chromedp.CSS(".papers")))
}

// TestHostileNames types names that would be script, style or another direction anywhere but in a text.
func TestHostileNames(t *testing.T) {
	s := serve(t)
	ctx := tab(t, 1280, 900)
	for i, name := range []string{`<script>document.title='taken'</script>`, `"><img src=x onerror="document.title='taken'">`, "עברית \u202e12", `</textarea></form>`} {
		do(t, ctx, chromedp.Navigate(s.url+"/"), typed("#f-height", "600"), typed("#f-width", "450"), set("#f-number", name), click(`.facts button.first`), chromedp.WaitVisible(chromedp.CSS(".opening")))
		do(t, ctx, set("#k-panel-note", name), set("#k-panel-title", name))
		_, err := chromedp.Run(ctx, chromedp.Evaluate[bool](`document.querySelector("#k-panel-note").dispatchEvent(new Event("input", {bubbles: true}))`))
		require.NoError(t, err)
		says(t, ctx, ".stage", "Counted")
		assert.Equal(t, name, ask[string](t, ctx, `document.querySelector("h1").innerText`))
		assert.NotEqual(t, "taken", ask[string](t, ctx, `document.title`))
		assert.Zero(t, ask[int](t, ctx, `document.querySelectorAll("main script, main img").length`), i)
		paper := ask[string](t, ctx, `document.querySelector(".onward a").href`)
		do(t, ctx, chromedp.Navigate(paper))
		assert.Zero(t, ask[int](t, ctx, `document.querySelectorAll("script, img").length`))
	}
}

// TestLargeRecord drops twenty megabytes of readings on a panel.
func TestLargeRecord(t *testing.T) {
	var b bytes.Buffer
	b.WriteString("time,RH %,T C\n")
	start := time.Date(2022, 1, 1, 0, 0, 0, 0, time.UTC)
	for i := 0; b.Len() < 20<<20; i++ {
		fmt.Fprintf(&b, "%s,%.2f,%.2f\n", start.Add(time.Duration(i)*2*time.Minute).Format("2006-01-02 15:04:05"), 50+10*float64(i%720)/720, 20.0)
	}
	file := filepath.Join(t.TempDir(), "large.csv")
	require.NoError(t, os.WriteFile(file, b.Bytes(), 0o666))
	s := serve(t)
	s.bring(t, map[string]string{"six.toml": testdata(t, "panels", "six_facts.toml")})
	ctx := tab(t, 1280, 900)
	do(t, ctx, chromedp.Navigate(s.url+"/panel/six"), click(`input[name="q:kind"][value=record]`), choose("#drop-record", file))
	until(t, ctx, `document.querySelector("#q-record") && document.querySelector("#q-record").value == "large.csv"`)
	says(t, ctx, ".stage", "finer model")
	says(t, ctx, ".opening", "from 55 to 56 % RH")
	picture(t, ctx, "panel-record")
}
