package glpk

import (
	"os"
	"os/exec"
	"path/filepath"
	"strconv"
	"strings"
	"sync"
	"testing"
)

// Compare runs a comparison for each of so many seeds, two at a time, each with a name for
// its files.
func Compare(t *testing.T, cases int, compare func(t *testing.T, file string, seed uint64)) {
	t.Helper()
	dir := t.TempDir()
	var wg sync.WaitGroup
	seeds := make(chan int)
	for range 2 {
		wg.Go(func() {
			for i := range seeds {
				compare(t, filepath.Join(dir, strconv.Itoa(i)), uint64(i))
			}
		})
	}
	for i := range cases {
		seeds <- i
	}
	close(seeds)
	wg.Wait()
}

// Optimum solves a programme in the CPLEX LP format, whose objective has a name, and returns the optimum;
// false where there is no solution. The files are called like the name given and end in .lp
// and .out. Whatever goes wrong fails the test.
func Optimum(t testing.TB, file string, programme []byte) (float64, bool) {
	t.Helper()
	glpsol, err := exec.LookPath("glpsol")
	if err != nil {
		t.Error("glpsol is not installed; it is in the Debian package glpk-utils")
		return 0, false
	}
	if err := os.WriteFile(file+".lp", programme, 0o600); err != nil {
		t.Error(err)
		return 0, false
	}
	if out, err := exec.Command(glpsol, "--lp", file+".lp", "--cuts", "-o", file+".out").CombinedOutput(); err != nil {
		t.Errorf("glpsol: %v\n%s", err, out)
		return 0, false
	}
	out, err := os.ReadFile(file + ".out")
	if err != nil {
		t.Error(err)
		return 0, false
	}
	return read(t, string(out))
}

// read takes the status and the objective off a solution.
func read(t testing.TB, out string) (float64, bool) {
	t.Helper()
	for line := range strings.Lines(out) {
		f := strings.Fields(line)
		switch {
		case len(f) > 2 && f[0] == "Status:" && f[1] != "INTEGER":
			t.Errorf("unexpected status %q", line)
		case len(f) > 2 && f[0] == "Status:" && f[2] != "OPTIMAL":
			return 0, false
		case len(f) > 3 && f[0] == "Objective:":
			v, err := strconv.ParseFloat(f[3], 64)
			if err != nil {
				t.Error(err)
			}
			return v, true
		}
	}
	t.Errorf("no optimum in\n%s", out)
	return 0, false
}
