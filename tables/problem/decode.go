package problem

import (
	"bytes"
	"errors"
	"fmt"
	"regexp"
	"strings"
	"unicode/utf8"

	"github.com/BurntSushi/toml"
)

// Kind is a kind of TOML file that people type, as the problems found in one call it.
type Kind struct {
	Name  string // such as "panel file"
	Most  int    // the largest that is read, in bytes
	Empty string // what helps where it is empty
	Plain string // what helps where it is no text
	Table string // a table as it stands in one, such as [board.left]
}

// Decode reads such a file into out; name is used in problems only. With a problem nothing is to be trusted: a syntax error is
// the only one reported, since what follows it cannot be read.
func (k Kind) Decode(name string, src []byte, out any) (meta toml.MetaData, lines Lines, list List) {
	if msg, hint := k.unreadable(src); msg != "" {
		return meta, nil, List{{File: name, Msg: msg, Hint: hint}}
	}
	text := strings.TrimPrefix(string(src), "\ufeff")
	meta, err := toml.Decode(text, out)
	if err != nil {
		return meta, nil, List{syntaxProblem(name, err)}
	}
	return meta, LinesOf(text), nil
}

// manyDots matches a dotted key that is far too long; reading one takes memory with the square of
// its parts.
var manyDots = regexp.MustCompile(`(?:(?:"[^"\n]*"|'[^'\n]*'|[A-Za-z0-9_-]+)[ \t]*\.[ \t]*){40}`)

// tooDeep finds keys and brackets nested far beyond what any file here needs.
func tooDeep(src []byte) bool {
	depth := 0
	for _, c := range src {
		switch c {
		case '[', '{':
			depth++
		case ']', '}':
			depth = max(0, depth-1)
		}
		if depth > 500 {
			return true
		}
	}
	return manyDots.Match(src)
}

// unreadable says why bytes cannot be such a file, or "".
func (k Kind) unreadable(src []byte) (msg, hint string) {
	utf16 := bytes.HasPrefix(src, []byte{0xff, 0xfe}) || bytes.HasPrefix(src, []byte{0xfe, 0xff})
	switch {
	case len(src) > k.Most:
		return fmt.Sprintf("the file has %d bytes; a %s has at most %d", len(src), k.Name, k.Most), "this looks like another kind of file"
	case len(bytes.TrimSpace(src)) == 0:
		return "the file is empty", k.Empty
	case utf16:
		return "the file is written in UTF-16", "save it as plain text in UTF-8"
	case bytes.IndexByte(src, 0) >= 0:
		return "this is not a text file (it holds zero bytes)", k.Plain
	case !utf8.Valid(src):
		line := 1 + bytes.Count(src[:firstInvalid(src)], []byte("\n"))
		return fmt.Sprintf("line %d holds letters that are not UTF-8", line), "save the file as plain text in UTF-8"
	}
	if tooDeep(src) {
		return "the file is nested far deeper than a " + k.Name, "tables stand side by side, as in " + k.Table
	}
	return "", ""
}

func firstInvalid(src []byte) int {
	for i := 0; i < len(src); {
		r, n := utf8.DecodeRune(src[i:])
		if r == utf8.RuneError && n <= 1 {
			return i
		}
		i += n
	}
	return len(src)
}

func syntaxProblem(name string, err error) Problem {
	var pe toml.ParseError
	if !errors.As(err, &pe) {
		return Problem{File: name, Msg: strings.TrimPrefix(err.Error(), "toml: ")}
	}
	p := Problem{File: name, Line: pe.Position.Line, Col: pe.Position.Col, Part: pe.LastKey, Msg: plainly(pe.Message)}
	switch {
	case strings.Contains(pe.Message, "already") || strings.Contains(pe.Message, "duplicate"):
		p.Hint = "each table and key may stand once; give the second part a name of its own"
	case strings.Contains(pe.Message, "expected value"):
		p.Hint = `words stand in quotes, as in wood = "oak"; numbers do not`
	default:
		p.Hint = "only this mistake in writing is shown; the rest is read once it is mended"
	}
	return p
}

// plainly writes a message of the TOML library as ours: no capital, no full stop.
func plainly(msg string) string {
	msg = strings.TrimRight(msg, ".")
	if len(msg) > 1 && msg[0] >= 'A' && msg[0] <= 'Z' && msg[1] >= 'a' && msg[1] <= 'z' {
		msg = strings.ToLower(msg[:1]) + msg[1:]
	}
	return msg
}
