package stash_test

import (
	"errors"
	"slices"
	"strings"
	"testing"

	"tallycloth/stash"
	"tallycloth/stash/measure"
	"tallycloth/stash/shape"
	"tallycloth/stash/stashtest"

	"pgregory.net/rapid"
)

func TestUsable(t *testing.T) {
	ids := stashtest.IDs()
	f := stash.Fabric{FullWidth: 150 * cm, SelvedgeLoss: cm}
	c := stash.Cloth{ID: ids(), FabricID: ids(), Code: "A", Length: 200 * cm, Width: 150 * cm, RawStart: true, RawEnd: true, SelvedgeLow: true, SelvedgeHigh: true}
	if l, w := c.UsableLength(stash.RawEndLoss), c.UsableWidth(f.SelvedgeLoss); l != 196*cm || w != 148*cm {
		t.Errorf("raw: %d × %d", l, w)
	}
	if got, want := c.Usable(f, stash.RawEndLoss), (shape.Box{Min: shape.Point{X: 20_000, Y: 10_000}, Max: shape.Point{X: 1_980_000, Y: 1_490_000}}); got != want {
		t.Errorf("raw: %v, want %v", got, want)
	}
	c.RawStart, c.RawEnd, c.SelvedgeHigh = false, false, false
	if l, w := c.UsableLength(stash.RawEndLoss), c.UsableWidth(f.SelvedgeLoss); l != 200*cm || w != 149*cm {
		t.Errorf("trued, one selvedge: %d × %d", l, w)
	}
	c.RawStart, c.Length = true, cm
	if l, b := c.UsableLength(stash.RawEndLoss), c.Usable(f, stash.RawEndLoss); l != 0 || b != (shape.Box{}) {
		t.Errorf("shorter than its raw end: %d, %v", l, b)
	}
	left := stashtest.SampleLeftover(ids(), ids(), "B")
	left.RawStart = true // says nothing for a leftover
	if b := left.Usable(f, stash.RawEndLoss); b != left.Outline.Bounds() || left.UsableLength(stash.RawEndLoss) != left.Length {
		t.Errorf("leftover: %v", b)
	}
	tube := stash.Fabric{FullWidth: 50 * cm, Tubular: true}
	if tube.OpenWidth() != measure.Metre || f.OpenWidth() != 150*cm {
		t.Errorf("open widths: %d, %d", tube.OpenWidth(), f.OpenWidth())
	}
}

func TestCodes(t *testing.T) {
	ids := stashtest.IDs()
	store := stashtest.New(stashtest.Clock(), ids)
	seen := map[string]bool{}
	f := stashtest.SampleFabric(ids(), "jersey")
	_, err := store.Write(t.Context(), "Added a shelf of jersey", func(tx stash.Tx) error {
		if err := tx.PutFabric(t.Context(), f); err != nil {
			return err
		}
		for range 120 {
			c := stashtest.SampleLength(ids(), f.ID, "", cm)
			code, err := stash.NewCode(t.Context(), tx, c.ID)
			if err != nil {
				return err
			}
			if read, ok := stash.ReadCode(" " + strings.ToLower(code[:2]) + "-" + code[2:]); seen[code] || !ok || read != code || len(code) != 4 {
				t.Errorf("code %q read as %q, %v", code, read, ok)
			}
			seen[code], c.Code = true, code
			if err := errors.Join(tx.PutCloth(t.Context(), c), tx.Append(t.Context(), stash.Arrived(stash.Added, c, ""))); err != nil {
				return err
			}
		}
		return nil
	})
	if err != nil {
		t.Fatal(err)
	}
}

// TestReadCodeFindsSlips mistypes one sign or exchanges two neighbours of a code and
// expects it to be noticed every time.
func TestReadCodeFindsSlips(t *testing.T) {
	const signs = "CDFHJKLMNPRTVWXY2345679"
	store := stashtest.New(stashtest.Clock(), stashtest.IDs())
	rapid.Check(t, func(t *rapid.T) {
		var id stash.ID
		copy(id[:], rapid.SliceOfN(rapid.Byte(), 16, 16).Draw(t, "id"))
		code, err := stash.NewCode(t.Context(), store, id)
		if err != nil {
			t.Fatal(err)
		}
		for i := range len(code) {
			for _, c := range signs {
				slip := code[:i] + string(c) + code[i+1:]
				if _, ok := stash.ReadCode(slip); ok != (slip == code) {
					t.Fatalf("%s typed as %s", code, slip)
				}
			}
			if i > 0 {
				slip := code[:i-1] + code[i:i+1] + code[i-1:i] + code[i+1:]
				if _, ok := stash.ReadCode(slip); ok != (slip == code) {
					t.Fatalf("%s exchanged to %s", code, slip)
				}
			}
		}
	})
	for _, text := range []string{"", "K7", "BOIS", "ÄÖÜß", strings.Repeat("C", 30)} {
		if code, ok := stash.ReadCode(text); ok {
			t.Errorf("%q reads as %q", text, code)
		}
	}
}

func TestTrueAndWash(t *testing.T) {
	ids := stashtest.IDs()
	c := stashtest.SampleLength(ids(), ids(), "A", 200*cm)
	line, trued, err := stash.True(c, 196*cm, "")
	if err != nil || trued.RawStart || trued.RawEnd || line.Length != -4*cm || line.Kind != stash.Trued || c.Area()+line.Area != trued.Area() {
		t.Errorf("trued: %+v, %+v, %v", line, trued, err)
	}
	if _, same, err := stash.True(c, 201*cm, ""); !errors.Is(err, stash.ErrInvalid) || same.Length != c.Length {
		t.Errorf("trued longer: %v", err)
	}
	line, washed, err := stash.Wash(c, 190*cm, 150*cm, "")
	if err != nil || !washed.Washed || c.Area()+line.Area != washed.Area() || line.Length != -10*cm {
		t.Errorf("washed: %+v, %+v, %v", line, washed, err)
	}
	if _, _, err := stash.Wash(washed, 190*cm, 150*cm, ""); !errors.Is(err, stash.ErrConflict) {
		t.Errorf("washed twice: %v", err)
	}
	left := stashtest.SampleLeftover(ids(), ids(), "B")
	left.Washed = false
	line, small, err := stash.Wash(left, 57*cm, 39*cm, "")
	if err != nil || left.Area()+line.Area != small.Area() || len(small.Outline.Holes) != 1 {
		t.Errorf("leftover washed: %+v, %v", small, err)
	}
	if _, _, err := stash.Wash(left, 0, 39*cm, ""); !errors.Is(err, stash.ErrInvalid) {
		t.Errorf("washed to nothing: %v", err)
	}
}

func TestStillHold(t *testing.T) {
	ids := stashtest.IDs()
	c := stashtest.SampleLength(ids(), ids(), "A", 100*cm)
	at := func(x measure.Length) stash.Reservation {
		return stash.Reservation{ID: ids(), ClothID: c.ID, Live: true, Pieces: []stash.ReservedPiece{stashtest.SamplePiece("p", int64(x), 0, int64(10*cm), int64(10*cm))}}
	}
	in, out, over := at(0), at(95*cm), at(5*cm)
	held, lost := stash.StillHold(c, []stash.Reservation{in, out, over})
	if len(held) != 1 || held[0].ID != in.ID || len(lost) != 2 || lost[0].ID != out.ID {
		t.Errorf("held %d, lost %d", len(held), len(lost))
	}
}

// TestCutUp: area before = cut + kept + discarded, whatever is cut and kept.
func TestCutUp(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		ids := stashtest.IDs()
		c := stashtest.SampleLength(ids(), ids(), "A", 100*cm)
		job := stash.Cutting{Cloth: c, Note: "a test"}
		for i := range rapid.IntRange(0, 3).Draw(t, "reservations") {
			job.Cut = append(job.Cut, stash.Reservation{ID: ids(), ClothID: c.ID, Live: true, Pieces: []stash.ReservedPiece{
				stashtest.SamplePiece("p", int64(i)*200_000, 0, rapid.Int64Range(1, 200_000).Draw(t, "length"), rapid.Int64Range(1, 500_000).Draw(t, "width")),
			}})
		}
		for range rapid.IntRange(0, 3).Draw(t, "leftovers") {
			k := stashtest.SampleLength(ids(), c.FabricID, "K", measure.Length(rapid.Int64Range(1, 300_000).Draw(t, "kept")))
			k.Width = 50 * cm
			job.Leftovers = append(job.Leftovers, k)
		}
		lines, gone, cut, err := stash.CutUp(job)
		if err != nil {
			t.Fatal(err) // at most 3×0.1 + 3×0.15 of 1.55 m² is used
		}
		area, long := stash.Balance(lines, c.ID)
		if area != -c.Area() || long != -c.Length || !gone.Gone {
			t.Fatalf("the cloth loses %d of %d", -area, c.Area())
		}
		for _, k := range job.Leftovers {
			if area, long := stash.Balance(lines, k.ID); area != k.Area() || long != k.Length {
				t.Fatalf("a leftover gains %d, has %d", area, k.Area())
			}
		}
		if slices.ContainsFunc(cut, func(r stash.Reservation) bool { return r.Live }) || len(cut) != len(job.Cut) {
			t.Fatal("a reservation is live after it was cut")
		}
		if err := stash.CheckLines(lines, nil); err != nil {
			t.Fatal(err)
		}
	})
	c := stashtest.SampleLength(stashtest.IDs()(), stashtest.IDs()(), "A", 10*cm)
	if _, _, _, err := stash.CutUp(stash.Cutting{Cloth: c, Leftovers: []stash.Cloth{stashtest.SampleLength(c.ID, c.FabricID, "K", 11*cm)}}); !errors.Is(err, stash.ErrConflict) {
		t.Errorf("more kept than there was: %v", err)
	}
}
