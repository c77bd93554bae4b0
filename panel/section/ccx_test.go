package section

import (
	"bufio"
	"bytes"
	"fmt"
	"math"
	"os"
	"os/exec"
	"path/filepath"
	"strconv"
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// deck writes a section for CalculiX: our own nodes and elements (CPE8, plane strain), nodes of neighbouring boards
// that coincide merged, ring axes as a cylindrical orientation about each pith, moisture as temperature. The zero of y
// is the back, so y there is z here. It returns the deck and, board by board, the number of each node.
func deck(f Field, timbers []Timber, mc func(z float64) float64) (string, [][]int) {
	var b strings.Builder
	ids := make([][]int, len(f))
	at := map[[2]int64]int{}
	b.WriteString("*NODE,NSET=NALL\n")
	for i, bf := range f {
		for n := range bf.X {
			k := [2]int64{int64(math.Round(bf.X[n] * 1e6)), int64(math.Round(bf.Z[n] * 1e6))}
			if _, ok := at[k]; !ok {
				at[k] = len(at) + 1
				fmt.Fprintf(&b, "%d,%.12g,%.12g,0\n", at[k], bf.X[n], bf.Z[n])
			}
			ids[i] = append(ids[i], at[k])
		}
	}
	e, left := 0, 0.0
	var sets strings.Builder
	for i, bf := range f {
		for coat, name := range [2]string{"W", "G"} {
			var el strings.Builder
			for k, nodes := range bf.Elements {
				if bf.Coat[k] != (coat == 1) {
					continue
				}
				e++
				fmt.Fprintf(&el, "%d", e)
				for _, n := range nodes {
					fmt.Fprintf(&el, ",%d", ids[i][n])
				}
				el.WriteString("\n")
			}
			if el.Len() == 0 {
				continue
			}
			fmt.Fprintf(&b, "*ELEMENT,TYPE=CPE8,ELSET=%s%d\n%s", name, i, el.String())
			if coat == 1 {
				c := timbers[i].Front[0]
				fmt.Fprintf(&sets, "*MATERIAL,NAME=MG%d\n*ELASTIC\n%g,%g\n*EXPANSION\n0\n*SOLID SECTION,ELSET=G%d,MATERIAL=MG%d\n1.0\n", i, c.E, c.Nu, i, i)
				continue
			}
			w := timbers[i].Wood
			x, y := left+timbers[i].PithX, timbers[i].PithZ
			fmt.Fprintf(&sets, "*MATERIAL,NAME=MW%d\n*ELASTIC,TYPE=ENGINEERING CONSTANTS\n%g,%g,%g,%g,%g,%g,%g,700\n700,0\n*EXPANSION,TYPE=ORTHO\n0.0015,0.0030,0.0\n",
				i, w.ER, w.ET, w.EL, w.NuRT, w.NuLR*w.ER/w.EL, w.NuLT*w.ET/w.EL, w.GRT)
			fmt.Fprintf(&sets, "*ORIENTATION,NAME=O%d,SYSTEM=CYLINDRICAL\n%g,%g,0,%g,%g,1\n*SOLID SECTION,ELSET=W%d,MATERIAL=MW%d,ORIENTATION=O%d\n1.0\n", i, x, y, x, y, i, i, i)
		}
		left += timbers[i].Width
	}
	b.WriteString(sets.String())
	fmt.Fprintf(&b, "*BOUNDARY\n%d,1,2\n%d,2,2\n*INITIAL CONDITIONS,TYPE=TEMPERATURE\nNALL,0\n*STEP\n*STATIC\n*TEMPERATURE\n",
		at[[2]int64{0, 0}], at[[2]int64{int64(math.Round(left * 1e6)), 0}])
	done := map[int]bool{}
	for i, bf := range f {
		for n, id := range ids[i] {
			if !done[id] {
				done[id] = true
				fmt.Fprintf(&b, "%d,%.12g\n", id, mc(bf.Z[n]))
			}
		}
	}
	b.WriteString("*NODE PRINT,NSET=NALL\nU\n*END STEP\n")
	return b.String(), ids
}

// CalculiX on the very same mesh: every node within 0.05 % of the largest movement. Three boards, rings from three
// piths, a ground on the first, moisture that falls from back to front.
func TestLiveCalculiX(t *testing.T) {
	ccx, err := exec.LookPath("ccx")
	if err != nil {
		if os.Getenv("CROSSGRAIN_REQUIRE_CCX") == "1" {
			t.Fatal("ccx (CalculiX, Debian package calculix-ccx) is required here and was not found")
		}
		t.Skip("ccx (CalculiX, Debian package calculix-ccx) is not installed: the comparison on our own mesh is left out")
	}
	plain, ground := caseC(), caseC()
	for i := range ground {
		ground[i].Front = []Coat{{Thickness: 1, E: 3000, Nu: 0.3}}
	}
	for name, b := range map[string][]Timber{"plain": plain, "ground": ground} {
		for _, o := range []Options{{HeldAlong: true}, {HeldAlong: true, Fineness: Fine}} {
			m, err := Build(b, o)
			require.NoError(t, err)
			f, err := m.Field(fill(t, m, Movement{At: []float64{0, 1}, R: []float64{-0.0075, -0.0015}, T: []float64{-0.015, -0.003}}))
			require.NoError(t, err)
			text, ids := deck(f, b, func(z float64) float64 { return -5 + 4*z/18 })
			start := time.Now()
			u := solveWith(t, ccx, text)
			took := time.Since(start).Round(time.Millisecond)
			top, worst := 0.0, 0.0
			for i, bf := range f {
				for n, id := range ids[i] {
					v, ok := u[id]
					require.True(t, ok, "node %d has no answer", id)
					top = math.Max(top, math.Hypot(v[0], v[1]))
					worst = math.Max(worst, math.Hypot(v[0]-bf.DX[n], v[1]-bf.DZ[n]))
				}
			}
			t.Logf("%s, fineness %d: largest difference %.3g of %.4g mm (%.2g); CalculiX took %v", name, o.Fineness, worst, top, worst/top, took)
			assert.Less(t, worst, 0.0005*top, name)
		}
	}
}

func solveWith(t *testing.T, ccx, text string) map[int][2]float64 {
	dir := t.TempDir()
	require.NoError(t, os.WriteFile(filepath.Join(dir, "s.inp"), []byte(text), 0o600))
	cmd := exec.Command(ccx, "-i", "s")
	cmd.Dir = dir
	cmd.Env = append(os.Environ(), "OMP_NUM_THREADS=1")
	out, err := cmd.CombinedOutput()
	require.NoError(t, err, string(out))
	dat, err := os.ReadFile(filepath.Join(dir, "s.dat"))
	require.NoError(t, err, string(out))
	u := map[int][2]float64{}
	for s := bufio.NewScanner(bytes.NewReader(dat)); s.Scan(); {
		w := strings.Fields(s.Text())
		if len(w) != 4 {
			continue
		}
		id, err := strconv.Atoi(w[0])
		if err != nil {
			continue
		}
		x, _ := strconv.ParseFloat(w[1], 64)
		y, _ := strconv.ParseFloat(w[2], 64)
		u[id] = [2]float64{x, y}
	}
	return u
}
