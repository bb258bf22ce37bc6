//go:build unix

package patternui

import (
	"context"
	"math"
	"syscall"
	"testing"
	"time"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/test"

	"tallycloth/planner/match"
	"tallycloth/planner/pattern"
	"tallycloth/stash"
	"tallycloth/stash/measure"
	"tallycloth/stash/shape"
	"tallycloth/ui/answer"
	"tallycloth/ui/looks"
	"tallycloth/ui/say"
	"tallycloth/ui/task"
	"tallycloth/ui/widgets"
)

// benchSteps bound each search: some seconds with one worker, the same work each time.
const benchSteps = 400

// curved is an outline like a pattern piece's: an oval with a bay, of 60 corners.
func curved(long, wide, bay float64) shape.Ring {
	var r shape.Ring
	for k := range 60 {
		sin, cos := math.Sincos(2 * math.Pi * float64(k) / 60)
		deep := 1 - bay*math.Exp(-4*(1-cos))
		r = append(r, shape.Point{X: int64(long * (1 + cos*deep) / 2), Y: int64(wide * (1 + sin*deep) / 2)})
	}
	return r
}

// handForBench is a layout of 48 pieces of 12 shapes on one layer of 4 m in hand, as a
// first search left it.
func handForBench(b *testing.B) *match.Hand {
	b.Helper()
	p := pattern.Pattern{Name: "Crowd", Sizes: []pattern.Size{{Name: "M"}}}
	for k := range 12 {
		r := curved(150_000+20_000*float64(k%5), 90_000+15_000*float64(k%7), 0.1*float64(k%4))
		p.Pieces = append(p.Pieces, pattern.Piece{Code: string(rune('A' + k)), Name: "Part", Role: pattern.Main, Cut: 4, Outlines: map[string]pattern.Outline{"M": {Cut: r}}})
	}
	q, err := match.New(match.Ask{Pattern: p, Size: "M", Clearance: 3 * measure.Millimetre})
	if err != nil {
		b.Fatal(err)
	}
	f := stash.Fabric{Name: "Bench jersey", Construction: stash.Jersey, FullWidth: 150 * measure.Centimetre}
	c := stash.Cloth{Code: "B1", Length: 4 * measure.Metre, Width: f.FullWidth, Washed: true}
	state := stash.StateOf(c, f, nil, c.Area())
	got, err := q.KeepTrying(context.Background(), state, match.Layout{}, match.Trying{Steps: 2, Workers: 1})
	if err != nil || got.Left > 0 {
		b.Fatalf("%d left, %v", got.Left, err)
	}
	return q.NewHand(state, got.Layout)
}

// processor is the time that all goroutines of the process spent on a processor so far: on
// a busy machine it says more than the clock.
func processor() time.Duration {
	var u syscall.Rusage
	if err := syscall.Getrusage(syscall.RUSAGE_SELF, &u); err != nil {
		return 0
	}
	return time.Duration(u.Utime.Nano() + u.Stime.Nano())
}

// search is the work of both benchmarks.
func search(b *testing.B, h *match.Hand, report func(match.Trial)) {
	if _, err := h.Start().KeepTrying(context.Background(), match.Trying{Steps: benchSteps, Workers: 1, Report: report}); err != nil {
		b.Fatal(err)
	}
}

// BenchmarkSearchAlone goes on from a layout with nobody looking.
func BenchmarkSearchAlone(b *testing.B) {
	h := handForBench(b)
	begun := processor()
	for b.Loop() {
		search(b, h, nil)
	}
	b.ReportMetric((processor()-begun).Seconds()/float64(b.N), "cpu-s/op")
}

// BenchmarkSearchShown is the same search, each improvement shown in a layout view as the
// window does: the newest a few times a second, made and drawn away from the search. The
// figure beside its time is how many were told and how many drawn.
func BenchmarkSearchShown(b *testing.B) {
	h := handForBench(b)
	app := test.NewTempApp(b)
	app.Settings().SetTheme(&looks.Theme{})
	v := widgets.NewLayoutView(fyne.NewSize(100, 100))
	w := test.NewTempWindow(b, v)
	w.Resize(fyne.NewSize(1000, 700))
	loop := make(chan func(), 100) // the window's thread
	tasks := task.New(func(f func()) { loop <- f })
	idle := make(chan struct{})
	go func() {
		defer close(idle)
		for f := range loop {
			f()
		}
	}()
	paint := make(chan func(), 100)
	v.Away = func(work, done func()) { paint <- func() { work(); loop <- done } }
	painted := make(chan struct{})
	go func() {
		defer close(painted)
		for f := range paint {
			f()
		}
	}()
	told, drawn := 0, 0
	begun := processor()
	for b.Loop() {
		frames := task.NewFrames(tasks, nil, func(t match.Trial) {
			l, keep := t.Layout()
			drawn++
			loop <- func() {
				v.Follow(answer.InHand(say.Voice{}, h.Cloth(), l, nil, func(i int) bool { return i < len(keep) && keep[i] }))
			}
		})
		search(b, h, func(t match.Trial) { told++; frames.Tell(t) })
		frames.Close()
	}
	b.ReportMetric((processor()-begun).Seconds()/float64(b.N), "cpu-s/op")
	b.ReportMetric(float64(told)/float64(b.N), "told/op")
	b.ReportMetric(float64(drawn)/float64(b.N), "drawn/op")
	wait := make(chan struct{})
	loop <- func() { close(wait) }
	<-wait
	close(paint)
	<-painted
	close(loop)
	<-idle
}

// BenchmarkTell is what one report costs the search.
func BenchmarkTell(b *testing.B) {
	tasks := task.New(func(f func()) { f() })
	frames := task.NewFrames(tasks, func() <-chan time.Time { return time.After(time.Second / 2) }, func(match.Trial) {})
	defer frames.Close()
	for b.Loop() {
		frames.Tell(match.Trial{})
	}
}
