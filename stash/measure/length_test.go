package measure_test

import (
	"errors"
	"strings"
	"testing"

	"tallycloth/stash/measure"

	"pgregory.net/rapid"
)

const (
	mm = measure.Millimetre
	cm = measure.Centimetre
	m  = measure.Metre
	in = measure.Inch
	yd = measure.Yard
)

func TestParseLength(t *testing.T) {
	for _, c := range []struct {
		text string
		bare measure.Unit
		want measure.Length
	}{
		{"1 1/4 yd", cm, yd * 5 / 4},
		{"1-1/4 yd", cm, yd * 5 / 4},
		{"1–1/4 yd", cm, yd * 5 / 4},
		{"1.25yd", cm, yd * 5 / 4},
		{"1,25 m", in, 1250 * mm},
		{"1,250 m", in, 1250 * mm},
		{`45"`, cm, 45 * in},
		{"45″", cm, 45 * in},
		{"45''", cm, 45 * in},
		{"45 in", cm, 45 * in},
		{"45 in.", cm, 45 * in},
		{"1 yd 9 in", cm, 45 * in},
		{"1yd9in", cm, 45 * in},
		{"1 yd. 9 in.", cm, 45 * in},
		{"1 yd 9 3/8 in", cm, 45*in + 9525},
		{"3/8", in, 9525},
		{"3/8", yd, yd * 3 / 8},
		{"⅜ in", cm, 9525},
		{"1⅜ in", cm, in + 9525},
		{"1 ⅜", in, in + 9525},
		{"1/3 yd", in, 12 * in},
		{"2/3 yd", in, 24 * in},
		{"114 cm", in, 1140 * mm},
		{"1150 mm", in, 1150 * mm},
		{"1 m 20 cm", in, 1200 * mm},
		{`5'3"`, cm, 63 * in},
		{"5 ft 3 in", cm, 63 * in},
		{"3 feet", cm, yd},
		{"12", cm, 120 * mm},
		{".5", in, 12700},
		{"0,375 in", cm, 9525},
		{"1/16", in, 1588}, // 1587.5 rounds half up
		{"0", cm, 0},
		{"10000 m", cm, measure.LongestLength},
		{"1\u00a0250 mm", cm, 0},
	} {
		got, err := measure.ParseLength(c.text, c.bare)
		if c.want == 0 && c.text != "0" {
			if err == nil {
				t.Errorf("%q was read as %d, want it refused", c.text, got)
			}
			continue
		}
		if err != nil || got != c.want {
			t.Errorf("%q: got %d, %v; want %d", c.text, got, err, c.want)
		}
	}
}

func TestParseLengthRefuses(t *testing.T) {
	for text, wrong := range map[string]string{
		"":                       "nothing is written",
		"   ":                    "nothing is written",
		"-5 cm":                  "it is negative",
		"−5":                     "it is negative",
		"1 yd -9 in":             "it is negative",
		"NaN":                    "no number",
		"inf":                    "no number",
		"cm":                     "no number",
		"1/0 in":                 "zero below the line",
		"1 3/00":                 "zero below the line",
		"3/ in":                  "nothing below the line",
		"1.5/2":                  "whole numbers above and below",
		"1.5 1/2 in":             "do not go together",
		"10001 m":                "more than 10 km",
		"99999999999999999999":   "more than 10 km",
		"1.2.3 m":                "more than one decimal sign",
		"1e3 mm":                 `"e" is no unit`,
		"5 ells":                 `"ells" is no unit`,
		"1 yd 9":                 "at the end has no unit",
		"9 in 1 yd":              "the larger unit comes first",
		"1 yd 1 yd":              "the larger unit comes first",
		"1,250 cm":               "could set off thousands",
		"1 2 in":                 "side by side",
		strings.Repeat("9", 100): "too long",
	} {
		_, err := measure.ParseLength(text, cm)
		var e *measure.TextError
		if !errors.As(err, &e) || !strings.Contains(e.Wrong, wrong) {
			t.Errorf("%q: %v, want %q", text, err, wrong)
			continue
		}
		if !strings.Contains(err.Error(), "a number alone means cm") {
			t.Errorf("%q: %v does not say what would be accepted", text, err)
		}
	}
}

func TestParsePositiveLength(t *testing.T) {
	if _, err := measure.ParsePositiveLength("0 cm", cm); err == nil || !strings.Contains(err.Error(), "more than zero") {
		t.Errorf("zero: %v", err)
	}
	if l, err := measure.ParsePositiveLength("1", mm); err != nil || l != mm {
		t.Errorf("1 mm: %v, %v", l, err)
	}
}

func TestFormat(t *testing.T) {
	fabric := measure.Style{System: measure.Imperial, Kind: measure.FabricLength}
	width := measure.Style{System: measure.Imperial, Kind: measure.Width}
	strip := measure.Style{System: measure.Imperial, Kind: measure.StripLength}
	mFabric := measure.Style{Kind: measure.FabricLength}
	mWidth := measure.Style{Kind: measure.Width}
	mPiece := measure.Style{Kind: measure.PieceLength}
	mMark := measure.Style{Kind: measure.StripMark}
	comma := measure.Style{Kind: measure.FabricLength, Comma: true}
	for _, c := range []struct {
		style measure.Style
		l     measure.Length
		want  string
	}{
		{fabric, 45 * in, "1 1/4 yd"},
		{fabric, 36 * in, "1 yd"},
		{fabric, 47*in + 9525, "1 yd 11 3/8 in"},
		{fabric, 18 * in, "18 in"},
		{fabric, 0, "0 in"},
		{fabric, -45 * in, "-1 1/4 yd"},
		{width, 45 * in, "45 in"},
		{width, 58*in + 12700, "58 1/2 in"},
		{width, 1140 * mm, "44 7/8 in"}, // 44.88 in
		{strip, 1588, "1/16 in"},
		{strip, 38100, "1 1/2 in"},
		{mFabric, 1250 * mm, "1.25 m"},
		{mFabric, 1500 * mm, "1.50 m"},
		{mFabric, 2 * m, "2 m"},
		{mFabric, 1255 * mm, "1.255 m"},
		{mFabric, 1257 * mm, "1.255 m"},
		{mFabric, 455 * mm, "45.5 cm"},
		{comma, 1250 * mm, "1,25 m"},
		{mWidth, 1500 * mm, "150 cm"},
		{mWidth, 1143 * mm, "114.5 cm"},
		{mPiece, 35 * mm, "35 mm"},
		{mPiece, 123*mm + 400, "12.3 cm"},
		{mMark, 7 * mm, "0.7 cm"}, // marks stand in a column: one unit, one tenth
		{mMark, 240 * mm, "24.0 cm"},
		{mMark, 1503*mm + 600, "150.4 cm"},
		{measure.Style{Kind: measure.StripMark, Comma: true}, 95 * mm, "9,5 cm"},
		{measure.Style{System: measure.Imperial, Kind: measure.StripMark}, 38100, "1 1/2 in"},
	} {
		if got := c.style.Format(c.l); got != c.want {
			t.Errorf("Format(%d): %q, want %q", c.l, got, c.want)
		}
	}
}

// TestFormatRoundTrips checks, for any length and style, that what is written
// reads back as itself: Exact as the very length, Format as a length that is
// written the same way again, Up and Down as their bounds.
func TestFormatRoundTrips(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		s := measure.Style{
			System: measure.System(rapid.IntRange(0, 1).Draw(t, "system")),
			Kind:   measure.Kind(rapid.IntRange(0, 4).Draw(t, "kind")),
			Comma:  rapid.Bool().Draw(t, "comma"),
		}
		l := measure.Length(rapid.OneOf(rapid.Int64Range(0, 5_000_000), rapid.Int64Range(0, int64(measure.LongestLength-m))).Draw(t, "length"))
		if back, err := measure.ParseLength(s.Exact(l), cm); err != nil || back != l {
			t.Fatalf("Exact(%d) = %q reads as %d, %v", l, s.Exact(l), back, err)
		}
		text := measure.Style{System: s.System, Kind: s.Kind}.Format(l)
		back, err := measure.ParseLength(text, cm)
		if err != nil || s.Up(back) != back || s.Down(back) != back {
			t.Fatalf("Format(%d) = %q reads as %d, %v", l, text, back, err)
		}
		if up, down := s.Up(l), s.Down(l); down > l || up < l || up-down > in {
			t.Fatalf("%d is not between %d and %d", l, down, up)
		}
	})
}

func FuzzParseLength(f *testing.F) {
	for _, s := range []string{"1 1/4 yd", "1-1/4 yd", "1,25 m", `5'3"`, "⅜ in", "1 yd 9 in", "1/0", "NaN", "-1", "1,250 cm", "٣ cm", "½½"} {
		f.Add(s)
	}
	f.Fuzz(func(t *testing.T, text string) {
		l, err := measure.ParseLength(text, cm)
		if err != nil {
			var e *measure.TextError
			if !errors.As(err, &e) || e.Wrong == "" || e.Want == "" {
				t.Fatalf("%q: %v is not a plain refusal", text, err)
			}
			return
		}
		if l < 0 || l > measure.LongestLength {
			t.Fatalf("%q reads as %d", text, l)
		}
		for _, sys := range []measure.System{measure.Metric, measure.Imperial} {
			exact := measure.Style{System: sys}.Exact(l)
			if back, err := measure.ParseLength(exact, cm); err != nil || back != l {
				t.Fatalf("%q reads as %d, is written %q, reads back as %d, %v", text, l, exact, back, err)
			}
		}
	})
}
