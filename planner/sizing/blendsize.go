package sizing

import (
	"cmp"
	"fmt"
	"maps"
	"slices"
	"strings"

	"tallycloth/planner/pattern"
	"tallycloth/stash/measure"
)

// Blended is a pattern with one more size, a blend of others by level.
type Blended struct {
	Pattern pattern.Pattern
	Size    string
	Kept    []string // names of pattern pieces that keep the size of the first level
	// Whole are levels that asked for another size and that no pattern piece could follow.
	Whole []string
}

// blendLevels are the levels that a blend can have, from the top of a body down; the first
// that a blend has is the one whose size it begins with.
var blendLevels = []string{pattern.Bust, pattern.Waist, pattern.Hip, pattern.Thigh, UpperArm}

// LevelsToBlend are the levels that a pattern says of its sizes and that may be another size each.
func LevelsToBlend(p pattern.Pattern) []string {
	return slices.DeleteFunc(slices.Clone(blendLevels), func(level string) bool {
		return !slices.ContainsFunc(p.Sizes, func(s pattern.Size) bool { return s.Body[level]+s.Finished[level] > 0 })
	})
}

// BlendSize adds a size that is one size at the bust, and may be others at waist and hip.
func BlendSize(p pattern.Pattern, bust, waist, hip string) (Blended, error) {
	return BlendLevels(p, map[string]string{pattern.Bust: bust, pattern.Waist: waist, pattern.Hip: hip})
}

// BlendLevels adds a size that is another of the pattern's sizes at each level: at bust, waist
// and hip of a top, at waist, hip and thigh of legs and of a skirt, at the upper arm of a sleeve.
// A level that is not said goes with the one above it, the upper arm with the bust.
//
// Blended are halves on the fold with an armhole, skirts on the fold, legs, and sleeves: their
// cap stays that of the bust, for it goes into that armhole, and below the underarm they run
// over to the size of the arm. Other pieces keep the first size. It refuses a pattern without
// any such piece, and outlines that do not correspond.
func BlendLevels(p pattern.Pattern, said map[string]string) (Blended, error) {
	at, first, err := fullLevels(p, said)
	if err != nil {
		return Blended{}, err
	}
	if first == pattern.Bust && !slices.ContainsFunc(p.Pieces, func(q pattern.Piece) bool { return deepest(q.Outlines[at[first]], "armhole") > 0 }) {
		return Blended{}, invalid("no pattern piece has an armhole, so there is no bust to begin with", "Say the sizes from the waist down.")
	}
	out := Blended{Pattern: p}
	out.Pattern.Pieces = slices.Clone(p.Pieces)
	base, moved := at[first], map[string]bool{}
	done := map[string]pattern.Outline{}
	for i, q := range out.Pattern.Pieces {
		o, ok := q.Outlines[base]
		if !ok {
			continue
		}
		ways := waysOf(q, base)
		for _, w := range ways {
			moved[w.level] = true
		}
		if o, err = blend(q, o, ways, base, at); err != nil {
			return Blended{}, fmt.Errorf("%s: %w", q.Name, err)
		}
		if len(ways) == 0 {
			out.Kept = append(out.Kept, q.Name)
		}
		out.Pattern.Pieces[i].Outlines = maps.Clone(q.Outlines)
		done[q.Code] = o
	}
	for _, level := range blendLevels[1:] { // a level that no pattern piece has goes with the one above
		if moved[level] || level == first {
			continue
		}
		above := base
		if level == pattern.Thigh {
			above = at[pattern.Hip]
		}
		if at[level] != above && said[level] != "" {
			out.Whole = append(out.Whole, level)
		}
		at[level] = above
	}
	if out.Size = blendName(at, first); out.Size == base {
		return Blended{}, invalid("no pattern piece has those levels: blended are tops and skirts on the fold, legs, and sleeves below the underarm", "Take the size that fits where it is closest, and let out or take in when it is tried on.")
	}
	if _, there := p.Size(out.Size); there {
		return Blended{}, invalid("that blend is a size already", "Choose the size "+out.Size+", or other sizes for the levels.")
	}
	for _, q := range out.Pattern.Pieces {
		if o, ok := done[q.Code]; ok {
			q.Outlines[out.Size] = o
		}
	}
	out.Pattern.Sizes = withBlend(p, out.Size, base, at)
	follow(&out.Pattern, out.Size, base, at[pattern.Hip])
	return out, nil
}

// fullLevels says the size of every level, and which is the first that was said.
func fullLevels(p pattern.Pattern, said map[string]string) (map[string]string, string, error) {
	first := ""
	out := map[string]string{}
	for level, name := range said {
		if name == "" {
			continue
		}
		if !slices.Contains(blendLevels, level) {
			return nil, "", invalid("sizes are not blended at the "+level, "Say them at "+strings.Join(blendLevels, ", ")+".")
		}
		if _, ok := p.Size(name); !ok {
			return nil, "", invalid(fmt.Sprintf("%s has no size %q", p.Name, name), "Choose one of its sizes.")
		}
		out[level] = name
	}
	above := ""
	for _, level := range blendLevels {
		if out[level] != "" && first == "" {
			first, above = level, out[level]
		}
		if level == UpperArm {
			above = out[first]
		}
		out[level] = cmp.Or(out[level], above)
		above = out[level]
	}
	if first == "" {
		return nil, "", invalid("the sizes to blend are not said by level", "Say which size it is at two levels at least.")
	}
	for _, level := range blendLevels { // what lies above the first goes with it
		out[level] = cmp.Or(out[level], out[first])
	}
	if !slices.ContainsFunc(blendLevels, func(l string) bool { return out[l] != out[first] }) {
		return nil, "", invalid("there is nothing to blend: it is one size at every level", "Choose that size, or other sizes for the levels.")
	}
	return out, first, nil
}

// blendName calls a blend by its sizes: "3 to 5", "3, waist 4", "3 to 5, upper arm 4".
func blendName(at map[string]string, first string) string {
	base := at[first]
	name := base
	if at[pattern.Hip] != base {
		name += " to " + at[pattern.Hip]
	} else if at[pattern.Waist] != base {
		name += ", waist " + at[pattern.Waist]
	}
	if at[pattern.Thigh] != at[pattern.Hip] {
		name += ", thigh " + at[pattern.Thigh]
	}
	if at[UpperArm] != base {
		name += ", upper arm " + at[UpperArm]
	}
	return name
}

// withBlend puts the new size after the one it begins with, its charts level by level.
func withBlend(p pattern.Pattern, name, base string, levels map[string]string) []pattern.Size {
	at := slices.IndexFunc(p.Sizes, func(s pattern.Size) bool { return s.Name == base })
	s := p.Sizes[at]
	s.Name, s.Body, s.Finished = name, maps.Clone(s.Body), maps.Clone(s.Finished)
	for level, from := range levels {
		o, _ := p.Size(from)
		for _, c := range []struct{ to, from map[string]measure.Length }{{s.Body, o.Body}, {s.Finished, o.Finished}} {
			if l, ok := c.from[level]; ok && c.to != nil {
				c.to[level] = l
			}
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
