package assessment

import "sync"

// fault carries a panic from a goroutine to the one that waits for it, where a caller can recover it: a fault met with one panel must
// not end the work on others.
type fault struct {
	mu  sync.Mutex
	met any
}

// catch is deferred in the goroutine.
func (f *fault) catch() {
	if p := recover(); p != nil {
		f.mu.Lock()
		defer f.mu.Unlock()
		if f.met == nil {
			f.met = p
		}
	}
}

// raise panics with what was caught; it is called once all goroutines have ended.
func (f *fault) raise() {
	if f.met != nil {
		panic(f.met)
	}
}
