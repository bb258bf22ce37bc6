package looks

import (
	"image/color"
	"math"
	"testing"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/theme"
)

// Contrast as WCAG 2.1 defines it: (L1 + 0.05)/(L2 + 0.05), at least 4.5 for text.
func TestTextStandsOut(t *testing.T) {
	for name, p := range map[string]Palette{"light": Light, "dark": Dark} {
		for _, ground := range []color.NRGBA{p.Paper, p.Surface, p.Raised, p.Selected} {
			for word, ink := range map[string]color.NRGBA{"ink": p.Ink, "muted": p.Muted, "good": p.Good, "careful": p.Careful, "bad": p.Bad, "accent": p.Accent} {
				if c := contrast(ink, ground); c < 4.5 {
					t.Errorf("%s: %s on %v has a contrast of %.2f", name, word, ground, c)
				}
			}
		}
		if c := contrast(p.OnAccent, p.Accent); c < 4.5 {
			t.Errorf("%s: text on the accent has a contrast of %.2f", name, c)
		}
	}
}

// TestEdgesStandOut: what shows that a field or a tick is there stands out from what is round it, at
// least 3 : 1 (WCAG 2.1, 1.4.11).
func TestEdgesStandOut(t *testing.T) {
	for _, v := range []fyne.ThemeVariant{theme.VariantLight, theme.VariantDark} {
		th := &Theme{Fixed: true, Variant: v}
		edge, p := th.Color(theme.ColorNameInputBorder, v).(color.NRGBA), th.PaletteOf(v)
		for _, ground := range []color.NRGBA{p.Paper, p.Surface, p.Raised} {
			if c := contrast(over(edge, ground), ground); c < 3 {
				t.Errorf("variant %d: an edge on %v has a contrast of %.2f", v, ground, c)
			}
		}
	}
}

// over is a colour that lets its ground show through.
func over(c, ground color.NRGBA) color.NRGBA {
	mix := func(a, b uint8) uint8 { return uint8((int(a)*int(c.A) + int(b)*(255-int(c.A))) / 255) }
	return color.NRGBA{mix(c.R, ground.R), mix(c.G, ground.G), mix(c.B, ground.B), 255}
}

// TestHighContrast: enhanced contrast of WCAG 2.1, 1.4.6, is 7 : 1 for text; its lines stand out too.
func TestHighContrast(t *testing.T) {
	th := &Theme{Strong: true}
	p := th.PaletteOf(0)
	for _, ground := range []color.NRGBA{p.Paper, p.Surface, p.Raised, p.Hover, p.Selected} {
		for word, ink := range map[string]color.NRGBA{"ink": p.Ink, "muted": p.Muted, "good": p.Good, "careful": p.Careful, "bad": p.Bad, "accent": p.Accent} {
			if c := contrast(ink, ground); c < 7 {
				t.Errorf("%s on %v has a contrast of %.2f", word, ground, c)
			}
		}
		if c := contrast(p.Line, ground); c < 4.5 {
			t.Errorf("a line on %v has a contrast of %.2f", ground, c)
		}
	}
	button := th.Color(theme.ColorNameButton, 0).(color.NRGBA)
	if ink, white := contrast(p.Ink, button), contrast(button, p.Paper); ink < 7 || white < 1.5 {
		t.Errorf("a button has a contrast of %.2f to its words and %.2f to the page", ink, white)
	}
	if c := contrast(p.OnAccent, p.Accent); c < 7 {
		t.Errorf("text on the accent has a contrast of %.2f", c)
	}
}

func contrast(a, b color.NRGBA) float64 {
	x, y := luminance(a), luminance(b)
	return (math.Max(x, y) + 0.05) / (math.Min(x, y) + 0.05)
}

func luminance(c color.NRGBA) float64 {
	f := func(v uint8) float64 {
		s := float64(v) / 255
		if s <= 0.03928 {
			return s / 12.92
		}
		return math.Pow((s+0.055)/1.055, 2.4)
	}
	return 0.2126*f(c.R) + 0.7152*f(c.G) + 0.0722*f(c.B)
}
