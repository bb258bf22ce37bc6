package widgets

import (
	"image"
	"math"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/driver/desktop"
	"fyne.io/fyne/v2/widget"
)

// Spot is a place on a picture, in its pixels from the top left.
type Spot struct{ X, Y float64 }

// Trail is a line over a picture with points that can be moved.
type Trail struct {
	Points []Spot
	// Fixed trails keep their points: marks, arrows. Others may gain and lose some.
	Fixed bool
	// Arrow is drawn from its first to its second point, with a head; others are closed.
	Arrow bool
	// Open says that its last point does not lead back to the first.
	Open  bool
	Curve []Spot // drawn through its points in place of straight sides
	Words string // beside its first point, of an arrow beside its tip
}

// sides is how many sides it has.
func (t Trail) sides() int {
	if t.Arrow || t.Open {
		return max(len(t.Points)-1, 0)
	}
	return len(t.Points)
}

// PhotoBoard shows a picture with trails over it. Points are dragged; with the focus on
// the board, n and b choose the next and the one before, arrows move it by a pixel of the
// screen (Page Up and Page Down make the step larger and smaller), + adds one behind it
// and Delete takes it away. A double click on a line adds a point, the second button takes
// one away. With m the whole line moves with its point, until another is chosen. A glass shows the surroundings of the point in hand, magnified.
type PhotoBoard struct {
	widget.BaseWidget
	// Changed is called after every change by hand.
	Changed func()
	// Key is called for keys it has no use for.
	Key func(fyne.KeyName)
	// Grid, where it is not zero, is how far apart in pixels of the picture points may lie:
	// they snap to it, and arrows move by it. There is no glass then.
	Grid float64
	// Chosen is called when another point may be in hand.
	Chosen func()
	// Tap is called for a tap where no point is near.
	Tap func(Spot)
	// Sides, if it is there, writes words beside each side of a trail.
	Sides func(trail int, from, to Spot) string

	trails       []Trail
	trail, point int // in hand, −1 for none
	step         float64
	dragging     bool
	whole        bool // the line moves with its point
	focused      bool
	small        fyne.Size

	shown   *image.RGBA // as large as a screen
	full    *image.RGBA // what the glass looks at
	picture *canvas.Image
	glass   *canvas.Image
	layer   *fyne.Container
}

// NewPhotoBoard returns a board that is at least so large.
func NewPhotoBoard(least fyne.Size) *PhotoBoard {
	b := &PhotoBoard{small: least, trail: -1, point: -1, step: 1}
	b.picture = &canvas.Image{FillMode: canvas.ImageFillStretch, ScaleMode: canvas.ImageScaleSmooth}
	b.glass = &canvas.Image{FillMode: canvas.ImageFillStretch, ScaleMode: canvas.ImageScalePixels}
	b.layer = container.NewWithoutLayout()
	b.ExtendBaseWidget(b)
	return b
}

// Put shows a picture; shown is the same, perhaps smaller, for the screen. Trails are in
// pixels of the full one.
func (b *PhotoBoard) Put(full, shown *image.RGBA, trails []Trail) {
	b.full, b.shown, b.trails = full, shown, trails
	b.picture.Image = shown
	b.trail, b.point, b.dragging, b.whole = -1, -1, false, false
	b.picture.Refresh()
	b.Refresh()
}

// EnterEscape makes of what Enter and Escape do a function for Key.
func EnterEscape(enter, escape func()) func(fyne.KeyName) {
	return func(k fyne.KeyName) {
		switch k {
		case fyne.KeyReturn, fyne.KeyEnter:
			enter()
		case fyne.KeyEscape:
			escape()
		}
	}
}

// Trails are the trails as they are now.
func (b *PhotoBoard) Trails() []Trail { return b.trails }

// SetTrails puts others in their place, the point in hand let go.
func (b *PhotoBoard) SetTrails(t []Trail) {
	b.trails, b.trail, b.point = t, -1, -1
	b.Refresh()
}

// Append adds a point at the end of a trail and takes it in hand.
func (b *PhotoBoard) Append(trail int, s Spot) {
	b.trails[trail].Points = append(b.trails[trail].Points, s)
	b.Take(trail, len(b.trails[trail].Points)-1, false)
}

// InHand is the trail and the point in hand, −1 for none.
func (b *PhotoBoard) InHand() (trail, point int) { return b.trail, b.point }

// Take takes a point in hand, with its whole line if so wished.
func (b *PhotoBoard) Take(trail, point int, whole bool) {
	b.trail, b.point, b.whole = trail, point, whole
	b.Refresh()
}

// move puts the point in hand, or its whole line, somewhere else.
func (b *PhotoBoard) move(s *Spot, to Spot) {
	to = b.snap(b.within(to))
	if tr := b.trails[b.trail]; b.whole && !tr.Fixed {
		dx, dy := to.X-s.X, to.Y-s.Y
		for i := range tr.Points {
			tr.Points[i] = Spot{tr.Points[i].X + dx, tr.Points[i].Y + dy}
		}
	} else {
		*s = to
	}
	b.changed()
}

// snap is the point of the grid next to a spot; without a grid the spot.
func (b *PhotoBoard) snap(s Spot) Spot {
	if b.Grid <= 0 || b.full == nil {
		return s
	}
	h := float64(b.full.Rect.Dy()) // the grid begins at the lower left
	return Spot{math.Round(s.X/b.Grid) * b.Grid, h - math.Round((h-s.Y)/b.Grid)*b.Grid}
}

// frame is where the picture lies on the board, and its scale.
func (b *PhotoBoard) frame() (x, y, scale float64) {
	if b.full == nil || b.full.Rect.Empty() {
		return 0, 0, 1
	}
	size := b.Size()
	w, h := float64(b.full.Rect.Dx()), float64(b.full.Rect.Dy())
	scale = math.Min(float64(size.Width)/w, float64(size.Height)/h)
	return (float64(size.Width) - w*scale) / 2, (float64(size.Height) - h*scale) / 2, scale
}

// At is where a spot of the picture is on the board.
func (b *PhotoBoard) At(s Spot) fyne.Position {
	x, y, k := b.frame()
	return fyne.NewPos(float32(x+s.X*k), float32(y+s.Y*k))
}

// spot is the place of the picture under a position.
func (b *PhotoBoard) spot(p fyne.Position) Spot {
	x, y, k := b.frame()
	return b.within(Spot{(float64(p.X) - x) / k, (float64(p.Y) - y) / k})
}

func (b *PhotoBoard) within(s Spot) Spot {
	if b.full == nil {
		return s
	}
	return Spot{min(max(s.X, 0), float64(b.full.Rect.Dx())), min(max(s.Y, 0), float64(b.full.Rect.Dy()))}
}

// grasp is how near to a point, in units of the canvas, it is taken.
const grasp = 22

// near is the point nearest to a position.
func (b *PhotoBoard) near(p fyne.Position) (trail, point int) {
	trail, point = -1, -1
	best := float64(grasp)
	for t, tr := range b.trails {
		for i, s := range tr.Points {
			q := b.At(s)
			if d := math.Hypot(float64(q.X-p.X), float64(q.Y-p.Y)); d < best {
				trail, point, best = t, i, d
			}
		}
	}
	return trail, point
}

// choose takes a point in hand; another than before is moved alone.
func (b *PhotoBoard) choose(trail, point int) {
	if trail != b.trail || point != b.point && !b.whole {
		b.whole = false
	}
	b.trail, b.point = trail, point
	if b.Chosen != nil {
		b.Chosen()
	}
}

func (b *PhotoBoard) held() (*Spot, bool) {
	if b.trail < 0 || b.trail >= len(b.trails) || b.point < 0 || b.point >= len(b.trails[b.trail].Points) {
		return nil, false
	}
	return &b.trails[b.trail].Points[b.point], true
}

func (b *PhotoBoard) changed() {
	b.Refresh()
	if b.Changed != nil {
		b.Changed()
	}
}

// Dragged moves the point that the drag began at.
func (b *PhotoBoard) Dragged(e *fyne.DragEvent) {
	if !b.dragging {
		start := fyne.NewPos(e.Position.X-e.Dragged.DX, e.Position.Y-e.Dragged.DY)
		b.choose(b.near(start))
		b.dragging = true
	}
	if s, ok := b.held(); ok {
		b.move(s, b.spot(e.Position))
	}
}

// DragEnd lets the drag go; the point stays in hand for the keys.
func (b *PhotoBoard) DragEnd() { b.dragging = false; b.Refresh() }

// Tapped takes a point in hand and the focus.
func (b *PhotoBoard) Tapped(e *fyne.PointEvent) {
	trail, point := b.near(e.Position)
	b.choose(trail, point)
	if point < 0 && b.Tap != nil {
		b.Tap(b.snap(b.spot(e.Position)))
	}
	if c := CanvasOf(b); c != nil {
		c.Focus(b)
	}
	b.Refresh()
}

// DoubleTapped adds a point to the line nearest to the pointer.
func (b *PhotoBoard) DoubleTapped(e *fyne.PointEvent) {
	s := b.spot(e.Position)
	trail, edge, best := -1, -1, float64(grasp)
	_, _, k := b.frame()
	for t, tr := range b.trails {
		if tr.Fixed {
			continue
		}
		for i := range tr.sides() {
			if d := offLine(s, tr.Points[i], tr.Points[(i+1)%len(tr.Points)]) * k; d < best {
				trail, edge, best = t, i, d
			}
		}
	}
	if trail >= 0 {
		b.insert(trail, edge, b.snap(s))
	}
}

// TappedSecondary takes the point under the pointer away.
func (b *PhotoBoard) TappedSecondary(e *fyne.PointEvent) {
	b.trail, b.point = b.near(e.Position)
	b.Remove()
}

func offLine(p, a, c Spot) float64 {
	dx, dy := c.X-a.X, c.Y-a.Y
	t := 0.0
	if l := dx*dx + dy*dy; l > 0 {
		t = min(max(((p.X-a.X)*dx+(p.Y-a.Y)*dy)/l, 0), 1)
	}
	return math.Hypot(p.X-a.X-t*dx, p.Y-a.Y-t*dy)
}

func (b *PhotoBoard) insert(trail, edge int, s Spot) {
	tr := &b.trails[trail]
	tr.Points = append(tr.Points[:edge+1:edge+1], append([]Spot{s}, tr.Points[edge+1:]...)...)
	b.trail, b.point = trail, edge+1
	b.changed()
}

// Add adds a point half-way to the one after that in hand.
func (b *PhotoBoard) Add() {
	s, ok := b.held()
	if !ok || b.trails[b.trail].Fixed || b.point >= b.trails[b.trail].sides() {
		return
	}
	next := b.trails[b.trail].Points[(b.point+1)%len(b.trails[b.trail].Points)]
	b.insert(b.trail, b.point, b.snap(Spot{(s.X + next.X) / 2, (s.Y + next.Y) / 2}))
}

// Remove takes the point in hand away; of a triangle's, the whole trail but the first.
func (b *PhotoBoard) Remove() {
	if _, ok := b.held(); !ok || b.trails[b.trail].Fixed {
		b.Refresh()
		return
	}
	tr := &b.trails[b.trail]
	switch {
	case len(tr.Points) > 3, tr.Open && len(tr.Points) > 1:
		tr.Points = append(tr.Points[:b.point:b.point], tr.Points[b.point+1:]...)
		b.point %= len(tr.Points)
	case b.trail > 0:
		b.trails = append(b.trails[:b.trail:b.trail], b.trails[b.trail+1:]...)
		b.trail, b.point = -1, -1
	default:
		return
	}
	b.changed()
}

// FocusGained shows the focus, and takes the first point in hand.
func (b *PhotoBoard) FocusGained() {
	b.focused = true
	if _, ok := b.held(); !ok {
		b.next(1)
	}
	b.Refresh()
}

// FocusLost takes it away.
func (b *PhotoBoard) FocusLost() { b.focused = false; b.Refresh() }

// next takes the next point in hand, of all trails in order.
func (b *PhotoBoard) next(by int) {
	var all [][2]int
	at := -1
	for t, tr := range b.trails {
		for i := range tr.Points {
			if t == b.trail && i == b.point {
				at = len(all)
			}
			all = append(all, [2]int{t, i})
		}
	}
	if len(all) == 0 {
		return
	}
	if at < 0 && by < 0 {
		at = 0
	}
	to := all[((at+by)%len(all)+len(all))%len(all)]
	b.choose(to[0], to[1])
}

// TypedRune chooses points and adds one.
func (b *PhotoBoard) TypedRune(r rune) {
	switch r {
	case 'n', 'N':
		b.next(1)
	case 'b', 'B':
		b.next(-1)
	case 'm', 'M':
		b.whole = !b.whole
	case '+', '=':
		b.Add()
		return
	}
	b.Refresh()
}

// TypedKey moves the point in hand.
func (b *PhotoBoard) TypedKey(e *fyne.KeyEvent) {
	way := map[fyne.KeyName]Spot{fyne.KeyLeft: {-1, 0}, fyne.KeyRight: {1, 0}, fyne.KeyUp: {0, -1}, fyne.KeyDown: {0, 1}}
	if d, ok := way[e.Name]; ok {
		if s, held := b.held(); held {
			_, _, k := b.frame()
			step := b.step / k
			if b.Grid > 0 {
				step = b.Grid * max(b.step, 1)
			}
			b.move(s, Spot{s.X + d.X*step, s.Y + d.Y*step})
		}
		return
	}
	switch e.Name {
	case fyne.KeyPageUp:
		b.step = min(b.step*4, 64)
	case fyne.KeyPageDown:
		b.step = max(b.step/4, 0.25)
	case fyne.KeyDelete, fyne.KeyBackspace:
		b.Remove()
	default:
		if b.Key != nil {
			b.Key(e.Name)
			return
		}
		passKey(b, e)
	}
}

// Cursor is a cross over the picture.
func (b *PhotoBoard) Cursor() desktop.Cursor { return desktop.CrosshairCursor }
