package report

import (
	"bytes"
	"crypto/sha256"
	"encoding/hex"
	"encoding/json"
	"errors"
	"fmt"
	"html"
	"regexp"
	"strconv"
	"strings"
	"sync"
	"time"
)

// ErrNoPaper is returned for a file that is no paper of this program.
var ErrNoPaper = errors.New("this is not a paper of crossgrain")

// The places of a paper's file that are filled after it is made: its sum and the mark. All other bytes are summed.
const (
	sumHTML, sumHTMLEnd = `<meta name="crossgrain-sum" content="`, `">`
	sumJSON, sumJSONEnd = `"content_sha256": "`, `"`
	slotHTML            = `<aside id="paper-mark" hidden></aside>`
	slotJSON            = `"superseded_by": null`
	metaHTML            = `<meta name="crossgrain-paper" content="`
)

// Seal fills in the sum of a paper that is complete, HTML or JSON.
func Seal(file []byte) ([]byte, error) {
	before, after := sumPlace(file)
	at := bytes.Index(file, []byte(before+after))
	if at < 0 {
		return nil, errors.New("report: a paper without a place for its sum")
	}
	at += len(before)
	return splice(file, at, at, sumOf(file)), nil
}

func sumOf(file []byte) string {
	s := sha256.Sum256(file)
	return hex.EncodeToString(s[:])
}

func splice(file []byte, from, to int, text string) []byte {
	out := make([]byte, 0, len(file)+len(text))
	return append(append(append(out, file[:from]...), text...), file[to:]...)
}

func isJSON(file []byte) bool { return bytes.HasPrefix(bytes.TrimLeft(file, " \t\r\n"), []byte("{")) }

func sumPlace(file []byte) (before, after string) {
	if isJSON(file) {
		return sumJSON, sumJSONEnd
	}
	return sumHTML, sumHTMLEnd
}

// MarkSuperseded returns an issued paper with the mark that a later issue supersedes it. Nothing else changes.
func MarkSuperseded(file []byte, later PaperIssue) ([]byte, error) {
	slot, mark := slotHTML, later.markHTML()
	if isJSON(file) {
		slot, mark = slotJSON, later.markJSON()
	}
	at := bytes.Index(file, []byte(slot))
	if at < 0 {
		return nil, errors.New("the place for the mark is gone")
	}
	return splice(file, at, at+len(slot), mark), nil
}

func (l PaperIssue) markJSON() string {
	return fmt.Sprintf(`"superseded_by": {"issue": %d, "date": "%s"}`, l.Issue, l.Date)
}

// markHTML stands over the page and at the head of every sheet of paper. Marks are compared with it letter for letter: it must not change.
func (l PaperIssue) markHTML() string {
	words := say("paper.superseded", "issue", fmt.Sprint(l.Issue), "date", loanDay(l.Date))
	return fmt.Sprintf(`<aside id="paper-mark" data-issue="%d" data-date="%s"><style>`+markCSS+`</style><p>%s</p></aside>`, l.Issue, l.Date, cssString(words), html.EscapeString(words))
}

const markCSS = `#paper-mark p{font:700 1.05rem/1.3 sans-serif;max-width:none;border:3px solid;padding:.4rem .9rem;margin:0 0 1rem;text-align:center}` +
	`@page{@left-middle{content:%s;writing-mode:vertical-rl;font:700 12pt/1.2 "Liberation Sans",Arial,sans-serif;white-space:nowrap;text-align:center}}` +
	`@media print{#paper-mark{position:absolute}#paper-mark p{display:none}#paper-mark::after{content:"SUPERSEDED";position:fixed;top:45%%;left:50%%;transform:translate(-50%%,-50%%) rotate(-35deg);` +
	`font:700 60pt/1 "Liberation Sans",Arial,sans-serif;color:transparent;-webkit-text-stroke:1pt #666;z-index:9}}`

// Look is what a paper's file says when it is read again.
type Look struct {
	Paper
	Altered bool // the file is not as it was issued; the mark apart
}

// ReadPaper reads a paper of any state. The error is [ErrNoPaper], or says what cannot be read.
func ReadPaper(file []byte) (Look, error) {
	if isJSON(file) {
		return readJSON(file)
	}
	var l Look
	content, ok := inside(file, metaHTML, sumHTMLEnd)
	if !ok {
		return l, ErrNoPaper
	}
	text := strings.ReplaceAll(html.UnescapeString(content), "\u00a0", " ")
	if err := json.Unmarshal([]byte(text), &l.Paper); err != nil {
		return l, fmt.Errorf("what the paper says of itself cannot be read: %w", err)
	}
	l.Sum, _ = inside(file, sumHTML, sumHTMLEnd)
	bare, later, wrong := unmark(file, slotHTML, markedHTML(), PaperIssue.markHTML)
	l.Superseded = later
	l.judge(bare, sumHTML, wrong)
	return l, l.sound()
}

func readJSON(file []byte) (Look, error) {
	var l Look
	var doc struct {
		Paper *Paper `json:"paper"`
	}
	if err := json.Unmarshal(file, &doc); err != nil || doc.Paper == nil {
		return l, ErrNoPaper
	}
	l.Paper = *doc.Paper
	bare, later, wrong := unmark(file, slotJSON, markedJSON(), PaperIssue.markJSON)
	l.Superseded = later
	l.judge(bare, sumJSON, wrong)
	return l, l.sound()
}

// judge compares the sum of the file without its mark with the one that it bears.
func (l *Look) judge(bare []byte, before string, wrong bool) {
	if l.Status != Issued {
		return
	}
	whole := []byte(before + l.Sum)
	at := bytes.Index(bare, whole)
	if len(l.Sum) != hex.EncodedLen(sha256.Size) || at < 0 {
		l.Altered = true
		return
	}
	l.Altered = wrong || sumOf(splice(bare, at+len(before), at+len(whole), "")) != l.Sum
}

// sound says what is wrong with a paper that says impossible things of itself.
func (l Look) sound() error {
	if l.Kind == "" || l.Status != Draft && l.Status != Issued || l.Status == Issued && (l.Number == "" || l.Issue < 1) {
		return ErrNoPaper
	}
	return nil
}

func inside(file []byte, before, after string) (string, bool) {
	_, rest, ok := bytes.Cut(file, []byte(before))
	if !ok {
		return "", false
	}
	text, _, ok := bytes.Cut(rest, []byte(after))
	return string(text), ok
}

var markedHTML = sync.OnceValue(func() *regexp.Regexp {
	return regexp.MustCompile(`<aside id="paper-mark" data-issue="(\d{1,9})" data-date="(\d{4}-\d\d-\d\d)">`)
})

var markedJSON = sync.OnceValue(func() *regexp.Regexp {
	return regexp.MustCompile(`"superseded_by": \{"issue": (\d{1,9}), "date": "(\d{4}-\d\d-\d\d)"\}`)
})

// unmark takes the mark out again. wrong says that the mark is not as it was set.
func unmark(file []byte, slot string, marked *regexp.Regexp, mark func(PaperIssue) string) (bare []byte, later *PaperIssue, wrong bool) {
	m := marked.FindSubmatchIndex(file)
	if m == nil {
		return file, nil, false
	}
	n, err := strconv.Atoi(string(file[m[2]:m[3]]))
	later = &PaperIssue{Issue: n, Date: string(file[m[4]:m[5]])}
	_, day := time.Parse(time.DateOnly, later.Date)
	text := mark(*later)
	if err != nil || day != nil || !bytes.HasPrefix(file[m[0]:], []byte(text)) {
		return file, later, true
	}
	return splice(file, m[0], m[0]+len(text), slot), later, false
}
