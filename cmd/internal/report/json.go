package report

import (
	"bytes"
	"encoding/json"
	"fmt"
	"io"
	"math"
	"reflect"
	"slices"
	"strconv"
	"strings"
)

// WriteJSON writes a document as indented JSON: fields in the order of the struct, numbers to
// six significant digits, NaN and infinities as null, empty lists as [], a newline at the end.
// The same document gives the same bytes. It returns an error for a value that is no document
// (a channel, a function) or when w fails.
func WriteJSON(w io.Writer, doc any) error {
	var raw bytes.Buffer
	if err := encode(&raw, reflect.ValueOf(doc)); err != nil {
		return err
	}
	var out bytes.Buffer
	if err := json.Indent(&out, raw.Bytes(), "", "  "); err != nil {
		return err
	}
	out.WriteByte('\n')
	_, err := w.Write(out.Bytes())
	return err
}

func encode(b *bytes.Buffer, v reflect.Value) error {
	switch v.Kind() {
	case reflect.Invalid:
		b.WriteString("null")
	case reflect.Pointer, reflect.Interface:
		return encode(b, v.Elem()) // Elem of nil is invalid: null
	case reflect.Struct:
		return encodeStruct(b, v)
	case reflect.Map:
		return encodeMap(b, v)
	case reflect.Slice, reflect.Array:
		return encodeList(b, v)
	case reflect.Float32, reflect.Float64:
		b.WriteString(numeral(v.Float()))
	case reflect.Int, reflect.Int8, reflect.Int16, reflect.Int32, reflect.Int64:
		b.WriteString(strconv.FormatInt(v.Int(), 10))
	case reflect.Bool:
		b.WriteString(strconv.FormatBool(v.Bool()))
	case reflect.String:
		b.Write(quoted(v.String()))
	default:
		return fmt.Errorf("report: a document holds a %s", v.Kind())
	}
	return nil
}

// numeral gives v with six significant digits, or null where JSON has no number for it.
func numeral(v float64) string {
	if math.IsNaN(v) || math.IsInf(v, 0) {
		return "null"
	}
	if v == 0 {
		return "0" // never -0
	}
	s := strconv.FormatFloat(v, 'g', 6, 64)
	return strings.Replace(s, "e+", "e", 1)
}

func quoted(s string) []byte {
	var b bytes.Buffer
	enc := json.NewEncoder(&b)
	enc.SetEscapeHTML(false)
	_ = enc.Encode(s) // a string always encodes
	return bytes.TrimRight(b.Bytes(), "\n")
}

func encodeList(b *bytes.Buffer, v reflect.Value) error {
	b.WriteByte('[')
	for i := range v.Len() {
		if i > 0 {
			b.WriteByte(',')
		}
		if err := encode(b, v.Index(i)); err != nil {
			return err
		}
	}
	b.WriteByte(']')
	return nil
}

func encodeMap(b *bytes.Buffer, v reflect.Value) error {
	keys := v.MapKeys()
	slices.SortFunc(keys, func(x, y reflect.Value) int { return strings.Compare(x.String(), y.String()) })
	b.WriteByte('{')
	for i, k := range keys {
		if i > 0 {
			b.WriteByte(',')
		}
		b.Write(quoted(k.String()))
		b.WriteByte(':')
		if err := encode(b, v.MapIndex(k)); err != nil {
			return err
		}
	}
	b.WriteByte('}')
	return nil
}

func encodeStruct(b *bytes.Buffer, v reflect.Value) error {
	b.WriteByte('{')
	first := true
	for _, f := range fields(v.Type()) {
		x := v.FieldByIndex(f.index)
		if f.omitEmpty && x.IsZero() {
			continue
		}
		if !first {
			b.WriteByte(',')
		}
		first = false
		b.Write(quoted(f.name))
		b.WriteByte(':')
		if err := encode(b, x); err != nil {
			return err
		}
	}
	b.WriteByte('}')
	return nil
}

// field is one key of a document.
type field struct {
	name      string
	index     []int
	omitEmpty bool
	typ       reflect.Type
}

// fields lists the keys of a document in order; the fields of an embedded struct stand in its
// place. Fields without a json name are left out.
func fields(t reflect.Type) []field {
	var out []field
	for i := range t.NumField() {
		f := t.Field(i)
		if f.Anonymous && f.Tag.Get("json") == "" {
			for _, in := range fields(f.Type) {
				in.index = append([]int{i}, in.index...)
				out = append(out, in)
			}
			continue
		}
		name, opts, _ := strings.Cut(f.Tag.Get("json"), ",")
		if name == "" || name == "-" {
			continue
		}
		out = append(out, field{name: name, index: []int{i}, omitEmpty: opts == "omitempty", typ: f.Type})
	}
	return out
}
