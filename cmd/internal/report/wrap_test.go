package report

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
)

func TestDisplayWidth(t *testing.T) {
	tests := []struct {
		in   string
		want int
	}{
		{"oak", 3}, {"hêtre", 5}, {"he\u0302tre", 5}, {"板絵", 4}, {"20 °C", 5}, {"дуб", 3}, {"a\u200bb", 2},
	}
	for _, tt := range tests {
		assert.Equal(t, tt.want, displayWidth(tt.in), "%q", tt.in)
	}
}

func TestWrap(t *testing.T) {
	tests := []struct {
		name, in string
		n        int
		want     []string
	}{
		{"between words", "one two three", 7, []string{"one two", "three"}},
		{"number stays with its unit", "held at 52 % RH for long", 14, []string{"held at", "52 % RH for", "long"}},
		{"long word is cut", "abcdefghij", 4, []string{"abcd", "efgh", "ij"}},
		{"wide letters", "板絵板絵", 5, []string{"板絵", "板絵"}},
		{"line breaks become spaces", "a\n\tb", 10, []string{"a b"}},
		{"empty", "", 10, []string{""}},
		{"control letters and reordering marks vanish", "a\x1b[31mb\u202ec", 20, []string{"a[31mbc"}},
	}
	for _, tt := range tests {
		assert.Equal(t, tt.want, wrap(tt.in, tt.n), tt.name)
	}
}

func TestTableFits(t *testing.T) {
	tb := Table{Head: []string{"a", "b"}, Rows: [][]string{
		{strings.Repeat("long ", 30), strings.Repeat("x", 90)}, {"板絵" + strings.Repeat("板", 60), "1"},
	}}
	for _, l := range tb.lines(columns) {
		assert.LessOrEqual(t, displayWidth(l), columns, l)
	}
}
