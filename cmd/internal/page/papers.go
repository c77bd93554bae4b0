package page

import (
	"bytes"
	"fmt"
	"net/http"
	"net/url"
	"path"
	"strings"

	"crossgrain/cmd/internal/figure"
	"crossgrain/cmd/internal/illustrate"
	"crossgrain/tables/edit"
)

// paper is the whole report of a sheet as one page that prints; with ?save it comes as a file.
func (s *Server) paper(w http.ResponseWriter, r *http.Request, sh *sheet) {
	a := s.best(r, sh)
	if a == nil {
		s.sorry(w, http.StatusConflict, "There is no answer yet: something in the description cannot be read.")
		return
	}
	figs, err := illustrate.InPage(a.figures())
	var b bytes.Buffer
	if err == nil {
		err = a.Doc.WriteHTML(&b, figs, figure.FontCSS())
	}
	if err != nil {
		s.sorry(w, http.StatusInternalServerError, err.Error())
		return
	}
	h := w.Header()
	h.Set("Content-Type", "text/html; charset=utf-8")
	h.Set("Content-Security-Policy", paperPolicy)
	if r.URL.Query().Has("save") {
		h.Set("Content-Disposition", attachment(sh.key+".html"))
	}
	_, _ = w.Write(b.Bytes())
}

// paperPolicy lets a paper show itself and nothing else.
const paperPolicy = "default-src 'none'; style-src 'unsafe-inline'; font-src data:; img-src data:; frame-ancestors 'self'; base-uri 'none'; form-action 'none'"

// best waits for the finest answer and returns it; nil where there is none.
func (s *Server) best(r *http.Request, sh *sheet) *answer {
	s.beginOnce(sh)
	s.finished(r.Context(), sh)
	sh.mu.Lock()
	defer sh.mu.Unlock()
	if sh.answer == nil || sh.answer.Old {
		return nil
	}
	sh.answer.figures() // under the lock: several may ask
	return sh.answer
}

// beginOnce answers a sheet that was not answered yet.
func (s *Server) beginOnce(sh *sheet) {
	sh.mu.Lock()
	defer sh.mu.Unlock()
	if sh.rev == 0 {
		s.begun(sh)
	}
}

// figures lists all figures of a sheet.
func (s *Server) figures(w http.ResponseWriter, r *http.Request, sh *sheet) {
	a := s.best(r, sh)
	if a == nil {
		s.sorry(w, http.StatusConflict, "There is no answer yet: something in the description cannot be read.")
		return
	}
	s.show(w, http.StatusOK, "figures.html", struct {
		view
		Key     string
		Figures []illustrate.Drawn
	}{view{Title: "Figures of " + a.Doc.Panel.Accession, Here: "panel"}, sh.key, a.figures()})
}

// figure is one figure of a sheet, NAME.svg or NAME.png.
func (s *Server) figure(w http.ResponseWriter, r *http.Request, sh *sheet) {
	a := s.best(r, sh)
	name := r.PathValue("name")
	id := strings.TrimSuffix(name, path.Ext(name))
	if a != nil {
		for _, f := range a.figures() {
			if f.ID == id && s.sendFigure(w, sh.key, name, f) {
				return
			}
		}
	}
	s.missing(w, fmt.Errorf("there is no figure %q", name))
}

func (s *Server) sendFigure(w http.ResponseWriter, key, name string, f illustrate.Drawn) bool {
	var b bytes.Buffer
	var err error
	kind := "image/svg+xml"
	switch path.Ext(name) {
	case ".svg":
		err = f.File(&b)
	case ".png":
		kind = "image/png"
		err = f.PNG(&b, 200)
	default:
		return false
	}
	if err != nil {
		s.sorry(w, http.StatusInternalServerError, err.Error())
		return true
	}
	w.Header().Set("Content-Type", kind)
	w.Header().Set("Content-Disposition", attachment(key+"-"+name))
	_, _ = w.Write(b.Bytes())
	return true
}

// attachment names a file that is to be saved; letters beyond ASCII are written as RFC 5987 says.
func attachment(name string) string {
	return "attachment; filename*=UTF-8''" + url.PathEscape(name)
}

// file is the panel file itself.
func (s *Server) file(w http.ResponseWriter, r *http.Request, sh *sheet) {
	sh.mu.Lock()
	text := sh.text
	sh.mu.Unlock()
	w.Header().Set("Content-Type", "application/toml; charset=utf-8")
	w.Header().Set("Content-Disposition", attachment(sh.name()))
	_, _ = w.Write(text)
}

// textView is the panel file as text.
type textView struct {
	view
	Key, Text string
	Wrong     []string
}

// text shows the panel file as text, for what has no field.
func (s *Server) text(w http.ResponseWriter, r *http.Request, sh *sheet) {
	sh.mu.Lock()
	defer sh.mu.Unlock()
	v := textView{view: view{Title: sh.name(), Here: "panel"}, Key: sh.key, Text: string(sh.text)}
	_, problems := read(sh.key, sh.text)
	for _, p := range problems {
		v.Wrong = append(v.Wrong, lineOf(p)+told(p))
	}
	s.show(w, http.StatusOK, "text.html", v)
}

func (s *Server) setText(w http.ResponseWriter, r *http.Request, sh *sheet) {
	r.Body = http.MaxBytesReader(w, r.Body, mostForm)
	if err := r.ParseForm(); err != nil || !r.PostForm.Has("text") {
		s.sorry(w, http.StatusBadRequest, "The text could not be taken.")
		return
	}
	text := strings.ReplaceAll(r.PostForm.Get("text"), "\r\n", "\n")
	sh.mu.Lock()
	defer sh.mu.Unlock()
	if bytes.Contains(sh.text, []byte("\r\n")) { // a browser sends all line ends alike
		text = strings.ReplaceAll(text, "\n", "\r\n")
	}
	s.set(sh, []byte(text))
	s.begun(sh)
	_, err := edit.Parse(sh.text)
	to := "/panel/" + url.PathEscape(sh.key)
	if err != nil {
		to += "/text"
	}
	http.Redirect(w, r, to, http.StatusSeeOther)
}

// save writes the panel file into the folder.
func (s *Server) save(w http.ResponseWriter, r *http.Request, sh *sheet) {
	sh.mu.Lock()
	defer sh.mu.Unlock()
	if there, err := s.folder.read(sh.name(), mostPanel); err == nil && !bytes.Equal(there, sh.saved) && !r.URL.Query().Has("over") {
		s.sorry(w, http.StatusConflict, fmt.Sprintf("%s was changed by somebody else since it was opened here, and was left as it is. "+
			"Save what you have under another name (“the file itself”), or open theirs first.", sh.name()))
		return
	}
	if err := s.folder.write(sh.name(), sh.text); err != nil {
		s.sorry(w, http.StatusInternalServerError, err.Error()+". What you typed is still here.")
		return
	}
	sh.saved = sh.text
	s.keep(sh)
	http.Redirect(w, r, "/panel/"+url.PathEscape(sh.key)+"#saved", http.StatusSeeOther)
}

// forget drops what was not saved.
func (s *Server) forget(w http.ResponseWriter, r *http.Request, sh *sheet) {
	sh.mu.Lock()
	s.folder.remove(sh.draft())
	s.folder.remove(sh.askFile())
	if sh.cancel != nil {
		sh.cancel()
	}
	never := sh.saved == nil
	sh.mu.Unlock()
	s.mu.Lock()
	delete(s.sheets, sh.key)
	s.mu.Unlock()
	to := "/"
	if !never {
		to = "/panel/" + url.PathEscape(sh.key)
	}
	http.Redirect(w, r, to, http.StatusSeeOther)
}
