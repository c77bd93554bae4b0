package report

import (
	"fmt"
	"reflect"
	"strings"
)

// Schema lists every key of a document with its type, one a line, in the order of the file. It
// is what other programs may rely on: keys are added, never renamed.
func Schema(doc any) string {
	var b strings.Builder
	schema(&b, "", reflect.TypeOf(doc))
	return b.String()
}

func schema(b *strings.Builder, prefix string, t reflect.Type) {
	for _, f := range fields(t) {
		inner, words := typeWords(f.typ)
		if f.omitEmpty {
			words += ", may be absent"
		}
		fmt.Fprintf(b, "%s%s: %s\n", prefix, f.name, words)
		if inner != nil {
			schema(b, prefix+f.name+".", inner)
		}
	}
}

// typeWords returns the type of a key in words and, for objects and lists of objects, what is
// inside.
func typeWords(t reflect.Type) (inner reflect.Type, words string) {
	switch t.Kind() {
	case reflect.Pointer:
		inner, words = typeWords(t.Elem())
		return inner, words + " or null"
	case reflect.Slice:
		inner, words = typeWords(t.Elem())
		return inner, "list of " + words
	case reflect.Struct:
		return t, "object"
	case reflect.Float64:
		return nil, "number"
	case reflect.Int:
		return nil, "whole number"
	case reflect.Bool:
		return nil, "true or false"
	}
	return nil, "text"
}
