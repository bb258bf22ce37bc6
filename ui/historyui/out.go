package historyui

import (
	"context"
	"path/filepath"
	"strings"

	"fyne.io/fyne/v2"

	"tallycloth/planner"
	"tallycloth/planner/exchange/sheet"
	"tallycloth/planner/exchange/table"
	"tallycloth/ui/page"
	"tallycloth/ui/paperui"
	"tallycloth/ui/records"
	"tallycloth/ui/say"
	"tallycloth/ui/widgets"
)

// print shows what is in sight as it is printed, to save, open or print.
func (p *Page) print() {
	v := p.view()
	paperui.Figures(p.host, p.names[p.current], "As it is seen here, with totals and page numbers.", func(ctx context.Context) (sheet.Report, error) {
		f, err := v.figures(ctx, records.MostPrinted)
		return f.Report(), err
	})
}

// export opens the form that writes what is in sight out for a spreadsheet program.
func (p *Page) export() {
	path := p.pathField(".xlsx")
	form := widgets.NewChoice("As", []string{"a workbook (.xlsx)", "CSV"}, nil)
	form.OnChanged = func(string) {
		old := path.Text()
		path.Set(strings.TrimSuffix(old, filepath.Ext(old)) + []string{".xlsx", ".csv"}[max(form.SelectedIndex(), 0)])
	}
	comma := widgets.NewCheck("CSV with decimal commas and semicolons", nil)
	for name, o := range map[string]fyne.CanvasObject{"form.path": path.Entry, "form.as": form, "form.comma": comma} {
		p.host.Names.Set(name, o)
	}
	f := &widgets.Form{Title: "Export: " + p.names[p.current], Send: "Save the file", Say: say.Error, Width: 560, Fields: []*widgets.Field{path},
		Intro: "The figures in sight as numbers, for a spreadsheet program.", Rows: [][]fyne.CanvasObject{{form.Object()}, {path.Object()}, {comma}}}
	f.Done = func() error {
		o := table.CSV{Comma: comma.Checked}
		p.write(strings.TrimSpace(path.Text()), planner.MostLines, func(fig records.Figures, to string) error { return fig.Save(to, o) })
		return nil
	}
	p.open(f)
}

func (p *Page) pathField(ending string) *widgets.Field {
	path := widgets.NewField("Save as (folder and name)", "history"+ending, nil)
	path.Needed = "Say where to save the file."
	path.Set(filepath.Join(page.Documents(), strings.ToLower(p.names[p.current])+ending))
	return path
}

// write writes what is in sight away from the window's thread.
func (p *Page) write(path string, lines int, save func(f records.Figures, to string) error) {
	v := p.view()
	p.host.Tell("Writing " + path + " …")
	p.host.Act("history.write", func(ctx context.Context) (string, error) {
		f, err := v.figures(ctx, lines)
		if err != nil {
			return "", err
		}
		return "Saved " + path + ".", save(f, path)
	}, nil)
}

func (p *Page) open(f *widgets.Form) {
	p.host.ShowForm(f)
}
