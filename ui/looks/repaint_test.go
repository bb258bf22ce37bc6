package looks

import (
	"reflect"
	"testing"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/test"
	"fyne.io/fyne/v2/theme"
	"fyne.io/fyne/v2/widget"
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

// TestRepaintPictures: what was out of sight at a new theme has its arrows and boxes in the new colours.
func TestRepaintPictures(t *testing.T) {
	app := test.NewTempApp(t)
	app.Settings().SetTheme(&Theme{Percent: 100, Fixed: true, Variant: theme.VariantDark})
	tree := container.NewVBox(widget.NewSelect([]string{"hem"}, nil), widget.NewCheck("ring", nil))
	w := test.NewTempWindow(t, tree)
	w.Resize(fyne.NewSize(200, 100))
	w.Canvas().Capture()
	w.SetContent(container.NewStack())
	app.Settings().SetTheme(&Theme{Percent: 100, Fixed: true, Variant: theme.VariantLight})
	Repaint(tree, Dark, Light, 1)
	w.SetContent(tree)
	got := w.Canvas().Capture()
	made := test.NewTempWindow(t, container.NewVBox(widget.NewSelect([]string{"hem"}, nil), widget.NewCheck("ring", nil)))
	made.Resize(fyne.NewSize(200, 100))
	if want := made.Canvas().Capture(); !reflect.DeepEqual(got, want) {
		t.Error("another picture than one that was made in the new theme")
	}
}
