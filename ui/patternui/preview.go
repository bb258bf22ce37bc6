package patternui

import (
	"context"
	"errors"
	"fmt"
	"slices"
	"strconv"
	"strings"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/theme"
	"fyne.io/fyne/v2/widget"

	"tallycloth/planner/exchange/drawn"
	"tallycloth/planner/pattern"
	"tallycloth/stash/measure"
	"tallycloth/ui/say"
	"tallycloth/ui/widgets"
)

var errNumber = errors.New("type a whole number, such as 2")

// pieceRow is how often a piece of the drawing is cut.
type pieceRow struct {
	name  string
	count *widgets.Field
	pair  *widgets.Check
	fold  *widgets.Choice
	marks *widget.Label // what was recognised on it
}

// How a pattern piece may be drawn.
const (
	drawnWhole = "whole"
	leftFold   = "left edge on fold"
	rightFold  = "right edge on fold"
)

// list makes a line for each piece; what was typed for a piece of that name stays.
func (im *importer) list(pieces []pattern.Piece) {
	im.drawn = slices.Clone(pieces)
	same := len(pieces) == len(im.rows)
	for i := range pieces {
		same = same && im.rows[i].name == pieces[i].Name
	}
	if same {
		im.counts()
		return
	}
	im.rows = nil
	im.pieces.RemoveAll()
	if len(pieces) > 0 {
		title := say.Count(len(pieces), "pattern piece", "pattern pieces")
		if n := len(im.made.Sizes); n > 1 {
			title += fmt.Sprintf(" in %d sizes, %s to %s", n, im.made.Sizes[0].Name, im.made.Sizes[n-1].Name)
		}
		im.pieces.Add(widgets.SubHeading(title))
	}
	for _, piece := range pieces {
		r := &pieceRow{name: piece.Name}
		r.count = widgets.NewField("How many", "1", readHowMany)
		r.count.Set(strconv.Itoa(max(piece.Cut, 1)))
		r.pair = widgets.NewCheck("in mirrored pairs", func(on bool) {
			if on && r.count.Text() == "1" {
				r.count.Set("2")
			}
			im.counts()
		})
		r.pair.Checked = piece.Pairs
		r.count.Changed = im.counts
		r.count.Entry.Escape, r.pair.Escape = im.leave, im.leave
		r.fold = widgets.NewChoice("Drawn", []string{drawnWhole, leftFold, rightFold}, nil)
		if m, ok := drawn.FoldOf(im.marks.marks, piece.Code); piece.OnFold || ok {
			r.fold.SetSelected(map[bool]string{true: rightFold, false: leftFold}[ok && m.Side == pattern.RightSide])
		}
		r.fold.OnChanged = func(string) { im.counts() }
		r.fold.Escape = im.leave
		r.marks = widget.NewLabel("")
		r.marks.Importance, r.marks.Truncation, r.marks.SizeName = widget.LowImportance, fyne.TextTruncateEllipsis, theme.SizeNameCaptionText
		im.rows = append(im.rows, r)
		im.page.host.Names.Set(fmt.Sprintf("outlines.fold.%d", len(im.rows)), r.fold)
		im.pieces.Add(container.NewGridWithColumns(4, container.NewVBox(widgets.Caption(" "), widgets.Line(piece.Code+"  "+piece.Name, widgets.Plain), r.marks),
			r.count.Object(), container.NewVBox(widgets.Caption(" "), r.pair), r.fold.Object()))
	}
	im.counts()
}

func readHowMany(text string) (string, error) {
	n, err := strconv.Atoi(strings.TrimSpace(text))
	if err != nil || n < 1 || n > 99 {
		return "", errNumber
	}
	return " ", nil
}

// counts puts what was typed for the pieces into the pattern.
func (im *importer) counts() {
	for i, r := range im.rows {
		im.foldPiece(i, r)
		if i < len(im.made.Pieces) {
			r.marks.SetText(drawn.Recognised(im.marks.marks, im.made.Pieces[i].Code, im.sizeShown()))
		}
		if n, err := strconv.Atoi(strings.TrimSpace(r.count.Text())); err == nil && i < len(im.made.Pieces) && n > 0 {
			im.made.Pieces[i].Cut, im.made.Pieces[i].Pairs = n, r.pair.Checked && n%2 == 0
		}
	}
	im.edges.seen()
	im.edges.put()
	im.drawPreview()
}

// drawPreview draws the pieces in the largest size, or all that the file has.
func (im *importer) drawPreview() {
	if im.shows.Selected == showsSheet {
		im.preview.Draw(sheetScene(im.whole, im.sheets.chosen))
		return
	}
	if im.shows.Selected == showsMarks {
		s, _, _ := im.marks.scene()
		im.preview.Draw(s)
		return
	}
	if im.shows.Selected == showsEdges {
		im.preview.Draw(im.edges.scene())
		return
	}
	im.preview.Draw(piecesScene(im.page.host.Voice(), im.made, im.sizeShown()))
}

// foldPiece opens a piece that is drawn as a half out about its edge on the fold; where
// there is no such edge it says so and the piece stays whole.
func (im *importer) foldPiece(i int, r *pieceRow) {
	if i >= len(im.made.Pieces) || i >= len(im.drawn) {
		return
	}
	piece := im.drawn[i]
	side, half := map[string]pattern.Side{leftFold: pattern.LeftSide, rightFold: pattern.RightSide}[r.fold.Selected]
	if half {
		if err := piece.PutOnFold(side); err != nil {
			im.page.host.Trouble(err)
			r.fold.SetSelected(drawnWhole)
			return
		}
	}
	to := &im.made.Pieces[i]
	to.Outlines, to.OnFold, to.WithoutAllowance = piece.Outlines, half, piece.WithoutAllowance
}

// show tells what was and was not understood.
func (im *importer) show(warnings []drawn.Warning) {
	im.told.RemoveAll()
	if len(im.made.Pieces) == 0 {
		im.told.Add(widgets.Remark("× ", "There is no closed outline as large as a pattern piece in this drawing.", widgets.Bad))
		im.save.Disable()
	} else {
		im.save.Enable()
	}
	if len(warnings) > 0 {
		im.told.Add(widgets.SubHeading("Please look at this"))
	}
	for _, w := range warnings {
		text := w.What
		switch {
		case w.Name != "":
			text = w.Name + ": " + text
		case w.Placed:
			v := im.page.host.Voice()
			text = v.Fine(measure.Length(w.At.X)) + " from the left and " + v.Fine(measure.Length(w.At.Y)) + " from the top of the page: " + text
		}
		im.told.Add(widgets.Remark("! ", say.Sentence(text)+" "+w.Do, widgets.Careful))
	}
	im.told.Refresh()
}

// keep saves the pattern and shows it among the others.
func (im *importer) keep() {
	if im.drawing == nil || !im.name.Valid() {
		return
	}
	for _, r := range im.rows {
		if !r.count.Valid() {
			return
		}
	}
	p, q := im.page, im.made
	p.host.Act("bring in", func(ctx context.Context) (string, error) {
		saved, err := p.host.Studio.SavePattern(ctx, q)
		q = saved
		return "Kept " + saved.Name + " with " + say.Count(len(saved.Pieces), "pattern piece", "pattern pieces") + ". Ctrl+Z takes it out again.", err
	}, func(err error) {
		if err != nil {
			im.told.Objects = append([]fyne.CanvasObject{widgets.Remark("× ", say.Error(err), widgets.Bad)}, im.told.Objects...)
			im.told.Refresh()
			return
		}
		p.bring = nil
		im.leave()
		p.wanted.ID = q.ID
		p.Shown()
	})
}
