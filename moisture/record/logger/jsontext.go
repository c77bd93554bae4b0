package logger

import (
	"bytes"
	"encoding/json"
	"errors"
	"fmt"
	"io"
	"math"
	"strconv"
	"strings"

	"golang.org/x/text/encoding/unicode"

	"crossgrain/tables/sheet"
)

// jsonDepth is the deepest nesting that is read; real exports stay under 12 (assumption).
const jsonDepth = 64

// jnode is one value of a JSON text with the line on which it stands.
type jnode struct {
	key  string // of the member in its object
	text string // of a scalar
	kind byte   // '{', '[', 's' string, 'n' number, 'b' true or false, '0' null
	line int
	kids []jnode
}

func (n *jnode) scalar() bool { return n.kind != '{' && n.kind != '[' }

// jsonSheets reads JSON of the shapes that loggers and web services give: rows as objects, columns as
// arrays, values keyed by time stamp below names, pairs of time and value, one object per line. Series
// that belong together stand in one sheet, joined by time stamp, its first row the names; members with
// the same key in one object are kept as later rows.
func jsonSheets(name string, src []byte) ([]sheet.Sheet, error) {
	docs, err := parseJSON(name, src)
	if err != nil {
		return nil, err
	}
	root := &docs[0]
	if len(docs) > 1 {
		root = &jnode{kind: '[', line: docs[0].line, kids: docs}
	}
	w := &jwalk{}
	w.walk(root, nil)
	if len(w.tables) == 0 {
		return nil, fmt.Errorf("%s: JSON without a series of readings; expected rows with a time and values, "+
			"columns of equal length, or values keyed by time stamp", name)
	}
	return w.sheets(name), nil
}

// parseJSON reads one value, or several after one another (one a line). A last line cut short is kept
// as a row of text, which the reader sets aside and counts.
func parseJSON(name string, src []byte) ([]jnode, error) {
	p := &jparser{src: plainJSON(src), line: 1}
	p.dec = json.NewDecoder(bytes.NewReader(p.src))
	p.dec.UseNumber()
	var docs []jnode
	for {
		n, err := p.value("", 0)
		if errors.Is(err, io.EOF) && p.depth == 0 {
			break
		}
		if err != nil && len(docs) > 1 && (errors.Is(err, io.EOF) || errors.Is(err, io.ErrUnexpectedEOF)) {
			docs = append(docs, jnode{kind: 's', text: "text cut short", line: p.line})
			break
		}
		if err != nil {
			return nil, p.explain(name, err)
		}
		docs = append(docs, n)
	}
	if len(docs) == 0 {
		return nil, fmt.Errorf("%s: empty, no JSON value in it", name)
	}
	return docs, nil
}

// jparser turns the tokens of the decoder into nodes.
type jparser struct {
	src   []byte
	dec   *json.Decoder
	at    int // bytes whose line ends are counted
	line  int
	depth int
}

func (p *jparser) explain(name string, err error) error {
	p.count(int(p.dec.InputOffset()))
	var syn *json.SyntaxError
	switch {
	case errors.Is(err, io.EOF), errors.Is(err, io.ErrUnexpectedEOF):
		return fmt.Errorf("%s:%d: the JSON text is cut short; copy or export it again", name, p.line)
	case errors.As(err, &syn):
		p.count(int(syn.Offset))
		return fmt.Errorf("%s:%d: not JSON: %w", name, p.line, err)
	}
	return fmt.Errorf("%s:%d: %w", name, p.line, err)
}

func (p *jparser) count(to int) {
	if to = min(to, len(p.src)); to > p.at {
		p.line += bytes.Count(p.src[p.at:to], []byte{'\n'})
		p.at = to
	}
}

// value reads the next value; io.EOF when there is none.
func (p *jparser) value(key string, depth int) (jnode, error) {
	p.depth = depth
	tok, err := p.dec.Token()
	if err != nil {
		return jnode{}, err
	}
	p.count(int(p.dec.InputOffset()))
	n := jnode{key: key, line: p.line}
	switch v := tok.(type) {
	case json.Delim:
		n.kind = byte(v)
		return n, p.members(&n, depth+1)
	case string:
		n.kind, n.text = 's', v
	case json.Number:
		n.kind, n.text = 'n', plainNumber(string(v))
	case bool:
		n.kind, n.text = 'b', strconv.FormatBool(v)
	case nil:
		n.kind = '0'
	}
	return n, nil
}

// members reads what an object or an array holds, up to its end.
func (p *jparser) members(n *jnode, depth int) error {
	if depth > jsonDepth {
		return fmt.Errorf("JSON nested deeper than %d levels", jsonDepth)
	}
	for p.dec.More() {
		key := ""
		if n.kind == '{' {
			tok, err := p.dec.Token()
			if err != nil {
				return err
			}
			key, _ = tok.(string)
		}
		kid, err := p.value(key, depth)
		if err != nil {
			return err
		}
		n.kids = append(n.kids, kid)
	}
	p.depth = depth
	_, err := p.dec.Token()
	return err
}

// plainNumber writes a power of ten out where that stays short; a marker such as 1e30 stays.
func plainNumber(s string) string {
	if !strings.ContainsAny(s, "eE") {
		return s
	}
	if v, err := strconv.ParseFloat(s, 64); err == nil && math.Abs(v) < 1e20 && (v == 0 || math.Abs(v) > 1e-9) {
		return strconv.FormatFloat(v, 'f', -1, 64)
	}
	return s
}

// plainJSON decodes UTF-16, drops the byte order mark and empties the numbers that JSON does not have
// but that programs write (NaN, Infinity). All offsets stay where they were within the UTF-8 text.
func plainJSON(src []byte) []byte {
	if len(src) > 1 && (src[0] == 0xFF && src[1] == 0xFE || src[0] == 0xFE && src[1] == 0xFF) {
		dec := unicode.UTF16(unicode.LittleEndian, unicode.ExpectBOM).NewDecoder()
		if b, err := dec.Bytes(src); err == nil {
			src = b
		}
	}
	src = bytes.TrimPrefix(src, []byte("\xEF\xBB\xBF"))
	if !bytes.Contains(src, []byte("NaN")) && !bytes.Contains(src, []byte("Infinity")) {
		return src
	}
	out := bytes.Clone(src)
	quoted := false
	for i := 0; i < len(out); i++ {
		switch c := out[i]; {
		case c == '\\' && quoted:
			i++
		case c == '"':
			quoted = !quoted
		case !quoted && (c == 'N' || c == 'I' || c == '-'):
			blankWord(out[i:])
		}
	}
	return out
}

// blankWord writes "" over a word that is no number, and blanks up to its length.
func blankWord(b []byte) {
	for _, w := range []string{"NaN", "-NaN", "Infinity", "-Infinity"} {
		if bytes.HasPrefix(b, []byte(w)) {
			copy(b, `""`+strings.Repeat(" ", len(w)-2))
			return
		}
	}
}
