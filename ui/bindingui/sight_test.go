package bindingui

import (
	"image/color"
	"testing"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/test"
)

// TestSight: what lies in a scrolled column is in sight where it really is, and whoever paints is told when
// that changes: by scrolling, and by a window that grows.
func TestSight(t *testing.T) {
	test.NewTempApp(t)
	w := test.NewTempWindow(t, nil)
	var all []*canvas.Rectangle
	inner := container.NewVBox()
	for range 10 {
		r := canvas.NewRectangle(color.Black)
		r.SetMinSize(fyne.NewSize(50, 100))
		all = append(all, r)
		inner.Add(r)
	}
	told := 0
	s := newSightScroll(container.NewVBox(inner), func() { told++ })
	w.SetContent(s)
	w.Resize(fyne.NewSize(200, 250))
	in := func() (n int) {
		for _, r := range all {
			if s.sees(r) {
				n++
			}
		}
		return n
	}
	if got := in(); got != 3 || !s.sees(all[0]) || s.sees(all[9]) {
		t.Errorf("%d of 10 are in sight", got)
	}
	before := told
	s.ScrollToBottom()
	if told == before || s.sees(all[0]) || !s.sees(all[9]) {
		t.Error("the end is not in sight after scrolling there")
	}
	before = told
	w.Resize(fyne.NewSize(200, 600))
	if got := in(); told == before || got < 6 {
		t.Errorf("in a higher window %d are in sight", got)
	}
	if s.sees(canvas.NewRectangle(color.Black)) {
		t.Error("what is not in the column is in sight")
	}
}
