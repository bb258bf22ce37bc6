package planner

import (
	"cmp"
	"context"
	"fmt"
	"strings"

	"tallycloth/planner/garment"
	"tallycloth/planner/pattern"
	"tallycloth/stash"
)

// GarmentForm is what a person says of a garment.
type GarmentForm struct {
	Name, For, Purpose, Variant, Size, Notes string
	Wanted                                   stash.Date
}

// FormOf is the form of a garment as it is.
func FormOf(g garment.Garment) GarmentForm {
	return GarmentForm{g.Name, g.For, g.Record.Purpose, g.Variant, g.Size, g.Notes, g.Wanted}
}

// ChangeGarment keeps what a person says of a garment. Its size can be another only while it
// is wanted: layouts and cloth that was cut have a size.
func (s *Studio) ChangeGarment(ctx context.Context, id stash.ID, f GarmentForm) (garment.Garment, error) {
	return s.changeGarment(ctx, id, "Changed ", func(p pattern.Pattern, g garment.Garment) (garment.Garment, error) {
		if f.Size != g.Size {
			if g.State != garment.Wanted {
				return g, refused("Release its fabric first, or copy it in the other size", "%s is %s in size %s", g.Name, g.State, g.Size)
			}
			if _, ok := p.Size(f.Size); !ok {
				return g, invalid("Choose one of its sizes", "%s has no size %q", p.Name, f.Size)
			}
		}
		g.Name, g.For, g.Variant, g.Size = strings.TrimSpace(f.Name), strings.TrimSpace(f.For), strings.TrimSpace(f.Variant), f.Size
		g.Record.Purpose, g.Notes, g.Wanted = strings.TrimSpace(f.Purpose), strings.TrimSpace(f.Notes), f.Wanted
		return g, g.Validate()
	})
}

// changeGarment changes a garment in one act, as it is then.
func (s *Studio) changeGarment(ctx context.Context, id stash.ID, sentence string, change func(pattern.Pattern, garment.Garment) (garment.Garment, error)) (garment.Garment, error) {
	was, err := s.Garment(ctx, id)
	if err != nil {
		return garment.Garment{}, fmt.Errorf("changing a garment: %w", err)
	}
	p, err := s.Pattern(ctx, was.PatternID)
	if err != nil {
		return garment.Garment{}, fmt.Errorf("changing a garment: %w", err)
	}
	if _, err := change(p, was); err != nil {
		return garment.Garment{}, err
	}
	var after garment.Garment
	err = s.act(ctx, sentence+was.Name, func(tx Tx) error {
		now, err := tx.Garment(ctx, id)
		if err != nil {
			return err
		}
		if after, err = change(p, now); err != nil {
			return err
		}
		after = s.changed(after, after.State)
		return tx.PutGarment(ctx, after)
	})
	return after, err
}

// NoteStep notes a step of the order of work as done, counted from 1; no day is today. The
// state follows: sewing once something is sewn, fitted once the last stop is noted.
func (s *Studio) NoteStep(ctx context.Context, id stash.ID, n int, d garment.Done) (garment.Garment, error) {
	d.On = cmp.Or(d.On, s.today())
	return s.changeGarment(ctx, id, fmt.Sprintf("Noted step %d of ", n), func(p pattern.Pattern, g garment.Garment) (garment.Garment, error) {
		g, err := g.StepDone(p, n, d)
		if err != nil {
			return g, err
		}
		to := g.StateByWork(p)
		if to == garment.Fitted && g.State == garment.Cut {
			g = s.changed(g, garment.Sewing)
		}
		return s.changed(g, to), nil
	})
}

// StepNotDone takes a step back that was noted, counted from 1. The state stays.
func (s *Studio) StepNotDone(ctx context.Context, id stash.ID, n int) (garment.Garment, error) {
	return s.changeGarment(ctx, id, fmt.Sprintf("Took step %d back of ", n), func(p pattern.Pattern, g garment.Garment) (garment.Garment, error) {
		return g.StepUndone(p, n)
	})
}

// FittingForm is what was seen when a garment was tried on.
type FittingForm struct {
	On    stash.Date // "" is today
	Text  string
	Photo []byte // JPEG, PNG or WebP; nil: none
}

// NoteFitting keeps a note of a fitting, with a photo if there is one.
func (s *Studio) NoteFitting(ctx context.Context, id stash.ID, f FittingForm) (garment.Garment, error) {
	note := garment.Fitting{On: cmp.Or(f.On, s.today()), Text: f.Text}
	was, err := s.Garment(ctx, id)
	if err != nil {
		return garment.Garment{}, fmt.Errorf("noting a fitting: %w", err)
	}
	var shot taken
	if f.Photo != nil {
		if shot, err = s.takePhoto(ctx, PhotoForm{Of: stash.OfGarment, OfID: id, Kind: stash.Worn, Note: "fitting", File: f.Photo}); err != nil {
			return garment.Garment{}, err
		}
		note.Photos = []stash.ID{shot.photo.ID}
	}
	if _, err := was.WithFitting(note); err != nil {
		return garment.Garment{}, err
	}
	var after garment.Garment
	err = s.act(ctx, "Noted the fitting of "+was.Name, func(tx Tx) error {
		now, err := tx.Garment(ctx, id)
		if err != nil {
			return err
		}
		if f.Photo != nil {
			if err := shot.put(ctx, tx); err != nil {
				return err
			}
		}
		if after, err = now.WithFitting(note); err != nil {
			return err
		}
		after = s.changed(after, after.State)
		return tx.PutGarment(ctx, after)
	})
	return after, err
}

// DropFitting takes a note of a fitting away, counted from 1. Its photos stay with the garment.
func (s *Studio) DropFitting(ctx context.Context, id stash.ID, at int) error {
	_, err := s.changeGarment(ctx, id, "Removed a fitting note of ", func(_ pattern.Pattern, g garment.Garment) (garment.Garment, error) {
		return g.WithoutFitting(at)
	})
	return err
}

// KeepSeam keeps what was noted of a seam of a garment, by its name.
func (s *Studio) KeepSeam(ctx context.Context, id stash.ID, seam garment.Seam) error {
	_, err := s.changeGarment(ctx, id, "Noted a seam of ", func(_ pattern.Pattern, g garment.Garment) (garment.Garment, error) {
		return g.WithSeam(seam)
	})
	return err
}

// DropSeam takes away what was noted of a seam of a garment.
func (s *Studio) DropSeam(ctx context.Context, id stash.ID, name string) error {
	_, err := s.changeGarment(ctx, id, "Took back what was noted of a seam of ", func(_ pattern.Pattern, g garment.Garment) (garment.Garment, error) {
		return g.WithoutSeam(name)
	})
	return err
}

// CopyGarment adds a garment to be made again, in a size of its pattern or in the same one
// (""), under a name of its own or that of the first.
func (s *Studio) CopyGarment(ctx context.Context, id stash.ID, size, name string) (garment.Garment, error) {
	was, err := s.Garment(ctx, id)
	if err != nil {
		return garment.Garment{}, fmt.Errorf("copying a garment: %w", err)
	}
	p, err := s.Pattern(ctx, was.PatternID)
	if err != nil {
		return garment.Garment{}, fmt.Errorf("copying a garment: %w", err)
	}
	g := was.Copy()
	g.ID, g.Size = s.newID(), cmp.Or(size, was.Size)
	if _, ok := p.Size(g.Size); !ok {
		return garment.Garment{}, invalid("Choose one of its sizes", "%s has no size %q", p.Name, g.Size)
	}
	if g.Name = strings.TrimSpace(name); g.Name == "" {
		g.Name = was.Name + ", again"
	}
	if g.Size != was.Size { // typed lengths were those of the other size
		for i := range g.Record.Seams {
			g.Record.Seams[i].Length = 0
		}
	}
	g = s.changed(g, garment.Wanted)
	if err := g.Validate(); err != nil {
		return garment.Garment{}, err
	}
	err = s.act(ctx, "Wants "+g.Name, func(tx Tx) error { return tx.PutGarment(ctx, g) })
	return g, err
}
