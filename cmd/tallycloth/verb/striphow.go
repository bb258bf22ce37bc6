package verb

import (
	"fmt"
	"math"
	"strings"

	"tallycloth/planner"
	"tallycloth/planner/binding"
	"tallycloth/stash"
	"tallycloth/stash/measure"

	"github.com/spf13/cobra"
)

// stripHow is what was typed about how strips are cut, sewn and held in, all as text.
type stripHow struct {
	technique, layers, width, seam, turn, caught, row string
	grain, ratio, holdIn, drawn, extra, lap           string
	joinSeam, passes                                  string
	slant, clear, lockstitch                          bool
}

func (h *stripHow) flags(cmd *cobra.Command) {
	f := cmd.Flags()
	for _, o := range []struct {
		to         *string
		name, says string
	}{
		{&h.technique, "finish", "technique: " + techniques() + "; or one of your own, see technique"},
		{&h.layers, "layers", `instead of a technique: its layers in words, such as "two widths, two seams, one turn, wraps the edge"`},
		{&h.width, "width", "finished width"}, {&h.seam, "seam", "from the edge to the stitching line"},
		{&h.turn, "turn", "turn-of-cloth of a wrapped finish (default: from the fabric's thickness, else 2 mm)"},
		{&h.caught, "caught", "what is caught beneath, where the inner edge stays flat"},
		{&h.row, "second-row", "a second row of stitching, so far from the fold"},
		{&h.grain, "grain", "how strips are cut: crosswise (default), lengthwise or bias"},
		{&h.ratio, "ratio", `how the strip is held in: "by the curve" (default), "fabric's limit", "rule of thumb", "worked last time", or a share such as "85 %"`},
		{&h.holdIn, "hold-in", "how far a strip is held in on a straight edge, 0.92 to 0.98 (default 0.95)"},
		{&h.drawn, "drawn", "how far straps and ties draw out in sewing (default: as measured last, else 3 %)"},
		{&h.extra, "end-extra", "left at a free end until the try-on (default 6 cm)"},
		{&h.lap, "lap", "at a free end: what lies over or through a ring"},
		{&h.joinSeam, "join-seam", "seam of a join (default: that of the finish)"},
		{&h.passes, "passes", `what a closed opening must pass, such as "head 57 cm"`},
	} {
		f.StringVar(o.to, o.name, "", o.says)
	}
	f.BoolVar(&h.slant, "slant", false, "joins at 45° instead of straight")
	f.BoolVar(&h.clear, "clear-elastic", false, "clear elastic in straps and ties")
	f.BoolVar(&h.lockstitch, "lockstitch", false, "sewn with a plain straight lockstitch")
}

func techniques() string {
	var all []string
	for _, t := range binding.Techniques() {
		all = append(all, string(t))
	}
	return strings.Join(all, "; ")
}

// into puts what was typed into a job for strips of a fabric, which may be none.
func (h stripHow) into(l *library, j *binding.Job, fabric stash.Fabric) error {
	if err := h.finish(l, &j.Finish, fabric); err != nil {
		return err
	}
	for _, v := range []struct {
		flag, text string
		into       *measure.Length
	}{{"--end-extra", h.extra, &j.EndExtra}, {"--lap", h.lap, &j.Lap}, {"--join-seam", h.joinSeam, &j.JoinSeam}} {
		if err := h.length(l, v.flag, v.text, v.into); err != nil {
			return err
		}
	}
	grain, err := pick("grain", h.grain, []binding.Grain{binding.Crosswise, binding.Lengthwise, binding.Bias}, grainName)
	if h.grain != "" {
		if err != nil {
			return err
		}
		j.Grain = grain
	}
	j.JoinAt45, j.ClearElastic, j.Lockstitch = j.JoinAt45 || h.slant, j.ClearElastic || h.clear, j.Lockstitch || h.lockstitch
	if h.holdIn != "" {
		if n, err := fmt.Sscanf(strings.ReplaceAll(h.holdIn, ",", ".")+" end", "%g end", &j.HoldIn); n != 1 || err != nil {
			return mistyped(fmt.Sprintf("--hold-in %q is no number", h.holdIn), "Write 0.92 to 0.98; 0.95 is usual")
		}
	}
	if err := h.free(j, fabric); err != nil {
		return err
	}
	if err := h.girth(l, j); err != nil {
		return err
	}
	return h.held(l, j, fabric)
}

func grainName(g binding.Grain) string { return [...]string{"crosswise", "lengthwise", "bias"}[g] }

// finish puts what was typed about the finish into f.
func (h stripHow) finish(l *library, f *binding.Finish, fabric stash.Fabric) error {
	if h.technique != "" {
		t, err := pick("technique", h.technique, l.settings.AllTechniques(), func(t binding.Technique) string { return string(t) })
		if err != nil {
			return err
		}
		f.Technique, f.Own = t, l.settings.Recipe(t)
	}
	if h.layers != "" {
		r, err := binding.ParseRecipe(h.layers)
		if err != nil {
			return said("--layers", err)
		}
		f.Technique, f.Own = binding.Technique(r.String()), r
	}
	if r, _ := f.Recipe(); h.technique != "" || h.layers != "" || f.Turn == 0 {
		f.Turn, f.Caught = 0, 0
		if r.Turns > 0 {
			f.Turn = planner.TurnOfCloth(fabric.Thickness)
		}
		if r.Caughts > 0 {
			f.Caught = binding.CaughtPlain
		}
	}
	for _, v := range []struct {
		flag, text string
		into       *measure.Length
	}{{"--width", h.width, &f.Width}, {"--seam", h.seam, &f.Seam}, {"--turn", h.turn, &f.Turn}, {"--caught", h.caught, &f.Caught}, {"--second-row", h.row, &f.SecondRow}} {
		if err := h.length(l, v.flag, v.text, v.into); err != nil {
			return err
		}
	}
	return nil
}

func (h stripHow) length(l *library, flag, text string, into *measure.Length) error {
	if text == "" {
		return nil
	}
	length, err := measure.ParseLength(text, l.fieldUnit())
	if err != nil {
		return said(flag, err)
	}
	*into = length
	return nil
}

// free is what is typed, or was measured last, about straps and ties.
func (h stripHow) free(j *binding.Job, fabric stash.Fabric) error {
	j.Drawn = planner.DrawnLast(fabric, j.Finish.Technique)
	if h.extra == "" {
		j.EndExtra = binding.FreeEndExtra
	}
	if h.drawn == "" {
		return nil
	}
	p, err := measure.ParsePercent(h.drawn)
	if err != nil {
		return said("--drawn", err)
	}
	j.Drawn = p.Fraction()
	return nil
}

// girth is what a closed opening must pass: words and a length.
func (h stripHow) girth(l *library, j *binding.Job) error {
	if h.passes == "" {
		return nil
	}
	name, size := "", h.passes
	if i := strings.IndexAny(h.passes, "0123456789"); i > 0 {
		name, size = strings.TrimSpace(h.passes[:i]), h.passes[i:]
	}
	girth, err := measure.ParsePositiveLength(size, l.fieldUnit())
	if err != nil {
		return said("--passes", err)
	}
	j.PassesName, j.Passes = name, girth
	return nil
}

// held takes up the way the strip is held in.
func (h stripHow) held(l *library, j *binding.Job, fabric stash.Fabric) error {
	if h.ratio == "" {
		return nil
	}
	bases := []binding.Basis{binding.ByCurve, binding.ByLimit, binding.ByRule, binding.ByLast}
	if p, err := measure.ParsePercent(h.ratio); err == nil {
		j.By, j.Rule = binding.ByRule, p.Fraction()
		return nil
	}
	by, err := pick("way to hold a strip in", h.ratio, bases, func(b binding.Basis) string { return string(b) })
	if err != nil {
		return err
	}
	for _, o := range planner.RatioOffers(*j, fabric, l.settings) {
		if o.Basis == by {
			j.By, j.Rule = by, o.Rule
			return nil
		}
	}
	return mistyped(fmt.Sprintf("there is no ratio %s here", by), "Choose a fabric with --fabric, or type a share such as 85 %")
}

// typedJobs returns the strips of edges that were typed.
func (w stripWords) typedJobs(l *library) ([]binding.Job, error) {
	var degrees float64
	if n, err := fmt.Sscanf(w.turning+" end", "%g end", &degrees); n != 1 || err != nil || math.Abs(degrees) > 3600 {
		return nil, mistyped(fmt.Sprintf("--turning %q is no number of degrees", w.turning), "Write for instance 360 for a whole round")
	}
	var out []binding.Job
	for _, text := range w.edges {
		j := binding.Job{Name: "edge", Closed: w.closed, Count: w.count}
		if strings.Contains(text, ":") {
			var err error
			if j, err = binding.ParseEdge(text, l.fieldUnit()); err != nil {
				return nil, said("--edge", err)
			}
		} else {
			length, err := measure.ParsePositiveLength(text, l.fieldUnit())
			if err != nil {
				return nil, said("--edge", err)
			}
			j.Segments = []binding.Segment{{Name: "edge", Length: length, Turning: degrees * math.Pi / 180}}
		}
		out = append(out, j)
	}
	for _, text := range w.along {
		corners, err := cornersIn("--along", text, l.fieldUnit())
		if err != nil {
			return nil, err
		}
		var points [][2]float64
		for _, p := range corners {
			points = append(points, [2]float64{float64(p.X), float64(p.Y)})
		}
		j := binding.Job{Name: "edge", Closed: w.closed, Count: w.count}
		if j.Segments, err = binding.EdgeAlong(points, w.closed); err != nil {
			return nil, said("--along", err)
		}
		out = append(out, j)
	}
	for i := range out {
		out[i].Units = l.settings.Units
		out[i].Finish = binding.Finish{Technique: binding.WrappedTurned, Width: measure.Centimetre, Seam: measure.Centimetre}
	}
	return out, nil
}
