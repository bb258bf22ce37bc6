package planner

import (
	"context"
	"fmt"

	"tallycloth/planner/garment"
	"tallycloth/stash"
)

// StitchForm is a stitch that worked, as a person notes it on a fabric or a garment.
type StitchForm struct {
	Of       stash.PhotoOf // OfFabric or OfGarment
	OfID     stash.ID
	At       int // which of its notes is changed, from 1; 0 adds one
	Note     stash.StitchNote
	FabricID stash.ID // of a garment's note: the fabric it is for, or NoID
	Scrap    []byte   // a photo of the test scrap, or nil
}

// stitched is what carries stitch notes: a fabric or a garment.
type stitched struct {
	of      stash.PhotoOf
	fabric  stash.Fabric
	garment garment.Garment
}

// stitchedReader is what a Store and a Tx both can.
type stitchedReader interface {
	Fabric(ctx context.Context, id stash.ID) (stash.Fabric, error)
	Garment(ctx context.Context, id stash.ID) (garment.Garment, error)
}

// stitchedIn reads what carries the notes.
func stitchedIn(ctx context.Context, r stitchedReader, of stash.PhotoOf, id stash.ID) (s stitched, err error) {
	s.of = of
	switch of {
	case stash.OfFabric:
		s.fabric, err = r.Fabric(ctx, id)
	case stash.OfGarment:
		s.garment, err = r.Garment(ctx, id)
	default:
		err = invalid("Choose a fabric or a garment", "Stitches are noted on a fabric or a garment")
	}
	if err != nil {
		return s, fmt.Errorf("noting a stitch: %w", err)
	}
	return s, nil
}

func (s stitched) name() string {
	if s.of == stash.OfFabric {
		return s.fabric.Name
	}
	return s.garment.Name
}

// notes are the notes, without the fabrics they are for.
func (s stitched) notes() []stash.StitchNote {
	if s.of == stash.OfFabric {
		return s.fabric.Stitches
	}
	return plainNotes(s.garment)
}

func plainNotes(g garment.Garment) []stash.StitchNote {
	var out []stash.StitchNote
	for _, n := range g.Stitches {
		out = append(out, n.StitchNote)
	}
	return out
}

// keep puts changed notes back. gone is the place of one that was taken out, at that of
// one that is for fabricID now; else 0.
func (s stitched) keep(ctx context.Context, tx Tx, notes []stash.StitchNote, gone, at int, fabricID stash.ID) error {
	if s.of == stash.OfFabric {
		s.fabric.Stitches = notes
		return tx.PutFabric(ctx, s.fabric)
	}
	was := s.garment.Stitches
	if gone > 0 {
		was = append(was[:gone-1:gone-1], was[gone:]...)
	}
	s.garment.Stitches = nil
	for i, n := range notes {
		out := garment.StitchNote{StitchNote: n}
		if i < len(was) {
			out.FabricID = was[i].FabricID
		}
		if i == at-1 {
			out.FabricID = fabricID
		}
		s.garment.Stitches = append(s.garment.Stitches, out)
	}
	return tx.PutGarment(ctx, s.garment)
}

// KeepStitch keeps a stitch note on a fabric or a garment, with a photo of its scrap if
// there is one, and returns its place.
func (s *Studio) KeepStitch(ctx context.Context, f StitchForm) (int, error) {
	on, err := stitchedIn(ctx, s.Store, f.Of, f.OfID)
	if err != nil {
		return 0, err
	}
	if _, _, err := stash.PutStitch(on.notes(), f.At, f.Note); err != nil {
		return 0, err
	}
	var scrap taken
	if f.Scrap != nil {
		if scrap, err = s.takePhoto(ctx, PhotoForm{Of: f.Of, OfID: f.OfID, Kind: stash.Scrap, File: f.Scrap}); err != nil {
			return 0, err
		}
	}
	verb := "Noted a stitch that worked on "
	if f.At > 0 {
		verb = "Changed a stitch note of "
	}
	at := 0
	err = s.act(ctx, verb+on.name(), func(tx Tx) error {
		now, err := stitchedIn(ctx, tx, f.Of, f.OfID)
		if err != nil {
			return err
		}
		var notes []stash.StitchNote
		if notes, at, err = stash.PutStitch(now.notes(), f.At, f.Note); err != nil {
			return err
		}
		if err := now.keep(ctx, tx, notes, 0, at, f.FabricID); err != nil || f.Scrap == nil {
			return err
		}
		scrap.photo.Stitch = at
		return scrap.put(ctx, tx)
	})
	return at, err
}

// DropStitch takes a stitch note away, counted from 1. Photos of its scrap stay with the
// fabric or garment; Undo brings the note back.
func (s *Studio) DropStitch(ctx context.Context, of stash.PhotoOf, id stash.ID, at int) error {
	on, err := stitchedIn(ctx, s.Store, of, id)
	if err != nil {
		return err
	}
	return s.act(ctx, "Removed a stitch note of "+on.name(), func(tx Tx) error {
		now, err := stitchedIn(ctx, tx, of, id)
		if err != nil {
			return err
		}
		notes, err := stash.DropStitch(now.notes(), at)
		if err != nil {
			return err
		}
		photos, err := tx.Photos(ctx, id)
		if err != nil {
			return err
		}
		for _, p := range photos {
			if p.Stitch < at {
				continue
			}
			if p.Stitch--; p.Stitch < at {
				p.Stitch = 0 // its note is gone
			}
			if err := tx.PutPhoto(ctx, p); err != nil {
				return err
			}
		}
		return now.keep(ctx, tx, notes, at, 0, stash.NoID)
	})
}

// withStitches returns a garment with the notes of the fabrics it is cut from as its own,
// and gives it copies of their photos. What it has noted itself stays before them.
func (s *Studio) withStitches(ctx context.Context, tx Tx, g garment.Garment, plan []ClothCut) (garment.Garment, error) {
	done := map[stash.ID]bool{}
	for _, c := range plan {
		f := c.Cloth.Fabric
		if done[f.ID] {
			continue
		}
		done[f.ID] = true
		before := len(g.Stitches)
		for _, n := range f.Stitches {
			g.Stitches = append(g.Stitches, garment.StitchNote{StitchNote: n, FabricID: f.ID})
		}
		photos, err := tx.Photos(ctx, f.ID)
		if err != nil {
			return g, err
		}
		for _, p := range photos {
			if p.Kind != stash.Scrap || p.Stitch == 0 || p.Stitch > len(f.Stitches) {
				continue
			}
			p.ID, p.Of, p.OfID, p.Stitch = s.newID(), stash.OfGarment, g.ID, p.Stitch+before
			if err := tx.PutPhoto(ctx, p); err != nil {
				return g, err
			}
		}
	}
	return g, nil
}
