package patternui

import (
	"context"
	"fmt"
	"strings"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"

	"tallycloth/planner/exchange/drawn"
	"tallycloth/ui/say"
	"tallycloth/ui/widgets"
)

// What tells a size.
const (
	oneSizeOnly  = "all drawn is one size"
	sizeByLayer  = "by layers or groups"
	sizeByColour = "by the colour of lines"
	sizeByDash   = "by how lines are dashed"
)

var traits = map[string]drawn.Trait{sizeByLayer: drawn.ByLayer, sizeByColour: drawn.ByColour, sizeByDash: drawn.ByDash}

// everySize is what is typed for lines that all sizes have.
const everySize = "all"

// mostValues are asked about; a drawing with more has no sizes by that trait.
const mostValues = 24

// picker asks which lines make which size.
type picker struct {
	im   *importer
	how  *widgets.Choice
	rows *fyne.Container
	box  *fyne.Container
	of   []string // values, by line
	size []*widgets.Field
}

func newPicker(im *importer) *picker {
	k := &picker{im: im, rows: container.NewVBox()}
	k.how = widgets.NewChoice("Sizes are told apart", []string{oneSizeOnly, sizeByLayer, sizeByColour, sizeByDash}, func(string) { k.list(); k.take() })
	k.how.Escape = im.leave
	im.page.host.Names.Set("outlines.sizes", k.how)
	k.box = container.NewVBox(k.how.Object(), k.rows)
	return k
}

// by is what tells sizes apart, "" for nothing.
func (k *picker) by() drawn.Trait { return traits[k.how.Selected] }

// seen is another drawing.
func (k *picker) seen(*drawn.Drawing) { k.list() }

// list asks for the size of every value.
func (k *picker) list() {
	typed := map[string]string{}
	for i, v := range k.of {
		typed[v] = k.size[i].Text()
	}
	k.of, k.size = nil, nil
	k.rows.RemoveAll()
	if k.by() == "" || k.im.whole == nil {
		k.rows.Refresh()
		return
	}
	values := k.im.whole.Values(k.by())
	if len(values) > mostValues {
		k.rows.Add(widgets.Remark("! ", fmt.Sprintf("There are %d of them, too many to be sizes.", len(values)), widgets.Careful))
		values = nil
	} else if len(values) > 0 {
		k.rows.Add(widgets.Remark("", "Write the size that each makes, “"+everySize+"” for lines that every size has, nothing to leave lines out.", widgets.Quiet))
	}
	for i, v := range values {
		f := widgets.NewField(k.words(v), "size", nil)
		f.Set(k.usual(v, typed))
		f.Changed = k.take
		f.Entry.Escape = k.im.leave
		k.of, k.size = append(k.of, v.Of), append(k.size, f)
		k.im.page.host.Names.Set(fmt.Sprintf("outlines.size.%d", i+1), f.Entry)
	}
	for i := 0; i < len(k.size); i += 2 {
		row := container.NewGridWithColumns(2, k.size[i].Object())
		if i+1 < len(k.size) {
			row.Add(k.size[i+1].Object())
		}
		k.rows.Add(row)
	}
	k.rows.Refresh()
}

// usual is what was typed for a value, else a layer's name.
func (k *picker) usual(v drawn.Value, typed map[string]string) string {
	if t, ok := typed[v.Of]; ok {
		return t
	}
	if k.by() == drawn.ByLayer {
		return v.Of
	}
	return ""
}

// words say what a value is: "red #ff0000: 3 outlines, 2 lines".
func (k *picker) words(v drawn.Value) string {
	name := v.Of
	switch {
	case k.by() == drawn.ByColour && name != "":
		name = strings.TrimSpace(say.ColourName(name) + " " + name)
	case k.by() == drawn.ByDash && name == "":
		name = "unbroken"
	case k.by() == drawn.ByDash:
		name = "dashed " + name + " mm"
	case name == "":
		name = "without one"
	}
	return fmt.Sprintf("%s: %s, %s", name, say.Count(v.Outlines, "outline", "outlines"), say.Count(v.Lines, "line", "lines"))
}

// take makes the drawing of the sizes that were picked, and the pattern of it.
func (k *picker) take() {
	im := k.im
	if im.whole == nil {
		return
	}
	if k.by() == "" || im.whole.Stated != nil {
		im.drawing = im.whole
		im.take()
		return
	}
	p := drawn.Pick{By: k.by(), Sizes: map[string]string{}}
	for i, v := range k.of {
		p.Sizes[v] = strings.TrimSpace(k.size[i].Text())
		if strings.EqualFold(p.Sizes[v], everySize) {
			p.Sizes[v] = drawn.EverySize
		}
	}
	whole, picked := *im.whole, drawn.Drawing{}
	im.page.host.Tasks.Start("patterns.pick", func(ctx context.Context, _ func(func())) (err error) {
		picked, err = whole.Picked(ctx, p)
		return err
	}, func(err error) {
		if err != nil {
			im.page.host.Trouble(err)
			return
		}
		im.drawing = &picked
		im.take()
	})
}
