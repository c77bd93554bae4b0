package page

import (
	"errors"
	"fmt"
	"net/http"
	"net/url"
	"os"
	"path"
	"path/filepath"
	"slices"
	"strings"
)

// task is something that is done with panels, records and lists: a form, and the command that answers it.
type task struct {
	Name, Title, Lead string
	Go                string // on the button
	Main              string // the paper that is shown first
	Form              string // template of its fields
	prepare           func(s *Server, dir string, form url.Values) ([]string, error)
	show              func(s *Server, w http.ResponseWriter, j *job, v jobView)
}

// tasks by name.
func tasks() map[string]*task {
	out := map[string]*task{}
	for _, t := range []*task{
		{Name: "record", Title: "A logger's record", Go: "Read it", Main: "report.html", Form: "task-record", prepare: recordArgs,
			Lead: "How it was read, what the room did over days and seasons, and for how long it did not keep what was asked."},
		{Name: "cards", Title: "When the climate fails", Go: "Make the cards", Main: "fault.html", Form: "task-cards", prepare: cardsArgs,
			Lead: "Cards and a door sheet, made beforehand: by the reading of the logger and the hours it has stood they say wait, call or act."},
		{Name: "event", Title: "After a fault", Go: "Make the event sheet", Main: "event.html", Form: "task-event", prepare: eventArgs,
			Lead: "What each panel did in that record by calculation, and where to look. It names no causes."},
		{Name: "treat", Title: "What might be done", Go: "Set the options side by side", Main: "report.html", Form: "task-treat", prepare: treatArgs,
			Lead: "Doing nothing first, then what could be done: what gets worse and what gets better, what comes in hours, weeks and a year."},
		{Name: "loan", Title: "A loan", Go: "Work out the conditions", Main: "cover.html", Form: "task-loan", prepare: loanArgs,
			Lead: "One range for all panels in one room, the change within a day, days closed in the case, hours for alarms; a schedule of two sheets for each panel."},
		{Name: "survey", Title: "Many panels, several stores", Go: "Look them over", Main: "survey.html", Form: "task-survey", prepare: surveyArgs,
			Lead: "Which to look at first, which cannot be told yet, where each would stand best in the room there is, and what to measure in one day."},
		{Name: "list", Title: "A list of panels", Go: "Show how it is read", Form: "task-list", prepare: listArgs, show: showList,
			Lead: "A spreadsheet becomes panel files: first you see how its columns were read and what it leaves open; nothing is written until you say so."},
	} {
		out[t.Name] = t
	}
	return out
}

// taskView is the form of a task.
type taskView struct {
	view
	Task     *task
	Form     url.Values
	Panels   []panelView
	Records  []string
	Lists    []string
	Kinds    []string
	Fields   []string // of a list
	Channels []string
}

// Value is what was typed into a field.
func (v taskView) Value(name string) string { return v.Form.Get(name) }

// Picked says whether a box is ticked.
func (v taskView) Picked(name, value string) bool { return slices.Contains(v.Form[name], value) }

// Endings of files that are kept in the folder of records, and of lists.
var (
	recordEndings = []string{".csv", ".txt", ".tsv", ".xlsx", ".json", ".dat", ".asc"}
	listEndings   = []string{".csv", ".tsv", ".txt", ".xlsx"}
)

const listsDir = "lists"

func (s *Server) taskView(t *task, form url.Values) taskView {
	return taskView{
		view: view{Title: t.Title, Here: t.Name}, Task: t, Form: form, Panels: s.panels(), Records: s.folder.list(recordsDir, recordEndings...),
		Lists: s.folder.list(listsDir, listEndings...), Kinds: kindsOfBuildings(),
	}
}

func (s *Server) task(w http.ResponseWriter, r *http.Request) {
	t := tasks()[r.PathValue("name")]
	if t == nil {
		s.missing(w, fmt.Errorf("there is no such page"))
		return
	}
	s.show(w, http.StatusOK, "task.html", s.taskView(t, r.URL.Query()))
}

// startTask takes the form, with files that were dropped into it, and begins the work.
func (s *Server) startTask(w http.ResponseWriter, r *http.Request) {
	t := tasks()[r.PathValue("name")]
	if t == nil {
		s.missing(w, fmt.Errorf("there is no such page"))
		return
	}
	err := r.ParseMultipartForm(32 << 20)
	if errors.Is(err, http.ErrNotMultipart) {
		err = r.ParseForm()
	}
	if err != nil {
		s.sorry(w, http.StatusBadRequest, "The form could not be read: "+err.Error())
		return
	}
	if r.MultipartForm != nil {
		defer r.MultipartForm.RemoveAll()
	}
	form := r.PostForm
	if err = s.takeFiles(r, form); err == nil {
		var j *job
		if j, err = s.start(t, form, func(dir string) ([]string, error) { return t.prepare(s, dir, form) }); err == nil {
			http.Redirect(w, r, "/job/"+j.id, http.StatusSeeOther)
			return
		}
	}
	v := s.taskView(t, form)
	v.Told = err.Error()
	var asked *askError
	if errors.As(err, &asked) {
		v.Channels = asked.Channels
	}
	s.show(w, http.StatusUnprocessableEntity, "task.html", v)
}

// takeFiles keeps the files of a form in the folder and puts their names into its fields: drop:record into record, drop:list into list.
func (s *Server) takeFiles(r *http.Request, form url.Values) error {
	if r.MultipartForm == nil {
		return nil
	}
	for field, dir := range map[string]string{"record": recordsDir, "list": listsDir} {
		for i, head := range r.MultipartForm.File["drop:"+field] {
			f, err := head.Open()
			if err != nil {
				return err
			}
			data, err := readAll(f, mostRecord)
			f.Close()
			if err != nil {
				return fmt.Errorf("%s: %w", head.Filename, err)
			}
			name, err := s.keepFile(dir, head.Filename, data)
			if err != nil {
				return err
			}
			if i == 0 {
				form.Del(field)
			}
			form.Add(field, name)
		}
	}
	return nil
}

// keepFile keeps a file that was dropped under its own name, or one beside it where another of that name is there.
func (s *Server) keepFile(dir, given string, data []byte) (name string, err error) {
	ending := strings.ToLower(path.Ext(given))
	base := plainName(strings.TrimSuffix(path.Base(strings.ReplaceAll(given, `\`, "/")), path.Ext(given)))
	for n := 1; ; n++ {
		if name = base + ending; n > 1 {
			name = fmt.Sprintf("%s-%d%s", base, n, ending)
		}
		at := path.Join(dir, name)
		if !s.folder.has(at) {
			return name, s.folder.write(at, data)
		}
		if there, err := s.folder.read(at, mostRecord); err == nil && string(there) == string(data) {
			return name, nil
		}
	}
}

// keepFor keeps a file that was dropped on the desk and goes to the task that it is for.
func (s *Server) keepFor(w http.ResponseWriter, r *http.Request, name string, data []byte, task string) {
	dir := recordsDir
	if task == "list" {
		dir = listsDir
	}
	kept, err := s.keepFile(dir, name, data)
	if err != nil {
		s.sorry(w, http.StatusInternalServerError, err.Error())
		return
	}
	http.Redirect(w, r, "/task/"+task+"?"+url.Values{task: {kept}}.Encode(), http.StatusSeeOther)
}

// panelFiles writes the panels that were ticked into the folder of a job, as they stand, and returns their names there.
func (s *Server) panelFiles(dir string, form url.Values) ([]string, error) {
	var out []string
	for _, key := range form["panel"] {
		sh, err := s.sheet(key)
		if err != nil {
			return nil, err
		}
		sh.mu.Lock()
		text := sh.text
		sh.mu.Unlock()
		if err := os.WriteFile(filepath.Join(dir, sh.name()), text, 0o600); err != nil {
			return nil, err
		}
		out = append(out, sh.name())
	}
	if len(out) == 0 {
		return nil, errors.New("choose at least one panel")
	}
	return out, nil
}

// recordFile copies a record into the folder of a job.
func (s *Server) recordFile(dir, name string) (string, error) {
	name = path.Base(name)
	data, err := s.folder.read(path.Join(recordsDir, name), mostRecord)
	if err != nil {
		return "", fmt.Errorf("choose a logger's file, or drop one: %w", err)
	}
	return name, os.WriteFile(filepath.Join(dir, name), data, 0o600)
}

// readingArgs are the options that settle what a record leaves open.
func readingArgs(form url.Values) []string {
	var out []string
	for _, name := range []string{"channel", "dates", "zone", "unit", "decimal"} {
		if v := strings.TrimSpace(form.Get(name)); v != "" {
			out = append(out, "--"+name+"="+v)
		}
	}
	return out
}

// given adds an option with what was typed, where something was.
func given(args []string, option string, form url.Values, name string) []string {
	if v := strings.TrimSpace(form.Get(name)); v != "" {
		return append(args, option+"="+v)
	}
	return args
}

func in(dir string, names ...string) []string {
	out := make([]string, len(names))
	for i, n := range names {
		out[i] = filepath.Join(dir, n)
	}
	return out
}

func recordArgs(s *Server, dir string, form url.Values) ([]string, error) {
	var names []string
	for _, n := range form["record"] {
		if n == "" {
			continue
		}
		name, err := s.recordFile(dir, n)
		if err != nil {
			return nil, err
		}
		names = append(names, name)
	}
	if len(names) == 0 {
		return nil, errors.New("choose a logger's file, or drop one")
	}
	args := append([]string{"record"}, in(dir, names...)...)
	args = append(args, "--out="+filepath.Join(dir, outDir), "--png")
	args = given(args, "--terms", form, "terms")
	args = given(args, "--wood", form, "wood")
	if form.Get("confirm") != "" {
		args = append(args, "--confirm-terms")
	}
	return append(args, readingArgs(form)...), nil
}

func cardsArgs(s *Server, dir string, form url.Values) ([]string, error) {
	names, err := s.panelFiles(dir, form)
	if err != nil {
		return nil, err
	}
	args := append([]string{"fault"}, in(dir, names...)...)
	return given(append(args, "--out="+filepath.Join(dir, outDir)), "--case", form, "case"), nil
}

func eventArgs(s *Server, dir string, form url.Values) ([]string, error) {
	names, err := s.panelFiles(dir, form)
	if err != nil {
		return nil, err
	}
	rec, err := s.recordFile(dir, form.Get("record"))
	if err != nil {
		return nil, err
	}
	args := append([]string{"fault"}, in(dir, names...)...)
	args = append(args, "--out="+filepath.Join(dir, outDir), "--record="+filepath.Join(dir, rec))
	args = given(given(args, "--from", form, "from"), "--to", form, "to")
	return append(args, readingArgs(form)...), nil
}

func treatArgs(s *Server, dir string, form url.Values) ([]string, error) {
	if len(form["panel"]) > 1 {
		return nil, errors.New("choose one panel")
	}
	names, err := s.panelFiles(dir, form)
	if err != nil {
		return nil, err
	}
	args := append([]string{"treat"}, in(dir, names...)...)
	args = append(args, "--out="+filepath.Join(dir, outDir), "--png")
	if low, high := strings.TrimSpace(form.Get("low")), strings.TrimSpace(form.Get("high")); low+high != "" {
		args = append(args, "--rh="+low+".."+high)
	}
	if n := form.Get("record"); n != "" {
		rec, err := s.recordFile(dir, n)
		if err != nil {
			return nil, err
		}
		args = append(args, "--record="+filepath.Join(dir, rec))
	}
	if form.Get("count") != "" {
		args = append(args, "--cases=200")
	}
	return append(args, readingArgs(form)...), nil
}
