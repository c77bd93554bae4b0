package report

import (
	"fmt"
	"io"
)

// WriteText writes the cards of one panel, or the door sheet of a store.
func (f Fault) WriteText(w io.Writer) error {
	t := &textPage{}
	if f.Invented {
		t.paras(say("invented.mark") + ". " + say("invented.sentence"))
		t.line("")
	}
	if f.Door == nil {
		for i, c := range f.Cards {
			if i > 0 {
				t.line("")
			}
			c.text(t)
		}
	} else {
		f.doorText(t)
	}
	t.titled(say("fault.first.title"))
	for i, s := range firstActions() {
		t.hang(fmt.Sprintf("%3d  ", i+1), s)
	}
	t.paras(say("fault.slowly"))
	t.list("cautions", f.Cautions)
	t.line("")
	t.paras(say("fault.csv.note"))
	return t.to(w)
}

func (c FaultCard) text(t *textPage) {
	t.paras(where(c.Place, c.name()))
	if title := plainLine(c.Title); title != "" && title != c.name() {
		t.paras(title)
	}
	t.paras(c.readingWords() + ".")
	if len(c.CallAtOnce) > 0 {
		t.titled(say("fault.once.title"))
		t.paras(say("fault.once.lead"))
		for _, s := range c.CallAtOnce {
			t.hang("  ! ", s)
		}
	} else {
		t.line("")
		t.rows(c.table("", nil))
		t.line("")
		t.paras(actionWords()...)
		t.paras(say("fault.longer"))
	}
	t.titled(say("fault.how.title"))
	t.paras(c.how()...)
}

func (f Fault) doorText(t *textPage) {
	d := f.Door
	t.paras(say("fault.door.title", "name", plainLine(f.Name)))
	if len(d.Rows) > 0 {
		t.paras(say("fault.door.lead"))
		t.line("")
		t.rows(d.table(say("fault.door.head.first"), d.firstOf))
	}
	t.line("")
	t.paras(append(actionWords(), say("fault.longer"))...)
	var once []string
	for _, p := range d.Panels {
		for _, why := range p.AtOnce {
			once = append(once, where(p.Place, p.Accession)+": "+why)
		}
	}
	if len(once) > 0 {
		t.titled(say("fault.door.once.title"))
		for _, s := range once {
			t.hang("  ! ", s)
		}
	}
}
