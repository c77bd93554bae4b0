package terms

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

func TestNamed(t *testing.T) {
	for name, want := range map[string]struct{ text, evidence string }{
		"Bizot Green Protocol 2023":            {"40..60, 16..25C, +-10/24h", "seen in another publication that reports them"},
		"bizot":                                {"40..60, 16..25C, +-10/24h", "seen in another publication that reports them"},
		"AICCM-2014":                           {"45..55, +-5/24h, 15..25C, +-4C/24h", "seen in the source"},
		"western australian museum, paintings": {"45..55, 5/24h, 15..25C, 4C/24h", "seen in the source"},
		"UK Government Indemnity Scheme":       {"16..24C, 4C/24h, 40..60, 10/24h", "in part seen in the source, in part from memory"},
		"ASHRAE D":                             {"..75", "from memory"},
		"smithsonian":                          {"37..53, 18.9..23.3C", "seen in the source"},
	} {
		got, err := Read(name)
		if !assert.NoError(t, err, name) {
			continue
		}
		assert.Equal(t, want.text, got.Text, name)
		assert.Equal(t, want.evidence, got.Evidence(), name)
		assert.NotEmpty(t, got.Source)
	}
	gis, err := Named("UK Government Indemnity Scheme")
	require.NoError(t, err)
	require.Len(t, gis.FromMemory(), 2)
	assert.Equal(t, "40 to 60 % RH", gis.FromMemory()[0].String())
}

func TestUnknownNames(t *testing.T) {
	_, err := Read("Bizzot")
	assert.EqualError(t, err, "terms: no set of terms is named \"Bizzot\"\n\thint: did you mean \"Bizot\"?")
	_, err = Read("whatever was agreed with the lender last year")
	assert.ErrorContains(t, err, "write as 45..55")
	_, err = Read("")
	assert.ErrorContains(t, err, "holds no clause")
	for _, s := range []string{"45..55", "RH 45..55", "T18..22", " max 65", "±5/24h"} {
		got, err := Read(s)
		if assert.NoError(t, err, s) {
			assert.Equal(t, "as typed", got.Evidence(), s)
		}
	}
}

// Every set can be read, by each of its names, and no name is that of two sets or looks like text.
func TestListIsSound(t *testing.T) {
	names, err := List()
	require.NoError(t, err)
	assert.GreaterOrEqual(t, len(names), 20)
	sets, err := published()
	require.NoError(t, err)
	seen := map[string]string{}
	for i, s := range sets {
		assert.Equal(t, names[i], s.Name)
		for _, n := range append([]string{s.Name}, s.also...) {
			if folded(n) != folded(s.Name) {
				assert.Empty(t, seen[folded(n)], "%q names two sets", n)
			}
			seen[folded(n)] = s.Name
			got, err := Read(n)
			require.NoError(t, err)
			assert.Equal(t, s.Name, got.Name)
		}
		assert.NotEmpty(t, s.Source, s.Name)
		again, err := Parse(s.Text)
		require.NoError(t, err, s.Name)
		assert.Len(t, again.Clauses, len(s.Clauses))
	}
}

func TestACallerCannotAlterASet(t *testing.T) {
	a, err := Named("AICCM")
	require.NoError(t, err)
	a.Clauses[0].Low = 0
	b, err := Named("AICCM")
	require.NoError(t, err)
	assert.InDelta(t, 0.45, b.Clauses[0].Low, 1e-12)
}
