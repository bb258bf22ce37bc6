package svg_test

import (
	"bytes"
	"context"
	"errors"
	"os"
	"path/filepath"
	"testing"

	"tallycloth/planner/exchange/drawn"
	"tallycloth/planner/exchange/svg"
	"tallycloth/planner/pattern"
	"tallycloth/stash"
)

// FuzzRead: whatever comes in, there is an answer within the limits: a *stash.Error
// with both sentences, or a drawing whose usable outlines are valid and make pieces.
func FuzzRead(f *testing.F) {
	for _, name := range []string{"source", "saved_layers", "saved_plain", "saved_edited"} {
		text, err := os.ReadFile(filepath.Join(drawings, name+".svg"))
		if err != nil {
			f.Fatal(err)
		}
		f.Add(text)
	}
	for _, s := range []string{
		head + `<path d="M0 0a5 3 20 1150.5.5-3e1 2zm1 1C1 2 3 4 5 6S7 8 9 9Q1 2 3 4T5 5H3v-2z"/></svg>`,
		head + `<style>.a{display:none}</style><symbol id="s" viewBox="0 0 1 1"><circle r="1"/></symbol><use href="#s" width="9" height="9"/></svg>`,
		head + `<rect width="9" height="9" rx="1e308" transform="skewY(90)rotate(1 2 3)matrix(1 2 3 4 5 6)"/></svg>`,
		`<!DOCTYPE svg [<!ENTITY a "b">]><svg width="1in" viewBox="0 0 1 1" xmlns="http://www.w3.org/2000/svg">&a;<polyline points="0,0 1,1 1,0 0,0"/></svg>`,
	} {
		f.Add([]byte(s))
	}
	f.Fuzz(func(t *testing.T, text []byte) {
		limits := drawn.Limits{Bytes: 1 << 20, Elements: 2000, Points: 20_000}
		d, err := svg.Read(context.Background(), bytes.NewReader(text), svg.Options{Limits: limits})
		if err != nil {
			var e *stash.Error
			if errors.As(err, &e) && (e.What == "" || e.Do == "") {
				t.Fatalf("no sentence: %v", err)
			}
			return
		}
		pieces, _ := d.ToPieces(drawn.Choice{Size: "1", Smallest: 1})
		for _, p := range pieces {
			if err := p.Outlines["1"].Cut.Validate(); err != nil {
				t.Fatal(err)
			}
		}
		p := pattern.Pattern{Name: "fuzz", Sizes: []pattern.Size{{Name: "1"}}, Roles: []pattern.Role{{Name: pattern.Main}}, Pieces: pieces}
		if err := p.Validate(); err != nil {
			t.Fatal(err)
		}
	})
}
