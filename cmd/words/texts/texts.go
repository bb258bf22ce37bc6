package texts

import (
	"fmt"
	"io/fs"
	"os"
	"path/filepath"
	"slices"
	"strings"
)

// Text is something that a person may read: what is put into it while the program runs is "…".
type Text struct {
	Said string
	File string // with slashes, from the root of the source
	Line int
}

// Place is where a person meets texts, with all of them in the order of the source.
type Place struct {
	Name  string
	Texts []Text
}

// places name what a person sees, by the folders that say it. The longest name of a folder decides.
var places = []struct {
	name    string
	folders []string
}{
	{"The frame of the window", []string{"ui", "ui/page", "ui/task"}},
	{"Stash", []string{"ui/stashui", "ui/tracing"}},
	{"Patterns", []string{"ui/patternui"}},
	{"Garments", []string{"ui/garmentui"}},
	{"Batch", []string{"ui/batchui"}},
	{"Binding", []string{"ui/bindingui"}},
	{"History", []string{"ui/historyui"}},
	{"Settings", []string{"ui/settingsui"}},
	{"Help", []string{"ui/helpui", "assets/guide"}},
	{"Every place: fields, lists, drawings", []string{"ui/widgets", "ui/looks"}},
	{"Every place: sentences and verdicts", []string{"ui/say", "ui/answer", "ui/records"}},
	{"On paper", []string{"ui/paper", "ui/paperui", "planner/exchange/sheet"}},
	{"Fabric and cloth: words, readings, refusals", []string{"stash"}},
	{"Patterns and garments: words, advice, refusals", []string{"planner"}},
	{"Files brought in and written out", []string{"planner/exchange"}},
	{"The demo studio", []string{"planner/demo"}},
	{"The library", []string{"db"}},
	{"Without the window: verbs", []string{"cmd/tallycloth"}},
	{"The menu of the desktop", []string{"assets"}},
}

// apart are folders with texts for tests and traces only.
var apart = []string{"testdata", "e2e", "e2ehook", "budget", "sample", "glpk", "migrations", "pictures", "stashtest", "plannertest", "nest", "drawntest", "tracetest"}

// placeOf finds the place of a folder.
func placeOf(folder string) (int, bool) {
	for f := folder; f != "."; f = filepath.ToSlash(filepath.Dir(f)) {
		for i, p := range places {
			if slices.Contains(p.folders, f) {
				return i, true
			}
		}
	}
	return 0, false
}

// Collect reads the texts of the program whose source lies in a folder, place by place. A text
// is listed once in a place.
func Collect(root string) ([]Place, error) {
	out, seen := make([]Place, len(places)), map[string]bool{}
	for i, p := range places {
		out[i].Name = p.name
	}
	for _, room := range []string{"ui", "stash", "planner", "db", "cmd/tallycloth", "assets"} {
		err := filepath.WalkDir(filepath.Join(root, filepath.FromSlash(room)), func(path string, d fs.DirEntry, err error) error {
			if err != nil {
				return err
			}
			if d.IsDir() {
				if slices.Contains(apart, d.Name()) {
					return filepath.SkipDir
				}
				return nil
			}
			rel, err := filepath.Rel(root, path)
			if err != nil {
				return err
			}
			found, err := read(path, filepath.ToSlash(rel))
			if err != nil {
				return err
			}
			i, ok := placeOf(filepath.ToSlash(filepath.Dir(rel)))
			if !ok && len(found) > 0 {
				return fmt.Errorf("%s says something but belongs to no place", rel)
			}
			for _, t := range found {
				if key := out[i].Name + t.Said; !seen[key] {
					seen[key] = true
					out[i].Texts = append(out[i].Texts, t)
				}
			}
			return nil
		})
		if err != nil {
			return nil, fmt.Errorf("reading %s: %w", room, err)
		}
	}
	return out, nil
}

// read reads the texts of a file: of source, of a page of the guide, of the package.
func read(path, rel string) ([]Text, error) {
	switch filepath.Ext(path) {
	case ".go":
		if strings.HasSuffix(path, "_test.go") {
			return nil, nil
		}
		return readSource(path, rel)
	case ".md":
		return readLines(path, rel, func(s string) bool { return true })
	case ".desktop", ".xml":
		return readLines(path, rel, func(s string) bool { return strings.Contains(s, " ") && !strings.HasPrefix(s, "<?") })
	}
	return nil, nil
}

// readLines reads the lines of a text that somebody reads.
func readLines(path, rel string, wanted func(string) bool) ([]Text, error) {
	data, err := os.ReadFile(path)
	if err != nil {
		return nil, err
	}
	var out []Text
	for i, line := range strings.Split(string(data), "\n") {
		if line = strings.TrimSpace(line); letters.MatchString(line) && wanted(line) {
			out = append(out, Text{line, rel, i + 1})
		}
	}
	return out, nil
}
