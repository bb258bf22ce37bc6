package svg_test

import (
	"bytes"
	"compress/gzip"
	"context"
	"errors"
	"fmt"
	"io"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"tallycloth/planner/exchange/drawn"
	"tallycloth/planner/exchange/svg"
	"tallycloth/stash"
)

// TestRefused: each gives a sentence that says what to do.
func TestRefused(t *testing.T) {
	deep := strings.Repeat("<g>", 200) + strings.Repeat("</g>", 200)
	bomb := `<defs><g id="a0"><rect width="9" height="9"/></g>`
	for i := 1; i < 9; i++ {
		bomb += fmt.Sprintf(`<g id="a%d">%s</g>`, i, strings.Repeat(fmt.Sprintf(`<use href="#a%d"/>`, i-1), 10))
	}
	bomb += `</defs><use href="#a8"/>`
	for _, tt := range []struct{ name, text, says string }{
		{"empty", "", "empty"},
		{"PDF", "%PDF-1.7 …", "a PDF"},
		{"picture", "\x89PNG\r\n\x1a\n....", "PNG"},
		{"text", "Cut two fronts on the fold", "plain text"},
		{"binary", "<\x00\x00\x00", "not SVG"},
		{"web page", "<!DOCTYPE html><html><body><svg/></body></html>", `"html"`},
		{"other XML", `<drawing xmlns="urn:x"/>`, `"drawing"`},
		{"not XML", "a < b", "not SVG"},
		{"breaks off", head + `<rect width="1"`, "damaged at line 1"},
		{"two roots", head + "</svg><svg/>", "not SVG"},
		{"unknown entity", head + "&bomb;</svg>", "damaged"},
		{"deep", head + deep + "</svg>", "deep"},
		{"contains itself", head + `<g id="a"><use href="#b"/></g><g id="b"><use href="#a"/></g></svg>`, "contains itself"},
		{"uses itself", head + `<use id="u" href="#u"/></svg>`, "contains itself"},
		{"ten to the eighth", head + bomb + "</svg>", "objects"},
		{"a million points", head + `<path d="M0 0` + strings.Repeat("1 1 ", 1_000_001) + `"/></svg>`, "1000000 points"},
		{"a million points of a polygon", head + `<polygon points="` + strings.Repeat("1 1 ", 1_000_001) + `"/></svg>`, "1000000 points"},
		{"points of a huge circle", head + `<circle r="1e17"/></svg>`, "points"},
		{"huge page", `<svg width="3000000mm" height="1mm"/>`, "kilometre"},
		{"tiny page", `<svg width="1e-9mm" height="1e-9mm" viewBox="0 0 100 100"/>`, "would measure"},
	} {
		t.Run(tt.name, func(t *testing.T) {
			_, err := parse(tt.text)
			var e *stash.Error
			if !errors.As(err, &e) || e.What == "" || e.Do == "" || !strings.Contains(err.Error(), tt.says) {
				t.Errorf("%v, want a sentence with %q", err, tt.says)
			}
		})
	}
}

// endless gives spaces for ever and counts them.
type endless struct{ given int64 }

func (e *endless) Read(p []byte) (int, error) {
	for i := range p {
		p[i] = ' '
	}
	e.given += int64(len(p))
	return len(p), nil
}

// TestTooLarge: a file of 200 MB is refused unread; a stream at its limit; packed, at its unpacked size.
func TestTooLarge(t *testing.T) {
	path := filepath.Join(t.TempDir(), "large.svg")
	if err := os.WriteFile(path, []byte(head), 0o600); err != nil {
		t.Fatal(err)
	}
	if err := os.Truncate(path, 200<<20); err != nil {
		t.Fatal(err)
	}
	f, err := os.Open(path)
	if err != nil {
		t.Fatal(err)
	}
	defer f.Close()
	tooLarge := func(r io.Reader, o svg.Options) {
		t.Helper()
		var e *stash.Error
		if _, err := svg.Read(context.Background(), r, o); !errors.As(err, &e) || !strings.Contains(e.What, "larger than") {
			t.Errorf("%v", err)
		}
	}
	tooLarge(f, svg.Options{})
	if at, _ := f.Seek(0, io.SeekCurrent); at != 0 {
		t.Errorf("%d bytes were read of a file that is too large", at)
	}
	small := svg.Options{Limits: drawn.Limits{Bytes: 1 << 20}}
	src := &endless{}
	tooLarge(io.MultiReader(strings.NewReader(head), src), small)
	if src.given > 3<<20 {
		t.Errorf("%d bytes were read past a limit of 1 MB", src.given)
	}
	tooLarge(packed(head+strings.Repeat(" ", 2<<20)+"</svg>"), small)
}

func packed(text string) io.Reader {
	var b bytes.Buffer
	z := gzip.NewWriter(&b)
	_, _ = io.WriteString(z, text)
	_ = z.Close()
	return &b
}

func TestPackedAndOldLetters(t *testing.T) {
	body := head + `<rect width="10" height="10"><title>R%scken</title></rect></svg>`
	for name, r := range map[string]io.Reader{
		"packed":  packed(fmt.Sprintf(body, "ü")),
		"latin 1": strings.NewReader(`<?xml version="1.0" encoding="ISO-8859-1"?>` + fmt.Sprintf(body, "\xfc")),
		"entity":  strings.NewReader(`<!DOCTYPE svg [<!ENTITY ue "ü"> <!ENTITY x 'y'>]>` + fmt.Sprintf(body, "&ue;")),
	} {
		d, err := svg.Read(context.Background(), r, svg.Options{})
		if err != nil || len(d.Shapes) != 1 || d.Shapes[0].Name != "Rücken" {
			t.Errorf("%s: %+v, %v", name, d.Shapes, err)
		}
	}
}

func TestStopsWhenAsked(t *testing.T) {
	ctx, cancel := context.WithCancel(context.Background())
	cancel()
	_, err := svg.Read(ctx, strings.NewReader(head+strings.Repeat("<g/>", 5000)+"</svg>"), svg.Options{})
	if !errors.Is(err, context.Canceled) {
		t.Errorf("%v", err)
	}
}
