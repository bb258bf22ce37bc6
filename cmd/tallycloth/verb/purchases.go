package verb

import (
	"context"
	"fmt"
	"io"
	"strings"

	"tallycloth/planner"
	"tallycloth/stash"
	"tallycloth/stash/measure"
	"tallycloth/ui/say"

	"github.com/spf13/cobra"
)

// purchases is the verb that shows what was bought and what it came to.
func (s *session) purchases() *cobra.Command {
	var from, to string
	cmd := &cobra.Command{
		Use:   "purchases",
		Short: "Show what was bought, with totals per currency",
		Long: `Shows purchases, newest first, each line with its lot, its code and what it cost with its
share of postage and tax, then the totals of each currency, and what lies on the shelf
by what it cost. Where the verb rate was given a rate, the totals are joined into the
currency of the settings; such a total is approximate, and says from which day each rate
is.

With --json an object: purchases (list of bought, from, total, postage, tax, notes,
lines), totals, joined and on_hand. A line has fabric, code, lot, length_mm, price and
cost. on_hand has totals, joined and pieces_without_a_price. joined has total,
approximate, rates (list of rate and typed) and without (currencies that no rate joins).
Amounts are texts such as "18.60 EUR", "" where none is noted.`,
		Example: "  tallycloth purchases --from 2026-01-01 --to 2026-03-31",
		Args:    noMore,
		RunE: func(cmd *cobra.Command, _ []string) error {
			return s.reading(cmd, func(ctx context.Context, l *library) error {
				first, err := l.day("--from", from)
				if err != nil {
					return err
				}
				last, err := l.day("--to", to)
				if err != nil {
					return err
				}
				return s.showPurchases(ctx, l, first, last)
			})
		},
	}
	cmd.Flags().StringVar(&from, "from", "", "the first day, as 2026-03-02 (default: the first purchase)")
	cmd.Flags().StringVar(&to, "to", "", "the last day (default: the last purchase)")
	return cmd
}

func (s *session) showPurchases(ctx context.Context, l *library, from, to stash.Date) error {
	got, err := l.Spending(ctx, from, to)
	if err != nil {
		return err
	}
	hand, err := l.OnHand(ctx)
	if err != nil {
		return err
	}
	out := spendingFields{Purchases: []boughtThen{}, Totals: amounts(got.Totals), Joined: fieldsOfJoined(got.Joined),
		OnHand: onHandFields{Totals: amounts(hand.Totals), Joined: fieldsOfJoined(hand.Joined), Unpriced: hand.Unpriced}}
	for _, p := range got.Purchases {
		out.Purchases = append(out.Purchases, fieldsOfPurchase(p))
	}
	return s.answer(out, func(w io.Writer) {
		var rows [][]string
		for _, p := range got.Purchases {
			for _, line := range p.Lines {
				rows = append(rows, []string{string(p.Date), p.Supplier, line.Fabric, line.Cloth.Code, line.Cloth.Lot, l.voice.Length(line.Quantity), line.Price.String(), line.Cost.String()})
			}
		}
		table(w, "BOUGHT|FROM|FABRIC|CODE|LOT|LENGTH|PRICE|WITH ITS SHARE", rows)
		fmt.Fprintln(w, "\nBought in all:", say.Totals(got.Totals, got.Joined))
		fmt.Fprintln(w, "On the shelf, by what it cost:", say.Totals(hand.Totals, hand.Joined))
		if hand.Unpriced > 0 {
			fmt.Fprintf(w, "Of %s on the shelf the price is not noted.\n", say.Count(hand.Unpriced, "piece of cloth", "pieces of cloth"))
		}
	})
}

// rate is the verb that keeps a rate between two currencies.
func (s *session) rate() *cobra.Command {
	var forget bool
	cmd := &cobra.Command{
		Use:   "rate RATE",
		Short: "Keep a rate between two currencies, to join totals",
		Long: `Keeps a rate as you type it, with today's day, so that totals of several currencies can be
joined into the currency of the settings. It changes no price. A rate between the same
two currencies takes its place.

With --json an object: rate, typed.`,
		Example: "  tallycloth rate \"1 USD = 0.92 EUR\"\n  tallycloth rate \"100 JPY = 0.61 EUR\"\n  tallycloth rate \"1 USD = 0.92 EUR\" --forget",
		Args:    exactly("a rate such as \"1 USD = 0.92 EUR\""),
		RunE: func(cmd *cobra.Command, args []string) error {
			return s.changing(cmd, func(ctx context.Context, l *library) error { return s.keepRate(ctx, l, args[0], forget) })
		},
	}
	cmd.Flags().BoolVar(&forget, "forget", false, "forget the rate between these two currencies")
	return cmd
}

func (s *session) keepRate(ctx context.Context, l *library, text string, forget bool) error {
	r, err := stash.ParseRate(text, l.settings.Currency, stash.On(s.Now()))
	if err != nil {
		return err
	}
	told := "Noted: " + r.String() + ". Totals joined with it are approximate."
	if forget {
		kept := l.settings.Rates.Without(r.Unit, r.In)
		if kept == l.settings.Rates {
			return mistyped(fmt.Sprintf("No rate between %s and %s is noted", r.Unit, r.In), "The verb purchases shows the rates that are used")
		}
		told = fmt.Sprintf("Forgot the rate between %s and %s.", r.Unit, r.In)
		err = l.DropRate(ctx, r)
	} else {
		r, err = l.KeepRate(ctx, text)
	}
	if err != nil {
		return err
	}
	return s.answer(rateFields{r.String(), string(r.Typed)}, func(w io.Writer) { fmt.Fprintln(w, told) })
}

// spendingFields is what was bought, in JSON.
type spendingFields struct {
	Purchases []boughtThen `json:"purchases"`
	Totals    []string     `json:"totals"`
	Joined    joinedFields `json:"joined"`
	OnHand    onHandFields `json:"on_hand"`
}

type onHandFields struct {
	Totals   []string     `json:"totals"`
	Joined   joinedFields `json:"joined"`
	Unpriced int          `json:"pieces_without_a_price"`
}

type boughtThen struct {
	Bought  string          `json:"bought"`
	From    string          `json:"from"`
	Total   string          `json:"total"`
	Postage string          `json:"postage"`
	Tax     string          `json:"tax"`
	Notes   string          `json:"notes"`
	Lines   []purchasedLine `json:"lines"`
}

type purchasedLine struct {
	Fabric   string `json:"fabric"`
	Code     string `json:"code"`
	Lot      string `json:"lot"`
	LengthMM mm     `json:"length_mm"`
	Price    string `json:"price"`
	Cost     string `json:"cost"`
}

type joinedFields struct {
	Total       string       `json:"total"`
	Approximate bool         `json:"approximate"`
	Rates       []rateFields `json:"rates"`
	Without     []string     `json:"without"`
}

type rateFields struct {
	Rate  string `json:"rate"`
	Typed string `json:"typed"`
}

func amounts(ms []measure.Money) []string {
	out := []string{}
	for _, m := range ms {
		out = append(out, m.String())
	}
	return out
}

func fieldsOfJoined(j stash.Joined) joinedFields {
	out := joinedFields{Total: j.Total.String(), Approximate: len(j.Used) > 0, Rates: []rateFields{}, Without: some(j.Missing)}
	for _, r := range j.Used {
		out.Rates = append(out.Rates, rateFields{r.String(), string(r.Typed)})
	}
	return out
}

func fieldsOfPurchase(p planner.Purchased) boughtThen {
	out := boughtThen{Bought: string(p.Date), From: p.Supplier, Total: p.Total.String(), Postage: p.Postage.String(), Tax: p.Tax.String(),
		Notes: strings.TrimSpace(p.Notes), Lines: []purchasedLine{}}
	for _, l := range p.Lines {
		out.Lines = append(out.Lines, purchasedLine{l.Fabric, l.Cloth.Code, l.Cloth.Lot, mm(l.Quantity), l.Price.String(), l.Cost.String()})
	}
	return out
}
