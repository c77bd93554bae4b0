package page

import (
	"bytes"
	"context"
	"fmt"
	"path"
	"strings"
	"sync"
	"unicode"

	"crossgrain/panel"
	"crossgrain/tables/edit"
	"crossgrain/tables/problem"
)

// sheet is one panel that is being described.
type sheet struct {
	key string // in addresses, and the file's name without its ending

	mu      sync.Mutex
	text    []byte // the panel file as it stands
	saved   []byte // as it lies in the folder; nil: not yet
	ask     question
	rev     int     // counts changes
	read    readNow // text and question at the last change
	cancel  context.CancelFunc
	answer  *answer // the latest, perhaps of an older text where the present one cannot be read
	watch   watchers
	stage   progress
	failure string // why the draft could not be written
}

// progress is how far the present work is.
type progress struct {
	Words    string
	Done, Of int
	Ended    bool // without the finest answer; Words says why
}

// name is the panel file of the sheet.
func (sh *sheet) name() string { return sh.key + ".toml" }

// draft is where what is typed is kept until it is saved.
func (sh *sheet) draft() string { return path.Join(draftsDir, sh.name()) }

// unsaved says whether the text differs from the file. The caller holds the lock.
func (sh *sheet) unsaved() bool { return !bytes.Equal(sh.text, sh.saved) }

// sheet returns the sheet of a key: from memory, from its draft or from its file.
func (s *Server) sheet(key string) (*sheet, error) {
	s.mu.Lock()
	defer s.mu.Unlock()
	if sh, ok := s.sheets[key]; ok {
		return sh, nil
	}
	if !goodKey(key) {
		return nil, fmt.Errorf("no panel of that name is here")
	}
	sh := &sheet{key: key}
	if s.folder.has(sh.name()) {
		src, err := s.folder.read(sh.name(), mostPanel)
		if err != nil {
			return nil, err
		}
		sh.text, sh.saved = src, src
	}
	if s.folder.has(sh.draft()) {
		src, err := s.folder.read(sh.draft(), mostPanel)
		if err != nil {
			return nil, err
		}
		sh.text = src
		sh.ask = s.draftAsk(sh)
	}
	if sh.text == nil {
		return nil, fmt.Errorf("no panel of that name is here")
	}
	s.sheets[key] = sh
	return sh, nil
}

// goodKey says whether a key is the plain name of a file in the folder.
func goodKey(key string) bool {
	return key != "" && len(key) < 200 && key[0] != '.' && !strings.ContainsAny(key, `/\:`) && !strings.ContainsFunc(key, unicode.IsControl)
}

// newSheet begins a sheet with a text and a name that no file, draft or sheet has yet.
func (s *Server) newSheet(name string, text []byte) (*sheet, error) {
	s.mu.Lock()
	defer s.mu.Unlock()
	base := plainName(strings.TrimSuffix(name, path.Ext(name)))
	key := base
	for n := 2; s.sheets[key] != nil || s.folder.has(key+".toml") || s.folder.has(path.Join(draftsDir, key+".toml")); n++ {
		key = fmt.Sprintf("%s-%d", base, n)
	}
	sh := &sheet{key: key, text: text}
	if err := s.folder.write(sh.draft(), text); err != nil {
		return nil, err
	}
	s.sheets[key] = sh
	return sh, nil
}

// set changes the text of a sheet and keeps a draft of it. The caller holds the lock of the sheet.
func (s *Server) set(sh *sheet, text []byte) {
	if bytes.Equal(text, sh.text) {
		return
	}
	sh.text = text
	s.keep(sh)
}

// keep writes the draft, or removes it where nothing is unsaved. The caller holds the lock of the sheet.
func (s *Server) keep(sh *sheet) {
	sh.failure = ""
	if !sh.unsaved() {
		s.folder.remove(sh.draft())
		s.folder.remove(sh.askFile())
		return
	}
	err := s.folder.write(sh.draft(), sh.text)
	if err == nil {
		err = s.folder.write(sh.askFile(), sh.ask.encode())
	}
	if err != nil {
		sh.failure = err.Error()
	}
}

// changeKeys puts what was typed into the text, key by key; a value that stands there already is left letter for letter.
func changeKeys(text []byte, typed map[string]string) ([]byte, error) {
	t, err := edit.Parse(text)
	if err != nil {
		return nil, err
	}
	for _, g := range formOf(t, nil).Groups {
		for _, f := range g.Fields {
			value, ok := typed[f.Path]
			value = strings.ReplaceAll(value, "\r\n", "\n")
			if !ok || strings.TrimSpace(value) == strings.TrimSpace(f.Value) {
				continue
			}
			if err := setKey(t, g, f, value); err != nil {
				return nil, err
			}
		}
	}
	return t.Bytes(), nil
}

func setKey(t *edit.Text, g group, f field, value string) error {
	at := append(strings.Split(g.Path, "."), f.Name)
	if g.Path == "ends" {
		if _, ok := rawAt(t, []string{"ends"}, "state"); ok {
			if _, top := t.Raw("ends"); top && len(t.Keys("ends")) == 0 {
				at = []string{"ends"}
			}
		}
	}
	literal := f.Literal(value)
	if literal == "" {
		t.Remove(at...)
		return nil
	}
	if err := t.Set(literal, at...); err != nil {
		return fmt.Errorf("%s: %w", f.Path, err)
	}
	return nil
}

// read reads a panel text.
func read(key string, text []byte) (*panel.Panel, problem.List) { return panel.Read(key+".toml", text) }
