package verb

import (
	"context"
	"errors"
	"fmt"
	"io"
	"strings"

	"tallycloth/planner"
	"tallycloth/stash"
	"tallycloth/stash/measure"
	"tallycloth/ui/say"

	"github.com/spf13/cobra"
)

// lineWords are what was typed about one line of a purchase.
type lineWords struct {
	fabric, length                   string
	price, each, lot, place, piece   string
	washed, trued                    bool
	kind, width, weight, fibres      string // of a fabric that is new
	across, along, colour, purchased string
}

// purchaseWords are what was typed about a purchase as a whole.
type purchaseWords struct {
	on, from, notes, postage, tax, file string
	receipt                             string
	more                                []string
}

// log is the verb that enters a purchase.
func (s *session) log() *cobra.Command {
	var p purchaseWords
	var w lineWords
	cmd := &cobra.Command{
		Use:   "log [FABRIC LENGTH]",
		Short: "Log what was bought, one length or several",
		Long: `Logs one length that was bought. The fabric is one the library knows, by name; for a
new one give at least --width, and better --kind too, from which stretch and recovery
are assumed until you measure them. A known fabric bought again becomes a length of its
own, so that lots stay apart.

Further lines of the same purchase are said with --line, or stand in a file, one on each
line. A line is the fabric, the length, and what else there is to say, parted by
semicolons:
  Moss jersey; 1.5 m; price 18.60 EUR; lot A7; place hall cupboard; washed; trued
  Fern rib; 2 yd; each 12.00 USD
  Heather wool; 40 cm; piece 55 cm; price 3.00
  Chalk ponte; 1 m; width 150 cm; kind ponte; fibres 65% viscose 30% polyamide 5% elastane
price is for the whole line, each for a metre (a yard where the library is in yards);
piece is the width of one that is not of full width; width, kind, weight, fibres and
colour describe a fabric that is new. A file may have empty lines, and lines that start
with # are passed over.

Postage and tax are shared over the lines by price, to the last cent. Prices are in any
currency of ISO 4217, but in one for each purchase. All of it is one step: undo takes it
back.

With --json the new cloth, as list cloth shows it; with --line, --lines, --postage or
--tax an object: lines (list of cloth, as list cloth shows it, and cost), bought, from,
total.`,
		Example: `  tallycloth log "Heather rib" "1.5 m" --price "18.60 EUR" --from "Saturday market"
  tallycloth log "Moss jersey" "2 yd" --kind jersey --width "60 in" --fibres "95% cotton 5% elastane"
  tallycloth log --from "Saturday market" --postage 4.90 --line "Fern rib; 2 m; each 9.50" --line "Fern rib; 1 m; each 9.50; lot B"`,
		Args: func(cmd *cobra.Command, args []string) error {
			if len(args) == 0 && (len(p.more) > 0 || p.file != "") {
				return nil
			}
			return exactly("the name of a fabric", "a length")(cmd, args)
		},
		RunE: func(cmd *cobra.Command, args []string) error {
			var lines []lineWords
			if len(args) > 0 {
				w.fabric, w.length = args[0], args[1]
				lines = append(lines, w)
			}
			more, err := p.lines()
			if err != nil {
				return err
			}
			lines = append(lines, more...)
			return s.adding(cmd, func(ctx context.Context, l *library) error { return s.logPurchase(ctx, l, p, lines) })
		},
	}
	f := cmd.Flags()
	f.StringVar(&p.on, "on", "", "the day it was bought, as 2026-03-02 (default: today)")
	f.StringVar(&p.from, "from", "", "who sold it")
	f.StringVar(&p.notes, "notes", "", "what else to know about the purchase")
	f.StringVar(&p.receipt, "receipt", "", "a photo of the receipt, a JPEG, PNG or WebP file")
	f.StringVar(&p.postage, "postage", "", "postage of the purchase")
	f.StringVar(&p.tax, "tax", "", "tax, where prices are without it")
	f.StringArrayVar(&p.more, "line", nil, "one more line of the purchase (may be said again)")
	f.StringVar(&p.file, "lines", "", "a file with more lines of the purchase")
	f.StringVar(&w.price, "price", "", `what the length cost, such as "18.60 EUR"`)
	f.StringVar(&w.each, "each", "", "what each metre cost (each yard, where the library is in yards)")
	f.StringVar(&w.piece, "piece", "", "width of a piece that is not of full width")
	f.StringVar(&w.lot, "lot", "", "dye lot")
	f.StringVar(&w.place, "place", "", "where it is kept")
	f.BoolVar(&w.washed, "washed", false, "it is washed already")
	f.BoolVar(&w.trued, "trued", false, "both ends are straight already")
	f.StringVar(&w.kind, "kind", "", "new fabric: how it is made: "+kinds)
	f.StringVar(&w.width, "width", "", `new fabric: width from selvedge to selvedge; "2 x 50 cm" is a tube of 50 cm lying flat`)
	f.StringVar(&w.weight, "weight", "", `new fabric: weight, such as "180 g/m²" or "5.3 oz/yd²"`)
	f.StringVar(&w.fibres, "fibres", "", `new fabric: such as "95% cotton 5% elastane"`)
	f.StringVar(&w.across, "stretch-across", "", "new fabric: measured stretch across the grain, such as 40%")
	f.StringVar(&w.along, "stretch-along", "", "new fabric: measured stretch along the grain")
	f.StringVar(&w.colour, "colour", "", "new fabric: the name of its colour")
	return cmd
}

// kinds are the constructions that can be said.
const kinds = "jersey, rib, interlock, french terry, sweatshirt fleece, ponte, swim knit, mesh, power net, velour, woven plain, woven twill, other knit, other woven"

func (s *session) logPurchase(ctx context.Context, l *library, p purchaseWords, lines []lineWords) error {
	form, err := p.form(ctx, s, l, lines)
	if err != nil {
		return err
	}
	b, err := l.LogBuying(ctx, form)
	if err != nil {
		return err
	}
	if len(p.more) == 0 && p.file == "" && p.postage == "" && p.tax == "" {
		return s.newCloth(ctx, l, b.Cloths[0])
	}
	return s.newCloths(ctx, l, b)
}

// newCloth answers with a cloth that was just added.
func (s *session) newCloth(ctx context.Context, l *library, c stash.ClothState) error {
	garments, err := l.garmentNames(ctx)
	if err != nil {
		return err
	}
	return s.answer(fieldsOfCloth(c, garments), func(w io.Writer) {
		fmt.Fprintf(w, "%s is on the shelf with the code %s: %s.\n", c.Fabric.Name, c.Cloth.Code, l.clothSize(c.Cloth))
	})
}

// newCloths answers with all that a purchase became.
func (s *session) newCloths(ctx context.Context, l *library, b planner.Bought) error {
	garments, err := l.garmentNames(ctx)
	if err != nil {
		return err
	}
	out := purchaseFields{Bought: string(b.Purchase.Date), From: b.Purchase.Supplier, Lines: []boughtFields{}}
	var total []measure.Money
	for i, c := range b.Cloths {
		out.Lines = append(out.Lines, boughtFields{fieldsOfCloth(c, garments), b.Costs[i].String()})
		total = append(total, b.Costs[i])
	}
	for _, t := range measure.Totals(total...) {
		out.Total = t.String()
	}
	return s.answer(out, func(w io.Writer) {
		for i, c := range b.Cloths {
			text := fmt.Sprintf("%s is on the shelf with the code %s: %s", c.Fabric.Name, c.Cloth.Code, l.clothSize(c.Cloth))
			if b.Costs[i].Currency != "" {
				text += fmt.Sprintf("; with its share it cost %s", b.Costs[i])
			}
			fmt.Fprintln(w, text+".")
		}
		if out.Total != "" {
			fmt.Fprintln(w, "In all:", out.Total)
		}
	})
}

// purchaseFields is a purchase that was just logged, in JSON.
type purchaseFields struct {
	Bought string         `json:"bought"`
	From   string         `json:"from"`
	Lines  []boughtFields `json:"lines"`
	Total  string         `json:"total"` // "" where no price was said
}

type boughtFields struct {
	clothFields
	Cost string `json:"cost"` // price and share, "" where none was said
}

func (p purchaseWords) form(ctx context.Context, s *session, l *library, lines []lineWords) (planner.Buying, error) {
	day, err := l.day("--on", p.on)
	if err != nil {
		return planner.Buying{}, err
	}
	b := planner.Buying{Date: day, Supplier: p.from, Notes: p.notes}
	if p.on == "" {
		b.Date = stash.On(s.Now())
	}
	for _, m := range []struct {
		flag, text string
		into       *measure.Money
	}{{"--postage", p.postage, &b.Postage}, {"--tax", p.tax, &b.Tax}} {
		if err := l.money(m.flag, m.text, m.into); err != nil {
			return b, err
		}
	}
	if p.receipt != "" {
		var err error
		if b.Receipt, err = photoFile(p.receipt); err != nil {
			return b, err
		}
	}
	described := map[string]bool{} // new in an earlier line
	for i, w := range lines {
		w.purchased = p.from
		line, err := w.line(ctx, l, described)
		if err != nil {
			return b, w.inLine(i, len(lines), err)
		}
		b.Lines = append(b.Lines, line)
	}
	return b, nil
}

// inLine says in which of several lines something is wrong.
func (w lineWords) inLine(i, lines int, err error) error {
	if lines < 2 {
		return err
	}
	field := ""
	if t, ok := errors.AsType[typed](err); ok {
		field, err = " "+t.field, t.error
	}
	return said(fmt.Sprintf("line %d (%s):%s", i+1, w.fabric, field), err)
}

// money reads an amount, nothing where none was said.
func (l *library) money(field, text string, into *measure.Money) (err error) {
	if text == "" {
		return nil
	}
	if *into, err = measure.ParseMoney(text, l.settings.Currency); err != nil {
		return said(field, err)
	}
	return nil
}

// line reads one line of a purchase. A fabric described in an earlier line is named alone
// in later ones.
func (w lineWords) line(ctx context.Context, l *library, described map[string]bool) (planner.BuyingLine, error) {
	line := planner.BuyingLine{Lot: w.lot, Place: w.place, Washed: w.washed, Trued: w.trued}
	var err error
	if line.Length, err = measure.ParsePositiveLength(w.length, l.clothUnit()); err != nil {
		return line, said("length", err)
	}
	if w.piece != "" {
		if line.Width, err = measure.ParsePositiveLength(w.piece, l.fieldUnit()); err != nil {
			return line, said("--piece", err)
		}
	}
	if err := l.money("--price", w.price, &line.Price); err != nil {
		return line, err
	}
	if err := l.money("--each", w.each, &line.Per); err != nil {
		return line, err
	}
	if w.each != "" {
		line.PerLength = measure.Metre
		if l.settings.Units == measure.Imperial {
			line.PerLength = measure.Yard
		}
	}
	key := strings.ToLower(strings.TrimSpace(w.fabric))
	switch {
	case w.width != "":
		line.Fabric, err = w.newFabric(l)
		described[key] = true
	case described[key]:
		line.Fabric.Name = w.fabric
	default:
		var f stash.Fabric
		if f, err = l.pickFabric(ctx, w.fabric); err != nil {
			return line, orNew(err)
		}
		line.FabricID = f.ID
	}
	return line, err
}

// orNew adds to an error about a name that a new fabric is said with its width.
func orNew(err error) error {
	var own *stash.Error
	if !errors.As(err, &own) {
		return err
	}
	return mistyped(own.What, say.Sentence(own.Do)+" For a new fabric give its --width")
}

// newFabric reads what was typed about a fabric that the library does not know yet.
func (w lineWords) newFabric(l *library) (stash.Fabric, error) {
	f := stash.Fabric{Name: strings.TrimSpace(w.fabric), ColourName: w.colour, Supplier: w.purchased}
	var err error
	if f.Construction, err = construction(w.kind); err != nil {
		return f, err
	}
	if f.FullWidth, f.Tubular, err = stash.ParseFullWidth(w.width, l.fieldUnit()); err != nil {
		return f, said("--width", err)
	}
	if w.weight != "" {
		if f.Weight, err = measure.ParseWeight(w.weight, l.settings.Units); err != nil {
			return f, said("--weight", err)
		}
	}
	if f.Fibres, err = stash.ParseFibres(w.fibres); err != nil {
		return f, typed{error: err}
	}
	for _, g := range []struct {
		flag, text string
		into       *stash.Reading
	}{{"--stretch-across", w.across, &f.Crosswise.Stretch}, {"--stretch-along", w.along, &f.Lengthwise.Stretch}} {
		if g.text == "" {
			continue
		}
		p, err := measure.ParsePercent(g.text)
		if err != nil {
			return f, said(g.flag, err)
		}
		*g.into = stash.Measured(p)
	}
	return f, nil
}

// construction reads how a fabric is made; nothing is another knit, about which the
// least is assumed.
func construction(text string) (stash.Construction, error) {
	want := strings.ToLower(strings.TrimSpace(text))
	if want == "" {
		return stash.OtherKnit, nil
	}
	for _, k := range strings.Split(kinds, ", ") {
		if k == want {
			return stash.Construction(k), nil
		}
	}
	return "", mistyped(fmt.Sprintf("%q is no kind of fabric", text), "Choose one of "+kinds)
}

// said puts the name of a field before what was wrong with its text.
func said(field string, err error) error { return typed{err, field} }
