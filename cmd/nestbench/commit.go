package main

import (
	"os/exec"
	"runtime/debug"
	"strings"
	"sync"
)

// commit is the version the program was built from, asked for once: a table of
// many runs must name one version, and asking git takes some milliseconds.
var commit = sync.OnceValue(func() string {
	if info, ok := debug.ReadBuildInfo(); ok {
		if c := stamped(info.Settings); c != "" {
			return c
		}
	}
	return checkedOut(".")
})

// stamped is the version the build noted, with a + where files had been changed,
// or empty where it noted none (go run, or -buildvcs=false).
func stamped(settings []debug.BuildSetting) string {
	revision, changed := "", ""
	for _, s := range settings {
		switch {
		case s.Key == "vcs.revision":
			revision = s.Value[:min(len(s.Value), 8)]
		case s.Key == "vcs.modified" && s.Value == "true":
			changed = "+"
		}
	}
	if revision == "" {
		return ""
	}
	return revision + changed
}

// checkedOut is the version of the source in whose tree a folder lies, or
// "unknown" where git is missing or the tree is not that of this program.
func checkedOut(dir string) string {
	git := func(args ...string) (string, error) {
		cmd := exec.Command("git", args...)
		cmd.Dir = dir
		out, err := cmd.Output()
		return strings.TrimSpace(string(out)), err
	}
	if _, err := git("cat-file", "-e", "HEAD:cmd/nestbench/commit.go"); err != nil {
		return "unknown"
	}
	revision, err := git("rev-parse", "--short=8", "HEAD")
	if err != nil {
		return "unknown"
	}
	if changes, err := git("status", "--porcelain", "--untracked-files=no"); err != nil || changes != "" {
		revision += "+"
	}
	return revision
}
