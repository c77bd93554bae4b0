package report

import (
	"bytes"
	"encoding/json"
	"math"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"crossgrain/moisture"
	"crossgrain/panel/response"
	"crossgrain/panel/restraint"
)

// inventedEase is an invented panel with two battens alike.
func inventedEase(t *testing.T) *response.Ease {
	t.Helper()
	e := &response.Ease{
		Range: [2]moisture.RH{0.35, 0.65}, Warp: [2]float64{-9, 12}, Swing: [2]float64{-3, 2}, Described: 6, Loose: 8e7, Width: 40, Depth: 15, Fixings: 3,
		Limits:  response.EaseLimits{Line: 0.5, Sag: 0.5, Load: 200, Play: 1, Shank: 5, Points: 0.05},
		Weakest: response.WeakestLine{Part: "join.a-b", Bears: 10, Stress: 1.5},
		Bounds:  restraint.Bounds{Least: 1e7, Most: 2e7},
		Rows:    []restraint.WorkshopRow{{Width: 40, Least: 7.21, Most: 9.74, Depth: 7.5, Fits: true, Held: [2]float64{0.2, 0.4}, Sag: [2]float64{1, 2}}},
		Slots:   []response.EaseSlot{{Distance: 0, Cut: restraint.Cut{Inward: 1, Outward: 1, Length: 7}}, {Distance: 300, Cut: restraint.Cut{Inward: 4, Outward: 3, Length: 12}}},
		Springs: []restraint.SpringRow{{Count: 3, Least: 1.3, Most: math.Inf(1), Fits: true, Preload: 20}},
		Room:    restraint.Room{Width: 611.2, Depth: 24.1, Cover: 7.9},
	}
	e.Easing.Fixings, e.Easing.EBatten, e.Easing.Grip = 5, [2]float64{8000, 16000}, 17.5
	for _, n := range []string{"a", "b"} {
		e.Present = append(e.Present, response.EaseBatten{
			Part: "batten." + n, Width: 40, Depth: 18, Stiffness: [2]float64{1.5e8, 3.1e8}, Above: true, To: 7,
			Does: restraint.WorkshopRow{Least: 6, Most: 7.21, Held: [2]float64{0.7, 0.9}, Sag: [2]float64{0.2, 0.4}},
		})
	}
	return e
}

func workshopText(e *response.Ease) string {
	var t textPage
	workshopOf(e).text(&t)
	return strings.Join(strings.Fields(t.b.String()), " ")
}

func TestWorkshopText(t *testing.T) {
	e := inventedEase(t)
	s := workshopText(e)
	for _, want := range []string{
		"WHAT A BATTEN HERE MAY BE", "35 to 65 % RH", "5 tenths of the 1.5 MPa that join a-b", "free warp of 6.0 to 12 mm",
		"40 (as now) 7.5 9.5 to 11 2 to 4 1.0 to 2.0", // least up, most down to halves of a millimetre; (12 x 8e7/(16000 x 40))^(1/3) = 11.4
		"Batten a and batten b, 40 × 18 mm: stiffer than the upper limit allows even as described, 16 times what it allows at the worst. Planed at the back to 7 mm",
		"Only the batten is planed, the panel never.",
		"needs at least 3 fixings; there are 5", "300 mm from it a slot 12 mm long for a shank of 5 mm, with 4.0 mm of room towards the middle and 3.0 mm away",
		"wood of the battens of 8 to 16 GPa", "more than 200 N", "612 mm wide across the grain and 25 mm deep", "lips that cover 8 mm", "3 1.3 no limit 20",
		restraint.NeverThere,
	} {
		assert.Contains(t, s, want)
	}
	assert.Equal(t, restraint.NeverThere, say("workshop.never"), "one sentence")
	var page textPage
	workshopOf(e).text(&page)
	for l := range strings.Lines(page.b.String()) {
		assert.LessOrEqual(t, displayWidth(strings.TrimRight(l, "\n")), columns)
	}
}

// Each place between, above and below the limits has its own words.
func TestWorkshopPresentWords(t *testing.T) {
	for _, x := range []struct {
		name   string
		change func(e *response.Ease, p *response.EaseBatten)
		want   string
	}{
		{"within as described", func(e *response.Ease, _ *response.EaseBatten) { e.Loose = 4e8 }, "within the upper limit as described, 16 times"},
		{"no limit as described", func(e *response.Ease, _ *response.EaseBatten) { e.Loose = math.Inf(1) }, "within the upper limit as described"},
		{"friction alone", func(e *response.Ease, p *response.EaseBatten) {
			e.Bounds.Most, p.To, p.Does.Most, p.Does.Least = 0, 0, 0, 0
		}, "no planing alone brings it there"},
		{"too soft", func(_ *response.Ease, p *response.EaseBatten) { p.Above, p.Below, p.Does.Most = false, true, 30 }, "softer than carrying level needs"},
		{"between", func(_ *response.Ease, p *response.EaseBatten) { p.Above, p.Does.Most = false, 30 }, "between the two limits"},
		{"no limit", func(e *response.Ease, p *response.EaseBatten) {
			p.Above, e.Bounds.Most, e.Loose, p.Does.Most = false, math.Inf(1), math.Inf(1), math.Inf(1)
		}, "below any limit of restraint"},
		{"conflict", func(e *response.Ease, p *response.EaseBatten) { e.Bounds.Least, p.Does.Least = 5e7, 9 }, "no plain batten does both"},
		{"scatter of wood", func(_ *response.Ease, p *response.EaseBatten) { p.Does.Least = 9 }, "A piece whose stiffness has been measured"},
		{"glued", func(_ *response.Ease, p *response.EaseBatten) { p.Glued = true }, "It is glued over its length"},
		{"flat", func(_ *response.Ease, p *response.EaseBatten) { p.Flat = true }, "Something else keeps it flat"},
	} {
		t.Run(x.name, func(t *testing.T) {
			e := inventedEase(t)
			x.change(e, &e.Present[0])
			assert.Contains(t, workshopText(e), x.want)
		})
	}
}

func TestWorkshopWithoutBattens(t *testing.T) {
	e := inventedEase(t)
	e.Present, e.Rows, e.Slots, e.Springs, e.Fixings = nil, nil, nil, nil, 0
	e.Bare.Deflection = 14
	s := workshopText(e)
	assert.Contains(t, s, "has no batten, and none is proposed")
	assert.Contains(t, s, "sag 14 mm: put a stiff board under it")
	assert.NotContains(t, s, "Depth at least")
	assert.NotContains(t, s, "fixings")
	e.Bounds.Least = 0
	assert.Contains(t, workshopText(e), "it carries itself")
	w := workshopOf(e)
	assert.Equal(t, 0.0, w.Limits.BattenLow)
	assert.Nil(t, workshopOf(nil))
	assert.Nil(t, workshopOf(nil).sections())
}

func TestWorkshopDocument(t *testing.T) {
	e := inventedEase(t)
	e.Fixings = -1
	assert.Contains(t, workshopText(e), "no number of fixings")
	e.Rows[0].Most = math.Inf(1)
	var b bytes.Buffer
	require.NoError(t, WriteJSON(&b, workshopOf(e)))
	var got map[string]any
	require.NoError(t, json.Unmarshal(b.Bytes(), &got))
	row := got["rows"].([]any)[0].(map[string]any)
	assert.Nil(t, row["depth_most_mm"], "no limit is null")
	assert.Equal(t, 7.21, row["depth_least_mm"])
	assert.Nil(t, got["fixings"].(map[string]any)["least"])
	assert.Nil(t, got["limits"].(map[string]any)["held_share"])
	p := got["present"].([]any)[0].(map[string]any)
	assert.InDelta(t, 15.5, p["times_upper_limit"], 1e-9, "3.1e8/2e7")
	assert.Equal(t, 7.0, p["planed_to_mm"])
}

func TestWorkshopSections(t *testing.T) {
	s := workshopOf(inventedEase(t)).sections()
	require.Len(t, s, 2)
	assert.Equal(t, "workshop", s[0].ID)
	assert.Len(t, s[0].Table.Rows, 1)
	assert.Equal(t, "workshop-springs", s[1].ID)
	var b bytes.Buffer
	p := page{shell: shell{Title: "INVENTED"}, Annex: s}
	require.NoError(t, p.write(&b, ""))
	assert.Contains(t, b.String(), "What a batten here may be")
	assert.Contains(t, b.String(), "A batten that was never there may not be needed.")
}
