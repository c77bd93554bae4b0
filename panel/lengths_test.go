package panel_test

import (
	"testing"

	"github.com/stretchr/testify/assert"

	"crossgrain/panel"
)

func TestParseLength(t *testing.T) {
	// An inch is 25.4 mm exactly (international yard and pound agreement, 1959).
	for _, c := range []struct {
		in   string
		want float64
	}{
		{"24 1/2 in", 622.3}, {"24-1/2 in", 622.3}, {"24½ in", 622.3}, {"3/4 in", 19.05}, {"24.5 inches", 622.3},
		{`24 1/2"`, 622.3}, {"62 cm", 620}, {"62cm", 620}, {"47,5 cm", 475}, {"12,5 mm", 12.5}, {"1.2 m", 1200},
		{" 620 mm ", 620}, {"-40 mm", -40}, {"0 mm", 0}, {"1 IN", 25.4},
	} {
		got, err := panel.ParseLength(c.in)
		assert.NoError(t, err, c.in)
		assert.InDelta(t, c.want, got, 1e-9, c.in)
	}
	for _, bad := range []string{
		"", "mm", "62", "62 ft", "sixty cm", "1 2 in", "1/0 in", "1/2/3 in", "1.2.3 mm", "1,234.5 mm", "inf mm",
		"nan mm", "1e3 mm", "0x10 mm", "--3 mm", "24 1/2 1/2 in", "62 x 47 cm", "½", "12 in in",
	} {
		v, err := panel.ParseLength(bad)
		assert.Error(t, err, "%s gave %g", bad, v)
	}
}
