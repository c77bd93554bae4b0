package treatment

import (
	"bytes"
	"fmt"
	"math"
	"slices"
	"strconv"
	"strings"

	"crossgrain/moisture"
	"crossgrain/panel"
	"crossgrain/panel/assessment"
	"crossgrain/panel/response"
)

// LeftOut is a standard option that does not apply, and why: no_frame fits no_members nothing_to_ease nothing_open
// filled has_enclosure carries_itself no_batten_fits.
type LeftOut struct{ Reach, Why string }

// New battens of the standard support (assumptions).
const (
	lightWidth = 40.0 // mm
	lightFrom  = 0.22 // of the length along the grain, from either end
	lightInset = 40.0 // mm of the outermost fixing from the edges
)

// standard makes the sensible options of a panel whose file has none, from what it has and from what doing nothing asks
// of it. They are written as tables of a file and read like any others.
func (r *Result) standard(nothing *Option) ([]panel.Option, error) {
	r.Standard = true
	s := &standards{p: r.Panel, a: nothing.Answer, nothing: nothing.Does}
	for _, reach := range panel.Reaches() {
		text, why, err := s.of(reach)
		if err != nil {
			return nil, err
		}
		if why != "" {
			r.LeftOut = append(r.LeftOut, LeftOut{reach, why})
			continue
		}
		r.Text += text
	}
	p, err := s.read(r.Text)
	if err != nil {
		return nil, err
	}
	return p.Options(), nil
}

type standards struct {
	p       *panel.Panel
	a       *assessment.Result
	nothing Does
}

// read reads the panel with options.
func (s *standards) read(text string) (*panel.Panel, error) {
	var b bytes.Buffer
	if err := s.p.Write(&b); err != nil {
		return nil, err
	}
	p, problems := panel.Read("standard options", append(b.Bytes(), text...))
	if err := problems.Err(); err != nil {
		return nil, fmt.Errorf("treatment: %w", err)
	}
	return p, nil
}

// of returns the text of one standard option, or why it does not apply.
func (s *standards) of(reach string) (text, why string, err error) {
	switch reach {
	case "enclose":
		if s.p.Has("enclosure") {
			return "", "has_enclosure", nil
		}
		return "\n[option.enclose]\nreach = \"enclose\"\n[option.enclose.enclosure]\nseal = \"ordinary\"\n", "", nil
	case "ease":
		text, why = s.ease()
	case "fit":
		text, why = s.fit(&s.nothing)
	case "remove":
		text, why = s.remove()
	case "reglue":
		text, why = s.reglue()
	case "support":
		return s.support()
	}
	return text, why, nil
}

func name(s string) string { return strconv.Quote(s) }

func mm(v float64) string { return strconv.FormatFloat(v, 'f', -1, 64) }

// up rounds to the next half millimetre.
func up(v float64) float64 { return math.Ceil(2*v-1e-9) / 2 }

func (s *standards) usedTo() string { return mm(math.Round(s.a.Object.UsedTo.Percent())) }

// ease planes battens to what the limits of restraint allow, lets nails and screws slide, and frees what is stuck.
func (s *standards) ease() (text, why string) {
	var b strings.Builder
	planed := map[string]response.EaseBatten{}
	for _, e := range s.a.Ease.Present {
		planed[e.Part] = e
	}
	for _, n := range s.p.Names("batten") {
		path := "batten." + n
		if s.p.Text(path+".empty") == "yes" {
			continue
		}
		var keys string
		if e, ok := planed[path]; ok && e.To >= 1 && e.To < e.Depth {
			keys += "depth_mm = " + mm(e.To) + "\n"
		}
		if f := s.p.Text(path + ".fixing"); f == "nailed" || f == "screwed" {
			keys += "fixing = \"slotted\"\nclearance_mm = " + mm(s.clearance(s.a.Ease)) + "\n"
		}
		if m := s.p.Text(path + ".moves"); m == "seized" || m == "with taps" {
			keys += "moves = \"by hand\"\n"
		}
		if keys != "" {
			b.WriteString("[option.ease.batten." + name(n) + "]\n" + keys)
		}
	}
	if s.p.Has("cradle") && s.p.Text("cradle.moves") != "by hand" {
		b.WriteString("[option.ease.cradle]\nmoves = \"by hand\"\n")
	}
	switch {
	case len(members(s.p)) == 0:
		return "", "no_members"
	case b.Len() == 0:
		return "", "nothing_to_ease"
	}
	return "\n[option.ease]\nreach = \"ease\"\nat_rh_pct = " + s.usedTo() + "\n" + b.String(), ""
}

// clearance is the room that the outermost fixing needs on either side, mm.
func (s *standards) clearance(e *response.Ease) float64 {
	room := e.Limits.Play
	for _, c := range e.Slots {
		room = max(room, c.Inward, c.Outward)
	}
	return up(room)
}

// fit gives the panel the room that it needs in its frame, and takes pressing and sticking away.
func (s *standards) fit(nothing *Does) (text, why string) {
	f := s.a.Object.Frame
	if f == nil {
		return "", "no_frame"
	}
	var keys, sides string
	if need := s.a.Ease.Room.Width; f.ClearWidth > 0 && f.ClearWidth < need {
		keys += "clear_width_mm = " + mm(up(need)) + "\n"
	}
	if need := nothing.RoomDepth; f.ClearDepth > 0 && f.ClearDepth < need {
		keys += "clear_depth_mm = " + mm(up(need)) + "\n"
	}
	if f.Pressing == "yes" {
		keys += "pressing = false\n"
	}
	for _, side := range []string{"left", "right", "top", "bottom"} {
		if f.Sides[side].Stuck {
			sides += "[option.fit.frame." + side + "]\nfit = \"loose\"\n"
		}
	}
	if keys+sides == "" {
		return "", "fits"
	}
	if keys != "" {
		keys = "[option.fit.frame]\n" + keys
	}
	return "\n[option.fit]\nreach = \"fit\"\n" + keys + sides, ""
}

// remove takes off everything across the grain; a channel stays behind, empty.
func (s *standards) remove() (text, why string) {
	if len(members(s.p)) == 0 {
		return "", "no_members"
	}
	list, tables := s.off("remove")
	return "\n[option.remove]\nreach = \"remove\"\n" + list + tables, ""
}

// off writes the key that takes members off, and the tables of those that leave an empty channel.
func (s *standards) off(option string) (list, tables string) {
	var gone []string
	for _, m := range members(s.p) {
		if n, ok := strings.CutPrefix(m, "batten."); ok {
			if c, given := s.p.Number(m + ".channel_depth_mm"); given && c.High > 0 || s.p.Text(m+".side") == "let in" {
				tables += "[option." + option + ".batten." + name(n) + "]\nempty = true\n"
				continue
			}
		}
		gone = append(gone, name(m))
	}
	if len(gone) > 0 {
		list = "remove = [" + strings.Join(gone, ", ") + "]\n"
	}
	return list, tables
}

// reglue closes joins and through splits at the humidity that asks least of them.
func (s *standards) reglue() (text, why string) {
	var lines []string
	at := moisture.RH(0)
	why = "nothing_open"
	for _, g := range s.a.Reglue {
		switch {
		case g.Kind == "check":
		case g.Closes == response.ClosesFilled || g.Closes == response.NeverCloses:
			why = "filled"
		default:
			lines = append(lines, name(g.Part))
			at = max(at, g.At.RH)
		}
	}
	if len(lines) == 0 {
		return "", why
	}
	return "\n[option.reglue]\nreach = \"reglue\"\nreglue = [" + strings.Join(lines, ", ") + "]\nat_rh_pct = " + mm(math.Round(at.Percent())) + "\n", ""
}

// support takes off what there is and gives two light battens in slots, as stiff as carrying needs and no more.
func (s *standards) support() (text, why string, err error) {
	if s.a.Ease.Bounds.Least <= 0 && !slices.ContainsFunc(s.a.Reglue, func(g response.Reglue) bool { return g.Kind != "check" }) {
		return "", "carries_itself", nil
	}
	depth, room := lightWidth/4, 2.0
	for range 2 { // once to learn what the limits are with two battens, once with that depth
		text = s.light(depth, room)
		p, err := s.read(text)
		if err != nil {
			return "", "", err
		}
		o, err := p.Options()[0].Panel.Realise(nil)
		if err != nil {
			return "", "", err
		}
		c, err := response.Prepare(o, response.Quick)
		if err != nil {
			return "", "", err
		}
		e, err := c.Ease([2]moisture.RH{s.a.Low, s.a.High}, response.EaseLimits{})
		if err != nil {
			return "", "", err
		}
		var fits bool
		for _, w := range e.Rows {
			if w.Width != lightWidth || !w.Fits || w.Most < 2 {
				continue
			}
			fits, room, depth = true, s.clearance(&e), max(2, up(w.Least))
			if w.Least == 0 && !math.IsInf(w.Most, 1) { // it carries itself: as much as restraint allows, to keep lines level
				depth = max(2, math.Floor(2*w.Most)/2)
			}
		}
		if !fits {
			return "", "no_batten_fits", nil
		}
	}
	return s.light(depth, room), "", nil
}

// light writes the option with two battens of a depth.
func (s *standards) light(depth, room float64) string {
	o := s.a.Object
	var b strings.Builder
	b.WriteString("\n[option.support]\nreach = \"support\"\nat_rh_pct = " + s.usedTo() + "\nadd = [\"batten.light lower\", \"batten.light upper\"]\n")
	list, tables := s.off("support")
	b.WriteString(list + tables)
	inset := min(lightInset, o.Across/4)
	n := max(3, int(math.Round(o.Across/150)))
	at := make([]string, n)
	for i := range at {
		at[i] = mm(math.Round(inset + (o.Across-2*inset)*float64(i)/float64(n-1)))
	}
	for i, where := range []string{"light lower", "light upper"} {
		y := []float64{lightFrom, 1 - lightFrom}[i] * o.Along
		fmt.Fprintf(&b, "[option.support.batten.%q]\nalong_mm = %s\nwidth_mm = %s\ndepth_mm = %s\nfixing = \"slotted\"\nat_mm = [%s]\nclearance_mm = %s\n",
			where, mm(math.Round(y)), mm(lightWidth), mm(depth), strings.Join(at, ", "), mm(room))
	}
	return b.String()
}
