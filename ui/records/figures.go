package records

import (
	"io"
	"path/filepath"
	"strings"

	"tallycloth/assets"
	"tallycloth/planner"
	"tallycloth/planner/exchange/sheet"
	"tallycloth/planner/exchange/table"
	"tallycloth/planner/scene"
	"tallycloth/stash"
	"tallycloth/stash/list"
)

// Figures is one record of the studio.
type Figures struct {
	Title string
	Notes []string // of what it is: period and filter
	Lines []string // sentences: totals
	Chart scene.Scene
	Table sheet.Table
	File  list.Table // the numbers, for a file
}

// PaperOf is the paper of the settings.
func PaperOf(set planner.Settings) sheet.Paper {
	if set.Paper == Letter {
		return sheet.Letter
	}
	return sheet.A4
}

// Papers are the papers that settings name.
const (
	A4     = "A4"
	Letter = "Letter"
)

// Report is the figures as they are printed.
func (f Figures) Report() sheet.Report {
	return sheet.Report{Title: f.Title, Notes: f.Notes, Parts: []sheet.Part{{Lines: f.Lines, Scene: f.Chart}, {Table: f.Table}}}
}

// Print writes the figures into a PDF file that is not there yet.
func (f Figures) Print(path string, paper sheet.Paper) error {
	if !strings.EqualFold(filepath.Ext(path), ".pdf") {
		return &stash.Error{Kind: stash.Invalid, What: path + " is no name for a PDF", Do: "End the name in .pdf"}
	}
	p, err := sheet.New(assets.FontRegular, assets.FontWider)
	if err != nil {
		return err
	}
	return table.SaveNew(path, func(w io.Writer) error { return p.Report(w, paper, f.Report()) })
}

// Save writes the numbers into a CSV file or a workbook that is not there yet, as the ending of
// the name says.
func (f Figures) Save(path string, o table.CSV) error {
	_, err := table.Save(path, []list.Table{f.File}, o)
	return err
}
