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

// purchaseWords are what was typed about a purchase.
type purchaseWords struct {
	fabric, length              string
	on, from, price, lot, place string
	washed, trued               bool
	kind, width, weight, fibres string // of a fabric that is new
	across, along, colour       string
}

// log is the verb that enters a purchase.
func (s *session) log() *cobra.Command {
	var w purchaseWords
	cmd := &cobra.Command{
		Use:   "log FABRIC LENGTH",
		Short: "Log a length that was bought",
		Long: `Logs one length that was bought. The fabric is one the library knows, by name; for a
new one give at least --width, and better --kind too, from which stretch and recovery
are assumed until you measure them.

With --json the new cloth, as list cloth shows it.`,
		Example: `  tallycloth log "Heather rib" "1.5 m" --price "18.60 EUR" --from "Saturday market"
  tallycloth log "Moss jersey" "2 yd" --kind jersey --width "60 in" --fibres "95% cotton 5% elastane"`,
		Args: exactly("the name of a fabric", "a length"),
		RunE: func(cmd *cobra.Command, args []string) error {
			w.fabric, w.length = args[0], args[1]
			return s.adding(cmd, func(ctx context.Context, l *library) error { return s.logPurchase(ctx, l, w) })
		},
	}
	f := cmd.Flags()
	f.StringVar(&w.on, "on", "", "the day it was bought, as 2026-03-02 (default: today)")
	f.StringVar(&w.from, "from", "", "who sold it")
	f.StringVar(&w.price, "price", "", `what the length cost, such as "18.60 EUR"`)
	f.StringVar(&w.lot, "lot", "", "dye lot")
	f.StringVar(&w.place, "place", "", "where it is kept")
	f.BoolVar(&w.washed, "washed", false, "it is washed already")
	f.BoolVar(&w.trued, "trued", false, "both ends are straight already")
	f.StringVar(&w.kind, "kind", "", "new fabric: how it is made: "+kinds)
	f.StringVar(&w.width, "width", "", "new fabric: width from selvedge to selvedge")
	f.StringVar(&w.weight, "weight", "", `new fabric: weight, such as "180 g/m²" or "5.3 oz/yd²"`)
	f.StringVar(&w.fibres, "fibres", "", `new fabric: such as "95% cotton 5% elastane"`)
	f.StringVar(&w.across, "stretch-across", "", "new fabric: measured stretch across the grain, such as 40%")
	f.StringVar(&w.along, "stretch-along", "", "new fabric: measured stretch along the grain")
	f.StringVar(&w.colour, "colour", "", "new fabric: the name of its colour")
	return cmd
}

// kinds are the constructions that can be said.
const kinds = "jersey, rib, interlock, french terry, sweatshirt fleece, ponte, swim knit, mesh, power net, velour, woven plain, woven twill, other knit, other woven"

func (s *session) logPurchase(ctx context.Context, l *library, w purchaseWords) error {
	form, err := w.form(ctx, s, l)
	if err != nil {
		return err
	}
	c, err := l.LogPurchase(ctx, form)
	if err != nil {
		return err
	}
	return s.newCloth(ctx, l, c)
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

func (w purchaseWords) form(ctx context.Context, s *session, l *library) (planner.PurchaseForm, error) {
	form := planner.PurchaseForm{
		Date: stash.Date(w.on), Supplier: w.from, Lot: w.lot, Place: w.place, Washed: w.washed, Trued: w.trued,
	}
	if w.on == "" {
		form.Date = stash.On(s.Now())
	}
	var err error
	if form.Length, err = measure.ParsePositiveLength(w.length, l.clothUnit()); err != nil {
		return form, said("length", err)
	}
	if w.price != "" {
		if form.Price, err = measure.ParseMoney(w.price, l.settings.Currency); err != nil {
			return form, said("--price", err)
		}
	}
	if w.width == "" {
		f, err := l.pickFabric(ctx, w.fabric)
		if err != nil {
			return form, orNew(err)
		}
		form.FabricID = f.ID
		return form, nil
	}
	form.Fabric, err = w.newFabric(l)
	return form, err
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
func (w purchaseWords) newFabric(l *library) (stash.Fabric, error) {
	f := stash.Fabric{Name: strings.TrimSpace(w.fabric), ColourName: w.colour, Supplier: w.from}
	var err error
	if f.Construction, err = construction(w.kind); err != nil {
		return f, err
	}
	if f.FullWidth, err = measure.ParsePositiveLength(w.width, l.fieldUnit()); err != nil {
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
