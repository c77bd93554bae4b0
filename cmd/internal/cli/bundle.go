package cli

import (
	"bytes"
	"context"
	"fmt"
	"io"
	"path/filepath"
	"slices"

	"crossgrain/cmd/internal/disk"
	"crossgrain/cmd/internal/figure"
	"crossgrain/cmd/internal/illustrate"
	"crossgrain/cmd/internal/report"
)

// bundle is the content of an output folder. Everything is made before anything is written.
type bundle struct {
	ctx   context.Context
	files map[string][]byte
	order []string

	frozen []string // issued papers among them
	marks  []mark   // on earlier issues
}

func newBundle(ctx context.Context) *bundle { return &bundle{ctx: ctx, files: map[string][]byte{}} }

// add makes one file of the folder.
func (b *bundle) add(name string, make func(io.Writer) error) error {
	var buf bytes.Buffer
	if err := make(&buf); err != nil {
		return fmt.Errorf("%s: %w", name, err)
	}
	b.files[name], b.order = buf.Bytes(), append(b.order, name)
	return b.ctx.Err()
}

// draw adds the figures as SVG, and as PNG where that is asked for.
func (b *bundle) draw(figs []illustrate.Drawn, png bool) error {
	for _, f := range figs {
		if err := b.add(f.ID+".svg", f.File); err != nil {
			return err
		}
		if !png {
			continue
		}
		if err := b.add(f.ID+".png", func(w io.Writer) error { return f.PNG(w, 200) }); err != nil {
			return err
		}
	}
	return nil
}

// write writes the folder.
func (b *bundle) write(dir string) error {
	if err := b.guard(dir); err != nil {
		return err
	}
	for _, name := range b.order {
		if slices.Contains(b.frozen, name) {
			continue
		}
		if err := disk.WriteWhole(filepath.Join(dir, name), b.files[name]); err != nil {
			return err
		}
	}
	return b.writePapers(dir)
}

// made is one file of a folder and what writes it.
type made struct {
	name  string
	write func(io.Writer) error
}

// writeReport writes a folder: the figures, the page with them, and the other files, of which the first holds the data. An issued paper,
// and one that leaves the house, is the page and its data alone. Everything is made before anything is written. Without a paper the page
// is none by itself.
func (c *common) writeReport(ctx context.Context, e env, p *report.Paper, before []earlier, figs []illustrate.Drawn, png bool,
	page func(io.Writer, []report.Figure, string) error, others ...made) error {
	b := newBundle(ctx)
	inline, err := illustrate.InPage(figs)
	if err != nil {
		return err
	}
	html := func(w io.Writer) error { return page(w, inline, figure.FontCSS()) }
	if p != nil && (p.Status == report.Issued || p.To != report.ToFile) {
		if err := b.addPaper(p, "html", html); err != nil {
			return err
		}
		if err := b.addPaper(p, "json", others[0].write); err != nil {
			return err
		}
		return b.hand(e, c.out, before, *p)
	}
	if err := b.draw(figs, png); err != nil {
		return err
	}
	for _, f := range append([]made{{"report.html", html}}, others...) {
		if err := b.add(f.name, f.write); err != nil {
			return err
		}
	}
	if err := b.write(c.out); err != nil {
		return err
	}
	fmt.Fprintf(e.stderr, "wrote %s with %d figures\n", filepath.Join(c.out, "report.html"), len(figs))
	return nil
}
