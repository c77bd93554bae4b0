package panel

import "crossgrain/tables"

// home is a climate in words: the mean of the years and its spread. Figures from records are means
// of the year; the spread stands for one house beside another.
type home struct {
	name          string
	rh, low, high float64 // per cent
	temperature   float64 // degC
	grade         tables.Grade
	source        string
}

// homes lists the climates that may be named in words.
var homes = []home{
	{name: "museum, controlled", rh: 50, low: 45, high: 55, temperature: 20, grade: tables.General,
		source: "common practice: full control around 50 %"},
	{name: "heated house", rh: 42, low: 34, high: 50, temperature: 22, grade: tables.One,
		source: "mean 41.5 % of a heated, not humidified house, 2011 (TRH-1 database, Laukkarinen, Tampere University); spread: assumption"},
	{name: "half-heated room", rh: 50, low: 38, high: 62, temperature: 15, grade: tables.Estimate,
		source: "assumption; readings of such a room ran from 12 to 77 % in one winter (TRH-1 database, Laukkarinen, Tampere University)"},
	{name: "unheated attic", rh: 73, low: 65, high: 80, temperature: 8, grade: tables.One,
		source: "mean 72.9 % of an unheated attic, 2011 (TRH-1 database, Laukkarinen, Tampere University); spread: assumption"},
	{name: "historic house, unheated", rh: 70, low: 60, high: 80, temperature: 12, grade: tables.One,
		source: "60 to 80 % in unheated houses (Blades, Lithgow, Staniforth & Hayes, Conservation Heating 24 Years On)"},
	{name: "historic house, conservation heating", rh: 58, low: 50, high: 65, temperature: 15, grade: tables.General,
		source: "memory: control around 58 %"},
	{name: "church heated for services", rh: 70, low: 55, high: 80, temperature: 12, grade: tables.One,
		source: "above 75 % for more than half of the time, 60 to 75 % while heated throughout (Watervliet, 2012-2014); 79 and 49 % in two others (Grontoft & Stoveland 2023)"},
	{name: "church, unheated", rh: 77, low: 68, high: 85, temperature: 10, grade: tables.One,
		source: "mean 79 % on a humid coast (Grontoft & Stoveland 2023); spread: assumption"},
	{name: "church, heated all winter", rh: 55, low: 45, high: 65, temperature: 16, grade: tables.One,
		source: "mean 49 % in a dry inland church (Grontoft & Stoveland 2023), about 65 % tried in another; spread: assumption"},
	{name: "store, dehumidified", rh: 50, low: 45, high: 55, temperature: 12, grade: tables.One,
		source: "about 50 % at 8 to 16 degC (Larsen, Ryhl-Svendsen, Jensen, Bohm & Padfield, ten years of museum stores)"},
	{name: "store, passive", rh: 53, low: 45, high: 60, temperature: 12, grade: tables.One,
		source: "45 to 60 % expected in a passive store (Rasmussen, Vejle)"},
}

func climateNames() []string {
	out := make([]string, len(homes))
	for i, h := range homes {
		out[i] = h.name
	}
	return out
}

// homeOf returns the climate of that name; nothing recorded gives a house or museum, 40 to 60 %.
func homeOf(name string) home {
	for _, h := range homes {
		if h.name == name {
			return h
		}
	}
	return home{rh: 50, low: 40, high: 60, temperature: 20, grade: tables.Estimate, source: "assumption: a house or a museum"}
}
