package widgets

import (
	"image"
	"image/color"
	"math"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/theme"
	"fyne.io/fyne/v2/widget"

	"tallycloth/planner/scene"
)

// SceneView shows a scene whole, to scale, as wide as it is given and as high as that
// takes, within limits. It is a picture: nothing in it can be clicked by itself.
type SceneView struct {
	widget.BaseWidget
	scene   scene.Scene
	least   fyne.Size // width it asks for at least, and height it takes at most
	width   float32   // as last laid out
	img     *canvas.Image
	painted painting // what the picture was painted from last
	drawn   int      // counts scenes
	// Seen, where it is set, says whether the view is in sight; until it is, nothing is painted. Whoever sets
	// it calls Paint when more comes into sight.
	Seen func() bool
}

// painting is all that a picture hangs on, so that it is painted again only when that changed: a
// container refreshes what is in it whatever happened.
type painting struct {
	drawn            int
	width, height    int
	ink, ground, cut color.RGBA
	text             float32
}

// NewSceneView returns an empty view at least width wide and at most height high.
func NewSceneView(width, height float32) *SceneView {
	v := &SceneView{}
	v.Set(width, height)
	v.ExtendBaseWidget(v)
	return v
}

// Set makes the view an empty one of that size: for widgets that are made of one.
func (v *SceneView) Set(width, height float32) {
	v.least, v.width = fyne.NewSize(width, height), width
	v.img = &canvas.Image{FillMode: canvas.ImageFillStretch, ScaleMode: canvas.ImageScaleFastest}
}

// Place is the point of the scene at a position of the view; false where nothing is shown.
func (v *SceneView) Place(at fyne.Position) (scene.Point, bool) {
	size := v.Size()
	m, ok := mapOf(v.scene, int(size.Width), int(size.Height))
	if !ok {
		return scene.Point{}, false
	}
	return scene.Point{X: (float64(at.X) - m.left) / m.scale, Y: (m.foot - float64(at.Y)) / m.scale}, true
}

// Draw draws another scene. An empty one takes no room.
func (v *SceneView) Draw(s scene.Scene) {
	v.scene = s
	v.drawn++
	v.Refresh() // paints it
}

// Scene is what is shown.
func (v *SceneView) Scene() scene.Scene { return v.scene }

// height is what the scene takes at a width.
func (v *SceneView) height(width float32) float32 {
	b := v.scene.Bounds
	if b.Width() <= 0 || b.Height() <= 0 {
		return 0
	}
	return float32(math.Min(float64(v.least.Height), float64(width)*b.Height()/b.Width()))
}

// Picture draws the scene in so many pixels, centred and as large as fits.
func (v *SceneView) Picture(w, h int) *image.RGBA {
	img := image.NewRGBA(image.Rect(0, 0, w, h))
	if m, ok := mapOf(v.scene, w, h); ok {
		paintScene(img, v.scene, m)
	}
	return img
}

// mapOf lays a scene into so many pixels, centred and as large as fits; false where there is nothing to lay.
func mapOf(s scene.Scene, w, h int) (sceneMap, bool) {
	b := s.Bounds
	if w < 2 || h < 2 || b.Width() <= 0 || b.Height() <= 0 {
		return sceneMap{}, false
	}
	scale := math.Min(float64(w)/b.Width(), float64(h)/b.Height())
	return sceneMap{
		scale: scale,
		left:  float64(w)/2 - scale*(b.Min.X+b.Max.X)/2,
		foot:  float64(h)/2 + scale*(b.Min.Y+b.Max.Y)/2,
	}, true
}

// Over is where a point of the scene is on the view; false where nothing is shown.
func (v *SceneView) Over(p scene.Point) (fyne.Position, bool) {
	size := v.Size()
	m, ok := mapOf(v.scene, int(size.Width), int(size.Height))
	x, y := m.at(p)
	return fyne.NewPos(x, y), ok
}

// Paint paints what is not painted yet.
func (v *SceneView) Paint() { v.render() }

func (v *SceneView) render() {
	d := densityOf(v.img)
	size := v.Size()
	rgba := func(n fyne.ThemeColorName) color.RGBA { return color.RGBAModel.Convert(theme.Color(n)).(color.RGBA) }
	p := painting{v.drawn, int(float64(size.Width) * d), int(float64(size.Height) * d),
		rgba(theme.ColorNameForeground), rgba(theme.ColorNameBackground), rgba(theme.ColorNamePrimary), theme.TextSize()}
	if p == v.painted || v.Seen != nil && !v.Seen() {
		return
	}
	v.painted = p
	v.img.Image = v.Picture(p.width, p.height)
	v.img.Resize(size)
	v.img.Refresh()
}

// CreateRenderer shows the picture.
func (v *SceneView) CreateRenderer() fyne.WidgetRenderer { return &sceneRenderer{v} }

type sceneRenderer struct{ v *SceneView }

func (r *sceneRenderer) MinSize() fyne.Size {
	return fyne.NewSize(r.v.least.Width, r.v.height(max(r.v.width, r.v.least.Width)))
}
func (r *sceneRenderer) Objects() []fyne.CanvasObject { return []fyne.CanvasObject{r.v.img} }
func (r *sceneRenderer) Destroy()                     {}
func (r *sceneRenderer) Refresh()                     { r.v.render() }
func (r *sceneRenderer) Layout(s fyne.Size) {
	r.v.width = s.Width
	r.v.render()
}
