package page

import (
	"strconv"

	"fyne.io/fyne/v2"

	"tallycloth/ui/widgets"
)

// dividers is how the names of lines between a list and what is told of its rows end.
const dividers = ".divider"

// Sides puts a list and what is told of its rows beside each other, as widgets.Sides does. The line between them
// stays where a person left it, whatever is chosen, and is there again the next time.
func (h *Host) Sides(name string, list, detail fyne.CanvasObject, share float32) fyne.CanvasObject {
	both := widgets.Sides(list, widgets.Leaf(detail), share)
	d := widgets.DividerOf(both)
	h.Names.Set(name+dividers, d)
	if h.Kept != nil {
		if share, err := strconv.ParseFloat(h.Kept(name+dividers), 32); err == nil {
			d.SetShare(float32(share))
		}
	}
	return both
}

// Dividers are where lines between views were moved to, by name; "" for those that are where they usually are.
func (h *Host) Dividers() map[string]string {
	out := map[string]string{}
	for name, o := range h.Names.by {
		if d, ok := o.(*widgets.Divider); ok {
			out[name] = ""
			if d.Moved() {
				out[name] = strconv.FormatFloat(float64(d.Share()), 'f', 4, 32)
			}
		}
	}
	return out
}
