package page

import (
	"fmt"
	"testing"
)

// Drafts are kept by name, the newest of them, each library its own.
func TestDrafts(t *testing.T) {
	memory := &Forgetful{}
	d := NewDrafts(memory, "/a|drafts")
	for i := range mostDrafts + 1 {
		d.KeepDraft(fmt.Sprint(i), "typed")
	}
	d.KeepDraft("2", "")
	for name, want := range map[string]string{"0": "", "1": "typed", "2": "", fmt.Sprint(mostDrafts): "typed"} {
		if got := NewDrafts(memory, "/a|drafts").Draft(name); got != want {
			t.Errorf("draft %s is %q, not %q", name, got, want)
		}
	}
	if got := NewDrafts(memory, "/b|drafts").Draft("1"); got != "" {
		t.Errorf("another library has %q", got)
	}
}
