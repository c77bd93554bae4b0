package report

import (
	"bytes"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// issuedPapers are one sheet as a page and as data, sealed.
func issuedPapers(t *testing.T) map[string][]byte {
	t.Helper()
	p := Paper{Kind: "assess", Sheet: "report", Status: Issued, Number: `No "7" <b> 5 mm & 3`, Issue: 1, Date: "2026-03-04", To: ToFile, Version: "devel",
		Inputs: []PaperInput{{Name: "a.toml", SHA256: "00"}}}
	d := Insured{Paper: &p, Accession: `"superseded_by": null <aside id="paper-mark" hidden></aside> "content_sha256": ""`, Cautions: []string{}}
	var page, data bytes.Buffer
	require.NoError(t, d.WriteHTML(&page, ""))
	require.NoError(t, WriteJSON(&data, &d))
	out := map[string][]byte{}
	for name, b := range map[string]*bytes.Buffer{"html": &page, "json": &data} {
		sealed, err := Seal(b.Bytes())
		require.NoError(t, err)
		out[name] = sealed
	}
	return out
}

// TestEveryChangeIsSeen: a byte changed, left out or put in anywhere is told, with the mark and without it; the mark itself is not a change.
func TestEveryChangeIsSeen(t *testing.T) {
	for name, file := range issuedPapers(t) {
		look, err := ReadPaper(file)
		require.NoError(t, err, name)
		assert.False(t, look.Altered, name)
		assert.Equal(t, `No "7" <b> 5 mm & 3`, look.Number)
		marked, err := MarkSuperseded(file, PaperIssue{2, "2026-05-01"})
		require.NoError(t, err)
		look, err = ReadPaper(marked)
		require.NoError(t, err, name)
		assert.False(t, look.Altered, name)
		assert.Equal(t, &PaperIssue{2, "2026-05-01"}, look.Superseded)
		_, err = MarkSuperseded(marked, PaperIssue{3, "2026-06-01"})
		assert.Error(t, err, "a mark is set once")
		for _, f := range [][]byte{file, marked} {
			for i := range f {
				changed := bytes.Clone(f)
				changed[i] ^= 1
				for _, g := range [][]byte{changed, splice(f, i, i+1, ""), splice(f, i, i, "x")} {
					look, err := ReadPaper(g)
					if err != nil || look.Altered {
						continue
					}
					// what is left is another whole mark
					require.NotNil(t, look.Superseded, "%s: byte %d", name, i)
					assert.NotEqual(t, PaperIssue{2, "2026-05-01"}, *look.Superseded, "%s: byte %d", name, i)
				}
			}
		}
	}
}

// TestOtherFilesAreNoPapers: what is not a paper is said to be none, whatever it holds.
func TestOtherFilesAreNoPapers(t *testing.T) {
	for _, text := range []string{
		"", "{", "{}", "[]", "null", "<html></html>", `{"paper": null}`, `{"paper": 3}`, `{"paper": {}}`, `{"paper": {"status": "issued", "kind": "loan"}}`,
		`<meta name="crossgrain-paper" content="">`, `<meta name="crossgrain-paper" content="{`, `<meta name="crossgrain-paper" content="{}">`, "\x00\xff",
	} {
		_, err := ReadPaper([]byte(text))
		assert.Error(t, err, text)
	}
	_, err := ReadPaper([]byte("<html></html>"))
	assert.ErrorIs(t, err, ErrNoPaper)
}

// TestNumbersOfPapers: a number can be any words with a letter or digit, and a file's name is made of it.
func TestNumbersOfPapers(t *testing.T) {
	for _, bad := range []string{"", "  ", "/..", "\x01", "a\u202eb", string(make([]rune, 80))} {
		_, err := PaperNumber(bad)
		assert.Error(t, err, "%q", bad)
	}
	n, err := PaperNumber(" 2026/041  Ä ")
	require.NoError(t, err)
	assert.Equal(t, "2026/041 Ä", n)
	p := Paper{Number: n, Issue: 2, Status: Issued, Sheet: "report", To: ToBorrower}
	assert.Equal(t, "2026-041-Ä-issue-2-to-borrower-report.html", p.FileName("html"))
}

// TestReachedBy: the times by which 5, 50 and 95 of 100 have reached a limit part the counts.
func TestReachedBy(t *testing.T) {
	span := []*float64{ptr(8), ptr(40), nil}
	for _, c := range []struct{ hours, low, high float64 }{{7, 0, 5}, {8, 5, 50}, {39, 5, 50}, {40, 50, 95}, {1e4, 50, 95}} {
		low, high := reachedBy(span, c.hours)
		assert.Equal(t, [2]float64{c.low, c.high}, [2]float64{low, high}, "after %g hours", c.hours)
	}
	assert.Equal(t, "fewer than 5", InsuredRow{Low: 0, High: 5}.words())
	assert.Equal(t, "more than 95", InsuredRow{Low: 95, High: 100}.words())
}
