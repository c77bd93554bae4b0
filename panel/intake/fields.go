package intake

// Field is what a column holds.
type Field string

// The fields of a list. Note holds whatever has no field of its own.
const (
	Accession     Field = "accession"
	Part          Field = "part"
	Title         Field = "title"
	Artist        Field = "school_or_artist"
	Date          Field = "date"
	Medium        Field = "medium"
	Store         Field = "store"
	Place         Field = "place"
	Size          Field = "size"
	Height        Field = "height"
	Width         Field = "width"
	Depth         Field = "depth"
	Measured      Field = "measured"
	Grain         Field = "grain"
	Thickness     Field = "thickness"
	ThicknessFrom Field = "thickness_from"
	Wood          Field = "wood"
	WoodFrom      Field = "wood_from"
	Boards        Field = "boards"
	BoardWidths   Field = "board_widths"
	EndGrain      Field = "end_grain"
	BackSupport   Field = "back_support"
	SupportMoves  Field = "support_moves"
	Thinned       Field = "thinned"
	BackFinish    Field = "back_finish"
	Cracks        Field = "cracks"
	OpenJoins     Field = "open_joins"
	Flaking       Field = "flaking"
	Warp          Field = "warp"
	WarpToward    Field = "warp_toward"
	WarpAtRH      Field = "warp_at_rh"
	LastInspected Field = "last_inspected"
	ChangedSince  Field = "changed_since"
	HereSince     Field = "here_since"
	CameFrom      Field = "came_from"
	Enclosure     Field = "enclosure"
	Priority      Field = "priority"
	Group         Field = "group"
	MustStay      Field = "must_stay"
	PhotoFront    Field = "photo_front"
	PhotoBack     Field = "photo_back"
	Record        Field = "record"
	Note          Field = "note"
	asked         Field = "question" // the column that this package wrote itself
)

// vocabulary gives the headings by which a field is known, folded ([species.Fold]), beside its own name.
var vocabulary = []struct {
	field Field
	words []string
}{
	{Accession, []string{"accession number", "accession no", "acc no", "acc number", "inventory", "inventory number", "inventory no", "inv no", "inv", "nr", "num", "object number", "object no",
		"museum number", "number", "no", "id", "inventarnummer", "inventar nr", "inv nr", "objektnummer", "signatur", "numero d inventaire", "n inv", "inventaire", "no inv",
		"numero di inventario", "numero inventario", "inventario", "numero de inventario", "n inventario", "inventarisnummer", "objectnummer"}},
	{Part, []string{"parts", "teil", "partie", "parte", "deel", "wing"}},
	{Title, []string{"titel", "titre", "titolo", "titulo", "name", "subject", "object", "work"}},
	{Artist, []string{"school", "artist", "painter", "maker", "school or artist", "kunstler", "maler", "schule", "artiste", "auteur", "ecole", "artista", "autore", "scuola", "autor",
		"escuela", "kunstenaar", "schilder"}},
	{Date, []string{"dated", "year", "datierung", "datum", "jahr", "datation", "annee", "data", "datazione", "fecha", "datacion", "datering", "jaar"}},
	{Medium, []string{"technique", "material", "materials", "support", "support material", "technik", "bildtrager", "materialien", "technique et support", "tecnica", "materiale", "supporto",
		"soporte", "techniek", "drager", "materiaal"}},
	{Store, []string{"building", "depot", "storage", "lager", "reserve", "reserves", "deposito", "almacen", "magazine"}},
	{Place, []string{"rack", "location", "shelf", "screen", "position", "standort", "platz", "gitter", "emplacement", "localisation", "collocazione", "ubicazione", "ubicacion", "standplaats", "plaats", "rek"}},
	{Size, []string{"dimensions", "dimension", "measurements", "h x w", "height x width", "masse", "abmessungen", "grosse", "hxb", "h x b", "format", "h x l", "dimensioni", "misure", "dimensiones", "medidas",
		"afmetingen", "afmeting", "maten"}},
	{Height, []string{"h", "hohe", "hoehe", "hauteur", "altezza", "alto", "altura", "hoogte"}},
	{Width, []string{"w", "breite", "largeur", "larghezza", "ancho", "anchura", "breedte"}},
	{Depth, []string{"d", "tiefe", "profondeur", "profondita", "profundidad", "diepte", "framed depth", "depth framed"}},
	{Measured, []string{"measured how", "size taken", "how measured", "gemessen", "mesure", "misurato", "medido", "gemeten"}},
	{Grain, []string{"grain direction", "faserrichtung", "faserverlauf", "fil", "sens du fil", "venatura", "fibra", "veta", "nerf", "draadrichting"}},
	{Thickness, []string{"thick", "wood thickness", "panel thickness", "dicke", "starke", "holzstarke", "epaisseur", "spessore", "espesor", "grosor", "dikte"}},
	{ThicknessFrom, []string{"thickness measured at", "thickness source", "dicke gemessen"}},
	{Wood, []string{"species", "timber", "wood species", "holz", "holzart", "bois", "essence", "legno", "madera", "hout", "houtsoort"}},
	{WoodFrom, []string{"wood source", "wood identified"}},
	{Boards, []string{"number of boards", "no of boards", "planks", "number of planks", "bretter", "anzahl bretter", "planches", "nombre de planches", "assi", "tavole", "numero assi", "tablas", "numero de tablas", "planken",
		"aantal planken"}},
	{BoardWidths, []string{"widths of boards", "width of boards", "plank widths", "brettbreiten", "largeurs des planches", "larghezza assi", "ancho de las tablas", "plankbreedtes"}},
	{EndGrain, []string{"cut", "sawn", "hirnholz", "stirnholz", "jahrringe", "debit", "bois de bout", "taglio", "testa", "corte", "kops hout", "kopshout"}},
	{BackSupport, []string{"back", "back construction", "battens", "reinforcement", "cradle", "ruckseite", "ruckseitenkonstruktion", "leisten", "parkettierung", "revers", "parquetage", "traverses",
		"retro", "traverse", "parchettatura", "reverso", "travesanos", "engatillado", "achterzijde", "parkettering", "klampen"}},
	{SupportMoves, []string{"moves", "does it move", "cradle moves", "battens move", "beweglich", "mobile", "scorre", "beweegt"}},
	{Thinned, []string{"planed", "abgehobelt", "gedunnt", "aminci", "assottigliato", "rebajado", "verdund"}},
	{BackFinish, []string{"back coating", "coating back", "ruckseitenanstrich", "enduit du revers"}},
	{Cracks, []string{"crack", "splits", "split", "checks", "risse", "riss", "fentes", "fente", "fessure", "crepe", "grietas", "scheuren", "barsten"}},
	{OpenJoins, []string{"joins", "open joints", "joins open", "offene fugen", "fugen", "joints ouverts", "giunzioni aperte", "juntas abiertas", "open naden"}},
	{Flaking, []string{"flaking paint", "loose paint", "lose malschicht", "abblatternd", "soulevements", "sollevamenti", "desprendimientos", "afschilfering"}},
	{Warp, []string{"bow", "warping", "convexity", "verwolbung", "wolbung", "cintrage", "cambre", "imbarcamento", "curvatura", "alabeo", "kromming"}},
	{WarpToward, []string{"warp direction", "warp towards", "bow toward", "bow towards"}},
	{WarpAtRH, []string{"warp rh", "rh at warp", "rh when measured", "warp at rh pct"}},
	{LastInspected, []string{"inspected", "last inspection", "last condition check", "condition date", "condition report", "zuletzt gepruft", "letzte kontrolle", "dernier constat", "ultimo controllo", "ultima revision",
		"laatste controle"}},
	{ChangedSince, []string{"changed", "changes since", "change", "verandert", "change depuis", "cambiato", "cambios", "veranderd"}},
	{HereSince, []string{"since", "in store since", "hier seit", "seit", "depuis", "qui dal", "desde", "sinds"}},
	{CameFrom, []string{"came from climate", "home climate", "climate", "previous climate", "klima", "climat", "clima", "klimaat"}},
	{Enclosure, []string{"framing", "glazing", "case", "verglasung", "vitrage", "vetro", "vidrio", "beglazing"}},
	{Priority, []string{"prio", "prioritat", "priorite", "priorita", "prioridad", "prioriteit"}},
	{Group, []string{"belongs with", "set", "keep together", "gruppe", "groupe", "gruppo", "grupo", "groep"}},
	{MustStay, []string{"stays", "fixed place", "must not move"}},
	{PhotoFront, []string{"photo", "image", "foto"}},
	{PhotoBack, []string{"photo of back", "photo verso", "foto ruckseite"}},
	{Record, []string{"climate record", "logger", "logger file", "rh record"}},
	{Note, []string{"notes", "remark", "remarks", "comment", "comments", "bemerkung", "bemerkungen", "anmerkung", "remarque", "remarques", "nota", "opmerking", "opmerkingen", "observaciones"}},
	{asked, []string{"questions", "problem"}},
}

// fillers are words of a heading that do not change what it means.
var fillers = map[string]bool{"panel": true, "of": true, "the": true, "painting": true, "in": true, "tafel": true, "der": true, "des": true, "du": true, "de": true, "del": true, "della": true, "unframed": true}

// Fields lists the names of all fields.
func Fields() []string {
	var out []string
	for _, v := range vocabulary {
		if v.field != asked {
			out = append(out, string(v.field))
		}
	}
	return out
}
