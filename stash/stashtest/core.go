package stashtest

import (
	"encoding/json"
	"fmt"
	"maps"
	"slices"
	"strings"
	"sync"
	"time"

	"tallycloth/stash"
)

// Ref names a record by its kind ("fabric") and ID.
type Ref struct {
	Kind string
	ID   stash.ID
}

// Kind is a kind of record a Core keeps.
type Kind struct {
	Name string
	// Refs lists the records that a record of this kind names, NoID included. Those
	// of kinds that the Core does not keep are not looked at.
	Refs func(doc []byte) []Ref
}

// Core keeps records as documents, lines of history and acts, in memory. Documents
// are copied in and out, so nothing given or returned is shared.
type Core struct {
	mu        sync.Mutex // guards state and listeners
	writing   sync.Mutex // one act at a time
	state     *state
	kinds     map[string]Kind
	now       func() time.Time
	newID     func() stash.ID
	listeners map[int]func(stash.Act)
	next      int
}

// state is all a Core knows at one moment. A committed state is never written to.
type state struct {
	records map[Ref][]byte
	// pictures are kept for good, whatever is undone.
	pictures map[string]stash.Picture
	lines    []stash.Movement
	acts     []act
}

// act is an act with what it changed.
type act struct {
	stash.Act
	kind    actKind
	changes []change
}

type actKind int

const (
	done actKind = iota
	undo
	redo
)

// change is a record before and after; nil is not there.
type change struct {
	Ref
	before, after []byte
}

// NewCore returns an empty Core with the stash's kinds of record and more.
func NewCore(now func() time.Time, newID func() stash.ID, more ...Kind) *Core {
	c := &Core{state: &state{records: map[Ref][]byte{}, pictures: map[string]stash.Picture{}}, kinds: map[string]Kind{}, now: now, newID: newID, listeners: map[int]func(stash.Act){}}
	for _, k := range append(stashKinds(), more...) {
		c.kinds[k.Name] = k
	}
	return c
}

// View returns the last committed state, as the stash's Reader.
func (c *Core) View() View {
	c.mu.Lock()
	defer c.mu.Unlock()
	return View{c.state}
}

// Write runs f as one act.
func (c *Core) Write(sentence string, f func(*Tx) error) (stash.Act, error) {
	if strings.TrimSpace(sentence) == "" {
		return stash.Act{}, &stash.Error{Kind: stash.Invalid, What: "An act needs a sentence that says what was done"}
	}
	return c.commit(func(*state) (act, error) {
		return act{Act: stash.Act{Sentence: sentence}}, nil
	}, f)
}

// Undo takes back the last act that stands.
func (c *Core) Undo() (stash.Act, error) {
	return c.undo(func(a act) bool { return true })
}

// UndoAct takes back one act, which need not be the last.
func (c *Core) UndoAct(id stash.ID) (stash.Act, error) {
	return c.undo(func(a act) bool { return a.ID == id })
}

func (c *Core) undo(wanted func(act) bool) (stash.Act, error) {
	var target int
	return c.commit(func(s *state) (act, error) {
		for i, a := range slices.Backward(s.acts) {
			if a.kind == done && !a.Undone && wanted(a) {
				target = i
				return act{Act: stash.Act{Sentence: stash.UndoSentence(a.Sentence), Undoes: a.ID}, kind: undo}, nil
			}
		}
		return act{}, stash.ErrNothing
	}, func(t *Tx) error {
		a := t.s.acts[target]
		t.s.acts[target].Undone = true
		return t.reverse(t.s.standing(a), a.Sentence)
	})
}

// Redo does again what the last Undo took back.
func (c *Core) Redo() (stash.Act, error) {
	var target int
	return c.commit(func(s *state) (act, error) {
		for i, a := range slices.Backward(s.acts) {
			if a.kind == done {
				break
			}
			if a.kind == undo && !a.Undone {
				target = i
				first := s.acts[s.indexOf(a.Undoes)]
				return act{Act: stash.Act{Sentence: stash.RedoSentence(first.Sentence), Undoes: a.ID}, kind: redo}, nil
			}
		}
		return act{}, stash.ErrNothing
	}, func(t *Tx) error {
		u := t.s.acts[target]
		t.s.acts[target].Undone = true
		t.s.acts[t.s.indexOf(u.Undoes)].Undone = false
		return t.reverse(u, u.Sentence)
	})
}

// commit runs f on a copy of the state and makes the copy the state if all is well.
func (c *Core) commit(begin func(*state) (act, error), f func(*Tx) error) (stash.Act, error) {
	done, err := c.commitLocked(begin, f)
	if err != nil || done.ID == stash.NoID {
		return stash.Act{}, err
	}
	c.mu.Lock()
	fs := slices.Collect(maps.Values(c.listeners))
	c.mu.Unlock()
	for _, f := range fs {
		f(done)
	}
	return done, nil
}

func (c *Core) commitLocked(begin func(*state) (act, error), f func(*Tx) error) (stash.Act, error) {
	c.writing.Lock()
	defer c.writing.Unlock()
	s := c.View().s.clone()
	a, err := begin(s)
	if err != nil {
		return stash.Act{}, err
	}
	a.ID, a.At, a.Seq = c.newID(), stash.Stamp(c.now()), int64(len(s.acts)+1)
	t := &Tx{View: View{s}, core: c, act: a, touched: map[Ref]bool{}}
	if err := f(t); err != nil {
		return stash.Act{}, fmt.Errorf("%s: %w", a.Sentence, err)
	}
	if len(t.act.changes) == 0 && len(t.lines) == 0 && a.kind == done {
		return stash.Act{}, nil
	}
	if err := t.check(); err != nil {
		return stash.Act{}, fmt.Errorf("%s: %w", a.Sentence, err)
	}
	s.acts = append(s.acts, t.act)
	c.mu.Lock()
	defer c.mu.Unlock()
	c.state = s
	return a.Act, nil
}

// OnChange calls f after every committed act.
func (c *Core) OnChange(f func(stash.Act)) (stop func()) {
	c.mu.Lock()
	defer c.mu.Unlock()
	id := c.next
	c.next++
	c.listeners[id] = f
	return func() {
		c.mu.Lock()
		defer c.mu.Unlock()
		delete(c.listeners, id)
	}
}

func (s *state) clone() *state {
	return &state{records: maps.Clone(s.records), pictures: maps.Clone(s.pictures), lines: slices.Clone(s.lines), acts: slices.Clone(s.acts)}
}

func (s *state) indexOf(id stash.ID) int {
	return slices.IndexFunc(s.acts, func(a act) bool { return a.ID == id })
}

// standing returns the act whose lines and changes stand for a: a itself, or the
// last redo that brought it back.
func (s *state) standing(a act) act {
	for _, r := range slices.Backward(s.acts) {
		if r.kind == redo && s.acts[s.indexOf(r.Undoes)].Undoes == a.ID {
			return r
		}
	}
	return a
}

// encode returns a record as a document.
func encode(v any) ([]byte, error) {
	b, err := json.Marshal(v)
	if err != nil {
		return nil, fmt.Errorf("keeping a record: %w", err)
	}
	return b, nil
}

// decode reads a document that encode wrote.
func decode[T any](doc []byte) (v T, err error) {
	if err := json.Unmarshal(doc, &v); err != nil {
		return v, fmt.Errorf("reading a record: %w", err)
	}
	return v, nil
}

func notFound(kind string) error {
	return &stash.Error{Kind: stash.NotFound, What: "There is no such " + kind + " in the library"}
}
