package page

import (
	"context"
	"fmt"
	"math"
	"net/http"
	"strings"

	"crossgrain/panel"
	"crossgrain/panel/assessment"
	"crossgrain/panel/fault"
	"crossgrain/panel/response"
)

// phoneView answers by telephone: one reading, hours, one line.
type phoneView struct {
	view
	Key            string
	Reading, Hours string
	Line           string
	More           []string
	Wrong          string
}

// longestWait is how many hours may be asked about: three months, as far as the calculation looks.
const longestWait = 92 * 24

func (s *Server) phone(w http.ResponseWriter, r *http.Request, sh *sheet) {
	r.Body = http.MaxBytesReader(w, r.Body, mostForm)
	if err := r.ParseForm(); err != nil {
		s.sorry(w, http.StatusBadRequest, "The form could not be read: "+err.Error())
		return
	}
	v := phoneView{view: view{Title: "By telephone", Here: "panel"}, Key: sh.key, Reading: r.PostForm.Get("reading"), Hours: r.PostForm.Get("hours")}
	sh.mu.Lock()
	p, problems := read(sh.key, sh.text)
	sh.mu.Unlock()
	rh, err := numberIn(v.Reading, 0, 100, "% RH")
	hours, err2 := numberIn(v.Hours, 0, longestWait, "hours")
	switch {
	case len(problems) > 0:
		v.Wrong = "The description of the panel cannot be read yet; mend it first."
	case err != nil:
		v.Wrong = "The reading " + err.Error() + "."
	case err2 != nil:
		v.Wrong = "The time " + err2.Error() + "."
	default:
		v.Line, v.More, err = byTelephone(r.Context(), p, rh/100, hours)
		if err != nil {
			v.Wrong = err.Error()
		}
	}
	if p != nil {
		v.Title = "By telephone: " + p.Accession()
	}
	if r.Header.Get("Accept") == "application/json" {
		text, err := s.fragment("phone", v)
		if err != nil {
			s.sorry(w, http.StatusInternalServerError, err.Error())
			return
		}
		fmt.Fprint(w, text)
		return
	}
	s.show(w, http.StatusOK, "phone.html", v)
}

// byTelephone says what to do when the air at the panel has read a humidity (fraction) for so many hours: by the same hours as its card,
// the unfavourable side throughout.
func byTelephone(ctx context.Context, p *panel.Panel, rh, hours float64) (line string, more []string, err error) {
	cards, err := fault.Cards(ctx, p, assessment.Question{Setting: response.Coarse})
	if err != nil {
		return "", nil, err
	}
	card := cards[0]
	if card.Grid == nil {
		for _, g := range card.Gates {
			more = append(more, g.Text)
		}
		if card.Withheld != "" {
			more = append(more, card.Withheld)
		}
		return "CALL a conservator now: no hours can be given for this panel.", more, nil
	}
	for i, row := range card.Grid.Rows {
		if rh > float64(row.High) && i < len(card.Grid.Rows)-1 {
			continue
		}
		u := card.Grid.Until[i]
		line = fmt.Sprintf("%s. %s %% RH at the panel for %s.", strings.ToUpper(u.At(hours).String()), trim(100*rh), lasting(hours))
		if !math.IsInf(u.Call, 1) {
			more = append(more, "At this reading call a conservator "+within(u.Call)+".")
		}
		if !math.IsInf(u.Act, 1) {
			more = append(more, "A limit of the calculation is reached "+after(u.Act)+": act before that.")
		}
		break
	}
	if card.Thin > 0 {
		more = append(more, fmt.Sprintf("Its thickness is not recorded: it was counted as thin, %s mm.", trim(card.Thin)))
	}
	return line, append(more, "Do not warm or dry fast. Leave a closed case closed; this is the reading at the panel, inside its case if it is in one."), nil
}

func trim(v float64) string { return strings.TrimSuffix(fmt.Sprintf("%.1f", v), ".0") }

// lasting writes hours as one says them.
func lasting(h float64) string {
	if h >= 48 {
		return trim(h/24) + " days"
	}
	if h == 1 {
		return "1 hour"
	}
	return trim(h) + " hours"
}

func within(h float64) string {
	if h < 1 {
		return "at once"
	}
	return "within " + lasting(math.Floor(h))
}

func after(h float64) string {
	if h < 1 {
		return "at once"
	}
	return "after " + lasting(math.Floor(h))
}

// dropRecord takes a logger's file for the question of a panel.
func (s *Server) dropRecord(w http.ResponseWriter, r *http.Request, sh *sheet) {
	name, data, err := upload(r, "drop:record")
	if err == nil {
		name, err = s.keepFile(recordsDir, name, data)
	}
	if err != nil {
		s.sorry(w, http.StatusBadRequest, err.Error())
		return
	}
	sh.mu.Lock()
	defer sh.mu.Unlock()
	sh.ask = question{Kind: "record", Record: name, Temperature: sh.ask.Temperature}
	s.keep(sh)
	s.begun(sh)
	http.Redirect(w, r, "/panel/"+sh.key+"#climate", http.StatusSeeOther)
}
