package page

import (
	"errors"
	"fmt"
	"net/url"
	"os"
	"path/filepath"
	"strings"
	"time"

	"crossgrain/tables/edit"
)

// lines writes a file that a command reads, key by key; what was not typed is left out.
type lines struct{ strings.Builder }

func (l *lines) table(name string) { fmt.Fprintf(l, "\n[%s]\n", name) }

// words writes text in quotes.
func (l *lines) words(key, value string) {
	if value = strings.TrimSpace(value); value != "" {
		fmt.Fprintf(l, "%s = %s\n", key, edit.Quote(value))
	}
}

// number writes a number as typed where it is one; else in quotes, so that the reader says what is wrong with it.
func (l *lines) number(key, value string) {
	value = strings.TrimSpace(strings.Replace(value, ",", ".", 1))
	switch {
	case value == "":
	case plainDigits(value):
		fmt.Fprintf(l, "%s = %s\n", key, value)
	default:
		fmt.Fprintf(l, "%s = %s\n", key, edit.Quote(value))
	}
}

// plainDigits says whether a text is digits with at most one point, as TOML takes a number.
func plainDigits(s string) bool {
	whole, part, point := strings.Cut(s, ".")
	digits := func(t string) bool { return t != "" && strings.Trim(t, "0123456789") == "" }
	return digits(whole) && (len(whole) == 1 || whole[0] != '0') && (!point || digits(part))
}

// mostVenues is how many places of a loan the form has.
const mostVenues = 3

// loanArgs writes a loan file from the form. Between home, the venues and home again stand days of travel.
func loanArgs(s *Server, dir string, form url.Values) ([]string, error) {
	names, err := s.panelFiles(dir, form)
	if err != nil {
		return nil, err
	}
	var l lines
	l.WriteString("format = 1\n")
	l.table("loan")
	for _, key := range []string{"number", "title", "lender", "borrower", "offer"} {
		l.words(key, form.Get(key))
	}
	l.words("date", time.Now().Format(time.DateOnly))
	if len(names) > 1 {
		fmt.Fprintf(&l, "one_room = %t\n", form.Get("one_room") != "")
	}
	l.number("of_100", form.Get("of_100"))
	for i, name := range names {
		l.table(fmt.Sprintf("panel.p%d", i+1))
		l.words("file", name)
		l.words("inspected_by", form.Get("inspected_by"))
		l.words("inspected_on", form.Get("inspected_on"))
	}
	if err := s.home(&l, dir, form); err != nil {
		return nil, err
	}
	if form.Get("case") != "" {
		l.table("case")
		l.words("kind", form.Get("case"))
		l.number("volume_l", form.Get("volume_l"))
		l.number("air_changes_per_day", form.Get("air_changes_per_day"))
		l.number("buffer_kg", form.Get("buffer_kg"))
	}
	if err := s.legs(&l, dir, form); err != nil {
		return nil, err
	}
	file := filepath.Join(dir, "loan.toml")
	if err := os.WriteFile(file, []byte(l.String()), 0o600); err != nil {
		return nil, err
	}
	return append([]string{"loan", file, "--out=" + filepath.Join(dir, outDir)}, readingArgs(form)...), nil
}

// home is the record of the room that the panels come from.
func (s *Server) home(l *lines, dir string, form url.Values) error {
	if form.Get("home") == "" {
		return nil
	}
	rec, err := s.recordFile(dir, form.Get("home"))
	if err == nil {
		l.table("home")
		l.words("record", rec)
	}
	return err
}

// legs writes venues, and the legs between them in the order of the form.
func (s *Server) legs(l *lines, dir string, form url.Values) error {
	travel := form.Get("travel_days")
	days := 2
	if travel != "" {
		if _, err := fmt.Sscanf(travel, "%d", &days); err != nil || days < 0 || days > 60 {
			return fmt.Errorf("the days of travel must be a whole number from 0 to 60, got %q", travel)
		}
	}
	var last time.Time
	n := 0
	for i := 1; i <= mostVenues; i++ {
		at := func(name string) string { return strings.TrimSpace(form.Get(fmt.Sprintf("venue%d_%s", i, name))) }
		if at("name")+at("from")+at("to")+at("terms")+at("record") == "" {
			continue
		}
		from, err := day(at("from"), fmt.Sprintf("venue %d, from", i))
		if err != nil {
			return err
		}
		to, err := day(at("to"), fmt.Sprintf("venue %d, to", i))
		if err != nil {
			return err
		}
		begin := from.AddDate(0, 0, -days)
		if n > 0 {
			begin = last
		}
		if begin.Before(from) {
			leg(l, fmt.Sprintf("way-%d", i), "transit", "", begin, from)
		}
		name := fmt.Sprintf("v%d", i)
		l.table("venue." + name)
		l.words("name", at("name"))
		l.words("terms", at("terms"))
		l.words("measured", at("measured"))
		if r := at("record"); r != "" {
			rec, err := s.recordFile(dir, r)
			if err != nil {
				return err
			}
			l.words("record", rec)
		}
		leg(l, fmt.Sprintf("show-%d", i), "on show", name, from, to)
		last = to
		n++
	}
	if n == 0 {
		return errors.New("name at least one venue, with its dates and the humidity that it holds, or its record")
	}
	if days > 0 {
		leg(l, "back", "transit", "", last, last.AddDate(0, 0, days))
	}
	return nil
}

func leg(l *lines, name, kind, venue string, from, to time.Time) {
	l.table("leg." + name)
	l.words("kind", kind)
	l.words("venue", venue)
	l.words("from", from.Format(time.DateOnly))
	l.words("to", to.Format(time.DateOnly))
}

func day(s, what string) (time.Time, error) {
	t, err := time.Parse(time.DateOnly, s)
	if err != nil {
		return t, fmt.Errorf("%s: must be a day such as 2026-10-05, got %q", what, s)
	}
	return t, nil
}
