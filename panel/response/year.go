package response

import (
	"context"
	"errors"
	"fmt"
	"math"
	"slices"
	"time"

	"crossgrain/moisture"
	"crossgrain/moisture/profile"
	"crossgrain/panel/internal/creep"
	"crossgrain/panel/section"
)

// Rules of a course, all working choices (assumption).
const (
	homeBand   = 0.10 // a record whose mean lies this near to the used-to humidity is the home climate
	runInYears = 6    // of which it is repeated at most, until the panel comes back within runInTol
	runInTol   = 0.02
	longest    = 14 * 24 * time.Hour // after a longer gap the wood is taken to have come to rest in the climate that follows
)

// Follow takes the panel through a course, step by step: moisture through the thickness of each
// board, creep and crushing in its layers, and with them everything that is computed of one state.
// k takes the states of each day at which the width has moved farthest and the warp is least and
// greatest. Days are those of the record's civil time. The setting must not be Quick.
func (c *Case) Follow(ctx context.Context, s Course, k Sink) (*Year, error) {
	return c.goThrough(ctx, s, k, false)
}

func (c *Case) goThrough(ctx context.Context, s Course, k Sink, brief bool) (*Year, error) {
	if c.setting == Quick {
		return nil, fmt.Errorf("response: a course is followed at setting coarse or fine, not quick")
	}
	step := 3 * time.Hour
	if c.setting == Fine {
		step = time.Hour
	}
	course, err := s.Even(step)
	if err != nil {
		return nil, err
	}
	course = slices.DeleteFunc(course, func(s Stretch) bool { return len(s.RH) == 0 })
	if len(course) == 0 {
		return nil, errors.New("response: the course holds no step to follow")
	}
	f, err := c.newFollower(course, step, brief)
	if err != nil {
		return nil, err
	}
	if err := f.begin(ctx); err != nil {
		return nil, err
	}
	if err := f.run(ctx, k); err != nil {
		return nil, err
	}
	return f.finish()
}

// follower is a panel on its way.
type follower struct {
	c      *Case
	course []Stretch
	dt     float64 // s
	woods  []*timber
	which  []int // wood of each board
	strips []*layered
	now    moment
	bend   []float64 // scratch
	day    day
	warp   warper
	shots  shots
	// hollow and round are the least and greatest warp so far; profile is scratch
	hollow, round float64
	profile       section.Movement
	year          Year
	// on and damp are the panel on its members, see marches; nil where it has none or closed forms stand
	// alone. reach is the share of what is held at their lines that holds in the mean over each board.
	on, damp *marching
	reach    []float64
	fresh    bool       // on has found a new balance since it was last noted
	brief    bool       // see FollowBriefly
	most     []float64  // extremes so far of a brief course: width, warp, pull of each member
	width    [2]float64 // free change of width along the mean curve and with memory
	paint    *paintWatch
}

func (c *Case) newFollower(course []Stretch, step time.Duration, brief bool) (*follower, error) {
	f := &follower{c: c, course: course, dt: step.Seconds(), now: c.still(), bend: make([]float64, len(c.boards)), brief: brief}
	f.year.Step = step
	axial, bending, err := c.shares()
	if err != nil {
		return nil, err
	}
	p := c.setting.pace()
	if f.woods, f.which, err = c.timbers(p, !brief); err != nil {
		return nil, err
	}
	for i := range c.boards {
		b := &c.boards[i]
		l, err := c.layers(b, p.layers, axial[i], bending[i])
		if err != nil {
			return nil, fmt.Errorf("board %s: %w", b.Name, err)
		}
		if brief {
			l.held[1] = nil
		}
		f.strips = append(f.strips, l)
		f.year.Boards = append(f.year.Boards, BoardYear{
			Part: "board." + b.Name, MeanMC: [2]moisture.MC{1, 0}, SkinMC: [2]moisture.MC{1, 0},
		})
	}
	f.day.init(c)
	f.warp = c.newWarper()
	f.reach = c.heldOver()
	if !brief {
		f.paint, err = c.newPaintWatch(bending)
	}
	return f, err
}

// shares returns the share of each board's free movement and of its free warp that its members hold
// back, from a state ten points drier than it is used to.
func (c *Case) shares() (axial, bending []float64, err error) {
	axial, bending = make([]float64, len(c.boards)), make([]float64, len(c.boards))
	holders := c.holders()
	if len(holders) == 0 {
		return axial, bending, nil
	}
	states, err := c.Settle([]moisture.RH{max(0.02, c.o.UsedTo-0.10)})
	if err != nil {
		return nil, nil, err
	}
	s := &states[0]
	cup := s.Cup
	if s.Section != nil {
		cup = s.Section.ClosedCup // what drives the members
	}
	free := 8 * cup / (c.o.Across * c.o.Across)
	for k, r := range s.Restraints {
		bend := 1.0
		if !holders[k].flat {
			bend = math.Min(1, math.Abs(r.Bend/free))
		}
		if math.IsNaN(bend) {
			bend = 0
		}
		for i := range c.boards {
			b := &c.boards[i]
			wants := b.across(b.mc(s.BoardRH[i], c.o.Temperature) - b.used)
			held := r.Held[i]
			if r.mean != nil {
				held = r.mean[i] // what gathers beside a fixing or a tip is not that of the board
			}
			axial[i] = math.Max(axial[i], math.Min(1, math.Abs(held/wants)))
			bending[i] = math.Max(bending[i], bend)
		}
	}
	return axial, bending, nil
}

// finish closes the account of the year.
func (f *follower) finish() (*Year, error) {
	y := &f.year
	y.From = f.course[0].Start
	y.Profiles = f.shots.list()
	if !f.brief {
		y.LetGo, y.Paint = f.letGo(), f.paint.finish()
	}
	if f.on != nil {
		y.Misfit, y.Undetermined = f.on.error, f.on.open
	}
	for i, l := range f.strips {
		b := &y.Boards[i]
		window, half, reaches, err := f.c.pace(&f.c.boards[i])
		if err != nil {
			return nil, err
		}
		b.Half, b.Most, b.Reaches, b.Set = half, window, reaches, l.set()
		if l.held[0] == nil {
			continue
		}
		r, err := l.held[0].Release()
		if err != nil {
			return nil, fmt.Errorf("%s: %w", b.Part, err)
		}
		b.Stored = Stored{r.AtOnce.Strain, r.Weeks.Strain, r.Cycles.Strain, r.Never.Strain}
	}
	return y, nil
}

// marks are the moisture and the held strain of every layer, by which a run-in is judged.
func (f *follower) marks() []float64 {
	var out []float64
	for _, l := range f.strips {
		out = append(out, l.in.Free...)
		for _, s := range [...]*creep.Strip{l.free, l.held[0], l.held[1]} {
			if s != nil {
				out = append(out, s.Elastic()...)
				out = append(out, s.Held()...)
			}
		}
	}
	return out
}

// most is the greatest difference of two lists and the greatest size in the second.
func most(a, b []float64) (apart, size float64) {
	for i := range b {
		apart, size = math.Max(apart, math.Abs(a[i]-b[i])), math.Max(size, math.Abs(b[i]))
	}
	return apart, size
}

// begin brings the panel to where the course finds it: run in through its first year where the record
// is the home climate, in balance with the used-to humidity otherwise.
func (f *follower) begin(ctx context.Context) error {
	if err := f.start(profile.Climate{RH: f.c.o.UsedTo, T: f.c.o.Temperature}); err != nil {
		return err
	}
	first := f.course[0]
	n := int((365 * 24 * time.Hour) / f.year.Step)
	if len(first.RH) < n || math.Abs(mean(first.RH[:n])-float64(f.c.o.UsedTo)) > homeBand {
		return nil
	}
	f.year.Lived = true
	var before []float64
	for range runInYears {
		if f.brief && f.year.Repeats == 1 {
			break
		}
		if err := f.repeat(ctx, first, n); err != nil {
			return err
		}
		f.year.Repeats++
		after := f.marks()
		if before != nil {
			if apart, size := most(before, after); apart < runInTol*size {
				break
			}
		}
		before = after
	}
	return nil
}

// repeat goes through the first n steps of a stretch; the first time it notes which months crush.
func (f *follower) repeat(ctx context.Context, s Stretch, n int) error {
	var set float64
	for i := range n {
		if i%256 == 0 && ctx.Err() != nil {
			return ctx.Err()
		}
		if err := f.step(s, i); err != nil {
			return err
		}
		now := s.Start.Add(time.Duration(i) * f.year.Step)
		if f.year.Repeats == 0 && (i == n-1 || now.Month() != now.Add(f.year.Step).Month()) {
			sum := f.c.overWidth(f.now.set)
			f.year.Crushed[now.Month()-1] += sum - set
			set = sum
		}
	}
	return nil
}

func (f *follower) start(air profile.Climate) error {
	for _, w := range f.woods {
		if err := w.start(air); err != nil {
			return err
		}
	}
	for i, l := range f.strips {
		f.drive(i)
		if err := l.start(); err != nil {
			return err
		}
	}
	return f.stand()
}

// drive hands the moisture of board i to its layers.
func (f *follower) drive(i int) {
	b := &f.c.boards[i]
	u := f.woods[f.which[i]].layers()
	for k := range u {
		u[k] = b.of(u[k], f.c.o.UsedTo, f.c.o.Temperature)
	}
	f.strips[i].drive(b, u)
}

// step takes wood and layers through step i of a segment.
func (f *follower) step(s Stretch, i int) error {
	air := profile.Climate{RH: moisture.RH(s.RH[i]), T: f.c.o.Temperature}
	if s.T != nil && !math.IsNaN(s.T[i]) {
		air.T = moisture.Celsius(s.T[i])
	}
	for _, w := range f.woods {
		if err := w.step(f.dt, air); err != nil {
			return err
		}
	}
	for k, l := range f.strips {
		f.drive(k)
		if err := l.step(f.dt); err != nil {
			return err
		}
	}
	f.width[0], f.width[1] = f.moment()
	return f.onMembers()
}

// run goes through the whole course.
func (f *follower) run(ctx context.Context, k Sink) error {
	for j, s := range f.course {
		fresh := j > 0
		if fresh {
			f.year.Breaks++
			if gap := s.Start.Sub(f.year.To); gap > longest {
				if err := f.rest(s); err != nil {
					return err
				}
			}
		}
		for i := range s.RH {
			if i%256 == 0 && ctx.Err() != nil {
				return ctx.Err()
			}
			t := s.Start.Add(time.Duration(i) * f.year.Step)
			if f.day.over(t) {
				if err := f.close(k); err != nil {
					return err
				}
			}
			if err := f.step(s, i); err != nil {
				return fmt.Errorf("%s: %w", t.Format("2 January 2006 15:04"), err)
			}
			f.note(t, s, i, fresh)
			if !f.brief {
				f.paint.step(t, f.year.Step, &f.now)
			}
			fresh = false
			f.year.To = t
			f.year.Steps++
		}
	}
	return f.close(k)
}

// rest puts the panel in balance with the first month of a segment.
func (f *follower) rest(s Stretch) error {
	n := min(len(s.RH), int(30*24*time.Hour/f.year.Step))
	return f.start(profile.Climate{RH: moisture.RH(mean(s.RH[:n])), T: f.c.o.Temperature})
}

func mean(v []float64) float64 { return total(v) / float64(len(v)) }
