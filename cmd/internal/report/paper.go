package report

import (
	"crypto/sha256"
	"encoding/hex"
	"encoding/json"
	"fmt"
	"strings"
	"unicode"
)

// Paper is what a paper says of itself. A draft may be made again; what is issued is never written over, and
// bears later only the mark that another issue has superseded it.
type Paper struct {
	Kind       string       `json:"kind"`   // of its document
	Sheet      string       `json:"sheet"`  // which of the papers of one issue
	Status     string       `json:"status"` // draft, issued
	Number     string       `json:"number"` // empty: a draft without
	Issue      int          `json:"issue"`  // 1, 2, ...; 0: a draft without
	Date       string       `json:"date"`   // civil, 2026-03-04
	To         string       `json:"to"`     // file, borrower, insurer
	Replaces   *PaperIssue  `json:"replaces"`
	Version    string       `json:"version"`
	Digest     string       `json:"inputs_digest"`  // over the sums of all inputs, in their order
	Inputs     []PaperInput `json:"inputs"`         // those that belong to what the paper is about
	Sum        string       `json:"content_sha256"` // over the whole file with this left empty and without the mark; empty: a draft
	Superseded *PaperIssue  `json:"superseded_by"`
}

// PaperIssue names another issue of the same number.
type PaperIssue struct {
	Issue int    `json:"issue"`
	Date  string `json:"date"` // empty: not known here
}

// PaperInput is one file that a paper rests on. Outgoing papers do not name it.
type PaperInput struct {
	Name   string `json:"name"`
	SHA256 string `json:"sha256"`
}

// The states of a paper and those to whom it may be addressed.
const (
	Draft      = "draft"
	Issued     = "issued"
	ToFile     = "file"
	ToBorrower = "borrower"
	ToInsurer  = "insurer"
)

// Audiences lists to whom papers are addressed.
func Audiences() []string { return []string{ToFile, ToBorrower, ToInsurer} }

// InputsDigest is one digest over the sums of all inputs, in their order.
func InputsDigest(inputs []PaperInput) string {
	h := sha256.New()
	for _, in := range inputs {
		fmt.Fprintln(h, in.SHA256)
	}
	return hex.EncodeToString(h.Sum(nil))
}

// Series tells whether two papers are issues of one number to the same reader.
func (p Paper) Series(o Paper) bool {
	return p.Kind == o.Kind && p.Number == o.Number && p.To == o.To
}

// For is the paper about part of the inputs, under another sheet's name.
func (p Paper) For(sheet string, inputs []PaperInput) *Paper {
	p.Sheet, p.Inputs = sheet, inputs
	if p.To != ToFile {
		p.Inputs = nil
		for _, in := range inputs {
			p.Inputs = append(p.Inputs, PaperInput{SHA256: in.SHA256})
		}
	}
	return &p
}

// FileName is the name of its file: of an issued paper with number and issue, so that no other paper takes it.
func (p Paper) FileName(ext string) string {
	name := p.Sheet
	if p.To != ToFile && p.To != "" {
		name = "to-" + p.To + "-" + name
	}
	if p.Status == Issued {
		name = fmt.Sprintf("%s-issue-%d-%s", fileSlug(p.Number), p.Issue, name)
	}
	return name + "." + ext
}

// fileSlug keeps letters and digits of a number, so that it can be a file's name on any system.
func fileSlug(s string) string {
	return strings.Trim(strings.Map(func(r rune) rune {
		if unicode.IsLetter(r) || unicode.IsDigit(r) || r == '.' || r == '_' {
			return r
		}
		return '-'
	}, s), "-.")
}

// mostNumber is the longest number of a paper, in letters.
const mostNumber = 60

// PaperNumber tidies the number of a paper; an error says in words what it may be.
func PaperNumber(s string) (string, error) {
	s = strings.Join(strings.Fields(s), " ")
	n := 0
	for _, r := range s {
		if n++; !unicode.IsPrint(r) {
			return "", fmt.Errorf("a number is letters, digits and plain signs, got %q", s)
		}
	}
	if fileSlug(s) == "" || n > mostNumber {
		return "", fmt.Errorf("a number is 1 to %d signs with at least one letter or digit in it, got %q", mostNumber, s)
	}
	return s, nil
}

// State is what stands in its box.
func (p Paper) State() string { return say("paper.state." + p.Status) }

// Words tell number, issue, date, to whom it is addressed and what it replaces.
func (p Paper) Words() string {
	to := say("paper.to." + p.To)
	if p.Number == "" {
		return say("paper.words.unnumbered", "date", loanDay(p.Date), "to", to)
	}
	s := say("paper.words."+p.Status, "number", plainLine(p.Number), "issue", fmt.Sprint(p.Issue), "date", loanDay(p.Date), "to", to)
	return strings.TrimSpace(s + " " + p.replaces())
}

func (p Paper) replaces() string {
	switch r := p.Replaces; {
	case r == nil:
		return ""
	case r.Date == "":
		return say("paper.replaces", "issue", fmt.Sprint(r.Issue))
	default:
		return say("paper.replaces.dated", "issue", fmt.Sprint(r.Issue), "date", loanDay(r.Date))
	}
}

// Rests tells the digest of the inputs, in its short form, and the program.
func (p Paper) Rests() string {
	return say("paper.rests", "digest", shortDigest(p.Digest), "version", p.Version)
}

// Running is what stands on every sheet.
func (p Paper) Running() string {
	if p.Number == "" {
		return say("paper.running.unnumbered", "state", p.State(), "date", loanDay(p.Date))
	}
	return say("paper.running", "state", p.State(), "number", plainLine(p.Number), "issue", fmt.Sprint(p.Issue), "date", loanDay(p.Date))
}

// Meta is the paper for the programs that read it, as one line.
func (p Paper) Meta() (string, error) {
	p.Sum, p.Superseded = "", nil
	b, err := json.Marshal(p)
	return string(b), err
}
