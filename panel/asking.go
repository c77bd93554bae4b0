package panel

import (
	"regexp"
	"slices"
	"strings"
	"unicode/utf8"
)

// Asked is one table of the panel file as a form asks for it.
type Asked struct {
	Path  string   // such as board
	Named bool     // it stands once for every part: board.left, board.right
	Names []string // the only names there are; nil: any
	Also  string   // another word that a file may use for it; "" none
	Doc   string
	Keys  []AskedKey
}

// AskedKey is one key of a table as a form asks for it.
type AskedKey struct {
	Name, Unit, Doc, Example string
	Answer                   Answer
	Low, High                float64 // range of a number, in Unit
	Words                    []string
	Depth                    Depth
	Required                 bool
	Unused                   bool    // kept, but no model uses it yet
	Means                    string  // how it is found out
	Minutes                  float64 // that this takes; 0: nothing to measure
}

// Answer is the kind of answer that a key takes.
type Answer int

// The kinds of answers.
const (
	Words    Answer = iota // any
	Choice                 // one of AskedKey.Words
	WoodName               // a wood
	YesNo                  //
	Number                 // a number in AskedKey.Unit
	Whole                  // a whole number
	Length                 // mm, or with a unit of its own
	Lengths                // several
	Humidity               // per cent RH
	Spread                 // two humidities, the lower first
	When                   // a year or a date
	Two                    // two names
	Parts                  // paths of parts
)

// Depth says what it takes to answer.
type Depth int

// From what anybody can see to what nobody can measure.
const (
	Seen Depth = iota
	ByRuler
	Workshop
)

// Asking lists the tables and keys of the panel file in the order of the reference, those of options left out. It is made from the
// table that the reader uses.
func Asking() []Asked {
	var out []Asked
	for _, t := range schema {
		if t.path == "option" {
			continue
		}
		a := Asked{Path: t.path, Named: t.named, Names: slices.Clone(t.names), Also: t.also, Doc: t.doc}
		for _, k := range t.keys {
			a.Keys = append(a.Keys, AskedKey{
				Name: k.name, Unit: k.unit, Doc: k.doc, Example: k.example, Answer: Answer(k.kind), Low: k.low, High: k.high,
				Words: slices.Clone(k.words), Depth: Depth(k.screen), Required: k.required, Unused: k.unused, Means: k.means, Minutes: k.minutes,
			})
		}
		out = append(out, a)
	}
	return out
}

var (
	plainForm = regexp.MustCompile(`^[+-]?[0-9]+(?:[.,][0-9]+)?$`)
	yearForm  = regexp.MustCompile(`^[0-9]{1,4}$`)
	// betweenForm is two numbers with "to", dots or a dash between them, each with its unit; 24-1/2 in is one number.
	betweenForm = regexp.MustCompile(`^(.*?[0-9½¼¾⅛⅜⅝⅞⅓⅔][^0-9./,-]*?)\s*(?:\.\.|…|–|—|-|\bto\b|\band\b)\s*([+-]?[0-9].*)$`)
	partForm    = regexp.MustCompile(`^[0-9]+/`) // of 24-1/2 in
	unitBehind  = regexp.MustCompile(`[0-9½¼¾⅛⅜⅝⅞⅓⅔]\s*([^0-9½¼¾⅛⅜⅝⅞⅓⅔]*)$`)
)

// Literal writes what a person typed into the field of a key as the panel file holds it: 12,5 as 12.5, "10-15" as [10, 15], words in
// quotes. Nothing is judged: what cannot be read stays as typed, in quotes, and [Read] says what is wrong with it. An empty answer
// gives "", which stands for a key that is left out; "?" is looked at and could not tell.
func (k AskedKey) Literal(typed string) string {
	s := strings.TrimSpace(typed)
	switch {
	case s == "":
		return ""
	case !utf8.ValidString(s):
		s = strings.ToValidUTF8(s, "?")
	}
	if s == cannotTell && k.Answer != Words {
		return quote(cannotTell)
	}
	switch k.Answer {
	case YesNo:
		switch strings.ToLower(s) {
		case "yes", "true":
			return "true"
		case "no", "false":
			return "false"
		}
	case Number, Whole, Length, Humidity, Spread:
		return k.numbers(s)
	case Lengths:
		return "[" + strings.Join(each(splitList(strings.Trim(s, "[] ")), k.one), ", ") + "]"
	case Two, Parts:
		return "[" + strings.Join(each(splitWords(strings.Trim(s, "[] ")), quote), ", ") + "]"
	case When:
		if yearForm.MatchString(s) {
			return strings.TrimLeft(s[:len(s)-1], "0") + s[len(s)-1:]
		}
	}
	return quote(s)
}

// numbers writes one number, or two between which the value lies.
func (k AskedKey) numbers(s string) string {
	inner, bracketed := strings.CutPrefix(s, "[")
	inner = strings.TrimSuffix(inner, "]")
	if bracketed {
		return "[" + strings.Join(each(splitList(strings.TrimSpace(inner)), k.one), ", ") + "]"
	}
	m := betweenForm.FindStringSubmatch(s)
	if m == nil || k.Answer == Whole || partForm.MatchString(m[2]) && !strings.Contains(m[1], "/") {
		return k.one(s)
	}
	low, high := strings.TrimSpace(m[1]), strings.TrimSpace(m[2])
	if unit := unitOf(high); k.Answer == Length && unit != "" && unitOf(low) == "" { // 10-15 cm
		low += " " + unit
	}
	return "[" + k.one(low) + ", " + k.one(high) + "]"
}

// one writes a single number; with a unit, or where it cannot be read, it stays in quotes.
func (k AskedKey) one(s string) string {
	s = strings.TrimSpace(s)
	if k.Unit == "% RH" {
		s = strings.TrimSpace(strings.TrimSuffix(strings.TrimSuffix(s, "RH"), "% "))
		s = strings.TrimSpace(strings.TrimSuffix(s, "%"))
	}
	s = strings.NewReplacer("−", "-", "\u00a0", " ").Replace(s)
	if !plainForm.MatchString(s) {
		return quote(s)
	}
	sign, digits := "", strings.TrimPrefix(strings.Replace(s, ",", ".", 1), "+")
	if rest, ok := strings.CutPrefix(digits, "-"); ok {
		sign, digits = "-", rest
	}
	whole, part, ok := strings.Cut(digits, ".")
	if whole = strings.TrimLeft(whole, "0"); whole == "" {
		whole = "0"
	}
	if ok {
		whole += "." + part
	}
	return sign + whole
}

// unitOf is the unit behind a number, or "".
func unitOf(s string) string {
	if m := unitBehind.FindStringSubmatch(s); m != nil {
		return strings.TrimSpace(m[1])
	}
	return ""
}

func each(s []string, f func(string) string) []string {
	out := make([]string, len(s))
	for i, x := range s {
		out[i] = f(x)
	}
	return out
}

// splitList parts numbers by semicolons, by commas with a space behind, or by spaces; a unit stays with its number.
func splitList(s string) []string {
	if strings.Contains(s, ";") {
		return splitAt(s, ";")
	}
	if strings.Contains(s, ", ") {
		return splitAt(s, ", ")
	}
	if fields := strings.Fields(s); !strings.ContainsFunc(s, func(r rune) bool { return r > 'A' || r == '/' || r == '"' }) {
		return fields
	}
	return splitAt(s, ",")
}

// splitWords parts names by semicolons or commas.
func splitWords(s string) []string {
	if strings.Contains(s, ";") {
		return splitAt(s, ";")
	}
	return splitAt(s, ",")
}

func splitAt(s, sign string) []string {
	var out []string
	for _, x := range strings.Split(s, sign) {
		if x = strings.Trim(strings.TrimSpace(x), `"`); x != "" {
			out = append(out, x)
		}
	}
	return out
}
