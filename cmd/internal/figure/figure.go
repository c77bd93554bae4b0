package figure

import (
	"bytes"
	"errors"
	"fmt"
	"html"
	"io"
	"math"
	"strings"

	"gonum.org/v1/plot/vg"
	"gonum.org/v1/plot/vg/draw"
	"gonum.org/v1/plot/vg/vgimg"
	"gonum.org/v1/plot/vg/vgsvg"
)

// Figure is one drawing with its words.
type Figure struct {
	ID       string // letters, digits and hyphens; unique in a page
	Title    string // the question it answers
	Sentence string // the answer, made from its own numbers; stands beneath it and is its alternative text
	Desc     string // what is drawn, part by part, for readers who do not see it

	W, H vg.Length // of the drawing without its title

	draw func(pen)
}

// Meta is what every figure takes besides its numbers. Empty words are filled in: ID and Title by
// the figure's own, Sentence from its numbers.
type Meta struct {
	ID, Title, Sentence string

	Invented bool // puts INVENTED EXAMPLE on the drawing itself
}

// or gives the words that were left empty.
func (m Meta) or(id, title string) Meta {
	if m.ID == "" {
		m.ID = id
	}
	if m.Title == "" {
		m.Title = title
	}
	return m
}

// figure makes the Figure of a drawing; sentence and desc are used where none was given.
func (m Meta) figure(h vg.Length, sentence, desc string, draw func(pen)) Figure {
	if m.Sentence != "" {
		sentence = m.Sentence
	}
	if m.Invented {
		desc = strings.TrimSpace("Invented example. " + desc)
	}
	return Figure{
		ID: slug(m.ID), Title: clean(m.Title), Sentence: capital(clean(sentence)), Desc: clean(desc),
		W: Width, H: h, draw: draw,
	}
}

// slug makes an ID fit for XML and for the name of a file.
func slug(s string) string {
	return strings.Trim(strings.Map(func(r rune) rune {
		switch {
		case r >= 'a' && r <= 'z', r >= '0' && r <= '9', r == '-':
			return r
		case r >= 'A' && r <= 'Z':
			return r + 'a' - 'A'
		}
		return '-'
	}, s), "-")
}

// SVG writes the drawing ready to stand in a page under a heading that carries the title: no XML
// declaration, role img, title and description named by aria-labelledby, no wider than its column.
// IDs in it begin with "fig-" and the figure's ID.
func (f Figure) SVG(w io.Writer) error {
	id := "fig-" + f.ID
	open := fmt.Sprintf(`role="img" aria-labelledby="%s-t %s-d" style="max-width:100%%;height:auto"`, id, id)
	words := fmt.Sprintf("<title id=\"%s-t\">%s</title>\n<desc id=\"%s-d\">%s</desc>\n",
		id, html.EscapeString(f.Title), id, html.EscapeString(strings.TrimSpace(f.Sentence+" "+f.Desc)))
	return f.svg(w, false, open, words)
}

// Bare writes the drawing alone, without title, description or role, for a page that puts in its own.
func (f Figure) Bare(w io.Writer) error { return f.svg(w, false, "", "") }

// File writes a drawing that stands alone, with its title in it and the XML declaration before it.
func (f Figure) File(w io.Writer) error {
	if _, err := io.WriteString(w, `<?xml version="1.0" encoding="UTF-8"?>`+"\n"); err != nil {
		return err
	}
	words := "<title>" + html.EscapeString(f.Title) + "</title>\n<desc>" + html.EscapeString(f.Sentence) + "</desc>\n"
	return f.svg(w, true, `role="img"`, words)
}

func (f Figure) svg(w io.Writer, titled bool, attributes, words string) error {
	if f.draw == nil {
		return errors.New("figure has nothing to draw: make it with Draw")
	}
	h := f.height(titled)
	c := vgsvg.NewWith(vgsvg.UseWH(f.W, h))
	f.onto(pen{c: draw.NewCanvas(c, f.W, h), keep: true}, titled)
	var b bytes.Buffer
	if _, err := c.WriteTo(&b); err != nil {
		return fmt.Errorf("figure %s: %w", f.ID, err)
	}
	_, rest, ok := strings.Cut(b.String(), `xmlns:xlink="http://www.w3.org/1999/xlink">`)
	if !ok {
		return fmt.Errorf("figure %s: drawing has no head", f.ID)
	}
	rest = strings.ReplaceAll(rest, "font-family:Liberation Sans;font-variant:normal;", "font-family:'Liberation Sans',Arial,Helvetica,sans-serif;")
	rest = strings.ReplaceAll(rest, "font-style:normal;", "")
	rest = strings.ReplaceAll(rest, "data:image/jpg;base64,iVBOR", "data:image/png;base64,iVBOR") // the canvas misnames it
	rest = strings.ReplaceAll(rest, "<image ", `<image preserveAspectRatio="none" `)
	_, err := fmt.Fprintf(w, "<svg xmlns=\"http://www.w3.org/2000/svg\" width=\"%.5gpt\" height=\"%.5gpt\" viewBox=\"0 0 %.5g %.5g\" %s>\n%s%s",
		f.W.Points(), h.Points(), f.W.Points(), h.Points(), attributes, words, strings.TrimLeft(rest, "\n"))
	return err
}

// PNG writes the drawing with its title as a bitmap on white at dpi dots an inch, 36 to 1200: 200
// for a report, 300 for a journal.
func (f Figure) PNG(w io.Writer, dpi float64) error {
	if f.draw == nil {
		return errors.New("figure has nothing to draw: make it with Draw")
	}
	if !(dpi >= 36 && dpi <= 1200) {
		return fmt.Errorf("resolution of figure %s: must be 36..1200 dots an inch, got %v", f.ID, dpi)
	}
	h := f.height(true)
	c := vgimg.NewWith(vgimg.UseWH(f.W, h), vgimg.UseDPI(int(math.Round(dpi))))
	f.onto(pen{c: draw.NewCanvas(c, f.W, h)}, true)
	_, err := vgimg.PngCanvas{Canvas: c}.WriteTo(w)
	return err
}

// titleLines are the lines of the title as it stands in the drawing.
func (f Figure) titleLines() []string { return titleText.wrap(f.Title, f.W-2*margin, 3) }

// height is that of the whole canvas.
func (f Figure) height(titled bool) vg.Length {
	if !titled {
		return f.H
	}
	return f.H + vg.Length(len(f.titleLines()))*titleText.lead() + 2*margin
}

func (f Figure) onto(p pen, titled bool) {
	if titled {
		y := f.height(true) - margin - titleText.size
		for _, line := range f.titleLines() {
			p.text(line, at(margin, y), titleText, left)
			y -= titleText.lead()
		}
	}
	f.draw(p)
}
