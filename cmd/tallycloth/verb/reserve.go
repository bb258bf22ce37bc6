package verb

import (
	"context"
	"fmt"
	"io"

	"tallycloth/planner"
	"tallycloth/planner/garment"
	"tallycloth/stash"
	"tallycloth/ui/say"

	"github.com/spf13/cobra"
)

// reservedFields is what was reserved, in JSON.
type reservedFields struct {
	Garment string        `json:"garment"`
	State   string        `json:"state"`
	Code    string        `json:"code"`
	UsedFor string        `json:"used_for"`
	Pieces  int           `json:"pieces"`
	Finding findingFields `json:"finding"`
}

// reserve is the verb that keeps cloth for a garment.
func (s *session) reserve() *cobra.Command {
	var q question
	var name, person string
	cmd := &cobra.Command{
		Use:   "reserve CODE",
		Short: "Keep cloth for a garment",
		Long: `Lays the pattern pieces on one cloth, checks the layout, and reserves the cloth under
them for a garment. Cloth that is not enough is not reserved (exit code 3). A garment of
the name given is taken if there is one, or else it is new.

With --json an object: garment, state, code, used_for, pieces (how many outlines are
reserved), finding (as check gives it).`,
		Example: "  tallycloth reserve A17 --pattern \"Fennel tank\" --size 4 --garment \"Tank for June\"",
		Args:    exactly("the code of a cloth"),
		RunE: func(cmd *cobra.Command, args []string) error {
			return s.changing(cmd, func(ctx context.Context, l *library) error {
				search, p, err := q.search(ctx, l)
				if err != nil {
					return err
				}
				if name == "" {
					name = p.Name + ", size " + search.Size
				}
				return s.reserveCloth(ctx, l, args[0], search, name, person)
			})
		},
	}
	q.flags(cmd)
	cmd.Flags().StringVar(&name, "garment", "", "the garment's name (default: pattern and size)")
	cmd.Flags().StringVar(&person, "wearer", "", "who it is for, when it is new")
	return cmd
}

func (s *session) reserveCloth(ctx context.Context, l *library, code string, search planner.Search, name, person string) error {
	c, err := l.pickCloth(ctx, code)
	if err != nil {
		return err
	}
	if search.For, err = l.garmentNamed(ctx, search, name); err != nil {
		return err
	}
	f, err := l.CheckCloth(ctx, c.Cloth.ID, search)
	if err != nil {
		return err
	}
	if !serves(f.Verdict.Grade) {
		return s.no(reservedFields{Code: c.Cloth.Code, UsedFor: search.Role, Finding: l.fieldsOfFinding(f)}, l, f)
	}
	g, err := l.garmentFor(ctx, search, name, person)
	if err != nil {
		return err
	}
	made, err := l.Reserve(ctx, g.ID, f, search.Role)
	if err != nil {
		return err
	}
	if g, err = l.Garment(ctx, g.ID); err != nil {
		return err
	}
	out := reservedFields{Garment: g.Name, State: string(g.State), Code: c.Cloth.Code, UsedFor: search.Role, Pieces: pieces(made), Finding: l.fieldsOfFinding(f)}
	return s.answer(out, func(w io.Writer) {
		fmt.Fprintln(w, l.line(f))
		fmt.Fprintf(w, "%s: %s reserved on %s.\n", g.Name, say.Count(out.Pieces, "pattern piece", "pattern pieces"), out.Code)
	})
}

// garmentNamed is the garment of a name that is there already in that pattern and size, or NoID:
// its adjustments count.
func (l *library) garmentNamed(ctx context.Context, search planner.Search, name string) (stash.ID, error) {
	all, err := l.Garments(ctx)
	for _, g := range all {
		if g.Name == name && g.PatternID == search.PatternID && g.Size == search.Size {
			return g.ID, nil
		}
	}
	return stash.NoID, err
}

// garmentFor returns the garment of a name if it is of the pattern and size meant, or
// makes a new one.
func (l *library) garmentFor(ctx context.Context, search planner.Search, name, person string) (garment.Garment, error) {
	all, err := l.Garments(ctx)
	if err != nil {
		return garment.Garment{}, err
	}
	for _, g := range all {
		if g.Name != name {
			continue
		}
		if g.PatternID != search.PatternID || g.Size != search.Size {
			return g, mistyped(fmt.Sprintf("%s is another pattern or size", name), "Give the new garment another name with --garment")
		}
		return g, nil
	}
	return l.NewGarment(ctx, search.PatternID, search.Size, name, person)
}

// release is the verb that gives reserved cloth back.
func (s *session) release() *cobra.Command {
	return &cobra.Command{
		Use:   "release GARMENT",
		Short: "Give back all cloth reserved for a garment",
		Long: `Gives back all cloth that is reserved for a garment; it is free again. The garment stays.

With --json an object: garment, state, released (how many reservations).`,
		Example: "  tallycloth release \"Tank for June\"",
		Args:    exactly("the name of a garment"),
		RunE: func(cmd *cobra.Command, args []string) error {
			return s.changing(cmd, func(ctx context.Context, l *library) error {
				g, err := l.pickGarment(ctx, args[0])
				if err != nil {
					return err
				}
				n, err := l.Release(ctx, g.ID)
				if err != nil {
					return err
				}
				if g, err = l.Garment(ctx, g.ID); err != nil {
					return err
				}
				out := struct {
					Garment  string `json:"garment"`
					State    string `json:"state"`
					Released int    `json:"released"`
				}{g.Name, string(g.State), n}
				return s.answer(out, func(w io.Writer) {
					fmt.Fprintf(w, "%s: %s given back.\n", g.Name, say.Count(n, "reservation", "reservations"))
				})
			})
		},
	}
}
