package verb

import (
	"context"
	"fmt"
	"io"
	"math"
	"strings"

	"tallycloth/planner"
	"tallycloth/planner/binding"
	"tallycloth/stash"
	"tallycloth/stash/measure"

	"github.com/spf13/cobra"
)

// stripWords are what was typed about strips.
type stripWords struct {
	question
	edge, length, turning  string
	closed                 bool
	count                  int
	technique, width, seam string
	fabric                 string
	from                   []string
	garment                string
}

// strips is the verb that works out binding strips.
func (s *session) strips() *cobra.Command {
	var w stripWords
	cmd := &cobra.Command{
		Use:   "strips",
		Short: "Work out binding strips, and reserve their cloth",
		Long: `Works out the strips that finish the edges of a pattern in a size, or one edge whose
length you type: how wide and how long to cut them, the marks, where joins fall, and the
checks (does it stretch that far, does it pass over the head). With --from it says how
they are cut across that cloth; with --garment too that cloth is reserved.

Strips are cut to width at cutting, to length after the try-on.

With --json an object: strips (list of name, count, closed, finish, cut_width_mm,
length_mm, cut_length_mm, parts (name, edge_mm, ratio, length_mm, from_mm), marks
(name, from_end_mm, from_centre_mm, on_edge_mm), checks (ok, text, do)), cloth (list of
code, strips_across, taken_mm), joins (list of strip, at_mm), short_mm (strip length that
found no cloth), reserved (how many outlines).`,
		Example: `  tallycloth strips --pattern "Fennel tank" --size 4 --from A17
  tallycloth strips --edge "62 cm" --turning 360 --closed --width "1 cm" --seam "1 cm"`,
		Args: noMore,
		RunE: func(cmd *cobra.Command, _ []string) error {
			do := s.reading
			if w.garment != "" {
				do = s.changing
			}
			return do(cmd, func(ctx context.Context, l *library) error { return s.workStrips(ctx, l, w) })
		},
	}
	w.patternFlags(cmd)
	f := cmd.Flags()
	f.StringVar(&w.edge, "only", "", "one edge to finish of the pattern, by name (default: all)")
	f.StringVar(&w.length, "edge", "", "instead of a pattern: the length of the edge on its stitching line")
	f.StringVar(&w.turning, "turning", "0", "how far that edge turns in all, in degrees: 360 round a neck, less than 0 on an outside curve")
	f.BoolVar(&w.closed, "closed", false, "that edge is a ring")
	f.IntVar(&w.count, "count", 1, "how many such edges")
	f.StringVar(&w.technique, "finish", "", "technique: "+techniques())
	f.StringVar(&w.width, "width", "", "finished width")
	f.StringVar(&w.seam, "seam", "", "from the edge to the stitching line")
	f.StringVar(&w.fabric, "fabric", "", "the fabric of the strips, for its stretch (default: that of the first --from)")
	f.StringSliceVar(&w.from, "from", nil, "codes of the cloth to cut from, the preferred first")
	f.StringVar(&w.garment, "garment", "", "reserve the strips' cloth for this garment")
	return cmd
}

func techniques() string {
	var all []string
	for _, t := range binding.Techniques() {
		all = append(all, string(t))
	}
	return strings.Join(all, "; ")
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
	out := fieldsOfStrips(a)
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
	if w.length != "" {
		ask.Jobs, err = w.typedJob(l)
	} else {
		ask.Jobs, err = w.patternJobs(ctx, l)
	}
	if err != nil {
		return ask, err
	}
	for i := range ask.Jobs {
		if err := w.finish(l, &ask.Jobs[i].Finish); err != nil {
			return ask, err
		}
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
	return ask, nil
}

// patternJobs returns the strips of a pattern's edges in a size.
func (w stripWords) patternJobs(ctx context.Context, l *library) ([]binding.Job, error) {
	search, p, err := w.search(ctx, l)
	if err != nil {
		return nil, err
	}
	jobs, err := l.EdgeJobs(ctx, p.ID, search.Size)
	if err != nil || w.edge == "" {
		return jobs, err
	}
	j, err := pick("edge to finish", w.edge, jobs, func(j binding.Job) string { return j.Name })
	return []binding.Job{j}, err
}

// typedJob returns the strip of one edge whose length was typed.
func (w stripWords) typedJob(l *library) ([]binding.Job, error) {
	length, err := measure.ParsePositiveLength(w.length, l.fieldUnit())
	if err != nil {
		return nil, said("--edge", err)
	}
	var degrees float64
	if n, err := fmt.Sscanf(w.turning+" end", "%g end", &degrees); n != 1 || err != nil || math.Abs(degrees) > 3600 {
		return nil, mistyped(fmt.Sprintf("--turning %q is no number of degrees", w.turning), "Write for instance 360 for a whole round")
	}
	return []binding.Job{{
		Name: "edge", Closed: w.closed, Count: w.count, Units: l.settings.Units,
		Segments: []binding.Segment{{Name: "edge", Length: length, Turning: degrees * math.Pi / 180}},
		Finish:   binding.Finish{Technique: binding.WrappedTurned, Width: measure.Centimetre, Seam: measure.Centimetre},
	}}, nil
}

// finish puts what was typed about the finish into f.
func (w stripWords) finish(l *library, f *binding.Finish) error {
	if w.technique != "" {
		t, err := pick("technique", w.technique, binding.Techniques(), func(t binding.Technique) string { return string(t) })
		if err != nil {
			return err
		}
		f.Technique = t
	}
	for _, v := range []struct {
		flag, text string
		into       *measure.Length
	}{{"--width", w.width, &f.Width}, {"--seam", w.seam, &f.Seam}} {
		if v.text == "" {
			continue
		}
		length, err := measure.ParsePositiveLength(v.text, l.fieldUnit())
		if err != nil {
			return said(v.flag, err)
		}
		*v.into = length
	}
	return nil
}
