package main

import (
	"regexp"
	"strings"
	"testing"

	"tallycloth/cmd/words/texts"
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
var inwardOnly = regexp.MustCompile(`^(planner/exchange/|db/|cmd/tallycloth/verb/(manual|program|backup|export)\.go)`)

// TestPlainWords: what a person reads has no programmer's terms, and one spelling for one thing.
func TestPlainWords(t *testing.T) {
	places, err := texts.Collect("../..")
	if err != nil {
		t.Fatal(err)
	}
	for pattern, instead := range terms {
		re := regexp.MustCompile(`(?i)` + pattern)
		for _, p := range places {
			if len(p.Texts) == 0 {
				t.Errorf("%s says nothing", p.Name)
			}
			for _, s := range p.Texts {
				if inwardOnly.MatchString(s.File) || !strings.Contains(s.Said, " ") {
					continue
				}
				if bad := re.FindString(s.Said); bad != "" {
					t.Errorf("%s:%d: %q in %q: %s", s.File, s.Line, bad, s.Said, instead)
				}
			}
		}
	}
}
