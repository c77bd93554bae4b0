package cli

import (
	"errors"
	"fmt"
	"strconv"
	"strings"
	"time"
	_ "time/tzdata" // zones by name where the system has none

	"github.com/spf13/cobra"

	"crossgrain/moisture/record"
	"crossgrain/moisture/record/logger"
	"crossgrain/tables/problem"
)

// recordFlags settle what a record leaves open; every command that reads records has them.
type recordFlags struct {
	channel, dates, zone, unit, decimal string
}

func (f *recordFlags) bind(cmd *cobra.Command) {
	s := cmd.Flags()
	s.StringVar(&f.channel, "channel", "", "`NAME` of the channel or room to read, where the record has several")
	s.StringVar(&f.dates, "dates", "", "`ORDER` of its dates: day-first, month-first or year-first")
	s.StringVar(&f.zone, "zone", "", "time `ZONE` of its clock, such as Europe/Rome, +01:00 or UTC")
	s.StringVar(&f.unit, "unit", "", "`UNIT` of its temperatures: C or F")
	s.StringVar(&f.decimal, "decimal", "", "its decimal `SIGN`: point or comma")
}

// options checks the flags.
func (f *recordFlags) options(cmd *cobra.Command) (o logger.Options, err error) {
	o.Channel = f.channel
	choose := func(flag, got string, names, values []string) string {
		if got == "" || err != nil {
			return ""
		}
		for i, n := range names {
			if strings.EqualFold(got, n) || strings.EqualFold(got, values[i]) {
				return values[i]
			}
		}
		hint := ""
		if near := problem.Nearest(got, names); near != "" {
			hint = "did you mean " + near + "?"
		}
		err = badUsage(cmd, hint, "--%s must be %s, got %q", flag, strings.Join(names, " or "), got)
		return ""
	}
	o.Dates = choose("dates", f.dates, []string{"day-first", "month-first", "year-first"}, []string{"dmy", "mdy", "ymd"})
	o.Unit = choose("unit", f.unit, []string{"C", "F"}, []string{"C", "F"})
	o.Decimal = choose("decimal", f.decimal, []string{"point", "comma"}, []string{".", ","})
	if err == nil && f.zone != "" {
		o.Zone, err = parseZone(cmd, f.zone)
	}
	return o, err
}

// parseZone reads a zone by its name (Europe/Rome), or as what is added to UTC (+01:00, UTC+2).
func parseZone(cmd *cobra.Command, s string) (*time.Location, error) {
	const hint = "such as Europe/Rome, +01:00 or UTC"
	offset := strings.TrimPrefix(strings.TrimPrefix(strings.ToUpper(strings.TrimSpace(s)), "UTC"), "GMT")
	switch {
	case offset == "" || offset == "Z":
		return time.UTC, nil
	case offset[0] == '+' || offset[0] == '-':
		h, m, _ := strings.Cut(offset[1:], ":")
		if len(h) == 4 && m == "" {
			h, m = h[:2], h[2:]
		}
		if m == "" {
			m = "0"
		}
		hours, err := strconv.Atoi(h)
		minutes, err2 := strconv.Atoi(m)
		if err != nil || err2 != nil || hours < 0 || hours > 14 || minutes < 0 || minutes > 59 {
			return nil, badUsage(cmd, hint, "--zone must be a time zone, got %q", s)
		}
		seconds := 3600*hours + 60*minutes
		if offset[0] == '-' {
			seconds = -seconds
		}
		return time.FixedZone(fmt.Sprintf("UTC%c%02d:%02d", offset[0], hours, minutes), seconds), nil
	case strings.EqualFold(s, "local"):
		return nil, badUsage(cmd, hint, "--zone must name the zone of the logger's clock, got %q", s)
	}
	loc, err := time.LoadLocation(s)
	if err != nil {
		return nil, badUsage(cmd, hint, "--zone must be a time zone, got %q", s)
	}
	return loc, nil
}

// read reads the files of one record.
func (f *recordFlags) read(cmd *cobra.Command, names []string) (*record.Record, *logger.Reading, []logger.File, error) {
	o, err := f.options(cmd)
	if err != nil {
		return nil, nil, nil, err
	}
	var files []logger.File
	for _, n := range names {
		src, err := readFile(n, maxRecord)
		if err != nil {
			return nil, nil, nil, err
		}
		files = append(files, logger.File{Name: n, Data: src})
	}
	rec, reading, err := logger.Read(files, o)
	var channel *logger.ChannelError
	if errors.As(err, &channel) {
		return nil, nil, nil, badUsage(cmd, "--channel NAME chooses one of them", "%v", err)
	}
	return rec, reading, files, err
}

// remarkOn tells on stderr what was assumed and set aside in reading a record.
func remarkOn(cmd *cobra.Command, reading *logger.Reading) {
	for _, g := range reading.Guesses {
		cmd.PrintErrln("remark:", g)
	}
	for _, s := range reading.SetAside {
		cmd.PrintErrf("remark: %s: %d rows set aside: %s\n", s.File, s.Count, s.Reason)
	}
}
