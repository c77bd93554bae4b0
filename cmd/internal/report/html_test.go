package report

import (
	"bytes"
	"regexp"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

func toHTML(t *testing.T, a Assess, figs []Figure) string {
	t.Helper()
	var b bytes.Buffer
	require.NoError(t, a.WriteHTML(&b, figs, `@font-face{font-family:"Liberation Sans";src:local("Arial")}`))
	return b.String()
}

func TestWriteHTMLStandsAlone(t *testing.T) {
	got := toHTML(t, invented(), inventedFigures())
	assert.NotContains(t, got, "<script")
	assert.NotContains(t, got, "ZgotmplZ", "the template took everything")
	assert.NotContains(t, got, "<?xml")
	outside := regexp.MustCompile(`(?i)(?:src|href)\s*=\s*"?(?:https?:|//)|url\(\s*["']?(?:https?:|//)|@import`)
	assert.Empty(t, outside.FindAllString(got, -1))
	assert.NotRegexp(t, `<th>`, got, "every header cell has a scope")
	for _, want := range []string{
		`role="img" aria-labelledby="fig-panel-t fig-panel-d"`, `<title id="fig-panel-t">Which panel is it`, `<details>`,
		`counter(pages)`, `<div class="annex">`, `prefers-color-scheme: dark`, `break-inside: avoid`,
	} {
		assert.Contains(t, got, want)
	}
	annex := strings.Index(got, `<div class="annex">`)
	assert.Greater(t, strings.Index(got, `<figure id="figure-energy">`), annex)
	assert.Less(t, strings.Index(got, `<figure id="figure-panel">`), annex)
	assert.Greater(t, strings.Index(got, `id="assumed"`), annex)
}

func TestInventedIsMarked(t *testing.T) {
	a := invented()
	assert.Contains(t, toHTML(t, a, nil), `@top-right{content:"INVENTED EXAMPLE"}`, "on every sheet")
	a.Invented = false
	a.Panel.Title, a.Panel.Accession = "A panel", "1.2"
	assert.NotContains(t, toHTML(t, a, nil), "INVENTED EXAMPLE")
}

func TestCautionsOnEverySheet(t *testing.T) {
	got := toHTML(t, invented(), nil)
	assert.Contains(t, got, `@bottom-left{content:"A calculation from a description\3b  it has not seen the panel\2e `)
	for _, c := range Cautions() {
		assert.Contains(t, got, keepUnits(c))
	}
}

func TestTypedTextIsEscaped(t *testing.T) {
	a := invented()
	evil := `</style></title><script>alert(1)</script><img src=x onerror=alert(1)>"}body{display:none}`
	a.Panel.Accession, a.Panel.Title, a.Panel.Woods, a.UsedTo.Words = evil, evil, evil, evil
	a.Gates[0].Text, a.Assumed[0].What = evil, evil
	a.Restraints[0].What, a.Boards[0].Part, a.Worst[0].Part = evil, "board."+evil, "split."+evil
	figs := inventedFigures()
	figs[0].Title, figs[0].Sentence, figs[0].Table.Rows[0][0] = evil, evil, evil
	got := toHTML(t, a, figs)
	assert.NotContains(t, got, "<script")
	assert.NotContains(t, got, "<img")
	assert.NotContains(t, got, `"}body`)
	assert.Equal(t, 3, strings.Count(got, "</style>"))
}

func TestDrawingsThatDoMoreThanDrawAreRefused(t *testing.T) {
	for name, body := range map[string]string{
		"script":         `<script>1</script>`,
		"event":          `<rect onload="x()"/>`,
		"foreign object": `<foreignObject/>`,
		"outside image":  `<image href="https://example.org/a.png"/>`,
		"outside paint":  `<rect fill="url(https://example.org/a)"/>`,
		"not closed":     `<g>`,
	} {
		f := Figure{ID: "x", SVG: `<svg xmlns="http://www.w3.org/2000/svg">` + body + `</svg>`}
		var b bytes.Buffer
		assert.Error(t, invented().WriteHTML(&b, []Figure{f}, ""), name)
		assert.Zero(t, b.Len(), "%s: nothing is written", name)
	}
	assert.Error(t, invented().WriteHTML(&bytes.Buffer{}, []Figure{{ID: "x", SVG: "none"}}, ""))
}
