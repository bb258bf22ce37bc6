//go:build e2e

package e2e

import (
	"fmt"
	"os"
	"os/exec"
	"path/filepath"
	"testing"
)

// Where things are: the program as built for these tests, and the pictures.
var (
	program   string
	outFolder string
)

// TestMain builds the program once, with the same flags as the tests so that the
// toolkit is not compiled again.
func TestMain(m *testing.M) {
	os.Exit(run(m))
}

func run(m *testing.M) int {
	folder, err := os.MkdirTemp("", "tallycloth-e2e-*")
	if err != nil {
		fmt.Fprintln(os.Stderr, err)
		return 1
	}
	defer os.RemoveAll(folder)
	root, err := filepath.Abs(filepath.Join("..", "..", ".."))
	if err != nil {
		fmt.Fprintln(os.Stderr, err)
		return 1
	}
	program, outFolder = filepath.Join(folder, "tallycloth"), filepath.Join(root, "out", "e2e")
	build := exec.Command("go", "build", "-buildvcs=false", "-race", "-tags=migrated_fynedo,e2e", "-o", program, "./cmd/tallycloth")
	build.Dir = root
	if out, err := build.CombinedOutput(); err != nil {
		fmt.Fprintf(os.Stderr, "building the program: %v\n%s", err, out)
		return 1
	}
	if err := os.MkdirAll(outFolder, 0o755); err != nil {
		fmt.Fprintln(os.Stderr, err)
		return 1
	}
	return m.Run()
}
