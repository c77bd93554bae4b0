package survey

import (
	"bytes"
	"context"
	"crypto/sha256"
	"encoding/gob"
	"encoding/hex"
	"fmt"
	"math"
	"slices"

	"crossgrain/moisture"
	"crossgrain/panel"
	"crossgrain/panel/assessment"
	"crossgrain/panel/response"
)

// Keeper keeps what was worked out, so that a later survey works out only what has changed. It is called by several goroutines.
type Keeper interface {
	// Get returns what was kept under a digest of everything that went into it.
	Get(digest string) (worked []byte, ok bool)
	Put(digest string, worked []byte) error
}

// keptForm is the form of what is kept; it changes with the fields of told and with what they mean.
const keptForm = 1

// told is what a survey takes from one assessment of a panel.
type told struct {
	Fork      *panel.Fork
	Find      []assessment.Narrowing
	Maps      []assessment.LimitMap // one for each way of the fork
	Unfigured bool                  // one way of the fork allows no figures
	Few, Many float64               // of 100 such panels, over the humidities asked about
	Mode      response.Mode         // of what most of them reach first, and its part; "" nothing
	Part      string
	Hardest   []hardest // at each humidity of the sweep
}

// hardest is what works hardest at one humidity, for the panel as described.
type hardest struct {
	RH    moisture.RH
	Share float64
	Mode  response.Mode
	Part  string
}

// told assesses the panel, or takes what was kept of the same question.
func (r *Row) told(ctx context.Context, q assessment.Question, o Options) (*told, error) {
	var digest string
	if o.Keeper != nil {
		digest = digestOf(r.Panel, q, o)
		if kept, ok := o.Keeper.Get(digest); ok {
			var t told
			if gob.NewDecoder(bytes.NewReader(kept)).Decode(&t) == nil {
				r.Taken++
				return &t, nil
			}
		}
	}
	a, err := assessment.Assess(ctx, r.Panel, q)
	if err != nil {
		return nil, err
	}
	t := tell(a)
	r.Worked++
	if o.Keeper != nil && ctx.Err() == nil { // what was stopped half way is not kept
		var b bytes.Buffer
		if err := gob.NewEncoder(&b).Encode(t); err != nil {
			return nil, err
		}
		if err := o.Keeper.Put(digest, b.Bytes()); err != nil {
			r.unkept = err
		}
	}
	return t, nil
}

// digestOf is the digest of all that an answer hangs on: the panel as it reads, the question, the draws and the program.
func digestOf(p *panel.Panel, q assessment.Question, o Options) string {
	h := sha256.New()
	fmt.Fprintln(h, keptForm, o.Version, p.Digest(), math.Float64bits(float64(q.Low)), math.Float64bits(float64(q.High)), q.Setting, q.Samples.Held, q.Samples.Seed)
	return hex.EncodeToString(h.Sum(nil))
}

// tell takes from an assessment what a survey needs.
func tell(a *assessment.Result) *told {
	t := &told{Fork: a.Doubt.Fork}
	for i := range a.Doubt.Ways {
		w := &a.Doubt.Ways[i]
		t.Unfigured = t.Unfigured || len(w.Ranges) == 0
		t.Maps = append(t.Maps, w.Map)
		n := w.Count.Of100
		if i == 0 {
			t.Few, t.Many = n, n
		}
		if len(w.Parts) > 0 && (t.Part == "" || n > t.Many) {
			t.Mode, t.Part = w.Parts[0].Mode, w.Parts[0].Part
		}
		t.Few, t.Many = min(t.Few, n), max(t.Many, n)
		if w.Narrow == nil {
			continue
		}
		for _, n := range w.Narrow.List {
			if !slices.ContainsFunc(t.Find, func(have assessment.Narrowing) bool { return have.Path == n.Path }) {
				t.Find = append(t.Find, n)
			}
		}
	}
	for i := range a.Sweep {
		s := &a.Sweep[i]
		top := hardest{RH: s.RH}
		for _, d := range s.Demands {
			if d.Mode.SetsRange() && !d.Unlimited() && d.Share() > top.Share*(1+1e-9) {
				top.Share, top.Mode, top.Part = d.Share(), d.Mode, d.Part
			}
		}
		t.Hardest = append(t.Hardest, top)
	}
	return t
}
