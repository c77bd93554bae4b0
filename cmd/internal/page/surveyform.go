package page

import (
	"errors"
	"fmt"
	"net/url"
	"os"
	"path"
	"path/filepath"
	"strings"

	"crossgrain/panel"
	"crossgrain/tables/edit"
)

// mostStores is how many stores the form has.
const mostStores = 4

// surveyArgs writes the list of stores from the form: their climates, their places, and what stands in them.
func surveyArgs(s *Server, dir string, form url.Values) ([]string, error) {
	files, err := s.surveyed(dir, form)
	if err != nil {
		return nil, err
	}
	var l lines
	l.WriteString("format = 1\n")
	n := 0
	for i := 1; i <= mostStores; i++ {
		at := func(name string) string { return strings.TrimSpace(form.Get(fmt.Sprintf("store%d_%s", i, name))) }
		if at("name")+at("record")+at("low")+at("high") == "" {
			continue
		}
		n++
		l.table(fmt.Sprintf("store.s%d", i))
		name := at("name")
		if name == "" {
			name = fmt.Sprintf("Store %d", i)
		}
		l.words("name", name)
		l.number("places", at("places"))
		if r := at("record"); r != "" {
			rec, err := s.recordFile(dir, r)
			if err != nil {
				return nil, err
			}
			l.words("record", rec)
		} else {
			l.number("low_rh_pct", at("low"))
			l.number("high_rh_pct", at("high"))
		}
		if here := s.standing(form, i); len(here) > 0 {
			l.table(fmt.Sprintf("rack.r%d", i))
			l.words("store", fmt.Sprintf("s%d", i))
			fmt.Fprintf(&l, "panels = [%s]\n", strings.Join(here, ", "))
		}
	}
	if n == 0 {
		return nil, errors.New("name at least one store, with its record or the humidity that it holds")
	}
	stores := filepath.Join(dir, "stores.toml")
	if err := os.WriteFile(stores, []byte(l.String()), 0o600); err != nil {
		return nil, err
	}
	args := append([]string{"survey"}, files...)
	return append(append(args, "--stores="+stores, "--out="+filepath.Join(dir, outDir)), readingArgs(form)...), nil
}

// surveyed are the panels that were ticked and the lists.
func (s *Server) surveyed(dir string, form url.Values) ([]string, error) {
	var out []string
	if len(form["panel"]) > 0 {
		names, err := s.panelFiles(dir, form)
		if err != nil {
			return nil, err
		}
		out = in(dir, names...)
	}
	for _, n := range form["list"] {
		if n == "" {
			continue
		}
		data, err := s.folder.read(path.Join(listsDir, path.Base(n)), mostRecord)
		if err != nil {
			return nil, err
		}
		file := filepath.Join(dir, path.Base(n))
		if err := os.WriteFile(file, data, 0o600); err != nil {
			return nil, err
		}
		out = append(out, file)
	}
	if len(out) == 0 {
		return nil, errors.New("choose panels, or drop a list of them")
	}
	return out, nil
}

// standing lists the numbers of the panels that stand in a store, in quotes.
func (s *Server) standing(form url.Values, store int) []string {
	var out []string
	for _, key := range form["panel"] {
		if form.Get("in:"+key) != fmt.Sprint(store) {
			continue
		}
		sh, err := s.sheet(key)
		if err != nil {
			continue
		}
		sh.mu.Lock()
		p, problems := panel.Read(sh.name(), sh.text)
		sh.mu.Unlock()
		if len(problems) == 0 {
			out = append(out, edit.Quote(p.Accession()))
		}
	}
	return out
}
