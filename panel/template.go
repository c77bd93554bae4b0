package panel

import (
	"fmt"
	"strings"
)

// Template returns a panel file to fill in. It is valid as it stands: the first screen gives the
// facts that everybody has, with invented values; all other keys follow as remarks.
func Template() []byte {
	var b strings.Builder
	b.WriteString(`# A panel for crossgrain. The values below are INVENTED: put your own in their place.
# Lengths are in mm, or with a unit in quotes: "62 cm", "24 1/2 in". A number that lies between two
# others is written [12, 16]. What is not recorded is left out; "?" means: looked at, could not tell.
# To use a line that begins with #, take the # away.

format = 1

`)
	b.WriteString("[panel]\n")
	writeKeys(&b, mustTable("panel"), first, "")
	b.WriteString(`
# Is there anything on the back that crosses the grain? Then say so; an empty table is enough.
# [cradle]
# [batten.upper]
# fixing = "nailed"
# Is there a crack in the wood, or a join that stands open?
# [split.top]
# from = "top"
# Is the paint loose?
# [face.front]
# paint = "flaking"

# ---- the end of what can simply be seen ----
`)
	section(&b, measured, "What can be measured: ruler, calliper, a card for angles, a hygrometer")
	section(&b, expert, "For the workshop: what nobody can measure. Leave out unless you have a reason")
	return []byte(b.String())
}

func mustTable(path string) table { t, _ := lookTable(path, false); return t }

func section(b *strings.Builder, s screen, title string) {
	fmt.Fprintf(b, "\n# ==== %s ====\n", title)
	for _, t := range schema {
		if !hasScreen(t, s) {
			continue
		}
		b.WriteString("\n")
		prose(b, t.doc)
		if t.path == "panel" {
			prose(b, "these belong under [panel] above")
		} else {
			b.WriteString("# " + t.header(exampleName(t)) + "\n")
		}
		writeKeys(b, t, s, "# ")
	}
}

// lineWidth is the width to which the template is written.
const lineWidth = 100

// prose writes words as a remark, broken at the line width.
func prose(b *strings.Builder, words string) {
	line := "#  "
	for _, w := range strings.Fields(words) {
		if len(line)+1+len(w) > lineWidth {
			b.WriteString(line + "\n")
			line = "#  "
		}
		line += " " + w
	}
	b.WriteString(line + "\n")
}

func hasScreen(t table, s screen) bool {
	for _, k := range t.keys {
		if shows(t, k, s) {
			return true
		}
	}
	return false
}

// shows says whether a key stands on that screen of the template; only [panel] has a first screen
// of its own.
func shows(t table, k key, s screen) bool {
	return k.screen == s || s == measured && k.screen == first && t.path != "panel"
}

func exampleName(t table) string {
	if len(t.names) > 0 {
		return t.names[0]
	}
	return "NAME"
}

func writeKeys(b *strings.Builder, t table, s screen, mark string) {
	for _, k := range t.keys {
		if !shows(t, k, s) {
			continue
		}
		line, remark := mark+k.name+" = "+k.example, k.doc+allowed(k)
		if one := fmt.Sprintf("%-32s # %s", line, remark); len(one) <= lineWidth {
			b.WriteString(one + "\n")
			continue
		}
		prose(b, remark)
		b.WriteString(line + "\n")
	}
}

// allowed says in words what a key may hold.
func allowed(k key) string {
	switch {
	case k.kind == wordKind:
		return ": " + strings.Join(quoted(k.words), " | ")
	case k.unit != "" && k.low < k.high:
		return fmt.Sprintf(", %s to %s %s", showNumber(k.low), showNumber(k.high), k.unit)
	}
	return ""
}
