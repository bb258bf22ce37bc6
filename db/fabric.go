package db

import (
	"context"
	"database/sql"
	"fmt"

	"tallycloth/stash"
	"tallycloth/stash/measure"
)

const fabricColumns = `id, name, construction, fibres, weight, full_width, tubular, selvedge_loss, buy, buy_for,
	long_stretch, long_growth, long_recovery, long_narrowing, long_shrinkage,
	cross_stretch, cross_growth, cross_recovery, cross_narrowing, cross_shrinkage,
	direction, repeat_along, repeat_across, same_both_face, thickness,
	colour, colour_name, care, supplier, notes, stitches, tags, bench, strips`

func scanFabric(rows *sql.Rows) (f stash.Fabric, err error) {
	var fibres, stitches, tags, bench, strips sql.NullString
	var fl []stash.Fibre
	l, c := &f.Lengthwise, &f.Crosswise
	err = rows.Scan(&f.ID, &f.Name, &f.Construction, &fibres, &f.Weight, &f.FullWidth, &f.Tubular, &f.SelvedgeLoss, &f.Buy, &f.BuyFor,
		reading{&l.Stretch}, reading{&l.Growth}, reading{&l.Recovery}, reading{&l.Narrowing}, reading{&l.Shrinkage},
		reading{&c.Stretch}, reading{&c.Growth}, reading{&c.Recovery}, reading{&c.Narrowing}, reading{&c.Shrinkage},
		&f.Direction, &f.RepeatAlong, &f.RepeatAcross, &f.SameBothFace, &f.Thickness,
		&f.Colour, &f.ColourName, &f.Care, &f.Supplier, &f.Notes, &stitches, &tags, &bench, &strips)
	if err != nil {
		return f, err
	}
	if err = fromJSON(fibres, &fl); err != nil {
		return f, err
	}
	f.Fibres = fl
	if err = fromJSON(stitches, &f.Stitches); err != nil {
		return f, err
	}
	if err = fromJSON(bench, &f.Bench); err != nil {
		return f, err
	}
	if err = fromJSON(strips, &f.Strips); err != nil {
		return f, err
	}
	return f, fromJSON(tags, &f.Tags)
}

// reading scans a percent that may be NULL: not measured.
type reading struct{ to *stash.Reading }

// Scan implements sql.Scanner.
func (r reading) Scan(v any) error {
	if v == nil {
		*r.to = stash.Reading{}
		return nil
	}
	n, ok := v.(int64)
	if !ok {
		return fmt.Errorf("reading a percent: %v is no whole number", v)
	}
	*r.to = stash.Measured(measure.Percent(n))
	return nil
}

// percent returns a reading as SQLite keeps it.
func percent(r stash.Reading) any {
	if !r.Known {
		return nil
	}
	return int64(r.Value)
}

func fabricByID(ctx context.Context, q queryer, id stash.ID) (stash.Fabric, error) {
	return one(ctx, q, "fabric", `SELECT `+fabricColumns+` FROM fabric WHERE id = ? AND present = 1`, []any{id[:]}, scanFabric)
}

func allFabrics(ctx context.Context, q queryer) ([]stash.Fabric, error) {
	return all(ctx, q, `SELECT `+fabricColumns+` FROM fabric WHERE present = 1`, nil, scanFabric)
}

func saveFabric(ctx context.Context, t *tx, f stash.Fabric) error {
	if err := f.Validate(); err != nil {
		return err
	}
	fibres, err := jsonOrNull(f.Fibres)
	if err != nil {
		return err
	}
	stitches, err := jsonOrNull(f.Stitches)
	if err != nil {
		return err
	}
	tags, err := jsonOrNull(f.Tags)
	if err != nil {
		return err
	}
	bench, err := jsonOrNull(f.Bench)
	if err != nil {
		return err
	}
	strips, err := jsonOrNull(f.Strips)
	if err != nil {
		return err
	}
	l, c := f.Lengthwise, f.Crosswise
	return t.upsert(ctx, "fabric", fabricColumns, f.ID[:], f.Name, string(f.Construction), fibres, int64(f.Weight), int64(f.FullWidth), f.Tubular, int64(f.SelvedgeLoss), int64(f.Buy), f.BuyFor,
		percent(l.Stretch), percent(l.Growth), percent(l.Recovery), percent(l.Narrowing), percent(l.Shrinkage),
		percent(c.Stretch), percent(c.Growth), percent(c.Recovery), percent(c.Narrowing), percent(c.Shrinkage),
		int64(f.Direction), int64(f.RepeatAlong), int64(f.RepeatAcross), f.SameBothFace, int64(f.Thickness),
		f.Colour, f.ColourName, f.Care, f.Supplier, f.Notes, stitches, tags, bench, strips)
}
