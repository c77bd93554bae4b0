package logger_test

import (
	"fmt"
	"slices"
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"crossgrain/moisture/record/logger"
)

// civilFile writes instants as the clocks of a zone show them.
func civilFile(zone *time.Location, form string, all []sample) []logger.File {
	x := change(func(x *table) { x.stamp = func(at time.Time) string { return at.In(zone).Format(form) } })
	return x.file(all)
}

// autumn is 96 h over 2023-10-29 01:00 UTC, when the clocks of central Europe went back from 3:00 to
// 2:00; spring is 96 h over 2024-03-31 01:00 UTC, when they went from 2:00 to 3:00 (Directive 2000/84/EC).
func autumn(step time.Duration) []sample {
	return series(time.Date(2023, 10, 27, 6, 0, 0, 0, time.UTC), int(96*time.Hour/step), step)
}

func spring(step time.Duration) []sample {
	return series(time.Date(2024, 3, 29, 6, 0, 0, 0, time.UTC), int(96*time.Hour/step), step)
}

// TestClockWithZone gives the instants back, each reading once, with no gap.
func TestClockWithZone(t *testing.T) {
	zone := berlin(t)
	o := logger.Options{Zone: zone}
	var all []made
	for _, step := range []time.Duration{10 * time.Minute, 15 * time.Minute, 30 * time.Minute, time.Hour, 2 * time.Hour} {
		for name, want := range map[string][]sample{"autumn": autumn(step), "spring": spring(step)} {
			down := slices.Clone(want)
			slices.Reverse(down)
			all = append(all,
				made{name: fmt.Sprint(name, step), files: civilFile(zone, "2006-01-02 15:04", want), o: o, want: want},
				made{name: fmt.Sprint(name, step, " newest first"), files: civilFile(zone, "2006-01-02 15:04", down), o: o, want: want},
				made{name: fmt.Sprint(name, step, " day first"), files: civilFile(zone, "02.01.2006 15:04:05", want), o: o, want: want})
		}
	}
	runMade(t, all)
}

// TestClockOtherZones has clocks of the south, of the west and of half an hour.
func TestClockOtherZones(t *testing.T) {
	for _, c := range []struct {
		zone  string
		start time.Time // some days before clocks change
	}{
		{"America/New_York", time.Date(2023, 11, 4, 0, 0, 0, 0, time.UTC)},
		{"America/New_York", time.Date(2024, 3, 9, 0, 0, 0, 0, time.UTC)},
		{"Australia/Lord_Howe", time.Date(2024, 4, 5, 0, 0, 0, 0, time.UTC)},
		{"Australia/Sydney", time.Date(2023, 9, 30, 0, 0, 0, 0, time.UTC)},
		{"Asia/Kolkata", time.Date(2023, 11, 4, 0, 0, 0, 0, time.UTC)},
		{"Europe/London", time.Date(2023, 10, 28, 0, 0, 0, 0, time.UTC)},
	} {
		zone, err := time.LoadLocation(c.zone)
		require.NoError(t, err)
		want := series(c.start, 144, 30*time.Minute)
		runMade(t, []made{{name: c.zone + c.start.Format(" 2006-01"), files: civilFile(zone, "2006-01-02 15:04", want), o: logger.Options{Zone: zone}, want: want}})
	}
}

// TestClockZoneUnknown reads clocks as they stand: no reading of the repeated hour may go unseen, and
// something must be said of it.
func TestClockZoneUnknown(t *testing.T) {
	zone := berlin(t)
	for _, step := range []time.Duration{15 * time.Minute, time.Hour} {
		all := autumn(step)
		r, how, err := logger.Read(civilFile(zone, "2006-01-02 15:04", all), logger.Options{})
		if err != nil {
			assert.Contains(t, err.Error(), "--zone")
			continue
		}
		assert.Equal(t, len(all), len(r.Times)+asideCount(how), "%s: every row is read or counted", step)
		said := strings.Join(how.Guesses, "\n") + fmt.Sprint(how.SetAside)
		assert.True(t, saysOneOf(said, "summer time|--zone|put back|repeated hour|clock"), "%s: %s", step, said)
		rising(t, r.Times)
	}
	all := spring(time.Hour)
	r, how, err := logger.Read(civilFile(zone, "2006-01-02 15:04", all), logger.Options{})
	require.NoError(t, err)
	require.Len(t, r.Times, len(all))
	assert.Zero(t, asideCount(how))
	rising(t, r.Times)
}

func rising(t *testing.T, at []time.Time) {
	t.Helper()
	for i := 1; i < len(at); i++ {
		require.True(t, at[i].After(at[i-1]), "reading %d: %s after %s", i, at[i], at[i-1])
	}
}

// TestClockThatNeverWas has times that a clock of the zone did not show: a logger that was not put
// forward. None may vanish in silence.
func TestClockThatNeverWas(t *testing.T) {
	normal := time.FixedZone("", 3600)
	all := spring(15 * time.Minute)
	r, how, err := logger.Read(civilFile(normal, "2006-01-02 15:04", all), logger.Options{Zone: berlin(t)})
	if err != nil {
		assert.Contains(t, err.Error(), "made.csv")
		return
	}
	rising(t, r.Times)
	assert.Equal(t, len(all), len(r.Times)+asideCount(how))
	assert.True(t, asideCount(how) > 0 || len(how.Guesses) > 0 || len(r.Notes) > 0, "02:15 of 31 March in silence")
}

// TestClockOneDayOfChange has only the hour itself, once: nothing says which of the two it is.
func TestClockOneDayOfChange(t *testing.T) {
	lines := plain().lines(nil)
	for i := range 6 {
		lines = append(lines, fmt.Sprintf("2023-10-29 02:%02d:00,45.%d,20.%d", 10*i, i, i))
	}
	r, how, err := logger.Read(textFile(strings.Join(lines, "\n")), logger.Options{Zone: berlin(t)})
	if err != nil {
		return
	}
	assert.Equal(t, 6, len(r.Times)+asideCount(how))
	assert.True(t, len(how.Guesses) > 0 || asideCount(how) > 0 || len(r.Notes) > 0, "a choice in silence")
}

// TestClockOffsets does not need a zone, and a zone does not change it.
func TestClockOffsets(t *testing.T) {
	zone := berlin(t)
	var all []made
	for name, want := range map[string][]sample{"autumn": autumn(15 * time.Minute), "spring": spring(15 * time.Minute)} {
		files := civilFile(zone, time.RFC3339, want)
		all = append(all, made{name: name, files: files, want: want},
			made{name: name + ", another zone named", files: files, o: logger.Options{Zone: time.FixedZone("", -5*3600)}, want: want},
			made{name: name + ", zone named", files: files, o: logger.Options{Zone: zone}, want: want})
	}
	runMade(t, all)
}

// TestClockZoneKept hands the zone on for display.
func TestClockZoneKept(t *testing.T) {
	zone := berlin(t)
	r, how, err := logger.Read(civilFile(zone, "2006-01-02 15:04", autumn(time.Hour)), logger.Options{Zone: zone})
	require.NoError(t, err)
	require.NotNil(t, r.Zone)
	assert.Equal(t, "Europe/Berlin", r.Zone.String())
	assert.Equal(t, "Europe/Berlin", how.Files[0].Zone)
	_, how, err = logger.Read(plain().file(threeDays()), logger.Options{})
	require.NoError(t, err)
	assert.Equal(t, "not stated", how.Files[0].Zone)
}

// TestClockMergedZones puts a file in UTC and a file in civil time into one record.
func TestClockMergedZones(t *testing.T) {
	zone, all := berlin(t), autumn(time.Hour)
	files := append(civilFile(time.UTC, "2006-01-02T15:04:05Z", all[:50]), civilFile(zone, "02.01.2006 15:04", all[50:])...)
	files[1].Name = "later.csv"
	runMade(t, []made{{name: "utc and civil", files: files, o: logger.Options{Zone: zone}, want: all}})
}
