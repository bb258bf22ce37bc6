package main

import (
	"regexp"
	"strings"
	"testing"
)

// terms are words of programmers, or second spellings, with what the program says instead.
var terms = map[string]string{
	`\b(nil|boolean|bool|int|float|struct|array|parse[ds]?|parsing|exception|stack trace|regexp?|regular expression)\b`: "say what it is for the person",
	`\b(database|SQL|SQLite|schema|migrat\w+|transaction|commit|rollback|query|cache)\b`:                                "library, act, back-up",
	`\b(invalid|illegal|fatal|abort\w*|failed to|unable to|cannot be parsed)\b`:                                         "say what is wrong and what to do",
	`\bbackups?\b`:                         "back-up",
	`\b(deletes|deleted|deleting)\b`:       "remove, take out, drop; Delete is a key",
	`\b(directory|directories|filename)\b`: "folder, name of the file",
	`\b(dialog|widget|callback|render\w*|iteration|algorithm|heuristic|vertex|vertices|bounding box|API|UUID|boolean)\b`: "plain words",
}

// inwardOnly are texts that are no sentence for a person: formats of files, options, and words that
// scripts rely on.
var inwardOnly = regexp.MustCompile(`^(planner/exchange/|db/|planner/glpk|cmd/tallycloth/verb/(manual|program|backup|export)\.go)`)

// TestPlainWords: what a person reads has no programmer's terms, and one spelling for one thing.
func TestPlainWords(t *testing.T) {
	all, err := Collect("../..")
	if err != nil {
		t.Fatal(err)
	}
	if len(all) < 1500 {
		t.Fatalf("%d texts only", len(all))
	}
	for pattern, instead := range terms {
		re := regexp.MustCompile(`(?i)` + pattern)
		for _, s := range all {
			if inwardOnly.MatchString(s.Where) || !strings.Contains(s.Text, " ") {
				continue
			}
			if bad := re.FindString(s.Text); bad != "" {
				t.Errorf("%s: %q in %q: %s", s.Where, bad, s.Text, instead)
			}
		}
	}
}

// TestCollect finds what is read and leaves out what is not.
func TestCollect(t *testing.T) {
	for text, want := range map[string]bool{"Log purchase": true, "Undo": true, "stash.list": false, "SELECT 1": false, "%d": false, "m": false, "enough, tight": true} {
		if reads(text) != want {
			t.Errorf("%q: read %v", text, !want)
		}
	}
}
