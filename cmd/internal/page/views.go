package page

import (
	"bytes"
	"embed"
	"fmt"
	"html/template"
	"net/http"
	"strings"
	"sync"

	"crossgrain/cmd/internal/figure"
)

//go:embed ui
var uiFiles embed.FS

// view is what every page has around its content.
type view struct {
	Title string
	Here  string // which entry of the head is this one
	Told  string // what went wrong, above the content
}

// templates are those of all pages.
var templates = sync.OnceValues(func() (*template.Template, error) {
	return template.New("ui").Funcs(template.FuncMap{
		"dict": dict, "id": idOf, "lower": strings.ToLower,
		"qid":  func(s string) string { return strings.ReplaceAll(s, ":", "-") },
		"list": func(words ...string) []string { return words },
		"first": func(list []string) string {
			if len(list) == 0 {
				return ""
			}
			return list[0]
		},
		"wrongAt": func(list []wrong, id string) string {
			for _, w := range list {
				if w.ID == id {
					return w.Text
				}
			}
			return ""
		},
	}).ParseFS(uiFiles, "ui/*.html")
})

// dict makes a map of a template's words and values.
func dict(pairs ...any) (map[string]any, error) {
	out := map[string]any{}
	for i := 0; i+1 < len(pairs); i += 2 {
		name, ok := pairs[i].(string)
		if !ok {
			return nil, fmt.Errorf("a name must be a word, got %v", pairs[i])
		}
		out[name] = pairs[i+1]
	}
	return out, nil
}

// show writes a page whole or, where it cannot be made, says so.
func (s *Server) show(w http.ResponseWriter, code int, name string, data any) {
	text, err := s.fragment(name, data)
	if err != nil {
		http.Error(w, "crossgrain: a fault in the program: "+err.Error(), http.StatusInternalServerError)
		return
	}
	w.Header().Set("Content-Type", "text/html; charset=utf-8")
	w.WriteHeader(code)
	fmt.Fprint(w, text)
}

func (s *Server) fragment(name string, data any) (string, error) {
	t, err := templates()
	if err != nil {
		return "", err
	}
	var b bytes.Buffer
	err = t.ExecuteTemplate(&b, name, data)
	return b.String(), err
}

// sorry shows what went wrong.
func (s *Server) sorry(w http.ResponseWriter, code int, msg string) {
	s.show(w, code, "sorry.html", struct {
		view
		Msg string
	}{view{Title: "That did not work"}, msg})
}

func (s *Server) missing(w http.ResponseWriter, err error) {
	s.sorry(w, http.StatusNotFound, err.Error()+".")
}

// look serves style, script and letters.
func (s *Server) look(w http.ResponseWriter, r *http.Request) {
	name := r.PathValue("name")
	var body []byte
	var err error
	kind := "text/css; charset=utf-8"
	switch name {
	case "page.css":
		body, err = uiFiles.ReadFile("ui/page.css")
	case "page.js":
		kind = "text/javascript; charset=utf-8"
		body, err = uiFiles.ReadFile("ui/page.js")
	case "letters.css":
		body = []byte(figure.FontCSS())
	default:
		http.NotFound(w, r)
		return
	}
	if err != nil {
		http.Error(w, err.Error(), http.StatusInternalServerError)
		return
	}
	w.Header().Set("Content-Type", kind)
	_, _ = w.Write(body)
}
