package widgets

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/theme"

	"tallycloth/ui/looks"
)

// worn is the look that objects were made with: words and grounds that stand alone do not follow a
// new theme or text size by themselves, and a form that is closed is not seen when those change.
type worn struct {
	palette looks.Palette
	size    float32
}

func wornNow() worn { return worn{looks.Now(), theme.TextSize()} }

// catchUp gives objects the look of today.
func (w *worn) catchUp(objects []fyne.CanvasObject) {
	now := wornNow()
	if w.size > 0 && *w != now {
		for _, o := range objects {
			looks.Repaint(o, w.palette, now.palette, now.size/w.size)
		}
	}
	*w = now
}
