//go:build budget && linux

package budget

import (
	"cmp"
	"context"
	"encoding/json"
	"math"
	"os"
	"runtime/debug"
	"runtime/pprof"
	"slices"
	"time"

	"golang.org/x/sys/unix"

	"fyne.io/fyne/v2"

	"tallycloth/ui/page"
	"tallycloth/ui/widgets"
)

// Variable names the environment variable with the path of the report; without it nothing is done.
// Profile names one with the path of a profile of processor time over the whole run, if one is wanted.
const (
	Variable = "TALLYCLOTH_BUDGET"
	Profile  = "TALLYCLOTH_PROFILE"
)

// part is what is done for a while, one step a frame, on the window's thread.
type part struct {
	name string
	step func(i int)
}

// report is what one part took: milliseconds from asking the window's thread to the end of the step,
// which includes the drawing that was under way; and the processor time of that thread from the end of
// one step to the end of the next, which other programs on the computer do not disturb.
type report struct {
	Part         string  `json:"part"`
	Frames       int     `json:"frames"`
	Median       float64 `json:"median_ms"`
	P99          float64 `json:"p99_ms"`
	Most         float64 `json:"most_ms"`
	Above32ms    int     `json:"above_32_ms"`
	CPUMedian    float64 `json:"processor_median_ms"`
	CPUP99       float64 `json:"processor_p99_ms"`
	CPUMost      float64 `json:"processor_most_ms"`
	CPUAbove32ms int     `json:"processor_above_32_ms"`
	Long         []long  `json:"long,omitempty"`
}

// long is a frame above 32 ms: which one of its part, how long, and whether memory was collected
// meanwhile.
type long struct {
	Step      int     `json:"step"`
	Wall      float64 `json:"ms"`
	CPU       float64 `json:"processor_ms"`
	Collected bool    `json:"memory_collected"`
}

// spent is what the frames of a part took, in milliseconds.
type spent struct {
	wall, cpu []float64
	long      []long
}

const (
	rounds = 4
	frame  = time.Second / 60
	most   = 32.0            // milliseconds that a frame may take
	span   = 6 * time.Second // of a part in a round; five parts and four rounds are two minutes
)

// Start runs the script once the window has settled, writes the report and quits.
func Start(w fyne.Window, names *page.Names) {
	path := os.Getenv(Variable)
	if path == "" {
		return
	}
	go func() {
		time.Sleep(8 * time.Second) // the shelf is read
		fyne.DoAndWait(func() {
			l := names.Get("stash.list").(*widgets.RowList)
			w.Canvas().Focus(l)
		})
		endProfile := profile(os.Getenv(Profile))
		took := map[string]*spent{}
		all := parts(names)
		for range rounds {
			for _, p := range all {
				if took[p.name] == nil {
					took[p.name] = &spent{}
				}
				run(p, took[p.name])
			}
		}
		endProfile()
		var out []report
		for _, p := range all {
			out = append(out, sum(p.name, took[p.name]))
		}
		b, err := json.MarshalIndent(out, "", "  ")
		if err == nil {
			err = os.WriteFile(path, append(b, '\n'), 0o644)
		}
		if err != nil {
			println("the report cannot be written:", err.Error())
		}
		fyne.Do(fyne.CurrentApp().Quit)
	}()
}

// parts are what a person does most.
func parts(names *page.Names) []part {
	l := names.Get("stash.list").(*widgets.RowList)
	filter := names.Get("stash.filter").(*widgets.Entry)
	const words = "knits, at least 1 m free, stretch over 30 %"
	view := func() *widgets.LayoutView { // of the row that is chosen
		if v, ok := names.Get("stash.view").(*widgets.LayoutView); ok && v.Visible() {
			return v
		}
		return nil
	}
	middle := func(v *widgets.LayoutView) fyne.PointEvent {
		return fyne.PointEvent{Position: fyne.NewPos(v.Size().Width/2, v.Size().Height/2)}
	}
	return []part{
		{"scroll", func(i int) { l.ScrollToOffset(float32(i%360) * 300) }},
		{"choose", func(i int) { l.TypedKey(&fyne.KeyEvent{Name: fyne.KeyDown}) }},
		{"filter", func(i int) {
			if i%10 == 0 { // a letter six times a second
				filter.SetText(words[:(i/10)%(len(words)+1)])
			}
		}},
		{"zoom", func(i int) {
			if v := view(); v != nil {
				v.TypedRune([]rune("+-")[i/10%2]) // ten steps in, ten out; the wheel alone moves the page that the drawing lies on
			}
		}},
		{"pan", func(i int) {
			if v := view(); v != nil {
				v.Dragged(&fyne.DragEvent{PointEvent: middle(v), Dragged: fyne.NewDelta(float32(6*math.Cos(float64(i)/20)), float32(3*math.Sin(float64(i)/20)))})
			}
		}},
	}
}

// run does a part for its time and adds what each frame took.
func run(p part, took *spent) {
	tick := time.NewTicker(frame)
	defer tick.Stop()
	// Samples of the profile tell the part they belong to.
	fyne.DoAndWait(func() {
		pprof.SetGoroutineLabels(pprof.WithLabels(context.Background(), pprof.Labels("part", p.name)))
	})
	var before, after time.Duration
	for i, end := 0, time.Now().Add(span); time.Now().Before(end); i++ {
		<-tick.C
		collections := collected()
		began := time.Now()
		fyne.DoAndWait(func() { p.step(i); after = processor() })
		wall, cpu := milliseconds(time.Since(began)), milliseconds(after-before)
		took.wall = append(took.wall, wall)
		if i > 0 {
			took.cpu = append(took.cpu, cpu)
		}
		if wall > most || i > 0 && cpu > most {
			took.long = append(took.long, long{i, wall, cpu, collected() > collections})
		}
		before = after
	}
}

func milliseconds(d time.Duration) float64 { return float64(d.Microseconds()) / 1000 }

// processor is the processor time that the calling thread has used.
func processor() time.Duration {
	var t unix.Timespec
	if unix.ClockGettime(unix.CLOCK_THREAD_CPUTIME_ID, &t) != nil {
		return 0
	}
	return time.Duration(t.Nano())
}

// profile begins a profile of processor time, if a file for it is named, and returns what ends it.
func profile(path string) func() {
	f, err := os.Create(path)
	if err != nil {
		return func() {}
	}
	if err := pprof.StartCPUProfile(f); err != nil {
		println("no profile:", err.Error())
	}
	return func() { pprof.StopCPUProfile(); f.Close() }
}

// longest are the ten longest, the longest first.
func longest(all []long) []long {
	slices.SortStableFunc(all, func(a, b long) int { return cmp.Compare(b.Wall, a.Wall) })
	return all[:min(len(all), 10)]
}

// collected counts how often memory was collected so far.
func collected() int64 {
	var s debug.GCStats
	debug.ReadGCStats(&s)
	return s.NumGC
}

func sum(name string, took *spent) report {
	r := report{Part: name, Frames: len(took.wall), Long: longest(took.long)}
	r.Median, r.P99, r.Most, r.Above32ms = spread(took.wall)
	r.CPUMedian, r.CPUP99, r.CPUMost, r.CPUAbove32ms = spread(took.cpu)
	return r
}

// spread is the median, the 99th of a hundred, the most, and how many are above 32 ms.
func spread(took []float64) (median, p99, most float64, above int) {
	if len(took) == 0 {
		return 0, 0, 0, 0
	}
	slices.Sort(took)
	within, _ := slices.BinarySearch(took, 32.0005)
	return took[len(took)/2], took[len(took)*99/100], took[len(took)-1], len(took) - within
}
