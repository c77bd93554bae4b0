package report

import (
	"math"
	"strings"
)

// barBeyond is how many tenths past the limit a bar shows.
const barBeyond = 5

// Bar draws a share of limit in ASCII, one sign a tenth: # as described, = as far as the
// unfavourable end, . nothing, | the limit, > that it goes on. Its width is always the same.
func Bar(share, high *float64) string {
	if share == nil || math.IsNaN(*share) {
		return ""
	}
	n, h := tenthCount(*share), 0
	if high != nil {
		h = tenthCount(*high)
	}
	var b strings.Builder
	for i := range 10 + barBeyond {
		if i == 10 {
			b.WriteByte('|')
		}
		switch {
		case i < n:
			b.WriteByte('#')
		case i < h:
			b.WriteByte('=')
		default:
			b.WriteByte('.')
		}
	}
	if max(n, h) > 10+barBeyond {
		b.WriteByte('>')
	}
	return b.String()
}

// tenthCount rounds a share to tenths; what is short of the limit never fills the tenth tenth
// past it, what is beyond always shows.
func tenthCount(share float64) int {
	if math.IsNaN(share) || share <= 0 {
		return 0
	}
	n := int(math.Round(10 * min(share, 1e6)))
	switch {
	case share > 1 && n <= 10:
		return 11
	case share < 1 && n > 10:
		return 10
	}
	return n
}
