package assets_test

import (
	"strings"
	"testing"

	"tallycloth/assets"

	"golang.org/x/image/font"
	"golang.org/x/image/font/sfnt"
	"golang.org/x/image/math/fixed"
)

// TestFontHasFigures: both weights have what quantities are written with, figures of one width.
func TestFontHasFigures(t *testing.T) {
	for name, ttf := range map[string][]byte{"regular": assets.FontRegular, "bold": assets.FontBold} {
		f, err := sfnt.Parse(ttf)
		if err != nil {
			t.Fatalf("%s: %v", name, err)
		}
		width := func(r rune) fixed.Int26_6 {
			g, err := f.GlyphIndex(nil, r)
			if err != nil || g == 0 {
				t.Errorf("%s has no %q", name, r)
			}
			w, err := f.GlyphAdvance(nil, g, fixed.I(1000), font.HintingNone)
			if err != nil {
				t.Errorf("%s: %q: %v", name, r, err)
			}
			return w
		}
		for _, r := range "0123456789" {
			if width(r) != width('0') {
				t.Errorf("%s: %q is not as wide as 0", name, r)
			}
		}
		for _, r := range "½¼¾⅛⅜⅝⅞⅓⅔×·→←−°…–—′″≥€£ŁßéñÅ" {
			width(r)
		}
	}
	if wider, err := sfnt.Parse(assets.FontWider); err != nil {
		t.Error(err)
	} else {
		for _, r := range "שםΩЖԱბق→□" {
			if g, err := wider.GlyphIndex(nil, r); err != nil || g == 0 {
				t.Errorf("the wider font has no %q", r)
			}
		}
	}
	if !strings.Contains(assets.FontWiderLicence, "Bitstream Vera") || !strings.Contains(assets.FontWiderLicence, "Arev") {
		t.Error("the wider font's licence is not there")
	}
	if !strings.Contains(assets.FontLicence, "SIL OPEN FONT LICENSE Version 1.1") {
		t.Error("the font's licence is not there")
	}
}
