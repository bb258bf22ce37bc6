package paperui

import (
	"context"
	"fmt"
	"strconv"
	"strings"

	"fyne.io/fyne/v2"

	"tallycloth/planner/exchange/sheet"
	"tallycloth/stash"
	"tallycloth/ui/page"
	"tallycloth/ui/paper"
	"tallycloth/ui/widgets"
)

// LabelSet is cloth that labels can be made for, in words.
type LabelSet struct {
	Words  string
	Cloths []stash.ClothState
}

// Labels opens labels for one of some sets of cloth, on the sheets of labels at hand.
func Labels(h *page.Host, sets ...LabelSet) {
	used := widgets.NewField("Labels used already on the first sheet", "0", func(text string) (string, error) {
		_, err := usedUp(text)
		return "", err
	})
	h.Names.Set("labels.skip", used.Entry)
	var kinds []string
	for _, s := range paper.LabelSheets {
		kinds = append(kinds, s.Paper+": "+s.Words)
	}
	a := Ask{Title: "Labels", File: "Labels", WhichName: "Labels for",
		Intro: "The code in letters and as a QR code, the fabric, its size, fibres and stretch. " + strings.Join(kinds, "; ") +
			". Print one on plain paper first and hold it against a sheet of labels.",
		More: func(p *Preview) fyne.CanvasObject {
			used.Entry.Escape = p.Close
			used.Entry.OnSubmitted = func(string) { p.again() }
			used.Changed = p.again
			return used.Object()
		}}
	for _, s := range sets {
		a.Which = append(a.Which, s.Words)
	}
	a.Lay = func(_ context.Context, which int, _ paper.Way, f sheet.Full) (*sheet.Document, error) {
		skip, err := usedUp(used.Text())
		if err != nil {
			return nil, &stash.Error{Kind: stash.Invalid, What: "How many labels are used already cannot be read", Do: "Type a number of labels, such as 4"}
		}
		return paper.Labels(h.Voice(), sets[which].Cloths, paper.LabelGrid(f.Paper), skip)
	}
	Show(h, a)
}

// usedUp reads how many labels of a sheet are used; nothing typed is none.
func usedUp(text string) (int, error) {
	text = strings.TrimSpace(text)
	if text == "" {
		return 0, nil
	}
	n, err := strconv.Atoi(text)
	if err != nil || n < 0 {
		return 0, fmt.Errorf("type a number of labels, such as 4")
	}
	return n, nil
}
