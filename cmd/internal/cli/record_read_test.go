package cli

import (
	"testing"
	"time"

	"github.com/spf13/cobra"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

func TestParseZone(t *testing.T) {
	cmd := &cobra.Command{Use: "x"}
	at := time.Date(2024, 7, 1, 12, 0, 0, 0, time.UTC)
	for in, seconds := range map[string]int{
		"UTC": 0, "utc": 0, "Z": 0, "+01:00": 3600, "UTC+2": 7200, "-0330": -12600, "GMT-5": -18000, "Europe/Rome": 7200,
	} {
		loc, err := parseZone(cmd, in)
		require.NoError(t, err, in)
		_, got := at.In(loc).Zone()
		assert.Equal(t, seconds, got, in)
	}
	for _, bad := range []string{"Local", "local", "Rome", "+25", "+1:99", "+x", "../etc/passwd"} {
		_, err := parseZone(cmd, bad)
		assert.Error(t, err, bad)
	}
}

func TestRecordFlagsAreTranslated(t *testing.T) {
	cmd := &cobra.Command{Use: "x"}
	o, err := (&recordFlags{channel: "hall", dates: "month-first", unit: "f", decimal: "comma"}).options(cmd)
	require.NoError(t, err)
	assert.Equal(t, "hall", o.Channel)
	assert.Equal(t, "mdy", o.Dates)
	assert.Equal(t, "F", o.Unit)
	assert.Equal(t, ",", o.Decimal)
	assert.Nil(t, o.Zone)
}
