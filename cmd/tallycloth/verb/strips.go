package verb

import (
	"context"
	"io"

	"tallycloth/planner"
	"tallycloth/planner/binding"
	"tallycloth/stash"
	"tallycloth/stash/measure"

	"github.com/spf13/cobra"
)

// stripWords are what was typed about strips.
type stripWords struct {
	question
	stripHow
	only, turning string
	edges, along  []string
	closed        bool
	count         int
	fabric        string
	from          []string
	garment       string
	worked        string // a note: the strips are kept as ones that worked
	drewOut       string // how far free parts were measured to draw out
}

// strips is the verb that works out binding strips.
func (s *session) strips() *cobra.Command {
	var w stripWords
	cmd := &cobra.Command{
		Use:   "strips",
		Short: "Work out binding strips, and reserve their cloth",
		Long: `Works out the strips that finish the edges of a pattern in a size, or edges whose
lengths you type: how wide and how long to cut them, the marks, where joins fall, and the
checks (does it stretch that far, does it pass over the head). The ways to hold a strip in stand side by
side. With --from it says how strips are cut across that cloth, whatever its outline; with --garment
too that cloth is reserved. With --worked the strips are kept with their fabric as ones that
worked, and offered the next time.

An edge in words has a name, how many of it, and its parts: each with a length, "turns" and
degrees (less than 0 on an outside curve), "free" for a strap or tie, "mark" and its name, "catches"
and an edge named before it, "no join", "join here", "at 88 %"; and "ring" where it is closed.
Several edges share the cloth, in the order they are sewn.

Strips are cut to width at cutting, to length after the try-on.

With --json an object: strips (list of name, count, closed, finish, cut_width_mm,
length_mm, cut_length_mm, clear_elastic_mm, ratio, parts (name, edge_mm, ratio, basis, length_mm, from_mm,
sewn_stretch, fold_stretch), marks (name, from_end_mm, from_centre_mm, on_edge_mm, and to a ruler's marks
ruled_mm, step_mm), folds_mm, checks (kind, ok, mind, text, do), offers (basis, words, ratio,
length_mm, sewn_stretch, fold_stretch, text, do)), cloth (list of code, strips_across, taken_mm,
outlines_mm), joins (list of strip, at_mm), short_mm (strip length that found no cloth), reserved (how
many outlines).`,
		Example: `  tallycloth strips --pattern "Fennel tank" --size 4 --from A17
  tallycloth strips --edge "62 cm" --turning 360 --closed --width "1 cm" --seam "1 cm"
  tallycloth strips --edge "neck: back 21 cm turns 74 mark left strap, front 34 cm turns 166 no join" \
      --edge "armhole x2: back 20 cm turns 52 mark side seam join here, front 22 cm turns 92 catches neck, strap 16 cm free" \
      --fabric "Heather rib" --clear-elastic`,
		Args: noMore,
		RunE: func(cmd *cobra.Command, _ []string) error {
			do := s.reading
			if w.garment != "" || w.worked != "" {
				do = s.changing
			}
			return do(cmd, func(ctx context.Context, l *library) error { return s.workStrips(ctx, l, w) })
		},
	}
	w.patternFlags(cmd)
	f := cmd.Flags()
	f.StringVar(&w.only, "only", "", "one edge to finish of the pattern, by name (default: all)")
	f.StringArrayVar(&w.edges, "edge", nil, "instead of a pattern: the length of an edge on its stitching line, or an edge in words; may come several times")
	f.StringArrayVar(&w.along, "along", nil, `an edge drawn by points along its stitching line, as "x,y x,y x,y" with y upwards and the garment on the right; split at corners`)
	f.StringVar(&w.turning, "turning", "0", "how far an edge of one length turns in all, in degrees: 360 round a neck, less than 0 on an outside curve")
	f.BoolVar(&w.closed, "closed", false, "an edge of one length is a ring")
	f.IntVar(&w.count, "count", 1, "how many such edges")
	w.stripHow.flags(cmd)
	f.StringVar(&w.worked, "worked", "", "keep these strips with their fabric as ones that worked, with this note")
	f.StringVar(&w.drewOut, "drew-out", "", "with --worked: how far straps were measured to draw out in sewing, such as 4 %")
	f.StringVar(&w.fabric, "fabric", "", "the fabric of the strips, for its stretch (default: that of the first --from)")
	f.StringSliceVar(&w.from, "from", nil, "codes of the cloth to cut from, the preferred first")
	f.StringVar(&w.garment, "garment", "", "reserve the strips' cloth for this garment")
	return cmd
}

func (s *session) workStrips(ctx context.Context, l *library, w stripWords) error {
	ask, err := w.ask(ctx, l)
	if err != nil {
		return err
	}
	a, err := l.Strips(ctx, ask)
	if err != nil {
		return err
	}
	f, err := l.fabricOf(ctx, ask)
	if err != nil {
		return err
	}
	if w.worked != "" {
		if err := w.keep(ctx, l, f, a.Strips); err != nil {
			return err
		}
	}
	out := l.fieldsOfStrips(a, f)
	if w.garment != "" {
		g, err := l.pickGarment(ctx, w.garment)
		if err != nil {
			return err
		}
		made, err := l.ReserveStrips(ctx, g.ID, a)
		if err != nil {
			return err
		}
		out.Reserved = pieces(made)
	}
	return s.answer(out, func(o io.Writer) { l.tellStrips(o, a, out) })
}

// ask reads what was typed as jobs and cloth.
func (w stripWords) ask(ctx context.Context, l *library) (planner.BindingAsk, error) {
	var ask planner.BindingAsk
	var err error
	if len(w.edges)+len(w.along) > 0 {
		ask.Jobs, err = w.typedJobs(l)
	} else {
		ask.Jobs, err = w.patternJobs(ctx, l)
	}
	if err != nil {
		return ask, err
	}
	for _, code := range w.from {
		c, err := l.pickCloth(ctx, code)
		if err != nil {
			return ask, err
		}
		ask.ClothIDs = append(ask.ClothIDs, c.Cloth.ID)
		if ask.FabricID == stash.NoID {
			ask.FabricID = c.Fabric.ID
		}
	}
	if w.fabric != "" {
		f, err := l.pickFabric(ctx, w.fabric)
		if err != nil {
			return ask, err
		}
		ask.FabricID = f.ID
	}
	f, err := l.fabricOf(ctx, ask)
	if err != nil {
		return ask, err
	}
	for i := range ask.Jobs {
		if err := w.into(l, &ask.Jobs[i], f); err != nil {
			return ask, err
		}
	}
	ask.Jobs = binding.Cross(ask.Jobs)
	return ask, nil
}

// fabricOf is the fabric that strips are asked for, or one without an ID.
func (l *library) fabricOf(ctx context.Context, ask planner.BindingAsk) (stash.Fabric, error) {
	if ask.FabricID == stash.NoID {
		return stash.Fabric{}, nil
	}
	return l.Fabric(ctx, ask.FabricID)
}

// keep notes the strips as ones that worked.
func (w stripWords) keep(ctx context.Context, l *library, f stash.Fabric, strips []binding.Strip) error {
	if f.ID == stash.NoID {
		return mistyped("it is not said on which fabric they worked", "Name it with --fabric")
	}
	var drawn measure.Percent
	if w.drewOut != "" {
		var err error
		if drawn, err = measure.ParsePercent(w.drewOut); err != nil {
			return said("--drew-out", err)
		}
	}
	for _, s := range strips {
		if _, err := l.KeepStrip(ctx, f.ID, s, drawn.Fraction(), w.worked); err != nil {
			return err
		}
	}
	return nil
}

// jobsOf returns the strips of a pattern in a size; of the garment they are reserved for as it is
// adjusted.
func (w stripWords) jobsOf(ctx context.Context, l *library, patternID stash.ID, size string) ([]binding.Job, error) {
	if w.garment != "" {
		g, err := l.pickGarment(ctx, w.garment)
		if err != nil {
			return nil, err
		}
		if g.PatternID == patternID && g.Size == size {
			return l.GarmentEdgeJobs(ctx, g.ID)
		}
	}
	return l.EdgeJobs(ctx, patternID, size)
}

// patternJobs returns the strips of a pattern's edges in a size.
func (w stripWords) patternJobs(ctx context.Context, l *library) ([]binding.Job, error) {
	search, p, err := w.search(ctx, l)
	if err != nil {
		return nil, err
	}
	jobs, err := w.jobsOf(ctx, l, p.ID, search.Size)
	if err != nil || w.only == "" {
		return jobs, err
	}
	j, err := pick("edge to finish", w.only, jobs, func(j binding.Job) string { return j.Name })
	return []binding.Job{j}, err
}
