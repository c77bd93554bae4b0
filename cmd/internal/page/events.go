package page

import (
	"encoding/json"
	"fmt"
	"net/http"
	"strconv"
)

// event is what a page that shows a sheet is told.
type event struct {
	Rev    int    `json:"rev"`
	Stage  int    `json:"stage"`
	Now    string `json:"now,omitempty"`
	Answer string `json:"answer,omitempty"`
	Words  string `json:"words"`
	Done   int    `json:"done"`
	Of     int    `json:"of"`
}

// events tells a page how far its answer is, as server-sent events, until it goes away.
func (s *Server) events(w http.ResponseWriter, r *http.Request, sh *sheet) {
	rev, _ := strconv.Atoi(r.URL.Query().Get("rev"))
	stage, _ := strconv.Atoi(r.URL.Query().Get("stage"))
	s.stream(w, r, &sh.watch, func() (any, bool, error) {
		e, err := s.eventOf(sh, &rev, &stage)
		return e, false, err
	})
}

// eventOf is the present state of a sheet; the answer comes with it where the page has not seen it yet.
func (s *Server) eventOf(sh *sheet, rev, stage *int) (event, error) {
	sh.mu.Lock()
	defer sh.mu.Unlock()
	e := event{Rev: sh.rev, Words: sh.stage.Words, Done: sh.stage.Done, Of: sh.stage.Of}
	a := sh.answer
	if a == nil || a.Old {
		return e, nil
	}
	e.Stage = a.Stage
	if sh.rev == *rev && a.Stage == *stage {
		return e, nil
	}
	*rev, *stage = sh.rev, a.Stage
	v := s.viewOf(sh, sh.read)
	var err error
	if e.Now, err = s.fragment("now", v); err == nil {
		e.Answer, err = s.fragment("answer", v)
	}
	return e, err
}

// sender writes server-sent events; false: nobody listens any more.
func sender(w http.ResponseWriter) func(any) bool {
	w.Header().Set("Content-Type", "text/event-stream")
	control := http.NewResponseController(w)
	return func(v any) bool {
		data, err := json.Marshal(v)
		if err != nil {
			return false
		}
		if _, err := fmt.Fprintf(w, "data: %s\n\n", data); err != nil {
			return false
		}
		return control.Flush() == nil
	}
}
