package stash_test

import (
	"errors"
	"slices"
	"strconv"
	"strings"
	"testing"

	"tallycloth/stash"

	"pgregory.net/rapid"
)

// Every published pair of needle numbers is taken, and none of another size with it.
func TestNeedlePairs(t *testing.T) {
	rows := tableRows(t, "needles/sizes.csv", ",")
	woven := stash.Fabric{Construction: stash.WovenPlain}
	for _, row := range rows {
		for _, other := range rows {
			for _, text := range []string{row[0] + "/" + other[1], "size " + other[1] + ", NM " + row[0] + " universal"} {
				n := stash.ReadNeedle(text)
				if strconv.Itoa(n.NM) != row[0] || strconv.Itoa(n.Size) != other[1] {
					t.Fatalf("%s was read as %+v", text, n)
				}
				doubts := stash.StitchNote{Stitch: "lockstitch", Needle: text}.Doubts(woven)
				if (len(doubts) == 0) != (row[1] == other[1]) {
					t.Errorf("%s: %q", text, doubts)
				}
			}
		}
	}
	// The rule holds below size 19 and fails there.
	for _, row := range rows {
		nm, _ := strconv.Atoi(row[0])
		size, _ := strconv.Atoi(row[1])
		if (nm == 60+5*(size-8)) != (size < 19) {
			t.Errorf("row %v of the table", row)
		}
	}
}

func TestReadNeedle(t *testing.T) {
	for text, want := range map[string]stash.Needle{
		"75/11 ball point":     {NM: 75, Size: 11, Round: true},
		"ballpoint 80":         {NM: 80, Round: true},
		"Ball-point, 90":       {NM: 90, Round: true},
		"stretch 75":           {NM: 75, Round: true},
		"SUK 80/12":            {NM: 80, Size: 12, Round: true},
		"twin 4.0/75 stretch":  {NM: 75, Round: true},
		"universal 80":         {NM: 80},
		"80/12 sharp":          {NM: 80, Size: 12},
		"":                     {},
		"the one from the tin": {},
		"SESAME":               {},
	} {
		if got := stash.ReadNeedle(text); got != want {
			t.Errorf("%q was read as %+v", text, got)
		}
	}
}

func TestPlainLockstitch(t *testing.T) {
	for _, row := range tableRows(t, "needles/stitches.csv", ",") {
		for _, text := range []string{row[0], row[1], "ISO " + row[0], strings.ToUpper(row[1])} {
			if got := stash.PlainLockstitch(text); got != (row[2] == "yes") {
				t.Errorf("%q: %v", text, got)
			}
		}
	}
	for text, plain := range map[string]bool{"straight stitch": true, "narrow zigzag": false, "stretch straight stitch": false, "lock stitch, 3 mm": true, "": false, "my usual one": false} {
		if stash.PlainLockstitch(text) != plain {
			t.Errorf("%q: %v", text, !plain)
		}
	}
}

// What is doubtful about a note depends on the fabric and on whether the seam must stretch.
func TestStitchDoubts(t *testing.T) {
	knit := stash.Fabric{Construction: stash.Jersey, Fibres: stash.Fibres{{Name: "cotton", Share: 9500}, {Name: "elastane", Share: 500}}}
	woven := stash.Fabric{Construction: stash.WovenTwill}
	for _, c := range []struct {
		name string
		f    stash.Fabric
		n    stash.StitchNote
		want []string // parts of the sentences, in order
	}{
		{"fine on a knit", knit, stash.StitchNote{Stitch: "narrow zigzag", Needle: "stretch 75/11"}, nil},
		{"no needle noted", knit, stash.StitchNote{Stitch: "zigzag"}, []string{"No needle is noted"}},
		{"a sharp needle", knit, stash.StitchNote{Stitch: "overlock", Needle: "microtex 80"}, []string{"ball point or stretch"}},
		{"lockstitch on a knit", knit, stash.StitchNote{Stitch: "straight", Needle: "jersey 80"}, []string{"plain lockstitch"}},
		{"lockstitch over tape", knit, stash.StitchNote{Stitch: "straight", Needle: "jersey 80", Still: true}, nil},
		{"both wrong", knit, stash.StitchNote{Stitch: "301", Needle: "universal 80"}, []string{"no ball point", "plain lockstitch"}},
		{"woven", woven, stash.StitchNote{Stitch: "straight", Needle: "universal 80"}, nil},
		{"woven, nothing noted", woven, stash.StitchNote{Stitch: "straight"}, nil},
	} {
		got := c.n.Doubts(c.f)
		if len(got) != len(c.want) {
			t.Errorf("%s: %q", c.name, got)
			continue
		}
		for i, part := range c.want {
			if !strings.Contains(got[i], part) {
				t.Errorf("%s: %q has no %q", c.name, got[i], part)
			}
		}
	}
	if stash.NeedleFor(woven) != "" || !strings.Contains(stash.NeedleFor(knit), "stretch") {
		t.Errorf("needles: %q, %q", stash.NeedleFor(woven), stash.NeedleFor(knit))
	}
}

// The needle that is named for a fabric is taken without a doubt when it is noted.
func TestNeedleForIsRound(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		f := stash.Fabric{Construction: rapid.SampledFrom(stash.Constructions()).Draw(t, "made")}
		if rapid.Bool().Draw(t, "known") {
			f.Weight = stash.Assumed(f).Weight * 2
		}
		text := stash.NeedleFor(f)
		if f.Construction.Knit() != stash.ReadNeedle(text).Round {
			t.Fatalf("%s: %q", f.Construction, text)
		}
		if d := (stash.StitchNote{Stitch: "zigzag", Needle: text}).Doubts(f); len(d) > 1 {
			t.Fatalf("%q: %q", text, d)
		}
	})
}

func TestPutAndDropStitch(t *testing.T) {
	side, hem := stash.StitchNote{Seam: "side", Stitch: "overlock"}, stash.StitchNote{Seam: "hem", Stitch: "twin needle"}
	notes, at, err := stash.PutStitch(nil, 0, stash.StitchNote{Seam: " side ", Stitch: "overlock\n"})
	if err != nil || at != 1 || !slices.Equal(notes, []stash.StitchNote{side}) {
		t.Fatalf("%+v, %d, %v", notes, at, err)
	}
	more, at, err := stash.PutStitch(notes, 0, hem)
	if err != nil || at != 2 || len(notes) != 1 {
		t.Fatalf("%+v, %d, %v", more, at, err)
	}
	changed, _, err := stash.PutStitch(more, 1, hem)
	if err != nil || more[0] != side || changed[0] != hem {
		t.Errorf("the notes given were changed: %+v, %v", more, err)
	}
	left, err := stash.DropStitch(more, 1)
	if err != nil || !slices.Equal(left, []stash.StitchNote{hem}) || more[0] != side {
		t.Errorf("%+v, %v", left, err)
	}
	for _, bad := range []func() error{
		func() error { _, _, err := stash.PutStitch(notes, 0, stash.StitchNote{Seam: "side"}); return err },
		func() error { _, _, err := stash.PutStitch(notes, 3, hem); return err },
		func() error { _, err := stash.DropStitch(notes, 0); return err },
		func() error { _, err := stash.DropStitch(nil, 1); return err },
		func() error {
			_, _, err := stash.PutStitch(notes, 0, stash.StitchNote{Note: strings.Repeat("x", 3000)})
			return err
		},
	} {
		var e *stash.Error
		if err := bad(); !errors.As(err, &e) || e.Do == "" {
			t.Errorf("%v", err)
		}
	}
}
