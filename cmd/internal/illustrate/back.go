package illustrate

import (
	"fmt"

	"crossgrain/cmd/internal/figure"
	"crossgrain/cmd/internal/report"
	"crossgrain/panel"
	"crossgrain/panel/assessment"
)

// Back draws the panel from the back with its parts; what is assumed is dashed.
func Back(meta figure.Meta, r *assessment.Result) figure.Figure {
	return backPanel(meta, r).Draw()
}

// Small draws the panel small, from the front and from the back, for a page that names the sides.
func Small(meta figure.Meta, r *assessment.Result) (front, back figure.Figure) {
	p := backPanel(meta, r)
	return p.Small(true), p.Small(false)
}

func backPanel(meta figure.Meta, r *assessment.Result) figure.Panel {
	o, p := r.Object, r.Panel
	assumed := func(path string) bool { return p.Known(path) == panel.Assumed }
	f := figure.Panel{Meta: meta, AcrossMM: o.Across, AlongMM: o.Along, GrainLevel: o.GrainLevel}
	for _, b := range o.Boards {
		f.Boards = append(f.Boards, figure.PanelBoard{
			Name: b.Name, WidthMM: b.Width, Assumed: assumed("board." + b.Name + ".width_mm"),
		})
	}
	for _, j := range o.Joins {
		line := figure.PanelJoin{Name: report.PartWords("join." + j.Name), AcrossMM: j.X, Assumed: !p.Has("join") && !p.Has("board")}
		if j.Open() > 0 {
			line.Open = []figure.Stretch{{FromMM: j.OpenStart, ToMM: j.OpenEnd}}
			line.Note = fmt.Sprintf("open for %.0f mm", j.Open())
		}
		f.Joins = append(f.Joins, line)
	}
	for _, s := range o.Splits {
		f.Cracks = append(f.Cracks, figure.PanelCrack{
			Name: report.PartWords("split." + s.Name), Note: fmt.Sprintf("%.0f mm", s.Length()), AcrossMM: s.X,
			Stretch: figure.Stretch{FromMM: s.Start, ToMM: s.End}, Through: s.Through,
			Assumed: assumed("split."+s.Name+".length_mm") && assumed("split."+s.Name+".end_mm"),
		})
	}
	for _, b := range o.Battens {
		f.Members = append(f.Members, batten(b, assumed("batten."+b.Name+".along_mm")))
	}
	if k := o.Cradle; k != nil {
		f.Members = append(f.Members, cradle(k, o, assumed("cradle.fixed_count"), assumed("cradle.slider_count"))...)
	}
	for _, q := range o.Inserts {
		f.Inserts = append(f.Inserts, figure.Insert{Name: q.Name, AcrossMM: q.X, AlongMM: q.Y, WidthMM: q.Length, LengthMM: q.Width, Butterfly: q.Kind == "butterfly"})
	}
	return f
}

// fixingKind says how each way of fixing is drawn.
func fixingKind(fixing string) figure.FixingKind {
	switch fixing {
	case "screwed":
		return figure.Screw
	case "slotted", "sliding dovetail":
		return figure.Slot
	case "held by keepers":
		return figure.Keeper
	case "on springs":
		return figure.Spring
	case "glued", "glued at the middle":
		return figure.Glue
	}
	return figure.Nail
}

func batten(b panel.Batten, assumed bool) figure.Member {
	m := figure.Member{
		Name: report.PartWords("batten." + b.Name), Note: b.Fixing, AcrossFrom: b.From, AcrossTo: b.To, AlongFrom: b.Y - b.Width/2, AlongTo: b.Y + b.Width/2,
		Hidden: b.Side != "back", Assumed: assumed,
	}
	if b.Empty {
		m.Note = "empty channel"
	}
	if b.Glued {
		m.Fixings = []figure.Fixing{{
			AcrossMM: (b.From + b.To) / 2, AlongMM: b.Y, FootprintMM: b.To - b.From, Kind: figure.Glue,
		}}
	}
	for _, f := range b.Fixings {
		m.Fixings = append(m.Fixings, figure.Fixing{
			AcrossMM: f.X, AlongMM: b.Y, FootprintMM: f.Footprint, Kind: fixingKind(b.Fixing),
		})
	}
	return m
}

func cradle(k *panel.Cradle, o *panel.Object, fixedAssumed, slidersAssumed bool) []figure.Member {
	var out []figure.Member
	for i, x := range k.FixedX {
		m := figure.Member{
			AcrossFrom: x - k.FixedWidth/2, AcrossTo: x + k.FixedWidth/2, AlongTo: o.Along, Assumed: fixedAssumed, Cradle: true,
		}
		if i == 0 {
			m.Name, m.Note = "cradle", "glued members"
		}
		out = append(out, m)
	}
	for i, y := range k.SliderY {
		m := figure.Member{
			AcrossTo: o.Across, AlongFrom: y - k.SliderWidth/2, AlongTo: y + k.SliderWidth/2, Assumed: slidersAssumed, Cradle: true,
		}
		if i == 0 {
			m.Name = "sliders"
		}
		out = append(out, m)
	}
	return out
}
