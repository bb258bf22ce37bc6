package db

import (
	"context"
	"database/sql"
	"fmt"

	"tallycloth/stash"
)

const purchaseColumns = `id, date, supplier, postage, postage_currency, tax, tax_currency, notes`

func scanPurchase(rows *sql.Rows) (p stash.Purchase, err error) {
	err = rows.Scan(&p.ID, &p.Date, &p.Supplier, &p.Postage.Minor, &p.Postage.Currency, &p.Tax.Minor, &p.Tax.Currency, &p.Notes)
	return p, err
}

// lineOf is a line with the purchase it belongs to.
type lineOf struct {
	stash.PurchaseLine
	purchase stash.ID
}

func scanLine(rows *sql.Rows) (l lineOf, err error) {
	err = rows.Scan(&l.purchase, &l.FabricID, &l.ClothID, &l.Quantity, &l.Price.Minor, &l.Price.Currency)
	return l, err
}

const selectLine = `SELECT purchase_id, fabric_id, cloth_id, quantity, price, currency FROM purchase_line`

// purchases reads the purchases a condition chooses, with their lines.
func purchases(ctx context.Context, q queryer, where string, args ...any) ([]stash.Purchase, error) {
	found, err := all(ctx, q, `SELECT `+purchaseColumns+` FROM purchase WHERE present = 1`+where, args, scanPurchase)
	if err != nil {
		return nil, fmt.Errorf("reading purchases: %w", err)
	}
	lines, err := all(ctx, q, selectLine+` WHERE purchase_id IN (SELECT id FROM purchase WHERE present = 1`+where+`) ORDER BY purchase_id, position`, args, scanLine)
	if err != nil {
		return nil, fmt.Errorf("reading the lines of purchases: %w", err)
	}
	of := map[stash.ID][]stash.PurchaseLine{}
	for _, l := range lines {
		of[l.purchase] = append(of[l.purchase], l.PurchaseLine)
	}
	for i := range found {
		found[i].Lines = of[found[i].ID]
	}
	return found, nil
}

func purchaseByID(ctx context.Context, q queryer, id stash.ID) (stash.Purchase, error) {
	found, err := purchases(ctx, q, ` AND id = ?`, id[:])
	if err == nil && len(found) == 0 {
		err = &stash.Error{Kind: stash.NotFound, What: "There is no such purchase in the library"}
	}
	if err != nil {
		return stash.Purchase{}, err
	}
	return found[0], nil
}

func savePurchase(ctx context.Context, t *tx, p stash.Purchase) error {
	if err := p.Validate(); err != nil {
		return err
	}
	err := t.upsert(ctx, "purchase", purchaseColumns, p.ID[:], string(p.Date), p.Supplier,
		p.Postage.Minor, p.Postage.Currency, p.Tax.Minor, p.Tax.Currency, p.Notes)
	if err != nil {
		return err
	}
	if err := t.exec(ctx, `DELETE FROM purchase_line WHERE purchase_id = ?`, p.ID[:]); err != nil {
		return err
	}
	for i, l := range p.Lines {
		err := t.exec(ctx, `INSERT INTO purchase_line (purchase_id, position, fabric_id, cloth_id, quantity, price, currency) VALUES (?, ?, ?, ?, ?, ?, ?)`,
			p.ID[:], i, l.FabricID[:], l.ClothID[:], int64(l.Quantity), l.Price.Minor, l.Price.Currency)
		if err != nil {
			return err
		}
	}
	return nil
}
