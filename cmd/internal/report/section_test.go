package report

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
)

// TestSectionInWords tells where the two ways of the cross-section differ, and why.
func TestSectionInWords(t *testing.T) {
	made := func(cup, closed, width, closedWidth, ground, pull float64) Assess {
		return Assess{States: []State{{
			RHPct: 32, CupMM: cup, WidthChangeMM: width,
			Section: &Section{ClosedCupMM: closed, ClosedWidthMM: closedWidth, GroundShare: ground, Joins: []SectionJoin{{Name: "left-right", PullMPa: pull}}},
		}}}
	}
	words := func(a Assess) string { return strings.Join(a.sectionWords(), "\n") }
	assert.Contains(t, words(made(10, 9.9, -4, -4, 0, 0)), "agree within 3 in 100")
	both := words(made(12, 10, -3.8, -4, 0.5, 1.26))
	assert.Contains(t, both, "differ by up to 17 in 100 of the warp")
	assert.Contains(t, both, "holds back up to 5 in 100 of the change of width")
	assert.Contains(t, both, "1.3 MPa")
	assert.Contains(t, words(made(12, 10, -4, -4, 0, 0)), "joins the boards at their edge faces alone")
	a := Assess{SectionWhy: "a reason"}
	assert.Contains(t, words(a), "a reason")
	assert.Empty(t, a.sectionTable().Rows)
	assert.Len(t, made(10, 9.9, -4, -4, 0, 0).sectionTable().Rows, 1)
}
