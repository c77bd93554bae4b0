package report

import (
	"bytes"
	"embed"
	"html/template"
	"io"
	"sync"
)

//go:embed page
var pageFiles embed.FS

// pages are the templates of all pages, each under the name of its file, and the parts they share.
var pages = sync.OnceValues(func() (*template.Template, error) {
	return template.New("pages").Funcs(template.FuncMap{
		"say":   func(key string) string { return say(key) },
		"right": func(t Table, i int) bool { return t.right(i) },
		"inc":   func(i int) int { return i + 1 },
		"blank": func(n int) []struct{} { return make([]struct{}, n) },
		"dict":  dict,
	}).ParseFS(pageFiles, "page/*.html")
})

// shell is what every page has around its content.
type shell struct {
	Title                      string
	Invented                   bool
	Style, Own, Fonts, Running template.CSS
	Paper                      *Paper // nil: not a paper by itself
	Meta                       string // what the paper says of itself, for programs
}

// Lang is the language of the phrases.
func (shell) Lang() string { return "en" }

// write fills the template of a page with data, which holds the shell, and writes it whole. style and own are its style sheets; own
// may be empty. fontCSS holds the rules of the drawings' letters and may be empty.
func (s *shell) write(w io.Writer, name, style, own, fontCSS string, data any) error {
	t, err := pages()
	if err != nil {
		return err
	}
	for _, sheet := range [...]struct {
		name string
		to   *template.CSS
	}{{style, &s.Style}, {own, &s.Own}} {
		if sheet.name == "" {
			continue
		}
		css, err := pageFiles.ReadFile("page/" + sheet.name)
		if err != nil {
			return err
		}
		*sheet.to = template.CSS(css)
	}
	s.Fonts = template.CSS(fontCSS)
	if s.Paper != nil {
		if s.Meta, err = s.Paper.Meta(); err != nil {
			return err
		}
	}
	var b bytes.Buffer
	if err := t.ExecuteTemplate(&b, name, data); err != nil {
		return err
	}
	_, err = io.WriteString(w, keepUnits(b.String()))
	return err
}
