package page

import (
	"context"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"tallycloth/ui/say"
)

// programs puts programs of our own where those of the system are looked for, and nothing else.
func programs(t *testing.T, scripts map[string]string) string {
	t.Helper()
	folder := t.TempDir()
	for name, text := range scripts {
		if err := os.WriteFile(filepath.Join(folder, name), []byte("#!/bin/sh\n"+text+"\n"), 0o755); err != nil {
			t.Fatal(err)
		}
	}
	t.Setenv("PATH", folder)
	return folder
}

// TestPrinting: a file goes to the printer unscaled; a printer that is missing is said in a sentence.
func TestPrinting(t *testing.T) {
	folder := programs(t, map[string]string{"lp": `echo "$*" > "${0%/*}/asked"`})
	if err := (Computer{}).Print(context.Background(), "/some/where.pdf", "A "+strings.Repeat("long ", 60)); err != nil {
		t.Fatal(err)
	}
	asked, err := os.ReadFile(filepath.Join(folder, "asked"))
	if err != nil || !strings.Contains(string(asked), "print-scaling=none -- /some/where.pdf") || len(asked) > 200 {
		t.Errorf("%s, %v", asked, err)
	}
	programs(t, map[string]string{"lp": `echo "lp: Error - no default destination available." >&2; exit 1`})
	told := say.Error((Computer{}).Print(context.Background(), "x.pdf", "x"))
	if !strings.Contains(told, "No printer is set up") {
		t.Error(told)
	}
	programs(t, map[string]string{"lp": `echo "lp: paper jam" >&2; exit 1`})
	if told = say.Error((Computer{}).Print(context.Background(), "x.pdf", "x")); !strings.Contains(told, "did not take it") {
		t.Error(told)
	}
	programs(t, nil)
	if told = say.Error((Computer{}).Print(context.Background(), "x.pdf", "x")); !strings.Contains(told, "no printing system") {
		t.Error(told)
	}
	if told = say.Error((Computer{}).Open(context.Background(), "x.pdf")); !strings.Contains(told, "no program that shows x.pdf") {
		t.Error(told)
	}
	programs(t, map[string]string{"xdg-open": "exit 0"})
	if err := (Computer{}).Open(context.Background(), "x.pdf"); err != nil {
		t.Error(err)
	}
}
