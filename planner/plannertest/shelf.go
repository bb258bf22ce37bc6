package plannertest

import (
	"context"
	"errors"
	"fmt"
	"math"

	"tallycloth/planner"
	"tallycloth/planner/garment"
	"tallycloth/planner/pattern"
	"tallycloth/stash"
	"tallycloth/stash/measure"
	"tallycloth/stash/shape"
)

// Shelf makes a stash as large as one likes, always the same for the same IDs, to measure
// with: every fabric has several cloths, every cloth a history of ten lines, one in five
// cloths is a leftover with an outline, and one in ten has curved pattern pieces reserved.
type Shelf struct {
	Fabrics, Cloths int
	NewID           func() stash.ID
	fabrics         []stash.Fabric
	pattern         pattern.Pattern
}

// LargeShelf is a studio's whole life: 10 000 fabrics, 30 000 cloths, 300 000 movements.
func LargeShelf(newID func() stash.ID) *Shelf {
	return &Shelf{Fabrics: 10_000, Cloths: 30_000, NewID: newID}
}

// LinesOfCloth is how many lines of history each cloth gets.
const LinesOfCloth = 10

var (
	shelfColours = []string{"moss", "brick", "slate", "linden", "plum", "sand", "fjord", "ember", "chalk", "reed", "teal"}
	shelfMakes   = []stash.Construction{stash.Jersey, stash.Rib, stash.Interlock, stash.FrenchTerry, stash.Ponte, stash.SwimKnit, stash.WovenPlain}
	shelfPlaces  = []string{"hall cupboard", "shelf 1", "shelf 2", "blue box", "under the table", "attic", "studio drawer"}
	shelfBlends  = []stash.Fibres{{{Name: "cotton", Share: 9500}, {Name: "elastane", Share: 500}}, {{Name: "viscose", Share: 10_000}}, {{Name: "wool", Share: 7000}, {Name: "polyamide", Share: 3000}}}
)

// Fabric is the fabric of that number.
func (s *Shelf) Fabric(i int) stash.Fabric {
	f := stash.Fabric{
		ID: s.NewID(), Name: fmt.Sprintf("%s %s %04d", shelfColours[i%len(shelfColours)], shelfMakes[i%len(shelfMakes)], i),
		Construction: shelfMakes[i%len(shelfMakes)], Fibres: shelfBlends[i%len(shelfBlends)], Weight: measure.Weight(140_000 + 1000*(i%150)),
		FullWidth: measure.Length(1_400_000 + 10_000*(i%40)), Colour: fmt.Sprintf("#%06x", i*7919%0x1000000),
		ColourName: shelfColours[i*5%len(shelfColours)], Care: "30 °C", Supplier: fmt.Sprintf("market stall %d", i%60),
	}
	if i%3 == 0 { // the others are not measured yet
		f.Crosswise = stash.Grain{Stretch: stash.Measured(measure.Percent(2000 + 100*(i%70))), Recovery: stash.Measured(9100)}
		f.Stitches = []stash.StitchNote{{Seam: "side", Stitch: "narrow zigzag", Width: "0.5", Length: "2.5", Needle: "75/11 ball point"}}
	}
	return f
}

// Cloth is the cloth of that number, of a fabric.
func (s *Shelf) Cloth(i int, f stash.Fabric) stash.Cloth {
	c := stash.Cloth{ID: s.NewID(), FabricID: f.ID, Code: fmt.Sprintf("S%05d", i), Place: shelfPlaces[i%len(shelfPlaces)],
		Length: measure.Length(800_000 + 10_000*(i%250)), Width: f.FullWidth, RawStart: true, RawEnd: true, SelvedgeLow: true, SelvedgeHigh: true}
	if i%3 == 1 {
		c.Lot = fmt.Sprintf("L%d", i%90)
	}
	if i%5 == 4 {
		c.RawStart, c.RawEnd, c.SelvedgeLow, c.SelvedgeHigh = false, false, false, false
		c = c.Shaped(shape.Polygon{Outer: Curve(0, 0, int64(250_000+1000*(i%200)), 14)})
	}
	return c
}

// Curve is a closed outline of a number of points round a circle, its bounds from (x, y) on.
func Curve(x, y, radius int64, points int) shape.Ring {
	out := make(shape.Ring, points)
	for i := range out {
		sin, cos := math.Sincos(2 * math.Pi * float64(i) / float64(points))
		out[i] = shape.Point{X: x + radius + int64(float64(radius)*cos), Y: y + radius + int64(float64(radius)*sin)}
	}
	return out
}

// Fill writes the shelf in few large acts.
func (s *Shelf) Fill(ctx context.Context, store planner.Store) error {
	s.pattern = SamplePattern(s.NewID(), "harbour tank")
	const fabrics, cloths = 2500, 1500 // of an act
	for from := 0; from < s.Fabrics; from += fabrics {
		_, err := store.Write(ctx, "Filled the shelf with fabrics", func(tx planner.Tx) error {
			if from == 0 {
				if err := tx.PutPattern(ctx, s.pattern); err != nil {
					return err
				}
			}
			for i := from; i < min(from+fabrics, s.Fabrics); i++ {
				s.fabrics = append(s.fabrics, s.Fabric(i))
				if err := tx.PutFabric(ctx, s.fabrics[i]); err != nil {
					return err
				}
			}
			return nil
		})
		if err != nil {
			return err
		}
	}
	for from := 0; from < s.Cloths; from += cloths {
		_, err := store.Write(ctx, "Filled the shelf with cloth", func(tx planner.Tx) error {
			for i := from; i < min(from+cloths, s.Cloths); i += 3 {
				if err := s.parcel(ctx, tx, i); err != nil {
					return err
				}
			}
			return nil
		})
		if err != nil {
			return err
		}
	}
	return nil
}

// parcel buys three cloths in one go and lives with them.
func (s *Shelf) parcel(ctx context.Context, tx planner.Tx, first int) error {
	p := stash.Purchase{ID: s.NewID(), Date: stash.Date(fmt.Sprintf("20%02d-%02d-%02d", 16+first%10, 1+first%12, 1+first%28)), Supplier: fmt.Sprintf("market stall %d", first%60),
		Postage: measure.Money{Minor: 490, Currency: "EUR"}}
	var bought []stash.Cloth
	for i := first; i < min(first+3, s.Cloths); i++ {
		c := s.Cloth(i, s.fabrics[i%len(s.fabrics)])
		c.PurchaseID = p.ID
		bought = append(bought, c)
		p.Lines = append(p.Lines, stash.PurchaseLine{FabricID: c.FabricID, ClothID: c.ID, Quantity: c.Length, Price: measure.Money{Minor: int64(900 + i%3000), Currency: "EUR"}})
	}
	if err := tx.PutPurchase(ctx, p); err != nil {
		return err
	}
	for k, c := range bought {
		if err := errors.Join(tx.PutCloth(ctx, c), tx.Append(ctx, stash.Arrived(stash.Bought, c, p.Supplier))); err != nil {
			return err
		}
		if err := s.life(ctx, tx, first+k, c); err != nil {
			return err
		}
	}
	return nil
}

// life is what happens to a cloth: nine lines.
func (s *Shelf) life(ctx context.Context, tx planner.Tx, i int, c stash.Cloth) error {
	put := func(line stash.Movement, after stash.Cloth) error {
		c = after
		return errors.Join(tx.PutCloth(ctx, after), tx.Append(ctx, line))
	}
	move := func(k int) error { return put(stash.Move(c, shelfPlaces[(i+k)%len(shelfPlaces)])) }
	line, after, err := stash.Wash(c, stash.AfterWashing(c.Length, -300), stash.AfterWashing(c.Width, -200), "30 °C")
	if err == nil {
		err = errors.Join(move(1), put(line, withPlace(after, shelfPlaces[(i+1)%len(shelfPlaces)])), move(2), s.again(ctx, tx, &c), move(3), s.again(ctx, tx, &c), move(4))
	}
	if err != nil {
		return err
	}
	return s.keep(ctx, tx, i, c)
}

func withPlace(c stash.Cloth, place string) stash.Cloth {
	c.Place = place
	return c
}

// again measures a cloth again, 2 mm shorter when it is a plain length.
func (s *Shelf) again(ctx context.Context, tx planner.Tx, c *stash.Cloth) error {
	before := *c
	if c.Plain() {
		c.Length -= 2 * measure.Millimetre
	}
	return errors.Join(tx.PutCloth(ctx, *c), tx.Append(ctx, stash.Resized(stash.MeasuredAgain, before, *c, "")))
}

// keep reserves part of a cloth for a garment: curved pattern pieces that stay reserved on
// one in ten, a strip that is released again on the others.
func (s *Shelf) keep(ctx context.Context, tx planner.Tx, i int, c stash.Cloth) error {
	g := garment.Garment{ID: s.NewID(), Name: fmt.Sprintf("harbour tank %d", i), PatternID: s.pattern.ID, Size: "M", State: garment.Reserved, Changed: "2026-01-05"}
	r := stash.Reservation{ID: s.NewID(), ClothID: c.ID, UsedFor: pattern.Main, Live: true}
	if i%10 == 0 {
		r.GarmentID = g.ID
		for k := range int64(2) {
			r.Pieces = append(r.Pieces, stash.ReservedPiece{Name: []string{"front", "back"}[k], Outline: Curve(k*330_000, 0, 160_000, 40), GrainTo: shape.Point{X: -1000}})
		}
		moved, after := stash.Move(c, "cutting table")
		return errors.Join(tx.PutGarment(ctx, g), tx.PutReservation(ctx, r), tx.Append(ctx, stash.ReservedLine(r, "")), tx.PutCloth(ctx, after), tx.Append(ctx, moved))
	}
	box := c.Polygon().Bounds() // a strip across the middle, in every outline there is
	x, y := (box.Min.X+box.Max.X)/2, (box.Min.Y+box.Max.Y)/2
	strip := shape.Box{Min: shape.Point{X: x - 20_000, Y: y - 100_000}, Max: shape.Point{X: x + 20_000, Y: y + 100_000}}
	r.UsedFor, r.Pieces = pattern.Binding, []stash.ReservedPiece{{Name: "strip", Outline: strip.Ring()}}
	if err := errors.Join(tx.PutReservation(ctx, r), tx.Append(ctx, stash.ReservedLine(r, ""))); err != nil {
		return err
	}
	line, released := stash.ReleasedLine(r, "")
	return errors.Join(tx.PutReservation(ctx, released), tx.Append(ctx, line))
}
