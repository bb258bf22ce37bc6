package main

import (
	"runtime/debug"
	"testing"
)

func TestStampedVersion(t *testing.T) {
	revision := debug.BuildSetting{Key: "vcs.revision", Value: "0123456789abcdef"}
	for _, c := range []struct {
		name     string
		settings []debug.BuildSetting
		want     string
	}{
		{"no stamp", nil, ""},
		{"changed only", []debug.BuildSetting{{Key: "vcs.modified", Value: "true"}}, ""},
		{"clean", []debug.BuildSetting{revision, {Key: "vcs.modified", Value: "false"}}, "01234567"},
		{"changed", []debug.BuildSetting{{Key: "vcs.modified", Value: "true"}, revision}, "01234567+"},
	} {
		if got := stamped(c.settings); got != c.want {
			t.Errorf("%s: %q, want %q", c.name, got, c.want)
		}
	}
}

// TestOutsideTheSource: in a folder of no source tree the version is unknown.
func TestOutsideTheSource(t *testing.T) {
	if got := checkedOut(t.TempDir()); got != "unknown" {
		t.Errorf("%q", got)
	}
}
