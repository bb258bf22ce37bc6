package stashui

import (
	"bytes"
	"fmt"
	"os"
	"path/filepath"
	"strconv"
	"strings"

	"fyne.io/fyne/v2"

	"tallycloth/assets"
	"tallycloth/planner/exchange/sheet"
	"tallycloth/stash"
	"tallycloth/ui/page"
	"tallycloth/ui/say"
	"tallycloth/ui/widgets"
)

// labelSheets are the sheets of labels at hand.
var labelSheets = []struct {
	words string
	grid  sheet.Grid
}{
	{"A4, 3 × 8 labels of 70 × 37 mm", sheet.LabelsA4},
	{"Letter, 3 × 10 labels of 2 5/8 × 1 in", sheet.LabelsLetter},
}

// Labels opens the form that writes labels for the cloth chosen, or for all in the list.
func (p *Page) Labels(c stash.ClothState) {
	whole := fmt.Sprintf("everything in the list (%d)", len(p.list.Rows()))
	which := widgets.NewChoice("Labels for", []string{c.Fabric.Name + " " + c.Cloth.Code, whole}, nil)
	var words []string
	for _, s := range labelSheets {
		words = append(words, s.words)
	}
	paper := widgets.NewChoice("Sheet of labels", words, nil)
	skip := widgets.NewField("Labels used already on the first sheet", "0", func(s string) (string, error) {
		if n, err := strconv.Atoi(strings.TrimSpace(s)); strings.TrimSpace(s) != "" && (err != nil || n < 0) {
			return "", fmt.Errorf("type a number of labels, such as 4")
		}
		return "", nil
	})
	path := needed(widgets.NewField("File to write (its path)", "labels.pdf", nil), "Say where the file is to be written.")
	path.Set(filepath.Join(page.Documents(), "labels.pdf"))
	for name, o := range map[string]fyne.CanvasObject{"labels.which": which, "labels.skip": skip.Entry, "labels.path": path.Entry} {
		p.host.Names.Set(name, o)
	}
	form := &widgets.Form{Title: "Labels", Send: "Write the labels", Say: say.Error, Width: 560,
		Intro: "A label says the code, in letters and as a QR code, the fabric, its size, fibres and stretch. Print at full size, on plain paper first, and hold it against a sheet of labels.",
		Rows:  [][]fyne.CanvasObject{{which.Object()}, {paper.Object(), skip.Object()}, {path.Object()}}, Fields: []*widgets.Field{skip, path}}
	form.Done = func() error {
		cloths := []stash.ClothState{c}
		if which.SelectedIndex() == 1 {
			cloths = p.listed()
		}
		n, _ := strconv.Atoi(strings.TrimSpace(skip.Text()))
		grid := labelSheets[max(paper.SelectedIndex(), 0)].grid
		if err := p.writeLabels(strings.TrimSpace(path.Text()), cloths, grid, n); err != nil {
			return err
		}
		p.host.Tell(fmt.Sprintf("Wrote %s on %s to %s.", say.Count(len(cloths), "label", "labels"), say.Count(grid.Sheets(len(cloths), n), "sheet", "sheets"), path.Text()))
		return nil
	}
	p.open(form)
}

// listed are the cloths in the list, as it is filtered.
func (p *Page) listed() []stash.ClothState {
	var out []stash.ClothState
	for _, r := range p.list.Rows() {
		if id, ok := r.Key.(stash.ID); ok {
			if c, ok := p.cloth(id); ok {
				out = append(out, c)
			}
		}
	}
	return out
}

func (p *Page) writeLabels(path string, cloths []stash.ClothState, grid sheet.Grid, skip int) error {
	v := p.host.Voice()
	var labels []sheet.Label
	for _, c := range cloths {
		labels = append(labels, sheet.Label{Code: c.Cloth.Code, Lines: v.Label(c)})
	}
	printer, err := sheet.New(assets.FontRegular, assets.FontWider)
	if err != nil {
		return err
	}
	var b bytes.Buffer
	if err := printer.Labels(&b, grid, labels, skip); err != nil {
		return fmt.Errorf("laying out the labels: %w", err)
	}
	if err := os.WriteFile(path, b.Bytes(), 0o644); err != nil {
		return fmt.Errorf("writing %s: %w", path, err)
	}
	return nil
}
