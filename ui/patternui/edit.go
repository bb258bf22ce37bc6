package patternui

import (
	"context"
	"fmt"
	"slices"
	"strconv"
	"strings"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/widget"

	"tallycloth/planner/pattern"
	"tallycloth/planner/sizing"
	"tallycloth/stash/measure"
	"tallycloth/stash/shape"
	"tallycloth/ui/say"
	"tallycloth/ui/widgets"
)

// allSizes is the choice to change a piece in every size.
const allSizes = "in all sizes"

// editWords tell how the board is used.
const editWords = "Drag corners, the arrow of the grain (its tip at the top end), or the cross; a tap puts the cross there. Then choose what becomes of it; a seam allowance at the cross is for that edge alone, from corner to corner. By keyboard: n and b choose, arrows move, in longer or shorter steps after Page Up or Page Down, Enter takes over."

// Where an allowance is added or taken off.
const (
	allRound = "all round"
	atCross  = "at the cross" // along the edge that it is nearest to
)

// mostHandles are corners that can be dragged: more lie too close together.
const mostHandles = 40

// editor changes the outlines of a pattern; nothing is kept before it is saved, as one act.
type editor struct {
	page *Page
	was  pattern.Pattern // as it is kept
	work pattern.Pattern
	past []pattern.Pattern // before each change, to be taken back

	piece, sizes, drawn, role, kind *widgets.Choice
	where                           *widgets.Choice // the allowance is added
	name, count, allowance, turn    *widgets.Field
	pair                            *widgets.Check
	board                           *widgets.PhotoBoard
	told                            *fyne.Container
	save, undo                      *widgets.Button
	object                          fyne.CanvasObject
	view                            boardView
	seen                            string // the size that was drawn last
	filling                         bool
}

// EditOutlines opens the view that changes the outlines of a pattern.
func (p *Page) EditOutlines(q pattern.Pattern, size string) {
	e := &editor{page: p, was: q, work: q, told: container.NewVBox()}
	e.lay(size)
	p.object.Objects = []fyne.CanvasObject{e.object}
	p.object.Refresh()
	e.show()
	p.host.Focus(e.board)
}

func (e *editor) leave() {
	p := e.page
	p.object.Objects = []fyne.CanvasObject{p.shelf}
	p.object.Refresh()
	p.Focus()
}

func (e *editor) lay(size string) {
	var pieces, roles []string
	for _, q := range e.work.Pieces {
		if len(q.Outlines) > 0 {
			pieces = append(pieces, q.Code+"  "+q.Name)
		}
	}
	for _, r := range e.work.Roles {
		roles = append(roles, r.Name)
	}
	e.piece = widgets.NewChoice("Pattern piece", pieces, func(string) { e.show() })
	sizes := []string{allSizes}
	for _, z := range e.work.Sizes {
		sizes = append(sizes, "only in size "+z.Name)
	}
	e.sizes = widgets.NewChoice("What is changed on the outline is changed", sizes, func(string) { e.show() })
	if len(sizes) == 2 {
		size = e.work.Sizes[0].Name
	}
	e.sizes.SetSelected("only in size " + size)
	e.name = widgets.NewField("Name", "", nil)
	e.count = widgets.NewField("How many", "1", readHowMany)
	e.pair = widgets.NewCheck("in mirrored pairs", nil)
	e.role = widgets.NewChoice("Cut from", roles, nil)
	e.drawn = widgets.NewChoice("It is drawn", []string{drawnWhole, leftFold, rightFold}, nil)
	e.allowance = widgets.NewField("Seam allowance", "1 cm", e.page.readLength)
	e.where = widgets.NewChoice("Where", []string{allRound, atCross}, nil)
	e.turn = widgets.NewField("Turn the grain line by (degrees)", "-5", readDegrees)
	e.kind = widgets.NewChoice("Notch", []string{"single", "double"}, nil)
	e.board = widgets.NewPhotoBoard(fyne.NewSize(380, 320))
	e.board.Key = widgets.EnterEscape(e.moved, e.leave)
	e.board.Changed = func() { e.view.follow(e.board) }
	e.board.Tap = func(s widgets.Spot) { e.view.setCross(e.board, s) }
	e.save = widgets.Primary("Keep the outlines", e.keep)
	e.undo = widgets.NewButton("Take back the last change", e.back)
	back := widgets.NewButton("Back to patterns", e.leave)
	button := func(name, text string, act func()) *widgets.Button {
		b := widgets.NewButton(text, act)
		e.page.host.Names.Set("edit."+name, b)
		return b
	}
	form := container.NewVBox(
		container.NewGridWithColumns(2, e.piece.Object(), e.sizes.Object()),
		widgets.Remark("", editWords, widgets.Quiet),
		container.NewGridWithColumns(2, button("move", "Take over what was dragged", e.moved), button("grain", "Grain line as the arrow", e.grain)),
		container.NewGridWithColumns(2, button("add", "Add a corner at the cross", func() { e.there(pattern.AddPoint) }), button("remove", "Remove the corner there", func() { e.there(pattern.RemovePoint) })),
		container.NewGridWithColumns(3, e.kind.Object(), lowered(button("notch", "Set a notch there", func() {
			e.there(func(at shape.Point) pattern.Change { return pattern.AddNotch(at, e.kind.Selected) })
		})),
			lowered(button("unnotch", "Remove it", func() { e.there(pattern.RemoveNotch) }))),
		container.NewGridWithColumns(4, e.allowance.Object(), e.where.Object(), lowered(button("let", "Add it", func() { e.offset(1) })), lowered(button("take", "Take it off", func() { e.offset(-1) }))),
		container.NewGridWithColumns(3, e.turn.Object(), lowered(button("turn", "Turn", e.turned)), lowered(button("mirror", "Mirror", func() { e.do(pattern.Mirror) }))),
		widgets.SubHeading("The pattern piece in all sizes"),
		container.NewGridWithColumns(3, e.name.Object(), e.count.Object(), lowered(e.pair)),
		container.NewGridWithColumns(3, e.role.Object(), e.drawn.Object(), lowered(button("piece", "Change the pattern piece", e.pieceAsTyped))),
		e.told)
	for name, o := range map[string]fyne.CanvasObject{"edit.which": e.piece, "edit.sizes": e.sizes, "edit.name": e.name.Entry, "edit.count": e.count.Entry, "edit.pair": e.pair, "edit.role": e.role,
		"edit.drawn": e.drawn, "edit.allowance": e.allowance.Entry, "edit.degrees": e.turn.Entry, "edit.kind": e.kind, "edit.where": e.where, "edit.board": e.board, "edit.save": e.save, "edit.undo": e.undo,
		"edit.back": back, "edit.told": e.told} {
		e.page.host.Names.Set(name, o)
	}
	for _, f := range []*widgets.Field{e.name, e.count, e.allowance, e.turn} {
		f.Entry.Escape = func() { e.page.host.Focus(e.board) }
	}
	head := container.NewBorder(nil, nil, widgets.Heading("Outlines of "+e.work.Name), container.NewHBox(back, e.undo, e.save), widget.NewLabel(""))
	split := widgets.Sides(container.NewPadded(e.board), container.NewVScroll(widgets.Inset(form)), 0.55)
	e.object = container.NewPadded(container.NewBorder(head, nil, nil, nil, split))
}

// lowered puts a button beside a field, on the line of what is typed.
func lowered(o fyne.CanvasObject) fyne.CanvasObject {
	return container.NewVBox(widgets.Caption(" "), o)
}

func readDegrees(text string) (string, error) {
	v, err := degrees(text)
	if err != nil {
		return "", err
	}
	return fmt.Sprintf("= %.4g° to the left", v), nil
}

func degrees(text string) (float64, error) {
	v, err := strconv.ParseFloat(strings.ReplaceAll(strings.TrimSuffix(strings.TrimSpace(text), "°"), ",", "."), 64)
	if err != nil || !(v >= -180 && v <= 180) {
		return 0, fmt.Errorf("type degrees from −180 to 180, such as 5")
	}
	return v, nil
}

// at is the piece chosen, its size in sight, and the sizes that are changed (nil for all). With all
// sizes the one stays in sight that was there before.
func (e *editor) at() (q pattern.Piece, size string, changed []string) {
	code, _, _ := strings.Cut(e.piece.Selected, " ")
	q, _ = e.work.Piece(code)
	for _, z := range e.work.Sizes {
		if e.sizes.Selected == "only in size "+z.Name {
			return q, z.Name, []string{z.Name}
		}
	}
	if _, ok := q.Outlines[e.seen]; ok {
		return q, e.seen, nil
	}
	for _, z := range e.work.Sizes {
		if _, ok := q.Outlines[z.Name]; ok {
			size = z.Name
		}
	}
	return q, size, nil
}

// show fills the fields and the board from the piece in sight.
func (e *editor) show() {
	if e.board == nil || e.filling {
		return
	}
	q, size, _ := e.at()
	e.seen = size
	e.name.Set(q.Name)
	e.count.Set(strconv.Itoa(max(q.Cut, 1)))
	e.pair.SetChecked(q.Pairs)
	e.role.SetSelected(q.Role)
	e.drawn.SetSelected(drawnWhole)
	if q.OnFold {
		e.drawn.SetSelected(leftFold)
	}
	e.view = viewOf(q.Outlines[size])
	e.view.put(e.board)
	if len(e.past) == 0 {
		e.undo.Disable()
		e.save.Disable()
	} else {
		e.undo.Enable()
		e.save.Enable()
	}
}

func (e *editor) say(o ...fyne.CanvasObject) {
	e.told.Objects = o
	e.told.Refresh()
}

// took shows a change, or why it cannot be.
func (e *editor) took(p pattern.Pattern, err error) {
	if err != nil {
		e.say(widgets.Remark("× ", say.Error(err), widgets.Bad))
		return
	}
	e.past = append(e.past, e.work)
	e.work = p
	e.say()
	e.show()
}

func (e *editor) do(c pattern.Change) {
	q, _, sizes := e.at()
	e.took(e.work.Edited(q.Code, sizes, c))
}

// there makes a change at the cross, in other sizes at the place that corresponds.
func (e *editor) there(change func(shape.Point) pattern.Change) {
	at := e.cross()
	e.do(sizing.Alike(e.view.outline.Cut, func(to sizing.ToPlace) pattern.Change { return change(to(at)) }))
}

// back takes the last change back.
func (e *editor) back() {
	if n := len(e.past); n > 0 {
		e.work, e.past = e.past[n-1], e.past[:n-1]
		e.say()
		e.show()
	}
}

func (e *editor) cross() shape.Point { return e.view.cross(e.board) }

// moved takes over corners that were dragged.
func (e *editor) moved() {
	corners, by := e.view.dragged(e.board)
	if !slices.ContainsFunc(by, func(p shape.Point) bool { return p != shape.Point{} }) {
		e.say(widgets.Remark("", "No corner was dragged.", widgets.Quiet))
		return
	}
	e.do(sizing.MoveAlike(e.view.outline.Cut, corners, by))
}

func (e *editor) grain() {
	if q, _, _ := e.at(); q.OnFold {
		e.say(widgets.Remark("× ", "The grain of a pattern piece on the fold runs along its fold. Draw it whole first.", widgets.Bad))
		return
	}
	foot, top := e.view.arrow(e.board)
	e.do(sizing.GrainAlike(e.view.outline.Cut, foot, top))
}

func (e *editor) turned() {
	v, err := degrees(e.turn.Text())
	if q, _, _ := e.at(); err != nil || q.OnFold {
		e.turn.Valid()
		if q.OnFold {
			e.grain()
		}
		return
	}
	e.do(pattern.TurnGrain(shape.Angle(v * 1000)))
}

func (e *editor) offset(way measure.Length) {
	l, err := measure.ParsePositiveLength(e.allowance.Text(), e.page.unit())
	if err != nil {
		e.allowance.Needed = "Say how wide it is."
		e.allowance.Valid()
		return
	}
	q, _, _ := e.at()
	switch at := e.cross(); {
	case e.where.Selected == atCross:
		e.do(sizing.Alike(e.view.outline.Cut, func(to sizing.ToPlace) pattern.Change {
			return pattern.AddAllowance(0, []pattern.EdgeAllowance{{At: to(at), Wide: way * l}}, q.OnFold)
		}))
	case way > 0:
		e.do(pattern.AddAllowance(l, nil, q.OnFold))
	default:
		e.do(pattern.OffsetBy(-l, q.OnFold))
	}
}

// pieceAsTyped changes name, count, use and fold of the piece.
func (e *editor) pieceAsTyped() {
	n, err := strconv.Atoi(strings.TrimSpace(e.count.Text()))
	if err != nil {
		e.count.Valid()
		return
	}
	q, _, _ := e.at()
	p, err := e.work.EditedPiece(q.Code, func(x *pattern.Piece) error {
		x.Name, x.Cut, x.Pairs, x.Role = strings.TrimSpace(e.name.Text()), n, e.pair.Checked, e.role.Selected
		side, half := map[string]pattern.Side{leftFold: pattern.LeftSide, rightFold: pattern.RightSide}[e.drawn.Selected]
		switch {
		case half && (!x.OnFold || side == pattern.RightSide):
			return x.PutOnFold(side)
		case !half && x.OnFold:
			return x.OpenOut()
		}
		return nil
	})
	code := q.Code
	if e.took(p, err); err == nil {
		e.rename(code)
	}
}

// rename shows the pieces by their names, that of a code chosen.
func (e *editor) rename(code string) {
	var words []string
	chosen := ""
	for _, q := range e.work.Pieces {
		if len(q.Outlines) > 0 {
			words = append(words, q.Code+"  "+q.Name)
		}
		if q.Code == code {
			chosen = q.Code + "  " + q.Name
		}
	}
	e.filling = true
	e.piece.Words(words)
	e.piece.SetSelected(chosen)
	e.filling = false
}

// keep saves the pattern.
func (e *editor) keep() {
	p, q := e.page, e.work
	p.host.Act("edit", func(ctx context.Context) (string, error) {
		_, err := p.host.Studio.SavePattern(ctx, q)
		return "Kept the outlines of " + q.Name + ". Ctrl+Z takes the changes back.", err
	}, func(err error) {
		if err != nil {
			e.say(widgets.Remark("× ", say.Error(err), widgets.Bad))
			return
		}
		e.leave()
		p.wanted.ID = q.ID
		p.Shown()
	})
}
