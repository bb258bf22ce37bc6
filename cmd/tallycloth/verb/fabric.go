package verb

import (
	"context"
	"fmt"
	"io"
	"strings"

	"tallycloth/planner"
	"tallycloth/stash"
	"tallycloth/stash/measure"

	"github.com/spf13/cobra"
)

// fabricWords are what was typed about a fabric.
type fabricWords struct {
	care, weight, weighed, swatch, width, pulled, narrows, buy, buyFor string
	along                                                              bool
}

// fabric is the verb that notes what is known of a fabric.
func (s *session) fabric() *cobra.Command {
	var w fabricWords
	cmd := &cobra.Command{
		Use:   "fabric NAME",
		Short: "Show a fabric, or note its care, weight, width or a stretch test",
		Long: `Shows what is known of a fabric, or notes more of it.

A weight is typed, or found from a swatch that was cut out and weighed: its weight with
--weighed, its two sides or its diameter with --swatch. A tube is said by its width:
"2 x 50 cm" is 50 cm lying flat, 100 cm slit. A stretch test is three lengths: before,
stretched, after resting; with --narrows also the width before and while stretched.

--buy puts it on the shopping list, until so much of it is bought.

With --json the fabric as list fabrics shows it, and care, buy_mm, buy_for.`,
		Example: `  tallycloth fabric "Heather rib" --care "30 °C, do not tumble dry, dry flat"
  tallycloth fabric "Heather rib" --weighed "2.4 g" --swatch "10 cm x 10 cm"
  tallycloth fabric "Heather rib" --pulled "10 cm, 14 cm, 10.4 cm" --narrows "8 cm, 7.2 cm"`,
		Args: exactly("the name of a fabric"),
		RunE: func(cmd *cobra.Command, args []string) error {
			open := s.changing
			if w == (fabricWords{}) && !cmd.Flags().Changed("care") {
				open = s.reading
			}
			return open(cmd, func(ctx context.Context, l *library) error { return s.noteFabric(ctx, cmd, l, args[0], w) })
		},
	}
	f := cmd.Flags()
	f.StringVar(&w.care, "care", "", "how it is treated, in the words of care symbols or your own")
	f.StringVar(&w.weight, "weight", "", `weight, such as "180 g/m²" or "5.3 oz/yd²"`)
	f.StringVar(&w.weighed, "weighed", "", `what a swatch weighs, such as "2.4 g" or "0.1 oz"`)
	f.StringVar(&w.swatch, "swatch", "", `how large it is: "10 cm x 10 cm", or one length across a round one`)
	f.StringVar(&w.width, "width", "", `width from selvedge to selvedge; "2 x 50 cm" is a tube`)
	f.StringVar(&w.pulled, "pulled", "", `a stretch test: "before, stretched, after resting"`)
	f.StringVar(&w.buy, "buy", "", `so much of it goes on the shopping list; 0 takes it off`)
	f.StringVar(&w.buyFor, "buy-for", "", "with --buy: what it is for")
	f.BoolVar(&w.along, "along", false, "the test was along the grain, not across")
	f.StringVar(&w.narrows, "narrows", "", `with --pulled: the width "before, while stretched"`)
	return cmd
}

func (s *session) noteFabric(ctx context.Context, cmd *cobra.Command, l *library, name string, w fabricWords) error {
	f, err := l.pickFabric(ctx, name)
	if err != nil {
		return err
	}
	changed, err := w.change(cmd, l, f)
	if err != nil {
		return err
	}
	test, err := w.test(l)
	if err != nil {
		return err
	}
	if w.care+w.weight+w.weighed+w.swatch+w.width != "" || cmd.Flags().Changed("care") {
		if err := l.SaveFabric(ctx, changed); err != nil {
			return err
		}
	}
	if test != nil {
		if _, err := l.MeasureStretch(ctx, f.ID, *test); err != nil {
			return err
		}
	}
	if w.buy != "" {
		var much measure.Length
		if strings.TrimSpace(w.buy) != "0" {
			if much, err = measure.ParsePositiveLength(w.buy, l.clothUnit()); err != nil {
				return said("--buy", err)
			}
		}
		if _, err := l.PlanToBuy(ctx, f.ID, much, w.buyFor); err != nil {
			return err
		}
	}
	if f, err = l.Fabric(ctx, f.ID); err != nil {
		return err
	}
	out := struct {
		fabricFields
		Care   string `json:"care"`
		Buy    mm     `json:"buy_mm"`
		BuyFor string `json:"buy_for"`
	}{fieldsOfFabric(f, l.settings.Classes), f.Care, mm(f.Buy), f.BuyFor}
	return s.answer(out, func(w io.Writer) { l.tellFabric(w, f) })
}

func (l *library) tellFabric(w io.Writer, f stash.Fabric) {
	a := stash.Assumed(f)
	width := l.voice.Width(f.FullWidth)
	if f.Tubular {
		width += " flat, a tube: " + l.voice.Width(f.OpenWidth()) + " slit"
	}
	for _, row := range [][2]string{{"Made", string(f.Construction)}, {"Fibres", f.Fibres.String()}, {"Width", width}, {"Weight", l.voice.Weight(f.Weight)},
		{"Stretch across", l.voice.Stretch(f.Crosswise.Stretch, a.Crosswise.Stretch)}, {"Stretch along", l.voice.Stretch(f.Lengthwise.Stretch, a.Lengthwise.Stretch)},
		{"Narrows when pulled", reading(f.Crosswise.Narrowing) + " across, " + reading(f.Lengthwise.Narrowing) + " along"}, {"Care", f.Care}} {
		fmt.Fprintf(w, "%-20s %s\n", row[0], row[1])
	}
}

// change is the fabric with what was typed of it.
func (w fabricWords) change(cmd *cobra.Command, l *library, f stash.Fabric) (stash.Fabric, error) {
	var err error
	if cmd.Flags().Changed("care") {
		f.Care = stash.ParseCare(w.care).String()
	}
	if w.width != "" {
		if f.FullWidth, f.Tubular, err = stash.ParseFullWidth(w.width, l.fieldUnit()); err != nil {
			return f, said("--width", err)
		}
	}
	switch {
	case (w.weighed == "") != (w.swatch == ""):
		return f, mistyped("A swatch has a weight and a size", "Say both, with --weighed and --swatch")
	case w.weighed != "" && w.weight != "":
		return f, mistyped("The weight is said twice", "Type it with --weight, or weigh a swatch with --weighed and --swatch")
	case w.weight != "":
		if f.Weight, err = measure.ParseWeight(w.weight, l.settings.Units); err != nil {
			return f, said("--weight", err)
		}
	case w.weighed != "":
		if f.Weight, err = w.swatchWeight(l); err != nil {
			return f, err
		}
	}
	return f, nil
}

func (w fabricWords) swatchWeight(l *library) (measure.Weight, error) {
	var s stash.WeighedSwatch
	var err error
	if s.Grams, err = stash.ParseGrams(w.weighed); err != nil {
		return 0, err
	}
	sides, err := lengths("--swatch", strings.NewReplacer("×", ",", "x", ",", "*", ",").Replace(w.swatch), l.fieldUnit(), 1, 2)
	if err != nil {
		return 0, err
	}
	if len(sides) == 1 {
		s.Diameter = sides[0]
	} else {
		s.Length, s.Width = sides[0], sides[1]
	}
	return s.Weight()
}

// test is the stretch test that was typed, or nil.
func (w fabricWords) test(l *library) (*planner.StretchTest, error) {
	if w.pulled == "" {
		if w.narrows != "" || w.along {
			return nil, mistyped("A stretch test has three lengths", "Say them with --pulled")
		}
		return nil, nil
	}
	three, err := lengths("--pulled", w.pulled, l.fieldUnit(), 3, 3)
	if err != nil {
		return nil, err
	}
	t := planner.StretchTest{Crosswise: !w.along, Before: three[0], Stretched: three[1], After: three[2]}
	if w.narrows != "" {
		two, err := lengths("--narrows", w.narrows, l.fieldUnit(), 2, 2)
		if err != nil {
			return nil, err
		}
		t.WidthBefore, t.WidthStretched = two[0], two[1]
	}
	return &t, nil
}

// lengths reads between least and most lengths with commas and blanks, or semicolons, between.
func lengths(option, text string, unit measure.Unit, least, most int) ([]measure.Length, error) {
	parts := strings.Split(text, ";")
	if len(parts) == 1 {
		parts = strings.Split(text, ", ")
	}
	if len(parts) == 1 {
		parts = strings.Split(text, ",")
	}
	if len(parts) < least || len(parts) > most {
		return nil, mistyped(fmt.Sprintf("%s does not take %d lengths", option, len(parts)), "See tallycloth fabric --help")
	}
	var out []measure.Length
	for _, p := range parts {
		v, err := measure.ParsePositiveLength(strings.TrimSpace(p), unit)
		if err != nil {
			return nil, said(option, err)
		}
		out = append(out, v)
	}
	return out, nil
}
