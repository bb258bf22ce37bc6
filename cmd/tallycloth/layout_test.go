package main_test

import (
	"bytes"
	"encoding/json"
	"os"
	"os/exec"
	"path/filepath"
	"slices"
	"strings"
	"testing"
)

const module = "tallycloth/"

// listed is what the go command says about a package.
type listed struct {
	ImportPath, Dir string
	Imports, Deps   []string
}

// packages returns every package of the program. Test files are not looked at: a
// test of db may use the demo studio, for instance.
func packages(t *testing.T) map[string]listed {
	t.Helper()
	cmd := exec.Command("go", "list", "-buildvcs=false", "-tags=migrated_fynedo", "-json=ImportPath,Dir,Imports,Deps", "./...")
	cmd.Dir = filepath.Join("..", "..")
	var stderr bytes.Buffer
	cmd.Stderr = &stderr
	out, err := cmd.Output()
	if err != nil {
		t.Fatalf("go list: %v\n%s", err, stderr.String())
	}
	all := map[string]listed{}
	for d := json.NewDecoder(bytes.NewReader(out)); d.More(); {
		var p listed
		if err := d.Decode(&p); err != nil {
			t.Fatal(err)
		}
		all[strings.TrimPrefix(p.ImportPath, module)] = p
	}
	if len(all) < 10 {
		t.Fatalf("go list found %d packages only", len(all))
	}
	return all
}

// layers says who may import whom inside the domain: only what stands on a lower
// line. Packages on one line stay apart, except for the pairs in beside.
var layers = [][]string{
	{"stash/measure", "stash/shape", "planner/glpk"},
	{"stash", "planner/geometry"},
	{"stash/stashtest", "stash/list", "stash/photo", "planner/pattern", "planner/nest", "planner/batch", "planner/binding", "planner/trace"},
	{"planner/adjust"},
	{"planner/sizing", "planner/draft", "planner/match", "planner/leftover"},
	{"planner/garment"},
	{"planner/scene"},
	{"planner/exchange/drawn"},
	{"planner/exchange"},
	{"planner/exchange/outlines"},
	{"planner"},
	{"planner/demo", "planner/plannertest"},
}

var beside = map[[2]string]bool{
	{"planner/draft", "planner/sizing"}: true, // quick outlines start from a size
}

// layer returns the line of a package: its own, or its nearest parent's.
func layer(path string) (int, bool) {
	for p := path; p != "." && p != "/"; p = filepath.Dir(p) {
		for i, names := range layers {
			if slices.Contains(names, p) {
				return i, true
			}
		}
		if p == "planner/exchange" {
			break
		}
	}
	return 0, false
}

func TestDomainImportsDownwards(t *testing.T) {
	for path, p := range packages(t) {
		if !inside(path, "stash") && !inside(path, "planner") {
			continue
		}
		own, known := layer(path)
		if !known {
			t.Errorf("%s stands on no line of the layers: say where it belongs", path)
			continue
		}
		for _, imp := range p.Imports {
			to, ours := strings.CutPrefix(imp, module)
			if !ours || samePlace(path, to) || beside[[2]string{path, to}] {
				continue
			}
			if to == "assets" { // plain embedded files
				if path != "planner/demo" {
					t.Errorf("%s imports assets: only the demo studio and the window may", path)
				}
				continue
			}
			if at, known := layer(to); !known || at >= own {
				t.Errorf("%s imports %s, which does not stand below it", path, to)
			}
		}
	}
}

// samePlace says whether two packages belong to one room with rooms inside, such as
// a file format and what all formats share.
func samePlace(a, b string) bool {
	return inside(a, b) && b != "stash" && b != "planner"
}

// inside says whether a package is a folder or lies in it.
func inside(path, folder string) bool { return path == folder || strings.HasPrefix(path, folder+"/") }

func TestStashKnowsNoPlanner(t *testing.T) {
	for path, p := range packages(t) {
		if !inside(path, "stash") {
			continue
		}
		for _, imp := range p.Imports {
			to, ours := strings.CutPrefix(imp, module)
			if ours && !inside(to, "stash") {
				t.Errorf("%s imports %s: the stash imports itself only", path, to)
			}
			if ours && (path == "stash/measure" || path == "stash/shape") {
				t.Errorf("%s imports %s: it is a leaf", path, to)
			}
		}
	}
}

// TestArrows holds the rest of the table in DEVELOPERS.md.
func TestArrows(t *testing.T) {
	for path, p := range packages(t) {
		for _, imp := range p.Imports {
			to, ours := strings.CutPrefix(imp, module)
			for _, r := range rules {
				if r.of(path) && !r.may(path, to, imp, ours) {
					t.Errorf("%s imports %s: %s", path, imp, r.why)
				}
			}
		}
	}
}

var rules = []struct {
	why string
	of  func(path string) bool
	may func(path, to, imp string, ours bool) bool
}{
	{
		"only cmd wires what is under it",
		func(p string) bool { return !inside(p, "cmd") },
		func(_, to, _ string, ours bool) bool { return !ours || !inside(to, "cmd") },
	}, {
		"nothing but cmd imports the window",
		func(p string) bool { return !inside(p, "cmd") && !inside(p, "ui") },
		func(_, to, _ string, ours bool) bool { return !ours || !inside(to, "ui") },
	}, {
		"only cmd opens a library",
		func(p string) bool { return !inside(p, "cmd") && !inside(p, "db") },
		func(_, to, _ string, ours bool) bool { return !ours || !inside(to, "db") },
	}, {
		"SQL is spoken in db alone",
		func(p string) bool { return !inside(p, "db") },
		func(_, _, imp string, _ bool) bool {
			return imp != "database/sql" && !strings.Contains(imp, "sqlite3") && !strings.Contains(imp, "goose")
		},
	}, {
		"the window toolkit is known to ui and cmd alone",
		func(p string) bool { return !inside(p, "ui") && !inside(p, "cmd") },
		func(_, _, imp string, _ bool) bool { return !strings.HasPrefix(imp, "fyne.io/") },
	}, {
		"only the program itself starts the toolkit's driver",
		func(p string) bool { return p != "cmd/tallycloth" && p != "cmd/gallery" },
		func(_, _, imp string, _ bool) bool { return imp != "fyne.io/fyne/v2/app" },
	}, {
		"db implements what stash and planner own, and knows no more",
		func(p string) bool { return inside(p, "db") },
		func(_, to, _ string, ours bool) bool {
			return !ours || inside(to, "stash") || inside(to, "planner") || inside(to, "db")
		},
	}, {
		"the window asks services and shows embedded files",
		func(p string) bool { return inside(p, "ui") },
		func(_, to, _ string, ours bool) bool {
			return !ours || inside(to, "ui") || inside(to, "planner") || inside(to, "stash") || inside(to, "assets")
		},
	}, {
		"embedded files know nothing of the program",
		func(p string) bool { return inside(p, "assets") },
		func(_, to, _ string, ours bool) bool { return !ours || inside(to, "assets") },
	},
}

// TestVerbsNeedNoDisplay: what works without a window must not bring its driver in.
func TestVerbsNeedNoDisplay(t *testing.T) {
	for _, dep := range packages(t)["cmd/tallycloth/verb"].Deps {
		if dep == "fyne.io/fyne/v2/app" || strings.Contains(dep, "go-gl/") {
			t.Errorf("the verbs depend on %s", dep)
		}
	}
}

// TestEveryPackageSaysWhatItIs: each room has a doc.go at its door.
func TestEveryPackageSaysWhatItIs(t *testing.T) {
	for path, p := range packages(t) {
		if _, err := os.Stat(filepath.Join(p.Dir, "doc.go")); err != nil {
			t.Errorf("%s has no doc.go that states the question it answers", path)
		}
	}
}
