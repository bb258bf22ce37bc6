package patternui

import (
	"context"
	"fmt"
	"strconv"
	"strings"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/widget"

	"tallycloth/planner"
	"tallycloth/planner/exchange/drawn"
	"tallycloth/planner/exchange/pdf"
	"tallycloth/planner/pattern"
	"tallycloth/stash"
	"tallycloth/ui/page"
	"tallycloth/ui/say"
	"tallycloth/ui/tracing"
	"tallycloth/ui/widgets"
)

// newPattern is the choice to put a traced piece into a pattern of its own.
const newPattern = "a new pattern"

// pieceTracer takes the outline of a paper pattern piece from a photo or a scan.
type pieceTracer struct {
	page *Page
	view *tracing.View

	into              *widgets.Choice
	name, piece, size *widgets.Field
	count             *widgets.Field
	pair, bare        *widgets.Check
	fold              *widgets.Choice
	by                map[string]stash.ID
	object            fyne.CanvasObject
}

const firstTrace = "Lay the pattern piece flat on something of another colour, with a sheet of paper beside it. Take the picture from above, so that both are whole in it, or scan them together. Choose the picture, or drop it on the window."

const afterTrace = "Drag points that lie wrong; a double click on the line adds one, a right click takes one away. Turn the arrow along the grain line, its tip at the top end. By keyboard: n and b, arrows, + and Delete; Enter adds the pattern piece."

// TracePiece opens the view that takes a pattern piece from a picture.
func (p *Page) TracePiece() {
	if p.find != nil {
		p.back()
	}
	if p.tracer == nil {
		p.tracer = newPieceTracer(p)
	}
	p.tracer.offer()
	p.object.Objects = []fyne.CanvasObject{p.tracer.object}
	p.object.Refresh()
	p.tracer.view.Focus()
}

// tracePage takes a page of a PDF that is a picture.
func (p *Page) tracePage(path string, n int) {
	p.TracePiece()
	p.tracer.view.File.Entry.SetText(path)
	p.tracer.view.Take(func(ctx context.Context) ([]byte, error) { return pdf.Picture(ctx, path, n) })
}

func newPieceTracer(p *Page) *pieceTracer {
	t := &pieceTracer{page: p}
	t.into = widgets.NewChoice("Put it into", []string{newPattern}, func(string) { t.chosen() })
	t.name = widgets.NewField("Name of the pattern", "", nil)
	t.piece = widgets.NewField("Name of the pattern piece", "Front", nil)
	t.piece.Needed = "Give the pattern piece a name."
	t.size = widgets.NewField("Its size", "M", nil)
	t.size.Set(drawn.OneSize)
	t.count = widgets.NewField("How many", "1", readHowMany)
	t.count.Set("1")
	t.pair = widgets.NewCheck("in mirrored pairs", func(on bool) {
		if on && t.count.Text() == "1" {
			t.count.Set("2")
		}
	})
	t.fold = widgets.NewChoice("Drawn", []string{drawnWhole, leftFold, rightFold}, nil)
	t.bare = widgets.NewCheck("The outline lacks its seam allowance", nil)
	asked := container.NewVBox(container.NewGridWithColumns(2, t.into.Object(), t.name.Object()), container.NewGridWithColumns(2, t.piece.Object(), t.size.Object()),
		container.NewGridWithColumns(3, t.count.Object(), t.fold.Object(), container.NewVBox(widgets.Caption(" "), t.pair)), t.bare)
	t.view = tracing.New(p.host, tracing.Words{Prefix: "piece", File: "Picture, with a sheet of paper beside the pattern piece", First: firstTrace,
		Empty: "Drag the four points onto the pattern piece and add more along its edge.", After: afterTrace, Arrow: "top end of the grain", Upright: true, Add: "Add pattern piece", Keep: t.keep, Leave: t.leave},
		widget.NewLabel(""), asked)
	back := widgets.NewButton("Back to patterns", t.leave)
	for name, o := range map[string]fyne.CanvasObject{"piece.into": t.into, "piece.pattern": t.name.Entry, "piece.name": t.piece.Entry, "piece.sizename": t.size.Entry,
		"piece.count": t.count.Entry, "piece.pair": t.pair, "piece.fold": t.fold, "piece.bare": t.bare, "piece.back": back} {
		p.host.Names.Set(name, o)
	}
	for _, f := range []*widgets.Field{t.name, t.piece, t.size, t.count} {
		f.Entry.Escape = t.view.ToBoard
	}
	t.into.Escape, t.fold.Escape = t.view.ToBoard, t.view.ToBoard
	top := container.NewBorder(nil, nil, widgets.Heading("A pattern piece from a picture"), container.NewHBox(append([]fyne.CanvasObject{back}, t.view.Buttons()...)...))
	split := widgets.Sides(container.NewPadded(t.view.Board), container.NewVScroll(widgets.Inset(t.view.Asked)), 0.6)
	t.object = container.NewPadded(container.NewBorder(top, nil, nil, nil, split))
	return t
}

// offer lists the patterns that a piece can be put into.
func (t *pieceTracer) offer() {
	words := []string{newPattern}
	t.by = map[string]stash.ID{}
	for _, q := range t.page.patterns {
		if _, twice := t.by[q.Name]; !twice {
			t.by[q.Name] = q.ID
			words = append(words, q.Name)
		}
	}
	t.into.Words(words)
	t.chosen()
}

// chosen asks for the name of a new pattern only.
func (t *pieceTracer) chosen() {
	if t.into.Selected == newPattern {
		t.name.Object().Show()
		return
	}
	t.name.Object().Hide()
	if q, ok := t.page.pattern(t.by[t.into.Selected]); ok && len(q.Sizes) > 0 {
		if _, has := q.Size(strings.TrimSpace(t.size.Text())); !has {
			t.size.Set(q.Sizes[len(q.Sizes)/2].Name)
		}
	}
}

func (t *pieceTracer) leave() {
	p := t.page
	p.object.Objects = []fyne.CanvasObject{p.shelf}
	p.object.Refresh()
	p.Focus()
}

// made is the pattern with the piece in it.
func (t *pieceTracer) made() (pattern.Pattern, pattern.Piece, error) {
	outline, err := t.view.Drawn()
	if err != nil {
		return pattern.Pattern{}, pattern.Piece{}, err
	}
	size := strings.TrimSpace(t.size.Text())
	if size == "" {
		size = drawn.OneSize
	}
	n, err := strconv.Atoi(strings.TrimSpace(t.count.Text()))
	if err != nil {
		return pattern.Pattern{}, pattern.Piece{}, &stash.Error{Kind: stash.Invalid, What: "How many are cut is no number", Do: "Type a whole number, such as 2", Err: err}
	}
	piece := pattern.Piece{Name: strings.TrimSpace(t.piece.Text()), Cut: n, Pairs: t.pair.Checked, WithoutAllowance: t.bare.Checked}
	if piece.Outlines, err = planner.TracedOutline(outline, size); err != nil {
		return pattern.Pattern{}, piece, err
	}
	if side, half := map[string]pattern.Side{leftFold: pattern.LeftSide, rightFold: pattern.RightSide}[t.fold.Selected]; half {
		if err := piece.PutTracedOnFold(side); err != nil {
			return pattern.Pattern{}, piece, err
		}
	}
	q, known := t.page.pattern(t.by[t.into.Selected])
	if !known {
		q = pattern.Pattern{Name: strings.TrimSpace(t.name.Text())}
		if q.Name == "" {
			q.Name = piece.Name
		}
	}
	return q.WithPiece(piece, size), piece, nil
}

// keep adds the pattern piece.
func (t *pieceTracer) keep() {
	if t.view.Straight == nil || !t.piece.Valid() || !t.count.Valid() {
		return
	}
	q, piece, err := t.made()
	if err != nil {
		t.view.Say(widgets.Remark("× ", say.Error(err), widgets.Bad))
		return
	}
	p := t.page
	p.host.Act("piece", func(ctx context.Context) (string, error) {
		saved, err := p.host.Studio.SavePattern(ctx, q)
		q = saved
		return fmt.Sprintf("Added %s to %s. Ctrl+Z takes it out again.", piece.Name, saved.Name), err
	}, func(err error) {
		if err != nil {
			t.view.Say(widgets.Remark("× ", say.Error(err), widgets.Bad))
			return
		}
		p.tracer = nil
		t.leave()
		p.wanted = page.Route{ID: q.ID}
		p.Shown()
	})
}
