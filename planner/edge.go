package planner

import (
	"cmp"
	"context"
	"fmt"
	"slices"
	"strings"

	"tallycloth/planner/binding"
	"tallycloth/planner/pattern"
	"tallycloth/stash"
	"tallycloth/stash/measure"
)

const (
	// usualWidth of a finish where a pattern proposes none (common practice).
	usualWidth = 10 * measure.Millimetre
	// turnOfCloth is what goes round the edge in a wrapped finish (common practice: 2–3 mm).
	turnOfCloth = 2 * measure.Millimetre
	// headGirth is an adult's head where the body chart has none (from memory).
	headGirth = 57 * measure.Centimetre
)

// EdgeJobs lists the strips of every edge to finish of a pattern in a size, measured on
// the stitching line of its outlines. Edges whose finish takes no strip (a turned hem,
// elastic) are left out.
func (s *Studio) EdgeJobs(ctx context.Context, patternID stash.ID, size string) ([]binding.Job, error) {
	p, err := s.Pattern(ctx, patternID)
	if err != nil {
		return nil, fmt.Errorf("looking for edges to finish: %w", err)
	}
	set, err := s.Settings(ctx)
	if err != nil {
		return nil, fmt.Errorf("looking for edges to finish: %w", err)
	}
	return edgeJobs(p, size, set)
}

func edgeJobs(p pattern.Pattern, size string, set Settings) ([]binding.Job, error) {
	body, ok := p.Size(size)
	if !ok {
		return nil, invalid("Choose one of its sizes", "%s has no size %q", p.Name, size)
	}
	var out []binding.Job
	for _, e := range p.Edges {
		finish, ok := finishOf(p, e, set)
		if !ok {
			continue
		}
		segments, missing := p.Measure(e, size)
		if len(missing) > 0 {
			return nil, refused("Bring in outlines that have it, or type its length",
				"The stitching line of %s is missing in size %s of %s", strings.Join(missing, ", "), size, p.Name)
		}
		out = append(out, jobOf(e, finish, segments, body, set.Units))
	}
	return binding.Cross(out), nil
}

// finishOf is the finish that an edge proposes, completed; false when it takes no strip.
func finishOf(p pattern.Pattern, e pattern.Edge, set Settings) (binding.Finish, bool) {
	f := binding.Finish{Technique: binding.Technique(e.Finish), Width: cmp.Or(e.Width, usualWidth)}
	if e.Finish == "" {
		f.Technique = binding.WrappedTurned
	}
	if !slices.Contains(set.AllTechniques(), f.Technique) {
		return f, false
	}
	f.Seam, f.Own = f.Width, set.Recipe(f.Technique)
	switch f.Technique {
	case binding.WrappedTurned, binding.DoubleWrap:
		f.Turn = turnOfCloth
	case binding.WrappedFlat:
		f.Caught = binding.CaughtPlain
	default:
		f.Seam = cmp.Or(p.SeamAllowance, f.Width)
	}
	return f, true
}

func jobOf(e pattern.Edge, f binding.Finish, segments []pattern.MeasuredSegment, body pattern.Size, units measure.System) binding.Job {
	j := binding.Job{Name: e.Name, Closed: e.Closed, Count: max(e.Count, 1), Finish: f,
		Drawn: binding.DrawnOut, EndExtra: binding.FreeEndExtra, Units: units}
	for _, s := range segments {
		j.Segments = append(j.Segments, binding.Segment{Name: s.Name, Length: s.Length, Turning: s.Turning,
			Free: s.EdgeSegment.Piece == "", Mark: s.MarkEnd, NoJoin: s.NoJoin, JoinHere: s.JoinHere, Catches: s.Catches})
	}
	if e.Closed && e.Passes != "" {
		j.PassesName, j.Passes = e.Passes, body.Body[e.Passes]
		if j.Passes == 0 && e.Passes == "head" {
			j.Passes = headGirth
		}
	}
	return j
}
