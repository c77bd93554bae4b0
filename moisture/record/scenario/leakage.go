package scenario

import "crossgrain/tables"

// Leakage is what is known of the air exchange of a kind of enclosure, changes per day.
type Leakage struct {
	What      string
	Low, High float64
	Grade     tables.Grade
	Source    string
}

// Leakages lists air exchange by kind of enclosure, tightest first. No measured exchange of a
// transport crate was found.
func Leakages() []Leakage {
	return []Leakage{
		{"good modern showcase", 0.1, 0.2, tables.One, "trade page on decay of carbon dioxide, preservatech.com/air-change-calculations"},
		{"older or plain case", 1, 5, tables.General, "common practice: one to several a day"},
		{"experiment of the worked example", 2.4, 2.4, tables.One, "Padfield, Air exchange, conservationphysics.org/airex/airexchange.php: a tenth an hour"},
	}
}
