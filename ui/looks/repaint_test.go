package looks

import (
	"testing"

	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/test"
)

// TestRepaint: words and grounds anywhere in a tree take the colours of the other palette and
// back; what has a colour of its own, such as cloth, keeps it.
func TestRepaint(t *testing.T) {
	test.NewTempApp(t)
	word, ground, cloth := canvas.NewText("Fern rib", Light.Muted), canvas.NewRectangle(Light.Surface), canvas.NewRectangle(rgb(0x4477AA))
	word.TextSize = 10
	tree := container.NewStack(container.NewVScroll(container.NewVBox(word, cloth)), ground)
	Repaint(tree, Light, Dark, 1.5)
	if word.Color != Dark.Muted || word.TextSize != 15 || ground.FillColor != Dark.Surface || cloth.FillColor != rgb(0x4477AA) {
		t.Errorf("%v %v, %v, %v", word.Color, word.TextSize, ground.FillColor, cloth.FillColor)
	}
	Repaint(tree, Dark, Light, 1/1.5)
	if word.Color != Light.Muted || ground.FillColor != Light.Surface {
		t.Errorf("and back: %v, %v", word.Color, ground.FillColor)
	}
}
