package intake

import (
	"strings"

	"crossgrain/species"
)

// answer is what a cell says before its own meaning is looked at.
type answer int

const (
	blank      answer = iota // nobody looked
	cannotTell               // "?": looked, could not tell
	nothing                  // "none", 0: looked, there is none
	yes
	other
)

var plainAnswers = map[string]answer{
	"unknown": cannotTell, "not known": cannotTell, "could not tell": cannotTell, "unclear": cannotTell, "unbekannt": cannotTell, "inconnu": cannotTell,
	"sconosciuto": cannotTell, "desconocido": cannotTell, "onbekend": cannotTell,
	"none": nothing, "no": nothing, "n": nothing, "nil": nothing, "0": nothing, "kein": nothing, "keine": nothing, "nein": nothing, "aucun": nothing, "aucune": nothing,
	"non": nothing, "nessuno": nothing, "nessuna": nothing, "ninguno": nothing, "ninguna": nothing, "geen": nothing, "nee": nothing, "false": nothing,
	"yes": yes, "y": yes, "ja": yes, "oui": yes, "si": yes, "true": yes, "x": yes,
	"not recorded": blank, "n a": blank,
}

// answerOf reads a cell as blank, "?", none or yes; other for everything else.
func answerOf(cell string) answer {
	c := strings.TrimSpace(cell)
	if c == "" {
		return blank
	}
	if strings.Trim(c, "? ") == "" {
		return cannotTell
	}
	if a, ok := plainAnswers[species.Fold(c)]; ok {
		return a
	}
	return other
}

// guessed takes off the "?" of a guess: "oak?" is oak, not sure.
func guessed(cell string) (value string, guess bool) {
	c := strings.TrimSpace(cell)
	v := strings.TrimSpace(strings.TrimRight(c, "?"))
	return v, v != c
}

// words gives, for a column of words, what the cell's folded words stand for.
var wordsOf = map[Field]map[string]string{
	Measured: {"unframed": "unframed", "out of frame": "unframed", "ungerahmt": "unframed", "sans cadre": "unframed", "senza cornice": "unframed", "sin marco": "unframed", "zonder lijst": "unframed",
		"sight": "sight", "sight size": "sight", "lichtmass": "sight", "a vue": "sight", "luce": "sight", "dagmaat": "sight",
		"framed": "framed", "in frame": "framed", "gerahmt": "framed", "avec cadre": "framed", "con cornice": "framed", "con marco": "framed", "met lijst": "framed"},
	Grain: {"upright": "upright", "vertical": "upright", "senkrecht": "upright", "vertikal": "upright", "verticale": "upright", "verticaal": "upright", "portrait": "upright",
		"level": "level", "horizontal": "level", "waagrecht": "level", "waagerecht": "level", "horizontale": "level", "orizzontale": "level", "horizontaal": "level"},
	EndGrain: {"quarter": "quarter", "quarter sawn": "quarter", "radial": "quarter", "rift": "quarter", "quartier": "quarter", "radiale": "quarter", "kwartiers": "quarter",
		"flat": "flat", "flat sawn": "flat", "tangential": "flat", "fladerschnitt": "flat", "dosse": "flat", "tangenziale": "flat", "dosse gezaagd": "flat", "mixed": "mixed", "gemischt": "mixed", "mixte": "mixed", "misto": "mixed"},
	BackSupport: {"fixed battens": "fixed battens", "battens": "fixed battens", "nailed battens": "fixed battens", "feste leisten": "fixed battens", "traverses fixes": "fixed battens", "traverse fisse": "fixed battens",
		"sliding battens": "sliding battens", "schiebeleisten": "sliding battens", "gratleisten": "sliding battens", "traverses coulissantes": "sliding battens", "traverse scorrevoli": "sliding battens",
		"cradle": "cradle", "cradled": "cradle", "parkett": "cradle", "parkettierung": "cradle", "parkettiert": "cradle", "parquetage": "cradle", "parquete": "cradle", "parchettatura": "cradle", "engatillado": "cradle", "parkettering": "cradle",
		"frame fixed to panel": "frame", "engaged frame": "frame", "fester rahmen": "frame", "cadre engage": "frame",
		"glued to second panel": "second panel", "second panel": "second panel", "laminated": "second panel", "other": "other"},
	SupportMoves: {"by hand": "by hand", "with taps": "with taps", "seized": "seized", "stuck": "seized", "locked": "seized", "free": "by hand", "fest": "seized", "bloque": "seized", "bloccato": "seized", "vast": "seized"},
	Thinned:      {"thinned": "thinned", "original": "yes"},
	Flaking:      {"now": "flaking", "flaking": "flaking", "active": "flaking", "past": "past", "former": "past", "in the past": "past", "sound": "sound", "fest": "sound"},
	WarpToward:   {"viewer": "viewer", "front": "viewer", "convex": "viewer", "rounded": "viewer", "wall": "wall", "back": "wall", "hollow": "wall", "concave": "wall"},
	Enclosure:    {"open": "open", "glazed": "ordinary", "sealed": "sealed", "offen": "open", "verglast": "ordinary", "ouvert": "open", "vitre": "ordinary", "aperto": "open", "vetro": "ordinary", "none": "open"},
	ThicknessFrom: {"edge": "edge", "measured": "edge", "calliper": "edge", "ruler": "edge", "kante": "edge", "chant": "edge", "bordo": "edge", "canto": "edge", "rand": "edge",
		"catalogue": "catalogue", "catalog": "catalogue", "katalog": "catalogue", "guess": "guess"},
}

// wordsFor lists what may stand in a column of words, for a question.
func wordsFor(f Field) string {
	return map[Field]string{
		Measured: "unframed, sight, framed", Grain: "upright, level", EndGrain: "quarter, flat, mixed",
		BackSupport:  "none, fixed battens, sliding battens, cradle, frame fixed to panel, glued to second panel, other",
		SupportMoves: "yes, no", Thinned: "yes, no", Flaking: "none, past, now", WarpToward: "viewer, wall", Enclosure: "open, glazed, sealed", ChangedSince: "yes, no",
	}[f] + ", ?"
}
