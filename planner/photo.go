package planner

import (
	"context"
	"fmt"
	"image"
	"strings"

	"tallycloth/planner/pattern"
	"tallycloth/planner/trace"
	"tallycloth/stash"
	"tallycloth/stash/photo"
	"tallycloth/stash/shape"
)

// PhotoForm is a photo as a person adds it.
type PhotoForm struct {
	Of     stash.PhotoOf
	OfID   stash.ID
	Kind   stash.PhotoKind // "" is the usual one: a swatch of a fabric, a receipt of a purchase …
	Stitch int             // for a test scrap: which stitch note, from 1; 0 none in particular
	Note   string
	File   []byte // JPEG, PNG or WebP
}

var usualKind = map[stash.PhotoOf]stash.PhotoKind{
	stash.OfFabric: stash.Swatch, stash.OfCloth: stash.ClothSeen, stash.OfPurchase: stash.Receipt, stash.OfGarment: stash.Worn,
}

// AddPhoto keeps a photo: turned upright, without metadata, of bounded size, with a
// thumbnail. A file that is no picture, is broken, or would unpack to too much is refused
// as photo.Read says.
func (s *Studio) AddPhoto(ctx context.Context, f PhotoForm) (stash.Photo, error) {
	if f.Kind == "" {
		f.Kind = usualKind[f.Of]
	}
	name, err := s.photoSubject(ctx, f)
	if err != nil {
		return stash.Photo{}, fmt.Errorf("adding a photo: %w", err)
	}
	t, err := s.takePhoto(ctx, f)
	if err != nil {
		return stash.Photo{}, err
	}
	return t.photo, s.act(ctx, "Added a photo of "+name, func(tx Tx) error { return t.put(ctx, tx) })
}

// taken is a photo that is ready to be kept, with its picture.
type taken struct {
	photo   stash.Photo
	picture stash.Picture
}

// takePhoto reads the file of a form.
func (s *Studio) takePhoto(ctx context.Context, f PhotoForm) (taken, error) {
	pic, err := photo.Keep(ctx, f.File)
	if err != nil {
		return taken{}, err
	}
	p := stash.Photo{ID: s.newID(), Of: f.Of, OfID: f.OfID, Kind: f.Kind, Stitch: f.Stitch, Digest: pic.Digest(),
		Width: pic.Width, Height: pic.Height, Note: strings.TrimSpace(f.Note), At: s.today()}
	return taken{p, pic}, p.Validate()
}

// put keeps the photo inside an act.
func (t taken) put(ctx context.Context, tx Tx) error {
	if err := tx.PutPicture(ctx, t.picture); err != nil {
		return err
	}
	return tx.PutPhoto(ctx, t.photo)
}

// photoSubject names what a photo is of.
func (s *Studio) photoSubject(ctx context.Context, f PhotoForm) (string, error) {
	switch f.Of {
	case stash.OfFabric:
		fab, err := s.Fabric(ctx, f.OfID)
		if err == nil && f.Stitch > len(fab.Stitches) {
			return "", invalid("Choose one of its stitch notes", "%s has only %d stitch notes", fab.Name, len(fab.Stitches))
		}
		return fab.Name, err
	case stash.OfCloth:
		c, err := s.Cloth(ctx, f.OfID)
		return c.Cloth.Code, err
	case stash.OfPurchase:
		p, err := s.Purchase(ctx, f.OfID)
		return strings.TrimSpace("the purchase of " + string(p.Date) + " " + p.Supplier), err
	case stash.OfGarment:
		g, err := s.Garment(ctx, f.OfID)
		if err == nil && f.Stitch > len(g.Stitches) {
			return "", invalid("Choose one of its stitch notes", "%s has only %d stitch notes", g.Name, len(g.Stitches))
		}
		return g.Name, err
	}
	return "", invalid("Choose a fabric, a cloth, a purchase or a garment", "A photo is of something in the library")
}

// RemovePhoto takes a photo away; Undo brings it back.
func (s *Studio) RemovePhoto(ctx context.Context, id stash.ID) error {
	p, err := s.Photo(ctx, id)
	if err != nil {
		return fmt.Errorf("removing a photo: %w", err)
	}
	name, err := s.photoSubject(ctx, PhotoForm{Of: p.Of, OfID: p.OfID})
	if err != nil {
		return fmt.Errorf("removing a photo: %w", err)
	}
	return s.act(ctx, "Removed a photo of "+name, func(tx Tx) error {
		now, err := tx.Photo(ctx, id)
		if err != nil {
			return err
		}
		if now.Gone {
			return refused("Look at what is still there", "The photo is removed already")
		}
		now.Gone = true
		return tx.PutPhoto(ctx, now)
	})
}

// SwatchOf returns the photo that shows a fabric best: the newest swatch; false where
// there is none.
func (s *Studio) SwatchOf(ctx context.Context, fabric stash.ID) (stash.Photo, bool, error) {
	all, err := s.Photos(ctx, fabric)
	if err != nil {
		return stash.Photo{}, false, err
	}
	for i := len(all) - 1; i >= 0; i-- {
		if all[i].Kind == stash.Swatch {
			return all[i], true, nil
		}
	}
	return stash.Photo{}, false, nil
}

// ReadPhoto unpacks a file to be traced, upright and in full. Nothing is written.
func (s *Studio) ReadPhoto(ctx context.Context, file []byte) (*image.RGBA, error) {
	return photo.Read(ctx, file)
}

// TracePhoto finds the outline of a leftover in a photo by the rectangle that was marked
// in it. Nothing is written; the outline is for LeftoverForm once a person has seen it.
func (s *Studio) TracePhoto(ctx context.Context, picture image.Image, r trace.Rectangle) (trace.Answer, error) {
	return trace.Trace(ctx, picture, r)
}

// Laid returns a traced outline in the frame of cloth: its grain runs along x, its bounds
// begin at the origin. grain is where lengthwise points in the straightened picture,
// counter-clockwise from the picture's left to right.
func Laid(outline shape.Polygon, grain shape.Angle) (shape.Polygon, error) {
	p := shape.Placement{Angle: -grain}.ApplyPolygon(outline)
	p = p.Move(shape.Point{X: -p.Bounds().Min.X, Y: -p.Bounds().Min.Y})
	if err := p.Validate(); err != nil {
		return p, &stash.Error{Kind: stash.Invalid, What: "The outline is not closed and simple", Do: "Move its points apart, or trace it again", Err: err}
	}
	return p, nil
}

// TracedOutline makes the outline of a pattern piece of one traced in a picture, whose grain runs along
// x with its top end at the end of the arrow: in the frame of pattern pieces the top lies towards −x.
// Holes become lines drawn on it. Errors: the outline is not closed and simple.
func TracedOutline(traced shape.Polygon, size string) (map[string]pattern.Outline, error) {
	p, err := Laid(traced, 180_000)
	if err != nil {
		return nil, err
	}
	b := p.Outer.Bounds()
	middle := b.Width() / 2
	o := pattern.Outline{Cut: p.Outer, GrainTop: shape.Point{X: b.Length() / 4, Y: middle}, GrainFoot: shape.Point{X: 3 * b.Length() / 4, Y: middle}}
	for _, h := range p.Holes {
		o.Inner = append(o.Inner, append(append([]shape.Point{}, h...), h[0]))
	}
	return map[string]pattern.Outline{size: o}, nil
}
