package planner

import (
	"cmp"
	"context"
	"fmt"
	"strings"

	"tallycloth/planner/draft"
	"tallycloth/planner/leftover"
	"tallycloth/stash/measure"
	"tallycloth/stash/shape"
)

// Allowances are the seam and hem allowances that outlines are drafted with where none are said.
func (s Settings) Allowances() (seam, hem measure.Length) {
	return cmp.Or(s.Seam, draft.UsualSeam), cmp.Or(s.Hem, draft.UsualHem)
}

// Allow gives a form to draft from the person's allowances where it has none.
func (s Settings) Allow(f draft.Form) draft.Form {
	seam, hem := s.Allowances()
	f.Seam, f.Hem = cmp.Or(f.Seam, seam), cmp.Or(f.Hem, hem)
	return f
}

// MostTilt is how far a pattern piece may be asked to lie off its grain (ours: beyond it garments twist).
const MostTilt shape.Angle = 2000

// Leftovers says what is worth keeping of a cloth that was cut.
func (s Settings) Leftovers() leftover.Limits {
	l := leftover.DefaultLimits()
	l.Square = cmp.Or(s.KeepSquare, l.Square)
	l.StripWidth = cmp.Or(s.KeepStrip, l.StripWidth)
	return l
}

// validate refuses what no library can work with.
func (s Settings) validate() error {
	for _, l := range []measure.Length{s.Clearance, s.EndLoss, s.TightLength, s.TightWidth, s.Seam, s.Hem, s.KeepSquare, s.KeepStrip, s.ShopIncrement} {
		if l < 0 {
			return invalid("Type zero to leave it out", "A distance in the settings cannot be negative")
		}
	}
	switch {
	case s.UsableStretch <= 0 || s.UsableStretch > 100*measure.OnePercent:
		return invalid("Say a share from 1 % to 100 %, such as 80 %", "The comfort share of the stretch cannot be that")
	case s.Tilt < 0 || s.Tilt > MostTilt:
		return invalid("Say an angle from 0° to 2°", "A pattern piece cannot lie that far off its grain")
	case s.TextPercent < 80 || s.TextPercent > 160:
		return invalid("Choose from 80 % to 160 %", "The text cannot be as large as %d %%", s.TextPercent)
	case s.Backups.Days < 0 || s.Backups.Weeks < 0 || s.Backups.Months < 0:
		return invalid("Type how many days, weeks and months have one", "Back-ups that stay are counted from 0")
	}
	return nil
}

// changed lists in words which of the settings differ.
func (s Settings) changed(to Settings) []string {
	var out []string
	for _, c := range []struct {
		what string
		same bool
	}{
		{"units", s.Units == to.Units},
		{"currency", s.Currency == to.Currency},
		{"paper", s.Paper == to.Paper},
		{"what the shop sells by", s.ShopIncrement == to.ShopIncrement},
		{"room between pattern pieces", s.Clearance == to.Clearance},
		{"how far off grain", s.Tilt == to.Tilt},
		{"what a raw end loses", s.EndLoss == to.EndLoss},
		{"when it is tight", s.TightLength == to.TightLength && s.TightWidth == to.TightWidth},
		{"seam allowance", s.Seam == to.Seam},
		{"hem allowance", s.Hem == to.Hem},
		{"which leftovers are kept", s.KeepSquare == to.KeepSquare && s.KeepStrip == to.KeepStrip},
		{"comfort share", s.UsableStretch == to.UsableStretch},
		{"words for stretch", s.Classes == to.Classes},
		{"light or dark", s.DarkTheme == to.DarkTheme},
		{"text size", s.TextPercent == to.TextPercent},
		{"how many back-ups stay", s.Backups == to.Backups},
	} {
		if !c.same {
			out = append(out, c.what)
		}
	}
	return out
}

// SaveSettings keeps the person's choices, in an act that says which changed.
func (s *Studio) SaveSettings(ctx context.Context, set Settings) error {
	if err := set.validate(); err != nil {
		return err
	}
	was, err := s.Settings(ctx)
	if err != nil {
		return fmt.Errorf("keeping the settings: %w", err)
	}
	sentence := "Changed the settings"
	if what := was.changed(set); len(what) > 0 {
		sentence += ": " + strings.Join(what, ", ")
	}
	return s.act(ctx, sentence, func(tx Tx) error { return tx.PutSettings(ctx, set) })
}
