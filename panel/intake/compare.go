package intake

import (
	"bytes"
	"crypto/sha256"
	"encoding/hex"
	"fmt"
	"slices"
	"strings"

	"crossgrain/panel"
)

// State says how a panel file in the folder stands to the list.
type State string

// The states of a panel file.
const (
	New     State = "new"     // there is none yet
	Same    State = "same"    // it says what the list says
	Changed State = "changed" // the list says more or something else, and nobody has touched the file
	ByHand  State = "by hand" // somebody has changed the file since it was written, and it differs
	Loses   State = "loses"   // the list no longer gives what the file holds
)

// Digest is the SHA-256 of a file as it was written, in hexadecimal.
func Digest(file []byte) string {
	sum := sha256.Sum256(file)
	return hex.EncodeToString(sum[:])
}

// Compare says how the file in the folder, nil when there is none, stands to what the list gives;
// remembered is its digest when it was written last, "" when it was not written from a list. Blank cells
// change nothing: a file that would lose something is [Loses]. The second result lists the differences,
// key by key with both values.
func Compare(next, old []byte, remembered string) (State, []string) {
	if old == nil {
		return New, nil
	}
	if bytes.Equal(next, old) {
		return Same, nil
	}
	was, ok := flat(old)
	if !ok {
		return ByHand, []string{"the file in the folder cannot be read as a panel file"}
	}
	will, _ := flat(next)
	diff, lost := differences(was, will)
	switch {
	case len(diff) == 0:
		return Same, nil
	case Digest(old) != remembered:
		return ByHand, diff
	case len(lost) > 0:
		return Loses, lost
	}
	return Changed, diff
}

// differences lists what differs and, of that, what would be lost.
func differences(was, will map[string]string) (diff, lost []string) {
	var keys []string
	for k := range was {
		keys = append(keys, k)
	}
	for k := range will {
		if _, ok := was[k]; !ok {
			keys = append(keys, k)
		}
	}
	slices.Sort(keys)
	for _, k := range keys {
		a, inFile := was[k]
		b, inList := will[k]
		switch {
		case inFile && inList && a == b:
		case !inList:
			diff = append(diff, fmt.Sprintf("%s: %s in the file, nothing in the list", k, a))
			lost = append(lost, diff[len(diff)-1])
		case !inFile:
			diff = append(diff, fmt.Sprintf("%s: nothing in the file, %s in the list", k, b))
		default:
			diff = append(diff, fmt.Sprintf("%s: %s in the file, %s in the list", k, a, b))
		}
	}
	return diff, lost
}

// flat lists a panel file as path -> value; each line of the note stands for itself.
func flat(file []byte) (map[string]string, bool) {
	p, problems := panel.Read("", file)
	if len(problems) > 0 {
		return nil, false
	}
	var b bytes.Buffer
	if p.Write(&b) != nil {
		return nil, false
	}
	out := map[string]string{}
	table := ""
	for line := range strings.Lines(b.String()) {
		line = strings.TrimSpace(line)
		key, value, ok := strings.Cut(line, " = ")
		switch {
		case strings.HasPrefix(line, "["):
			table = strings.Trim(line, "[]")
			out[table] = "described"
		case !ok || table == "":
		case table == "panel" && key == "note":
			for n := range strings.Lines(p.Text("panel.note")) {
				head, cell, _ := strings.Cut(strings.TrimSpace(n), ": ")
				out["panel.note, "+head] = panel.Quote(cell)
			}
		default:
			out[table+"."+key] = value
		}
	}
	return out, true
}
