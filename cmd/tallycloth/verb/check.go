package verb

import (
	"context"
	"encoding/json"
	"fmt"
	"strings"

	"tallycloth/planner"
	"tallycloth/planner/match"

	"github.com/spf13/cobra"
)

// check is the verb that asks whether cloth is enough.
func (s *session) check() *cobra.Command {
	var q question
	cmd := &cobra.Command{
		Use:   "check [CODE]",
		Short: "Is this cloth, or any on the shelf, enough for a pattern?",
		Long: `Tells for one cloth, or without a code for every cloth on the shelf, whether it is
enough for a pattern in a size: what the fabric is, how it stretches and recovers, and then
whether the pattern pieces really lie on what is free of it. Each verdict says what it
rests on: a layout that was checked, the yardage table (an estimate), or the fabric itself.

  enough          with what is to spare
  enough, tight   little to spare
  enough if …     it is cut crosswise, in one layer, or stretches as assumed
  not enough      and how short
  unsuitable      what speaks against the fabric
  can't tell      what is missing

For the whole shelf the answers come as they are found, the most promising cloth first.
The exit code is 3 when no cloth asked about is enough.

With --json one object on each line: code, fabric, verdict ("enough", "tight", "enough
if", "not enough", "unsuitable", "cannot tell"), proof ("layout", "yardage table", "no
layout can exist", "the fabric", "looked for and not found", "none"), spare_length_mm,
spare_width_mm, short_mm, used_length_mm, cut_crosswise, folds_mm, reasons and
conditions (sentences).`,
		Example: "  tallycloth check --pattern \"Fennel tank\" --size 4\n  tallycloth check A17 --pattern \"Fennel tank\" --size 4 --json",
		Args: func(cmd *cobra.Command, args []string) error {
			if len(args) <= 1 {
				return nil
			}
			return exactly("the code of one cloth")(cmd, args)
		},
		RunE: func(cmd *cobra.Command, args []string) error {
			return s.reading(cmd, func(ctx context.Context, l *library) error {
				search, _, err := q.search(ctx, l)
				if err != nil {
					return err
				}
				if len(args) == 1 {
					return s.checkOne(ctx, l, args[0], search)
				}
				return s.checkAll(ctx, l, search)
			})
		},
	}
	q.flags(cmd)
	q.garmentFlag(cmd)
	return cmd
}

func (s *session) checkOne(ctx context.Context, l *library, code string, search planner.Search) error {
	c, err := l.pickCloth(ctx, code)
	if err != nil {
		return err
	}
	f, err := l.CheckCloth(ctx, c.Cloth.ID, search)
	if err != nil {
		return err
	}
	if s.json {
		err = s.tell(l, f)
	} else {
		l.reasons(s.Out, f)
	}
	if err != nil {
		return err
	}
	if !serves(f.Verdict.Grade) {
		return &answeredNo{}
	}
	return nil
}

func (s *session) checkAll(ctx context.Context, l *library, search planner.Search) error {
	var telling error
	count := map[match.Grade]int{}
	_, err := l.FindFabric(ctx, search, func(f planner.Finding) {
		count[f.Verdict.Grade]++
		if err := s.tell(l, f); err != nil && telling == nil {
			telling = err
		}
	})
	if err != nil {
		return err
	}
	if telling != nil {
		return telling
	}
	if !s.json {
		fmt.Fprintln(s.Out, total(count))
	}
	if count[match.Enough]+count[match.Tight]+count[match.EnoughIf] == 0 {
		return &answeredNo{}
	}
	return nil
}

// total says how many cloths got which verdict.
func total(count map[match.Grade]int) string {
	var parts []string
	for _, g := range []match.Grade{match.Enough, match.Tight, match.EnoughIf, match.CannotTell, match.NotEnough, match.Unsuitable} {
		if count[g] > 0 {
			parts = append(parts, fmt.Sprintf("%d %s", count[g], grades[g]))
		}
	}
	if len(parts) == 0 {
		return "There is no cloth on the shelf."
	}
	return "Altogether: " + strings.Join(parts, ", ") + "."
}

// tell writes one finding as it comes.
func (s *session) tell(l *library, f planner.Finding) error {
	var err error
	if s.json {
		e := json.NewEncoder(s.Out)
		e.SetEscapeHTML(false)
		err = e.Encode(l.fieldsOfFinding(f))
	} else {
		_, err = fmt.Fprintln(s.Out, l.line(f))
	}
	if err != nil {
		return fmt.Errorf("writing the answer: %w", err)
	}
	return nil
}
