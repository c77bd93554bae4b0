//go:build long

package section

import "testing"

func TestLongCaseCStress(t *testing.T) {
	holdCaseC(t, Options{Fineness: Fine, Across: 160, Through: 32}, "stress", 46)
}
