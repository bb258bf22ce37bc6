package db

import (
	"context"
	"database/sql"
	"fmt"
	"slices"
	"strings"
	"time"

	"tallycloth/planner"
	"tallycloth/stash"
)

var _ planner.PastReader = reader{}

// condition is a condition on lines of history, "m", with its arguments.
type condition struct {
	sql  []string
	args []any
}

func (c *condition) and(text string, args ...any) {
	c.sql = append(c.sql, text)
	c.args = append(c.args, args...)
}

// where is the condition as a clause.
func (c *condition) where() string {
	if len(c.sql) == 0 {
		return ""
	}
	return " WHERE " + strings.Join(c.sql, " AND ")
}

// about asks for lines whenever they were noted. What other tables know is looked up once
// for a question, not for each line.
func about(p planner.Past) *condition {
	c := &condition{}
	if p.FabricID != stash.NoID {
		c.and(`m.cloth_id IN (SELECT id FROM cloth WHERE fabric_id = ?)`, p.FabricID[:])
	}
	if p.GarmentID != stash.NoID {
		c.and(`m.garment_id = ?`, p.GarmentID[:])
	}
	if p.Code != "" {
		c.and(`m.cloth_id IN (SELECT id FROM cloth WHERE code = ? COLLATE NOCASE)`, p.Code)
	}
	if len(p.Kinds) > 0 {
		var kinds []any
		for _, k := range p.Kinds {
			kinds = append(kinds, string(k))
		}
		c.and(`m.kind IN (?`+strings.Repeat(", ?", len(kinds)-1)+`)`, kinds...)
	}
	for _, w := range p.Words {
		like := `%` + strings.NewReplacer(`\`, `\\`, `%`, `\%`, `_`, `\_`).Replace(w) + `%`
		c.and(`(m.note LIKE ? ESCAPE '\' OR m.kind LIKE ? ESCAPE '\'
			OR m.cloth_id IN (SELECT c.id FROM cloth c JOIN fabric f ON f.id = c.fabric_id WHERE c.code LIKE ? ESCAPE '\' OR f.name LIKE ? ESCAPE '\')
			OR m.garment_id IN (SELECT id FROM garment WHERE name LIKE ? ESCAPE '\'))`, like, like, like, like, like)
	}
	return c
}

// within asks for lines noted in the period as well.
func within(p planner.Past) *condition {
	c := about(p)
	from, until := p.Bounds()
	if !from.IsZero() {
		c.and(`m.at >= ?`, from.UnixMicro())
	}
	if !until.IsZero() {
		c.and(`m.at < ?`, until.UnixMicro())
	}
	return c
}

// Past returns lines of history, the last written first.
func (r reader) Past(ctx context.Context, p planner.Past, before int64, limit int) ([]planner.PastLine, error) {
	c := within(p)
	if before > 0 {
		c.and(`m.seq < ?`, before)
	}
	query := `SELECT ` + movementColumns + `, fabric_id, fabric, full_width, code, garment, sentence, undone, bought FROM (
		SELECT m.*, c.fabric_id, f.name AS fabric, f.full_width, c.code, coalesce(g.name, '') AS garment, a.sentence,
			m.kind <> 'reversed' AND a.undone AS undone, coalesce(p.date, '') AS bought
		FROM (SELECT * FROM movement m` + c.where() + ` ORDER BY m.seq DESC LIMIT ?) m
		JOIN cloth c ON c.id = m.cloth_id
		JOIN fabric f ON f.id = c.fabric_id
		JOIN act a ON a.id = m.act_id
		LEFT JOIN garment g ON g.id = m.garment_id
		LEFT JOIN purchase p ON p.id = c.purchase_id AND m.kind = 'bought')
		ORDER BY seq DESC`
	return read(ctx, r, "reading the history", func(q queryer) ([]planner.PastLine, error) {
		return all(ctx, q, query, append(c.args, max(limit, 0)), scanPastLine)
	})
}

func scanPastLine(rows *sql.Rows) (l planner.PastLine, err error) {
	var at int64
	m := &l.Movement
	err = rows.Scan(&m.ID, &m.ActID, &m.Seq, &at, &m.Kind, &m.ClothID, &m.Area, &m.Length, &m.GarmentID, &m.ReservationID, &m.Reverses, &m.Note,
		&l.FabricID, &l.Fabric, &l.FullWidth, &l.Code, &l.Garment, &l.Sentence, &l.TakenBack, &l.BoughtOn)
	m.At = time.UnixMicro(at).UTC()
	return l, err
}

// PastCount counts lines of history.
func (r reader) PastCount(ctx context.Context, p planner.Past) (int, error) {
	c := within(p)
	return read(ctx, r, "counting the history", func(q queryer) (n int, err error) {
		return n, q.QueryRowContext(ctx, `SELECT count(*) FROM movement m`+c.where(), c.args...).Scan(&n)
	})
}

// PastExtent returns over which days lines of history lie.
func (r reader) PastExtent(ctx context.Context, p planner.Past) (planner.Extent, error) {
	c := within(p)
	days := *c
	days.sql = append(slices.Clone(c.sql), `m.kind = 'bought'`)
	return read(ctx, r, "looking how far the history goes", func(q queryer) (e planner.Extent, err error) {
		var first, last sql.NullInt64
		row := q.QueryRowContext(ctx, `SELECT min(m.at), max(m.at) FROM movement m`+c.where(), c.args...)
		if err := row.Scan(&first, &last); err != nil || !first.Valid {
			return e, err
		}
		day := func(at int64) stash.Date {
			return planner.PastLine{Movement: stash.Movement{At: time.UnixMicro(at)}}.Day(p.Zone)
		}
		e.First, e.Last = day(first.Int64), day(last.Int64)
		var from, to sql.NullString
		row = q.QueryRowContext(ctx, `SELECT min(p.date), max(p.date) FROM movement m JOIN cloth c ON c.id = m.cloth_id JOIN purchase p ON p.id = c.purchase_id`+days.where(), days.args...)
		if err := row.Scan(&from, &to); err != nil {
			return e, err
		}
		if from.Valid {
			e.First, e.Last = min(e.First, stash.Date(from.String)), max(e.Last, stash.Date(to.String))
		}
		return e, nil
	})
}

// Flows adds up what lines that stand changed cloth by. Lines of an act that is undone do not
// stand, and those that took others back are of kind reversed.
func (r reader) Flows(ctx context.Context, p planner.Past, starts []stash.Date) ([]planner.Flow, error) {
	c := about(p)
	c.and(`m.area <> 0`)
	c.and(`m.kind <> 'reversed'`)
	c.and(`m.act_id NOT IN (SELECT id FROM act WHERE undone = 1)`)
	moments, days := make([]string, len(starts)), make([]string, len(starts))
	for i, d := range starts {
		if d == "" || !d.Valid() {
			return nil, fmt.Errorf("adding up the history: %q is not a day", d)
		}
		moments[i], days[i] = fmt.Sprint(planner.Midnight(d, p.Zone).UnixMicro()), "'"+string(d)+"'"
	}
	span := `CASE WHEN m.kind = 'bought' AND c.date IS NOT NULL THEN ` + spanOf("c.date", days, 0, len(days)) + ` ELSE ` + spanOf("m.at", moments, 0, len(moments)) + ` END`
	// What lines ask of their cloth is put together once: there are far more lines than cloth.
	query := `WITH c AS MATERIALIZED (SELECT c.id, f.full_width, p.date FROM cloth c
			JOIN fabric f ON f.id = c.fabric_id LEFT JOIN purchase p ON p.id = c.purchase_id)
		SELECT ` + span + ` AS span, m.kind, m.area > 0 AS came, c.full_width, sum(m.area)
		FROM movement m JOIN c ON c.id = m.cloth_id` + c.where() + `
		GROUP BY span, m.kind, came, c.full_width ORDER BY span, m.kind, came, c.full_width`
	return read(ctx, r, "adding up the history", func(q queryer) ([]planner.Flow, error) {
		return all(ctx, q, query, c.args, func(rows *sql.Rows) (f planner.Flow, err error) {
			return f, rows.Scan(&f.Span, &f.Kind, &f.Came, &f.FullWidth, &f.Area)
		})
	})
}

// spanOf is an expression for the index of the last of ordered starts, of which those from
// lo to hi are looked at, that a value is not less than; −1 before the first. A tree, so that a line takes
// few comparisons however many starts there are.
func spanOf(value string, starts []string, lo, hi int) string {
	if lo == hi {
		return fmt.Sprint(lo - 1)
	}
	mid := (lo + hi) / 2
	return `CASE WHEN ` + value + ` < ` + starts[mid] + ` THEN ` + spanOf(value, starts, lo, mid) + ` ELSE ` + spanOf(value, starts, mid+1, hi) + ` END`
}

// CutParts returns what stands of all cutting.
func (r reader) CutParts(ctx context.Context) ([]planner.CutPart, error) {
	const query = `SELECT m.act_id, m.cloth_id, m.garment_id, m.kind = 'discarded' AS waste, -sum(m.area)
		FROM movement m
		WHERE m.act_id IN (SELECT act_id FROM movement WHERE kind = 'cut') AND m.kind IN ('cut', 'discarded') AND m.area <> 0
			AND m.act_id NOT IN (SELECT id FROM act WHERE undone = 1)
		GROUP BY m.act_id, m.cloth_id, waste, m.garment_id ORDER BY m.act_id, m.cloth_id, waste, m.garment_id`
	return read(ctx, r, "reading what was cut", func(q queryer) ([]planner.CutPart, error) {
		return all(ctx, q, query, nil, func(rows *sql.Rows) (c planner.CutPart, err error) {
			return c, rows.Scan(&c.ActID, &c.ClothID, &c.GarmentID, &c.Waste, &c.Area)
		})
	})
}

// ReservedParts returns what is reserved and not cut yet.
func (r reader) ReservedParts(ctx context.Context) ([]planner.CutPart, error) {
	const query = `SELECT cloth_id, garment_id, sum(area) FROM reservation WHERE live = 1 AND present = 1
		GROUP BY cloth_id, garment_id ORDER BY cloth_id, garment_id`
	return read(ctx, r, "reading what is reserved", func(q queryer) ([]planner.CutPart, error) {
		return all(ctx, q, query, nil, func(rows *sql.Rows) (c planner.CutPart, err error) {
			return c, rows.Scan(&c.ClothID, &c.GarmentID, &c.Area)
		})
	})
}

// EveryCloth returns all cloth, gone or not, by ID.
func (r reader) EveryCloth(ctx context.Context) ([]stash.Cloth, error) {
	return read(ctx, r, "reading all cloth", func(q queryer) ([]stash.Cloth, error) {
		rows, err := all(ctx, q, selectCloth+` ORDER BY id`, nil, scanCloth)
		out := slices.Grow([]stash.Cloth(nil), len(rows)) // nil when there is none
		for _, row := range rows {
			out = append(out, row.Cloth)
		}
		return out, err
	})
}
