package browser

import (
	"fmt"
	"os"
	"testing"

	"github.com/chromedp/cdproto/emulation"
	"github.com/chromedp/chromedp"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// visit brings a folder with a panel and a record and calls every page of it.
func visit(t *testing.T, look func(s *served, path string)) {
	t.Helper()
	s := serve(t)
	s.bring(t, map[string]string{"two.toml": testdata(t, "panels", "options_battens.toml"), "six.toml": testdata(t, "panels", "six_facts.toml"),
		"records/room.csv": testdata(t, "records", "indoor_house_tampere_2010-2012_hourly.csv")})
	for _, path := range []string{"/", "/panel/two", "/panel/six", "/panel/two/text", "/panel/two/figures", "/task/record", "/task/cards", "/task/event", "/task/treat", "/task/loan", "/task/survey", "/task/list"} {
		look(s, path)
	}
}

// audit are checks of our own, for machines without the npm package: names of controls, headings, landmarks, and contrast of text.
const audit = `(() => {
  const wrong = [];
  const seen = e => e.offsetParent !== null && getComputedStyle(e).visibility !== "hidden";
  for (const e of document.querySelectorAll("input,select,textarea")) {
    if (e.type === "hidden" || !seen(e)) continue;
    if (!(e.labels && e.labels.length) && !e.getAttribute("aria-label")) wrong.push("no label: " + e.outerHTML.slice(0, 90));
  }
  for (const e of document.querySelectorAll("button,a[href],summary")) if (seen(e) && !e.innerText.trim() && !e.getAttribute("aria-label")) wrong.push("no name: " + e.outerHTML.slice(0, 90));
  if (document.querySelectorAll("h1").length !== 1) wrong.push("not one h1");
  if (!document.querySelector("main") || !document.documentElement.lang) wrong.push("no main, or no language");
  const ids = [...document.querySelectorAll("[id]")].map(e => e.id);
  for (const id of ids.filter((x, i) => ids.indexOf(x) !== i)) wrong.push("twice: #" + id);
  for (const e of document.querySelectorAll("[aria-describedby]")) for (const id of e.getAttribute("aria-describedby").split(" ")) if (id && !document.getElementById(id)) wrong.push("described by nothing: " + id);
  const light = c => { const [r, g, b] = c.map(v => (v /= 255) <= .03928 ? v / 12.92 : ((v + .055) / 1.055) ** 2.4); return .2126 * r + .7152 * g + .0722 * b; };
  const colour = s => { const m = s.match(/[\d.]+/g).map(Number); return m.length > 3 && m[3] === 0 ? null : m.slice(0, 3); };
  for (const e of document.querySelectorAll("body *")) {
    if (!seen(e) || e.closest("svg") || ![...e.childNodes].some(n => n.nodeType === 3 && n.data.trim())) continue;
    let under = null;
    for (let p = e; p && !under; p = p.parentElement) under = colour(getComputedStyle(p).backgroundColor);
    const a = light(colour(getComputedStyle(e).color) || [0, 0, 0]), b = light(under || [255, 255, 255]);
    const ratio = (Math.max(a, b) + .05) / (Math.min(a, b) + .05);
    if (ratio < 4.5) wrong.push("contrast " + ratio.toFixed(1) + ": " + e.outerHTML.slice(0, 90));
  }
  for (const e of document.querySelectorAll("button,select,input:not([type=radio]):not([type=checkbox]):not([type=hidden])")) {
    const r = e.getBoundingClientRect();
    if (seen(e) && (r.width < 24 || r.height < 20)) wrong.push("too small to hit: " + e.outerHTML.slice(0, 90));
  }
  return wrong;
})()`

// unroll opens every part and lets what scrolls by itself run its length: what is scrolled out of sight has no background to measure.
const unroll = `document.querySelectorAll("details").forEach(d => d.open = true);
  document.querySelectorAll("aside, .panels, .scroll").forEach(e => { e.style.maxHeight = "none"; e.style.overflow = "visible"; e.style.position = "static"; }); true`

// TestAccess looks at every page with our own checks and, where CROSSGRAIN_AXE names its script, with axe-core (WCAG 2.2 A and AA).
func TestAccess(t *testing.T) {
	var axe []byte
	if path := os.Getenv("CROSSGRAIN_AXE"); path != "" {
		var err error
		axe, err = os.ReadFile(path)
		require.NoError(t, err)
	}
	for _, scheme := range []string{"light", "dark"} {
		ctx := tab(t, 1280, 900)
		_, err := chromedp.Call(ctx, emulation.SetEmulatedMedia, emulation.SetEmulatedMediaParams{Features: []*emulation.MediaFeature{{Name: "prefers-color-scheme", Value: scheme}}})
		require.NoError(t, err)
		visit(t, func(s *served, path string) {
			do(t, ctx, chromedp.Navigate(s.url+path))
			_, err := chromedp.Run(ctx, chromedp.Evaluate[bool](unroll))
			require.NoError(t, err)
			assert.Empty(t, ask[[]string](t, ctx, audit), "%s, %s", path, scheme)
			if axe == nil {
				return
			}
			_, err = chromedp.Run(ctx, chromedp.Evaluate[bool](string(axe)+";true"))
			require.NoError(t, err)
			found, err := chromedp.Run(ctx, chromedp.Evaluate[[]string](`axe.run({runOnly:["wcag2a","wcag2aa","wcag21a","wcag21aa","wcag22aa","best-practice"]}).then(r => r.violations.filter(v => v.impact === "serious" || v.impact === "critical").map(v => v.id + ": " + v.nodes.map(n => n.html.slice(0, 60) + " " + n.failureSummary.slice(0, 200)).slice(0, 3).join(" | ")))`, chromedp.EvalAwaitPromise))
			require.NoError(t, err)
			assert.Empty(t, found, "%s, %s", path, scheme)
		})
	}
}

// TestNarrow: at 320 px, which is 1280 at 400 %, every page is one column and nothing runs over the edge.
func TestNarrow(t *testing.T) {
	ctx := tab(t, 1280, 900)
	do(t, ctx, chromedp.EmulateViewport(320, 640))
	visit(t, func(s *served, path string) {
		do(t, ctx, chromedp.Navigate(s.url+path))
		if over := ask[int](t, ctx, `document.documentElement.scrollWidth - innerWidth`); over > 0 {
			wide := ask[[]string](t, ctx, `[...document.querySelectorAll("main *")].filter(e => e.getBoundingClientRect().right > innerWidth + 1 && !e.closest(".scroll") && !e.closest("svg")).map(e => e.outerHTML.slice(0, 80)).slice(0, 4)`)
			assert.Zero(t, over, "%s runs over the edge: %v", path, wide)
		}
	})
	picture(t, ctx, "narrow")
}

// TestKeyboard goes from the address line to the answer without a mouse.
func TestKeyboard(t *testing.T) {
	s := serve(t)
	ctx := tab(t, 1280, 900)
	do(t, ctx, chromedp.Navigate(s.url+"/"))
	until(t, ctx, `document.readyState == "complete"`)
	at := func() string {
		return ask[string](t, ctx, `document.activeElement.id || document.activeElement.innerText`)
	}
	for range 20 {
		do(t, ctx, chromedp.KeyEvent("\t"))
		if at() == "f-number" {
			break
		}
	}
	require.Equal(t, "f-number", at(), "the first field is reached by the tab key")
	for _, typed := range []string{"INVENTED 1", "\t", "600", "\t", "450", "\t", "oak", "\t", "2", "\r"} {
		do(t, ctx, chromedp.KeyEvent(typed))
	}
	until(t, ctx, `document.querySelectorAll(".opening p").length == 3`)
	var reached []string
	for range 60 {
		do(t, ctx, chromedp.KeyEvent("\t"))
		reached = append(reached, at())
	}
	assert.Contains(t, reached, "k-panel-thickness_mm")
	assert.Contains(t, fmt.Sprint(reached), "The panel as a whole", "parts open and close by the keyboard")
}

// TestDark keeps a picture of the dark page.
func TestDark(t *testing.T) {
	s := serve(t)
	ctx := tab(t, 1280, 900)
	_, err := chromedp.Call(ctx, emulation.SetEmulatedMedia, emulation.SetEmulatedMediaParams{Features: []*emulation.MediaFeature{{Name: "prefers-color-scheme", Value: "dark"}}})
	require.NoError(t, err)
	do(t, ctx, chromedp.Navigate(s.url+"/"), click(".beside button.plain"))
	says(t, ctx, ".stage", "Counted")
	paper := ask[string](t, ctx, `getComputedStyle(document.documentElement).backgroundColor`)
	assert.Equal(t, "rgb(25, 23, 20)", paper)
	picture(t, ctx, "panel-dark")
}
