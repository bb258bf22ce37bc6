package paperui

import (
	"context"

	"tallycloth/planner"
	"tallycloth/planner/exchange/sheet"
	"tallycloth/stash"
	"tallycloth/ui/page"
	"tallycloth/ui/paper"
)

// CutList opens the cut list of what read reads.
func CutList(h *page.Host, read func(context.Context) (planner.CuttingSheet, error)) {
	withSheet(h, read, func(s planner.CuttingSheet) {
		Show(h, Ask{Title: "Cut list", File: "Cut list " + s.Title,
			Intro: s.Title + ": every pattern piece cloth by cloth with its count and a box to tick.",
			Lay: func(_ context.Context, _ int, _ paper.Way, f sheet.Full) (*sheet.Document, error) {
				return paper.Report(paper.CutList(h.Voice(), s), f.Paper)
			}})
	})
}

// Project opens the project sheet of a garment.
func Project(h *page.Host, garment stash.ID) {
	var s planner.ProjectSheet
	h.Tasks.Start("paper sheet", func(ctx context.Context, _ func(func())) (err error) {
		s, err = h.Studio.ProjectSheet(ctx, garment)
		return err
	}, func(err error) {
		if err != nil {
			h.Trouble(err)
			return
		}
		Show(h, Ask{Title: "Project sheet", File: "Project sheet " + s.Garment.Name,
			Intro: s.Garment.Name + ": its photos, measurements, fabric, notions, stitches, the order of work and what it costs.",
			Lay: func(_ context.Context, _ int, _ paper.Way, f sheet.Full) (*sheet.Document, error) {
				return paper.Report(paper.Project(h.Voice(), s), f.Paper)
			}})
	})
}

// Batch opens what goes onto paper of a batch with its plan, pattern naming patterns.
func Batch(h *page.Host, b planner.Batch, pattern func(stash.ID) string) {
	withSheet(h, OfBatch(h, b), func(s planner.CuttingSheet) {
		Show(h, Ask{Title: "Batch on paper", File: "Batch " + s.Title, WhichName: "Sheet", Which: []string{"The batch by cloth", "Cut list", "Cutting sheet"},
			Intro: "Every cloth of the plan with its layout and garments; all pattern pieces to tick; or the whole cutting sheet with grain arrows and marks.",
			Lay: func(_ context.Context, which int, _ paper.Way, f sheet.Full) (*sheet.Document, error) {
				v := h.Voice()
				switch which {
				case 1:
					return paper.Report(paper.CutList(v, s), f.Paper)
				case 2:
					return paper.Sheet(v, s, f.Paper)
				}
				return paper.Report(paper.ByCloth(v, b, s, pattern), f.Paper)
			}})
	})
}

// Figures opens a report of figures, such as the shopping list, which read puts together.
func Figures(h *page.Host, title, intro string, read func(context.Context) (sheet.Report, error)) {
	Show(h, Ask{Title: title, File: title, Intro: intro,
		Lay: func(ctx context.Context, _ int, _ paper.Way, f sheet.Full) (*sheet.Document, error) {
			r, err := read(ctx)
			if err != nil {
				return nil, err
			}
			return paper.Report(r, f.Paper)
		}})
}

// OfBatch reads the cutting sheet of a batch with its plan.
func OfBatch(h *page.Host, b planner.Batch) func(context.Context) (planner.CuttingSheet, error) {
	return func(ctx context.Context) (planner.CuttingSheet, error) { return h.Studio.BatchSheet(ctx, b) }
}
