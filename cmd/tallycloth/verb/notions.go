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
	"tallycloth/ui/records"
	"tallycloth/ui/say"

	"github.com/spf13/cobra"
)

// notions is the verb that shows thread, elastic, needles and hardware.
func (s *session) notions() *cobra.Command {
	return &cobra.Command{
		Use:   "notions",
		Short: "Show thread, elastic, needles and hardware",
		Long: `Shows notions with what is on hand, and marks those below their reorder level.

With --json a list of objects: name, kind, quantity, unit, reorder, short, history (list
of on, what, change, after, garment, paid, note).`,
		Example: "  tallycloth notions",
		Args:    noMore,
		RunE: func(cmd *cobra.Command, _ []string) error {
			return s.reading(cmd, func(ctx context.Context, l *library) error {
				all, err := l.Notions(ctx)
				if err != nil {
					return err
				}
				garments, err := l.garmentNames(ctx)
				if err != nil {
					return err
				}
				out, rows := []notionFields{}, [][]string{}
				for _, n := range all {
					out = append(out, fieldsOfNotion(n, garments))
					rows = append(rows, []string{n.Name, n.Kind, stash.FormatQuantity(n.Quantity, n.Unit), reorderWords(n), shortWords(n)})
				}
				return s.answer(out, func(w io.Writer) { table(w, "NOTION|KIND|ON HAND|REORDER BELOW|", rows) })
			})
		},
	}
}

func reorderWords(n stash.Notion) string {
	if n.Reorder == 0 {
		return ""
	}
	return stash.FormatQuantity(n.Reorder, n.Unit)
}

func shortWords(n stash.Notion) string {
	if n.Short() {
		return "short"
	}
	return ""
}

// notionWords are what was typed about a notion.
type notionWords struct {
	kind, unit, quantity, reorder string
	bought, paid, used, garment   string
	note                          string
}

// notion is the verb that adds, counts, buys and uses a notion.
func (s *session) notion() *cobra.Command {
	var w notionWords
	cmd := &cobra.Command{
		Use:   "notion NAME",
		Short: "Add, count, buy or use a notion",
		Long: `Adds a notion of that name, or changes the one there is: --quantity is what was counted,
--bought adds to it, --used takes from it, for a garment if --garment names one. Each is
a line of its history, and undo takes it back. Usual kinds: ` + strings.Join(stash.NotionKinds, ", ") + `.

With --json the notion, as notions shows it.`,
		Example: `  tallycloth notion "Clear elastic 8 mm" --kind "clear elastic" --unit m --quantity 11 --reorder 3
  tallycloth notion "Clear elastic" --bought 5 --paid "2.50 EUR"
  tallycloth notion "Clear elastic" --used "80 cm" --garment "Plum tank"`,
		Args: exactly("the name of a notion"),
		RunE: func(cmd *cobra.Command, args []string) error {
			return s.adding(cmd, func(ctx context.Context, l *library) error {
				n, err := w.do(ctx, l, args[0])
				if err != nil {
					return err
				}
				garments, err := l.garmentNames(ctx)
				if err != nil {
					return err
				}
				return s.answer(fieldsOfNotion(n, garments), func(out io.Writer) {
					fmt.Fprintf(out, "%s: %s on hand.\n", n.Name, stash.FormatQuantity(n.Quantity, n.Unit))
				})
			})
		},
	}
	f := cmd.Flags()
	f.StringVar(&w.kind, "kind", "", "what it is, such as thread or clear elastic")
	f.StringVar(&w.unit, "unit", "", "unit it is counted in: m, yd, pieces, spools …")
	f.StringVar(&w.quantity, "quantity", "", "how much is on hand, counted")
	f.StringVar(&w.reorder, "reorder", "", "below this it is on the shopping list")
	f.StringVar(&w.bought, "bought", "", "how much was bought")
	f.StringVar(&w.paid, "paid", "", "what that cost")
	f.StringVar(&w.used, "used", "", "how much was used")
	f.StringVar(&w.garment, "garment", "", "the garment it was used for")
	f.StringVar(&w.note, "note", "", "what else to know about what was bought or used")
	return cmd
}

func (w notionWords) do(ctx context.Context, l *library, name string) (stash.Notion, error) {
	switch {
	case w.bought != "" && w.used != "":
		return stash.Notion{}, mistyped("Bought and used cannot be noted together", "Note one after the other")
	case w.bought == "" && w.paid != "":
		return stash.Notion{}, mistyped("Something was paid, and nothing is said to be bought", "Say how much with --bought")
	case w.used == "" && w.garment != "":
		return stash.Notion{}, mistyped("A garment is named, and nothing is said to be used", "Say how much with --used")
	case (w.bought != "" || w.used != "") && w.quantity+w.kind+w.unit+w.reorder != "":
		return stash.Notion{}, mistyped("What was bought or used is said together with what the notion is", "Note one after the other")
	}
	n, err := w.pick(ctx, l, name)
	if err != nil {
		return n, err
	}
	switch {
	case w.bought != "":
		return w.buy(ctx, l, n)
	case w.used != "":
		return w.use(ctx, l, n)
	}
	if w.kind != "" {
		n.Kind = w.kind
	}
	if w.unit != "" {
		n.Unit = w.unit
	}
	for _, q := range []struct {
		flag, text string
		into       *float64
	}{{"--quantity", w.quantity, &n.Quantity}, {"--reorder", w.reorder, &n.Reorder}} {
		if q.text == "" {
			continue
		}
		if *q.into, err = stash.ParseQuantity(q.text, n.Unit); err != nil {
			return n, said(q.flag, err)
		}
	}
	return l.SaveNotion(ctx, n)
}

// pick finds the notion, or makes a new one where a quantity is counted.
func (w notionWords) pick(ctx context.Context, l *library, name string) (stash.Notion, error) {
	all, err := l.Notions(ctx)
	if err != nil {
		return stash.Notion{}, err
	}
	for _, n := range all {
		if strings.EqualFold(n.Name, strings.TrimSpace(name)) {
			return n, nil
		}
	}
	if w.quantity != "" {
		return stash.Notion{Name: name}, nil
	}
	n, err := pick("notion", name, all, func(n stash.Notion) string { return n.Name })
	if own, ok := errors.AsType[*stash.Error](err); ok {
		err = mistyped(own.What, say.Sentence(own.Do)+" For a new notion give its --quantity and --unit")
	}
	return n, err
}

func (w notionWords) buy(ctx context.Context, l *library, n stash.Notion) (stash.Notion, error) {
	q, err := stash.ParseQuantity(w.bought, n.Unit)
	if err != nil {
		return n, said("--bought", err)
	}
	var paid measure.Money
	if err := l.money("--paid", w.paid, &paid); err != nil {
		return n, err
	}
	return l.BuyNotion(ctx, n.ID, q, paid, w.note)
}

func (w notionWords) use(ctx context.Context, l *library, n stash.Notion) (stash.Notion, error) {
	q, err := stash.ParseQuantity(w.used, n.Unit)
	if err != nil {
		return n, said("--used", err)
	}
	id := stash.NoID
	if w.garment != "" {
		g, err := l.pickGarment(ctx, w.garment)
		if err != nil {
			return n, err
		}
		id = g.ID
	}
	return l.UseNotion(ctx, n.ID, q, id, w.note)
}

// shopping is the verb that lists what runs short.
func (s *session) shopping() *cobra.Command {
	var out onPaper
	cmd := &cobra.Command{
		Use:   "shopping",
		Short: "Show what to buy: fabrics, and notions that run short",
		Long: `Shows the shopping list: fabrics that were put on it (fabric NAME --buy), notions below their reorder level, and those that wanted and
reserved garments ask for beyond what is on hand.

With --json a list of objects: buy, unit, name, kind, on_hand, reorder, asked_for,
garments (names), note.`,
		Example: "  tallycloth shopping\n  tallycloth shopping --csv shopping.csv",
		Args:    noMore,
		RunE: func(cmd *cobra.Command, _ []string) error {
			return s.reading(cmd, func(ctx context.Context, l *library) error {
				items, err := l.ShoppingList(ctx)
				if err != nil {
					return err
				}
				if err := out.write(l, records.Shopping(items)); err != nil {
					return err
				}
				return s.showShopping(items)
			})
		},
	}
	out.flags(cmd)
	return cmd
}

func (s *session) showShopping(items []planner.ToBuy) error {
	out, rows := []toBuyFields{}, [][]string{}
	for _, b := range items {
		out = append(out, toBuyFields{b.Buy, b.Unit, b.Name, b.Kind, b.OnHand, b.Reorder, b.Needed, some(b.Garments), b.Note})
		rows = append(rows, []string{stash.FormatQuantity(b.Buy, b.Unit), b.Name, stash.FormatQuantity(b.OnHand, b.Unit), b.Why()})
	}
	return s.answer(out, func(w io.Writer) {
		if len(rows) == 0 {
			fmt.Fprintln(w, "Nothing runs short.")
			return
		}
		table(w, "BUY|WHAT|ON HAND|WHY", rows)
	})
}

// toBuyFields is one thing on the shopping list, in JSON.
type toBuyFields struct {
	Buy      float64  `json:"buy"`
	Unit     string   `json:"unit"`
	Name     string   `json:"name"`
	Kind     string   `json:"kind"`
	OnHand   float64  `json:"on_hand"`
	Reorder  float64  `json:"reorder"`
	AskedFor float64  `json:"asked_for"`
	Garments []string `json:"garments"`
	Note     string   `json:"note"`
}

// notionFields is a notion in JSON.
type notionFields struct {
	Name     string             `json:"name"`
	Kind     string             `json:"kind"`
	Quantity float64            `json:"quantity"`
	Unit     string             `json:"unit"`
	Reorder  float64            `json:"reorder"`
	Short    bool               `json:"short"`
	History  []notionLineFields `json:"history"`
}

type notionLineFields struct {
	On      string  `json:"on"`
	What    string  `json:"what"`
	Change  float64 `json:"change"`
	After   float64 `json:"after"`
	Garment string  `json:"garment"`
	Paid    string  `json:"paid"`
	Note    string  `json:"note"`
}

func fieldsOfNotion(n stash.Notion, garments map[stash.ID]string) notionFields {
	out := notionFields{Name: n.Name, Kind: n.Kind, Quantity: n.Quantity, Unit: n.Unit, Reorder: n.Reorder, Short: n.Short(), History: []notionLineFields{}}
	for _, l := range n.Lines {
		out.History = append(out.History, notionLineFields{string(l.On), string(l.Move), l.Change, l.After, garments[l.GarmentID], l.Paid.String(), l.Note})
	}
	return out
}
