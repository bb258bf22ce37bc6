package match_test

import (
	"context"
	"testing"

	"tallycloth/planner/pattern"
	"tallycloth/stash"
	"tallycloth/stash/measure"
	"tallycloth/stash/shape"
)

// shelf is n cloths of the demo kind: lengths of ten widths, some with a part reserved,
// and one in five an odd leftover.
func shelf(n int) []stash.ClothState { return shelfOf(n, 10) }

// shelfOf has so many widths between 1.1 and 1.9 m.
func shelfOf(n, widths int) []stash.ClothState {
	var out []stash.ClothState
	for i := range n {
		f := jersey(measure.Length(1100+800*(i%widths)/widths) * mm)
		f.ID = id(1000 + i%25)
		f.Direction = stash.Direction(i % 3)
		if i%4 == 3 {
			f.Construction, f.Crosswise.Stretch = stash.Ponte, stash.Measured(15*pc)
		}
		c := lengthOf(f, measure.Length(30+13*(i%17))*cm)
		if i%5 == 4 {
			c = leftoverOf(f, armholeCut(int64(700+40*(i%9)), int64(500+60*(i%7))))
		} else if i%7 == 5 {
			c = withReserved(c, shape.Box{Min: shape.Point{X: 200_000, Y: 300_000}, Max: shape.Point{X: 290_000, Y: 600_000}})
		}
		c.Cloth.ID = id(2000 + i)
		out = append(out, c)
	}
	return out
}

// armholeCut is a leftover l × w mm with a round bite out of one side and a slanted end.
func armholeCut(l, w int64) shape.Polygon {
	mm := func(x, y int64) shape.Point { return shape.Point{X: x * 1000, Y: y * 1000} }
	return shape.Polygon{
		Outer: shape.Ring{mm(0, 0), mm(l, 0), mm(l-60, w), mm(l*2/3, w), mm(l*2/3-30, w-90), mm(l/2, w-120), mm(l/3+30, w-90), mm(l/3, w), mm(0, w)},
		Holes: []shape.Ring{{mm(l/2, 60), mm(l/2, 75), mm(l/2+20, 75), mm(l/2+20, 60)}},
	}
}

func withReserved(c stash.ClothState, boxes ...shape.Box) stash.ClothState {
	r := stash.Reservation{ID: id(300), ClothID: c.Cloth.ID, GarmentID: id(301), UsedFor: pattern.Main, Live: true}
	for _, b := range boxes {
		r.Pieces = append(r.Pieces, stash.ReservedPiece{Name: "other", Outline: b.Ring()})
	}
	return stash.StateOf(c.Cloth, c.Fabric, []stash.Reservation{r}, c.Area)
}

func BenchmarkCheckCloth(b *testing.B) {
	tank, tee, _ := demo(b)
	for _, p := range []pattern.Pattern{tank, tee} {
		b.Run(p.Kind, func(b *testing.B) {
			c := lengthOf(jersey(150*cm), 200*cm)
			for b.Loop() {
				verdict(b, askFor(p, "4"), c)
			}
		})
		b.Run(p.Kind+" leftover", func(b *testing.B) {
			c := leftoverOf(jersey(150*cm), armholeCut(1600, 1200))
			for b.Loop() {
				verdict(b, askFor(p, "4"), c)
			}
		})
	}
}

func BenchmarkStashSweep(b *testing.B) { benchmarkSweep(b, 200, 10) }

// BenchmarkStashSweep1000 answers one pattern size for a thousand cloths of ten widths.
// The goal is 3 s with two workers, for each of the demo patterns.
func BenchmarkStashSweep1000(b *testing.B) { benchmarkSweep(b, 1000, 10) }

// BenchmarkStashSweepWidths is the same with eighty widths, a centimetre apart.
func BenchmarkStashSweepWidths(b *testing.B) { benchmarkSweep(b, 1000, 80) }

func benchmarkSweep(b *testing.B, n, widths int) {
	tank, tee, shorts := demo(b)
	for _, p := range []pattern.Pattern{tank, tee, shorts} {
		b.Run(p.Kind, func(b *testing.B) {
			cloths := shelfOf(n, widths)
			for b.Loop() {
				if _, err := ask(b, askFor(p, "4")).Sweep(context.Background(), cloths, 2, nil); err != nil {
					b.Fatal(err)
				}
			}
		})
	}
}
