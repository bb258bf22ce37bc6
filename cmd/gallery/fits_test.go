package main

import (
	"context"
	"flag"
	"strings"
	"testing"
)

var texts = flag.String("texts", "100", "text sizes in percent that every screen is looked at in; all: 80,100,125,160")

// roomy are the faults that are none: where a list of one's own is brought in its columns show as much of a cell as
// there is room for.
func roomy(line string) bool { return strings.HasPrefix(line, "stash-list,") && strings.Contains(line, ": cut: ") }

// On the smallest screen that the window is made for words are read whole, do not lie over each other, and
// nothing has less room than it takes. Large text may have to be scrolled to sideways there.
func TestEveryScreenFits(t *testing.T) {
	looks, err := looksOf("light", "1280x720", *texts, 1, false)
	if err != nil {
		t.Fatal(err)
	}
	var said strings.Builder
	if err := checked(context.Background(), &said, "", looks); err != nil {
		t.Fatal(err)
	}
	for _, line := range strings.Split(strings.TrimSpace(said.String()), "\n") {
		large := strings.Contains(line, "-text160:") && strings.Contains(line, "is scrolled sideways")
		if line != "" && !roomy(line) && !large {
			t.Error(line)
		}
	}
}
