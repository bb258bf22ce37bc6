package stashui

import (
	"context"
	"path/filepath"
	"slices"
	"strings"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"

	"tallycloth/planner"
	"tallycloth/planner/exchange/sheet"
	"tallycloth/planner/exchange/table"
	"tallycloth/stash"
	"tallycloth/stash/list"
	"tallycloth/ui/page"
	"tallycloth/ui/paperui"
	"tallycloth/ui/records"
	"tallycloth/ui/say"
	"tallycloth/ui/widgets"
)

// anotherKind is the word for a kind that is typed.
const anotherKind = "another kind"

// usual are the usual words with those that are used already, and the one chosen.
func usual(words []string, used ...string) []string {
	out := slices.Clone(words)
	for _, w := range used {
		if w != "" && !slices.Contains(out, w) {
			out = append(out, w)
		}
	}
	return out
}

// edit opens the form that adds a notion, or counts and changes one.
func (n *notions) edit(was stash.Notion) {
	p := n.page
	var kinds, units []string
	for _, x := range n.all {
		kinds, units = append(kinds, x.Kind), append(units, x.Unit)
	}
	name := needed(widgets.NewField("Name, with what sets it apart", "Clear elastic 8 mm", nil), "Give the notion a name.")
	kind := widgets.NewChoice("Kind", append(usual(stash.NotionKinds, append(kinds, was.Kind)...), anotherKind), nil)
	other := widgets.NewField("Kind, if another", "", nil)
	unit := widgets.NewChoice("Counted in", usual(stash.NotionUnits, append(units, was.Unit)...), nil)
	in := func() string { return unit.Selected }
	quantity := needed(quantityField("On hand, counted", "11", in), "Count what is on hand; 0 if there is none.")
	reorder := quantityField("Reorder below (empty: never)", "3", in)
	unit.OnChanged = func(string) { quantity.Valid(); reorder.Valid() }
	title := "Add notion"
	if was.ID != stash.NoID {
		title = "Count or change " + was.Name
		name.Set(was.Name)
		kind.SetSelected(was.Kind)
		quantity.Set(bareQuantity(was.Quantity))
		if was.Reorder > 0 {
			reorder.Set(bareQuantity(was.Reorder))
		}
	}
	unit.SetSelected(was.Unit)
	for word, o := range map[string]fyne.CanvasObject{"form.name": name.Entry, "form.kind": kind, "form.otherkind": other.Entry, "form.unit": unit,
		"form.quantity": quantity.Entry, "form.reorder": reorder.Entry} {
		p.host.Names.Set(word, o)
	}
	f := &widgets.Form{Title: title, Send: "Keep it", Say: say.Error, Width: 640,
		Rows:   [][]fyne.CanvasObject{{name.Object(), kind.Object()}, {other.Object(), unit.Object()}, {quantity.Object(), reorder.Object()}},
		Fields: []*widgets.Field{name, other, quantity, reorder}}
	f.Done = func() error {
		now := was
		now.Name, now.Kind, now.Unit = name.Text(), kind.Selected, unit.Selected
		if typed := strings.TrimSpace(other.Text()); typed != "" {
			now.Kind = typed
		} else if now.Kind == anotherKind {
			return &stash.Error{Kind: stash.Invalid, What: "The kind is not said", Do: "Type it beside the choice"}
		}
		now.Quantity, now.Reorder = quantityIn(quantity, now.Unit), quantityIn(reorder, now.Unit)
		now, err := p.host.Studio.SaveNotion(context.Background(), now)
		return n.saved(now, err, "Kept "+now.Name+".")
	}
	p.open(f)
}

// bareQuantity is a quantity without its unit.
func bareQuantity(q float64) string { return stash.FormatQuantity(q, "") }

// showShopping lists what runs short, to be copied or written out.
func (n *notions) showShopping() {
	h := n.page.host
	n.right.Add(widgets.SubHeading("Shopping list"))
	if len(n.buy) == 0 {
		n.right.Add(widgets.Remark("", "Nothing runs short. No fabric is to be bought, no notion is below its reorder level, and wanted and reserved garments have what they ask for.", widgets.Quiet))
		return
	}
	for _, b := range n.buy {
		n.right.Add(widgets.Remark("· ", stash.FormatQuantity(b.Buy, b.Unit)+"  "+b.Name, widgets.Plain))
		n.right.Add(widgets.Remark("   ", stash.FormatQuantity(b.OnHand, b.Unit)+" on hand"+strings.TrimSuffix("; "+b.Why(), "; "), widgets.Quiet))
	}
	copied := widgets.NewButton("Copy", func() {
		fyne.CurrentApp().Clipboard().SetContent(planner.ShoppingText(n.buy))
		h.Tell("The shopping list is copied: paste it where you want it.")
	})
	export := widgets.NewButton("Export", n.exportShopping)
	onPaper := widgets.NewButton("On paper", func() {
		paperui.Figures(h, "Shopping list", "What runs short, with boxes to tick.", func(ctx context.Context) (sheet.Report, error) {
			items, err := h.Studio.ShoppingList(ctx)
			return records.Shopping(items).Report(), err
		})
	})
	h.Names.Set("shopping.copy", copied)
	h.Names.Set("shopping.export", export)
	h.Names.Set("shopping.paper", onPaper)
	n.right.Add(container.NewHBox(copied, export, onPaper))
}

// exportShopping opens the form that writes the shopping list to a file.
func (n *notions) exportShopping() {
	p := n.page
	path := needed(widgets.NewField("Save as (folder and name; .csv or .xlsx)", "shopping list.csv", nil), "Say where to save the file.")
	path.Set(filepath.Join(page.Documents(), "shopping list.csv"))
	comma := widgets.NewCheck("CSV with decimal commas and semicolons", nil)
	p.host.Names.Set("form.path", path.Entry)
	f := &widgets.Form{Title: "Export the shopping list", Send: "Save the file", Say: say.Error,
		Rows: [][]fyne.CanvasObject{{path.Object()}, {comma}}, Fields: []*widgets.Field{path}}
	f.Done = func() error {
		files, err := table.Save(strings.TrimSpace(path.Text()), []list.Table{planner.ShoppingTable(n.buy)}, table.CSV{Comma: comma.Checked})
		if err == nil {
			p.host.Tell("Saved " + strings.Join(files, ", ") + ".")
		}
		return err
	}
	p.open(f)
}
