package report

import (
	_ "embed"
	"fmt"
	"strings"
	"sync"
)

//go:embed phrases/en.txt
var englishText string

// phrases is the catalogue of one language: key -> text with {slots}.
type phrases map[string]string

// english returns the English catalogue, read once.
var english = sync.OnceValue(func() phrases {
	p, err := parsePhrases(englishText)
	if err != nil {
		panic(err) // the file is part of the program; a test reads it
	}
	return p
})

// say returns the phrase of a key with its slots filled: say("part.join", "name", "a"). An
// unknown key or a slot left open is a fault of the program and panics; a test holds every key
// used against the catalogue.
func say(key string, slots ...string) string {
	text, ok := english()[key]
	if !ok {
		panic(fmt.Sprintf("report: no phrase %q", key))
	}
	pairs := make([]string, len(slots))
	for i := range slots {
		pairs[i] = slots[i]
		if i%2 == 0 {
			pairs[i] = "{" + slots[i] + "}"
			if !strings.Contains(text, pairs[i]) {
				panic(fmt.Sprintf("report: phrase %q has no slot %s", key, pairs[i]))
			}
		}
	}
	if open := strings.Count(text, "{"); open > len(slots)/2 {
		panic(fmt.Sprintf("report: phrase %q has %d slots, %d filled", key, open, len(slots)/2))
	}
	return strings.NewReplacer(pairs...).Replace(text)
}

// plural chooses between key.none (when there is one), key.one and key.many.
func plural(key string, n int) string {
	if n == 0 && known(key+".none") {
		return say(key + ".none")
	}
	if n == 1 {
		return say(key + ".one")
	}
	return say(key+".many", "n", fmt.Sprint(n))
}

func known(key string) bool { _, ok := english()[key]; return ok }

// parsePhrases reads a catalogue: lines "key: text", '#' begins a remark.
func parsePhrases(text string) (phrases, error) {
	p := phrases{}
	line := 0
	for s := range strings.Lines(text) {
		line++
		s = strings.TrimSpace(s)
		if s == "" || strings.HasPrefix(s, "#") {
			continue
		}
		key, rest, ok := strings.Cut(s, ": ")
		if !ok || strings.Contains(key, " ") {
			return nil, fmt.Errorf("phrases:%d: want \"key: text\", got %q", line, s)
		}
		if _, twice := p[key]; twice {
			return nil, fmt.Errorf("phrases:%d: key %q stands twice", line, key)
		}
		p[key] = rest
	}
	return p, nil
}

// Cautions returns the fixed cautions that stand on every paper.
func Cautions() []string {
	return []string{
		say("caution.description"), say("caution.conservator"),
		say("caution.notcovered"), say("caution.unvalidated"),
	}
}
