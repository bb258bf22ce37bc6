package stash_test

import (
	"encoding/json"
	"errors"
	"testing"

	"tallycloth/stash"
	"tallycloth/stash/measure"

	"pgregory.net/rapid"
)

// TestStretchClasses: with each published set of limits a fabric is called what it calls it.
func TestStretchClasses(t *testing.T) {
	for _, row := range tableRows(t, "stretch/classes.csv", "|") {
		c, err := stash.ParseStretchClasses(row[1])
		if err != nil {
			t.Fatal(err)
		}
		if got := c.Of(percent(t, row[2]+" %")); got != row[3] {
			t.Errorf("%s: %s is %s, not %s", row[0], row[2], got, row[3])
		}
	}
	usual, err := stash.ParseStretchClasses(stash.UsualStretch)
	if none, _ := stash.ParseStretchClasses(" "); err != nil || usual != (stash.StretchClasses{}) || none != usual {
		t.Errorf("the usual set is %v, %v", usual, err)
	}
}

// TestStretchClassesHold: every set that is read writes itself so that it reads back, also as
// JSON, and every stretch has a word whose limits it lies within.
func TestStretchClassesHold(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		n := rapid.IntRange(2, 8).Draw(t, "classes")
		text, at := "", int64(0)
		for i := range n {
			if i > 0 {
				text += rapid.SampledFrom([]string{", ", "; ", ","}).Draw(t, "sign")
			}
			text += string(rune('a'+i)) + rapid.SampledFrom([]string{"", " firm", "  soft one"}).Draw(t, "name")
			if at += rapid.Int64Range(1, 9000).Draw(t, "more"); i < n-1 {
				text += rapid.SampledFrom([]string{" up to ", " to ", " ≤ "}).Draw(t, "word") + measure.FormatPercent(measure.Percent(at))
			}
		}
		c, err := stash.ParseStretchClasses(text)
		if err != nil {
			t.Fatalf("%q: %v", text, err)
		}
		again, err := stash.ParseStretchClasses(c.String())
		if err != nil || again != c || len(c.List()) != n {
			t.Fatalf("%q became %q: %v", text, c, err)
		}
		var back stash.StretchClasses
		doc, err := json.Marshal(c)
		if err := errors.Join(err, json.Unmarshal(doc, &back)); err != nil || back != c {
			t.Fatalf("%s: %v, %v", doc, back, err)
		}
		p := measure.Percent(rapid.Int64Range(0, 100_000).Draw(t, "stretch"))
		list, least := c.List(), measure.Percent(-1)
		for i, x := range list {
			if in := p > least && (p <= x.UpTo || i == n-1); in != (c.Of(p) == x.Name) {
				t.Fatalf("%s of %q is %q", measure.FormatPercent(p), c, c.Of(p))
			}
			least = x.UpTo
		}
	})
}

func TestStretchClassesRefuse(t *testing.T) {
	for _, text := range []string{"firm", "firm, soft", "firm up to 10 %, soft up to 20 %", "firm up to 30 %, soft up to 20 %, wild", "firm up to 20, Firm",
		"firm up to much, soft", "firm up to 5000 %, soft", ", ,", "up to 20 %, soft", "a up to 1,b up to 2,c up to 3,d up to 4,e up to 5,f up to 6,g up to 7,h up to 8,i",
		"an exceedingly long word for it up to 20 %, soft", "50 %, soft"} {
		_, err := stash.ParseStretchClasses(text)
		var e *stash.Error
		if !errors.As(err, &e) || e.Do == "" {
			t.Errorf("%q: %v", text, err)
		}
	}
	var c stash.StretchClasses
	if err := json.Unmarshal([]byte(`"firm"`), &c); err == nil {
		t.Error("a set that cannot be was read")
	}
}

func FuzzStretchClasses(f *testing.F) {
	f.Add(stash.UsualStretch)
	f.Add("firm up to 12,5 %; wild")
	f.Fuzz(func(t *testing.T, text string) {
		c, err := stash.ParseStretchClasses(text)
		if err != nil {
			return
		}
		if again, err := stash.ParseStretchClasses(c.String()); err != nil || again != c || c.Of(5000) == "" {
			t.Errorf("%q became %q: %v", text, c, err)
		}
	})
}
