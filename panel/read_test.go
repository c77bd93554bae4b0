package panel_test

import (
	"bytes"
	"flag"
	"fmt"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"crossgrain/panel"
)

var update = flag.Bool("update", false, "rewrite the golden texts")

const folder = "../testdata/panels"

func readFile(t testing.TB, name string) *panel.Panel {
	t.Helper()
	src, err := os.ReadFile(filepath.Join(folder, name))
	require.NoError(t, err)
	p, problems := panel.Read(name, src)
	require.NoError(t, problems.Err())
	return p
}

func goodFiles(t testing.TB) []string {
	t.Helper()
	files, err := filepath.Glob(folder + "/*.toml")
	require.NoError(t, err)
	require.GreaterOrEqual(t, len(files), 5)
	for i := range files {
		files[i] = filepath.Base(files[i])
	}
	return files
}

func golden(t *testing.T, file, got string) {
	t.Helper()
	if *update {
		require.NoError(t, os.WriteFile(file, []byte(got), 0o644))
		return
	}
	want, err := os.ReadFile(file)
	require.NoError(t, err)
	assert.Equal(t, string(want), got)
}

func TestGoodFiles(t *testing.T) {
	for _, f := range goodFiles(t) {
		t.Run(f, func(t *testing.T) {
			p := readFile(t, f)
			assert.True(t, p.Invented(), "every panel here is marked as invented")
			o, err := p.Realise(nil)
			require.NoError(t, err)
			assert.Len(t, o.Joins, len(o.Boards)-1)
		})
	}
}

func TestBadFiles(t *testing.T) {
	files, err := filepath.Glob(folder + "/bad/*.toml")
	require.NoError(t, err)
	require.GreaterOrEqual(t, len(files), 15)
	for _, f := range files {
		t.Run(filepath.Base(f), func(t *testing.T) {
			src, err := os.ReadFile(f)
			require.NoError(t, err)
			p, problems := panel.Read(filepath.Base(f), src)
			require.NotEmpty(t, problems)
			assert.Nil(t, p)
			for _, q := range problems {
				assert.False(t, strings.HasSuffix(q.Msg, "."), q.Msg)
				assert.LessOrEqual(t, q.Line, 1+bytes.Count(src, []byte("\n")))
			}
			golden(t, strings.TrimSuffix(f, ".toml")+".txt", problems.Error()+"\n")
		})
	}
}

// Each of the sixteen tables of that file holds two mistakes; format is one more.
func TestEveryMistakeIsFound(t *testing.T) {
	src, err := os.ReadFile(folder + "/bad/two_in_every_table.toml")
	require.NoError(t, err)
	_, problems := panel.Read("x", src)
	found := map[string]int{}
	for _, q := range problems {
		found[q.Part[:strings.LastIndex("."+q.Part, ".")]]++
		assert.Positive(t, q.Line, q.Part)
	}
	for _, table := range strings.Split(string(src), "[")[1:] {
		name, _, _ := strings.Cut(table, "]")
		assert.GreaterOrEqual(t, found[name+"."], 2, name)
	}
}

func TestHugeFile(t *testing.T) {
	src := bytes.Repeat([]byte("# a line of nothing much\n"), 10<<20/25)
	_, problems := panel.Read("big.toml", src)
	require.Len(t, problems, 1)
	assert.Contains(t, problems[0].Msg, "bytes; a panel file has at most")
}

func many(n int, width float64) []byte {
	var b strings.Builder
	fmt.Fprintf(&b, "[panel]\naccession = \"INVENTED many\"\nheight_mm = 500\nwidth_mm = %g\nwood = \"oak\"\n", width)
	for i := range n {
		fmt.Fprintf(&b, "[board.b%d]\nwidth_mm = 20\n", i)
	}
	return []byte(b.String())
}

func TestTwoHundredBoards(t *testing.T) {
	p, problems := panel.Read("many.toml", many(200, 4000))
	require.NoError(t, problems.Err())
	o, err := p.Realise(nil)
	require.NoError(t, err)
	require.Len(t, o.Boards, 200)
	for i, b := range o.Boards {
		assert.Equal(t, fmt.Sprintf("b%d", i), b.Name, "the order of the file is the order across")
		assert.InDelta(t, 20*float64(i), b.Left, 1e-9)
	}
	_, problems = panel.Read("many.toml", many(200, 3000))
	require.Len(t, problems, 1)
	assert.Contains(t, problems[0].Msg, "is 3000 mm, but the boards across the grain come to 4000 mm")
}

func TestOrderIsThatOfTheFile(t *testing.T) {
	p, problems := panel.Read("x", []byte(`board.zulu.width_mm = 100
[panel]
accession = "INVENTED order"
height_mm = 300
width_mm = 300
wood = "oak"
[board."alpha one"]
width_mm = 100
[board.mike]
width_mm = 100
`))
	require.NoError(t, problems.Err())
	assert.Equal(t, []string{"zulu", "alpha one", "mike"}, p.Names("board"))
}

func TestThreeAnswers(t *testing.T) {
	base := "[panel]\naccession = \"INVENTED\"\nheight_mm = 300\nwidth_mm = 300\nwood = \"oak\"\n[face.front]\n"
	for _, c := range []struct{ line, want, ground string }{
		{`ground = "none"`, "none", "none"},
		{``, "", panel.GroundNotRecorded},
		{`ground = "?"`, "?", panel.GroundNotRecorded},
	} {
		p, problems := panel.Read("x", []byte(base+c.line+"\n"))
		require.NoError(t, problems.Err())
		assert.Equal(t, c.want, p.Text("face.front.ground"))
		o, err := p.Realise(nil)
		require.NoError(t, err)
		assert.Equal(t, c.ground, o.Front.Ground)
		text := ""
		for _, a := range p.Assumptions() {
			if a.Path == "face.front.ground" {
				text = a.Text
			}
		}
		switch c.want {
		case "none":
			assert.Empty(t, text)
		case "?":
			assert.Contains(t, text, "could not be told")
		default:
			assert.Contains(t, text, "not recorded")
		}
	}
}

func TestEndsEitherWay(t *testing.T) {
	base := "[panel]\naccession = \"INVENTED\"\nheight_mm = 300\nwidth_mm = 300\nwood = \"oak\"\n"
	a, pa := panel.Read("x", []byte("ends = \"coated\"\n"+base))
	b, pb := panel.Read("x", []byte(base+"[ends]\nstate = \"coated\"\n"))
	require.NoError(t, pa.Err())
	require.NoError(t, pb.Err())
	assert.Equal(t, a.Digest(), b.Digest())
	assert.Equal(t, "coated", a.Text("ends.state"))
}

// The line of every problem, with keys written in every way TOML knows.
func TestLines(t *testing.T) {
	src := `# 1
panel.accession = """
two lines"""
panel."height_mm" = -1
[panel.unknown] # 5
[ "board" . 'left one' ]
wood = 'oka'
lean = { a = 1,
  b = 2 }
[batten.a]
at_mm = [
  1, # ] not the end
  -2,
]
note_x = "# not a remark"
fixing = '''naled'''
[face]
front = { ground = "chalk", paint = 3 }
`
	_, problems := panel.Read("f", []byte(src))
	lines := map[string]int{}
	for _, q := range problems {
		lines[q.Part] = q.Line
	}
	want := map[string]int{
		"panel.height_mm": 4, "panel.unknown": 5, "panel": 2,
		"board.left one.wood": 7, "board.left one.lean": 8,
		"batten.a.at_mm": 11, "batten.a.note_x": 15, "batten.a.fixing": 16,
		"face.front.ground": 18, "face.front.paint": 18,
	}
	assert.Equal(t, want, lines, problems.Error())
}

func BenchmarkRead(b *testing.B) {
	src, err := os.ReadFile(folder + "/three_boards.toml")
	require.NoError(b, err)
	b.ReportAllocs()
	for b.Loop() {
		_, _ = panel.Read("x", src)
	}
}

// Texts made to be slow or deep are answered all the same, and soon.
func TestHostileTexts(t *testing.T) {
	const n = 60000
	long := strings.Repeat("x", n)
	for name, src := range map[string]string{
		"deep key":       "a" + strings.Repeat(".a", 5000) + " = 1",
		"deep array":     "a = " + strings.Repeat("[", 5000) + strings.Repeat("]", 5000),
		"long key":       long + " = 1",
		"long wood":      "[panel]\nwood = \"" + long + "\"",
		"long word":      "[panel]\ngrain = \"" + long + "\"",
		"many parts":     manyParts(5000),
		"control":        "[\"\\u001b[2J\"]\n",
		"no line end":    "[panel]",
		"lone bracket":   "[",
		"windows":        "[panel]\r\nheight_mm = 3\r\n",
		"names of names": "[join.a]\nbetween = [[\"a\"], 3]",
	} {
		_, problems := panel.Read("x", []byte(src))
		require.NotEmpty(t, problems, name)
		assert.Less(t, len(problems[0].Error()), 1000, name)
		assert.NotContains(t, problems.Error(), "\x1b", name)
	}
}

func manyParts(n int) string {
	var b strings.Builder
	for i := range n {
		fmt.Fprintf(&b, "[board.c%d]\n", i)
	}
	return b.String()
}

func TestWithLengthReadsBackAsMeasured(t *testing.T) {
	p, problems := panel.Read("x", []byte("format = 1\n[panel]\naccession = \"INVENTED 9\"\nheight_mm = 700\nwidth_mm = 500\nboards = 2\n"))
	require.NoError(t, problems.Err())
	q := p.WithLength("panel.thickness_mm", 12.5)
	assert.Equal(t, panel.Assumed, p.Known("panel.thickness_mm"), "the panel itself does not change")
	assert.Equal(t, panel.Measured, q.Known("panel.thickness_mm"))
	o, err := q.Realise(nil)
	require.NoError(t, err)
	assert.InDelta(t, 12.5, o.Boards[1].Thickness, 1e-12)
	var b strings.Builder
	require.NoError(t, q.Write(&b))
	again, problems := panel.Read("x", []byte(b.String()))
	require.NoError(t, problems.Err())
	assert.Equal(t, q.Digest(), again.Digest())
}
