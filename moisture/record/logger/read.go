package logger

import (
	"bytes"
	"fmt"
	"path/filepath"
	"slices"
	"strings"
	"time"

	"crossgrain/moisture/record"
	"crossgrain/tables/problem"
	"crossgrain/tables/sheet"
)

// Read reads files of any common layout into one record, in the order of time: text with any delimiter
// and decimal sign, JSON, and .xlsx. RH comes as a fraction, T in °C (nil without temperatures).
//
// The second result says how the files were read, what was set aside and what was guessed. Several
// channels without a choice, or an unknown one, give a [*ChannelError]; whatever else is left open is a
// [problem.List] that names the option to settle it.
func Read(files []File, o Options) (*record.Record, *Reading, error) {
	if len(files) == 0 {
		return nil, nil, problem.List{{Msg: "no file to read"}}.Err()
	}
	how := &Reading{}
	a := &aside{}
	var parts []part
	for _, f := range files {
		p, err := readFile(f, o, how, a)
		if err != nil {
			return nil, nil, err
		}
		parts = append(parts, p...)
	}
	if err := zonesAgree(parts); err != nil {
		return nil, nil, err
	}
	r := merge(parts, a)
	r.Name = files[0].Name
	if n := len(files) - 1; n > 0 {
		r.Name += fmt.Sprintf(" and %d more", n)
	}
	how.SetAside = a.list
	return r, how, nil
}

// readFile reads the tables of one file that hold the channel asked for.
func readFile(f File, o Options, how *Reading, a *aside) ([]part, error) {
	grids, err := grids(f)
	if err != nil {
		return nil, err
	}
	tables, err := channels(f.Name, grids, o, a)
	if err != nil {
		return nil, err
	}
	var parts []part
	for _, c := range tables {
		p, err := c.part(o, how, a)
		if err != nil {
			return nil, err
		}
		parts = append(parts, p)
	}
	return parts, nil
}

// grids takes a file apart by its container.
func grids(f File) ([]*grid, error) {
	trimmed := bytes.TrimLeft(bytes.TrimPrefix(f.Data, []byte("\xef\xbb\xbf")), " \t\r\n\x00")
	if len(trimmed) == 0 {
		return nil, problem.List{{File: f.Name, Msg: "the file is empty"}}.Err()
	}
	var sheets []sheet.Sheet
	var err error
	encoding := "workbook"
	switch {
	case sheet.IsWorkbook(f.Data):
		sheets, err = sheet.Workbook(f.Name, f.Data)
	case trimmed[0] == '{', trimmed[0] == '[' && !metadata(trimmed):
		encoding = "JSON"
		var text []byte
		if text, _, err = sheet.Decode(f.Name, f.Data); err == nil {
			sheets, err = jsonSheets(f.Name, text)
		}
	default:
		text, encoding, err := sheet.Decode(f.Name, f.Data)
		if err != nil {
			return nil, err
		}
		return []*grid{textGrid(f.Name, encoding, text)}, nil
	}
	if err != nil {
		return nil, err
	}
	var out []*grid
	for _, s := range sheets {
		out = append(out, &grid{name: s.Name, encoding: encoding, rows: s.Rows})
	}
	return out, nil
}

// metadata says whether a text begins with a heading in brackets and not with JSON.
func metadata(text []byte) bool {
	line, _, _ := bytes.Cut(text, []byte("\n"))
	line = bytes.TrimSpace(line)
	return len(line) > 2 && line[len(line)-1] == ']' && !bytes.ContainsAny(line, `{",:0123456789`) && bytes.Count(line, []byte("[")) == 1
}

// chosen is one table with the channel that was chosen in it.
type chosen struct {
	table *table
	room  room
	name  string
	names []string
	file  string
}

// channels finds the channels of a file and takes the one asked for. Sheets that hold the same columns
// one after another in time are parts of one channel; other sheets are channels by their names.
func channels(file string, grids []*grid, o Options, a *aside) ([]chosen, error) {
	type found struct {
		chosen
		id    int
		whole string // with the name of the sheet
	}
	var all []found
	var tables []*table
	for _, g := range grids {
		l, err := detect(g, o)
		if err != nil {
			return nil, named(err, file)
		}
		if l != nil {
			tables = append(tables, l.read(g, a))
		}
	}
	tables = slices.DeleteFunc(tables, func(t *table) bool { return len(t.channels) == 0 && t.layout.place < 0 })
	if len(tables) == 0 {
		return nil, problem.List{{File: file, Msg: "it holds no readings: no rows with a time and numbers were found", Hint: "expected are columns of time, humidity and temperature: a line of names such as time,RH,T and rows such as 2024-03-31 14:00,45.2,20.1"}}.Err()
	}
	several := len(tables) > 1 && !oneRecord(tables)
	for _, t := range tables {
		rooms := len(t.layout.rooms)
		if t.layout.place >= 0 && t.layout.kind < 0 {
			t.take(0, a)
		}
		for id, name := range t.channels {
			whole := name
			if several {
				whole = strings.TrimSpace(sheetTitle(t.grid.name) + " " + name)
			}
			r := t.layout.rooms[min(id, rooms-1)]
			all = append(all, found{chosen{table: t, room: r, name: name, file: file}, id, whole})
		}
	}
	var names []string
	for _, c := range all {
		if !slices.Contains(names, c.whole) {
			names = append(names, c.whole)
		}
	}
	pick, err := choose(file, names, o.Channel)
	if err != nil {
		return nil, err
	}
	if len(names) == 1 && names[0] == "" {
		names = nil
	}
	var out []chosen
	for _, c := range all {
		if c.whole != pick {
			continue
		}
		c.name, c.names = pick, names
		c.table.only(c.id, a)
		out = append(out, c.chosen)
	}
	return out, nil
}

// only keeps the readings of one channel of a table.
func (t *table) only(id int, a *aside) {
	if t.layout.kind < 0 && t.layout.place < 0 {
		t.take(id, a)
		return
	}
	if len(t.channels) < 2 {
		return
	}
	list, stamps := t.list[:0], t.stamps[:0]
	for i, r := range t.list {
		if int(r.channel) == id {
			list, stamps = append(list, r), append(stamps, t.stamps[i])
		}
	}
	t.list, t.stamps, t.lines = list, stamps, len(list)
}

// choose picks a channel by its name, upper and lower case alike.
func choose(file string, names []string, asked string) (string, error) {
	if asked == "" {
		if len(names) == 1 {
			return names[0], nil
		}
		return "", &ChannelError{File: file, Names: names}
	}
	for _, n := range names {
		if fold(n) == fold(asked) {
			return n, nil
		}
	}
	if len(names) == 1 && names[0] == "" {
		return "", nil // a file that does not name its one channel
	}
	return "", &ChannelError{File: file, Asked: asked, Names: names}
}

// oneRecord says whether the sheets have the same columns and so are parts of one record, such as one
// for each month.
func oneRecord(tables []*table) bool {
	for _, t := range tables[1:] {
		if !slices.EqualFunc(t.layout.rooms, tables[0].layout.rooms, func(x, y room) bool { return x.name == y.name }) ||
			!slices.Equal(t.layout.head, tables[0].layout.head) || overlap(t, tables[0]) {
			return false
		}
	}
	return true
}

// overlap compares the first cells of two sheets: the same first moment means two rooms.
func overlap(x, y *table) bool {
	first := func(t *table) string {
		var st stamp
		cells := t.grid.split(t.layout.first, nil)
		t.layout.moment(cells, nil, &st)
		return fmt.Sprint(st.n, st.h, st.m, st.serial)
	}
	return first(x) == first(y)
}

// sheetTitle is the name of a sheet out of "file [sheet]".
func sheetTitle(name string) string {
	i := strings.LastIndexByte(name, '[')
	if i < 0 {
		return filepath.Base(name)
	}
	return strings.TrimSuffix(strings.TrimSuffix(name[i+1:], "]"), ", hidden")
}

// named puts the file before an error that lacks it.
func named(err error, file string) error {
	if strings.Contains(err.Error(), file) {
		return err
	}
	return fmt.Errorf("%s: %w", file, err)
}

// part brings the chosen channel to instants, fractions and °C, and reports on it.
func (c chosen) part(o Options, how *Reading, a *aside) (part, error) {
	t := c.table
	if len(t.list) == 0 {
		return part{}, problem.List{{File: t.grid.name, Msg: "it holds no readings of humidity" + lost(a, t.grid.name)}}.Err()
	}
	s, err := t.date(o, a)
	if err != nil {
		return part{}, err
	}
	unit, guesses, err := t.settle(c.room, o, a)
	if err != nil {
		return part{}, err
	}
	t.zoned(&s, o, a)
	if len(t.list) == 0 {
		return part{}, problem.List{{File: t.grid.name, Msg: "none of its readings can be used" + lost(a, t.grid.name)}}.Err()
	}
	guesses = append(s.guesses, guesses...)
	if len(t.heads) > 0 {
		guesses = append(guesses, fmt.Sprintf("the head stands again at line %s: downloads one after another", listLines(t.heads[:min(3, len(t.heads))])))
	}
	if o.Channel != "" && c.name == "" {
		guesses = append(guesses, fmt.Sprintf("the one channel of the file has no name; it was taken for %q", o.Channel))
	}
	for _, g := range guesses {
		how.Guesses = append(how.Guesses, t.grid.name+": "+g)
	}
	how.Files = append(how.Files, t.report(c, s, unit))
	return part{table: t, zone: s.zone, exact: s.exact}, nil
}

// lost lists why rows of a file were set aside.
func lost(a *aside, file string) string {
	var out []string
	for _, s := range a.list {
		if s.File == file && len(out) < 4 {
			out = append(out, fmt.Sprintf("%d rows: %s, first in line %d", s.Count, s.Reason, s.Lines[0]))
		}
	}
	if len(out) == 0 {
		return ""
	}
	return " (" + strings.Join(out, "; ") + ")"
}

// report says how a table was read.
func (t *table) report(c chosen, s stamped, unit string) FileRead {
	l := t.layout
	f := FileRead{Name: t.grid.name, Encoding: t.grid.encoding, Delimiter: delimiterWord(t.grid.delim), Decimal: "point", Dates: s.order.words(), Zone: "not stated",
		Unit: unit, Channel: c.name, Channels: c.names, Lines: t.lines, Rows: len(t.list)}
	if l.decimal == ',' {
		f.Decimal = "comma"
	}
	if t.grid.rows != nil {
		f.Name = c.file
	}
	zone := time.UTC
	if s.zone != nil {
		zone, f.Zone = s.zone, s.zone.String()
	} else if s.exact {
		f.Zone = "stated in each row"
	}
	for _, k := range append(slices.Clone(l.date), c.room.rh, c.room.t, c.room.dew) {
		if k >= 0 && k < len(l.head) && l.kind < 0 {
			f.Columns = append(f.Columns, l.head[k])
		}
	}
	low, high := t.list[0].at, t.list[0].at
	for _, r := range t.list {
		low, high = min(low, r.at), max(high, r.at)
	}
	f.First, f.Last = time.UnixMilli(low).In(zone), time.UnixMilli(high).In(zone)
	return f
}

func delimiterWord(d byte) string {
	switch d {
	case ',':
		return "comma"
	case ';':
		return "semicolon"
	case '\t':
		return "tab"
	case '|':
		return "bar"
	case ' ', blanks:
		return "spaces"
	}
	return "cells"
}

// zonesAgree refuses parts of which some state their zone and others do not.
func zonesAgree(parts []part) error {
	known, unknown := "", ""
	for _, p := range parts {
		if p.zone != nil || p.exact {
			known = p.table.grid.name
		} else {
			unknown = p.table.grid.name
		}
	}
	if known == "" || unknown == "" {
		return nil
	}
	return mixedZones(known, unknown)
}
