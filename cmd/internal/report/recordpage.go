package report

import (
	"io"
	"time"
)

// WriteHTML writes the record as one self-contained page, by the rules of [Assess.WriteHTML].
func (r RoomRecord) WriteHTML(w io.Writer, figs []Figure, fontCSS string) error {
	p := &page{
		shell: shell{Title: r.title(), Invented: r.Invented, Running: running(r.title(), say("record.foot"), r.Invented)},
		About: r.about(), Basis: r.basis(),
		Sentences: r.opening(), Cautions: r.Cautions, Range: r.read(), Sections: r.sections(), Annex: r.annex(),
	}
	if err := p.hang(figs); err != nil {
		return err
	}
	return p.write(w, fontCSS)
}

// RecordCautions returns the fixed cautions that stand on every record.
func RecordCautions() []string {
	return []string{say("record.caution.place"), say("record.caution.panel"), say("caution.conservator"), say("caution.notcovered")}
}

// RecordBandRule says how the historic band was worked out, in the reader's words.
func RecordBandRule() string { return say("recband.rule") }

func monthName(m int) string {
	if m < 1 || m > 12 {
		return "–"
	}
	return time.Month(m).String()
}

func hourName(h int) string {
	return say("recday.hour", "from", whole(float64(h)), "to", whole(float64(h+1)))
}
