package logger

import (
	"fmt"
	"strings"
	"time"
)

// File is one file as the user named it.
type File struct {
	Name string
	Data []byte
}

// Options settle what a file leaves open. The zero value decides from the files alone.
type Options struct {
	Channel string         // name of the channel or room to read
	Dates   string         // "dmy", "mdy" or "ymd"
	Zone    *time.Location // of clocks that state none; nil: read as they stand
	Unit    string         // of temperature: "C" or "F"
	Decimal string         // "." or ","
}

// Reading says how files were read.
type Reading struct {
	Files    []FileRead
	SetAside []SetAside
	Guesses  []string // one sentence each
}

// FileRead says how one file was read.
type FileRead struct {
	Name        string
	Encoding    string   // such as "UTF-8", "UTF-16LE", "Windows-1252", "workbook", "JSON"
	Delimiter   string   // in words: "comma", "semicolon", "tab", "spaces", "cells"
	Decimal     string   // "point" or "comma"
	Dates       string   // in words, such as "day/month/year"
	Zone        string   // "not stated", "UTC", "UTC+02:00", "Europe/Berlin"
	Unit        string   // of temperature as found: "C", "F" or "" without temperatures
	Channel     string   // the one read
	Channels    []string // all there are
	Columns     []string // names of the columns used, time first
	Lines       int      // lines of data
	Rows        int      // readings taken
	First, Last time.Time
}

// SetAside counts the rows of one file that were not taken, by reason.
type SetAside struct {
	File   string
	Reason string // in words, such as "no value for humidity (---, NaN, empty)"
	Count  int
	Lines  []int // the first three
}

// ChannelError says that a file holds several channels and none, or an unknown one, was chosen.
type ChannelError struct {
	File  string
	Asked string // "" when none was asked for
	Names []string
}

func (e *ChannelError) Error() string {
	const most = 20
	names := strings.Join(e.Names[:min(most, len(e.Names))], ", ")
	if n := len(e.Names) - most; n > 0 {
		names += fmt.Sprintf(" and %d more", n)
	}
	if e.Asked != "" {
		return fmt.Sprintf("%s: no channel is named %q; there are: %s", e.File, e.Asked, names)
	}
	return fmt.Sprintf("%s: the file holds %d channels, choose one with --channel: %s", e.File, len(e.Names), names)
}
