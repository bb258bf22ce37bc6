package planner

import (
	"context"
	"fmt"
	"strings"

	"tallycloth/planner/garment"
	"tallycloth/planner/pattern"
	"tallycloth/stash"
	"tallycloth/stash/measure"
)

// ProjectSheet is all that is known of a garment, to be kept with it or handed to a class.
type ProjectSheet struct {
	Garment garment.Garment
	Pattern pattern.Pattern
	// Sewn is its size of the pattern with its adjustments; without a name where the pattern has it no more.
	Sewn   pattern.Size
	Record GarmentRecord
	// Body are the measurements of whom it is for, of the library's people; nil where that is
	// nobody of them.
	Body    map[string]measure.Length
	Fabrics []ProjectFabric
	Notions []NotionAsked
	Cost    GarmentCost
	Photos  []ProjectPhoto
}

// ProjectFabric is cloth that a garment has, or had before it was cut.
type ProjectFabric struct {
	Fabric  stash.Fabric
	Code    string
	UsedFor string // as it is reserved; "" once it is cut
	Part    ClothPart
}

// ProjectPhoto is a photo of a garment, or of a test scrap of one of its stitches.
type ProjectPhoto struct {
	stash.Photo
	JPEG []byte
}

// mostProjectPhotos bounds the photos of a project sheet: the newest are taken.
const mostProjectPhotos = 12

// ProjectSheet puts together what is known of a garment.
func (s *Studio) ProjectSheet(ctx context.Context, id stash.ID) (ProjectSheet, error) {
	var out ProjectSheet
	for _, read := range []func() error{ // the record reads some of it again, which costs little
		func() (err error) { out.Garment, err = s.Garment(ctx, id); return },
		func() (err error) { out.Pattern, err = s.Pattern(ctx, out.Garment.PatternID); return },
		func() (err error) { out.Record, err = s.GarmentRecord(ctx, id); return },
		func() error { out.Sewn = asSewn(out.Pattern, out.Garment); return nil },
		func() (err error) { out.Body, err = s.bodyOf(ctx, out.Garment.For); return },
		func() error { return s.projectFabrics(ctx, &out) },
		func() error { return s.projectPhotos(ctx, &out) },
		func() error {
			there, err := s.Notions(ctx)
			out.Notions = notionsAsked(out.Pattern, out.Garment.Size, there)
			return err
		},
	} {
		if err := read(); err != nil {
			return ProjectSheet{}, fmt.Errorf("putting a project sheet together: %w", err)
		}
	}
	return out, nil
}

// asSewn is the size of a garment as its adjustments make it; adjustments that cannot be made any more
// leave it as the pattern has it.
func asSewn(p pattern.Pattern, g garment.Garment) pattern.Size {
	size, _ := p.Size(g.Size)
	if changed, err := adjusted(p, g.Size, g.Adjustments); err == nil {
		size, _ = changed.Size(g.Size)
	}
	return size
}

// bodyOf are the measurements of the person of a name.
func (s *Studio) bodyOf(ctx context.Context, name string) (map[string]measure.Length, error) {
	all, err := s.People(ctx)
	if err != nil || strings.TrimSpace(name) == "" {
		return nil, err
	}
	for _, p := range all {
		if strings.EqualFold(p.Name, strings.TrimSpace(name)) {
			return p.Latest(""), nil
		}
	}
	return nil, nil
}

// projectFabrics reads which cloth a garment has, and what it costs.
func (s *Studio) projectFabrics(ctx context.Context, out *ProjectSheet) error {
	costs, err := s.GarmentCosts(ctx)
	if err != nil {
		return err
	}
	for _, c := range costs {
		if c.Garment.ID == out.Garment.ID {
			out.Cost = c
		}
	}
	kept, err := s.Reservations(ctx, out.Garment.ID)
	if err != nil {
		return err
	}
	uses := map[stash.ID][]string{}
	for _, r := range kept {
		uses[r.ClothID] = append(uses[r.ClothID], r.UsedFor)
	}
	for _, part := range out.Cost.Cloth {
		c, err := s.Cloth(ctx, part.ClothID)
		if err != nil {
			return err
		}
		f := ProjectFabric{Fabric: c.Fabric, Code: c.Cloth.Code, Part: part}
		if part.Planned {
			f.UsedFor = strings.Join(uses[part.ClothID], ", ")
		}
		out.Fabrics = append(out.Fabrics, f)
	}
	return nil
}

func (s *Studio) projectPhotos(ctx context.Context, out *ProjectSheet) error {
	all, err := s.Photos(ctx, out.Garment.ID)
	if err != nil {
		return err
	}
	for _, p := range all[max(0, len(all)-mostProjectPhotos):] {
		jpeg, err := s.Picture(ctx, p.Digest, true)
		if err != nil {
			return err
		}
		out.Photos = append(out.Photos, ProjectPhoto{p, jpeg})
	}
	return nil
}
