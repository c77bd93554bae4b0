package report

import (
	"os"
	"path/filepath"
	"regexp"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

func sources(t *testing.T) string {
	t.Helper()
	var all strings.Builder
	files, err := filepath.Glob("*.go")
	require.NoError(t, err)
	for _, f := range append(files, "page/page.html", "page/fault.html", "page/loan.html", "page/survey.html", "page/insured.html") {
		if strings.HasSuffix(f, "_test.go") {
			continue
		}
		b, err := os.ReadFile(f)
		require.NoError(t, err)
		all.Write(b)
	}
	return all.String()
}

func TestEveryPhraseUsedIsInTheCatalogue(t *testing.T) {
	direct := regexp.MustCompile(`say[( ]"([a-z0-9_.]+)"`)
	n := 0
	for _, m := range direct.FindAllStringSubmatch(sources(t), -1) {
		if strings.HasSuffix(m[1], ".") {
			continue // the beginning of a key; its ends are tested below
		}
		n++
		assert.True(t, known(m[1]), "phrase %q is used and not in the catalogue", m[1])
	}
	assert.Greater(t, n, 80, "the search finds the phrases")
}

func TestEveryPhraseIsUsed(t *testing.T) {
	src := sources(t)
	keys := make([]string, 0, len(english()))
	for k := range english() {
		keys = append(keys, k)
	}
	slices.Sort(keys)
	for _, k := range keys {
		stem := k[:strings.LastIndex(k, ".")]
		used := strings.Contains(src, `"`+k+`"`) || strings.Contains(src, `"`+stem+`"`) ||
			strings.Contains(src, `"`+stem+`."`) || strings.HasPrefix(k, "part.")
		assert.True(t, used, "phrase %q is never used", k)
	}
}

func TestModesHaveWords(t *testing.T) {
	for _, m := range []string{
		"join_tension", "wood_split", "check_growth", "compression_set", "rippling", "ground_cracking",
		"ground_cleavage", "fixing_overload", "slot_exhausted", "frame_bound", "handling",
	} {
		assert.True(t, known("mode."+m), m)
	}
}

func TestReadersWords(t *testing.T) {
	for key, text := range english() {
		low := strings.ToLower(text)
		for _, bad := range []string{"safe", "verdict", "utilisation", "utilization", "probability", "refuse"} {
			assert.NotContains(t, low, bad, key)
		}
		if strings.Contains(text, "%") {
			assert.Equal(t, strings.Count(text, "%"), strings.Count(text, "% RH"), "%s: per cent belongs to RH alone", key)
		}
	}
}

func TestParsePhrasesRefuses(t *testing.T) {
	for _, bad := range []string{"no colon here", "a key: text", "a: x\na: y"} {
		_, err := parsePhrases(bad)
		assert.Error(t, err, bad)
	}
}
