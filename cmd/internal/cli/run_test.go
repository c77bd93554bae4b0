package cli

import (
	"bytes"
	"context"
	"errors"
	"fmt"
	"os"
	"runtime/debug"
	"testing"

	"github.com/spf13/cobra"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"crossgrain/tables"
	"crossgrain/tables/problem"
)

func TestExitCodes(t *testing.T) {
	tests := []struct {
		err  error
		want int
		says string
	}{
		{nil, 0, ""},
		{errLimit, 1, "--fail-on-limit"},
		{fmt.Errorf("%w: 2 of 300", errFailedCheck), 1, "a check failed: 2 of 300"},
		{badUsage(nil, "try this", "wrong %s", "flag"), 2, "hint: try this"},
		{problem.List{{File: "a.toml", Line: 3, Msg: "wrong"}}, 2, "a.toml:3: wrong"},
		{tables.InRange("RH", 2, 0, 1, "", "a source"), 2, "RH must lie between"},
		{&faultError{errors.New("table missing")}, 3, "version ("},
		{fmt.Errorf("run: %w", context.Canceled), 130, "stopped"},
	}
	for _, tt := range tests {
		var b bytes.Buffer
		assert.Equal(t, tt.want, tell(&b, tt.err), "%v", tt.err)
		assert.Contains(t, b.String(), tt.says)
	}
}

func TestPanicIsToldInWords(t *testing.T) {
	var b bytes.Buffer
	code := func() (code int) {
		defer func() {
			if p := recover(); p != nil {
				code = recovered(&b, []string{"assess", "a.toml"}, p)
			}
		}()
		var none []int
		_ = none[len(os.Args)]
		return 0
	}()
	assert.Equal(t, 3, code)
	for _, want := range []string{"a fault in the program", "Take no number from this run", "crossgrain assess a.toml", "send: the command", Version()} {
		assert.Contains(t, b.String(), want)
	}
	assert.NotContains(t, b.String(), "goroutine", "never a bare stack trace")
	assert.Less(t, bytes.Count(b.Bytes(), []byte("\n")), 10)
}

func TestParseRange(t *testing.T) {
	cmd := &cobra.Command{Use: "x"}
	low, high, err := parseRange(cmd, "rh", "35..65")
	require.NoError(t, err)
	assert.Equal(t, []float64{35, 65}, []float64{low, high})
	_, _, err = parseRange(cmd, "rh", " 0 .. 100 ")
	require.NoError(t, err)
	for _, bad := range []string{"", "35", "35-65", "65..35", "50..50", "-5..50", "30..101", "NaN..50", "30..inf", "a..b", "30...60"} {
		_, _, err := parseRange(cmd, "rh", bad)
		assert.Error(t, err, bad)
	}
}

func TestVersion(t *testing.T) {
	assert.NotEmpty(t, Version())
	assert.Equal(t, "devel", versionOf(&debug.BuildInfo{}))
	assert.Equal(t, "v1.2.3", versionOf(&debug.BuildInfo{Main: debug.Module{Version: "v1.2.3"}}))
	rev := &debug.BuildInfo{Settings: []debug.BuildSetting{{Key: "vcs.revision", Value: "0123456789abcdef"}}}
	assert.Equal(t, "devel-0123456789ab", versionOf(rev))
}
