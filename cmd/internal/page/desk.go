package page

import (
	"bytes"
	"fmt"
	"io"
	"net/http"
	"net/url"
	"path"
	"slices"
	"strings"

	"github.com/BurntSushi/toml"

	"crossgrain/cmd/internal/example"
	"crossgrain/panel"
	"crossgrain/tables/edit"
)

// deskView is the first page: six facts, files that are here, files to drop.
type deskView struct {
	view
	Dir    string
	Panels []panelView
	Facts  map[string]string // as typed, by their names in the form
	Wrong  []wrong
	Woods  []string
}

// panelView is one panel of the folder.
type panelView struct {
	Key, Number, Note string
}

func (s *Server) desk(w http.ResponseWriter, r *http.Request) {
	s.show(w, http.StatusOK, "desk.html", s.deskView(nil, nil))
}

func (s *Server) deskView(facts map[string]string, list []wrong) deskView {
	return deskView{view: view{Title: "crossgrain", Here: "desk"}, Dir: s.folder.path, Panels: s.panels(), Facts: facts, Wrong: list, Woods: woodNames()}
}

// panels lists the panel files and drafts of the folder.
func (s *Server) panels() []panelView {
	drafts := s.folder.list(draftsDir, ".toml")
	names := slices.Concat(s.folder.list(".", ".toml"), drafts)
	slices.Sort(names)
	var out []panelView
	for _, name := range slices.Compact(names) {
		key := strings.TrimSuffix(name, path.Ext(name))
		at, note := name, ""
		if slices.Contains(drafts, name) {
			at, note = path.Join(draftsDir, name), "not saved yet"
		}
		src, err := s.folder.read(at, mostPanel)
		if err != nil || !goodKey(key) {
			continue
		}
		if number, ok := accession(src); ok {
			out = append(out, panelView{Key: key, Number: number, Note: note})
		}
	}
	return out
}

// accession is the number in a panel file; false: it is a file of another kind.
func accession(src []byte) (string, bool) {
	var doc struct {
		Panel map[string]any
	}
	if _, err := toml.Decode(strings.TrimPrefix(string(src), "\ufeff"), &doc); err != nil {
		return "cannot be read", bytes.Contains(src, []byte("[panel]"))
	}
	if _, ok := doc.Panel["file"]; ok || doc.Panel == nil {
		return "", false
	}
	number, _ := doc.Panel["accession"].(string)
	return number, doc.Panel["accession"] != nil || doc.Panel["height_mm"] != nil
}

// facts are the first questions, in their order, by the name of the field and the key of the file.
var facts = []struct{ Name, Label, Table, Key string }{
	{"number", "Number", "panel", "accession"},
	{"height", "Height", "panel", "height_mm"},
	{"width", "Width", "panel", "width_mm"},
	{"wood", "Wood", "panel", "wood"},
	{"boards", "Boards", "panel", "boards"},
}

// begin makes a panel file of the first facts and goes on to describe it.
func (s *Server) begin(w http.ResponseWriter, r *http.Request) {
	r.Body = http.MaxBytesReader(w, r.Body, mostForm)
	if err := r.ParseForm(); err != nil {
		s.sorry(w, http.StatusBadRequest, "The form could not be read: "+err.Error())
		return
	}
	typed := map[string]string{}
	for _, name := range []string{"number", "height", "width", "wood", "boards", "back", "cracks"} {
		typed[name] = strings.TrimSpace(r.PostForm.Get(name))
	}
	text, list := fromFacts(typed)
	if len(list) > 0 {
		s.show(w, http.StatusUnprocessableEntity, "desk.html", s.deskView(typed, list))
		return
	}
	s.onTo(w, r, typed["number"]+".toml", text)
}

// onTo begins a sheet and goes to it.
func (s *Server) onTo(w http.ResponseWriter, r *http.Request, name string, text []byte) {
	sh, err := s.newSheet(name, text)
	if err != nil {
		s.sorry(w, http.StatusInternalServerError, err.Error())
		return
	}
	http.Redirect(w, r, "/panel/"+url.PathEscape(sh.key), http.StatusSeeOther)
}

// fromFacts writes the first facts as a panel file, or lists what is wrong with them.
func fromFacts(typed map[string]string) (text []byte, list []wrong) {
	var b strings.Builder
	b.WriteString("format = 1\n\n[panel]\n")
	for _, f := range facts {
		k := keyOf(f.Table, f.Key)
		if literal := k.Literal(typed[f.Name]); literal != "" {
			fmt.Fprintf(&b, "%s = %s\n", f.Key, literal)
		} else if k.Required {
			list = append(list, wrong{ID: "f-" + f.Name, Label: f.Label, Text: "is needed"})
		}
	}
	switch typed["back"] {
	case "nothing", "?":
		fmt.Fprintf(&b, "back = %s\n", edit.Quote(typed["back"]))
	}
	switch typed["cracks"] {
	case "none", "?":
		fmt.Fprintf(&b, "cracks = %s\n", edit.Quote(typed["cracks"]))
	case "elsewhere":
		b.WriteString("cracks = \"not described\"\n")
	}
	switch typed["back"] {
	case "cradle":
		b.WriteString("\n[cradle]\n")
	case "battens":
		b.WriteString("\n[batten.upper]\n\n[batten.lower]\n")
	}
	if c := typed["cracks"]; c == "top" || c == "bottom" || c == "left" || c == "right" {
		fmt.Fprintf(&b, "\n[split.%s]\nfrom = %q\n", c, c)
	}
	if len(list) > 0 {
		return nil, list
	}
	_, problems := panel.Read("", []byte(b.String()))
	for _, p := range problems {
		item := wrong{Text: told(p)}
		for _, f := range facts {
			if p.Part == f.Table+"."+f.Key {
				item.ID, item.Label = "f-"+f.Name, f.Label
			}
		}
		list = append(list, item)
	}
	return []byte(b.String()), list
}

func keyOf(table, name string) panel.AskedKey {
	for _, a := range panel.Asking() {
		for _, k := range a.Keys {
			if a.Path == table && k.Name == name {
				return k
			}
		}
	}
	return panel.AskedKey{}
}

// open takes a file that was dropped and goes on by what it is.
func (s *Server) open(w http.ResponseWriter, r *http.Request) {
	if r.URL.Query().Has("example") {
		s.onTo(w, r, "invented-example.toml", example.Panel())
		return
	}
	name, data, err := upload(r, "file")
	if err != nil {
		s.sorry(w, http.StatusBadRequest, err.Error())
		return
	}
	switch ending := strings.ToLower(path.Ext(name)); {
	case ending == ".toml":
		if _, ok := accession(data); !ok {
			s.sorry(w, http.StatusUnprocessableEntity, fmt.Sprintf("%s is a TOML file, but not one of a panel: it has no table [panel] with a number and a size. Loans and stores have pages of their own.", name))
			return
		}
		s.openPanel(w, r, name, data)
	case s.isList(name, data):
		s.keepFor(w, r, name, data, "list")
	default:
		s.keepFor(w, r, name, data, "record")
	}
}

// openPanel opens a panel file that was dropped; where the folder has the same one already, that.
func (s *Server) openPanel(w http.ResponseWriter, r *http.Request, name string, data []byte) {
	key := plainName(strings.TrimSuffix(name, path.Ext(name)))
	if there, err := s.folder.read(key+".toml", mostPanel); err == nil && bytes.Equal(there, data) {
		http.Redirect(w, r, "/panel/"+url.PathEscape(key), http.StatusSeeOther)
		return
	}
	s.onTo(w, r, name, data)
}

// upload reads the file of a form.
func upload(r *http.Request, field string) (name string, data []byte, err error) {
	if err := r.ParseMultipartForm(32 << 20); err != nil {
		return "", nil, fmt.Errorf("the file could not be taken: %w", err)
	}
	defer r.MultipartForm.RemoveAll()
	f, head, err := r.FormFile(field)
	if err != nil || head.Filename == "" {
		return "", nil, fmt.Errorf("choose a file first")
	}
	defer f.Close()
	if data, err = io.ReadAll(f); err != nil {
		return "", nil, fmt.Errorf("the file could not be taken: %w", err)
	}
	return path.Base(strings.ReplaceAll(head.Filename, `\`, "/")), data, nil
}
