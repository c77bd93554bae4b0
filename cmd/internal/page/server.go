package page

import (
	"context"
	"errors"
	"fmt"
	"io"
	"net"
	"net/http"
	"sync"
	"time"
)

// Config is what the page is started with.
type Config struct {
	Dir     string // folder of the panels; made when it is missing
	Port    int    // 0: any that is free
	Version string
	// Run runs a command of crossgrain, for what is a command already: record, intake, loan, fault, treat, survey. What it writes to
	// stderr is shown where it fails; a stderr with the method of [Progress] is told how far it is.
	Run func(ctx context.Context, args []string, stdin io.Reader, stdout, stderr io.Writer) int
}

// Server serves one folder.
type Server struct {
	Config
	folder *folder
	listen net.Listener
	http   http.Server

	mu      sync.Mutex
	sheets  map[string]*sheet
	jobs    map[string]*job
	nextJob int
	records records

	work   chan struct{} // one at a time works out what takes long
	ctx    context.Context
	cancel context.CancelFunc
}

// New opens the folder and the port; nothing is served before [Server.Serve].
func New(c Config) (*Server, error) {
	f, err := openFolder(c.Dir)
	if err != nil {
		return nil, err
	}
	l, err := net.Listen("tcp", fmt.Sprintf("127.0.0.1:%d", c.Port))
	if err != nil {
		f.close()
		if c.Port != 0 {
			return nil, fmt.Errorf("port %d cannot be used: %w", c.Port, err)
		}
		return nil, fmt.Errorf("no port can be used: %w", err)
	}
	s := &Server{Config: c, folder: f, listen: l, sheets: map[string]*sheet{}, jobs: map[string]*job{}, work: make(chan struct{}, 1)}
	s.ctx, s.cancel = context.WithCancel(context.Background())
	s.http = http.Server{
		Handler: s.Handler(), ReadHeaderTimeout: 10 * time.Second,
		BaseContext: func(net.Listener) context.Context { return s.ctx },
	}
	return s, nil
}

// URL is the address of the page.
func (s *Server) URL() string { return "http://" + s.listen.Addr().String() + "/" }

// Dir is the full path of the folder.
func (s *Server) Dir() string { return s.folder.path }

// Serve serves until the context ends; what was typed stays as drafts in the folder.
func (s *Server) Serve(ctx context.Context) error {
	done := make(chan error, 1)
	go func() { done <- s.http.Serve(s.listen) }()
	select {
	case err := <-done:
		return err
	case <-ctx.Done():
	}
	s.cancel()
	wait, stop := context.WithTimeout(context.Background(), 2*time.Second)
	defer stop()
	if err := s.http.Shutdown(wait); err != nil {
		s.http.Close()
	}
	s.folder.close()
	if err := <-done; !errors.Is(err, http.ErrServerClosed) {
		return err
	}
	return nil
}

// Handler answers requests; everything goes through [guard].
func (s *Server) Handler() http.Handler {
	m := http.NewServeMux()
	m.HandleFunc("GET /{$}", s.desk)
	m.HandleFunc("GET /look/{name}", s.look)
	m.HandleFunc("POST /panel", s.begin)
	m.HandleFunc("POST /open", s.open)
	m.HandleFunc("GET /panel/{key}", s.on(s.describe))
	m.HandleFunc("POST /panel/{key}", s.on(s.change))
	m.HandleFunc("GET /panel/{key}/events", s.on(s.events))
	m.HandleFunc("GET /panel/{key}/paper", s.on(s.paper))
	m.HandleFunc("GET /panel/{key}/figures", s.on(s.figures))
	m.HandleFunc("GET /panel/{key}/figure/{name}", s.on(s.figure))
	m.HandleFunc("GET /panel/{key}/file", s.on(s.file))
	m.HandleFunc("GET /panel/{key}/text", s.on(s.text))
	m.HandleFunc("POST /panel/{key}/text", s.on(s.setText))
	m.HandleFunc("POST /panel/{key}/save", s.on(s.save))
	m.HandleFunc("POST /panel/{key}/forget", s.on(s.forget))
	m.HandleFunc("POST /panel/{key}/record", s.on(s.dropRecord))
	m.HandleFunc("POST /panel/{key}/phone", s.on(s.phone))
	m.HandleFunc("GET /task/{name}", s.task)
	m.HandleFunc("POST /task/{name}", s.startTask)
	m.HandleFunc("GET /job/{id}", s.job)
	m.HandleFunc("GET /job/{id}/events", s.jobEvents)
	m.HandleFunc("POST /job/{id}/stop", s.stopJob)
	m.HandleFunc("POST /job/{id}/keep", s.keepJob)
	m.HandleFunc("GET /job/{id}/file/{name...}", s.jobFile)
	return s.guard(m)
}

// on finds the sheet that a request is about.
func (s *Server) on(answer func(http.ResponseWriter, *http.Request, *sheet)) http.HandlerFunc {
	return func(w http.ResponseWriter, r *http.Request) {
		sh, err := s.sheet(r.PathValue("key"))
		if err != nil {
			s.missing(w, err)
			return
		}
		answer(w, r, sh)
	}
}

// guard refuses what does not come from this page: another Host (a name that was made to point here), a post from another site, and
// bodies beyond what any file here has. It tells the browser to run no script but the page's own and to ask nobody else for anything.
func (s *Server) guard(next http.Handler) http.Handler {
	cross := http.NewCrossOriginProtection()
	return http.HandlerFunc(func(w http.ResponseWriter, r *http.Request) {
		if !s.own(r.Host) {
			http.Error(w, "crossgrain answers on this machine alone, at "+s.URL(), http.StatusForbidden)
			return
		}
		h := w.Header()
		h.Set("Content-Security-Policy", policy)
		h.Set("X-Content-Type-Options", "nosniff")
		h.Set("Referrer-Policy", "no-referrer")
		h.Set("Cross-Origin-Opener-Policy", "same-origin")
		h.Set("Cross-Origin-Resource-Policy", "same-origin")
		h.Set("Cache-Control", "no-store")
		if err := cross.Check(r); err != nil {
			http.Error(w, "This was sent by another site, and is refused.", http.StatusForbidden)
			return
		}
		r.Body = http.MaxBytesReader(w, r.Body, mostUpload)
		defer func() {
			if p := recover(); p != nil && p != http.ErrAbortHandler {
				s.sorry(w, http.StatusInternalServerError, fmt.Sprintf("A fault in the program, not in what you typed: %v. What was typed is kept as a draft.", p))
			}
		}()
		next.ServeHTTP(w, r)
	})
}

// policy is what a browser may do with a page: its own script and style, drawings inline, nothing from elsewhere. Drawings carry style
// in their attributes, so that style may stand inline; script may not.
const policy = "default-src 'none'; script-src 'self'; style-src 'self' 'unsafe-inline'; img-src 'self' data:; font-src 'self' data:; " +
	"connect-src 'self'; form-action 'self'; frame-src 'self'; frame-ancestors 'self'; base-uri 'none'"

// The largest bodies and files that are taken, in bytes.
const (
	mostUpload = 256 << 20
	mostForm   = 4 << 20
	mostRecord = 200 << 20
	mostPanel  = 1 << 20
)

// own says whether a request names this server.
func (s *Server) own(host string) bool {
	name, port, err := net.SplitHostPort(host)
	if err != nil {
		return false
	}
	_, mine, _ := net.SplitHostPort(s.listen.Addr().String())
	return port == mine && (name == "127.0.0.1" || name == "localhost")
}
