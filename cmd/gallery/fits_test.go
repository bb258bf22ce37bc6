package main

import (
	"context"
	"flag"
	"strings"
	"testing"
)

var everything = flag.Bool("all", false, "look at every screen, in every text size that can be chosen")

// roomy says whether a line is about what may be so: where a list of one's own is brought in, its columns show as
// much of a cell as there is room for; parts of a line of the guide reach over the blank between them; large text
// may have to be scrolled to sideways on the smallest screen.
func roomy(line string) bool {
	return strings.HasPrefix(line, "stash-list,") && strings.Contains(line, ": cut: ") ||
		strings.HasPrefix(line, "help,") && strings.Contains(line, " lies over ") ||
		strings.Contains(line, "-text160:") && strings.Contains(line, "is scrolled sideways")
}

// On the smallest screen that the window is made for words are read whole, do not lie over each other, and
// nothing has less room than it takes.
func TestScreensFit(t *testing.T) {
	only, texts := "settings,history-value,patterns-people-empty,readonly,garments-cutlist", "100"
	if *everything {
		only, texts = "", "80,100,125,160"
	}
	looks, err := looksOf("light", "1280x720", texts, 1, false)
	if err != nil {
		t.Fatal(err)
	}
	for i := range looks {
		looks[i].brief = true
	}
	var said strings.Builder
	if err := checked(context.Background(), &said, only, looks); err != nil {
		t.Fatal(err)
	}
	for _, line := range strings.Split(strings.TrimSpace(said.String()), "\n") {
		if line != "" && !roomy(line) {
			t.Error(line)
		}
	}
}
