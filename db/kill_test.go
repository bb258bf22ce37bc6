package db_test

import (
	"bufio"
	"bytes"
	"context"
	"errors"
	"fmt"
	"image"
	"image/color"
	"image/png"
	"math/rand/v2"
	"os"
	"os/exec"
	"path/filepath"
	"strconv"
	"strings"
	"sync"
	"testing"
	"time"

	"tallycloth/db"
	"tallycloth/planner"
	"tallycloth/planner/pattern"
	"tallycloth/planner/plannertest"
	"tallycloth/stash"
	"tallycloth/stash/measure"

	"github.com/google/uuid"
)

const (
	killers    = 4  // that go on beside each other, each with libraries of its own
	ofALibrary = 26 // kills until a new library is begun
)

// inTheMiddle is what makes the test binary the program that is killed: folder and seed.
const inTheMiddle = "TALLYCLOTH_TEST_WORK_UNTIL_KILLED"

// TestKilledAnywhere kills a program at random moments while it writes acts of every kind.
// Each time the library must open, all that must hold must hold, every act that was said to
// be saved must be there, and at most one more: nothing half done.
func TestKilledAnywhere(t *testing.T) {
	if asked := os.Getenv(inTheMiddle); asked != "" {
		folder, seed, _ := strings.Cut(asked, "|")
		n, err := strconv.ParseUint(seed, 10, 64)
		if err != nil {
			t.Fatal(err)
		}
		workUntilKilled(t, folder, n)
		return
	}
	empty, _ := open(t)
	blank := filepath.Join(t.TempDir(), "library.db")
	if err := empty.Backup(t.Context(), blank); err != nil {
		t.Fatal(err)
	}
	kinds := map[string]int{}
	var counting sync.Mutex
	var all sync.WaitGroup
	for k := range killers {
		all.Go(func() {
			var folder string
			var saved []stash.ID
			for i := range kills / killers {
				if i%ofALibrary == 0 {
					folder, saved = newFolder(t, blank), nil
				}
				seed := uint64(k*kills + i)
				said, err := killOnce(folder, seed)
				if err == nil {
					saved, err = afterKill(t.Context(), folder, append(saved, said...), func(sentence string) {
						counting.Lock()
						defer counting.Unlock()
						kinds[strings.Fields(sentence)[0]]++
					})
				}
				if err != nil {
					t.Errorf("kill with seed %d: %v", seed, err)
					return
				}
			}
		})
	}
	all.Wait()
	for _, kind := range []string{"Logged", "Reserved", "Cut", "Washed", "Brought", "Added", "Took", "Did", "Moved", "Removed", "Measured"} {
		if kinds[kind] == 0 {
			t.Errorf("no act “%s …” was among %v", kind, kinds)
		}
	}
}

func newFolder(t *testing.T, blank string) string {
	b, err := os.ReadFile(blank)
	if err != nil {
		t.Error(err)
	}
	folder, err := os.MkdirTemp(t.TempDir(), "library-*")
	if err != nil {
		t.Error(err)
	}
	if err := os.WriteFile(filepath.Join(folder, "library.db"), b, 0o644); err != nil {
		t.Error(err)
	}
	return folder
}

// killOnce lets the program work and kills it after a random while. It returns the acts
// that it said were saved.
func killOnce(folder string, seed uint64) (said []stash.ID, err error) {
	random := rand.New(rand.NewPCG(seed, 1))
	run := exec.Command(os.Args[0], "-test.run=^TestKilledAnywhere$")
	run.Env = append(os.Environ(), fmt.Sprintf("%s=%s|%d", inTheMiddle, folder, seed))
	out, err := run.StdoutPipe()
	if err != nil {
		return nil, err
	}
	var complaint bytes.Buffer
	run.Stderr = &complaint
	if err := run.Start(); err != nil {
		return nil, err
	}
	lines := bufio.NewScanner(out)
	var other []string
	read := func() bool {
		if !lines.Scan() {
			return false
		}
		if id, err := uuid.Parse(strings.TrimPrefix(lines.Text(), "saved ")); err == nil {
			said = append(said, id)
		} else {
			other = append(other, lines.Text())
		}
		return true
	}
	for n := random.IntN(8); len(said) < n && read(); {
	}
	time.AfterFunc(time.Duration(random.Int64N(int64(12*time.Millisecond))), func() { run.Process.Kill() })
	for read() { // what it said before it died
	}
	if err := run.Wait(); run.ProcessState.Exited() {
		return nil, fmt.Errorf("the program ended by itself: %v\n%s\n%s", err, strings.Join(other, "\n"), complaint.String())
	}
	return said, nil
}

// afterKill opens the library and checks it; it returns the acts there are. The first
// open after a kill may be for writing, which must find the lock free.
func afterKill(ctx context.Context, folder string, said []stash.ID, tell func(string)) (_ []stash.ID, err error) {
	l, err := db.Open(ctx, folder, db.Options{})
	if err != nil {
		return nil, err
	}
	defer func() { err = errors.Join(err, l.Close()) }()
	if err := l.InOrder(ctx); err != nil {
		return nil, err
	}
	acts, err := l.Acts(ctx, 0)
	if err != nil {
		return nil, err
	}
	if len(acts) < len(said) || len(acts) > len(said)+1 {
		return nil, fmt.Errorf("%d acts were said to be saved, %d are there", len(said), len(acts))
	}
	there := make([]stash.ID, len(acts))
	for i, a := range acts { // newest first
		there[len(acts)-1-i] = a.ID
		tell(a.Sentence)
	}
	for i, id := range said {
		if there[i] != id {
			return nil, fmt.Errorf("act %d is not the one that was said to be saved", i+1)
		}
	}
	return there, nil
}

// worker does what a person may do, one act after the other.
type worker struct {
	*planner.Studio
	ctx     context.Context
	random  *rand.Rand
	pattern stash.ID
}

// workUntilKilled says "saved" after every act that was saved.
func workUntilKilled(t *testing.T, folder string, seed uint64) {
	newID := func() stash.ID { return uuid.Must(uuid.NewV7()) }
	l, err := db.Open(t.Context(), folder, db.Options{NewID: newID})
	if err != nil {
		t.Fatal(err)
	}
	l.OnChange(func(a stash.Act) { os.Stdout.WriteString("saved " + a.ID.String() + "\n") })
	w := &worker{Studio: planner.NewStudio(planner.Config{Store: l, Now: time.Now, NewID: newID}), ctx: t.Context(), random: rand.New(rand.NewPCG(seed, 2))}
	patterns, err := l.Patterns(w.ctx)
	if err == nil && len(patterns) == 0 {
		w.pattern = newID()
		_, err = l.Write(w.ctx, "Drew a pattern", func(tx planner.Tx) error {
			return tx.PutPattern(w.ctx, plannertest.SamplePattern(w.pattern, "harbour tank"))
		})
	} else if err == nil {
		w.pattern = patterns[0].ID
	}
	if err != nil {
		t.Fatal(err)
	}
	acts := []func() error{w.buy, w.buy, w.reserve, w.reserve, w.cut, w.wash, w.measure, w.list, w.photo, w.unphoto, w.undo, w.redo, w.move}
	for range 1_000_000 {
		var own *stash.Error
		if err := acts[w.random.IntN(len(acts))](); err != nil && !errors.As(err, &own) && !errors.Is(err, stash.ErrNothing) { // what cannot be is refused
			t.Fatal(err)
		}
	}
}

// some is any cloth on the shelf.
func (w *worker) some() (stash.ClothState, error) {
	all, err := w.Cloths(w.ctx)
	if err == nil && len(all) == 0 {
		err = stash.ErrNothing
	}
	if err != nil {
		return stash.ClothState{}, err
	}
	return all[w.random.IntN(len(all))], nil
}

func (w *worker) buy() error {
	line := planner.BuyingLine{Fabric: stash.Fabric{Name: fmt.Sprintf("moss jersey %d", w.random.IntN(1_000_000)), Construction: stash.Jersey, FullWidth: 150 * measure.Centimetre}, Length: 2 * measure.Metre}
	other := line
	other.Fabric.Name += " b"
	_, err := w.LogBuying(w.ctx, planner.Buying{Supplier: "market stall", Lines: []planner.BuyingLine{line, other}})
	return err
}

// reserve keeps a curved piece and a strip for a new garment.
func (w *worker) reserve() error {
	c, err := w.some()
	if err != nil {
		return err
	}
	g, err := w.NewGarment(w.ctx, w.pattern, "M", "", "")
	if err != nil {
		return err
	}
	r := stash.Reservation{ID: w.NewID(), ClothID: c.Cloth.ID, GarmentID: g.ID, UsedFor: pattern.Main, Live: true,
		Pieces: []stash.ReservedPiece{round(0, 0, 200_000), round(500_000, 300_000, 100_000)}}
	_, err = w.Write(w.ctx, "Reserved "+c.Cloth.Code, func(tx planner.Tx) error {
		g.State = "reserved"
		return errors.Join(tx.PutReservation(w.ctx, r), tx.Append(w.ctx, stash.ReservedLine(r, "")), tx.PutGarment(w.ctx, g))
	})
	return err
}

// cut marks a garment cut and keeps the first leftover of each cloth.
func (w *worker) cut() error {
	all, err := w.Garments(w.ctx)
	if err != nil {
		return err
	}
	for _, g := range all {
		if g.State != "reserved" {
			continue
		}
		plan, err := w.CutPlan(w.ctx, g.ID)
		if err != nil {
			return err
		}
		keep := planner.Keeping{}
		for _, c := range plan {
			for _, left := range c.Left[:min(2, len(c.Left))] {
				keep[c.Cloth.Cloth.ID] = append(keep[c.Cloth.Cloth.ID], planner.Kept{Outline: left.Outline})
			}
		}
		_, err = w.MarkCut(w.ctx, g.ID, keep)
		return err
	}
	return nil
}

func (w *worker) wash() error {
	c, err := w.some()
	if err == nil {
		_, err = w.Wash(w.ctx, planner.Sizing{ClothID: c.Cloth.ID, Length: stash.AfterWashing(c.Cloth.Length, -300), Width: stash.AfterWashing(c.Cloth.Width, -200)})
	}
	return err
}

func (w *worker) measure() error {
	c, err := w.some()
	if err == nil {
		_, err = w.MeasureAgain(w.ctx, planner.Sizing{ClothID: c.Cloth.ID, Length: c.Cloth.Length - measure.Millimetre, Width: c.Cloth.Width})
	}
	return err
}

func (w *worker) move() error {
	c, err := w.some()
	if err == nil {
		err = w.MoveCloth(w.ctx, c.Cloth.ID, fmt.Sprint("box ", w.random.IntN(1000)))
	}
	return err
}

// list brings thirty rows in as one act.
func (w *worker) list() error {
	var file strings.Builder
	file.WriteString("fabric,length,width,price,bought on,code\n")
	for i := range 30 {
		fmt.Fprintf(&file, "linden rib %d,1.5 m,150 cm,12.50 EUR,2026-01-%02d,L%d\n", i%7, 1+i%28, w.random.IntN(1_000_000_000))
	}
	d, err := w.ReadList(w.ctx, "list.csv", []byte(file.String()), "")
	if err != nil {
		return err
	}
	shown, err := w.PlanList(w.ctx, d)
	if err == nil {
		_, err = w.ImportList(w.ctx, d, shown, true)
	}
	return err
}

func (w *worker) photo() error {
	c, err := w.some()
	if err != nil {
		return err
	}
	img := image.NewRGBA(image.Rect(0, 0, 60, 40))
	for i := range img.Pix {
		img.Pix[i] = byte(w.random.Uint32())
	}
	img.Set(0, 0, color.White)
	var file bytes.Buffer
	if err := png.Encode(&file, img); err != nil {
		return err
	}
	_, err = w.AddPhoto(w.ctx, planner.PhotoForm{Of: stash.OfCloth, OfID: c.Cloth.ID, File: file.Bytes()})
	return err
}

func (w *worker) unphoto() error {
	all, err := w.Cloths(w.ctx)
	for _, c := range all {
		photos, err := w.Photos(w.ctx, c.Cloth.ID)
		if err != nil {
			return err
		}
		if len(photos) > 0 {
			return w.RemovePhoto(w.ctx, photos[0].ID)
		}
	}
	return errors.Join(err, w.photo())
}

func (w *worker) undo() error {
	_, err := w.Undo(w.ctx)
	return err
}

func (w *worker) redo() error {
	if err := w.undo(); err != nil {
		return err
	}
	_, err := w.Redo(w.ctx)
	return err
}
