package page

import (
	"archive/zip"
	"bytes"
	"context"
	"errors"
	"fmt"
	"io/fs"
	"mime"
	"net/http"
	"net/url"
	"os"
	"path"
	"path/filepath"
	"slices"
	"strconv"
	"strings"
	"sync"
	"time"
)

// Progress is what a command's stderr has to be for the command to tell how far it is.
type Progress interface {
	Progress(stage string, done, of int)
}

// job is one run of a command, and the files it made.
type job struct {
	id    string
	task  *task
	form  url.Values // as it was asked, to ask again
	began time.Time

	mu     sync.Mutex
	stage  progress
	done   bool
	code   int
	stdout string
	stderr bytes.Buffer
	files  map[string][]byte
	kept   string // folder in which the files were kept
	cancel context.CancelFunc
	watch  watchers
}

// Progress notes how far the command is.
func (j *job) Progress(stage string, done, of int) {
	j.mu.Lock()
	defer j.mu.Unlock()
	j.stage = progress{Words: stage, Done: done, Of: of}
	j.watch.tell()
}

// Write takes what the command says on stderr.
func (j *job) Write(p []byte) (int, error) {
	j.mu.Lock()
	defer j.mu.Unlock()
	if j.stderr.Len() < 1<<20 {
		j.stderr.Write(p)
	}
	return len(p), nil
}

// mostJobs is how many finished jobs are remembered; their files are in memory.
const mostJobs = 12

// start runs a task in a folder of its own, which is gone afterwards.
func (s *Server) start(t *task, form url.Values, prepare func(dir string) ([]string, error)) (*job, error) {
	dir, err := os.MkdirTemp("", "crossgrain-*")
	if err != nil {
		return nil, err
	}
	args, err := prepare(dir)
	if err != nil {
		os.RemoveAll(dir)
		return nil, err
	}
	ctx, cancel := context.WithCancel(s.ctx)
	s.mu.Lock()
	s.nextJob++
	j := &job{id: strconv.Itoa(s.nextJob), task: t, form: form, began: time.Now(), cancel: cancel, files: map[string][]byte{}}
	s.jobs[j.id] = j
	delete(s.jobs, strconv.Itoa(s.nextJob-mostJobs))
	s.mu.Unlock()
	go func() {
		defer os.RemoveAll(dir)
		defer cancel()
		s.run(ctx, j, args, dir)
	}()
	return j, nil
}

// outDir is the folder in a job's own that the command writes to.
const outDir = "out"

func (s *Server) run(ctx context.Context, j *job, args []string, dir string) {
	var stdout bytes.Buffer
	code := 0
	select { // one at a time works out what takes long
	case s.work <- struct{}{}:
		code = s.Run(ctx, args, strings.NewReader(""), &stdout, j)
		<-s.work
	case <-ctx.Done():
		code = -1
	}
	files := map[string][]byte{}
	out := filepath.Join(dir, outDir)
	err := filepath.WalkDir(out, func(name string, d fs.DirEntry, err error) error {
		if err != nil || d.IsDir() {
			return err
		}
		rel, err := filepath.Rel(out, name)
		if err == nil {
			files[filepath.ToSlash(rel)], err = os.ReadFile(name)
		}
		return err
	})
	j.mu.Lock()
	defer j.mu.Unlock()
	if err != nil && !errors.Is(err, fs.ErrNotExist) {
		fmt.Fprintln(&j.stderr, err)
	}
	said := strings.ReplaceAll(j.stderr.String(), dir+string(filepath.Separator), "") // nobody knows that folder
	j.stderr.Reset()
	j.stderr.WriteString(said)
	j.done, j.code, j.stdout, j.files = true, code, strings.ReplaceAll(stdout.String(), dir+string(filepath.Separator), ""), files
	if ctx.Err() != nil {
		j.code = -1
	}
	j.watch.tell()
}

// jobView is what the page of a job shows.
type jobView struct {
	view
	ID, Task  string
	Done      bool
	Stopped   bool
	Failed    string
	Remarks   []string
	Progress  progress
	Main      string
	MainTitle string
	Papers    []jobPaper // pages that print
	Files     []string   // everything else
	Text      string     // the answer as plain text, where no paper was made
	Kept      string
	Again     string
}

// jobPaper is a page that prints.
type jobPaper struct{ File, Title string }

func (s *Server) findJob(w http.ResponseWriter, r *http.Request) *job {
	s.mu.Lock()
	j := s.jobs[r.PathValue("id")]
	s.mu.Unlock()
	if j == nil {
		s.missing(w, fmt.Errorf("that answer is no longer here; ask again"))
	}
	return j
}

func (s *Server) job(w http.ResponseWriter, r *http.Request) {
	j := s.findJob(w, r)
	if j == nil {
		return
	}
	j.mu.Lock()
	v := j.view()
	if j.done && j.code == 0 && j.task.show != nil {
		show := j.task.show
		j.mu.Unlock()
		show(s, w, j, v)
		return
	}
	j.mu.Unlock()
	if !v.Done {
		w.Header().Set("Refresh", "2") // for browsers without script; the script follows the events
	}
	s.show(w, http.StatusOK, "job.html", v)
}

// view of the job; the caller holds its lock.
func (j *job) view() jobView {
	v := jobView{
		view: view{Title: j.task.Title, Here: j.task.Name}, ID: j.id, Task: j.task.Name, Done: j.done, Stopped: j.done && j.code < 0,
		Progress: j.stage, Kept: j.kept, Again: j.task.Name + "?" + j.again(),
	}
	if !j.done {
		return v
	}
	said := strings.TrimSpace(j.stderr.String())
	if j.code > 0 {
		v.Failed = withoutFlags(strings.TrimPrefix(said, "crossgrain: "))
		return v
	}
	for line := range strings.Lines(said) {
		if line = strings.TrimSpace(line); line != "" && !strings.HasPrefix(line, "wrote ") {
			v.Remarks = append(v.Remarks, strings.TrimPrefix(line, "remark: "))
		}
	}
	names := make([]string, 0, len(j.files))
	for name := range j.files {
		names = append(names, name)
	}
	slices.Sort(names)
	for _, name := range names {
		if path.Ext(name) == ".html" {
			v.Papers = append(v.Papers, jobPaper{File: name, Title: htmlTitle(j.files[name], name)})
		} else {
			v.Files = append(v.Files, name)
		}
	}
	if len(v.Papers) == 0 {
		v.Text = j.stdout
		return v
	}
	v.Main, v.MainTitle = v.Papers[0].File, v.Papers[0].Title
	for _, p := range v.Papers {
		if p.File == j.task.Main {
			v.Main, v.MainTitle = p.File, p.Title
		}
	}
	return v
}

// again are the fields of the form, without files.
func (j *job) again() string {
	v := url.Values{}
	for name, values := range j.form {
		for _, x := range values {
			if len(x) < 2000 {
				v.Add(name, x)
			}
		}
	}
	return v.Encode()
}

// htmlTitle is the title of a page that this program wrote.
func htmlTitle(page []byte, other string) string {
	_, rest, ok := bytes.Cut(page, []byte("<title>"))
	title, _, ok2 := bytes.Cut(rest, []byte("</title>"))
	if !ok || !ok2 {
		return other
	}
	return htmlUnescape(string(title))
}

func htmlUnescape(s string) string {
	return strings.NewReplacer("&amp;", "&", "&lt;", "<", "&gt;", ">", "&#34;", `"`, "&#39;", "'", "&#43;", "+").Replace(s)
}

func (s *Server) jobEvents(w http.ResponseWriter, r *http.Request) {
	j := s.findJob(w, r)
	if j == nil {
		return
	}
	s.stream(w, r, &j.watch, func() (any, bool, error) {
		j.mu.Lock()
		defer j.mu.Unlock()
		return struct {
			progress
			Finished bool
		}{j.stage, j.done}, j.done, nil
	})
}

func (s *Server) stopJob(w http.ResponseWriter, r *http.Request) {
	if j := s.findJob(w, r); j != nil {
		j.cancel()
		http.Redirect(w, r, "/job/"+j.id, http.StatusSeeOther)
	}
}

// jobFile is one file of a job, or all of them as all.zip.
func (s *Server) jobFile(w http.ResponseWriter, r *http.Request) {
	j := s.findJob(w, r)
	if j == nil {
		return
	}
	name := r.PathValue("name")
	j.mu.Lock()
	data, ok := j.files[name]
	if name == "all.zip" && !ok {
		data, ok = zipped(j.files), true
	}
	title := j.task.Name
	j.mu.Unlock()
	if !ok {
		s.missing(w, fmt.Errorf("there is no file %q", name))
		return
	}
	kind := mime.TypeByExtension(path.Ext(name))
	if kind == "" {
		kind = "application/octet-stream"
	}
	h := w.Header()
	h.Set("Content-Type", kind)
	h.Set("Content-Security-Policy", paperPolicy)
	if path.Ext(name) != ".html" || r.URL.Query().Has("save") {
		h.Set("Content-Disposition", attachment(title+"-"+path.Base(name)))
	}
	_, _ = w.Write(data)
}

// zipped puts files into one, by name.
func zipped(files map[string][]byte) []byte {
	names := make([]string, 0, len(files))
	for n := range files {
		names = append(names, n)
	}
	slices.Sort(names)
	var b bytes.Buffer
	z := zip.NewWriter(&b)
	for _, n := range names {
		if f, err := z.Create(n); err == nil {
			_, _ = f.Write(files[n])
		}
	}
	_ = z.Close()
	return b.Bytes()
}

// keepJob writes the files of a job into the folder.
func (s *Server) keepJob(w http.ResponseWriter, r *http.Request) {
	j := s.findJob(w, r)
	if j == nil {
		return
	}
	j.mu.Lock()
	defer j.mu.Unlock()
	if j.kept == "" && len(j.files) > 0 {
		dir := s.folder.free(papersDir, j.task.Name+"-"+j.began.Format(time.DateOnly), "")
		for name, data := range j.files {
			if err := s.folder.write(path.Join(dir, name), data); err != nil {
				s.sorry(w, http.StatusInternalServerError, err.Error())
				return
			}
		}
		j.kept = dir
	}
	http.Redirect(w, r, "/job/"+j.id, http.StatusSeeOther)
}
