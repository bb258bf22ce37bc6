package planner

import (
	"context"
	"fmt"

	"tallycloth/planner/garment"
	"tallycloth/stash"
	"tallycloth/stash/measure"
)

// act runs f as one act. Nothing is kept when f fails.
func (s *Studio) act(ctx context.Context, sentence string, f func(Tx) error) error {
	if _, err := s.Write(ctx, sentence, f); err != nil {
		return err
	}
	return nil
}

// refused is an error of kind Conflict with what to do about it.
func refused(do, what string, args ...any) error {
	return &stash.Error{Kind: stash.Conflict, What: fmt.Sprintf(what, args...), Do: do}
}

// invalid is an error of kind Invalid with what to do about it.
func invalid(do, what string, args ...any) error {
	return &stash.Error{Kind: stash.Invalid, What: fmt.Sprintf(what, args...), Do: do}
}

// long writes a length of fabric in the units of the library.
func (s *Studio) long(ctx context.Context, l measure.Length) string {
	return s.style(ctx, measure.FabricLength).Format(l)
}

func (s *Studio) style(ctx context.Context, k measure.Kind) measure.Style {
	set, err := s.Settings(ctx)
	if err != nil {
		set = DefaultSettings()
	}
	return measure.Style{System: set.Units, Kind: k}
}

// today is the day of the clock.
func (s *Studio) today() stash.Date { return stash.On(s.now()) }

// Today is the day of the clock.
func (s *Studio) Today() stash.Date { return s.today() }

// changed stamps a garment with its state and the day.
func (s *Studio) changed(g garment.Garment, to garment.State) garment.Garment {
	return g.Became(to, s.today())
}
