package patternui

import (
	"context"
	"path/filepath"
	"strings"

	"fyne.io/fyne/v2"

	"tallycloth/planner/exchange/drawn"
	"tallycloth/planner/exchange/outlines"
	"tallycloth/planner/pattern"
	"tallycloth/ui/page"
	"tallycloth/ui/say"
	"tallycloth/ui/widgets"
)

// hasOutlines says whether a pattern has anything to save.
func hasOutlines(q pattern.Pattern) bool {
	_, err := drawn.Part{}.Of(q)
	return err == nil
}

// saveOutlines opens the form that writes the outlines of a pattern into a file.
func (p *Page) saveOutlines(q pattern.Pattern, size string) {
	endings := []string{".dxf", ".svg"}
	path := widgets.NewField("Save as (folder and name)", "pattern.dxf", nil)
	path.Needed = "Say where to save the file."
	path.Set(filepath.Join(page.Documents(), fileName(q.Name)+endings[0]))
	as := widgets.NewChoice("As", []string{"DXF for sewn products", "SVG drawing"}, nil)
	as.OnChanged = func(string) {
		old := path.Text()
		path.Set(strings.TrimSuffix(old, filepath.Ext(old)) + endings[max(as.SelectedIndex(), 0)])
	}
	sizes := widgets.NewChoice("Sizes", []string{"all sizes", "size " + size}, nil)
	for name, o := range map[string]fyne.CanvasObject{"form.path": path.Entry, "form.as": as, "form.sizes": sizes} {
		p.host.Names.Set(name, o)
	}
	f := &widgets.Form{Title: "Export outlines: " + q.Name, Send: "Save the file", Say: say.Error, Width: 560, Fields: []*widgets.Field{path},
		Intro: "At full size, with grain, notches and fold. A DXF file also says how often each pattern piece is cut, and from what.",
		Rows:  [][]fyne.CanvasObject{{as.Object(), sizes.Object()}, {path.Object()}}}
	f.Done = func() error {
		part, to := drawn.Part{}, strings.TrimSpace(path.Text())
		if sizes.SelectedIndex() == 1 {
			part.Sizes = []string{size}
		}
		p.host.Tell("Writing " + to + " …")
		p.host.Act("pattern.outlines", func(context.Context) (string, error) {
			return "Saved " + to + ".", outlines.Save(to, q, part)
		}, nil)
		return nil
	}
	p.host.ShowForm(f)
}

// fileName is a name without what file names may not hold.
func fileName(name string) string {
	return strings.TrimSpace(strings.Map(func(r rune) rune {
		if r < ' ' || strings.ContainsRune(`/\:*?"<>|`, r) {
			return '-'
		}
		return r
	}, name))
}
