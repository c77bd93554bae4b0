package page

import (
	"net/http"
	"sync"
)

// watchers are those who are told when something has changed.
type watchers struct {
	mu  sync.Mutex
	all map[chan struct{}]bool
}

func (w *watchers) join() chan struct{} {
	w.mu.Lock()
	defer w.mu.Unlock()
	if w.all == nil {
		w.all = map[chan struct{}]bool{}
	}
	c := make(chan struct{}, 1)
	w.all[c] = true
	return c
}

func (w *watchers) leave(c chan struct{}) {
	w.mu.Lock()
	defer w.mu.Unlock()
	delete(w.all, c)
}

// tell wakes everybody; whoever has not looked since the last time is woken once.
func (w *watchers) tell() {
	w.mu.Lock()
	defer w.mu.Unlock()
	for c := range w.all {
		select {
		case c <- struct{}{}:
		default:
		}
	}
}

// stream sends what now returns as server-sent events, anew whenever the watchers are told, until it is the last, it fails or nobody
// listens any more.
func (s *Server) stream(w http.ResponseWriter, r *http.Request, of *watchers, now func() (event any, last bool, err error)) {
	c := of.join()
	defer of.leave(c)
	send := sender(w)
	for {
		e, last, err := now()
		if err != nil || !send(e) || last {
			return
		}
		select {
		case <-c:
		case <-r.Context().Done():
			return
		case <-s.ctx.Done():
			return
		}
	}
}
