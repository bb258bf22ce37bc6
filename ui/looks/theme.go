package looks

import (
	"image/color"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/theme"
)

// Palette is the set of colours of one variant.
type Palette struct {
	Paper, Surface, Raised, Ink, Muted, Line, Hover, Selected color.NRGBA
	Accent, OnAccent, Good, Careful, Bad, Shade               color.NRGBA
}

func rgb(v uint32) color.NRGBA {
	return color.NRGBA{R: uint8(v >> 16), G: uint8(v >> 8), B: uint8(v), A: 255}
}

// Light and Dark are the usual palettes (ours). Text on its ground has a contrast of
// at least 4.5 : 1 (WCAG 2.1, 1.4.3); a test measures it.
var (
	Light = Palette{
		Paper: rgb(0xF4F0E9), Surface: rgb(0xFCFAF6), Raised: rgb(0xFFFFFF), Ink: rgb(0x2A2521), Muted: rgb(0x6B6259),
		Line: rgb(0xDDD4C8), Hover: rgb(0xEDE6DB), Selected: rgb(0xDDEBE6),
		Accent: rgb(0x1F6B5E), OnAccent: rgb(0xFFFFFF), Good: rgb(0x1F6B3A), Careful: rgb(0x85570A), Bad: rgb(0x9B2F23),
		Shade: color.NRGBA{A: 34},
	}
	Dark = Palette{
		Paper: rgb(0x1C1A18), Surface: rgb(0x252220), Raised: rgb(0x2F2B28), Ink: rgb(0xEFE9E0), Muted: rgb(0xB0A69B),
		Line: rgb(0x443E39), Hover: rgb(0x35302C), Selected: rgb(0x23403A),
		Accent: rgb(0x6CC5B2), OnAccent: rgb(0x10201C), Good: rgb(0x7CCB8F), Careful: rgb(0xE0B05C), Bad: rgb(0xF0958A),
		Shade: color.NRGBA{A: 120},
	}
	// Contrast is for eyes that need it: text on its ground has at least 7 : 1 (WCAG 2.1, 1.4.6), lines
	// round fields and lists at least 4.5 : 1.
	Contrast = Palette{
		Paper: rgb(0xFEFEFE), Surface: rgb(0xFFFFFE), Raised: rgb(0xFEFFFF), Ink: rgb(0x000000), Muted: rgb(0x33302D),
		Line: rgb(0x55504B), Hover: rgb(0xE4E4E4), Selected: rgb(0xFFE9A8),
		Accent: rgb(0x003D9E), OnAccent: rgb(0xFFFFFF), Good: rgb(0x00501E), Careful: rgb(0x623C00), Bad: rgb(0x8A0000),
		Shade: color.NRGBA{A: 90},
	}
)

// strongButton is the ground of a button in high contrast, where white on white would not be one.
var strongButton = rgb(0xC0C0C0)

// Theme is the program's own theme. Percent scales every text and the room round
// it (80 to 160); Variant overrides the system's choice when Fixed.
type Theme struct {
	Percent int
	Fixed   bool
	Strong  bool // high contrast, which is light
	Variant fyne.ThemeVariant
	Regular fyne.Resource // nil takes the toolkit's own font
	Bold    fyne.Resource
}

// Same says whether two themes look the same.
func (t *Theme) Same(o *Theme) bool {
	return t.Percent == o.Percent && t.Fixed == o.Fixed && t.Strong == o.Strong && t.Variant == o.Variant
}

// PaletteOf returns the colours of a variant.
func (t *Theme) PaletteOf(v fyne.ThemeVariant) Palette {
	if t.Strong {
		return Contrast
	}
	if t.Fixed {
		v = t.Variant
	}
	if v == theme.VariantDark {
		return Dark
	}
	return Light
}

// Now returns the colours in force in the running program.
func Now() Palette {
	app := fyne.CurrentApp()
	if app == nil {
		return Light
	}
	if t, ok := app.Settings().Theme().(*Theme); ok {
		return t.PaletteOf(app.Settings().ThemeVariant())
	}
	if app.Settings().ThemeVariant() == theme.VariantDark {
		return Dark
	}
	return Light
}

// Color maps the toolkit's names to the palette.
func (t *Theme) Color(n fyne.ThemeColorName, v fyne.ThemeVariant) color.Color {
	p := t.PaletteOf(v)
	if t.Strong && n == theme.ColorNameButton {
		return strongButton
	}
	if c, ok := p.named(n); ok {
		return c
	}
	return theme.DefaultTheme().Color(n, v)
}

// named is asked for every text and line that is drawn: it makes nothing.
func (p *Palette) named(n fyne.ThemeColorName) (color.NRGBA, bool) {
	switch n {
	case theme.ColorNameBackground, theme.ColorNameForegroundOnError:
		return p.Paper, true
	case theme.ColorNameButton, theme.ColorNameInputBackground, theme.ColorNameMenuBackground:
		return p.Raised, true
	case theme.ColorNameDisabledButton, theme.ColorNameHeaderBackground, theme.ColorNameOverlayBackground:
		return p.Surface, true
	case theme.ColorNameDisabled, theme.ColorNamePlaceHolder:
		return p.Muted, true
	case theme.ColorNameError:
		return p.Bad, true
	case theme.ColorNameFocus:
		return withAlpha(p.Accent, 110), true
	case theme.ColorNameForeground:
		return p.Ink, true
	case theme.ColorNameForegroundOnPrimary:
		return p.OnAccent, true
	case theme.ColorNameHover:
		return withAlpha(p.Accent, 28), true
	case theme.ColorNameHyperlink, theme.ColorNamePrimary:
		return p.Accent, true
	case theme.ColorNameInputBorder:
		return withAlpha(p.Muted, 185), true
	case theme.ColorNameSeparator:
		return p.Line, true
	case theme.ColorNamePressed:
		return withAlpha(p.Accent, 60), true
	case theme.ColorNameScrollBar:
		return withAlpha(p.Muted, 150), true
	case theme.ColorNameScrollBarBackground:
		return withAlpha(p.Line, 0), true
	case theme.ColorNameSelection:
		return withAlpha(p.Accent, 70), true
	case theme.ColorNameShadow:
		return p.Shade, true
	case theme.ColorNameSuccess:
		return p.Good, true
	case theme.ColorNameWarning:
		return p.Careful, true
	}
	return color.NRGBA{}, false
}

func withAlpha(c color.NRGBA, a uint8) color.NRGBA {
	c.A = a
	return c
}

// Font returns the embedded font, or the toolkit's own for what it lacks.
func (t *Theme) Font(s fyne.TextStyle) fyne.Resource {
	switch {
	case s.Monospace || s.Symbol || s.Italic:
	case s.Bold && t.Bold != nil:
		return lean(t.Bold)
	case !s.Bold && t.Regular != nil:
		return lean(t.Regular)
	}
	return lean(theme.DefaultTheme().Font(s))
}

// Icon returns the toolkit's icon.
func (t *Theme) Icon(n fyne.ThemeIconName) fyne.Resource { return theme.DefaultTheme().Icon(n) }

// growing are sizes at a text size of 100 %, still those that stay.
var (
	growing = map[fyne.ThemeSizeName]float32{
		theme.SizeNameText:           13,
		theme.SizeNameHeadingText:    20,
		theme.SizeNameSubHeadingText: 15,
		theme.SizeNameCaptionText:    11,
		theme.SizeNameInnerPadding:   7,
		theme.SizeNameInlineIcon:     18,
	}
	still = map[fyne.ThemeSizeName]float32{
		theme.SizeNamePadding:            4,
		theme.SizeNameInputRadius:        6,
		theme.SizeNameSelectionRadius:    4,
		theme.SizeNameSeparatorThickness: 1,
		theme.SizeNameInputBorder:        1,
		theme.SizeNameScrollBar:          10,
		theme.SizeNameScrollBarSmall:     4,
	}
)

// Size gives the rhythm: text 13, heading 20, caption 11, padding 4 and 6.
func (t *Theme) Size(n fyne.ThemeSizeName) float32 {
	scale := float32(1)
	if t.Percent > 0 {
		scale = float32(t.Percent) / 100
	}
	if s, ok := growing[n]; ok {
		return s * scale
	}
	if s, ok := still[n]; ok {
		return s
	}
	return theme.DefaultTheme().Size(n)
}

// Text is the height of a kind of text in force now.
func Text(n fyne.ThemeSizeName) float32 { return theme.Size(n) }
