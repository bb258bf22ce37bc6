package stashui

import (
	"fmt"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/layout"
	"fyne.io/fyne/v2/widget"

	"tallycloth/planner"
	"tallycloth/stash"
	"tallycloth/ui/say"
	"tallycloth/ui/widgets"
)

// list writes the lines with what each costs in all.
func (b *buying) list(s planner.Sharing) {
	if len(b.words) != len(b.lines) {
		return // relist makes them alike, and reckons again
	}
	for i, w := range b.words {
		w.Set(b.lineWords(i, s), widgets.Plain)
	}
}

func (b *buying) lineWords(i int, s planner.Sharing) string {
	l, v := b.lines[i], b.page.host.Voice()
	text := fmt.Sprintf("%d.  %s of %s", i+1, v.Length(l.Length), l.Fabric.Name)
	if l.Width > 0 {
		text = fmt.Sprintf("%d.  %s × %s of %s", i+1, v.Length(l.Length), v.Width(l.Width), l.Fabric.Name)
	}
	if l.Lot != "" {
		text += ", lot " + l.Lot
	}
	if s.Prices[i].Currency != "" {
		text += "   " + s.Prices[i].String()
	}
	if s.Costs[i].Minor != s.Prices[i].Minor {
		text += ", with postage and tax " + s.Costs[i].String()
	}
	return text
}

// addLine puts the line that was filled in into the list.
func (b *buying) addLine() {
	b.fabric.name.Needed, b.fabric.width.Needed, b.long.Needed = b.neededName, b.neededWidth, b.neededLength
	for _, f := range append(b.lineTexts(), b.fabric.width) {
		if !f.Valid() {
			b.page.host.Focus(f.Entry)
			return
		}
	}
	l := b.line()
	b.lines = append(b.lines, l)
	if _, err := b.whole().Share(b.page.host.Settings().Currency); err != nil {
		b.lines = b.lines[:len(b.lines)-1]
		b.total.Set(say.Error(err), widgets.Bad)
		return
	}
	if l.FabricID == stash.NoID {
		b.fabric.offer(l.Fabric)
	}
	b.clear()
	b.relist()
	b.page.host.Focus(b.fabric.known)
}

// clear makes the form ready for another line; where it is kept is likely the same.
func (b *buying) clear() {
	for _, f := range []*widgets.Field{b.long, b.price, b.lot, b.piece} {
		f.Set("")
	}
	b.fabric.clear()
}

// shownLines is how many lines of a purchase are in sight at once, so that the form fits a
// small screen.
const shownLines = 3

// relist makes the rows of the list anew.
func (b *buying) relist() {
	b.listed.RemoveAll()
	b.words = nil
	for i := range b.lines {
		words := widgets.ShortLine("", widgets.Plain)
		b.words = append(b.words, words)
		change := widgets.NewButton("Change", func() { b.changeLine(i) })
		remove := widgets.NewButton("Remove", func() { b.removeLine(i) })
		change.Importance, remove.Importance = widget.LowImportance, widget.LowImportance
		b.page.host.Names.Set(fmt.Sprintf("form.change.%d", i+1), change)
		b.page.host.Names.Set(fmt.Sprintf("form.remove.%d", i+1), remove)
		b.listed.Add(container.NewBorder(nil, nil, nil, container.NewHBox(change, remove), midway(words)))
	}
	if n := len(b.listed.Objects); n > 0 {
		each := b.listed.MinSize().Height / float32(n)
		b.scroll.SetMinSize(fyne.NewSize(0, each*float32(min(n, shownLines))))
	} else {
		b.scroll.SetMinSize(fyne.NewSize(0, 0))
	}
	b.scroll.Refresh()
	b.reckon()
	b.form.Refit()
	b.scroll.ScrollToBottom()
}

// explained puts a line beneath a yes or no that says what it does.
func explained(c *widgets.Check, why string) fyne.CanvasObject {
	return container.NewVBox(layout.NewSpacer(), c, container.New(layout.NewCustomPaddedLayout(0, 0, 30, 0), widgets.Caption(why)))
}

// midway puts something of its own height in the middle of a row.
func midway(o fyne.CanvasObject) fyne.CanvasObject {
	return container.NewVBox(layout.NewSpacer(), o, layout.NewSpacer())
}

func (b *buying) removeLine(i int) {
	b.lines = append(b.lines[:i:i], b.lines[i+1:]...)
	b.relist()
	b.page.host.Focus(b.fabric.known)
}

// changeLine puts a line back into the fields; what stands there goes into the list first.
func (b *buying) changeLine(i int) {
	l := b.lines[i]
	if b.typing() {
		n := len(b.lines)
		if b.addLine(); len(b.lines) == n {
			return
		}
	}
	b.lines = append(b.lines[:i:i], b.lines[i+1:]...)
	b.fillLine(typedOf(l))
	b.relist()
	b.page.host.Focus(b.long.Entry)
}
