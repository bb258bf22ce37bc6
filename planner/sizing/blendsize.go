package sizing

import (
	"fmt"
	"maps"
	"slices"

	"tallycloth/planner/adjust"
	"tallycloth/planner/pattern"
	"tallycloth/stash/measure"
	"tallycloth/stash/shape"
)

// Blended is a pattern with one more size, a blend of others by level.
type Blended struct {
	Pattern pattern.Pattern
	Size    string
	Kept    []string // names of pattern pieces that keep the size of the bust
}

// BlendSize adds a size that is one size at the bust, and may be others at waist and hip.
// What has an armhole and a plain side seam, half on the fold, is blended; other pieces keep
// the size of the bust. It refuses a pattern without such a piece, and outlines that do not
// correspond.
func BlendSize(p pattern.Pattern, bust, waist, hip string) (Blended, error) {
	for _, name := range []string{bust, waist, hip} {
		if _, ok := p.Size(name); !ok {
			return Blended{}, invalid(fmt.Sprintf("%s has no size %q", p.Name, name), "Choose one of its sizes.")
		}
	}
	out := Blended{Size: bust + " to " + hip, Pattern: p}
	if bust == hip {
		out.Size = bust + ", waist " + waist
	}
	if _, there := p.Size(out.Size); there || bust == waist && bust == hip {
		return Blended{}, invalid("there is nothing to blend, or that blend is a size already", "Choose the size "+out.Size+", or other sizes for the levels.")
	}
	out.Pattern.Pieces = slices.Clone(p.Pieces)
	blended := 0
	for i := range out.Pattern.Pieces {
		q := &out.Pattern.Pieces[i]
		o, ok := q.Outlines[bust]
		if !ok {
			continue
		}
		q.Outlines = maps.Clone(q.Outlines)
		d, plain := depthsOf(*q, bust)
		if !plain {
			q.Outlines[out.Size] = o
			out.Kept = append(out.Kept, q.Name)
			continue
		}
		mixed, err := blendPiece(*q, d, bust, waist, hip)
		if err != nil {
			return Blended{}, fmt.Errorf("%s: %w", q.Name, err)
		}
		q.Outlines[out.Size] = mixed
		blended++
	}
	if blended == 0 {
		return Blended{}, invalid("no pattern piece has an armhole and a plain side seam on the fold to blend", "Take the size that fits where it is closest, and let out or take in when it is tried on.")
	}
	out.Pattern.Sizes = withBlend(p, out.Size, bust, waist, hip)
	follow(&out.Pattern, out.Size, bust, hip)
	return out, nil
}

// depths are how deep the levels lie on a half.
type depths struct{ bust, waist, hip measure.Length }

// depthsOf finds the levels of a half with an armhole: the bust at the underarm, the waist
// where the side is narrowest below it, the hip where it is widest below the waist.
func depthsOf(q pattern.Piece, size string) (depths, bool) {
	o := q.Outlines[size]
	var d depths
	for _, e := range o.Edges {
		if e.Name == "armhole" {
			for _, pt := range e.Points {
				d.bust = max(d.bust, measure.Length(pt.X))
			}
		}
	}
	if !q.OnFold || d.bust == 0 {
		return d, false
	}
	d.bust += 2 * measure.Centimetre // below what the seam allowance of the armhole takes
	foot := measure.Length(o.Cut.Bounds().Max.X)
	side := func(x measure.Length) measure.Length {
		if c := adjust.Crossings(o.Cut, int64(x)); len(c) == 2 {
			return measure.Length(c[1])
		}
		return 0
	}
	low, high := measure.Length(1<<62), measure.Length(0)
	for x := d.bust; x < foot-4*measure.Centimetre; x += measure.Centimetre / 2 {
		if y := side(x); y > 0 && y < low {
			low, d.waist = y, x
		}
	}
	for x := d.waist; x < foot; x += measure.Centimetre / 2 {
		if y := side(x); y > high+measure.Millimetre/10 {
			high, d.hip = y, x
		}
	}
	return d, d.bust < d.waist && d.waist < d.hip
}

func blendPiece(q pattern.Piece, d depths, bust, waist, hip string) (pattern.Outline, error) {
	o, foot := q.Outlines[bust], q.Outlines[hip]
	cut, err := o.Cut, error(nil)
	for _, step := range []struct {
		to       string
		from, at measure.Length
	}{{waist, d.bust, d.waist}, {hip, d.waist, d.hip}} {
		next, ok := q.Outlines[step.to]
		if !ok {
			return o, invalid("it has no outline in size "+step.to, "Bring in the missing outline.")
		}
		if cut, err = Blend(cut, next.Cut, []Stop{{step.from, 0}, {step.at, 1}}); err != nil {
			return o, err
		}
	}
	out := o
	out.Cut, out.Edges, out.Notches = cut, nil, nil
	for _, e := range o.Edges { // what lies above the bust stays, what lies below the hip is that size's
		if lowest(e.Points) <= int64(d.bust) {
			out.Edges = append(out.Edges, e)
		}
	}
	for _, e := range foot.Edges {
		if len(e.Points) > 0 && highest(e.Points) >= int64(d.hip) {
			out.Edges = append(out.Edges, e)
		}
	}
	for _, n := range o.Notches {
		if n.At.X > int64(d.bust) {
			c := adjust.Crossings(cut, n.At.X)
			if len(c) != 2 {
				continue
			}
			n.At.Y = c[1]
		}
		out.Notches = append(out.Notches, n)
	}
	return out, nil
}

func lowest(pts []shape.Point) int64 {
	x := pts[0].X
	for _, p := range pts {
		x = max(x, p.X)
	}
	return x
}

func highest(pts []shape.Point) int64 {
	x := pts[0].X
	for _, p := range pts {
		x = min(x, p.X)
	}
	return x
}

// withBlend puts the new size after that of the bust, its charts level by level.
func withBlend(p pattern.Pattern, name, bust, waist, hip string) []pattern.Size {
	at := slices.IndexFunc(p.Sizes, func(s pattern.Size) bool { return s.Name == bust })
	s := p.Sizes[at]
	s.Name, s.Body, s.Finished = name, maps.Clone(s.Body), maps.Clone(s.Finished)
	for level, from := range map[string]string{pattern.Waist: waist, pattern.Hip: hip} {
		o, _ := p.Size(from)
		if l, ok := o.Body[level]; ok {
			s.Body[level] = l
		}
		if l, ok := o.Finished[level]; ok {
			s.Finished[level] = l
		}
	}
	return slices.Insert(slices.Clone(p.Sizes), at+1, s)
}

// follow gives the new size what others say by size: free lengths and notions as at the
// bust, the yardage table as for the larger of bust and hip.
func follow(p *pattern.Pattern, name, bust, hip string) {
	p.Edges = slices.Clone(p.Edges)
	for i := range p.Edges {
		p.Edges[i].Segments = slices.Clone(p.Edges[i].Segments)
		for k := range p.Edges[i].Segments {
			if s := &p.Edges[i].Segments[k]; s.Free != nil {
				s.Free = maps.Clone(s.Free)
				s.Free[name] = s.Free[bust]
			}
		}
	}
	p.Notions = slices.Clone(p.Notions)
	for i := range p.Notions {
		if q, ok := p.Notions[i].Quantity[bust]; ok {
			p.Notions[i].Quantity = maps.Clone(p.Notions[i].Quantity)
			p.Notions[i].Quantity[name] = q
		}
	}
	larger := bust
	for _, s := range p.Sizes {
		if s.Name == bust || s.Name == hip {
			larger = s.Name
		}
	}
	p.Yards = slices.Clone(p.Yards)
	for i := range p.Yards {
		if slices.Contains(p.Yards[i].Sizes, larger) {
			p.Yards[i].Sizes = append(slices.Clone(p.Yards[i].Sizes), name)
		}
	}
}
