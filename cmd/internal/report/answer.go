package report

import (
	"bytes"
	"io"
)

// WriteAnswer writes the beginning of an assessment as a part of a page: its sentences, what stands before any number, the calculated
// range, the figures given and what gives way first. The style is the page's own.
func (a Assess) WriteAnswer(w io.Writer, figs []Figure) error {
	t, err := pages()
	if err != nil {
		return err
	}
	p, err := a.page(figs)
	if err != nil {
		return err
	}
	var b bytes.Buffer
	if err := t.ExecuteTemplate(&b, "answer.html", p); err != nil {
		return err
	}
	_, err = io.WriteString(w, keepUnits(b.String()))
	return err
}
