package db_test

import (
	"context"
	"errors"
	"flag"
	"os"
	"path/filepath"
	"runtime"
	"sync"
	"testing"

	"tallycloth/db"
	"tallycloth/planner"
	"tallycloth/planner/plannertest"
	"tallycloth/stash"

	"github.com/google/uuid"
)

var large = flag.String("large", "", "keep the large library of the benchmarks in this folder, to look at in the window; an existing one is used")

// largeLibrary is the folder of a library with 10 000 fabrics, 30 000 cloths and 300 000
// movements, written once for a test binary.
var largeLibrary = sync.OnceValues(func() (string, error) {
	folder := *large
	if folder == "" {
		made, err := os.MkdirTemp("", "tallycloth-large-")
		if err != nil {
			return "", err
		}
		folder, madeLarge = made, made
	}
	if _, err := os.Stat(filepath.Join(folder, "library.db")); err == nil {
		return folder, nil
	}
	newID := func() stash.ID { return uuid.Must(uuid.NewV7()) }
	l, err := db.Open(context.Background(), folder, db.Options{NewID: newID})
	if err != nil {
		return "", err
	}
	return folder, errors.Join(plannertest.LargeShelf(newID).Fill(context.Background(), l), l.Close())
})

func TestMain(m *testing.M) {
	flag.Parse()
	code := m.Run()
	if madeLarge != "" {
		os.RemoveAll(madeLarge)
	}
	os.Exit(code)
}

// madeLarge is the folder that is taken away again.
var madeLarge string

func largeFolder(b *testing.B) string {
	b.Helper()
	folder, err := largeLibrary()
	if err != nil {
		b.Fatal(err)
	}
	return folder
}

// openLarge opens the large library with the services over it.
func openLarge(b *testing.B) (*db.Library, *planner.Studio) {
	b.Helper()
	l, err := db.Open(b.Context(), largeFolder(b), db.Options{})
	if err != nil {
		b.Fatal(err)
	}
	return l, planner.NewStudio(planner.Config{Store: l, NewID: func() stash.ID { return uuid.Must(uuid.NewV7()) }})
}

// memory is the heap in use after a collection, in MB.
func memory() float64 {
	var m runtime.MemStats
	runtime.GC()
	runtime.ReadMemStats(&m)
	return float64(m.HeapInuse) / (1 << 20)
}

// BenchmarkOpenLibrary10k opens the large library and reads all that the list of the shelf
// shows. It reports the memory that this takes and the size of the library's file.
func BenchmarkOpenLibrary10k(b *testing.B) {
	info, err := os.Stat(filepath.Join(largeFolder(b), "library.db"))
	if err != nil {
		b.Fatal(err)
	}
	before := memory()
	var held float64
	for b.Loop() {
		l, s := openLarge(b)
		cloths, err1 := s.Cloths(b.Context())
		fabrics, err2 := s.Fabrics(b.Context())
		garments, err3 := s.Garments(b.Context())
		if err := errors.Join(err1, err2, err3); err != nil || len(cloths) != 30_000 || len(fabrics) != 10_000 {
			b.Fatal(len(cloths), len(fabrics), err)
		}
		b.StopTimer()
		held = memory() - before
		runtime.KeepAlive([]any{cloths, fabrics, garments})
		if err := l.Close(); err != nil {
			b.Fatal(err)
		}
		b.StartTimer()
	}
	b.ReportMetric(held, "MB-held")
	b.ReportMetric(float64(info.Size())/(1<<20), "MB-file")
}

// BenchmarkDetail10k reads all that the detail of one cloth shows, of another each time.
func BenchmarkDetail10k(b *testing.B) {
	l, s := openLarge(b)
	defer l.Close()
	cloths, err := s.Cloths(b.Context())
	if err != nil {
		b.Fatal(err)
	}
	i := 0
	for b.Loop() {
		id := cloths[i*7919%len(cloths)].Cloth.ID
		i++
		from, err1 := s.Origin(b.Context(), id)
		photos, err2 := s.Photos(b.Context(), id)
		lines, err3 := s.Movements(b.Context(), id)
		if err := errors.Join(err1, err2, err3); err != nil || len(lines) != plannertest.LinesOfCloth || from.Purchase.ID == stash.NoID || len(photos) > 0 {
			b.Fatal(len(lines), err)
		}
	}
}
