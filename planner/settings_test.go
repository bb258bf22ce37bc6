package planner_test

import (
	"errors"
	"testing"

	"tallycloth/planner"
	"tallycloth/planner/draft"
	"tallycloth/planner/leftover"
	"tallycloth/stash"
)

// TestSettingsSayWhatChanged: the act names what the person changed, and nothing else is said.
func TestSettingsSayWhatChanged(t *testing.T) {
	s := studio(t)
	set := planner.DefaultSettings()
	set.TextPercent, set.ShopIncrement = 125, 25*cm
	if err := s.SaveSettings(ctx, set); err != nil {
		t.Fatal(err)
	}
	acts, err := s.Acts(ctx, 1)
	if err != nil || acts[0].Sentence != "Changed the settings: what the shop sells by, text size" {
		t.Errorf("%v, %v", acts, err)
	}
}

// TestSettingsThatCannotBe are refused with what to do, and not kept.
func TestSettingsThatCannotBe(t *testing.T) {
	s := studio(t)
	for name, spoil := range map[string]func(*planner.Settings){
		"a negative seam":   func(s *planner.Settings) { s.Seam = -mm },
		"no stretch at all": func(s *planner.Settings) { s.UsableStretch = 0 },
		"more than all":     func(s *planner.Settings) { s.UsableStretch = 101 * pc },
		"tiny text":         func(s *planner.Settings) { s.TextPercent = 10 },
		"far off grain":     func(s *planner.Settings) { s.Tilt = planner.MostTilt + 1 },
		"fewer than none":   func(s *planner.Settings) { s.Backups.Weeks = -1 },
	} {
		set := planner.DefaultSettings()
		spoil(&set)
		var own *stash.Error
		if err := s.SaveSettings(ctx, set); !errors.As(err, &own) || own.Kind != stash.Invalid || own.Do == "" {
			t.Errorf("%s: %v", name, err)
		}
	}
	if acts, _ := s.Acts(ctx, 0); len(acts) != 0 {
		t.Errorf("kept %v", acts)
	}
}

// TestSettingsOfDrafts: what is not said is the person's own, then the usual.
func TestSettingsOfDrafts(t *testing.T) {
	set := planner.DefaultSettings()
	if f := set.Allow(draft.Form{Hem: 3 * cm}); f.Seam != draft.UsualSeam || f.Hem != 3*cm {
		t.Errorf("%+v", f)
	}
	set.Seam, set.Hem = cm, 4*cm
	if f := set.Allow(draft.Form{Hem: 3 * cm}); f.Seam != cm || f.Hem != 3*cm {
		t.Errorf("%+v", f)
	}
}

// TestSettingsOfLeftovers: a garment cut leaves fewer leftovers where only large ones are kept.
func TestSettingsOfLeftovers(t *testing.T) {
	if got := planner.DefaultSettings().Leftovers(); got != leftover.DefaultLimits() {
		t.Errorf("%+v", got)
	}
	s := studio(t)
	c := bought(t, s, 250*cm)
	tank(t, s)
	g := reservedOn(t, s, c.Cloth.ID, "First").ID
	left := func() (n int) {
		t.Helper()
		plan, err := s.CutPlan(ctx, g)
		if err != nil {
			t.Fatal(err)
		}
		for _, c := range plan {
			n += len(c.Left)
		}
		return n
	}
	before := left()
	set := planner.DefaultSettings()
	set.KeepSquare, set.KeepStrip = 5000*mm, 5000*mm
	if err := s.SaveSettings(ctx, set); err != nil {
		t.Fatal(err)
	}
	if after := left(); before == 0 || after != 0 {
		t.Errorf("%d leftovers before, %d of 5 m", before, after)
	}
}
