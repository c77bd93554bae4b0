package panel

import (
	"fmt"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

func asked(t *testing.T, path string) AskedKey {
	table, name, _ := strings.Cut(path, ".")
	for _, a := range Asking() {
		for _, k := range a.Keys {
			if a.Path == table && k.Name == name {
				return k
			}
		}
	}
	t.Fatalf("no key %s", path)
	return AskedKey{}
}

func TestLiteral(t *testing.T) {
	for _, v := range []struct{ path, typed, want string }{
		{"panel.height_mm", "600", "600"},
		{"panel.height_mm", " 600,5 ", "600.5"},
		{"panel.height_mm", "0600", "600"},
		{"panel.height_mm", "24 1/2 in", `"24 1/2 in"`},
		{"panel.height_mm", "24-1/2 in", `"24-1/2 in"`},
		{"panel.height_mm", `24 1/2"`, `"24 1/2\""`},
		{"panel.height_mm", "", ""},
		{"panel.thickness_mm", "10-15", "[10, 15]"},
		{"panel.thickness_mm", "10 – 15,5", "[10, 15.5]"},
		{"panel.thickness_mm", "10 to 15", "[10, 15]"},
		{"panel.thickness_mm", "[10, 15]", "[10, 15]"},
		{"panel.thickness_mm", "1-1,5 cm", `["1 cm", "1,5 cm"]`},
		{"panel.thickness_mm", "3/8 to 1/2 in", `["3/8 in", "1/2 in"]`},
		{"panel.thickness_mm", "?", `"?"`},
		{"panel.thickness_mm", "thin", `"thin"`},
		{"panel.boards", "3", "3"},
		{"panel.wood", "oak", `"oak"`},
		{"panel.accession", "007", `"007"`},
		{"panel.accession", "?", `"?"`},
		{"panel.transferred", "no", "false"},
		{"panel.transferred", "?", `"?"`},
		{"panel.note", "a \"quoted\" note\nin two lines", `"a \"quoted\" note\nin two lines"`},
		{"used_to.rh_pct", "52 %", "52"},
		{"used_to.rh_pct", "50-55 % RH", "[50, 55]"},
		{"used_to.lived_through_rh_pct", "42 to 61", "[42, 61]"},
		{"used_to.since", "1988", "1988"},
		{"used_to.last_inspected", "2024-05-14", `"2024-05-14"`},
		{"used_to.temperature_c", "-3,5", "-3.5"},
		{"batten.at_mm", "40, 150, 260", "[40, 150, 260]"},
		{"batten.at_mm", "40 150 260", "[40, 150, 260]"},
		{"batten.at_mm", "4 cm; 15 cm", `["4 cm", "15 cm"]`},
		{"batten.at_mm", "4,5; 15", `[4.5, 15]`},
		{"join.between", "left, middle", `["left", "middle"]`},
		{"observed.cup_mm", "-3", "-3"},
		{"observed.cup_mm", "−3", "-3"},
	} {
		assert.Equal(t, v.want, asked(t, v.path).Literal(v.typed), "%s: %s", v.path, v.typed)
	}
}

// TestLiteralsOfTheExamplesRead types the example of every key as a person would and reads the file that comes of it.
func TestLiteralsOfTheExamplesRead(t *testing.T) {
	n := 0
	for _, a := range Asking() {
		for _, k := range a.Keys {
			typed := strings.Trim(k.Example, `"`)
			literal := k.Literal(typed)
			header := a.Path
			if a.Named {
				header += ".one"
				if len(a.Names) > 0 {
					header = a.Path + "." + a.Names[0]
				}
			}
			src := fmt.Sprintf("[panel]\naccession = \"INVENTED\"\nheight_mm = 600\nwidth_mm = 450\n[%s]\n%s = %s\n", header, k.Name, literal)
			if a.Path == "panel" {
				src = fmt.Sprintf("[panel]\n%s = %s\n", k.Name, literal)
			}
			_, problems := Read("x.toml", []byte(src))
			for _, p := range problems {
				assert.NotContains(t, p.Msg, ", got", "%s.%s = %s", a.Path, k.Name, literal)
				assert.NotContains(t, p.Msg, "unknown", "%s.%s = %s", a.Path, k.Name, literal)
			}
			n++
		}
	}
	require.Greater(t, n, 120)
}

func FuzzLiteral(f *testing.F) {
	for _, s := range []string{"12", "10-15 mm", "[", `a"b`, "?", "\x00", "1;2", "½ in"} {
		f.Add(s)
	}
	var keys []AskedKey
	for _, a := range Asking() {
		keys = append(keys, a.Keys...)
	}
	f.Fuzz(func(t *testing.T, s string) {
		for _, k := range keys {
			if literal := k.Literal(s); literal != "" {
				_, problems := Read("x.toml", []byte("[panel]\n"+k.Name+" = "+literal+"\n"))
				for _, p := range problems {
					if p.Col != 0 {
						t.Fatalf("%q as %s gives %s, which is no TOML: %v", s, k.Name, literal, p)
					}
				}
			}
		}
	})
}
