package paperui

import (
	"context"

	"tallycloth/planner"
	"tallycloth/planner/exchange/sheet"
	"tallycloth/ui/page"
	"tallycloth/ui/paper"
)

// Strips opens the sheet of strips that were worked out.
func Strips(h *page.Host, title string, a planner.BindingAnswer) {
	Show(h, Ask{Title: title, File: title, Intro: "Each strip to scale with its marks, how it is cut across the cloth, and what to mind.",
		Lay: func(_ context.Context, _ int, _ paper.Way, f sheet.Full) (*sheet.Document, error) {
			return paper.Report(paper.Strips(h.Voice(), title, a), f.Paper)
		}})
}

// Guide opens the marking guide of strips in full size.
func Guide(h *page.Host, title string, a planner.BindingAnswer) {
	Show(h, Ask{Title: title + ": marking guide", File: title + " marking guide", Full: true,
		Intro: "The strips in full size with their folds, joins and marks: lay a strip on its drawing and mark it. Measure the square first.",
		Lay: func(_ context.Context, _ int, w paper.Way, f sheet.Full) (*sheet.Document, error) {
			return paper.Document(paper.Guide(h.Voice(), title, a), w, f)
		}})
}
