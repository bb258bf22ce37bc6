package db

import (
	"bytes"
	"context"
	"errors"
	"fmt"
	"image"
	"image/png"
	"math/rand/v2"
	"strings"
	"testing"
	"time"

	"tallycloth/planner"
	"tallycloth/stash"
	"tallycloth/stash/measure"

	"github.com/google/uuid"
)

// room leaves a number of pages for the library to grow by, as a disk that fills up does.
func (l *Library) room(ctx context.Context, more int) error {
	var pages int
	if err := l.writer.QueryRowContext(ctx, `PRAGMA page_count`).Scan(&pages); err != nil {
		return err
	}
	_, err := l.writer.ExecContext(ctx, fmt.Sprintf(`PRAGMA max_page_count = %d`, pages+more))
	return err
}

// listOf is a list of a number of fabrics.
func listOf(rows int) []byte {
	var b strings.Builder
	b.WriteString("fabric,length,width,price,bought on\n")
	for i := range rows {
		fmt.Fprintf(&b, "linden rib %d,1.5 m,150 cm,12.50 EUR,2026-01-%02d\n", i/3, 1+i%28)
	}
	return []byte(b.String())
}

// noisy is a picture that does not get smaller by packing.
func noisy() ([]byte, error) {
	img := image.NewRGBA(image.Rect(0, 0, 300, 300))
	random := rand.New(rand.NewPCG(1, 2))
	for i := range img.Pix {
		img.Pix[i] = byte(random.Uint32())
	}
	var b bytes.Buffer
	err := png.Encode(&b, img)
	return b.Bytes(), err
}

func newID() stash.ID { return uuid.Must(uuid.NewV7()) }

// TestDiskFullInAnAct: the disk fills up in the middle of a list, a photo and a purchase.
// The sentence says so, nothing of the act is there, all else is in order; once there is
// room the same act succeeds.
func TestDiskFullInAnAct(t *testing.T) {
	ctx := t.Context()
	l, err := Open(ctx, t.TempDir(), Options{})
	if err != nil {
		t.Fatal(err)
	}
	defer l.Close()
	s := planner.NewStudio(planner.Config{Store: l, Now: time.Now, NewID: newID})
	first, err := s.LogPurchase(ctx, planner.PurchaseForm{Fabric: stash.Fabric{Name: "moss jersey", Construction: stash.Jersey, FullWidth: 150 * measure.Centimetre}, Length: 2 * measure.Metre})
	if err != nil {
		t.Fatal(err)
	}
	file, err := noisy()
	if err != nil {
		t.Fatal(err)
	}
	many := planner.Buying{Supplier: "market stall"}
	for i := range 60 {
		many.Lines = append(many.Lines, planner.BuyingLine{Fabric: stash.Fabric{Name: fmt.Sprint("fog terry ", i), Construction: stash.FrenchTerry, FullWidth: 170 * measure.Centimetre}, Length: measure.Metre})
	}
	for name, do := range map[string]func() error{
		"a list": func() error {
			d, err := s.ReadList(ctx, "list.csv", listOf(300), "")
			if err != nil {
				return err
			}
			shown, err := s.PlanList(ctx, d)
			if err == nil {
				_, err = s.ImportList(ctx, d, shown, false)
			}
			return err
		},
		"a photo": func() error {
			_, err := s.AddPhoto(ctx, planner.PhotoForm{Of: stash.OfCloth, OfID: first.Cloth.ID, File: file})
			return err
		},
		"a purchase": func() error { _, err := s.LogBuying(ctx, many); return err },
	} {
		before, err := l.Acts(ctx, 0)
		if err != nil {
			t.Fatal(err)
		}
		for _, pages := range []int{0, 1, 5} {
			if err := l.room(ctx, pages); err != nil {
				t.Fatal(err)
			}
			err := do()
			var own *stash.Error
			if !errors.As(err, &own) || !strings.Contains(own.What, "disk is full, nothing was saved") || !strings.Contains(own.Do, "Make room") {
				t.Errorf("%s with room for %d pages: %v", name, pages, err)
			}
			now, err := l.Acts(ctx, 0)
			if err := errors.Join(err, l.InOrder(ctx)); err != nil || len(now) != len(before) {
				t.Errorf("%s with room for %d pages left %d acts more, %v", name, pages, len(now)-len(before), err)
			}
		}
		if err := l.room(ctx, 1<<20); err != nil {
			t.Fatal(err)
		}
		if err := errors.Join(do(), l.InOrder(ctx)); err != nil {
			t.Errorf("%s once there was room: %v", name, err)
		}
	}
}

// TestStaleLock: a lock file that a killed program left behind keeps nobody out; who holds
// one is named.
func TestStaleLock(t *testing.T) {
	folder := t.TempDir()
	l, err := Open(t.Context(), folder, Options{})
	if err != nil {
		t.Fatal(err)
	}
	_, err = Open(t.Context(), folder, Options{})
	var own *stash.Error
	if !errors.As(err, &own) || !strings.Contains(own.What, "process") || !strings.Contains(own.Do, "read-only") {
		t.Errorf("a second window: %v", err)
	}
	if err := l.Close(); err != nil { // the lock file stays, with the name of one who is gone
		t.Fatal(err)
	}
	again, err := Open(t.Context(), folder, Options{})
	if err != nil {
		t.Fatalf("after the first had gone: %v", err)
	}
	if err := again.Close(); err != nil {
		t.Error(err)
	}
}

// BenchmarkList100k brings a list of 100 000 rows in: reading it, the dry run, writing it as
// one act.
func BenchmarkList100k(b *testing.B) {
	data := listOf(100_000)
	for b.Loop() {
		l, err := Open(b.Context(), b.TempDir(), Options{})
		if err != nil {
			b.Fatal(err)
		}
		s := planner.NewStudio(planner.Config{Store: l, Now: time.Now, NewID: newID})
		began := time.Now()
		took := func(what string) {
			b.ReportMetric(time.Since(began).Seconds(), what)
			began = time.Now()
		}
		d, err := s.ReadList(b.Context(), "list.csv", data, "")
		if err != nil {
			b.Fatal(err)
		}
		took("s-read")
		shown, err := s.PlanList(b.Context(), d)
		if err != nil {
			b.Fatal(err)
		}
		took("s-dry-run")
		if _, err := s.ImportList(b.Context(), d, shown, false); err != nil {
			b.Fatal(err)
		}
		took("s-write")
		if err := l.Close(); err != nil {
			b.Fatal(err)
		}
	}
}

// TestImportStopsHalfway: a list that is stopped while it is written leaves nothing; the same
// list comes in afterwards, and it says how far it is.
func TestImportStopsHalfway(t *testing.T) {
	ctx := t.Context()
	l, err := Open(ctx, t.TempDir(), Options{})
	if err != nil {
		t.Fatal(err)
	}
	defer l.Close()
	s := planner.NewStudio(planner.Config{Store: l, Now: time.Now, NewID: newID})
	d, err := s.ReadList(ctx, "list.csv", listOf(1500), "")
	if err != nil {
		t.Fatal(err)
	}
	shown, err := s.PlanList(ctx, d)
	if err != nil {
		t.Fatal(err)
	}
	stopped, stop := context.WithCancel(ctx)
	d.Report = func(done, of int) { stop() }
	if _, err := s.ImportList(stopped, d, shown, false); !errors.Is(err, context.Canceled) {
		t.Errorf("stopped: %v", err)
	}
	fabrics, err := s.Fabrics(ctx)
	if err := errors.Join(err, l.InOrder(ctx)); err != nil || len(fabrics) != 0 {
		t.Errorf("%d fabrics are there after it was stopped, %v", len(fabrics), err)
	}
	var told [][2]int
	d.Report = func(done, of int) { told = append(told, [2]int{done, of}) }
	if _, err := s.ImportList(ctx, d, shown, false); err != nil {
		t.Fatal(err)
	}
	if n := len(told); n < 2 || told[n-1][0] != told[n-1][1] || told[0][0] >= told[1][0] {
		t.Errorf("it told %v", told)
	}
	if cloths, err := s.Cloths(ctx); err != nil || len(cloths) != 1500 {
		t.Errorf("%d cloths, %v", len(cloths), err)
	}
}
