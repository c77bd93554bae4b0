package species

import (
	"strings"
	"unicode"

	"golang.org/x/text/unicode/norm"
)

// ligatures are letters that have no accent to take off.
var ligatures = strings.NewReplacer("ß", "ss", "ẞ", "ss", "æ", "ae", "œ", "oe", "ø", "o")

// Fold brings a name to one form: small letters without accents, single spaces, no punctuation.
func Fold(name string) string {
	name = ligatures.Replace(strings.ToLower(name))
	var b strings.Builder
	space := false
	for _, r := range norm.NFD.String(name) {
		switch {
		case unicode.IsLetter(r) || unicode.IsDigit(r):
			if space && b.Len() > 0 {
				b.WriteByte(' ')
			}
			space = false
			b.WriteRune(unicode.ToLower(r))
		case unicode.Is(unicode.Mn, r):
		default:
			space = true
		}
	}
	return b.String()
}
