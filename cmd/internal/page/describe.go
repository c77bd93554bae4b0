package page

import (
	"encoding/json"
	"errors"
	"fmt"
	"net/http"
	"net/url"
	"slices"
	"strings"

	"crossgrain/moisture/record/scenario"
	"crossgrain/panel"
	"crossgrain/species"
	"crossgrain/tables/edit"
)

// sheetView is what the page of a panel shows.
type sheetView struct {
	view
	Key      string
	File     string
	Unsaved  bool
	Failure  string // why the draft could not be kept
	Form     form
	Broken   string // the text is no such file at all: why
	Text     string // the file itself, where it is broken
	Wrong    []wrong
	Ask      question
	AskWrong string
	AskField string
	Channels []string
	Kinds    []string // of buildings
	Records  []string // files that are here
	Answer   *answer
	Progress progress
	Next     []next
	Woods    []string
}

// wrong is one entry of the list of problems, with the field that it belongs to.
type wrong struct {
	ID, Label, Text string
}

// next is something to find out, with the field where the answer goes.
type next struct {
	finding
	Field *field
	Add   string // the table to add first
}

// finding is one thing to find out as the answer names it.
type finding struct {
	What, Means, By, Gain string
	Minutes               float64
}

// view of the sheet; the caller holds its lock.
func (s *Server) viewOf(sh *sheet, r readNow) sheetView {
	v := sheetView{
		Key: sh.key, File: sh.name(), Unsaved: sh.unsaved() || sh.saved == nil, Failure: sh.failure,
		Ask: sh.ask, Kinds: kindsOfBuildings(), Records: s.folder.list(recordsDir, recordEndings...), Progress: sh.stage, Woods: woodNames(),
	}
	v.view = view{Title: sh.key, Here: "panel"}
	if t, err := edit.Parse(sh.text); err != nil {
		v.Broken, v.Text = err.Error(), string(sh.text)
	} else {
		v.Form = formOf(t, r.problems)
		v.Wrong = wrongOf(v.Form)
	}
	var asked *askError
	switch {
	case errors.As(r.askErr, &asked):
		v.AskWrong, v.AskField, v.Channels = asked.Msg, asked.Field, asked.Channels
	case r.askErr != nil:
		v.AskWrong = r.askErr.Error()
	}
	v.Answer = sh.answer
	if r.panel != nil {
		v.Title = r.panel.Accession()
	}
	if v.Answer != nil && !v.Answer.Old {
		v.Next = nextOf(v.Form, v.Answer)
	}
	return v
}

// wrongOf lists all problems, those of fields first.
func wrongOf(f form) []wrong {
	var out []wrong
	for _, g := range f.Groups {
		for _, w := range g.Wrong {
			out = append(out, wrong{ID: "g-" + idOf(g.Path), Label: g.Title, Text: w})
		}
		for _, k := range g.Fields {
			if k.Wrong != "" {
				out = append(out, wrong{ID: k.ID(), Label: g.Title + ", " + strings.ToLower(k.Label), Text: k.Wrong})
			}
		}
	}
	for _, w := range f.Rest {
		out = append(out, wrong{Text: w})
	}
	return out
}

func idOf(path string) string { return strings.NewReplacer(".", "-", " ", "_").Replace(path) }

// mostNext is how many questions stand beside the answer.
const mostNext = 3

// nextOf picks what would narrow the answer most and has a field here.
func nextOf(f form, a *answer) []next {
	var out []next
	add := func(path string, q finding) {
		if len(out) < mostNext {
			if k := f.field(path); k != nil {
				out = append(out, next{finding: q, Field: k})
			}
		}
	}
	if d := a.Doc.Doubt; d != nil && len(d.Ways) > 0 {
		if q := d.DependsOn; q != nil {
			add(q.Path, finding{What: q.Question, Means: q.Means, By: q.By, Minutes: q.Minutes})
		}
		if _, list := a.Doc.ToFindOut(); len(list) > 0 {
			for _, n := range list {
				add(n.Path, finding{What: n.What, Means: n.Means, By: n.By, Minutes: n.Minutes})
			}
			return out
		}
	}
	for _, n := range a.Doc.FindOut {
		add(n.Path, finding{What: n.What, Means: n.Means, By: n.By, Minutes: n.Minutes})
	}
	return out
}

// field finds the field of a path; that of a board that is not described is the one of the whole panel.
func (f form) field(path string) *field {
	for _, g := range f.Groups {
		for i := range g.Fields {
			if g.Fields[i].Path == path {
				return &g.Fields[i]
			}
		}
	}
	if rest, ok := strings.CutPrefix(path, "board."); ok {
		_, key, _ := strings.Cut(rest, ".")
		for whole, keys := range map[string][]string{"panel.end_grain": {"ring_angle_deg"}, "panel.thickness_mm": {"thickness_mm"}, "panel.wood": {"wood"}} {
			if slices.Contains(keys, key) {
				return f.field(whole)
			}
		}
	}
	return nil
}

func (s *Server) describe(w http.ResponseWriter, r *http.Request, sh *sheet) {
	sh.mu.Lock()
	defer sh.mu.Unlock()
	if sh.rev == 0 {
		s.begun(sh)
	}
	s.show(w, http.StatusOK, "panel.html", s.viewOf(sh, sh.read))
}

// change takes what was typed. Without script the page is shown anew; with it only what changed is sent.
func (s *Server) change(w http.ResponseWriter, r *http.Request, sh *sheet) {
	r.Body = http.MaxBytesReader(w, r.Body, mostForm)
	if err := r.ParseForm(); err != nil {
		s.sorry(w, http.StatusBadRequest, "The form could not be read: "+err.Error())
		return
	}
	sh.mu.Lock()
	defer sh.mu.Unlock()
	anchor, told := s.apply(sh, r.PostForm)
	now := s.begun(sh)
	if r.Header.Get("Accept") == "application/json" {
		s.part(w, sh, now, told)
		return
	}
	if told != "" {
		v := s.viewOf(sh, now)
		v.Told = told
		s.show(w, http.StatusOK, "panel.html", v)
		return
	}
	http.Redirect(w, r, "/panel/"+url.PathEscape(sh.key)+anchor, http.StatusSeeOther)
}

// apply changes the text by what the form holds, and returns where to go on and what could not be done. The caller holds the lock.
func (s *Server) apply(sh *sheet, form url.Values) (anchor, told string) {
	asked := sh.ask.take(form)
	typed := map[string]string{}
	for name := range form {
		if path, ok := strings.CutPrefix(name, "k:"); ok {
			typed[path] = form.Get(name)
		}
	}
	text, err := changeKeys(sh.text, typed)
	if err == nil {
		var to string
		if text, to, err = changeParts(text, form); to != "" {
			anchor = "#g-" + idOf(to)
		}
	}
	if err != nil {
		return "", err.Error()
	}
	if asked {
		defer s.keep(sh)
	}
	s.set(sh, text)
	return anchor, ""
}

// changeParts adds, removes and renames parts, and returns the path of the part to go to.
func changeParts(text []byte, form url.Values) (out []byte, to string, err error) {
	t, err := edit.Parse(text)
	if err != nil {
		return text, "", err
	}
	if add := form.Get("add"); add != "" {
		if to, err = addPart(t, add, strings.TrimSpace(form.Get("name:"+add))); err != nil {
			return text, "", err
		}
	}
	if path := form.Get("remove"); path != "" && knownTable(path) {
		if !t.RemoveTable(strings.Split(path, ".")...) {
			return text, "", fmt.Errorf("%s cannot be taken out here; take it out in the file itself", path)
		}
	}
	if path := form.Get("rename"); path != "" && knownTable(path) {
		name := strings.TrimSpace(form.Get("rename:" + path))
		table, old, ok := strings.Cut(path, ".")
		if ok && name != "" && name != old {
			if err := t.RenameTable(name, table, old); err != nil {
				return text, "", err
			}
			to = table + "." + name
		}
	}
	return t.Bytes(), to, nil
}

// addPart adds a table, with the name given or one that is free, and what it must have.
func addPart(t *edit.Text, table, name string) (path string, err error) {
	a, ok := askedTable(table)
	if !ok {
		return "", fmt.Errorf("a panel file has no part of that kind")
	}
	if !a.Named {
		return table, t.AddTable(table)
	}
	taken := map[string]bool{}
	for _, p := range t.Tables() {
		if len(p) > 1 && p[0] == table {
			taken[strings.ToLower(p[1])] = true
		}
	}
	if name == "" {
		name = freeName(table, taken)
	}
	switch {
	case taken[strings.ToLower(name)]:
		return "", fmt.Errorf("there is a %s of the name %q already", table, name)
	case strings.Contains(name, ".") || len([]rune(name)) > 60:
		return "", fmt.Errorf("a name must have 1 to 60 letters without a dot, got %q", name)
	}
	if err := t.AddTable(table, name); err != nil {
		return "", err
	}
	return table + "." + name, nil
}

// freeName suggests a name for a part: what the trade calls the first ones, then numbers.
func freeName(table string, taken map[string]bool) string {
	first := map[string][]string{
		"board": {"left", "middle", "right"}, "batten": {"upper", "lower", "middle"}, "split": {"top", "bottom"},
	}[table]
	for _, n := range first {
		if !taken[n] {
			return n
		}
	}
	for i := 1; ; i++ {
		if n := fmt.Sprint(i); !taken[n] {
			return n
		}
	}
}

func askedTable(path string) (panel.Asked, bool) {
	for _, a := range panel.Asking() {
		if a.Path == path {
			return a, true
		}
	}
	return panel.Asked{}, false
}

// knownTable says whether a path is that of a part of a panel file.
func knownTable(path string) bool {
	first, _, _ := strings.Cut(path, ".")
	for _, a := range panel.Asking() {
		if a.Path == first || a.Also == first && first != "" {
			return true
		}
	}
	return false
}

// partAnswer is what a change sends to the script.
type partAnswer struct {
	Rev     int               `json:"rev"`
	Now     string            `json:"now"`
	Answer  string            `json:"answer"`
	Wrong   string            `json:"wrong"`
	Fields  map[string]string `json:"fields"` // problems by the id of their field
	Unsaved bool              `json:"unsaved"`
	Told    string            `json:"told"`
	Title   string            `json:"title"`
}

func (s *Server) part(w http.ResponseWriter, sh *sheet, now readNow, told string) {
	v := s.viewOf(sh, now)
	out := partAnswer{Rev: sh.rev, Unsaved: v.Unsaved, Told: told, Title: v.Title, Fields: map[string]string{}}
	for _, k := range v.Wrong {
		if k.ID != "" {
			out.Fields[k.ID] = k.Text
		}
	}
	if v.AskField != "" {
		out.Fields[strings.ReplaceAll(v.AskField, ":", "-")] = v.AskWrong
	}
	var err error
	for name, to := range map[string]*string{"now": &out.Now, "answer": &out.Answer, "wrong": &out.Wrong} {
		if *to, err = s.fragment(name, v); err != nil {
			break
		}
	}
	if err != nil {
		s.sorry(w, http.StatusInternalServerError, err.Error())
		return
	}
	w.Header().Set("Content-Type", "application/json")
	_ = json.NewEncoder(w).Encode(out)
}

func kindsOfBuildings() []string {
	var out []string
	for _, k := range scenario.Kinds() {
		out = append(out, string(k))
	}
	return out
}

// woodNames are the woods as one may type them.
func woodNames() []string {
	var out []string
	for _, w := range species.All() {
		out = append(out, w.Name)
	}
	return out
}
