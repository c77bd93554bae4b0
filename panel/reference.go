package panel

import (
	"fmt"
	"strings"
)

// Reference returns the list of all tables and keys of the panel file as Markdown.
func Reference() []byte {
	var b strings.Builder
	b.WriteString(`# Keys of the panel file

Made from the table that the reader itself uses. A key that is not recorded is left out; "?" means
looked at, could not tell. A number may be given as [low, high]. Lengths are in mm or carry a unit
in quotes: "62 cm", "12,5 mm", "24 1/2 in". The first line of a file is ` + "`format = 1`" + `.
`)
	for _, t := range schema {
		name := "NAME"
		if len(t.names) > 0 {
			name = strings.Join(t.names, "|")
		}
		fmt.Fprintf(&b, "\n## %s\n\n%s.", t.header(name), strings.ToUpper(t.doc[:1])+t.doc[1:])
		if t.also != "" {
			fmt.Fprintf(&b, " Also read as [%s.NAME].", t.also)
		}
		b.WriteString("\n\n| key | holds | meaning | found out by | used |\n|---|---|---|---|---|\n")
		for _, k := range t.keys {
			fmt.Fprintf(&b, "| %s | %s | %s | %s | %s |\n", k.name, holds(k), k.doc, foundBy(k), usedWord(k))
		}
	}
	return []byte(b.String())
}

// holds says what a key may hold.
func holds(k key) string {
	lohi := fmt.Sprintf("%s to %s", showNumber(k.low), showNumber(k.high))
	switch k.kind {
	case wordKind:
		return strings.Join(quoted(k.words), ", ")
	case woodKind:
		return "name of a wood"
	case yesNoKind:
		return "true or false"
	case countKind:
		return "whole number, " + lohi
	case listKind:
		return "list of lengths, " + lohi + " mm"
	case spanKind:
		return "[lowest, highest], " + lohi + " " + k.unit
	case whenKind:
		return "year or date"
	case namesKind:
		return "two names"
	case partsKind:
		return "list of parts"
	case textKind:
		return "words"
	}
	return strings.TrimSpace("number, " + lohi + " " + k.unit)
}

func foundBy(k key) string {
	if k.minutes == 0 {
		return ""
	}
	return fmt.Sprintf("%s, %s min", k.means, showNumber(k.minutes))
}

func usedWord(k key) string {
	switch {
	case k.unused:
		return "not yet"
	case k.required:
		return "needed"
	}
	return "yes"
}
