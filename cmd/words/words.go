package main

import (
	"cmp"
	"fmt"
	"go/ast"
	"go/parser"
	"go/token"
	"io/fs"
	"path/filepath"
	"regexp"
	"slices"
	"strconv"
	"strings"
)

// Said is a text with the first place where it stands.
type Said struct{ Text, Where string }

// rooms are the folders whose texts reach a person, as screens, verbs or errors.
var rooms = []string{"ui", "cmd/tallycloth", "planner", "stash", "db"}

// apart are folders with texts for tests, traces and files only.
var apart = regexp.MustCompile(`test$|/testdata|/e2ehook|/budget|/sample$|/glpk$|/e2e$`)

// Collect reads the texts of the program whose source lies in a folder, sorted.
func Collect(root string) ([]Said, error) {
	seen := map[string]string{}
	for _, room := range rooms {
		err := filepath.WalkDir(filepath.Join(root, filepath.FromSlash(room)), func(path string, d fs.DirEntry, err error) error {
			switch {
			case err != nil:
				return err
			case d.IsDir() && apart.MatchString(filepath.ToSlash(path)):
				return filepath.SkipDir
			case d.IsDir() || !strings.HasSuffix(path, ".go") || strings.HasSuffix(path, "_test.go"):
				return nil
			}
			return collectFile(root, path, seen)
		})
		if err != nil {
			return nil, fmt.Errorf("reading %s: %w", room, err)
		}
	}
	var out []Said
	for text, where := range seen {
		out = append(out, Said{text, where})
	}
	slices.SortFunc(out, func(a, b Said) int {
		return cmp.Or(cmp.Compare(strings.ToLower(a.Text), strings.ToLower(b.Text)), cmp.Compare(a.Text, b.Text))
	})
	return out, nil
}

// collectFile adds the texts of one file.
func collectFile(root, path string, seen map[string]string) error {
	set := token.NewFileSet()
	f, err := parser.ParseFile(set, path, nil, 0)
	if err != nil {
		return err
	}
	ast.Inspect(f, func(n ast.Node) bool {
		switch n := n.(type) {
		case *ast.ImportSpec:
			return false
		case *ast.Field:
			if n.Tag != nil {
				ast.Inspect(n.Type, func(ast.Node) bool { return true })
				return false
			}
		case *ast.CallExpr:
			if inward(n) {
				return false
			}
		case *ast.BasicLit:
			if n.Kind != token.STRING {
				return true
			}
			text, err := strconv.Unquote(n.Value)
			if err != nil || !reads(text) {
				return true
			}
			if _, known := seen[text]; !known {
				at := set.Position(n.Pos())
				rel, err := filepath.Rel(root, at.Filename)
				if err != nil {
					rel = at.Filename
				}
				seen[text] = fmt.Sprintf("%s:%d", filepath.ToSlash(rel), at.Line)
			}
		}
		return true
	})
	return nil
}

// inward says whether a call's texts stay inside the program: patterns, what goes to the log of
// a trace, and panics.
func inward(c *ast.CallExpr) bool {
	name := ""
	switch f := c.Fun.(type) {
	case *ast.Ident:
		name = f.Name
	case *ast.SelectorExpr:
		name = f.Sel.Name
	}
	return slices.Contains([]string{"MustCompile", "panic", "println", "Getenv", "exec", "ExecContext", "QueryContext", "QueryRowContext"}, name)
}

var (
	letters = regexp.MustCompile(`\pL{2}`)
	inner   = regexp.MustCompile(`^[a-z0-9_./:*-]+$|^(SELECT|INSERT|UPDATE|DELETE|PRAGMA|CREATE|FROM| WHERE| ORDER)\b|^[A-Z]{2,6}$|^<|^#`)
)

// reads says whether a text is one that somebody reads: words, not a name used inside the program.
func reads(text string) bool { return letters.MatchString(text) && !inner.MatchString(text) }
