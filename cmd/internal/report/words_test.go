package report

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
)

func TestTenthsOfTheLimit(t *testing.T) {
	tests := []struct {
		share float64
		words string
		bar   string
	}{
		{0, "under 1 tenth of its limit", "..........|....."},
		{0.1, "1 tenth of its limit", "#.........|....."},
		{0.62, "6 tenths of its limit", "######....|....."},
		{0.96, "just under its limit", "##########|....."},
		{1, "at its limit", "##########|....."},
		{1.02, "at its limit", "##########|#...."},
		{1.24, "beyond its limit, 12 tenths", "##########|##..."},
		{1.5, "beyond its limit, 15 tenths", "##########|#####"},
		{1.79, "beyond its limit, 18 tenths", "##########|#####>"},
		{40, "far beyond its limit", "##########|#####>"},
	}
	for _, tt := range tests {
		assert.Equal(t, tt.words, shareWords(&tt.share), "%g", tt.share)
		assert.Equal(t, tt.bar, Bar(&tt.share, nil), "%g", tt.share)
	}
	assert.Equal(t, "no limit known", shareWords(nil))
	assert.Empty(t, Bar(nil, nil))
	assert.Equal(t, "####==....|.....", Bar(ptr(0.4), ptr(0.6)))
}

func TestMovementHasASense(t *testing.T) {
	assert.Equal(t, "3.4 to 5.1 mm narrower", moved(-5.1, -3.4), "dry is narrower")
	assert.Equal(t, "5.1 mm wider", moved(5.1, 5.1))
	assert.Equal(t, "none", moved(0, 0))
	assert.Equal(t, "1.8 mm rounded", warped(1.8), "positive: painted face rounded")
	assert.Equal(t, "1.8 mm hollow", warped(-1.8))
	assert.Equal(t, "flat", warped(0.01))
	assert.Equal(t, "0.9 to 2.6 hollow", warpRange(-2.6, -0.9))
	assert.Equal(t, "0.5 hollow to 0.9 rounded", warpRange(-0.5, 0.9))
}

func TestNumbersForReaders(t *testing.T) {
	assert.Equal(t, "410 (42)", force(-410.4))
	assert.Equal(t, "1400 (140)", force(1350))
	assert.Equal(t, "none", force(0.1))
	assert.Equal(t, "under 0.1", millimetres(0.02))
	assert.Equal(t, "12", millimetres(11.96))
	assert.Equal(t, "–", millimetres(math.NaN()))
	assert.Equal(t, "0", whole(-0.3), "no minus zero")
	assert.Equal(t, "0.00123", plain(0.0012345))
	assert.Equal(t, "6 tenths", held(62))
	assert.Equal(t, "−410", twoSigned(-410.4))
}

func TestPartWords(t *testing.T) {
	for path, want := range map[string]string{
		"join.left-middle": "join left-middle", "batten.upper": "batten upper", "frame": "frame", "panel": "panel as a whole",
		"face.front": "ground on the front", "odd.thing.a": "odd thing a", "": "",
	} {
		assert.Equal(t, want, PartWords(path))
	}
	assert.Equal(t, "no limit met; no range is given beyond this", CauseWords("cap"))
	assert.Equal(t, "join a: the join opens", CauseWords("join_tension:join.a"))
}
