package figure

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
)

func TestNumbersAsWritten(t *testing.T) {
	nan := math.NaN()
	for _, c := range []struct{ got, want, reason string }{
		{mm(0.04), "0.0", "tenths of a millimetre"},
		{mm(-0.04), "0.0", "no negative nought"},
		{mm(-2.449), "−2.4", "true minus sign"},
		{mm(9.96), "10", "whole millimetres from 10"},
		{mm(nan), "not known", "no NaN on a sheet"},
		{signed(1.26), "+1.3", "sign of a change"},
		{signed(0.01), "0.0", "nought has no sign"},
		{tenths(0.62), "6", "whole tenths"},
		{tenths(0.96), "9.6", "a digit more near the limit"},
		{tenths(0.999), "just under 10", "short of the limit never reads as reached"},
		{tenths(1.001), "just over 10", "nor the reverse"},
		{tenths(1), "10", "at the limit"},
		{tenths(0.01), "under 1", "not nought"},
		{tenths(50), "over 100", "no false digits"},
		{ofLimit(0.1), "1 tenth of its limit", "one"},
		{ofLimit(0.01), "under 1 tenth of its limit", "under one"},
		{force(836), "840 N", "two digits"},
		{force(-12.4), "−12 N", "two digits"},
		{weight(836), "about 85 kg", "836 N / 9.80665 m/s2 = 85.2 kg"},
		{weight(5), "under 1 kg", "0.51 kg"},
		{span(2.2, 1.5, mm), "1.5 to 2.2", "in order"},
		{span(2.21, 2.19, mm), "2.2", "alike when written"},
		{span(nan, 3, mm), "3.0", "one is not known"},
		{count(1, "board"), "1 board", ""},
		{count(0, "board"), "0 boards", ""},
		{capital("über"), "Über", "letters beyond ASCII"},
		{clean("a\x00b\n\tc\xff"), "ab c?", "fit for XML"},
	} {
		assert.Equal(t, c.want, c.got, c.reason)
	}
}

func TestFitAndWrap(t *testing.T) {
	s := plainText.fit(longName, 100)
	assert.LessOrEqual(t, float64(plainText.width(s)), 100.0)
	assert.Contains(t, s, ellipsis)
	assert.Equal(t, "short", plainText.fit("short", 100))
	assert.Empty(t, plainText.fit("abc", 3), "no room for two letters")
	lines := plainText.wrap(longName, 120, 2)
	assert.Len(t, lines, 2)
	assert.Contains(t, lines[1], ellipsis)
	assert.Empty(t, plainText.wrap("", 100, 2))
	assert.Equal(t, "?", substitute("漢"), "a bitmap would drop it silently")
}
