package stashui

import (
	"fmt"
	"maps"
	"slices"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"

	"tallycloth/stash/list"
	"tallycloth/ui/say"
	"tallycloth/ui/widgets"
)

// fill lists what becomes of the rows, those the person leaves out among them. A list may
// have a hundred thousand, so that each is put into words when it comes into sight.
func (im *lister) fill() {
	var shown []int // rows of the table
	for _, r := range im.result.Rows {
		if !im.only.Checked || len(r.Why)+len(r.Remarks) > 0 {
			shown = append(shown, r.Index)
		}
	}
	if im.draft != nil && len(im.draft.Skip) > 0 {
		shown = slices.AppendSeq(shown, maps.Keys(im.draft.Skip))
		slices.Sort(shown)
	}
	im.rows.SetLazy(len(shown), func(i int) any { return shown[i] }, func(i int) widgets.Row {
		if r, ok := im.tried(shown[i]); ok {
			return im.rowOf(r)
		}
		return im.leftOut(shown[i])
	})
	if r, ok := im.rows.ChosenRow(); ok {
		im.show(r.Key.(int))
		return
	}
	im.detail.RemoveAll()
	im.detail.Refresh()
}

// tried is what the dry run says of a row of the table.
func (im *lister) tried(index int) (list.Row, bool) {
	rows := im.result.Rows
	k, ok := slices.BinarySearchFunc(rows, index, func(r list.Row, i int) int { return r.Index - i })
	if !ok {
		return list.Row{}, false
	}
	return rows[k], true
}

// leftOut is a row that the person leaves out.
func (im *lister) leftOut(i int) widgets.Row {
	return widgets.Row{Key: i, Title: im.nameOf(i), Sub: "You leave this row out.",
		Cells: []widgets.Cell{{Text: fmt.Sprint(im.draft.Book.Table.Line(i)), Tone: widgets.Quiet}, {Text: "left out", Tone: widgets.Quiet}}}
}

func (im *lister) rowOf(r list.Row) widgets.Row {
	out := widgets.Row{Key: r.Index, Title: r.Says, Cells: []widgets.Cell{{Text: fmt.Sprint(r.Line), Tone: widgets.Quiet}, {Text: "comes in", Tone: widgets.Good}}}
	switch {
	case r.Outcome == list.Refused:
		out.Title = im.nameOf(r.Index)
		out.Sub, out.SubTone = "× "+r.Why[0], widgets.Bad
		out.Cells[1] = widgets.Cell{Text: "× refused", Tone: widgets.Bad}
	case len(r.Remarks) > 0:
		out.Sub, out.SubTone = "! "+r.Remarks[0], widgets.Careful
	}
	return out
}

// nameOf is what a row of the list says of its fabric, or its first words.
func (im *lister) nameOf(i int) string {
	t := im.draft.Book.Table
	for k, c := range im.draft.Mapping.Columns {
		if c.Field == list.FabricName && t.At(i, k).Text != "" {
			return t.At(i, k).Text
		}
	}
	for k := range im.draft.Mapping.Columns {
		if s := t.At(i, k).Text; s != "" {
			return s
		}
	}
	return fmt.Sprintf("Line %d", t.Line(i))
}

// show says all there is to say about one row, and what stands in it.
func (im *lister) show(i int) {
	t := im.draft.Book.Table
	word := "Leave this row out"
	if im.draft.Skip[i] {
		word = "Take this row again"
	}
	skip := widgets.NewButton(word, func() { im.skip(i) })
	im.page.host.Names.Set("list.skip", skip)
	out := []fyne.CanvasObject{container.NewBorder(nil, nil, widgets.SubHeading(fmt.Sprintf("Line %d", t.Line(i))), skip)}
	if r, ok := im.tried(i); ok {
		if r.Outcome != list.Refused {
			out = append(out, widgets.Remark("✓ ", r.Says, widgets.Good))
		}
		for _, s := range r.Why {
			out = append(out, widgets.Remark("× ", s, widgets.Bad))
		}
		for _, s := range r.Remarks {
			out = append(out, widgets.Remark("! ", s, widgets.Careful))
		}
	}
	for k, c := range im.draft.Mapping.Columns {
		if s := t.At(i, k).Text; s != "" {
			name := t.At(im.draft.Mapping.Headings, k).Text
			if name == "" {
				name = string(c.Field)
			}
			out = append(out, widgets.Remark("", name+": "+s, widgets.Quiet))
		}
	}
	im.detail.Objects = out
	im.detail.Refresh()
}

// skip leaves a row out, or takes it again.
func (im *lister) skip(i int) {
	if im.draft.Skip == nil {
		im.draft.Skip = map[int]bool{}
	}
	if im.draft.Skip[i] {
		delete(im.draft.Skip, i)
	} else {
		im.draft.Skip[i] = true
	}
	im.plan()
}

// count says how many rows come in and what is still to be decided.
func (im *lister) count() {
	r := im.result
	n := len(r.Rows) - r.Refused
	im.send.SetText("Bring in " + say.Count(n, "row", "rows"))
	im.send.Disable()
	im.leave.SetText("Leave out the rows that are refused")
	if r.Refused > 0 {
		im.leave.SetText("Leave out the " + say.Count(r.Refused, "row that is refused", "rows that are refused"))
		im.leave.Enable()
	} else {
		im.leave.Disable()
	}
	im.leave.Show()
	im.only.Show()
	if im.draft == nil {
		im.leave.Hide()
		im.only.Hide()
		im.send.SetText("Bring in")
		im.say(widgets.Remark("", "Choose a file, or drop one on the window.", widgets.Quiet))
		return
	}
	if n > 0 && (r.Refused == 0 || im.leave.Checked) && !im.asking {
		im.send.Enable()
	}
	im.say(im.remarks(n)...)
}

// remarks are the sentences above the rows.
func (im *lister) remarks(n int) []fyne.CanvasObject {
	r := im.result
	var out []fyne.CanvasObject
	for _, w := range im.draft.Book.Warnings {
		out = append(out, widgets.Remark("! ", w, widgets.Careful))
	}
	for i, q := range r.Questions {
		if i == 3 {
			out = append(out, widgets.Remark("? ", fmt.Sprintf("And %d more questions.", len(r.Questions)-i), widgets.Accent))
			break
		}
		out = append(out, widgets.Remark("? ", say.Sentence(q.What)+" "+say.Sentence(q.Do), widgets.Accent))
	}
	told := say.Count(n, "row comes in", "rows come in") + ": " + say.Count(len(r.Cloths), "length", "lengths") + ", " + say.Count(r.NewFabrics, "new fabric", "new fabrics") + "."
	tone := widgets.Plain
	if r.Refused > 0 {
		told += " " + say.Count(r.Refused, "row is refused", "rows are refused") + ". Correct the columns, mend the list and read it again, or leave out what is refused."
		tone = widgets.Careful
	}
	return append(out, widgets.Remark("", told, tone))
}
