package page

import (
	"bytes"
	"context"
	"errors"
	"html/template"
	"time"

	"crossgrain/cmd/internal/illustrate"
	"crossgrain/cmd/internal/report"
	"crossgrain/panel"
	"crossgrain/panel/assessment"
	"crossgrain/panel/response"
	"crossgrain/tables/problem"
)

// How far an answer has come.
const (
	byClosedForms = 1 + iota
	byModel
	byCases
)

// answer is what is known of a panel at one change.
type answer struct {
	Rev   int
	Stage int
	Old   bool // of an earlier text: the present one cannot be read
	Doc   report.Assess
	Notes []string // of the climate
	Body  template.HTML

	result *assessment.Result
	figs   []illustrate.Drawn // all of them, made when asked for
}

// Cases is how many realisations an answer takes.
const (
	casesHeld   = 1000
	casesCourse = 200
)

// readNow reads the sheet as it stands.
type readNow struct {
	panel    *panel.Panel
	problems problem.List
	ask      assessment.Question
	notes    []string
	askErr   error
}

// now reads text and question. The caller holds the lock of the sheet.
func (s *Server) now(sh *sheet) readNow {
	var r readNow
	r.panel, r.problems = read(sh.key, sh.text)
	r.ask, r.notes, r.askErr = s.parse(sh.ask)
	return r
}

// begun answers a change by closed forms and begins what is finer, ending what was under way. The caller holds the lock of the sheet.
func (s *Server) begun(sh *sheet) readNow {
	if sh.cancel != nil {
		sh.cancel()
		sh.cancel = nil
	}
	sh.rev++
	sh.stage = progress{}
	r := s.now(sh)
	sh.read = r
	if len(r.problems) > 0 || r.askErr != nil {
		if sh.answer != nil {
			old := *sh.answer
			old.Rev, old.Old = sh.rev, true
			sh.answer = &old
		}
		sh.watch.tell()
		return r
	}
	quick := r.ask
	quick.Setting, quick.NoWait = response.Quick, true
	a, err := s.assess(s.ctx, r, quick, sh.rev, byClosedForms)
	if err != nil {
		r.askErr, sh.read.askErr = err, err
		return r
	}
	sh.answer = a
	ctx, cancel := context.WithCancel(s.ctx)
	sh.cancel = cancel
	go s.refine(ctx, sh, r, sh.rev)
	sh.watch.tell()
	return r
}

// settles is how long a text must stand before the finer models begin.
const settles = 350 * time.Millisecond

// refine answers by the finer model, then by many cases. It ends when its context does.
func (s *Server) refine(ctx context.Context, sh *sheet, r readNow, rev int) {
	defer func() {
		if p := recover(); p != nil {
			sh.reach(rev, progress{Words: "a fault in the program: the finer answer is missing; tell whoever looks after it", Ended: true}, nil)
		}
	}()
	select {
	case <-time.After(settles):
	case <-ctx.Done():
		return
	}
	select { // one panel at a time
	case s.work <- struct{}{}:
		defer func() { <-s.work }()
	case <-ctx.Done():
		return
	}
	q := r.ask
	q.Setting = response.Coarse
	sh.reach(rev, progress{Words: "working it out step by step"}, nil)
	a, err := s.assess(ctx, r, q, rev, byModel)
	if err == nil && ctx.Err() == nil {
		sh.reach(rev, progress{Words: "counting cases"}, a)
		q.Samples = assessment.Samples{Held: casesHeld, Course: casesCourse, Seed: 1}
		last := time.Time{}
		q.Samples.Progress = func(stage string, done, of int) {
			if now := time.Now(); now.Sub(last) > 250*time.Millisecond {
				last = now
				sh.reach(rev, progress{Words: stage, Done: done, Of: of}, nil)
			}
		}
		a, err = s.assess(ctx, r, q, rev, byCases)
	}
	switch {
	case ctx.Err() != nil || errors.Is(err, context.Canceled):
	case err != nil:
		sh.reach(rev, progress{Words: "the finer answer cannot be had: " + err.Error(), Ended: true}, nil)
	default:
		sh.reach(rev, progress{}, a)
	}
}

// reach notes how far the work of a change has come, unless a newer change was made.
func (sh *sheet) reach(rev int, p progress, a *answer) {
	sh.mu.Lock()
	defer sh.mu.Unlock()
	if rev != sh.rev {
		return
	}
	sh.stage = p
	if a != nil {
		sh.answer = a
	}
	sh.watch.tell()
}

// assess asks and writes the answer down.
func (s *Server) assess(ctx context.Context, r readNow, q assessment.Question, rev, stage int) (*answer, error) {
	res, err := assessment.Assess(ctx, r.panel, q)
	if err != nil {
		return nil, err
	}
	doc := report.Build(res, report.Meta{Version: s.Version, Seed: 1, Invented: r.panel.Invented(), Record: q.Record})
	figs, err := illustrate.InPage(illustrate.Brief(&doc, res))
	if err != nil {
		return nil, err
	}
	var b bytes.Buffer
	if err := doc.WriteAnswer(&b, figs); err != nil {
		return nil, err
	}
	return &answer{Rev: rev, Stage: stage, Doc: doc, Notes: r.notes, Body: template.HTML(b.String()), result: res}, nil
}

// finished waits until the answer of the present change is as fine as it gets, or the context ends.
func (s *Server) finished(ctx context.Context, sh *sheet) {
	c := sh.watch.join()
	defer sh.watch.leave(c)
	for {
		sh.mu.Lock()
		done := sh.cancel == nil || sh.answer == nil || sh.answer.Old || sh.answer.Stage == byCases || sh.stage.Ended
		sh.mu.Unlock()
		if done {
			return
		}
		select {
		case <-c:
		case <-ctx.Done():
			return
		}
	}
}

// figures are all figures of the answer.
func (a *answer) figures() []illustrate.Drawn {
	if a.figs == nil {
		a.figs = illustrate.Assessment(&a.Doc, a.result)
	}
	return a.figs
}
