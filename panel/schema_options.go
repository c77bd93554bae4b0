package panel

// Reaches are how far an option goes, in the order in which options are told: those that leave the panel alone first.
var reaches = []string{"enclose", "ease", "fit", "remove", "reglue", "support"}

// optionTables are the tables of what might be done.
func optionTables() []table {
	return []table{
		{path: "option", named: true, doc: "something that might be done, for the command treat; tables below it, such as [option.NAME.batten.upper], " +
			"give the keys that it changes", keys: []key{
			text("does", "what would be done, in a few words").eg(`"plane the upper batten"`),
			word("reach", "how far it goes; options are told in this order; found from the changes when left out", reaches...),
			{name: "remove", kind: partsKind, doc: "parts, or single keys of parts, that go", example: `["batten.upper", "batten.lower.at_mm"]`, screen: measured},
			{name: "add", kind: partsKind, doc: "parts that are new; what they are stands in tables of the option", example: `["batten.third"]`, screen: measured},
			{name: "reglue", kind: partsKind, doc: "joins and splits that are closed and glued", example: `["join.left-middle"]`, screen: measured},
			rh("at_rh_pct", "humidity at which it is done: what is glued or fixed anew is fixed there", "55"),
			word("reversible", "can it be undone?", "yes", "in part", "no"),
			yesNo("touches_original", "is original wood cut, scraped, glued or drilled?"),
			text("note", "anything else"),
		}},
	}
}
