package species_test

import (
	"slices"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"crossgrain/species"
)

func TestLookup(t *testing.T) {
	for name, key := range map[string]string{ // names: table woods
		"oak": "oak_european", "OAK": "oak_european", " Chêne ": "oak_european", "chene": "oak_european",
		"Eiche": "oak_european", "rovere": "oak_european", "roble": "oak_european", "eik": "oak_european",
		"Quercus petraea": "oak_european", "quercus ROBUR": "oak_european", "oak_european": "oak_european",
		"peuplier": "poplar", "Pappel": "poplar", "Weisspappel": "poplar", "Weißpappel": "poplar", "pioppo": "poplar",
		"Linde": "lime", "tilleul": "lime", "linden": "lime", "Tilia cordata": "lime",
		"Fichte": "spruce_norway", "epicea": "spruce_norway", "Tanne": "fir_silver", "abete bianco": "fir_silver",
		"Nußbaum": "walnut_european", "hêtre": "beech_european", "hetre": "beech_european",
		"white oak": "oak_white", "Oak, white, white": "oak_white", "Quercus alba": "oak_white",
		"tulip poplar": "yellow_poplar", "Douglas-fir": "douglas_fir_coast", "douglas fir": "douglas_fir_coast",
		"maple": "sycamore", "Bergahorn": "sycamore", "acajou": "mahogany",
	} {
		w, err := species.Lookup(name)
		if assert.NoError(t, err, name) {
			assert.Equal(t, key, w.Key, name)
		}
	}
}

func TestUnknownNamesGiveHints(t *testing.T) {
	for name, hint := range map[string]string{
		"oka": "oak", "popler": "poplar", "mapel": "maple", "Buuche": "Buche", "spurce": "spruce", "sugar mapple": "sugar maple",
	} {
		_, err := species.Lookup(name)
		var unknown *species.UnknownError
		require.ErrorAs(t, err, &unknown, name)
		require.NotEmpty(t, unknown.Near, name)
		assert.Equal(t, hint, unknown.Near[0], name)
		assert.Contains(t, err.Error(), "did you mean", name)
	}
	for _, name := range []string{"", "   ", "\x00", "qqqqqqqqqqqqqq"} {
		_, err := species.Lookup(name)
		var unknown *species.UnknownError
		require.ErrorAs(t, err, &unknown)
		assert.LessOrEqual(t, len(unknown.Near), 3)
	}
	_, err := species.Lookup("redcedar")
	assert.ErrorContains(t, err, "eastern redcedar", "a word inside a name is a hint")
}

func TestAllWoods(t *testing.T) {
	all := species.All()
	assert.GreaterOrEqual(t, len(all), 60)
	assert.Equal(t, "poplar", all[0].Key)
	all[0] = nil
	assert.NotNil(t, species.All()[0], "the list handed out is a copy")

	keys := map[string]bool{}
	panel := 0
	for _, w := range species.All() {
		assert.False(t, keys[w.Key], "twice: %s", w.Key)
		keys[w.Key] = true
		assert.Contains(t, []string{species.Hardwood, species.Softwood}, w.Group, w.Key)
		assert.NotEmpty(t, w.Name)
		if slices.ContainsFunc(w.Aliases, func(a species.Alias) bool { return a.Language == "it" }) {
			panel++
			for _, lang := range []string{"fr", "de", "it", "es", "nl", "la"} {
				assert.True(t, slices.ContainsFunc(w.Aliases, func(a species.Alias) bool { return a.Language == lang }), "%s %s", w.Key, lang)
			}
		}
	}
	assert.GreaterOrEqual(t, panel, 27)
}

// Every name leads back to a wood that bears it; trade names and keys to their own wood.
func TestNamesRoundTrip(t *testing.T) {
	for _, w := range species.All() {
		for _, n := range []string{w.Name, w.Key} {
			got, err := species.Lookup(n)
			require.NoError(t, err, n)
			assert.Same(t, w, got, n)
		}
		for _, a := range w.Aliases {
			got, err := species.Lookup(a.Name)
			require.NoError(t, err, a.Name)
			assert.True(t, got == w || bears(got, a.Name), "%s leads to %s, not to %s", a.Name, got.Key, w.Key)
		}
	}
}

func bears(w *species.Wood, name string) bool {
	return w.Name == name || slices.ContainsFunc(w.Aliases, func(a species.Alias) bool { return a.Name == name })
}
