package verb

import (
	"context"
	"fmt"
	"io"

	"tallycloth/planner"
	"tallycloth/stash"
	"tallycloth/stash/measure"
	"tallycloth/stash/shape"

	"github.com/spf13/cobra"
)

// cutFields is what cutting a garment leaves, in JSON: areas in m², lengths in mm.
type cutFields struct {
	Garment  string           `json:"garment"`
	State    string           `json:"state"`
	Cloth    []cutClothFields `json:"cloth"`
	Leftover []leftoverField  `json:"leftovers"`
	Saved    bool             `json:"saved"`
}

type cutClothFields struct {
	Code      string  `json:"code"`
	Before    float64 `json:"before_m2"`
	Cut       float64 `json:"cut_m2"`
	Kept      float64 `json:"kept_m2"`
	Discarded float64 `json:"discarded_m2"`
}

type leftoverField struct {
	Code       string  `json:"code,omitempty"` // once it is kept
	From       string  `json:"from"`
	Length     float64 `json:"length_mm"`
	Width      float64 `json:"width_mm"`
	Area       float64 `json:"area_m2"`
	Straight   [2]int  `json:"straight_mm"` // length and width of the largest rectangle in it
	OnlyStrips bool    `json:"only_strips"`
}

// cut is the verb that marks a garment cut and keeps its leftovers.
func (s *session) cut() *cobra.Command {
	var dry, none, trim bool
	cmd := &cobra.Command{
		Use:   "cut GARMENT",
		Short: "Mark a garment cut and keep what is left over",
		Long: `Turns what is reserved for a garment into what was cut, and keeps the leftovers that are
worth keeping as cloths with codes of their own: pieces that hold a square of 10 cm, and
ends across the fabric that hold a binding strip of 3.5 × 40 cm. The rest is discarded, so
that what there was is cut, kept or discarded to the last bit. What is reserved for another
garment moves onto the leftover it lies on.

With --json an object: garment, state, cloth (code, before_m2, cut_m2, kept_m2,
discarded_m2), leftovers (code, from, length_mm, width_mm, area_m2, straight_mm,
only_strips), saved.`,
		Example: "  tallycloth cut \"Tank for June\" --dry\n  tallycloth cut \"Tank for June\"",
		Args:    exactly("the name of a garment"),
		RunE: func(cmd *cobra.Command, args []string) error {
			if none && trim {
				return mistyped("Nothing that is discarded can be trimmed", "Leave out --discard-rest or --straight")
			}
			return s.changing(cmd, func(ctx context.Context, l *library) error {
				g, err := l.pickGarment(ctx, args[0])
				if err != nil {
					return err
				}
				plan, err := l.CutPlan(ctx, g.ID)
				if err != nil {
					return err
				}
				return s.cutGarment(ctx, l, g.ID, kept(plan, none, trim), dry)
			})
		},
	}
	f := cmd.Flags()
	f.BoolVar(&dry, "dry", false, "only say what would be cut and left; nothing is saved")
	f.BoolVar(&none, "discard-rest", false, "keep no leftovers")
	f.BoolVar(&trim, "straight", false, "keep of each leftover its largest straight rectangle only")
	return cmd
}

// kept is the plan with the leftovers as they are to be kept.
func kept(plan []planner.ClothCut, none, trim bool) []planner.ClothCut {
	for i := range plan {
		if none {
			plan[i].Left = nil
		}
		for k := range plan[i].Left {
			if trim {
				plan[i].Left[k].Outline = shape.Polygon{Outer: plan[i].Left[k].Straight.Ring()}
			}
		}
	}
	return plan
}

func (s *session) cutGarment(ctx context.Context, l *library, id stash.ID, plan []planner.ClothCut, dry bool) error {
	out := cutFields{Saved: !dry}
	for _, c := range plan {
		out.add(c)
	}
	if !dry {
		made, err := l.MarkCut(ctx, id, planner.AllLeft(plan))
		if err != nil {
			return err
		}
		for i := range made {
			out.Leftover[i].Code = made[i].Code
		}
	}
	g, err := l.Garment(ctx, id)
	if err != nil {
		return err
	}
	out.Garment, out.State = g.Name, string(g.State)
	v := l.voice
	return s.answer(out, func(w io.Writer) {
		for _, c := range out.Cloth {
			fmt.Fprintf(w, "%s: of %.3f m², %.3f m² cut, %.3f m² kept, %.3f m² discarded.\n", c.Code, c.Before, c.Cut, c.Kept, c.Discarded)
		}
		for _, k := range out.Leftover {
			name, use := k.Code, ""
			if name == "" {
				name = "leftover of " + k.From
			}
			if k.OnlyStrips {
				use = ", for strips only"
			}
			fmt.Fprintf(w, "%s: %s × %s, straight %s × %s%s\n", name, v.Length(um(k.Length)), v.Width(um(k.Width)), v.Length(um(float64(k.Straight[0]))), v.Width(um(float64(k.Straight[1]))), use)
		}
		if dry {
			fmt.Fprintln(w, "Nothing is saved: leave out --dry to mark it cut.")
		} else {
			fmt.Fprintf(w, "%s is cut.\n", out.Garment)
		}
	})
}

func um(mm float64) measure.Length { return measure.Length(mm * float64(measure.Millimetre)) }

// add notes one cloth and its leftovers.
func (f *cutFields) add(c planner.ClothCut) {
	k := cutClothFields{Code: c.Cloth.Cloth.Code, Before: c.Cloth.Cloth.Area().SquareMetres(), Discarded: c.Waste().SquareMetres()}
	for _, r := range c.Cut {
		k.Cut += r.Area().SquareMetres()
	}
	for _, l := range c.Left {
		k.Kept += l.Area().SquareMetres()
		b := l.Outline.Bounds()
		f.Leftover = append(f.Leftover, leftoverField{From: k.Code, Length: float64(b.Length()) / 1000, Width: float64(b.Width()) / 1000, Area: l.Area().SquareMetres(),
			Straight: [2]int{int(l.Straight.Length() / 1000), int(l.Straight.Width() / 1000)}, OnlyStrips: l.OnlyStrips})
	}
	f.Cloth = append(f.Cloth, k)
}
