package browser

import (
	"fmt"
	"testing"

	"github.com/chromedp/chromedp"
	"github.com/stretchr/testify/require"
)

// TestSixFactsToPaper goes the conservator's way: from an empty page with six facts to a printed paper.
func TestSixFactsToPaper(t *testing.T) {
	for _, width := range []int{1280, 820} {
		s := serve(t)
		ctx := tab(t, width, 900)
		do(t, ctx, chromedp.Navigate(s.url+"/"))
		picture(t, ctx, fmt.Sprint("desk-", width))
		do(t, ctx,
			typed("#f-number", "INVENTED 77"),
			typed("#f-height", "62 cm"),
			typed("#f-width", "47,5 cm"),
			typed("#f-wood", "oak"),
			typed("#f-boards", "2"),
			click(`input[name=back][value=cradle]`),
			click(`input[name=cracks][value=top]`),
			click(`.facts button.first`),
		)
		until(t, ctx, `document.querySelectorAll(".opening p").length == 3`)
		says(t, ctx, ".stage", "Counted on many cases")
		picture(t, ctx, fmt.Sprint("panel-", width))
		paper := ask[string](t, ctx, `document.querySelector(".onward a").href`)
		do(t, ctx, chromedp.Navigate(paper))
		require.Contains(t, ask[string](t, ctx, `document.querySelector(".number").innerText`), "INVENTED 77")
	}
}
