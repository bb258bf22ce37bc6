package verb

import (
	"context"
	"encoding/json"
	"fmt"
	"slices"

	"tallycloth/planner"
	"tallycloth/stash"
	"tallycloth/ui/say"

	"github.com/spf13/cobra"
)

// goodFields is what a leftover is still good for, in JSON.
type goodFields struct {
	Code   string         `json:"code"`
	Fabric string         `json:"fabric"`
	Uses   []servesFields `json:"uses"`
}

type servesFields struct {
	Pattern string `json:"pattern"`
	UsedFor string `json:"used_for"`
	Size    string `json:"size"`
	Verdict string `json:"verdict"`
	Proved  bool   `json:"proved"`
}

// goodFor is the verb that says what leftovers can still hold.
func (s *session) goodFor() *cobra.Command {
	return &cobra.Command{
		Use:   "good-for [CODE]",
		Short: "What is a leftover still good for?",
		Long: `Tells for one cloth, or without a code for every leftover on the shelf, which patterns,
uses and sizes of the library it is enough for: by a layout that was checked, and apart from
those by the yardage table, which is an estimate. The window works this out while nobody
waits for it, and keeps it until something changes; what is not known yet is worked out now.

With --json one object on each line: code, fabric, uses (each with pattern, used_for, size,
verdict ("enough", "tight", "enough if"), proved (true: by a layout)).`,
		Example: "  tallycloth good-for A17\n  tallycloth good-for --json",
		Args: func(cmd *cobra.Command, args []string) error {
			if len(args) <= 1 {
				return nil
			}
			return exactly("the code of one cloth")(cmd, args)
		},
		RunE: func(cmd *cobra.Command, args []string) error {
			return s.reading(cmd, func(ctx context.Context, l *library) error {
				cloths, err := l.leftoversOr(ctx, args)
				if err != nil {
					return err
				}
				for _, c := range cloths {
					good, err := l.WorkOutUses(ctx, c, nil)
					if err == nil {
						err = s.tellGood(c, good)
					}
					if err != nil {
						return err
					}
				}
				if len(cloths) == 0 && !s.json {
					fmt.Fprintln(s.Out, "There is no leftover on the shelf.")
				}
				return nil
			})
		},
	}
}

// leftoversOr is the cloth named, or every leftover.
func (l *library) leftoversOr(ctx context.Context, codes []string) ([]stash.ClothState, error) {
	if len(codes) == 1 {
		c, err := l.pickCloth(ctx, codes[0])
		return []stash.ClothState{c}, err
	}
	all, err := l.Cloths(ctx)
	return slices.DeleteFunc(all, func(c stash.ClothState) bool { return !c.Cloth.Leftover() }), err
}

func (s *session) tellGood(c stash.ClothState, good planner.GoodFor) error {
	var err error
	if s.json {
		e := json.NewEncoder(s.Out)
		e.SetEscapeHTML(false)
		err = e.Encode(fieldsOfGood(c, good))
	} else {
		_, err = fmt.Fprintf(s.Out, "%s %s: %s\n", c.Cloth.Code, c.Fabric.Name, say.GoodFor(good, len(good.Uses)))
	}
	if err != nil {
		return fmt.Errorf("writing the answer: %w", err)
	}
	return nil
}

func fieldsOfGood(c stash.ClothState, good planner.GoodFor) goodFields {
	out := goodFields{Code: c.Cloth.Code, Fabric: c.Fabric.Name, Uses: []servesFields{}}
	for _, u := range good.Uses {
		for _, size := range u.Sizes {
			out.Uses = append(out.Uses, servesFields{u.Pattern.Name, u.Role, size.Size, grades[size.Grade], u.Proved})
		}
	}
	return out
}
