package db

import (
	"context"
	"database/sql"
	"fmt"
)

// statements runs the statements of one act. Each is made ready once, which is most of
// the work of a short one: an act may hold a hundred thousand rows of a list.
type statements struct {
	tx    *sql.Tx
	ready map[string]*sql.Stmt // closed when the transaction ends
}

var _ queryer = (*statements)(nil)

func (s *statements) prepared(ctx context.Context, query string) (*sql.Stmt, error) {
	if known := s.ready[query]; known != nil {
		return known, nil
	}
	made, err := s.tx.PrepareContext(ctx, query)
	if err != nil {
		return nil, fmt.Errorf("making a statement ready: %w", err)
	}
	s.ready[query] = made
	return made, nil
}

// ExecContext runs a statement. It is short: between two of them is when an act is
// stopped, so that none needs somebody to wait beside it.
func (s *statements) ExecContext(ctx context.Context, query string, args ...any) (sql.Result, error) {
	ready, err := s.prepared(ctx, query)
	if err == nil {
		err = ctx.Err()
	}
	if err != nil {
		return nil, err
	}
	return ready.ExecContext(context.WithoutCancel(ctx), args...)
}

// QueryContext asks for rows.
func (s *statements) QueryContext(ctx context.Context, query string, args ...any) (*sql.Rows, error) {
	ready, err := s.prepared(ctx, query)
	if err != nil {
		return nil, err
	}
	return ready.QueryContext(ctx, args...)
}

// QueryRowContext asks for one row.
func (s *statements) QueryRowContext(ctx context.Context, query string, args ...any) *sql.Row {
	ready, err := s.prepared(ctx, query)
	if err != nil {
		return s.tx.QueryRowContext(ctx, query, args...) // which says the same when it is read
	}
	return ready.QueryRowContext(ctx, args...)
}
