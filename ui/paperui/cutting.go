package paperui

import (
	"context"
	"fmt"
	"reflect"
	"strings"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"

	"tallycloth/planner"
	"tallycloth/planner/exchange/sheet"
	"tallycloth/planner/pattern"
	"tallycloth/stash"
	"tallycloth/stash/measure"
	"tallycloth/ui/page"
	"tallycloth/ui/paper"
	"tallycloth/ui/say"
	"tallycloth/ui/widgets"
)

// Ticks remember what was ticked as cut while the window is open.
type Ticks map[string]bool

// Sheet opens the cutting sheet that read reads. With ticks it lists what is to be cut, to tick, and
// lets a spoiled pattern piece be cut again; marked is called when all is cut, nil for a
// sheet that marks nothing.
func Sheet(h *page.Host, read func(context.Context) (planner.CuttingSheet, error), ticks Ticks, marked func()) {
	withSheet(h, read, func(s planner.CuttingSheet) {
		v := &sheetView{host: h, read: read, sheet: s, ticks: ticks, marked: marked}
		a := Ask{Title: "Cutting sheet", File: "Cutting sheet " + s.Title,
			Intro: s.Title + ": the layout to scale, the grain arrows to chalk, marks, stitches, notions and boxes to tick.",
			Lay: func(_ context.Context, _ int, _ paper.Way, f sheet.Full) (*sheet.Document, error) {
				return paper.Sheet(h.Voice(), v.sheet, f.Paper)
			}}
		if ticks != nil {
			a.Side = v.side
		}
		p := Show(h, a)
		// What Undo takes back, or another act changes, is seen at once.
		p.closed = h.Studio.OnChange(func(stash.Act) { h.Tasks.Post(func() { v.readAgain(p) }) })
	})
}

// readAgain puts the sheet together anew after the library changed.
func (v *sheetView) readAgain(p *Preview) {
	if !p.popup.Visible() {
		return
	}
	var s planner.CuttingSheet
	v.host.Tasks.Start("paper sheet", func(ctx context.Context, _ func(func())) (err error) {
		s, err = v.read(ctx)
		return err
	}, func(err error) {
		if err != nil {
			p.trouble(err)
			return
		}
		if reflect.DeepEqual(v.sheet, s) { // a change of something else, such as what is remembered
			return
		}
		v.sheet = s
		p.Side()
		p.again()
	})
}

// FullSize opens the layouts of a cutting sheet in full size.
func FullSize(h *page.Host, read func(context.Context) (planner.CuttingSheet, error)) {
	withSheet(h, read, func(s planner.CuttingSheet) {
		a := Ask{Title: "Full size", File: s.Title + " full size", Full: true,
			Intro: "The layout in full size: tiled over sheets with marks and a map, or on one page for a projector or a plotter. Measure the square before you cut."}
		if len(s.Cloths) > 1 {
			a.WhichName = "Layout on"
			for _, c := range s.Cloths {
				a.Which = append(a.Which, c.State.Fabric.Name+" "+c.State.Cloth.Code)
			}
		}
		a.Lay = func(_ context.Context, which int, w paper.Way, f sheet.Full) (*sheet.Document, error) {
			return paper.Document(paper.LayoutPage(h.Voice(), s, s.Cloths[which]), w, f)
		}
		Show(h, a)
	})
}

// Pieces opens the pattern pieces of a pattern in a size in full size, all or one.
func Pieces(h *page.Host, p pattern.Pattern, size string) {
	a := Ask{Title: "Full size", File: p.Name + " size " + size, Full: true, WhichName: "Pattern piece", Which: []string{"all of them"},
		Intro: p.Name + ", size " + size + ", in full size. Measure the square before you cut."}
	var codes [][]string
	for _, q := range p.Pieces {
		if _, ok := q.Outlines[size]; ok {
			a.Which, codes = append(a.Which, strings.TrimSpace(q.Code+" "+q.Name)), append(codes, []string{q.Code})
		}
	}
	a.Lay = func(_ context.Context, which int, w paper.Way, f sheet.Full) (*sheet.Document, error) {
		var only []string
		if which > 0 {
			only = codes[which-1]
		}
		drawn, err := paper.PiecesPage(h.Settings().Units, p, size, only)
		if err != nil {
			return nil, err
		}
		return paper.Document(drawn, w, f)
	}
	Show(h, a)
}

func withSheet(h *page.Host, read func(context.Context) (planner.CuttingSheet, error), then func(planner.CuttingSheet)) {
	var s planner.CuttingSheet
	h.Tasks.Start("paper sheet", func(ctx context.Context, _ func(func())) (err error) {
		s, err = read(ctx)
		return err
	}, func(err error) {
		if err != nil {
			h.Trouble(err)
			return
		}
		then(s)
	})
}

// sheetView is a cutting sheet with what was cut of it.
type sheetView struct {
	host   *page.Host
	read   func(context.Context) (planner.CuttingSheet, error)
	sheet  planner.CuttingSheet
	ticks  Ticks
	marked func()
}

// tickKey names an outline for as long as it lies where it is.
func tickKey(p planner.SheetPiece) string { return fmt.Sprint(p.Name, p.Outline[0]) }

// side lists what is to be cut.
func (v *sheetView) side(p *Preview) fyne.CanvasObject {
	box := container.NewVBox(widgets.SubHeading("Tick what is cut"))
	mark := widgets.NewButton("Mark cut", func() { p.Close(); v.marked() })
	var checks []*widgets.Check
	count := func() {
		mark.Enable()
		for _, c := range checks {
			if !c.Checked {
				mark.Disable()
			}
		}
	}
	for _, c := range v.sheet.Cloths {
		if len(v.sheet.Cloths) > 1 {
			box.Add(widgets.Caption(c.State.Fabric.Name + " " + c.State.Cloth.Code))
		}
		for _, piece := range c.Pieces {
			if piece.Spoiled {
				box.Add(widgets.Remark("", fmt.Sprintf("%d  %s was spoiled.", piece.Number, piece.Name), widgets.Quiet))
				continue
			}
			words := fmt.Sprintf("%d  %s", piece.Number, piece.Name)
			check := widgets.NewCheck(words, nil)
			check.SetChecked(v.ticks[tickKey(piece)])
			check.OnChanged = func(on bool) { v.ticks[tickKey(piece)] = on; count() }
			check.Escape = p.Close
			spoiled := widgets.NewButton("Spoiled", func() { v.again(p, piece) })
			n := len(checks) + 1
			v.host.Names.Set(fmt.Sprintf("paper.tick.%d", n), check)
			v.host.Names.Set(fmt.Sprintf("paper.spoiled.%d", n), spoiled)
			checks = append(checks, check)
			box.Add(container.NewBorder(nil, nil, nil, spoiled, check))
		}
	}
	all := widgets.NewButton("All are cut", func() {
		for _, c := range checks {
			c.SetChecked(true)
		}
	})
	v.host.Names.Set("paper.all", all)
	v.host.Names.Set("paper.cut", mark)
	row := container.NewHBox(all)
	if v.marked != nil {
		row.Add(mark)
	}
	box.Add(row)
	box.Add(widgets.Remark("", "Spoiled: it is laid out again at once on what is left. Ctrl+Z takes that back.", widgets.Quiet))
	count()
	return box
}

// again lays a spoiled pattern piece out again.
func (v *sheetView) again(p *Preview, piece planner.SheetPiece) {
	p.Say("Looking for room for another " + piece.Name + " …")
	var made planner.CutAnew
	id, at := piece.Reservation()
	v.host.Tasks.Start("paper again", func(ctx context.Context, _ func(func())) (err error) {
		made, err = v.host.Studio.CutAgain(ctx, id, at)
		return err
	}, func(err error) {
		if err != nil {
			p.Say(say.Error(err))
			return
		}
		told := say.Sentence(fmt.Sprintf("%s is laid out again on %s, from %s along", piece.Name, made.Cloth.Cloth.Code, v.host.Voice().Width(measure.Length(made.Outline.Bounds().Min.X))))
		p.Say(told)
		v.host.Tell(told)
	})
}

// Of reads the cutting sheet of a garment, OfCloth that of a cloth.
func Of(h *page.Host, garment stash.ID) func(context.Context) (planner.CuttingSheet, error) {
	return func(ctx context.Context) (planner.CuttingSheet, error) { return h.Studio.CuttingSheet(ctx, garment) }
}

// OfCloth reads the cutting sheet of a cloth.
func OfCloth(h *page.Host, cloth stash.ID) func(context.Context) (planner.CuttingSheet, error) {
	return func(ctx context.Context) (planner.CuttingSheet, error) { return h.Studio.ClothSheet(ctx, cloth) }
}
