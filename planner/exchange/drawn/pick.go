package drawn

import (
	"context"
	"slices"

	"tallycloth/stash/shape"
)

// Trait is what tells the lines of one size from those of another.
type Trait string

// The traits.
const (
	ByLayer  Trait = "layer"
	ByColour Trait = "colour"
	ByDash   Trait = "dash"
)

// EverySize is given to lines that belong to all sizes.
const EverySize = "*"

// pickNear is how far apart ends of lines may lie that make one outline of a size, in mm.
const pickNear = 0.4

// Value is one value of a trait, with how many outlines and open lines have it.
type Value struct {
	Of              string
	Outlines, Lines int
}

// of is a shape's value of a trait: the outermost layer, the colour, the dash.
func (t Trait) of(f Found) string {
	switch t {
	case ByColour:
		return f.Line.Colour
	case ByDash:
		return f.Line.Dash
	}
	if len(f.Group) > 0 {
		return f.Group[0]
	}
	return ""
}

// Values lists the values of a trait in the order in which they come, test squares left out.
func (d Drawing) Values(t Trait) (out []Value) {
	squares := d.squareShapes()
	for i, f := range d.Shapes {
		if squares[i] {
			continue
		}
		v := t.of(f)
		k := slices.IndexFunc(out, func(x Value) bool { return x.Of == v })
		if k < 0 {
			k = len(out)
			out = append(out, Value{Of: v})
		}
		if f.Ring != nil {
			out[k].Outlines++
		} else {
			out[k].Lines++
		}
	}
	return out
}

func (d Drawing) squareShapes() map[int]bool {
	out := map[int]bool{}
	for _, q := range d.Squares {
		out[q.Shape] = true
	}
	return out
}

// Pick says which lines make which size: the size of every value of a trait, EverySize, or
// nothing for lines to leave out.
type Pick struct {
	By    Trait
	Sizes map[string]string
}

// names are the sizes in the order in which their values come.
func (p Pick) names(values []Value) (out []string) {
	for _, v := range values {
		if s := p.Sizes[v.Of]; s != "" && s != EverySize && !slices.Contains(out, s) {
			out = append(out, s)
		}
	}
	return out
}

// Picked makes a drawing whose layers are the sizes of a pick: for each the lines of that size and
// those of every size, joined where their ends meet. Test squares stay. The error is that of a
// context that ended.
func (d Drawing) Picked(ctx context.Context, p Pick) (Drawing, error) {
	c := Collector{Limits: Limits{Outline: 1 << 20}, Brief: true}
	squares := d.squareShapes()
	for _, size := range p.names(d.Values(p.By)) {
		var runs []Run
		for i, f := range d.Shapes {
			if s := p.Sizes[p.By.of(f)]; !squares[i] && (s == size || s == EverySize) {
				runs = append(runs, Run{Points: f.places(), Closed: f.Ring != nil, Tag: i})
			}
		}
		runs, _ = Join(runs, pickNear)
		for _, r := range runs {
			f := d.Shapes[r.Tag]
			if f.Written { // it is named anew in every size
				f.Name = ""
			}
			c.Add(r.Points, r.Closed, Found{Name: f.Name, Given: f.Given, ID: f.ID, Group: []string{size}, Object: len(c.out.Shapes), Line: f.Line, Heads: f.Heads})
		}
	}
	for i, f := range d.Shapes {
		if squares[i] {
			c.Add(f.places(), true, Found{Name: f.Name, ID: f.ID, Object: len(c.out.Shapes), Line: f.Line})
		}
	}
	for _, w := range d.Words {
		w.Group = nil
		c.out.Words = append(c.out.Words, w)
	}
	out, err := c.Finish(ctx, d.Scale)
	if err != nil {
		return Drawing{}, err
	}
	for _, w := range d.Warnings {
		if w.Reason != OpenPath && w.Reason != Crossing && w.Reason != Text {
			out.Warnings = append(out.Warnings, w)
		}
	}
	out.Pages = d.Pages
	return out, nil
}

// places are the points of a shape on the page, in mm.
func (f Found) places() []Place {
	pts := f.points()
	out := make([]Place, len(pts))
	for i, p := range pts {
		q := onPage(p)
		out[i] = Place{float64(q.X) / 1000, float64(q.Y) / 1000}
	}
	return out
}

// alike is the least share of their common box that outlines of one piece in two sizes cover,
// when they are drawn one in the other.
const alike = 0.5

// sameSpot is the unnamed piece that is drawn in the same place in another size, -1 for none.
func (b *builder) sameSpot(box shape.Box, size string) int {
	best, at := alike, -1
	for k, spot := range b.spots {
		if _, taken := b.pieces[k].Outlines[size]; taken {
			continue
		}
		if s := overlap(spot, box); s > best {
			best, at = s, k
		}
	}
	return at
}

// overlap is the share that two boxes have in common of what they cover together.
func overlap(a, b shape.Box) float64 {
	x := min(a.Max.X, b.Max.X) - max(a.Min.X, b.Min.X)
	y := min(a.Max.Y, b.Max.Y) - max(a.Min.Y, b.Min.Y)
	if x <= 0 || y <= 0 {
		return 0
	}
	area := func(c shape.Box) float64 { return float64(c.Length()) * float64(c.Width()) }
	both := float64(x) * float64(y)
	return both / (area(a) + area(b) - both)
}
