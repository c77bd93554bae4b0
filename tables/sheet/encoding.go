package sheet

import (
	"bytes"
	"fmt"
	"unicode/utf8"

	"golang.org/x/text/encoding/charmap"
	"golang.org/x/text/encoding/unicode"

	"crossgrain/tables/problem"
)

// Decode returns the text of a file as UTF-8 without mark, and the name of its encoding.
func Decode(name string, src []byte) ([]byte, string, error) {
	switch {
	case bytes.HasPrefix(src, []byte("\xef\xbb\xbf")):
		src = src[3:]
		if !utf8.Valid(src) {
			return nil, "", unreadable(name, "the mark at its start says UTF-8, but the text is not")
		}
		return src, "UTF-8", nil
	case bytes.HasPrefix(src, []byte("\xff\xfe")):
		return utf16(name, src[2:], unicode.LittleEndian, "UTF-16LE")
	case bytes.HasPrefix(src, []byte("\xfe\xff")):
		return utf16(name, src[2:], unicode.BigEndian, "UTF-16BE")
	}
	if e, ok := bare16(src); ok {
		if e == unicode.LittleEndian {
			return utf16(name, src, e, "UTF-16LE")
		}
		return utf16(name, src, e, "UTF-16BE")
	}
	src = bytes.TrimRight(src, "\x00") // a file that was cut off while being written
	if n := bytes.Count(src, []byte{0}); n > 64+len(src)/20 {
		return nil, "", unreadable(name, fmt.Sprintf("it holds %d zero bytes, the first at byte %d: it is not a text file", n, bytes.IndexByte(src, 0)+1))
	}
	if control(src) > len(src)/100 {
		return nil, "", unreadable(name, "it is not a text file: a picture or a program's own format, whatever its name says")
	}
	if utf8.Valid(src) {
		return src, "UTF-8", nil
	}
	out, err := charmap.Windows1252.NewDecoder().Bytes(src)
	if err != nil {
		return nil, "", unreadable(name, "its letters fit no encoding that is known here")
	}
	return out, "Windows-1252", nil
}

func unreadable(name, why string) error {
	return problem.List{{File: name, Msg: why, Hint: "export it again as CSV, UTF-8"}}.Err()
}

func utf16(name string, src []byte, e unicode.Endianness, label string) ([]byte, string, error) {
	out, err := unicode.UTF16(e, unicode.IgnoreBOM).NewDecoder().Bytes(src[:len(src)/2*2])
	if err != nil || bytes.IndexByte(out, 0) >= 0 {
		return nil, "", unreadable(name, "its letters are no proper UTF-16")
	}
	return out, label, nil
}

// bare16 recognises UTF-16 without mark: every second byte of Latin text is zero.
func bare16(src []byte) (e unicode.Endianness, ok bool) {
	n := min(len(src)/2*2, 2000)
	if n < 20 {
		return unicode.LittleEndian, false
	}
	var even, odd int
	for i := 0; i < n; i += 2 {
		if src[i] == 0 {
			even++
		}
		if src[i+1] == 0 {
			odd++
		}
	}
	switch {
	case odd > n*2/5 && even == 0:
		return unicode.LittleEndian, true
	case even > n*2/5 && odd == 0:
		return unicode.BigEndian, true
	}
	return unicode.LittleEndian, false
}

// control counts the bytes that do not occur in text.
func control(src []byte) int {
	n := 0
	for _, b := range src[:min(len(src), 1<<16)] {
		if b < 0x20 && b != 0 && b != '\t' && b != '\n' && b != '\r' && b != '\f' && b != 0x1a {
			n++
		}
	}
	return n
}
