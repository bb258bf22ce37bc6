package stashui

import (
	"context"
	"strings"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"

	"tallycloth/planner"
	"tallycloth/stash/measure"
	"tallycloth/ui/page"
	"tallycloth/ui/say"
	"tallycloth/ui/widgets"
)

// buying is the form of a purchase: the line that is being filled in, and those that are
// in the list already.
type buying struct {
	page *Page
	form *widgets.Form

	fabric                                *fabricFields
	long, piece, price, lot, place        *widgets.Field
	per                                   *widgets.Choice
	trued, washed                         *widgets.Check
	shop, day, postage, tax, receipt      *widgets.Field
	lines                                 []boughtLine
	listed                                *fyne.Container
	scroll                                *container.Scroll // shows shownLines of them
	words                                 []*widgets.Short  // of the lines in the list
	total                                 *widgets.Short
	neededName, neededWidth, neededLength string
}

// boughtLine is a line in the list, with the texts it was typed as, to be changed.
type boughtLine struct {
	planner.BuyingLine
	known string // the word of its fabric
	texts []string
	per   int
}

// LogPurchase opens the form for what was bought: one length, or several.
func (p *Page) LogPurchase() {
	if p.reopened(p.logForm) {
		return
	}
	b := newBuying(p)
	p.logForm, p.buying = b.form, b
	p.open(b.form)
}

func newBuying(p *Page) *buying {
	b := &buying{page: p, fabric: p.newFabricFields(), listed: container.NewVBox(), scroll: container.NewVScroll(nil), total: widgets.ShortLine("", widgets.Plain)}
	b.scroll.Content = b.listed
	b.lineFields()
	b.purchaseFields()
	add := widgets.NewButton("Another fabric on this receipt", b.addLine)
	var receipt fyne.CanvasObject
	b.receipt, receipt = pictureField(p.host, "Photo of the receipt (if there is one)", "receipt.jpg")
	f := b.fabric
	b.form = &widgets.Form{Title: "Log purchase", Send: "Log purchase", Say: say.Error, Width: 940,
		Rows: [][]fyne.CanvasObject{
			{f.known.Object(), f.name.Object(), f.make_.Object(), f.colour.Object()},
			{f.width.Object(), b.long.Object(), f.fibres.Object(), f.weight.Object()},
			{b.price.Object(), b.per.Object(), b.lot.Object(), b.place.Object()},
			{b.piece.Object(), explained(b.trued, "if not, "+p.host.Voice().Width(p.host.Settings().EndLoss)+" at each end do not count"), explained(b.washed, "if not, shrinkage is allowed for"), midway(add)},
			{b.scroll},
			{b.shop.Object(), b.day.Object(), b.postage.Object(), b.tax.Object()},
			{receipt},
			{b.total},
		},
		Fields: []*widgets.Field{f.name, f.width, b.long, f.fibres, f.weight, b.price, b.lot, b.place, b.piece, b.shop, b.day, b.postage, b.tax, b.receipt},
		Done:   b.send,
		More:   b,
	}
	for _, field := range b.form.Fields {
		field.Changed = b.reckon
	}
	b.per.OnChanged = func(string) { b.reckon() }
	known := f.known.OnChanged
	f.known.OnChanged = func(word string) { known(word); b.reckon() }
	for name, o := range map[string]fyne.CanvasObject{"form.length": b.long.Entry, "form.price": b.price.Entry, "form.shop": b.shop.Entry, "form.place": b.place.Entry,
		"form.lot": b.lot.Entry, "form.piece": b.piece.Entry, "form.per": b.per, "form.day": b.day.Entry, "form.postage": b.postage.Entry, "form.tax": b.tax.Entry,
		"form.addline": add, "form.total": b.total} {
		p.host.Names.Set(name, o)
	}
	b.reckon()
	return b
}

// lineFields are the fields of one line besides those of its fabric.
func (b *buying) lineFields() {
	p := b.page
	b.long = needed(p.lengthField("Length", "1.5 m or 1 3/4 yd", measure.FabricLength), "Say how much you bought.")
	b.piece = p.lengthField("Its width", "only if not full width", measure.Width)
	b.price = widgets.NewField("Price paid (if known)", "24.50 "+p.host.Settings().Currency, p.readMoney)
	b.per = widgets.NewChoice("The price is for", perWords(p.host.Voice().Units), nil)
	b.lot = widgets.NewField("Dye lot (if marked)", "", nil)
	b.place = widgets.NewField("Where it is kept", "shelf, box", nil)
	b.trued = widgets.NewCheck("Both ends are straight", nil)
	b.washed = widgets.NewCheck("Washed already", nil)
	b.neededName, b.neededWidth, b.neededLength = b.fabric.name.Needed, b.fabric.width.Needed, b.long.Needed
}

// perUnits are the lengths that a price may be for, by their words; it may also be for the whole piece.
var perUnits = map[string]measure.Unit{"each metre": measure.Metre, "each yard": measure.Yard}

// perWords are what a price may be for. Both units are offered: one buys by the yard in metric too.
func perWords(units measure.System) []string {
	if units == measure.Imperial {
		return []string{"the whole length", "each yard", "each metre"}
	}
	return []string{"the whole length", "each metre", "each yard"}
}

// purchaseFields are the fields of the purchase as a whole.
func (b *buying) purchaseFields() {
	p := b.page
	b.shop = widgets.NewField("Bought from", "shop or market", nil)
	b.day = p.host.DayField("Day (empty: today)", "")
	b.postage = widgets.NewField("Postage, shared by price", "4.90", p.readMoney)
	b.tax = widgets.NewField("Tax, if not in the prices", "3.80 or 19 %", p.readTax)
}

// readTax reads a tax as an amount, or as a percent of the prices, and shows it back.
func (p *Page) readTax(text string) (string, error) {
	rate, ok := taxRate(text)
	if !ok {
		return p.readMoney(text)
	}
	return "= " + measure.FormatPercent(rate) + " of the prices", nil
}

// taxRate reads a tax that is written as a percent.
func taxRate(text string) (measure.Percent, bool) {
	if !strings.Contains(text, "%") {
		return 0, false
	}
	rate, err := measure.ParsePercent(text)
	return rate, err == nil && rate >= 0 && rate <= 100*measure.OnePercent
}

// readMoney reads an amount and shows it back with its currency.
func (p *Page) readMoney(text string) (string, error) {
	m, err := measure.ParseMoney(text, p.host.Settings().Currency)
	if err != nil {
		return "", err
	}
	return "= " + m.String(), nil
}

// amount is what stands in a field of money, nothing where it cannot be read.
func (p *Page) amount(f *widgets.Field) measure.Money {
	m, err := measure.ParseMoney(f.Text(), p.host.Settings().Currency)
	if err != nil {
		return measure.Money{}
	}
	return m
}

// typing says whether anything was typed for the line that is being filled in.
func (b *buying) typing() bool {
	for _, f := range []*widgets.Field{b.long, b.price, b.lot, b.piece} {
		if f.Text() != "" {
			return true
		}
	}
	return b.fabric.known.Selected == newFabric && b.fabric.name.Text() != ""
}

// line is the line that is being filled in.
func (b *buying) line() boughtLine {
	p := b.page
	fab := b.fabric.fabric(p)
	l := planner.BuyingLine{FabricID: fab.ID, Fabric: fab, Length: p.lengthIn(b.long, measure.FabricLength), Width: p.lengthIn(b.piece, measure.Width),
		Lot: b.lot.Text(), Place: b.place.Text(), Washed: b.washed.Checked, Trued: b.trued.Checked}
	if unit := perUnits[b.per.Selected]; unit != 0 {
		l.Per, l.PerLength = p.amount(b.price), unit
	} else {
		l.Price = p.amount(b.price)
	}
	out := boughtLine{BuyingLine: l, known: b.fabric.known.Selected, per: b.per.SelectedIndex()}
	for _, f := range b.lineTexts() {
		out.texts = append(out.texts, f.Text())
	}
	return out
}

// lineTexts are the fields of a line that are filled again when it is changed.
func (b *buying) lineTexts() []*widgets.Field {
	return []*widgets.Field{b.fabric.name, b.fabric.fibres, b.fabric.width, b.fabric.weight, b.long, b.price, b.lot, b.place, b.piece}
}

// whole is the purchase as it would be logged now.
func (b *buying) whole() planner.Buying {
	p := b.page
	day, _ := p.host.DayIn(b.day)
	out := planner.Buying{Date: day, Supplier: b.shop.Text(), Postage: p.amount(b.postage)}
	if rate, ok := taxRate(b.tax.Text()); ok {
		out.TaxRate = rate
	} else {
		out.Tax = p.amount(b.tax)
	}
	for _, l := range b.lines {
		out.Lines = append(out.Lines, l.BuyingLine)
	}
	if b.typing() || len(b.lines) == 0 {
		out.Lines = append(out.Lines, b.line().BuyingLine)
	}
	return out
}

// reckon shows what the purchase comes to. Once there are lines, that which is being
// filled in may stay empty.
func (b *buying) reckon() {
	f := b.fabric
	f.name.Needed, f.width.Needed, b.long.Needed = b.neededName, b.neededWidth, b.neededLength
	if len(b.lines) > 0 && !b.typing() {
		f.name.Needed, f.width.Needed, b.long.Needed = "", "", ""
	}
	b.total.Set(b.sum(), widgets.Plain)
	if sharing, err := b.whole().Share(b.page.host.Settings().Currency); err == nil {
		b.list(sharing)
	} else {
		b.total.Set(say.Error(err), widgets.Bad)
	}
}

func (b *buying) sum() string {
	whole := b.whole()
	sharing, err := whole.Share(b.page.host.Settings().Currency)
	if err != nil || sharing.Total.Minor == 0 {
		return " "
	}
	text := "In all " + sharing.Total.String()
	var extra []string
	if whole.Postage.Minor > 0 {
		extra = append(extra, sharing.Postage.String()+" postage")
	}
	if sharing.Tax.Minor > 0 {
		extra = append(extra, sharing.Tax.String()+" tax")
	}
	if len(extra) > 0 {
		text += ", with " + say.And(extra) + " shared by price"
	}
	return text
}

// send logs the purchase.
func (b *buying) send() error {
	whole := b.whole()
	path := strings.TrimSpace(b.receipt.Text())
	if path == "" {
		got, err := b.page.host.Studio.LogBuying(context.Background(), whole)
		if err != nil {
			b.total.Set(" ", widgets.Plain) // the form says the same sentence
			return err
		}
		b.logged(got)
		return nil
	}
	data, err := page.ReadPicture(path)
	if err != nil {
		return err
	}
	whole.Receipt = data
	var got planner.Bought
	b.page.host.Act("log", func(ctx context.Context) (_ string, err error) { // a photo takes a while
		got, err = b.page.host.Studio.LogBuying(ctx, whole)
		return "", err
	}, func(err error) {
		if err != nil { // what was typed is there again, to be corrected
			b.page.open(b.form)
			return
		}
		b.logged(got)
	})
	return nil
}

// logged tells what was logged.
func (b *buying) logged(got planner.Bought) {
	first := got.Cloths[0]
	v := b.page.host.Voice()
	told := "Logged " + v.Length(first.Cloth.Length) + " of " + first.Fabric.Name + " as " + first.Cloth.Code + "."
	if len(got.Cloths) > 1 {
		var codes []string
		for _, c := range got.Cloths {
			codes = append(codes, c.Fabric.Name+" as "+c.Cloth.Code)
		}
		told = "Logged " + say.And(codes) + "."
	}
	b.page.saved(first, told)
}
