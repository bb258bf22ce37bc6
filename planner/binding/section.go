package binding

import (
	"tallycloth/stash/measure"
	"tallycloth/stash/shape"
)

// Section is a finish cut through, to draw: x runs from the garment into the opening with
// the stitching line at zero, y is up from the garment's inside. Widths are true; layers are
// drawn a step apart so that they can be told.
type Section struct {
	Garment  []shape.Point
	Strip    []shape.Point
	Stitches []measure.Length // x of each row of stitching
	Step     measure.Length   // between layers
}

// Section returns how the finish lies. A technique of a person's own is drawn layer by layer.
// An unknown technique gives an empty Section.
func (f Finish) Section() Section {
	r, ok := f.Recipe()
	if !ok {
		return Section{}
	}
	d := drawer{f: int64(f.Width), s: int64(f.Seam), x: int64(f.Caught), g: max(int64(f.Width)/9, 300)}
	d.e = max(int64(f.Turn), d.g)
	out := Section{Step: measure.Length(d.g), Stitches: []measure.Length{0}}
	if _, known := recipes[f.Technique]; known {
		out.Garment, out.Strip = d.draw(f.Technique)
	} else {
		out.Garment, out.Strip = d.ownLines(r, f)
	}
	if f.SecondRow > 0 {
		row := f.Width - f.SecondRow
		if r.Lies == TurnsIn {
			row = -row
		}
		out.Stitches = append(out.Stitches, row)
	}
	return out
}

// drawer holds the widths of a section in µm: e is how far a turned edge reaches over
// the stitching, g the step between layers.
type drawer struct{ f, s, x, e, g int64 }

// draw returns garment and strip as lines through the layers.
func (d drawer) draw(t Technique) (garment, strip []shape.Point) {
	f, s, e, g := d.f, d.s, d.e, d.g
	far := -(f + s + 4*e)
	flat := []shape.Point{{X: far}, {X: min(s, f-g/2)}}
	turned := []shape.Point{{X: far}, {X: 0}, {X: 0, Y: -g}, {X: -s, Y: -g}}
	switch t {
	case WrappedTurned:
		return flat, []shape.Point{{X: min(s, f-g/2), Y: g}, {X: 0, Y: g}, {X: 0, Y: 2 * g}, {X: f, Y: 2 * g}, {X: f, Y: -2 * g}, {X: -e, Y: -2 * g}, {X: -e, Y: -g}, {X: min(s, f-g/2) - e, Y: -g}}
	case WrappedFlat:
		return flat, []shape.Point{{X: min(s, f-g/2), Y: g}, {X: 0, Y: g}, {X: 0, Y: 2 * g}, {X: f, Y: 2 * g}, {X: f, Y: -g}, {X: -max(d.x, e), Y: -g}}
	case DoubleWrap:
		return flat, []shape.Point{{X: min(s, f-g), Y: g}, {X: 0, Y: g}, {X: 0, Y: 4 * g}, {X: f, Y: 4 * g}, {X: f, Y: -2 * g}, {X: -e, Y: -2 * g},
			{X: -e, Y: -g}, {X: f - g/2, Y: -g}, {X: f - g/2, Y: 3 * g}, {X: g / 2, Y: 3 * g}, {X: g / 2, Y: 2 * g}, {X: min(s, f-g), Y: 2 * g}}
	case FoldedBand:
		return turned, []shape.Point{{X: -s, Y: -2 * g}, {X: 0, Y: -2 * g}, {X: 0, Y: -g}, {X: f, Y: -g}, {X: f, Y: -3 * g}, {X: -s, Y: -3 * g}}
	case FoldedFacing:
		return turned, []shape.Point{{X: -s, Y: -2 * g}, {X: -g / 2, Y: -2 * g}, {X: -g / 2, Y: -4 * g}, {X: -f, Y: -4 * g}, {X: -f, Y: -5 * g}, {X: 0, Y: -5 * g}, {X: 0, Y: -3 * g}, {X: -s, Y: -3 * g}}
	case Prefinished:
		return turned, []shape.Point{{X: -s, Y: -2 * g}, {X: 0, Y: -2 * g}, {X: 0, Y: -g}, {X: f, Y: -g}}
	}
	return []shape.Point{{X: far}, {X: f - g/2}}, []shape.Point{{X: -e, Y: g}, {X: f, Y: g}, {X: f, Y: -g}, {X: -e, Y: -g}}
}

// FoldLines returns where a strip as cut is folded, from its first edge, narrowing
// included: the seams, the finished fold, the turned edge, whichever the technique has.
func (s Strip) FoldLines() []measure.Length {
	f := s.Job.Finish
	var widths []measure.Length
	switch f.Technique {
	case WrappedTurned:
		widths = []measure.Length{f.Seam, f.Seam + f.Width, f.Seam + 2*f.Width + f.Turn}
	case WrappedFlat:
		widths = []measure.Length{f.Seam, f.Seam + f.Width}
	case DoubleWrap:
		half := f.Seam + 2*f.Width + f.Turn/2
		widths = []measure.Length{f.Seam, f.Seam + f.Width, half, 2*half - f.Seam - f.Width, 2*half - f.Seam}
	case FoldedBand, FoldedFacing:
		widths = []measure.Length{f.Seam, f.Seam + f.Width, f.Seam + 2*f.Width}
	case Prefinished:
		widths = []measure.Length{f.Seam}
	case FoldOver:
		widths = []measure.Length{f.Width}
	}
	flat, err := f.CutWidth()
	if err != nil {
		return nil
	}
	if _, known := recipes[f.Technique]; !known {
		widths = f.Own.folds(f)
	}
	for i, w := range widths {
		widths[i] = rounded(float64(w) * float64(s.CutWidth) / float64(flat))
	}
	return widths
}
