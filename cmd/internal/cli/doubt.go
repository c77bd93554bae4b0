package cli

import (
	"fmt"
	"io"
	"os"
	"strings"
	"time"

	"github.com/spf13/cobra"

	"crossgrain/cmd/internal/page"
	"crossgrain/panel/assessment"
	"crossgrain/panel/response"
)

// Cases by default: over a range they take about a second, through a record of a year some ten seconds.
const (
	casesHeld   = 1000
	casesCourse = 200
	mostCases   = 20000
)

// doubtFlags are how doubt is worked out.
type doubtFlags struct {
	cases    int
	held     string
	touching bool
}

func (d *doubtFlags) bind(cmd *cobra.Command) {
	f := cmd.Flags()
	f.IntVar(&d.cases, "cases", 0, fmt.Sprintf("`N` cases drawn for the doubt; without it %d over a range, of which %d go through a record, none with --quick; 0 for none", casesHeld, casesCourse))
	f.StringVar(&d.held, "for", "", "`TIME` for which each humidity of the calculated ranges is held, such as \"3 days\"; without it a season")
	f.BoolVar(&d.touching, "touching", false, "what to find out may touch the wood, never the paint")
}

// ask puts the flags into the question.
func (d *doubtFlags) ask(cmd *cobra.Command, e env, seed int, q *assessment.Question) error {
	q.Touching = d.touching
	if d.held != "" {
		w := strings.Fields(d.held)
		if len(w) != 2 || !lasts(w, &q.For) || q.For < time.Hour {
			return badUsage(cmd, "", "--for must be a time of an hour or more such as \"3 days\" or \"2 weeks\", got %q", d.held)
		}
	}
	s := &q.Samples
	s.Seed = uint64(seed)
	switch given := cmd.Flags().Changed("cases"); {
	case given && (d.cases < 0 || d.cases > mostCases || d.cases > 0 && d.cases < assessment.Fewest):
		return badUsage(cmd, "", "--cases must be 0 or lie between %d and %d, got %d", assessment.Fewest, mostCases, d.cases)
	case given:
		s.Held, s.Course = d.cases, d.cases
	case q.Setting == response.Quick:
	default:
		s.Held, s.Course = casesHeld, casesCourse
	}
	s.Progress = e.progress(" (Ctrl-C keeps what is done)")
	return nil
}

// terminal says whether a person watches.
func terminal(f *os.File) bool {
	st, err := f.Stat()
	return err == nil && st.Mode()&os.ModeCharDevice != 0
}

// progress tells how far it is where a person watches, with a note behind, or a page ([page.Progress]); nil where nobody does.
func (e env) progress(note string) func(stage string, done, of int) {
	if out, ok := e.stderr.(page.Progress); ok {
		return out.Progress
	}
	if out, ok := e.stderr.(*os.File); ok && terminal(out) {
		return (&progress{to: out, note: note}).tell
	}
	return nil
}

// progress writes how far it is, on one line, once it has taken a second.
type progress struct {
	to    io.Writer
	note  string
	stage string
	began time.Time
	last  time.Time
	shown bool
}

func (p *progress) tell(stage string, done, of int) {
	now := time.Now()
	if stage != p.stage {
		p.stage, p.began, p.last, p.shown = stage, now, now, false
	}
	switch {
	case done == of && p.shown:
		fmt.Fprintf(p.to, "\r%s: %d of %d\n", stage, done, of)
	case done < of && now.Sub(p.began) > time.Second && now.Sub(p.last) > 200*time.Millisecond:
		p.last, p.shown = now, true
		fmt.Fprintf(p.to, "\r%s: %d of %d%s", stage, done, of, p.note)
	}
}
