package planner

import (
	"context"
	"errors"
	"fmt"
	"strconv"
	"strings"
	"time"

	"tallycloth/planner/garment"
	"tallycloth/planner/pattern"
	"tallycloth/stash"
	"tallycloth/stash/list"
	"tallycloth/stash/measure"
)

// ExportAll returns the library as tables: the stash, as ReadList reads it into the same
// records, cloth that is gone, purchases, the history line by line, what is reserved,
// notions with their history, patterns and garments by name. The first row of each is its heading.
func (s *Studio) ExportAll(ctx context.Context) ([]list.Table, error) {
	o, err := s.collect(ctx)
	if err != nil {
		return nil, fmt.Errorf("writing the library out: %w", err)
	}
	all := make([]stash.ClothState, 0, len(o.cloths)+len(o.gone))
	all = append(append(all, o.cloths...), o.gone...)
	return []list.Table{
		list.Write(all, o.fabrics, o.purchases), o.goneTable(), o.purchaseTable(), o.historyTable(),
		o.reservedTable(), o.notionTable(), o.notionHistoryTable(), o.patternTable(), o.garmentTable(),
	}, nil
}

// everything is what a library holds, with the names of things.
type everything struct {
	fabrics      []stash.Fabric
	cloths, gone []stash.ClothState
	purchases    []stash.Purchase
	lines        []stash.Movement
	notions      []stash.Notion
	patterns     []pattern.Pattern
	garments     []garment.Garment
	acts         map[stash.ID]string
	cloth        map[stash.ID]stash.ClothState
	names        map[stash.ID]string // of fabrics, patterns and garments
}

func (s *Studio) collect(ctx context.Context) (o everything, err error) {
	var acts []stash.Act
	for _, read := range []func() error{
		func() (err error) { o.fabrics, err = s.Fabrics(ctx); return },
		func() (err error) { o.cloths, err = s.Cloths(ctx); return },
		func() (err error) { o.purchases, err = s.Purchases(ctx); return },
		func() (err error) { o.lines, err = s.Movements(ctx, stash.NoID); return },
		func() (err error) { o.notions, err = s.Notions(ctx); return },
		func() (err error) { o.patterns, err = s.Patterns(ctx); return },
		func() (err error) { o.garments, err = s.Garments(ctx); return },
		func() (err error) { acts, err = s.Acts(ctx, 0); return },
	} {
		if err := read(); err != nil {
			return o, err
		}
	}
	o.acts, o.cloth, o.names = map[stash.ID]string{}, map[stash.ID]stash.ClothState{}, map[stash.ID]string{}
	for _, a := range acts {
		o.acts[a.ID] = a.Sentence
	}
	for _, f := range o.fabrics {
		o.names[f.ID] = f.Name
	}
	for _, p := range o.patterns {
		o.names[p.ID] = p.Name
	}
	for _, g := range o.garments {
		o.names[g.ID] = g.Name
	}
	for _, c := range o.cloths {
		o.cloth[c.Cloth.ID] = c
	}
	return o, s.findGone(ctx, &o)
}

// findGone reads the cloth that only the history names. One whose coming was taken back
// is in no record any more.
func (s *Studio) findGone(ctx context.Context, o *everything) error {
	for _, m := range o.lines {
		if _, seen := o.cloth[m.ClothID]; seen {
			continue
		}
		c, err := s.Cloth(ctx, m.ClothID)
		if err != nil && !errors.Is(err, stash.ErrNotFound) {
			return err
		}
		o.cloth[m.ClothID] = c
		if err == nil && c.Cloth.Gone {
			o.gone = append(o.gone, c)
		}
	}
	return nil
}

// sheet makes a table with headings.
func sheet(name string, headings ...string) list.Table {
	t := list.Table{Name: name, Rows: [][]list.Cell{make([]list.Cell, len(headings))}}
	for k, h := range headings {
		t.Rows[0][k].Text = h
	}
	return t
}

func add(t *list.Table, cells ...list.Cell) { t.Rows = append(t.Rows, cells) }

func words(s string) list.Cell       { return list.Cell{Text: s} }
func dayCell(d stash.Date) list.Cell { return list.Cell{Text: string(d), Kind: list.Day} }
func count(n int) list.Cell          { return list.Cell{Text: strconv.Itoa(n), Kind: list.Number} }
func centimetres(l measure.Length) list.Cell {
	return decimal(float64(l) / float64(measure.Centimetre))
}

func decimal(v float64) list.Cell {
	return list.Cell{Text: strconv.FormatFloat(v, 'f', -1, 64), Kind: list.Number}
}

// paid are the cells of an amount: the number, nothing where none is noted.
func paid(m measure.Money) list.Cell {
	if m == (measure.Money{}) {
		return list.Cell{}
	}
	return list.Cell{Text: strings.TrimSuffix(m.String(), " "+m.Currency), Kind: list.Number}
}

func yes(b bool) list.Cell {
	if b {
		return words("yes")
	}
	return words("no")
}

func (o everything) goneTable() list.Table {
	t := sheet("Gone", "code", "fabric", "length (cm)", "width (cm)", "lot", "place", "washed", "notes")
	for _, g := range o.gone {
		c := g.Cloth
		add(&t, words(c.Code), words(g.Fabric.Name), centimetres(c.Length), centimetres(c.Width), words(c.Lot), words(c.Place), yes(c.Washed), words(c.Notes))
	}
	return t
}

func (o everything) purchaseTable() list.Table {
	t := sheet("Purchases", "purchase no.", "day", "bought from", "fabric", "code", "length (cm)", "price", "currency", "postage", "tax", "currency of postage", "notes")
	for i, p := range o.purchases {
		for k, l := range p.Lines {
			row := []list.Cell{count(i + 1), dayCell(p.Date), words(p.Supplier), words(o.names[l.FabricID]), words(o.cloth[l.ClothID].Cloth.Code),
				centimetres(l.Quantity), paid(l.Price), words(l.Price.Currency)}
			if k == 0 { // what is of the whole purchase stands once, so that sums are right
				fee := p.Postage.Currency
				if fee == "" {
					fee = p.Tax.Currency
				}
				row = append(row, paid(p.Postage), paid(p.Tax), words(fee), words(p.Notes))
			}
			add(&t, row...)
		}
	}
	return t
}

func (o everything) historyTable() list.Table {
	t := sheet("History", "no.", "at (UTC)", "what was done", "kind", "code", "fabric", "length (cm)", "area (m²)", "garment", "notes")
	for i, m := range o.lines {
		c := o.cloth[m.ClothID]
		add(&t, count(i+1), words(m.At.UTC().Format(time.DateTime)), words(o.acts[m.ActID]), words(string(m.Kind)), words(c.Cloth.Code), words(c.Fabric.Name),
			centimetres(m.Length), decimal(m.Area.SquareMetres()), words(o.names[m.GarmentID]), words(m.Note))
	}
	return t
}

func (o everything) reservedTable() list.Table {
	t := sheet("Reserved", "code", "fabric", "garment", "used for", "pattern pieces", "area (m²)")
	for _, c := range o.cloths {
		for _, r := range c.Reservations {
			names := make([]string, len(r.Pieces))
			for i, p := range r.Pieces {
				names[i] = p.Name
			}
			add(&t, words(c.Cloth.Code), words(c.Fabric.Name), words(o.names[r.GarmentID]), words(r.UsedFor), words(strings.Join(names, ", ")), decimal(r.Area().SquareMetres()))
		}
	}
	return t
}

func (o everything) notionTable() list.Table {
	t := sheet("Notions", "name", "kind", "quantity", "unit", "reorder at")
	for _, n := range o.notions {
		add(&t, words(n.Name), words(n.Kind), decimal(n.Quantity), words(n.Unit), decimal(n.Reorder))
	}
	return t
}

func (o everything) notionHistoryTable() list.Table {
	t := sheet("Notion history", "day", "name", "what was done", "change", "on hand after", "unit", "garment", "paid", "currency", "notes")
	for _, n := range o.notions {
		for _, l := range n.Lines {
			add(&t, dayCell(l.On), words(n.Name), words(string(l.Move)), decimal(l.Change), decimal(l.After), words(n.Unit), words(o.names[l.GarmentID]), paid(l.Paid), words(l.Paid.Currency), words(l.Note))
		}
	}
	return t
}

func (o everything) patternTable() list.Table {
	t := sheet("Patterns", "name", "maker", "kind", "sizes", "pattern pieces", "notes")
	for _, p := range o.patterns {
		sizes := make([]string, len(p.Sizes))
		for i, z := range p.Sizes {
			sizes[i] = z.Name
		}
		add(&t, words(p.Name), words(p.Maker), words(p.Kind), words(strings.Join(sizes, ", ")), count(len(p.Pieces)), words(p.Notes))
	}
	return t
}

func (o everything) garmentTable() list.Table {
	t := sheet("Garments", "name", "pattern", "size", "variant", "for", "state", "wanted for", "changed", "strips", "notes")
	for _, g := range o.garments {
		add(&t, words(g.Name), words(o.names[g.PatternID]), words(g.Size), words(g.Variant), words(g.For), words(string(g.State)), dayCell(g.Wanted), dayCell(g.Changed), count(len(g.Strips)), words(g.Notes))
	}
	return t
}
