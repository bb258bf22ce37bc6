package paper

import (
	"fmt"

	"tallycloth/planner/exchange/sheet"
	"tallycloth/stash"
	"tallycloth/ui/say"
)

// LabelSheets are the sheets of labels at hand, by the paper they come on, in words.
var LabelSheets = []struct {
	Paper string
	Words string
	Grid  sheet.Grid
}{
	{"A4", "3 × 8 labels of 70 × 37 mm", sheet.LabelsA4},
	{"Letter", "3 × 10 labels of 2 5/8 × 1 in", sheet.LabelsLetter},
}

// LabelGrid is the sheet of labels that comes on a paper.
func LabelGrid(on sheet.Paper) sheet.Grid {
	for _, s := range LabelSheets {
		if s.Grid.Paper == on {
			return s.Grid
		}
	}
	return sheet.LabelsA4
}

// Labels lays a label for each cloth out on a sheet of labels, leaving out so many places of the first
// one, whose labels are used already.
func Labels(v say.Voice, cloths []stash.ClothState, g sheet.Grid, skip int) (*sheet.Document, error) {
	p, err := printer()
	if err != nil {
		return nil, err
	}
	var all []sheet.Label
	for _, c := range cloths {
		all = append(all, sheet.Label{Code: c.Cloth.Code, Lines: v.Label(c)})
	}
	d, err := p.LabelSheets(g, all, skip)
	if err != nil {
		return nil, &stash.Error{Kind: stash.Invalid, What: say.Sentence("The labels cannot be laid out: " + err.Error()),
			Do: fmt.Sprintf("Leave out fewer than %d labels", g.Columns*g.Rows), Err: err}
	}
	return d, nil
}
