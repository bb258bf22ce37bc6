package planner

import (
	"context"
	"fmt"
	"slices"
	"strings"

	"tallycloth/stash"
)

// Became is what became of a cloth that is no longer on the shelf under its code.
type Became struct {
	Cloth stash.Cloth
	How   stash.MovementKind // cut, given away or discarded; "" where no line says it
	On    stash.Date
	Left  []stash.Cloth // what is left of it on the shelf, however often it was cut since
}

// WhatBecame looks for a cloth that is gone by its code, capitals aside: its label may still hang on
// what was left of it. found is false where no cloth that is gone has that code.
func (s *Studio) WhatBecame(ctx context.Context, code string) (b Became, found bool, err error) {
	every, err := s.EveryCloth(ctx)
	if err != nil {
		return b, false, fmt.Errorf("looking for what became of %s: %w", code, err)
	}
	code = strings.TrimSpace(code)
	at := slices.IndexFunc(every, func(c stash.Cloth) bool { return c.Gone && strings.EqualFold(c.Code, code) })
	if at < 0 {
		return b, false, nil
	}
	b.Cloth, b.Left = every[at], leftOf(every, every[at].ID)
	lines, err := s.Movements(ctx, b.Cloth.ID)
	if err != nil {
		return b, false, fmt.Errorf("reading what became of %s: %w", code, err)
	}
	for _, m := range lines {
		switch m.Kind {
		case stash.Cut, stash.GivenAway, stash.Discarded:
			if b.How != stash.Cut || m.Kind == stash.Cut { // the waste of cutting is discarded with it
				b.How, b.On = m.Kind, stash.On(m.At)
			}
		}
	}
	return b, true, nil
}

// leftOf is what is on the shelf of what was cut from a cloth, by code.
func leftOf(every []stash.Cloth, from stash.ID) []stash.Cloth {
	var out []stash.Cloth
	for _, c := range every {
		switch {
		case c.CutFrom != from:
		case c.Gone:
			out = append(out, leftOf(every, c.ID)...)
		default:
			out = append(out, c)
		}
	}
	slices.SortFunc(out, func(a, b stash.Cloth) int { return strings.Compare(a.Code, b.Code) })
	return out
}

// Words says it in a sentence: "4M6K was cut on 27 Nov 2026; what is left of it is 2YVK".
func (b Became) Words() string {
	text := b.Cloth.Code + " is no longer on the shelf"
	if b.How != "" {
		text = b.Cloth.Code + " was " + string(b.How) + " on " + Midnight(b.On, nil).Format("2 Jan 2006")
	}
	var codes []string
	for _, c := range b.Left {
		codes = append(codes, c.Code)
	}
	switch n := len(codes); n {
	case 0:
		return text + "; nothing of it is left"
	case 1:
		return text + "; what is left of it is " + codes[0]
	default:
		return text + "; what is left of it are " + strings.Join(codes[:n-1], ", ") + " and " + codes[n-1]
	}
}
