// Package example holds the built-in invented panel. No such painting exists.
package example

import (
	_ "embed"
	"slices"
)

//go:embed panel.toml
var source []byte

// Panel returns the panel file of the invented example.
func Panel() []byte { return slices.Clone(source) }
