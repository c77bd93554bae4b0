package page

import (
	"encoding/json"
	"errors"
	"fmt"
	"net/http"
	"net/url"
	"os"
	"path"
	"path/filepath"
	"sort"
	"strings"

	"crossgrain/cmd/internal/report"
	"crossgrain/panel/intake"
)

// listArgs runs intake on a list: dry, or into the folder of the page where the form says so.
func listArgs(s *Server, dir string, form url.Values) ([]string, error) {
	name := path.Base(form.Get("list"))
	if form.Get("list") == "" {
		return nil, errors.New("choose a list, or drop one")
	}
	data, err := s.folder.read(path.Join(listsDir, name), mostRecord)
	if err != nil {
		return nil, err
	}
	file := filepath.Join(dir, name)
	if err := os.WriteFile(file, data, 0o600); err != nil {
		return nil, err
	}
	args := []string{"intake", file, s.folder.path, "--format=json"}
	if form.Get("write") != "" {
		args = append(args, "--write")
	}
	if form.Get("numbers_right") != "" {
		args = append(args, "--numbers-right")
	}
	args = given(args, "--sheet", form, "sheet")
	var columns []string
	for key := range form {
		heading, ok := strings.CutPrefix(key, "column:")
		if v := strings.TrimSpace(form.Get(key)); ok && v != "" {
			columns = append(columns, "--column="+heading+"="+v)
		}
	}
	sort.Strings(columns)
	return append(args, columns...), nil
}

// listView is how a list was read.
type listView struct {
	jobView
	Doc    report.Intake
	List   string
	Fields []string
	Form   url.Values
}

// showList shows how a list was read, with its columns to put right and its questions.
func showList(s *Server, w http.ResponseWriter, j *job, v jobView) {
	out := listView{jobView: v, List: j.form.Get("list"), Fields: intake.Fields(), Form: j.form}
	if err := json.Unmarshal([]byte(j.stdout), &out.Doc); err != nil {
		s.sorry(w, http.StatusInternalServerError, fmt.Sprintf("The answer could not be read: %v", err))
		return
	}
	out.Text = ""
	s.show(w, http.StatusOK, "list.html", out)
}
