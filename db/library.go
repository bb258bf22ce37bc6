package db

import (
	"context"
	"database/sql"
	"errors"
	"fmt"
	"strings"
	"sync"
	"time"

	"tallycloth/planner"
	"tallycloth/stash"
)

// Library is an open library. It is a planner.Store; Stash gives the same library
// as a stash.Store. It may be used from any goroutine; acts are written one after
// the other. A function given to Write must use its Tx alone: asking the Library
// from inside does not see the act, and writing from inside waits for itself. It must
// use it from one goroutine at a time.
type Library struct {
	reader
	folder   string
	writer   *sql.DB // one connection; nil when read-only
	lock     *fileLock
	now      func() time.Time
	newID    func() stash.ID
	readOnly string
	place    place  // of its file
	watch    *watch // nil for a library that was looked through before it opened

	writing   sync.Mutex
	listening sync.Mutex
	listeners map[int]func(stash.Act)
	nextID    int
}

var _ planner.Store = (*Library)(nil)

// Folder returns the library's folder.
func (l *Library) Folder() string { return l.folder }

// ReadOnly says why the library cannot be written, or "".
func (l *Library) ReadOnly() string {
	if l.readOnly == "" && l.watch.damage() != nil {
		return "it is damaged"
	}
	return l.readOnly
}

// Close lets go of the library. It may be called once.
func (l *Library) Close() error {
	l.watch.end()
	err := l.pool.Close()
	if l.writer != nil {
		err = errors.Join(err, l.writer.Close())
	}
	if err = errors.Join(err, l.lock.release()); err != nil {
		return fmt.Errorf("closing the library: %w", err)
	}
	return nil
}

// Write runs f as one act. An act that changes nothing is not kept; Write then
// returns the zero Act.
func (l *Library) Write(ctx context.Context, sentence string, f func(planner.Tx) error) (stash.Act, error) {
	if strings.TrimSpace(sentence) == "" {
		return stash.Act{}, &stash.Error{Kind: stash.Invalid, What: "An act needs a sentence that says what was done"}
	}
	return l.commit(ctx, kindAct, func(context.Context, queryer) (string, stash.ID, error) {
		return sentence, stash.NoID, nil
	}, func(_ context.Context, t *tx) error { return f(t) })
}

// Undo takes back the last act that stands.
func (l *Library) Undo(ctx context.Context) (stash.Act, error) {
	return l.undo(ctx, func(ctx context.Context, q queryer) ([]stash.Act, error) { return lastAct(ctx, q) })
}

// UndoAct takes back one act, which need not be the last. It refuses, naming the
// later act, when one built on it; ErrNothing when it does not stand.
func (l *Library) UndoAct(ctx context.Context, id stash.ID) (stash.Act, error) {
	return l.undo(ctx, func(ctx context.Context, q queryer) ([]stash.Act, error) {
		return all(ctx, q, selectAct+` WHERE kind = 'act' AND undone = 0 AND id = ?`, []any{id[:]}, scanAct)
	})
}

func (l *Library) undo(ctx context.Context, find func(context.Context, queryer) ([]stash.Act, error)) (stash.Act, error) {
	var target stash.Act
	return l.commit(ctx, kindUndo, func(ctx context.Context, q queryer) (string, stash.ID, error) {
		found, err := find(ctx, q)
		if err == nil && len(found) == 0 {
			err = stash.ErrNothing
		}
		if err != nil {
			return "", stash.NoID, err
		}
		target = found[0]
		return stash.UndoSentence(target.Sentence), target.ID, nil
	}, func(ctx context.Context, t *tx) error {
		stands, err := standing(ctx, t.sql, target)
		if err != nil {
			return err
		}
		if err := t.reverse(ctx, stands, target.Sentence); err != nil {
			return err
		}
		return t.exec(ctx, `UPDATE act SET undone = 1 WHERE id = ?`, target.ID[:])
	})
}

// Redo does again what the last Undo took back, as long as nothing was written since.
func (l *Library) Redo(ctx context.Context) (stash.Act, error) {
	var undo stash.Act
	return l.commit(ctx, kindRedo, func(ctx context.Context, q queryer) (string, stash.ID, error) {
		found, err := lastUndo(ctx, q)
		if err == nil && len(found) == 0 {
			err = stash.ErrNothing
		}
		if err != nil {
			return "", stash.NoID, err
		}
		undo = found[0]
		first, err := one(ctx, q, "act", selectAct+` WHERE id = ?`, []any{undo.Undoes[:]}, scanAct)
		return stash.RedoSentence(first.Sentence), undo.ID, err
	}, func(ctx context.Context, t *tx) error {
		if err := t.reverse(ctx, undo, undo.Sentence); err != nil {
			return err
		}
		if err := t.exec(ctx, `UPDATE act SET undone = 1 WHERE id = ?`, undo.ID[:]); err != nil {
			return err
		}
		return t.exec(ctx, `UPDATE act SET undone = 0 WHERE id = ?`, undo.Undoes[:])
	})
}

// commit writes one act: begin decides its sentence and what it undoes, f does it,
// the checks pass, and all of it is saved; or nothing is.
func (l *Library) commit(ctx context.Context, kind string, begin func(context.Context, queryer) (string, stash.ID, error), f func(context.Context, *tx) error) (stash.Act, error) {
	if l.readOnly != "" {
		return stash.Act{}, &stash.Error{Kind: stash.Conflict, What: "The library is open read-only: " + l.readOnly, Do: "Open it again for writing"}
	}
	if damage := l.watch.damage(); damage != nil {
		return stash.Act{}, damage
	}
	act, err := l.commitLocked(ctx, kind, begin, f)
	if err != nil {
		return stash.Act{}, err
	}
	if act.ID != stash.NoID {
		l.tell(act)
	}
	return act, nil
}

func (l *Library) commitLocked(ctx context.Context, kind string, begin func(context.Context, queryer) (string, stash.ID, error), f func(context.Context, *tx) error) (stash.Act, error) {
	l.writing.Lock()
	defer l.writing.Unlock()
	if err := l.place.still(); err != nil {
		return stash.Act{}, err
	}
	stx, err := l.writer.BeginTx(ctx, nil)
	if err != nil {
		return stash.Act{}, fmt.Errorf("beginning an act: %w", explain(err))
	}
	defer stx.Rollback() // does nothing once the act is committed
	sentence, undoes, err := begin(ctx, stx)
	if err != nil {
		return stash.Act{}, err
	}
	t, err := l.newTx(ctx, stx, kind, sentence, undoes)
	if err != nil {
		return stash.Act{}, err
	}
	if err := f(ctx, t); err != nil {
		return stash.Act{}, fmt.Errorf("%s: %w", sentence, err)
	}
	if t.changed == 0 && kind == kindAct {
		return stash.Act{}, nil
	}
	if err := t.check(ctx); err != nil {
		return stash.Act{}, fmt.Errorf("%s: %w", sentence, err)
	}
	if err := l.place.still(); err != nil {
		return stash.Act{}, err
	}
	if err := stx.Commit(); err != nil {
		return stash.Act{}, fmt.Errorf("saving %q: %w", sentence, explain(err))
	}
	return t.act, nil
}

// newTx writes the act's own row.
func (l *Library) newTx(ctx context.Context, stx *sql.Tx, kind, sentence string, undoes stash.ID) (*tx, error) {
	run := &statements{tx: stx, ready: map[string]*sql.Stmt{}}
	t := &tx{
		reader: reader{act: run}, sql: run, newID: l.newID,
		act:    stash.Act{ID: l.newID(), At: stash.Stamp(l.now()), Sentence: sentence, Undoes: undoes},
		cloths: map[stash.ID]bool{}, wasLive: map[stash.ID]bool{}, puts: map[key]bool{}, newest: map[string]stash.ID{},
	}
	res, err := stx.ExecContext(ctx, `INSERT INTO act (id, at, sentence, kind, undoes) VALUES (?, ?, ?, ?, ?)`,
		t.act.ID[:], t.act.At.UnixMicro(), sentence, kind, blob(undoes))
	if err == nil {
		t.act.Seq, err = res.LastInsertId()
	}
	if err != nil {
		return nil, fmt.Errorf("beginning an act: %w", explain(err))
	}
	return t, nil
}

// OnChange calls f after every committed act.
func (l *Library) OnChange(f func(stash.Act)) (stop func()) {
	l.listening.Lock()
	defer l.listening.Unlock()
	id := l.nextID
	l.nextID++
	l.listeners[id] = f
	return func() {
		l.listening.Lock()
		defer l.listening.Unlock()
		delete(l.listeners, id)
	}
}

// tell calls the listeners outside every lock, so that they may ask and write.
func (l *Library) tell(act stash.Act) {
	l.listening.Lock()
	fs := make([]func(stash.Act), 0, len(l.listeners))
	for _, f := range l.listeners {
		fs = append(fs, f)
	}
	l.listening.Unlock()
	for _, f := range fs {
		f(act)
	}
}

// Stash returns the library as the stash alone.
func (l *Library) Stash() stash.Store { return stashView{l} }

// stashView is a Library whose acts see the stash alone.
type stashView struct{ *Library }

// Write runs f as one act.
func (v stashView) Write(ctx context.Context, sentence string, f func(stash.Tx) error) (stash.Act, error) {
	return v.Library.Write(ctx, sentence, func(t planner.Tx) error { return f(t) })
}
