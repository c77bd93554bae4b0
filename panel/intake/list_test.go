package intake

import (
	"fmt"
	"slices"
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

func read(t *testing.T, text string, o Options) *List {
	t.Helper()
	l, err := Read("list.csv", []byte(text), o)
	require.NoError(t, err)
	return l
}

func ids(r Row) []string {
	var out []string
	for _, q := range r.Questions {
		if q.ID != NotRecorded {
			out = append(out, q.ID)
		}
	}
	return out
}

// TestOneFullRow: every cell is found again in the panel, as typed.
func TestOneFullRow(t *testing.T) {
	l := read(t, "Acc. no.;Title;Store;Rack;Size;Measured;Grain;Thickness (mm);Wood;Boards;Board widths (mm);End grain;Back support;Support moves;Thinned;Cracks;Open joins;Flaking;Warp (mm);Warp toward;Warp at RH;Last inspected;Changed since;Came from;Enclosure;Colour of label\n"+
		"1923.7;An invented saint;Store 1;A 3;62 x 47,5 cm;unframed;upright;10-12;oak?;2;\"240; 235\";flat;cradle;no;yes;top 12 cm;1-2;past;3,5;wall;48 %;2024-05-14;no;heated house;glazed;blue\n", Options{})
	require.Len(t, l.Rows, 1)
	r := l.Rows[0]
	assert.Empty(t, r.Questions)
	require.NotNil(t, r.Panel, "%+v", r.Questions)
	assert.Equal(t, "1923.7.toml", r.File)
	for _, line := range []string{
		`accession = "1923.7"`, `title = "An invented saint"`, `height_mm = "62 cm"`, `width_mm = "47,5 cm"`, `measured = "unframed"`, `grain = "upright"`, `boards = 2`, `wood = "oak"`,
		`thickness_mm = ["10 mm", "12 mm"]`, `end_grain = "flat"`, `original_thickness = "thinned"`, "[board.1]\nwidth_mm = \"240 mm\"", "[cradle]\nmoves = \"seized\"", "[split.1]\nfrom = \"top\"\nlength_mm = \"12 cm\"",
		"[join.1-2]\nbetween = [\"1\", \"2\"]\ncondition = \"opened before\"", "[observed.list]\ndate = \"2024-05-14\"\nrh_pct = 48\ncup_mm = \"-3,5 mm\"", `unchanged = true`, `climate = "heated house"`, `seal = "ordinary"`,
		`store = "Store 1"`, `place = "A 3"`, "Wood: oak?", "Flaking: past", "Colour of label: blue",
	} {
		assert.Contains(t, string(r.Text), line)
	}
}

func TestCellsThatAreAskedAbout(t *testing.T) {
	const head = "number,height (cm),width (cm),thickness (mm),grain,wood,boards,back,cracks (mm),open joins,flaking,medium\n"
	for cells, want := range map[string]string{
		"1,62,47,12,upright,oak,2,none,none,none,none,":       "",
		",62,47,12,upright,oak,2,none,none,none,none,":        NumberMissing,
		"1,,47,12,upright,oak,2,none,none,none,none,":         SizeMissing,
		"1,?,47,12,upright,oak,2,none,none,none,none,":        SizeMissing,
		"1,tall,47,12,upright,oak,2,none,none,none,none,":     NotRead,
		"1,62,47,80,upright,oak,2,none,none,none,none,":       ThickDepth,
		"1,62,47,12 furlong,upright,oak,2,none,none,none,,":   NotRead,
		"1,62,47,-3,upright,oak,2,none,none,none,none,":       NotFit,
		"1,62,47,12,askew,oak,2,none,none,none,none,":         NotAWord,
		"1,62,47,12,upright,oka,2,none,none,none,none,":       WoodUnknown,
		"1,62,47,12,upright,cypress,2,none,none,none,none,":   NotFit, // its movement is not known
		"1,62,47,12,upright,oak,two,none,none,none,none,":     NotRead,
		"1,62,47,12,upright,oak,2000,none,none,none,none,":    NotFit,
		"1,62,47,12,upright,oak,2,other,none,none,none,":      SupportUnclear,
		"1,62,47,12,upright,oak,2,trellis,none,none,none,":    NotAWord,
		"1,62,47,12,upright,oak,2,none,left 40,none,none,":    CrackGrain,
		"1,62,47,12,upright,oak,2,none,somewhere,none,none,":  NotRead,
		"1,62,47,12,upright,oak,2,none,top 900,none,none,":    NotFit,
		"1,62,47,12,upright,oak,3,none,none,yes,none,":        JoinUnclear,
		"1,62,47,12,upright,oak,2,none,none,1-3,none,":        NotFit,
		"1,62,47,12,upright,oak,2,none,none,none,green,":      NotAWord,
		"1,62000,47,12,upright,oak,2,none,none,none,none,":    NotFit,
		"1,62 x 47,,12,upright,oak,2,none,none,none,none,":    "", // both in one cell
		"1,62 x 47 x 9,,12,upright,oak,2,none,none,none,yes,": FramedDepth,
	} {
		l := read(t, head+cells+"\n", Options{})
		require.Len(t, l.Rows, 1)
		r := l.Rows[0]
		if want == "" {
			assert.Empty(t, ids(r), cells)
			assert.NotNil(t, r.Text, cells)
			continue
		}
		if assert.Contains(t, ids(r), want, cells) && r.Text != nil {
			for _, q := range r.Questions {
				if q.ID == want {
					assert.Contains(t, string(r.Text), q.Heading+": "+q.Cell, "kept in the note: %s", cells)
				}
			}
		}
		assert.Equal(t, want == NumberMissing || want == SizeMissing || strings.HasPrefix(cells, "1,tall") || strings.HasPrefix(cells, "1,62000"), r.Text == nil, cells)
	}
}

// TestNothingIsDropped: each filled cell of a strange row stands in its file or in a question.
func TestNothingIsDropped(t *testing.T) {
	head := []string{"number", "size", "title", "artist", "store", "rack", "depth", "measured", "grain", "thickness", "wood", "boards", "board widths", "end grain", "back", "support moves", "thinned",
		"back finish", "cracks", "open joins", "flaking", "warp", "warp toward", "warp at rh", "last inspected", "changed since", "here since", "came from", "enclosure", "priority", "group", "note", "Insurance"}
	for round, cell := range []string{"zq%d", "?", "none", "yes", "12 mm"} {
		cells := []string{"A 1", "62 x 47 cm"}
		for i := 2; i < len(head); i++ {
			c := cell
			if strings.Contains(c, "%d") {
				c = fmt.Sprintf(c, i)
			}
			cells = append(cells, c)
		}
		l := read(t, strings.Join(head, ";")+"\n"+strings.Join(cells, ";")+"\n", Options{})
		r := l.Rows[0]
		require.NotNil(t, r.Text, round)
		for i := 2; i < len(head); i++ {
			if round == 0 {
				asked := slices.ContainsFunc(r.Questions, func(q Question) bool { return q.Cell == cells[i] })
				kept := strings.Contains(string(r.Text), cells[i])
				assert.True(t, kept, "%s: %s (asked: %v)", head[i], cells[i], asked)
			}
		}
	}
}

func TestUnitsAreAskedNotGuessed(t *testing.T) {
	const text = "Nr;Height;Width\nA1;62;47\nA2;24 1/2 in;47 cm\n"
	l := read(t, text, Options{})
	assert.Equal(t, []string{NoUnit, NoUnit}, ids(l.Rows[0]))
	assert.Nil(t, l.Rows[0].Text)
	assert.Empty(t, ids(l.Rows[1]))
	l = read(t, text, Options{Columns: map[string]string{"Height": "height cm", "Width": "width cm"}})
	require.NotNil(t, l.Rows[0].Text)
	assert.Equal(t, AsNamed, l.Columns[1].How)
	assert.Contains(t, string(l.Rows[0].Text), `height_mm = "62 cm"`)
	assert.Contains(t, string(l.Rows[1].Text), `height_mm = "24 1/2 in"`, "the cell's own unit counts")
}

func TestNumbersOfObjects(t *testing.T) {
	l := read(t, "number,height (cm),width (cm),part\nA 1,62,47,\na1,62,47,\n2024-03-12,62,47,\nA 3,62,47,a\nA 3,62,47,b\nA/4,62,47,\nA_4,62,47,\n", Options{})
	var files []string
	for _, r := range l.Rows {
		files = append(files, r.File)
	}
	assert.Equal(t, []string{NumberTwice}, ids(l.Rows[0]), "A 1 and a1 are told apart by nobody")
	assert.Equal(t, []string{NumberTwice}, ids(l.Rows[1]))
	assert.Equal(t, []string{NumberDate}, ids(l.Rows[2]))
	assert.Equal(t, []string{"", "", ""}, files[:3])
	assert.Equal(t, []string{"A_3_part_a.toml", "A_3_part_b.toml"}, files[3:5])
	assert.NotEqual(t, files[5], files[6], "two numbers never share a file")
	assert.Contains(t, string(l.Rows[5].Text), `accession = "A/4"`, "letter for letter")
	l = read(t, "number,height (cm),width (cm)\nA 1,62,47\n2024-03-12,62,47\nA 2,1,2\n", Options{NumbersRight: true})
	assert.Equal(t, "2024-03-12.toml", l.Rows[1].File)
}

func TestSafeNames(t *testing.T) {
	for number, want := range map[string]string{
		"1923.10": "1923.10", "Inv. 7/b": "Inv._7_b", "..": "panel-5ec1f7", "../../etc": "etc", "Éé 1": "Ee_1", "con": "panel-con", "nul.1": "panel-nul.1", "12–3": "12-3", "a\x00b": "a_b",
	} {
		got := safeName(number)
		if strings.HasPrefix(want, "panel-5") {
			assert.Regexp(t, `^panel-[0-9a-f]{6}$`, got, number)
			continue
		}
		assert.Equal(t, want, got, number)
	}
	assert.NotEqual(t, safeName("藤"), safeName("桜"))
	assert.LessOrEqual(t, len(safeName(strings.Repeat("x", 500))), longestName+7)
}

func TestRowsThatAreNoPanels(t *testing.T) {
	l := read(t, "number,height (cm),width (cm),medium\n1,62,47,Oil on canvas\n2,62,47,Öl auf Leinwand\n3,62,47,oil on canvas laid on panel\n4,62,47,huile sur bois\n5,62,47,\n6,62,47,copper\n7,62,47,oil on oak\n", Options{})
	var aside []string
	for _, r := range l.Rows {
		if r.Aside != "" {
			aside = append(aside, r.Accession)
			assert.Nil(t, r.Text)
		}
	}
	assert.Equal(t, []string{"1", "2", "6"}, aside)
}

func TestDepthNeverBecomesThickness(t *testing.T) {
	l := read(t, "number,height (cm),width (cm),Depth (cm)\n1,62,47,8\n2,62,47,\n", Options{})
	require.Len(t, l.Questions, 1)
	assert.Equal(t, Question{ID: ColumnDepth, Heading: "Depth (cm)", Detail: "1"}, l.Questions[0])
	assert.NotContains(t, string(l.Rows[0].Text), "thickness_mm")
	assert.Contains(t, string(l.Rows[0].Text), "Depth (cm): 8")
	l = read(t, "number,height (cm),width (cm),Depth (cm)\n1,62,47,1.2\n", Options{Columns: map[string]string{"Depth (cm)": "thickness cm"}})
	assert.Empty(t, l.Questions)
	assert.Contains(t, string(l.Rows[0].Text), `thickness_mm = "1.2 cm"`)
	l = read(t, "number,height (cm),width (cm),thickness (mm),thickness from\n1,62,47,45,edge\n2,62,47,45,catalogue\n", Options{})
	assert.Contains(t, string(l.Rows[0].Text), `thickness_mm = "45 mm"`, "taken at the edge")
	assert.NotContains(t, string(l.Rows[1].Text), "thickness_mm")
}

func TestListsThatCannotBeRead(t *testing.T) {
	for text, says := range map[string]string{
		"":                                  "the list is empty",
		"\n \n":                             "the list is empty",
		"a,b\n1,2\n":                        "no row of headings was found",
		"title,height,width\nx,1,2\n":       "no column holds the number",
		"number,title\n1,x\n":               "no column holds the height",
		"number,height (cm)\n1,3\n":         "no column holds the width",
		"\x89PNG\r\n\x1a\n\x00\x00\x01\x02": "not a text file",
	} {
		_, err := Read("list.csv", []byte(text), Options{})
		if assert.Error(t, err, "%q", text) {
			assert.Contains(t, err.Error(), says)
			assert.Contains(t, err.Error(), "list.csv")
		}
	}
	_, err := Read("list.csv", []byte("number,height (cm),width (cm)\n1,2,3\n"), Options{Columns: map[string]string{"number": "acession"}})
	assert.ErrorContains(t, err, "did you mean accession?")
	_, err = Read("list.csv", []byte("number,height (cm),width (cm),x\n1,2,3,4\n"), Options{Columns: map[string]string{"x": "height", "height (cm)": "height cm"}})
	assert.ErrorContains(t, err, "is named height already")
}

func TestBackIsReadTheSame(t *testing.T) {
	const text = "number,height (cm),width (cm),store,rack,thickness\n1,62,47,Store 2,B 2,12 mm\n2,62,47,Store 1,A 10,\n3,,47,Store 1,A 2,\n"
	l := read(t, text, Options{})
	back := l.Back(func(r Row) string { return strings.Join(ids(r), " ") })
	var numbers []string
	for _, r := range back[1:] {
		numbers = append(numbers, r[1])
	}
	assert.Equal(t, []string{"3", "2", "1"}, numbers, "by store and place")
	var b strings.Builder
	for _, r := range back {
		b.WriteString(strings.Join(r, ",") + "\n")
	}
	again := read(t, b.String(), Options{})
	for _, r := range again.Rows {
		i := slices.IndexFunc(l.Rows, func(x Row) bool { return x.Accession == r.Accession })
		assert.Equal(t, string(l.Rows[i].Text), string(r.Text))
	}
	assert.Equal(t, back, again.Back(func(r Row) string { return strings.Join(ids(r), " ") }), "the questions are renewed, not doubled")
}

func TestCompare(t *testing.T) {
	file := func(cells string) []byte {
		l := read(t, "number,height (cm),width (cm),thickness (mm),wood,note\n"+cells+"\n", Options{})
		require.NotNil(t, l.Rows[0].Text)
		return l.Rows[0].Text
	}
	was := file("1,62,47,12,oak,a word")
	for _, c := range []struct {
		next, old  []byte
		remembered string
		want       State
		says       string
	}{
		{was, nil, "", New, ""},
		{was, was, "", Same, ""},
		{was, append([]byte("# a remark\n"), was...), "", Same, ""},
		{file("1,62,47,13,oak,a word"), was, Digest(was), Changed, `panel.thickness_mm: "12 mm" in the file, "13 mm" in the list`},
		{file("1,62,47,13,oak,a word"), was, "", ByHand, `panel.thickness_mm`},
		{was, append(slices.Clone(was), "[cradle]\n"...), Digest(was), ByHand, "cradle: described in the file, nothing in the list"},
		{file("1,62,47,,oak,a word"), was, Digest(was), Loses, `panel.thickness_mm: "12 mm" in the file, nothing in the list`},
		{file("1,62,47,12,oak,"), was, Digest(was), Loses, `panel.note, note: "a word" in the file, nothing in the list`},
		{was, []byte("not a panel"), Digest(was), ByHand, "cannot be read"},
	} {
		state, diff := Compare(c.next, c.old, c.remembered)
		assert.Equal(t, c.want, state, "%s: %v", c.says, diff)
		assert.Contains(t, strings.Join(diff, "; "), c.says)
	}
}

func TestMemory(t *testing.T) {
	m := Memory{Format: 1, List: `a "list".csv`, Columns: map[string]string{"Höhe": "height cm", "Nr. \"x\"": "accession"}, Written: map[string]string{"a.toml": "00"}}
	got, err := ReadMemory("intake.map", m.Bytes())
	require.NoError(t, err)
	assert.Equal(t, m, got)
	for bad, says := range map[string]string{"format = 2": "format must be 1", "[columns": "intake.map:1", "format = 1\n[columns]\n\"x\" = \"hight\"": "did you mean height", "format = 1\nx = 1": "unknown key x"} {
		_, err := ReadMemory("intake.map", []byte(bad))
		if assert.Error(t, err, bad) {
			assert.Contains(t, err.Error(), says)
		}
	}
}

// TestBadCellsAreAllTold: 5,000 bad cells are all asked about, and soon.
func TestBadCellsAreAllTold(t *testing.T) {
	var b strings.Builder
	b.WriteString("number,height (cm),width (cm),thickness (mm),grain,wood,boards,end grain\n")
	for i := range 1000 {
		fmt.Fprintf(&b, "N %d,62,47,thick,askew,wud%d,many,odd\n", i, i)
	}
	began := time.Now()
	l := read(t, b.String(), Options{})
	took := time.Since(began)
	n := 0
	for _, r := range l.Rows {
		n += len(ids(r))
		assert.NotNil(t, r.Text)
	}
	assert.Equal(t, 5000, n)
	assert.Less(t, took, 20*time.Second, "300 rows in 2 s")
}

// FuzzCell: no cell makes the reader panic, and a file that comes out reads back.
func FuzzCell(f *testing.F) {
	for _, s := range []string{"62 x 47,5 cm", "24 1/2 in", "top 120; left 40 from bottom", "?", "none", "10–15", "c. 12 mm", "1-2; 2-3", "oak?", "210; 198; 205", "\x00\xff", "½", "x", "((1)", "=1+1", "\"", "1e308 mm"} {
		f.Add(s, uint8(2))
	}
	f.Fuzz(func(t *testing.T, cell string, column uint8) {
		l := &List{Columns: make([]Column, len(vocabulary))}
		cells := make([]string, len(vocabulary))
		for i, v := range vocabulary {
			l.Columns[i] = Column{Heading: string(v.field), Field: v.field, Unit: "mm", How: ByName}
		}
		for i, v := range vocabulary {
			switch v.field {
			case Accession:
				cells[i] = "1"
			case Height, Width:
				cells[i] = "600"
			}
		}
		i := int(column) % len(cells)
		cells[i] = cell
		l.Rows = []Row{{Line: 2, Cells: cells, columns: l.Columns}}
		l.describe(Options{})
		r := l.Rows[0]
		if r.Text == nil && r.Aside == "" && len(r.Questions) == 0 {
			t.Errorf("%q under %s: no file and no question", cell, l.Columns[i].Field)
		}
		if state, diff := Compare(r.Text, r.Text, ""); r.Text != nil && state != Same {
			t.Errorf("%q: a file differs from itself: %v", cell, diff)
		}
	})
}
