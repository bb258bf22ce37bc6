package stashui

import (
	"context"
	"path/filepath"
	"strings"

	"fyne.io/fyne/v2"

	"tallycloth/planner/exchange/table"
	"tallycloth/ui/page"
	"tallycloth/ui/say"
	"tallycloth/ui/widgets"
)

// listForms are the forms a library can be written out in.
var listForms = []struct{ words, ending string }{
	{"a workbook with a sheet for each list", ".xlsx"},
	{"CSV files, packed in one", ".zip"},
	{"CSV of the stash alone", ".csv"},
}

// Export opens the form that writes everything out.
func (p *Page) Export() {
	if p.outForm != nil && !p.outForm.Sent() {
		p.open(p.outForm)
		return
	}
	var words []string
	for _, f := range listForms {
		words = append(words, f.words)
	}
	path := needed(widgets.NewField("Save as (folder and name)", "tallycloth.xlsx", nil), "Say where to save the file.")
	path.Set(filepath.Join(page.Documents(), "tallycloth"+listForms[0].ending))
	form := widgets.NewChoice("As", words, nil)
	form.OnChanged = func(string) {
		old := path.Text()
		path.Set(strings.TrimSuffix(old, filepath.Ext(old)) + listForms[max(form.SelectedIndex(), 0)].ending)
	}
	comma := widgets.NewCheck("CSV with decimal commas and semicolons", nil)
	for name, o := range map[string]fyne.CanvasObject{"form.path": path.Entry, "form.as": form, "form.comma": comma} {
		p.host.Names.Set(name, o)
	}
	f := &widgets.Form{Title: "Export", Send: "Save the file", Say: say.Error, Width: 640,
		Intro: "Fabrics, lengths and leftovers, purchases, history, notions, patterns and garments, for a spreadsheet program. The stash can be brought in again from it.",
		Rows:  [][]fyne.CanvasObject{{form.Object()}, {path.Object()}, {comma}}, Fields: []*widgets.Field{path}}
	f.Done = func() error {
		tables, err := p.host.Studio.ExportAll(context.Background())
		if err != nil {
			return err
		}
		files, err := table.Save(strings.TrimSpace(path.Text()), tables, table.CSV{Comma: comma.Checked})
		if err == nil {
			p.host.Tell("Saved " + strings.Join(files, ", ") + ".")
		}
		return err
	}
	p.outForm = f
	p.open(f)
}
