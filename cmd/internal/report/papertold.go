package report

import (
	"fmt"
	"io"
)

// PaperTold is what can be told of a paper that is read again.
type PaperTold struct {
	File   string
	Look   Look
	Later  *PaperIssue // a later issue lies beside it, and it bears no mark
	Inputs []InputTold
}

// InputTold is one input of a paper beside the file that was found.
type InputTold struct {
	Name  string // empty: the paper does not name it
	N     int    // 1, 2, ... in the paper; 0: none of its inputs
	State string
	Where string // the file that was compared
}

// How an input stands today.
const (
	InputSame     = "same"
	InputChanged  = "changed"
	InputNotFound = "notfound"
	InputOther    = "other" // it was named and is none of the inputs
)

// Same says that the paper and all inputs that were found are as they were.
func (t PaperTold) Same() bool {
	for _, in := range t.Inputs {
		if in.State == InputChanged || in.State == InputOther {
			return false
		}
	}
	return !t.Look.Altered
}

// WriteText tells it in plain sentences.
func (t PaperTold) WriteText(w io.Writer) error {
	p := &textPage{}
	l := t.Look
	p.paras(plainLine(t.File))
	p.paras(say("told.kind."+l.Kind) + " " + l.Words())
	switch {
	case l.Status == Draft:
		p.paras(say("told.draft"))
	case l.Superseded != nil:
		p.paras(say("told.superseded", "issue", fmt.Sprint(l.Superseded.Issue), "date", loanDay(l.Superseded.Date)))
	case t.Later != nil:
		p.paras(say("told.later", "issue", fmt.Sprint(t.Later.Issue), "date", loanDay(t.Later.Date)))
	default:
		p.paras(say("told.valid"))
	}
	switch {
	case l.Status == Draft:
	case l.Altered:
		p.paras(say("told.altered"))
	default:
		p.paras(say("told.unaltered"))
	}
	p.paras(say("told.made", "version", plainLine(l.Version), "digest", plainLine(l.Digest)))
	for _, in := range t.Inputs {
		p.hang("- ", in.words(len(t.Look.Inputs)))
	}
	return p.to(w)
}

func (in InputTold) words(total int) string {
	if in.State == InputOther {
		return say("told.input.other", "file", plainLine(in.Where))
	}
	name := plainLine(in.Name)
	if name == "" {
		name = say("told.input.n", "n", fmt.Sprint(in.N), "total", fmt.Sprint(total))
	}
	if in.State == InputNotFound {
		return say("told.input.notfound", "name", name)
	}
	return say("told.input."+in.State, "name", name, "file", plainLine(in.Where))
}
