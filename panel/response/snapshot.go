package response

import (
	"time"

	"crossgrain/moisture"
)

// shots keep the moisture through the thickness of the first board at the moments that stand out.
type shots struct {
	by  [4]float64
	got [4]Snapshot
}

var shotLabels = [...]string{"most hollow", "most rounded", "driest", "dampest"}

// snap keeps the state if it is the farthest so far in one of four ways.
func (f *follower) snap(t time.Time, rh, warp float64) {
	w := f.woods[0]
	u := w.mean.Mean()
	for i, v := range [...]float64{-warp, warp, -u, u} {
		s := &f.shots
		if s.got[i].Z != nil && v <= s.by[i] {
			continue
		}
		s.by[i] = v
		w.u = w.mean.MC(w.u)
		shot := &s.got[i]
		shot.Time, shot.Label, shot.RH, shot.Z = t, shotLabels[i], rh, w.z
		shot.Part = f.year.Boards[0].Part
		shot.MC = shot.MC[:0]
		for _, x := range w.u {
			shot.MC = append(shot.MC, moisture.MC(x))
		}
	}
}

// list returns the moments in order of time, each once.
func (s *shots) list() []Snapshot {
	var out []Snapshot
	for i := range s.got {
		if s.got[i].Z != nil {
			out = append(out, s.got[i])
		}
	}
	return out
}
