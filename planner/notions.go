package planner

import (
	"context"
	"fmt"
	"strings"

	"tallycloth/stash"
	"tallycloth/stash/measure"
)

// Notion returns one notion.
func (s *Studio) Notion(ctx context.Context, id stash.ID) (stash.Notion, error) {
	all, err := s.Notions(ctx)
	if err != nil {
		return stash.Notion{}, err
	}
	return notionIn(all, id)
}

func notionIn(all []stash.Notion, id stash.ID) (stash.Notion, error) {
	for _, n := range all {
		if n.ID == id {
			return n, nil
		}
	}
	return stash.Notion{}, &stash.Error{Kind: stash.NotFound, What: "There is no such notion in the library", Do: "Look at the list of notions"}
}

// SaveNotion keeps name, kind, unit and reorder level of a notion, and its quantity as it
// was counted; one without an ID is new. Its history is kept by the studio: a quantity that
// differs from what was on hand is a line of it.
func (s *Studio) SaveNotion(ctx context.Context, n stash.Notion) (stash.Notion, error) {
	n.Name, n.Kind, n.Unit = strings.TrimSpace(n.Name), strings.TrimSpace(n.Kind), strings.TrimSpace(n.Unit)
	n.Quantity, n.Reorder = stash.Quantified(n.Quantity), stash.Quantified(n.Reorder)
	fresh := n.ID == stash.NoID
	if fresh {
		n.ID = s.newID()
	}
	n.Lines = nil
	if err := n.Validate(); err != nil {
		return n, err
	}
	sentence := "Changed " + n.Name
	if fresh {
		sentence = fmt.Sprintf("Added %s of %s", stash.FormatQuantity(n.Quantity, n.Unit), n.Name)
	}
	err := s.act(ctx, sentence, func(tx Tx) error {
		was, err := notionOf(ctx, tx, n.ID)
		if fresh {
			was, err = stash.Notion{ID: n.ID}, nil
		}
		if err != nil {
			return err
		}
		now, err := counted(was, n, s.today())
		if err != nil {
			return err
		}
		n = now
		return tx.PutNotion(ctx, now)
	})
	return n, err
}

// counted is a notion as it was with what is said of it now.
func counted(was, says stash.Notion, today stash.Date) (stash.Notion, error) {
	says.Lines = was.Lines
	quantity, note := says.Quantity, ""
	if was.Unit != says.Unit && len(was.Lines) > 0 {
		note = "in " + says.Unit + " from now on"
	}
	says.Quantity = was.Quantity
	if quantity == was.Quantity && note == "" {
		return says, nil
	}
	return says.Moved(stash.NotionLine{On: today, Move: stash.NotionCounted, Change: quantity - was.Quantity, Note: note})
}

func notionOf(ctx context.Context, tx Tx, id stash.ID) (stash.Notion, error) {
	all, err := tx.Notions(ctx)
	if err != nil {
		return stash.Notion{}, err
	}
	return notionIn(all, id)
}

// BuyNotion adds what was bought of a notion; paid is the zero value when not said, and
// without a currency in that of the settings.
func (s *Studio) BuyNotion(ctx context.Context, id stash.ID, quantity float64, paid measure.Money, note string) (stash.Notion, error) {
	set, err := s.Settings(ctx)
	if err != nil {
		return stash.Notion{}, fmt.Errorf("buying a notion: %w", err)
	}
	if paid.Minor != 0 && paid.Currency == "" {
		paid.Currency = set.Currency
	}
	return s.moveNotion(ctx, id, stash.NotionLine{Move: stash.NotionBought, Change: quantity, Paid: paid, Note: note}, "Bought %s of %s")
}

// UseNotion takes a quantity of a notion from hand, for a garment or for NoID.
func (s *Studio) UseNotion(ctx context.Context, id stash.ID, quantity float64, garmentID stash.ID, note string) (stash.Notion, error) {
	sentence := "Used %s of %s"
	if garmentID != stash.NoID {
		g, err := s.Garment(ctx, garmentID)
		if err != nil {
			return stash.Notion{}, fmt.Errorf("using a notion: %w", err)
		}
		sentence += " for " + strings.ReplaceAll(g.Name, "%", "%%")
	}
	return s.moveNotion(ctx, id, stash.NotionLine{Move: stash.NotionUsed, Change: -quantity, GarmentID: garmentID, Note: note}, sentence)
}

func (s *Studio) moveNotion(ctx context.Context, id stash.ID, line stash.NotionLine, sentence string) (stash.Notion, error) {
	n, err := s.Notion(ctx, id)
	if err != nil {
		return n, err
	}
	quantity := stash.Quantified(max(line.Change, -line.Change))
	if !(quantity > 0) {
		return n, invalid("Say how much", "A quantity must be more than zero")
	}
	if (line.Move == stash.NotionUsed) != (line.Change < 0) {
		return n, invalid("Say how much", "A quantity cannot be negative")
	}
	line.On = s.today()
	err = s.act(ctx, fmt.Sprintf(sentence, stash.FormatQuantity(quantity, n.Unit), n.Name), func(tx Tx) error {
		was, err := notionOf(ctx, tx, id)
		if err != nil {
			return err
		}
		if n, err = was.Moved(line); err != nil {
			return err
		}
		return tx.PutNotion(ctx, n)
	})
	return n, err
}

// NotionsFor returns what was used of each notion for a garment, by notion.
func (s *Studio) NotionsFor(ctx context.Context, garmentID stash.ID) (map[stash.ID]float64, error) {
	all, err := s.Notions(ctx)
	if err != nil {
		return nil, fmt.Errorf("looking for the notions of a garment: %w", err)
	}
	out := map[stash.ID]float64{}
	for _, n := range all {
		if q := n.UsedFor(garmentID); q > 0 {
			out[n.ID] = q
		}
	}
	return out, nil
}
