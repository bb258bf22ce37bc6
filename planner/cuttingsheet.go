package planner

import (
	"cmp"
	"context"
	"fmt"
	"math"
	"slices"

	"tallycloth/planner/garment"
	"tallycloth/planner/leftover"
	"tallycloth/planner/match"
	"tallycloth/planner/pattern"
	"tallycloth/stash"
	"tallycloth/stash/measure"
	"tallycloth/stash/shape"
)

// CuttingSheet is all that is wanted at the table on cutting day: for a garment all its cloth,
// for a cloth all that is cut from it.
type CuttingSheet struct {
	Title    string
	Garments []SheetGarment
	Cloths   []SheetCloth
	Planned  bool // by a batch; nothing is reserved for it
}

// SheetGarment is a garment of a cutting sheet.
type SheetGarment struct {
	Garment garment.Garment
	Pattern pattern.Pattern
	Notions []NotionAsked
}

// NotionAsked is a notion that a pattern asks for, with what is on hand of it.
type NotionAsked struct {
	Name     string
	Quantity float64
	Unit     string
	OnHand   float64
	Known    bool // there is such a notion in the library
}

// SheetCloth is one cloth of a cutting sheet.
type SheetCloth struct {
	State  stash.ClothState
	Pieces []SheetPiece // in the order in which they lie, from the trued end
	Others []SheetOther // reserved for garments that are not on the sheet
	Folds  []int64      // y of each; none: one layer
	// Trued is the x of the line from which lengths are measured: the end of the cloth, or where
	// it is trued.
	Trued int64
	Left  []leftover.Leftover // worth keeping once all is cut
	keep  leftover.Limits
	lies  shape.Box // what counts of the cloth
	// UsedLength is the length on which pieces lie, UsedWidth from the lowest edge of a piece
	// to the highest.
	UsedLength, UsedWidth measure.Length
}

// SheetOther is what another garment has on a cloth.
type SheetOther struct {
	Garment string
	Outline shape.Ring
}

// SheetPiece is a pattern piece, or a strip, where it is cut.
type SheetPiece struct {
	Number  int // on the sheet of its cloth, from 1
	Garment int // index into the sheet's
	UsedFor string
	Name    string
	Outline shape.Ring
	Spoiled bool
	// Piece and Lie say which pattern piece it is and how it lies; Known is false for strips, for
	// what is kept by the yardage table, and where the pattern changed since.
	Known bool
	Piece pattern.Piece
	Size  string
	Lie   match.Lie
	// GrainFoot and GrainTop are the ends of its grain arrow on the cloth; equal for none.
	GrainFoot, GrainTop shape.Point
	// At is which of the garment's copies it is, from 1, of Of.
	At, Of int
	index  int // of the piece in its reservation
	kept   stash.ID
}

// Reservation returns which reservation it is part of, and which of its pieces it is.
func (p SheetPiece) Reservation() (id stash.ID, index int) { return p.kept, p.index }

// CuttingSheet puts the cutting sheet of a garment together, from what is reserved for it. It
// is refused where nothing is.
func (s *Studio) CuttingSheet(ctx context.Context, garmentID stash.ID) (CuttingSheet, error) {
	g, err := s.Garment(ctx, garmentID)
	if err != nil {
		return CuttingSheet{}, fmt.Errorf("putting a cutting sheet together: %w", err)
	}
	plan, err := cutPlan(ctx, s.Store, garmentID)
	if err != nil {
		return CuttingSheet{}, fmt.Errorf("putting a cutting sheet together: %w", err)
	}
	if len(plan) == 0 {
		return CuttingSheet{}, refused("Reserve its cloth first", "Nothing is reserved for %s", g.Name)
	}
	sheet := CuttingSheet{Title: g.Name}
	for _, c := range plan {
		if err := s.addCloth(ctx, &sheet, c.Cloth, func(r stash.Reservation) bool { return r.GarmentID == garmentID }); err != nil {
			return CuttingSheet{}, fmt.Errorf("putting a cutting sheet together: %w", err)
		}
	}
	return sheet, nil
}

// ClothSheet puts the cutting sheet of a cloth together: all that is reserved on it. It is
// refused where nothing is.
func (s *Studio) ClothSheet(ctx context.Context, clothID stash.ID) (CuttingSheet, error) {
	c, err := s.Cloth(ctx, clothID)
	if err != nil {
		return CuttingSheet{}, fmt.Errorf("putting a cutting sheet together: %w", err)
	}
	if len(c.Reservations) == 0 {
		return CuttingSheet{}, refused("Reserve it for a garment first", "Nothing is reserved on %s", c.Cloth.Code)
	}
	sheet := CuttingSheet{Title: c.Fabric.Name + " " + c.Cloth.Code}
	if err := s.addCloth(ctx, &sheet, c, func(stash.Reservation) bool { return true }); err != nil {
		return CuttingSheet{}, fmt.Errorf("putting a cutting sheet together: %w", err)
	}
	return sheet, nil
}

// addCloth adds a cloth, with the garments of what is cut from it.
func (s *Studio) addCloth(ctx context.Context, sheet *CuttingSheet, c stash.ClothState, cuts func(stash.Reservation) bool) error {
	out, err := s.sheetCloth(ctx, c)
	if err != nil {
		return err
	}
	for _, r := range c.Reservations {
		if !cuts(r) {
			if err := s.addOther(ctx, &out, r); err != nil {
				return err
			}
			continue
		}
		k, err := s.sheetGarment(ctx, sheet, r.GarmentID)
		if err != nil {
			return err
		}
		out.add(k, sheet.Garments[k], r)
	}
	out.finish()
	sheet.Cloths = append(sheet.Cloths, out)
	return nil
}

// sheetCloth is a cloth on which nothing lies yet.
func (s *Studio) sheetCloth(ctx context.Context, c stash.ClothState) (SheetCloth, error) {
	set, err := s.Settings(ctx)
	out := SheetCloth{State: c, keep: set.Leftovers(), lies: match.Counts(c, set.EndLoss)}
	if c.Cloth.RawStart {
		out.Trued = int64(set.EndLoss)
	}
	return out, err
}

// add takes in what is reserved for a garment, the k-th of the sheet.
func (c *SheetCloth) add(k int, g SheetGarment, r stash.Reservation) {
	for i, p := range r.Pieces {
		piece := SheetPiece{Garment: k, UsedFor: r.UsedFor, Name: p.Name, Outline: p.Outline, Spoiled: p.Spoiled, Size: g.Garment.Size, index: i, kept: r.ID}
		piece.recognise(g.Pattern, r.UsedFor, p)
		c.Pieces = append(c.Pieces, piece)
	}
}

func (s *Studio) addOther(ctx context.Context, c *SheetCloth, r stash.Reservation) error {
	g, err := s.Garment(ctx, r.GarmentID)
	if err != nil {
		return err
	}
	for _, p := range r.Pieces {
		c.Others = append(c.Others, SheetOther{Garment: g.Name, Outline: p.Outline})
	}
	return nil
}

// sheetGarment returns the index of a garment on the sheet, which it adds where it is not there.
func (s *Studio) sheetGarment(ctx context.Context, sheet *CuttingSheet, id stash.ID) (int, error) {
	if k := slices.IndexFunc(sheet.Garments, func(g SheetGarment) bool { return g.Garment.ID == id }); k >= 0 {
		return k, nil
	}
	g, err := s.Garment(ctx, id)
	if err != nil {
		return 0, err
	}
	p, err := s.Pattern(ctx, g.PatternID)
	if err != nil {
		return 0, err
	}
	if p, err = asCut(p, g); err != nil {
		return 0, err
	}
	return s.addGarment(ctx, sheet, g, p)
}

// addGarment adds a garment, and returns its index.
func (s *Studio) addGarment(ctx context.Context, sheet *CuttingSheet, g garment.Garment, p pattern.Pattern) (int, error) {
	there, err := s.Notions(ctx)
	if err != nil {
		return 0, err
	}
	sheet.Garments = append(sheet.Garments, SheetGarment{Garment: g, Pattern: p, Notions: notionsAsked(p, g.Size, there)})
	return len(sheet.Garments) - 1, nil
}

// notionsAsked are the notions of a pattern in a size, with what is on hand.
func notionsAsked(p pattern.Pattern, size string, there []stash.Notion) []NotionAsked {
	var out []NotionAsked
	for _, n := range p.Notions {
		quantity, ok := n.Quantity[size]
		if !ok {
			quantity = n.Quantity[""]
		}
		ask := NotionAsked{Name: n.Name, Quantity: quantity, Unit: n.Unit}
		for _, t := range there {
			if !t.Serves(n.Name, n.Kind, n.Unit) {
				continue
			}
			if q, ok := stash.ConvertQuantity(t.Quantity, t.Unit, n.Unit); ok {
				ask.Known = true
				ask.OnHand += q
			}
		}
		out = append(out, ask)
	}
	return out
}

// recognise finds which pattern piece an outline is, and where its grain arrow lies.
func (p *SheetPiece) recognise(pat pattern.Pattern, usedFor string, r stash.ReservedPiece) {
	best := math.Inf(1)
	for _, q := range pat.PiecesOf(usedFor, p.Size) {
		cut, err := match.AsCut(pat, q, p.Size)
		if err != nil {
			continue
		}
		l, ok := match.LieOf(cut, r.Outline, r.GrainTo)
		if !ok {
			continue
		}
		off := math.Abs(l.Along-1) + math.Abs(l.Across-1)
		if q.Name != r.Name {
			off += 10
		}
		if off < best {
			best, p.Known, p.Piece, p.Lie = off, true, q, l
		}
	}
	o := p.Piece.Outlines[p.Size]
	if p.Known && o.GrainFoot != o.GrainTop {
		p.GrainFoot, p.GrainTop = p.Lie.At(o.GrainFoot), p.Lie.At(o.GrainTop)
		return
	}
	if usedFor != pattern.Binding { // strips are rectangles, measured by their corners
		p.GrainFoot, p.GrainTop = middleArrow(r)
	}
}

// middleArrow is a grain arrow of our own through the middle of an outline, over three fifths
// of it.
func middleArrow(r stash.ReservedPiece) (foot, top shape.Point) {
	b := r.Outline.Bounds()
	mid := shape.Point{X: (b.Min.X + b.Max.X) / 2, Y: (b.Min.Y + b.Max.Y) / 2}
	long := math.Hypot(float64(r.GrainTo.X), float64(r.GrainTo.Y))
	if long == 0 {
		return mid, mid
	}
	ux, uy := float64(r.GrainTo.X)/long, float64(r.GrainTo.Y)/long
	reach := 0.3 * (math.Abs(ux)*float64(b.Length()) + math.Abs(uy)*float64(b.Width()))
	off := shape.Point{X: int64(math.Round(ux * reach)), Y: int64(math.Round(uy * reach))}
	return mid.Sub(off), mid.Add(off)
}

// finish orders and numbers the pieces and works out what follows from them.
func (c *SheetCloth) finish() {
	slices.SortStableFunc(c.Pieces, func(a, b SheetPiece) int {
		p, q := a.Outline.Bounds().Min, b.Outline.Bounds().Min
		return cmp.Or(cmp.Compare(p.X, q.X), cmp.Compare(p.Y, q.Y))
	})
	type kind struct {
		garment int
		name    string
	}
	count := map[kind]int{}
	var cut, sound []shape.Ring
	var box shape.Box
	for i := range c.Pieces {
		p := &c.Pieces[i]
		p.Number = i + 1
		if !p.Spoiled { // what is spoiled is none of those that are wanted
			count[kind{p.Garment, p.Name}]++
			p.At = count[kind{p.Garment, p.Name}]
		}
		cut = append(cut, p.Outline)
		if !p.Spoiled && p.UsedFor != pattern.Binding {
			sound = append(sound, p.Outline)
		}
		b := p.Outline.Bounds()
		if i == 0 {
			box = b
		}
		box = shape.Box{Min: shape.Point{X: min(box.Min.X, b.Min.X), Y: min(box.Min.Y, b.Min.Y)}, Max: shape.Point{X: max(box.Max.X, b.Max.X), Y: max(box.Max.Y, b.Max.Y)}}
	}
	for i := range c.Pieces {
		p := &c.Pieces[i]
		p.Of = count[kind{p.Garment, p.Name}]
	}
	c.UsedLength, c.UsedWidth = lengthUsed(c.Pieces), measure.Length(box.Width())
	c.Folds = match.FoldsOf(c.lies, sound)
	for _, o := range c.Others {
		cut = append(cut, o.Outline)
	}
	c.Left = leftover.Of(c.State.Cloth, cut, c.keep)
}

// lengthUsed is the length on which pieces lie, which are in the order of where they begin.
func lengthUsed(pieces []SheetPiece) measure.Length {
	var used, upto int64 = 0, math.MinInt64
	for _, p := range pieces {
		b := p.Outline.Bounds()
		if b.Max.X > upto {
			used += b.Max.X - max(upto, b.Min.X)
			upto = b.Max.X
		}
	}
	return measure.Length(used)
}
