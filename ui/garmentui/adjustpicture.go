package garmentui

import (
	"context"
	"fmt"
	"math"
	"slices"
	"strings"

	"fyne.io/fyne/v2"

	"tallycloth/planner"
	"tallycloth/planner/adjust"
	"tallycloth/planner/pattern"
	"tallycloth/planner/scene"
	"tallycloth/stash/shape"
	"tallycloth/ui/say"
	"tallycloth/ui/widgets"
)

// outlineView shows outlines before and after, and says where on one of them it was clicked.
type outlineView struct {
	*widgets.SceneView
	places []outlinePlace
	drawn  func(code string, at shape.Point)
}

// outlinePlace is where an outline lies in the picture, in mm: its left and its top.
type outlinePlace struct {
	code      string
	left, top float64
	box       shape.Box
}

func newOutlineView(drawn func(string, shape.Point)) *outlineView {
	v := &outlineView{SceneView: widgets.NewSceneView(400, 260), drawn: drawn}
	v.ExtendBaseWidget(v)
	return v
}

// Tapped tells which thousandths of depth and breadth of which outline were clicked.
func (v *outlineView) Tapped(e *fyne.PointEvent) {
	b := v.Scene().Bounds
	size := v.Size()
	if b.Width() <= 0 || b.Height() <= 0 || size.Width <= 0 || size.Height <= 0 {
		return
	}
	scale := math.Min(float64(size.Width)/b.Width(), float64(size.Height)/b.Height())
	x := (float64(e.Position.X)-float64(size.Width)/2)/scale + (b.Min.X+b.Max.X)/2
	y := (float64(size.Height)/2-float64(e.Position.Y))/scale + (b.Min.Y+b.Max.Y)/2
	for _, p := range v.places {
		out := int64(math.Round((x - p.left) / (float64(p.box.Width()) / 1000) * 1000))
		down := int64(math.Round((p.top - y) / (float64(p.box.Length()) / 1000) * 1000))
		if out > -60 && out < 1060 && down > -60 && down < 1060 {
			v.drawn(p.code, shape.Point{X: max(0, min(1000, down)), Y: max(0, min(1000, out))})
			return
		}
	}
}

// show draws outlines: as they were dashed, as they become filled. Where only some change, they
// alone are drawn. A piece that is parted, by its letter, is drawn first as it was, with the line
// over it: on that it is clicked.
func (v *outlineView) show(before, after pattern.Pattern, size, parted string, drawn []shape.Point) {
	var s scene.Scene
	v.places = nil
	pieces := after.Pieces
	if q, ok := before.Piece(parted); ok {
		pieces = slices.DeleteFunc(slices.Clone(pieces), func(r pattern.Piece) bool {
			return r.Code != parted && !strings.HasPrefix(r.Code, parted)
		})
		if len(pieces) != 1 || pieces[0].Code != parted {
			pieces = append([]pattern.Piece{q}, pieces...)
		}
	}
	was := map[string]pattern.Piece{}
	for _, q := range before.Pieces {
		was[q.Code] = q
	}
	changed := func(q pattern.Piece) bool {
		old, ok := was[q.Code]
		return !ok || !slices.Equal(old.Outlines[size].Cut, q.Outlines[size].Cut)
	}
	only := parted == "" && slices.ContainsFunc(after.Pieces, changed)
	x, low := 0.0, 0.0
	for _, q := range pieces {
		if only && !changed(q) {
			continue
		}
		cut := q.Outlines[size].Cut
		if len(cut) < 3 {
			continue
		}
		box := cut.Bounds()
		old, ok := was[q.Code]
		if ok {
			box = union(box, old.Outlines[size].Cut.Bounds())
		}
		at := func(p shape.Point) scene.Point {
			return scene.Point{X: x + float64(p.Y-box.Min.Y)/1000, Y: -float64(p.X-box.Min.X) / 1000}
		}
		outline(&s, scene.Piece, cut, at)
		if ok && only {
			outline(&s, scene.Fold, old.Outlines[size].Cut, at)
		}
		wide, deep := float64(box.Width())/1000, float64(box.Length())/1000
		if here := cut.Bounds(); parted == "" || q.Code == parted {
			v.places = append(v.places, outlinePlace{q.Code, x + float64(here.Min.Y-box.Min.Y)/1000, -float64(here.Min.X-box.Min.X) / 1000, here})
			if q.Code == parted {
				lineOver(&s, drawn, here, at)
			}
		}
		s.Items = append(s.Items, scene.Item{Style: scene.Label, Text: q.Code + " " + q.Name, At: scene.Point{X: x + wide/2, Y: 35}, Size: 40})
		x += math.Max(wide, 26*float64(len(q.Name)+2)) + 60
		low = math.Min(low, -deep)
	}
	if x > 0 {
		s.Bounds = scene.Box{Min: scene.Point{X: -20, Y: low - 20}, Max: scene.Point{X: x, Y: 70}}
		s.Hair = 1
	}
	v.Draw(s)
}

// lineOver draws a line over an outline, its points marked.
func lineOver(s *scene.Scene, pts []shape.Point, box shape.Box, at func(shape.Point) scene.Point) {
	var l scene.Line
	for _, p := range pts {
		q := at(shape.Point{X: box.Min.X + p.X*box.Length()/1000, Y: box.Min.Y + p.Y*box.Width()/1000})
		l.Points = append(l.Points, q)
		const r = 6
		s.Items = append(s.Items, scene.Item{Style: scene.Stitch, Lines: []scene.Line{{Closed: true, Points: []scene.Point{{X: q.X - r, Y: q.Y - r}, {X: q.X + r, Y: q.Y - r}, {X: q.X + r, Y: q.Y + r}, {X: q.X - r, Y: q.Y + r}}}}})
	}
	if len(l.Points) > 1 {
		s.Items = append(s.Items, scene.Item{Style: scene.Stitch, Lines: []scene.Line{l}})
	}
}

func union(a, b shape.Box) shape.Box {
	return shape.Box{Min: shape.Point{X: min(a.Min.X, b.Min.X), Y: min(a.Min.Y, b.Min.Y)}, Max: shape.Point{X: max(a.Max.X, b.Max.X), Y: max(a.Max.Y, b.Max.Y)}}
}

func outline(s *scene.Scene, style scene.Style, r shape.Ring, at func(shape.Point) scene.Point) {
	l := scene.Line{Closed: true}
	for _, p := range r {
		l.Points = append(l.Points, at(p))
	}
	s.Items = append(s.Items, scene.Item{Style: style, Lines: []scene.Line{l}})
}

// tell shows outlines before and after, and says in words what was asked and what follows.
func (f *adjustFields) tell(before, after pattern.Pattern, err error) {
	v := f.page.host.Voice()
	parted, line := "", []shape.Point(nil)
	if s := f.step(); f.kind.Selected == doSplit && len(s.Pieces) == 1 {
		parted = s.Pieces[0]
		line, _ = adjust.ReadLine(f.line.Text())
	}
	f.view.show(before, after, f.a.Garment.Size, parted, line)
	f.told.RemoveAll()
	switch {
	case err != nil && f.nothingYet():
		f.told.Add(widgets.Remark("", "Dashed is how it was. What follows from it is said here as you type.", widgets.Quiet))
	case err != nil:
		f.told.Add(widgets.Remark("! ", say.Error(err), widgets.Careful))
	default:
		f.told.Add(widgets.Remark("", say.Sentence(v.Adjustment(f.step())), widgets.Accent))
		if follows := v.Adjusted(before, after); len(follows) == 0 {
			f.told.Add(widgets.Remark("", "Finished measurements stay. Dashed is how it was.", widgets.Quiet))
		} else {
			f.told.Add(widgets.Remark("", say.Sentence(strings.Join(follows, "; ")), widgets.Plain))
		}
	}
	f.form.Refit()
}

// nothingYet says whether the person has not typed what her adjustment is about.
func (f *adjustFields) nothingYet() bool {
	for _, w := range []*widgets.Field{f.amount, f.length, f.round, f.out, f.down, f.line} {
		if w.Text() != "" {
			return false
		}
	}
	return f.kind.Selected != doMirror && f.kind.Selected != doOpen
}

// drawn takes a click on an outline as the next point of a line.
func (f *adjustFields) drawn(code string, at shape.Point) {
	if f.kind.Selected != doSplit {
		return
	}
	for _, w := range f.on.Options {
		if strings.HasPrefix(w, code+" ") {
			f.filling = true
			f.on.SetSelected(w)
			f.filling = false
		}
	}
	text := strings.TrimSpace(f.line.Text())
	if text != "" {
		text += ", "
	}
	f.line.Set(text + fmt.Sprint(adjust.LineWords([]shape.Point{at})))
	f.look()
}

func (f *adjustFields) send() error {
	if _, err := f.steps(); err != nil {
		return err
	}
	step, g := f.step(), f.a.Garment
	p := f.page
	told := "Adjusted " + g.Name + "."
	p.host.Act("adjust", func(ctx context.Context) (string, error) {
		out, err := p.host.Studio.Adjust(ctx, planner.AdjustForm{GarmentID: g.ID, At: f.at, Step: step})
		if w := out.Words(); w != "" {
			told += " " + w
		}
		return told + " Ctrl+Z takes it back.", err
	}, func(err error) {
		if err != nil { // what was typed is there again, to be corrected
			p.host.ShowForm(f.form)
			return
		}
		p.Shown()
	})
	return nil
}
