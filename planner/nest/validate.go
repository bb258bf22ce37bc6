package nest

import (
	"fmt"

	"tallycloth/stash/shape"
)

// Validate refuses an instance that cannot be a question, with a reason that
// names the fabric or the item.
func (in Instance) Validate() error {
	if len(in.Fabrics) == 0 {
		return fmt.Errorf("no fabric was given")
	}
	if in.Clearance < 0 {
		return fmt.Errorf("the clearance is below zero")
	}
	if in.Clearance > shape.MaxCoordinate {
		return fmt.Errorf("the clearance is too large")
	}
	if in.Ask < LeastLength || in.Ask > BestSubset {
		return fmt.Errorf("what is asked for (%d) is not known", in.Ask)
	}
	for i, f := range in.Fabrics {
		if err := f.validate(in.Ask); err != nil {
			return fmt.Errorf("fabric %d: %w", i, err)
		}
	}
	for i, it := range in.Items {
		if err := in.validateItem(it); err != nil {
			return fmt.Errorf("item %d: %w", i, err)
		}
	}
	return nil
}

func (f Fabric) validate(ask Ask) error {
	switch {
	case len(f.Outline.Outer) > 0:
		if err := f.Outline.Validate(); err != nil {
			return err
		}
	case f.Width <= 0:
		return fmt.Errorf("its width is not above zero")
	case f.Length < 0:
		return fmt.Errorf("its length is below zero")
	case f.Length == 0 && ask != LeastLength:
		return fmt.Errorf("it has no length")
	case f.Width > shape.MaxCoordinate || f.Length > shape.MaxCoordinate:
		return fmt.Errorf("it is too large")
	}
	for i, o := range f.Obstacles {
		if err := o.Validate(); err != nil {
			return fmt.Errorf("obstacle %d: %w", i, err)
		}
	}
	return f.validateBands()
}

// validateBands: bands run from low y to high y without overlapping.
func (f Fabric) validateBands() error {
	for i, b := range f.Bands {
		switch {
		case b.To <= b.From || b.Layers < 1 || b.Layers > 2:
			return fmt.Errorf("band %d is empty or has %d layers", i, b.Layers)
		case i > 0 && b.From < f.Bands[i-1].To:
			return fmt.Errorf("band %d begins before the one below it ends", i)
		case len(f.Outline.Outer) == 0 && (b.From < 0 || b.To > f.Width):
			return fmt.Errorf("band %d reaches over the width of %.1f mm", i, float64(f.Width)/1000)
		}
	}
	return nil
}

func (in Instance) validateItem(it Item) error {
	switch {
	case it.Group != NoGroup && (it.Group < 0 || it.Group >= len(in.Groups)):
		return fmt.Errorf("its group %d is not there", it.Group)
	case it.Count < 0:
		return fmt.Errorf("its count is below zero")
	case it.Mirror < AsDrawn || it.Mirror > EitherFace || it.Layers < 0 || it.Layers > 2:
		return fmt.Errorf("its mirroring (%d) or its layers (%d) cannot be", it.Mirror, it.Layers)
	case it.Repeat < 0 || it.Tilt < 0 || it.Tilt > 2000:
		return fmt.Errorf("its repeat or its tilt (at most 2°) cannot be")
	case len(it.Pinned) > max(it.Count, 1):
		return fmt.Errorf("more copies are pinned than there are")
	}
	if err := it.Outline.Validate(); err != nil {
		return err
	}
	if it.OnFold && it.Outline.Bounds().Min.Y != 0 {
		return fmt.Errorf("its fold edge does not lie on y = 0")
	}
	for _, p := range it.Pinned {
		if p.Fabric < 0 || p.Fabric >= len(in.Fabrics) {
			return fmt.Errorf("it is pinned to fabric %d, which is not there", p.Fabric)
		}
	}
	return nil
}
