package ui

import (
	"context"
	"fmt"
	"math"
	"strings"
	"testing"
	"time"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/test"

	"tallycloth/planner"
	"tallycloth/stash"
	"tallycloth/stash/measure"
	"tallycloth/stash/shape"
	"tallycloth/ui/sample"
	"tallycloth/ui/task"
)

// hands is a bench whose work is done beside the window's thread, as in the program. It counts the time
// that the window's own thread takes.
type hands struct {
	*bench
	tasks  *task.Runner
	handed chan func()
	window time.Duration
}

func newHands(b *testing.B) *hands {
	b.Helper()
	studio, err := sample.New(context.Background())
	if err != nil {
		b.Fatal(err)
	}
	app := test.NewTempApp(b)
	app.Settings().SetTheme(ThemeOf(planner.DefaultSettings()))
	w := test.NewTempWindow(b, nil)
	w.Resize(fyne.NewSize(1366, 768))
	x := &hands{handed: make(chan func(), 1000)}
	x.tasks = task.New(func(f func()) { x.handed <- f })
	s := New(w, Deps{Studio: studio, Tasks: x.tasks})
	b.Cleanup(s.Close)
	x.bench = &bench{b, s, studio, w}
	return x
}

// on does something on the window's thread, and what comes of it.
func (x *hands) on(f func()) {
	f = x.timed(f)
	f()
	for _, name := range []string{"stash.read", "binding.read", "binding.edges", "binding.work"} {
		for x.tasks.Running(name) {
			x.timed(<-x.handed)()
		}
	}
	for len(x.handed) > 0 {
		x.timed(<-x.handed)()
	}
}

func (x *hands) timed(f func()) func() {
	return func() {
		begun := time.Now()
		f()
		x.window += time.Since(begun)
	}
}

func (x *hands) fill(name, text string) { x.on(func() { x.bench.fill(name, text) }) }
func (x *hands) pick(name, word string) { x.on(func() { x.bench.pick(name, word) }) }
func (x *hands) press(name string)      { x.on(func() { x.bench.press(name) }) }

// BenchmarkBindingKeystroke types one more digit, and takes it away, in a field of the place Binding: numbers, drawings
// and the plan over the cloth are new after each. window-ns/op is what the window's thread does, between two frames;
// the plan over the cloth is looked for beside it, and counts in ns/op.
func BenchmarkBindingKeystroke(b *testing.B) {
	for _, state := range []struct {
		name string
		set  func(*hands)
	}{
		{"typed", func(*hands) {}},
		{"wrong field", func(x *hands) { x.fill("binding.lap", "much") }},
		{"fabric", func(x *hands) {
			x.pick("binding.part.1.runs", "inside")
			x.fill("binding.part.1.turns", "360")
			x.pick("binding.fabric", "Brick rib")
		}},
		{"pattern", func(x *hands) {
			x.pick("binding.pattern", "Fennel tank")
			x.pick("binding.size", "5")
			x.pick("binding.edge", "armhole")
			x.pick("binding.fabric", "Brick rib")
		}},
		{"three edges", func(x *hands) {
			keepEdges(x, 2, "edge")
			x.pick("binding.fabric", "Brick rib")
		}},
		{"twelve edges on leftovers", func(x *hands) {
			oddLeftovers(x, 4)
			keepEdges(x, 11, "edge")
			x.pick("binding.fabric", "Brick rib")
		}},
		{"long texts", func(x *hands) {
			keepEdges(x, 2, strings.Repeat("neck and both armholes running on into the straps ", 4))
			x.fill("binding.name", strings.Repeat("the long way round the hem ", 8))
			x.fill("binding.nojoin", strings.Repeat("centre front, top of the strap, ", 20))
			x.fill("binding.joinat", strings.Repeat("centre back, side seam, ", 20))
			x.pick("binding.fabric", "Brick rib")
		}},
		{"imperial", func(x *hands) {
			set, err := x.studio.Settings(context.Background())
			if err != nil {
				b.Fatal(err)
			}
			set.Units = measure.Imperial
			if err := x.studio.SaveSettings(context.Background(), set); err != nil {
				b.Fatal(err)
			}
			keepEdges(x, 2, "edge")
			x.pick("binding.fabric", "Brick rib")
		}},
	} {
		b.Run(state.name, func(b *testing.B) {
			x := newHands(b)
			x.press("rail.binding")
			x.fill("binding.part.1.length", "62 cm")
			state.set(x)
			texts := []string{"63 cm", "63.5 cm"}
			x.window = 0
			for i := 0; b.Loop(); i++ {
				x.fill("binding.part.1.length", texts[i%2])
			}
			b.ReportMetric(float64(x.window.Nanoseconds())/float64(b.N), "window-ns/op")
		})
	}
}

// keepEdges types so many edges and keeps them.
func keepEdges(x *hands, n int, name string) {
	for i := range n {
		x.fill("binding.name", fmt.Sprintf("%s %d", name, i+1))
		x.fill("binding.part.1.length", fmt.Sprintf("%d cm", 30+3*i))
		x.press("binding.keep")
	}
	x.fill("binding.part.1.length", "62 cm")
}

// oddLeftovers adds so many round leftovers of a fabric, each of fifty corners.
func oddLeftovers(x *hands, n int) {
	x.t.Helper()
	ctx := context.Background()
	var of stash.ID
	for _, c := range x.cloths() {
		if c.Fabric.Name == "Brick rib" {
			of = c.Fabric.ID
		}
	}
	for i := range n {
		var r shape.Ring
		for k := range 50 {
			far := float64(260_000+20_000*i) * (1 + 0.15*math.Cos(float64(3*k)))
			a := 2 * math.Pi * float64(k) / 50
			r = append(r, shape.Point{X: int64(600_000 + far*math.Cos(a)), Y: int64(600_000 + far*math.Sin(a))})
		}
		if _, err := x.studio.AddLeftover(ctx, planner.LeftoverForm{FabricID: of, Outline: shape.Polygon{Outer: r}, Washed: true}); err != nil {
			x.t.Fatal(err)
		}
	}
	x.press("rail.stash")
	x.press("rail.binding")
}
