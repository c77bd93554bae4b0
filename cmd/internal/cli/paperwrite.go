package cli

import (
	"errors"
	"fmt"
	"io"
	"os"
	"path/filepath"

	"crossgrain/cmd/internal/disk"
	"crossgrain/cmd/internal/figure"
	"crossgrain/cmd/internal/report"
)

// addPaper makes one paper; an issued one is sealed.
func (b *bundle) addPaper(p *report.Paper, ext string, make func(io.Writer) error) error {
	name := p.FileName(ext)
	if err := b.add(name, make); err != nil || p.Status != report.Issued {
		return err
	}
	sealed, err := report.Seal(b.files[name])
	if err != nil {
		return fmt.Errorf("%s: %w", name, err)
	}
	b.files[name] = sealed
	b.frozen = append(b.frozen, name)
	return nil
}

// addInsured makes what the insurer of one panel is told, as a page and as data.
func (b *bundle) addInsured(d report.Insured) error {
	if d.Gated {
		d.Paper.Status = report.Draft
	}
	if err := b.addPaper(d.Paper, "html", func(w io.Writer) error { return d.WriteHTML(w, figure.FontCSS()) }); err != nil {
		return err
	}
	return b.addPaper(d.Paper, "json", func(w io.Writer) error { return report.WriteJSON(w, &d) })
}

// hand marks the earlier issues of a paper that is issued, writes all, and tells what was written.
func (b *bundle) hand(e env, dir string, before []earlier, p report.Paper) error {
	if p.Status == report.Issued {
		if len(b.frozen) == 0 {
			return errors.New("nothing can be issued: there are no figures before a conservator has answered")
		}
		if err := b.supersede(before, p); err != nil {
			return err
		}
	}
	if err := b.write(dir); err != nil {
		return err
	}
	for _, name := range b.order {
		fmt.Fprintln(e.stderr, "wrote", filepath.Join(dir, name))
	}
	for _, m := range b.marks {
		fmt.Fprintf(e.stderr, "marked %s as superseded by issue %d\n", m.path, p.Issue)
	}
	return nil
}

// supersede marks the earlier papers of the series, those that bear no mark yet.
func (b *bundle) supersede(before []earlier, by report.Paper) error {
	for _, e := range before {
		if e.Superseded != nil {
			continue
		}
		marked, err := report.MarkSuperseded(e.src, report.PaperIssue{Issue: by.Issue, Date: by.Date})
		if err != nil {
			return fmt.Errorf("%s cannot be marked as superseded: %w; it was altered since it was issued, move it to another folder", e.path, err)
		}
		b.marks = append(b.marks, mark{e.path, e.src, marked})
	}
	return nil
}

// mark is an earlier paper as it is and as it is to be.
type mark struct {
	path        string
	was, marked []byte
}

// guard refuses to write where an issued paper lies.
func (b *bundle) guard(dir string) error {
	for _, name := range b.order {
		path := filepath.Join(dir, name)
		src, err := os.ReadFile(path)
		if err != nil {
			continue // not there, or told when it is written
		}
		if look, err := report.ReadPaper(src); err == nil && look.Status == report.Issued {
			return fmt.Errorf("%s is issue %d of %s, issued on %s, and stays as it is; give another folder", path, look.Issue, look.Number, look.Date)
		}
	}
	return nil
}

// writePapers writes new papers where nothing lies and then the marks on earlier ones; when one of them fails, all is as it was.
func (b *bundle) writePapers(dir string) (err error) {
	var undo []func()
	defer func() {
		if err != nil {
			for i := len(undo) - 1; i >= 0; i-- {
				undo[i]()
			}
		}
	}()
	for _, name := range b.frozen {
		path := filepath.Join(dir, name)
		if err = disk.WriteFirst(path, b.files[name]); err != nil {
			return err
		}
		undo = append(undo, func() { os.Remove(path) })
	}
	for _, m := range b.marks {
		if err = disk.WriteWhole(m.path, m.marked); err != nil {
			return err
		}
		undo = append(undo, func() { _ = disk.WriteWhole(m.path, m.was) })
	}
	return nil
}
