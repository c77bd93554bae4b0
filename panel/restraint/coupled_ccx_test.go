package restraint

import (
	"bufio"
	"bytes"
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

// needCCX returns CalculiX or leaves the test out.
func needCCX(t *testing.T) string {
	t.Helper()
	ccx, err := exec.LookPath("ccx")
	if err != nil {
		if os.Getenv("CROSSGRAIN_REQUIRE_CCX") == "1" {
			t.Fatal("ccx (CalculiX, Debian package calculix-ccx) is required here and was not found")
		}
		t.Skip("ccx (CalculiX, Debian package calculix-ccx) is not installed: the stored answers of the solid are used alone")
	}
	return ccx
}

// solveSolid returns the movements of each step and sxx at the points of each element, in the order of its rule.
func solveSolid(t *testing.T, ccx string, d *coupledDeck) (steps []map[int][3]float64, sxx map[int][]float64) {
	t.Helper()
	dir := t.TempDir()
	require.NoError(t, os.WriteFile(filepath.Join(dir, "s.inp"), []byte(d.b.String()), 0o600))
	cmd := exec.Command(ccx, "-i", "s")
	cmd.Dir = dir
	cmd.Env = append(os.Environ(), "OMP_NUM_THREADS=1")
	start := time.Now()
	out, err := cmd.CombinedOutput()
	require.NoError(t, err, string(out))
	t.Logf("CalculiX took %v, %d nodes", time.Since(start).Round(time.Millisecond), d.nodes)
	dat, err := os.ReadFile(filepath.Join(dir, "s.dat"))
	require.NoError(t, err, string(out))
	sxx = map[int][]float64{}
	for s := bufio.NewScanner(bytes.NewReader(dat)); s.Scan(); {
		if strings.Contains(s.Text(), "displacements") {
			steps = append(steps, map[int][3]float64{})
			continue
		}
		switch v := coupledNumbers(s.Text()); len(v) {
		case 4:
			steps[len(steps)-1][int(v[0])] = [3]float64{v[1], v[2], v[3]}
		case 8:
			sxx[int(v[0])] = append(sxx[int(v[0])], v[2])
		}
	}
	require.NotEmpty(t, steps, string(out))
	return steps, sxx
}

// coupledNumbers reads a line of numbers; nothing when it holds anything else.
func coupledNumbers(line string) (v []float64) {
	for _, w := range strings.Fields(line) {
		f, err := strconv.ParseFloat(w, 64)
		if err != nil {
			return nil
		}
		v = append(v, f)
	}
	return v
}

// answerSolid solves a variant of the case as a solid.
func answerSolid(t *testing.T, ccx string, how coupledSolid) coupledAnswer {
	t.Helper()
	d := newDeck(coupledCase(how.gaps), how)
	steps, sxx := solveSolid(t, ccx, d)
	return d.answer(steps[0], sxx)
}

// CalculiX gives the stored answers again: gaps and faces that only press, and all fixings sound.
func TestLiveCalculiXCoupled(t *testing.T) {
	ccx := needCCX(t)
	for _, name := range []string{"linear_face", "gaps_face"} {
		t.Run(name, func(t *testing.T) {
			got := answerSolid(t, ccx, coupledVariants[name])
			for kind, share := range coupledApart(t, readCoupled(t)[name], got) {
				assert.Less(t, share, 1e-4, kind)
			}
		})
	}
}
