package verb

import (
	"context"
	"fmt"
	"io"
	"strings"
	"text/tabwriter"
	"time"

	"tallycloth/planner/pattern"
	"tallycloth/stash"
	"tallycloth/stash/measure"

	"github.com/spf13/cobra"
)

// list is the verb that shows what is there.
func (s *session) list() *cobra.Command {
	things := map[string]func(context.Context, *library) error{
		"fabrics": s.listFabrics, "cloth": s.listCloth, "patterns": s.listPatterns, "garments": s.listGarments, "history": s.listHistory,
	}
	const choice = "fabrics, cloth, patterns, garments or history"
	return &cobra.Command{
		Use:   "list fabrics|cloth|patterns|garments|history",
		Short: "Show what is in the library",
		Long: `Shows what is in the library: fabrics, cloth (lengths and leftovers on the shelf),
patterns, garments, or history (what was done, newest first).

Values that the window shows slanted, assumed because nobody has measured them yet, are
marked "?" here and null in JSON.

With --json a list of objects:
  fabrics   name, construction, fibres, weight_gsm, width_mm, tubular, direction,
            stretch_across_percent, stretch_along_percent, stretch_is_assumed,
            stretch_across_word, stretch_along_word (see the verb classes),
            recovery_across_percent, recovery_along_percent, narrowing_across_percent,
            change_in_washing_across_percent, change_in_washing_along_percent,
            selvedge_loss_mm, repeat_along_mm, repeat_across_mm, same_on_both_faces,
            colour, supplier, tags
  cloth     code, fabric, length_mm, width_mm, odd_outline, lot, place, washed,
            area_m2, free_m2, reserved (list of garment, used_for, pieces)
  patterns  name, maker, kind, sizes, uses (used_for, knit_only, stretch_around_percent,
            stretch_along_percent, recovery_percent, optional), pieces (code, name,
            used_for, cut, mirrored_pairs, on_fold, sizes_with_outline), edges_to_finish,
            approximate (outlines drafted from measurements)
  garments  name, pattern, size, for, state, wanted, cloth (codes), strips
  history   at (RFC 3339), what, undone`,
		Example:   "  tallycloth list cloth\n  tallycloth list patterns --json",
		ValidArgs: []string{"fabrics", "cloth", "patterns", "garments", "history"},
		Args: func(_ *cobra.Command, args []string) error {
			if len(args) == 1 && things[args[0]] != nil {
				return nil
			}
			return mistyped("list shows one thing at a time", "Say which: "+choice)
		},
		RunE: func(cmd *cobra.Command, args []string) error { return s.reading(cmd, things[args[0]]) },
	}
}

// table writes rows in columns with a head.
func table(w io.Writer, head string, rows [][]string) {
	t := tabwriter.NewWriter(w, 0, 0, 2, ' ', 0)
	fmt.Fprintln(t, strings.ReplaceAll(head, "|", "\t"))
	for _, r := range rows {
		fmt.Fprintln(t, strings.Join(r, "\t"))
	}
	t.Flush()
}

func (s *session) listFabrics(ctx context.Context, l *library) error {
	all, err := l.Fabrics(ctx)
	if err != nil {
		return err
	}
	out, rows := []fabricFields{}, [][]string{}
	for _, f := range all {
		out = append(out, fieldsOfFabric(f, l.settings.Classes))
		rows = append(rows, []string{
			f.Name, string(f.Construction), l.voice.Width(f.FullWidth), measure.FormatWeight(f.Weight, l.settings.Units),
			strings.TrimSpace(reading(f.Crosswise.Stretch) + " " + stretchWord(f.Crosswise.Stretch, l.settings.Classes)), reading(f.Lengthwise.Stretch), f.Fibres.String(),
		})
	}
	return s.answer(out, func(w io.Writer) { table(w, "FABRIC|KIND|WIDTH|WEIGHT|STRETCH ACROSS|ALONG|FIBRES", rows) })
}

// reading writes a percent, or "?" when it was not measured.
func reading(r stash.Reading) string {
	if !r.Known {
		return "?"
	}
	return measure.FormatPercent(r.Value)
}

func (s *session) listCloth(ctx context.Context, l *library) error {
	all, err := l.Cloths(ctx)
	if err != nil {
		return err
	}
	garments, err := l.garmentNames(ctx)
	if err != nil {
		return err
	}
	out, rows := []clothFields{}, [][]string{}
	for _, c := range all {
		f := fieldsOfCloth(c, garments)
		out = append(out, f)
		rows = append(rows, []string{f.Code, f.Fabric, l.clothSize(c.Cloth), freeShare(c), f.Place, strings.Join(keptFor(f), ", ")})
	}
	return s.answer(out, func(w io.Writer) { table(w, "CODE|FABRIC|SIZE|FREE|PLACE|RESERVED FOR", rows) })
}

// clothSize writes length × width, and that an outline is odd.
func (l *library) clothSize(c stash.Cloth) string {
	size := l.voice.Size(c)
	if !c.Plain() {
		size += ", odd"
	}
	return size
}

// freeShare says how much of a cloth is free, in percent of its area.
func freeShare(c stash.ClothState) string {
	if c.Area <= 0 {
		return "0 %"
	}
	return fmt.Sprintf("%.0f %%", 100*c.FreeArea.SquareMetres()/c.Area.SquareMetres())
}

// keptFor names the garments that a cloth is reserved for, each once.
func keptFor(c clothFields) []string {
	var out []string
	seen := map[string]bool{}
	for _, r := range c.Reserved {
		if !seen[r.Garment] {
			out, seen[r.Garment] = append(out, r.Garment), true
		}
	}
	return out
}

func (l *library) garmentNames(ctx context.Context) (map[stash.ID]string, error) {
	all, err := l.Garments(ctx)
	if err != nil {
		return nil, err
	}
	names := map[stash.ID]string{}
	for _, g := range all {
		names[g.ID] = g.Name
	}
	return names, nil
}

func (s *session) listPatterns(ctx context.Context, l *library) error {
	all, err := l.Patterns(ctx)
	if err != nil {
		return err
	}
	out, rows := []patternFields{}, [][]string{}
	for _, p := range all {
		f := fieldsOfPattern(p)
		out = append(out, f)
		rows = append(rows, []string{f.Name, f.Kind, strings.Join(f.Sizes, " "), fmt.Sprint(len(f.Pieces)), strings.Join(asks(p), "; ")})
	}
	return s.answer(out, func(w io.Writer) { table(w, "PATTERN|KIND|SIZES|PIECES|ASKS", rows) })
}

// asks says what each use asks of its fabric.
func asks(p pattern.Pattern) []string {
	var out []string
	for _, r := range p.Roles {
		a := r.Name
		if r.Knit {
			a += ": knit"
		}
		if r.StretchAround > 0 {
			a += ", stretches " + measure.FormatPercent(r.StretchAround) + " around"
		}
		if r.Recovery > 0 {
			a += ", recovers " + measure.FormatPercent(r.Recovery)
		}
		out = append(out, a)
	}
	return out
}

func (s *session) listGarments(ctx context.Context, l *library) error {
	all, err := l.Garments(ctx)
	if err != nil {
		return err
	}
	patterns, err := l.Patterns(ctx)
	if err != nil {
		return err
	}
	byID := map[stash.ID]string{}
	for _, p := range patterns {
		byID[p.ID] = p.Name
	}
	out, rows := []garmentFields{}, [][]string{}
	for _, g := range all {
		codes, err := l.reservedCodes(ctx, g.ID)
		if err != nil {
			return err
		}
		f := fieldsOfGarment(g, byID[g.PatternID], codes)
		out = append(out, f)
		rows = append(rows, []string{f.Name, f.Pattern, f.Size, f.For, f.State, strings.Join(f.Cloth, ", ")})
	}
	return s.answer(out, func(w io.Writer) { table(w, "GARMENT|PATTERN|SIZE|FOR|STATE|CLOTH", rows) })
}

// reservedCodes returns the codes of the cloth reserved for a garment, each once.
func (l *library) reservedCodes(ctx context.Context, garment stash.ID) ([]string, error) {
	live, err := l.Reservations(ctx, garment)
	if err != nil {
		return nil, err
	}
	var codes []string
	seen := map[stash.ID]bool{}
	for _, r := range live {
		if seen[r.ClothID] {
			continue
		}
		seen[r.ClothID] = true
		c, err := l.Cloth(ctx, r.ClothID)
		if err != nil {
			return nil, err
		}
		codes = append(codes, c.Cloth.Code)
	}
	return codes, nil
}

// actFields is one thing that was done.
type actFields struct {
	At     string `json:"at"`
	What   string `json:"what"`
	Undone bool   `json:"undone"`
}

func actOf(a stash.Act) actFields {
	return actFields{At: a.At.Format(time.RFC3339), What: a.Sentence, Undone: a.Undone}
}

func (s *session) listHistory(ctx context.Context, l *library) error {
	const most = 200
	acts, err := l.Acts(ctx, most)
	if err != nil {
		return err
	}
	out, rows := []actFields{}, [][]string{}
	for _, a := range acts {
		f := actOf(a)
		out = append(out, f)
		mark := ""
		if a.Undone {
			mark = "taken back"
		}
		rows = append(rows, []string{a.At.Local().Format("2006-01-02 15:04"), a.Sentence, mark})
	}
	return s.answer(out, func(w io.Writer) { table(w, "WHEN|WHAT|", rows) })
}
