//go:build budget

package budget

import (
	"encoding/json"
	"math"
	"os"
	"slices"
	"time"

	"fyne.io/fyne/v2"

	"tallycloth/ui/page"
	"tallycloth/ui/widgets"
)

// Variable names the environment variable with the path of the report; without it nothing is done.
const Variable = "TALLYCLOTH_BUDGET"

// part is what is done for a while, one step a frame, on the window's thread.
type part struct {
	name string
	step func(i int)
}

// report is what one part took: milliseconds from asking the window's thread to the end of the step,
// which includes the drawing that was under way.
type report struct {
	Part      string  `json:"part"`
	Frames    int     `json:"frames"`
	Median    float64 `json:"median_ms"`
	P99       float64 `json:"p99_ms"`
	Most      float64 `json:"most_ms"`
	Above32ms int     `json:"above_32_ms"`
}

const (
	rounds = 4
	frame  = time.Second / 60
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
		took := map[string][]float64{}
		all := parts(names)
		for range rounds {
			for _, p := range all {
				took[p.name] = append(took[p.name], run(p)...)
			}
		}
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
				v.Scrolled(&fyne.ScrollEvent{PointEvent: middle(v), Scrolled: fyne.NewDelta(0, float32(12*math.Cos(float64(i)/30)))})
			}
		}},
		{"pan", func(i int) {
			if v := view(); v != nil {
				v.Dragged(&fyne.DragEvent{PointEvent: middle(v), Dragged: fyne.NewDelta(float32(6*math.Cos(float64(i)/20)), float32(3*math.Sin(float64(i)/20)))})
			}
		}},
	}
}

// run does a part for its time and returns what each frame took.
func run(p part) []float64 {
	var took []float64
	tick := time.NewTicker(frame)
	defer tick.Stop()
	for i, end := 0, time.Now().Add(span); time.Now().Before(end); i++ {
		<-tick.C
		began := time.Now()
		fyne.DoAndWait(func() { p.step(i) })
		took = append(took, float64(time.Since(began).Microseconds())/1000)
	}
	return took
}

func sum(name string, took []float64) report {
	slices.Sort(took)
	r := report{Part: name, Frames: len(took)}
	if len(took) == 0 {
		return r
	}
	r.Median, r.P99, r.Most = took[len(took)/2], took[len(took)*99/100], took[len(took)-1]
	for _, t := range took {
		if t > 32 {
			r.Above32ms++
		}
	}
	return r
}
