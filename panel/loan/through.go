package loan

import (
	"context"
	"fmt"
	"math"
	"time"

	"crossgrain/moisture"
	"crossgrain/moisture/record"
	"crossgrain/panel/assessment"
	"crossgrain/panel/response"
)

// LegResult is one panel on one leg. Humidities are fractions, lengths mm.
type LegResult struct {
	Name, Kind string
	From, To   time.Time
	How        string         // record, terms, assumed, used to; "" when the climate cannot be told
	Air        [2]float64     // at the panel, in its case where it is in one
	Day        float64        // largest change there within 24 hours, points; NaN where no record tells it
	Wood       [2]moisture.RH // humidities that a board came into balance with
	Warp       [2]float64     // painted face rounded positive, from the shape at the used-to humidity
	Worst      response.Demand
	Bridged    float64 // h without readings that straight lines bridge
	Counted    bool    // false: beyond the humidities that were counted
	Count      Of100
}

// watch is a sink that sorts the states of a course into legs.
type watch struct{ legs []LegResult }

// Take keeps the extremes of a leg.
func (w *watch) Take(s *response.State) error {
	for i := range w.legs {
		g := &w.legs[i]
		if s.Time.Before(g.From) || !s.Time.Before(g.To) {
			continue
		}
		for _, rh := range s.BoardRH {
			g.Wood = [2]moisture.RH{min(g.Wood[0], rh), max(g.Wood[1], rh)}
		}
		warp := s.Cup
		if s.Shape != nil {
			warp = s.Shape.Warp
		}
		g.Warp = [2]float64{min(g.Warp[0], warp), max(g.Warp[1], warp)}
		for _, d := range s.Demands {
			if d.Mode.SetsRange() && d.Share() > g.Worst.Share() {
				g.Worst = d
			}
		}
	}
	return nil
}

// blank is a leg before anything has been seen of it.
func blank(g Leg, how string) LegResult {
	return LegResult{Name: g.Name, Kind: g.Kind, From: g.From, To: g.To, How: how, Air: [2]float64{1, 0}, Day: math.NaN(),
		Wood: [2]moisture.RH{1, 0}, Warp: [2]float64{math.Inf(1), math.Inf(-1)}, Worst: response.Demand{Capacity: math.Inf(1)}}
}

// through takes one panel from home through the legs and back: by the dry and, where they differ, by the
// damp ends of what is agreed.
func (l *Loan) through(ctx context.Context, r *assessment.Result, in assessment.Enclosed, records map[string]*record.Record) ([]LegResult, error) {
	used, t := r.Object.UsedTo, r.Object.Temperature
	legs := append([]Leg(nil), l.Legs...)
	end := legs[len(legs)-1].To
	legs = append(legs, Leg{Name: "return", Kind: "return", From: end, To: end.AddDate(0, 0, returnDays), Place: l.Home})
	var out []LegResult
	var airs []air
	differ := false
	for _, g := range legs {
		a := l.outside(g, records, t)
		if g.Kind == "return" && a.how != "record" { // at home it is what it is used to
			a = stand(g, used, t, "used to")
		}
		out = append(out, blank(g, a.how))
		out[len(out)-1].Bridged = a.bridged
		if a.how == "" {
			a = stand(g, used, t, "")
		}
		differ = differ || a.how == "terms" || a.how == "assumed"
		airs = append(airs, a)
	}
	for pass := range 2 {
		if pass == 1 && !differ {
			break
		}
		c := course{from: l.Legs[0].From.AddDate(0, 0, -leadDays)}
		for range leadDays * 24 {
			c.rh, c.t = append(c.rh, float64(used)), append(c.t, float64(t))
		}
		rh, err := l.pass(legs, airs, pass, in)
		if err != nil {
			return nil, err
		}
		for i := range legs {
			note(&out[i], rh[i], airs[i].how == "record")
			c.rh, c.t = append(c.rh, rh[i]...), append(c.t, airs[i].t...)
		}
		if _, err := r.Case.Follow(ctx, c, &watch{out}); err != nil {
			return nil, err
		}
	}
	for i := range out {
		out[i].Count, out[i].Counted = countOver(r.Doubt, min(out[i].Wood[0], used), max(out[i].Wood[1], used))
	}
	return out, nil
}

// stand is a leg at one humidity.
func stand(g Leg, rh moisture.RH, t moisture.Celsius, how string) air {
	a := air{from: g.From, how: how}
	for range int(g.To.Sub(g.From).Hours()) {
		a.dry, a.damp, a.t = append(a.dry, float64(rh)), append(a.damp, float64(rh)), append(a.t, float64(t))
	}
	return a
}

// pass returns the air at the panel leg by leg, in the case where it is in one: legs in the case that
// follow one another are gone through without opening it.
func (l *Loan) pass(legs []Leg, airs []air, pass int, in assessment.Enclosed) ([][]float64, error) {
	out := make([][]float64, len(legs))
	for i := range legs {
		out[i] = [...][]float64{airs[i].dry, airs[i].damp}[pass]
	}
	if l.Case == nil {
		return out, nil
	}
	for i := 0; i < len(legs); i++ {
		if !legs[i].InCase {
			continue
		}
		j := i
		var rh, t []float64
		for ; j < len(legs) && legs[j].InCase; j++ {
			rh, t = append(rh, out[j]...), append(t, airs[j].t...)
		}
		inside, err := l.caseOf(in).inside(rh, t, legs[i].From)
		if err != nil {
			return nil, fmt.Errorf("the case on leg %s: %w", legs[i].Name, err)
		}
		for ; i < j; i++ {
			n := len(out[i])
			out[i], inside = inside[:n], inside[n:]
		}
	}
	return out, nil
}

// note adds the air at the panel to a leg.
func note(g *LegResult, rh []float64, recorded bool) {
	r := &record.Record{RH: rh}
	for i, v := range rh {
		g.Air = [2]float64{min(g.Air[0], v), max(g.Air[1], v)}
		r.Times = append(r.Times, g.From.Add(time.Duration(i)*time.Hour))
	}
	if c := r.Change(record.Humidity, 24*time.Hour, record.WithinWindow); recorded && c.WhyNot == "" {
		g.Day = 100 * c.Largest
	}
}

// atHome takes the panel through the last year of its home record, or counts between the ends of the
// terms that its home keeps; nil without either, and where the record holds no such year.
func (l *Loan) atHome(ctx context.Context, r *assessment.Result, records map[string]*record.Record) (*LegResult, error) {
	rec, used := records[l.Home.Record], r.Object.UsedTo
	if low, high := humidityOf(l.Home.Terms); l.Home.Record == "" && low < high {
		out := blank(Leg{Name: "home", Kind: "home"}, "terms")
		out.Air, out.Wood, out.Warp = [2]float64{low, high}, [2]moisture.RH{moisture.RH(low), moisture.RH(high)}, [2]float64{}
		out.Count, out.Counted = countOver(r.Doubt, min(out.Wood[0], used), max(out.Wood[1], used))
		return &out, nil
	}
	if rec == nil || len(rec.Times) == 0 {
		return nil, nil
	}
	end := rec.Civil(len(rec.Times) - 1)
	to := time.Date(end.Year(), end.Month(), end.Day(), 0, 0, 0, 0, time.UTC)
	g := Leg{Name: "home", Kind: "home", From: to.AddDate(-1, 0, 0), To: to, Place: Place{Record: l.Home.Record}}
	a := air{from: g.From, months: Months{Piece: rec}}
	if !a.hourly(int(to.Sub(g.From).Hours()), r.Object.Temperature) {
		return nil, nil
	}
	out := []LegResult{blank(g, "record")}
	note(&out[0], a.dry, true)
	out[0].Bridged = a.bridged
	if _, err := r.Case.Follow(ctx, course{from: g.From, rh: a.dry, t: a.t, home: true}, &watch{out}); err != nil {
		return nil, err
	}
	out[0].Count, out[0].Counted = countOver(r.Doubt, min(out[0].Wood[0], used), max(out[0].Wood[1], used))
	return &out[0], nil
}
