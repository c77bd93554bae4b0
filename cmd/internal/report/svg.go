package report

import (
	"encoding/xml"
	"errors"
	"fmt"
	"html"
	"html/template"
	"io"
	"slices"
	"strings"
)

// svgElements are the elements that a figure may hold: drawing, nothing that runs or fetches.
var svgElements = []string{
	"svg", "g", "path", "text", "tspan", "rect", "circle", "ellipse", "line", "polyline", "polygon",
	"defs", "clipPath", "pattern", "use", "image", "title", "desc", "linearGradient", "stop",
}

// inlineSVG makes a figure fit to stand in the page: the XML declaration is dropped, a title and a
// description are put in for readers who do not see it. It refuses a drawing that could run or
// fetch something.
func inlineSVG(f Figure) (template.HTML, error) {
	if err := drawingOnly(f.SVG); err != nil {
		return "", fmt.Errorf("figure %s: %w", f.ID, err)
	}
	i := strings.Index(f.SVG, "<svg")
	j := strings.Index(f.SVG[max(i, 0):], ">")
	if i < 0 || j < 0 {
		return "", fmt.Errorf("figure %s: no <svg> in the drawing", f.ID)
	}
	open, rest := f.SVG[i:i+j], f.SVG[i+j+1:]
	id := html.EscapeString("fig-" + f.ID)
	return template.HTML(fmt.Sprintf(
		`%s%s role="img" aria-labelledby="%s-t %s-d"><title id="%s-t">%s</title><desc id="%s-d">%s</desc>%s`,
		open, class(open), id, id, id, html.EscapeString(f.Title), id, html.EscapeString(f.Sentence), rest)), nil
}

// class marks drawings that are nearly as high as wide; they take more room on a sheet.
func class(open string) string {
	_, box, _ := strings.Cut(open, `viewBox="`)
	var x, y, w, h float64
	if n, _ := fmt.Sscanf(box, "%g %g %g %g", &x, &y, &w, &h); n == 4 && h > 0.85*w {
		return ` class="tall"`
	}
	return ""
}

// drawingOnly reads the whole drawing and reports the first thing that does not belong in one.
func drawingOnly(svg string) error {
	d := xml.NewDecoder(strings.NewReader(svg))
	for {
		tok, err := d.Token()
		if errors.Is(err, io.EOF) {
			return nil
		}
		if err != nil {
			return fmt.Errorf("drawing is not well formed: %w", err)
		}
		e, ok := tok.(xml.StartElement)
		if !ok {
			continue
		}
		if !slices.Contains(svgElements, e.Name.Local) {
			return fmt.Errorf("drawing holds <%s>, which is no drawing", e.Name.Local)
		}
		for _, at := range e.Attr {
			if err := harmless(at); err != nil {
				return err
			}
		}
	}
}

func harmless(a xml.Attr) error {
	name, value := strings.ToLower(a.Name.Local), strings.TrimSpace(a.Value)
	switch {
	case strings.HasPrefix(name, "on"):
		return fmt.Errorf("drawing holds %s, which would run something", a.Name.Local)
	case name == "href" && !strings.HasPrefix(value, "#") && !strings.HasPrefix(value, "data:image/png;"):
		return fmt.Errorf("drawing points outside: %.40s", value)
	case strings.Contains(value, "url(") && !strings.Contains(value, "url(#"):
		return fmt.Errorf("drawing points outside: %.40s", value)
	}
	return nil
}
