package dxf

import (
	"fmt"
	"math"
	"slices"
	"strconv"
	"strings"

	"tallycloth/planner/exchange/drawn"
	"tallycloth/planner/pattern"
)

// style reads a file that describes pattern pieces.
func (f *File) style(w *walker, o Options, blocks []int) (drawn.Drawing, error) {
	if len(blocks) > mostPieces {
		return drawn.Drawing{}, drawn.Unsupported(fmt.Sprintf("the file has more than %d pattern pieces", mostPieces), "Save the pattern pieces in several files.")
	}
	about := f.about()
	s, err := f.scale(o.Unit, about[unitsKey], w.notes)
	if err != nil {
		return drawn.Drawing{}, err
	}
	w.all = true
	placed, times := f.placed(w.notes, blocks)
	var all []*sized
	for _, i := range blocks {
		m := scaled(s.Unit, s.Unit)
		if at, ok := placed[i]; ok {
			m = at.then(m)
		}
		q, err := w.piece(&f.Blocks[i], m)
		if err != nil {
			return drawn.Drawing{}, err
		}
		if q == nil {
			continue
		}
		if q.cut == 0 && times[i] > 1 {
			w.notes.add(drawn.Counts, q.name, fmt.Sprintf("it does not say how many are cut, and is placed %d times; it was taken once", times[i]), "Say how often it is cut.")
		}
		if q.size == "" {
			q.size = about[sampleKey]
		}
		if q.size == "" {
			q.size = drawn.OneSize
		}
		all = append(all, q)
	}
	d := drawn.Drawing{Scale: s}
	if len(all) > 0 {
		g := grouper{notes: w.notes, pattern: pattern.Pattern{Name: about[styleKey], Maker: about[authorKey]}}
		g.group(all)
		if about[rulesKey] != "" && len(g.pattern.Sizes) == 1 {
			w.notes.add(drawn.Counts, "", fmt.Sprintf("further sizes are in a table of grade rules (%s), which is a file of its own and is not read", shorten(about[rulesKey])), "Have the file saved with all sizes drawn.")
		}
		if slices.ContainsFunc(all, func(q *sized) bool { return q.outline.GrainTop != q.outline.GrainFoot }) {
			w.notes.add(drawn.Grain, "", "a grain line does not say which of its ends is the top: the upper one was taken, or the left one where it runs from side to side", "Look at the arrows in the picture.")
		}
		plausible(g.pattern, w.notes)
		d.Stated = &g.pattern
	}
	d.Warnings = w.notes.warnings()
	return d, nil
}

// about gathers what is said once, wherever it stands.
func (f *File) about() map[string]string {
	out := map[string]string{}
	look := func(all []Entity) {
		for i := range all {
			if all[i].Text == "" {
				continue
			}
			if k, v, ok := keyed(all[i].Text); ok && out[k] == "" && (k == styleKey || k == authorKey || k == rulesKey || k == sampleKey || k == unitsKey) {
				out[k] = v
			}
		}
	}
	look(f.Entities)
	for _, b := range f.Blocks {
		look(b.Entities)
	}
	return out
}

// placed finds how blocks are turned and scaled where they are placed first, and how
// often each is placed. What is drawn beside the pieces is noted.
func (f *File) placed(n *notes, pieces []int) (map[int]affine, map[int]int) {
	at, times, piece := map[int]affine{}, map[int]int{}, map[int]bool{}
	for _, k := range pieces {
		piece[k] = true
	}
	beside := 0
	for i := range f.Entities {
		e := &f.Entities[i]
		k, ok := f.byName[key(e.Block)]
		if e.Kind != "INSERT" || !ok || !piece[k] {
			if _, _, known := keyed(e.Text); e.Text == "" || !known {
				beside++
			}
			continue
		}
		times[k] += max(1, e.Placed.Cols) * max(1, e.Placed.Rows)
		if times[k] > 1 && at[k] != (affine{}) {
			continue
		}
		plane, _ := flip(e.Normal)
		at[k] = plane.then(rotated(e.Placed.Turn * math.Pi / 180)).then(scaled(e.Placed.Scale.X, e.Placed.Scale.Y))
		if math.Abs(math.Abs(e.Placed.Scale.X)-1) > 1e-9 || math.Abs(math.Abs(e.Placed.Scale.Y)-1) > 1e-9 {
			n.add(drawn.Proportions, shorten(e.Block), "its block is placed larger or smaller than drawn, and was taken so", checkIt)
		}
	}
	if beside > 0 {
		n.add(drawn.NotRead, "", fmt.Sprintf("what is drawn beside the pattern pieces was left out, %d objects", beside), "Nothing to do if they are notes or a frame.")
	}
	return at, times
}

// plausible warns of pieces far smaller or larger than any garment's.
func plausible(p pattern.Pattern, n *notes) {
	most := int64(0)
	for _, q := range p.Pieces {
		for _, o := range q.Outlines {
			b := o.Cut.Bounds()
			most = max(most, b.Length(), b.Width())
		}
	}
	if most < 50_000 || most > 5_000_000 {
		n.add(drawn.Unit, "", fmt.Sprintf("the largest piece is %.0f mm long, so the unit of the file is doubtful", float64(most)/1000), "Compare a measurement you know, and read it again with another unit.")
	}
}

// grouper puts pieces in single sizes together.
type grouper struct {
	notes   *notes
	pattern pattern.Pattern
	index   map[string]int
}

func (g *grouper) group(all []*sized) {
	g.index = map[string]int{}
	stripSizes(all, g.notes)
	times := map[[2]string]int{}
	for _, q := range all {
		k := [2]string{q.name, q.size}
		if times[k]++; times[k] == 2 {
			g.notes.add(drawn.Double, q.name, "two blocks have this name in one size, so they became two pieces", "Rename one of them.")
		}
		g.add(q, fmt.Sprintf("%s\x00%d", q.name, times[k]))
	}
	g.sizes(all)
	g.everySize()
}

// stripSizes takes the size off the ends of names where all have it there.
func stripSizes(all []*sized, n *notes) {
	names := make([]string, len(all))
	distinct := map[string]bool{}
	for i, q := range all {
		short, ok := strings.CutSuffix(q.name, q.size)
		short = strings.TrimRight(short, " -_./")
		if !ok || short == "" || q.size == "" {
			return
		}
		names[i] = short
		distinct[short] = true
	}
	if len(distinct) == len(all) {
		return
	}
	for i, q := range all {
		q.name = names[i]
	}
	n.add(drawn.Counts, "", "the names of the pieces end in their sizes; the sizes were taken off", "Nothing to do if the names are right.")
}

// add adds a piece in one size.
func (g *grouper) add(q *sized, key string) {
	i, ok := g.index[key]
	if !ok {
		i = len(g.pattern.Pieces)
		g.index[key] = i
		g.pattern.Pieces = append(g.pattern.Pieces, g.first(q, i))
	}
	p := &g.pattern.Pieces[i]
	for _, t := range q.notes {
		g.note(q.name, t)
	}
	if q.onFold != p.OnFold {
		g.notes.add(drawn.Counts, q.name, "it is a half on the fold in some sizes and whole in others; it was opened out", checkIt)
		if q.onFold {
			q.outline = opened(q.outline)
		}
		for z, o := range p.Outlines {
			if p.OnFold {
				p.Outlines[z] = opened(o)
			}
		}
		p.OnFold = false
	}
	if q.cut != 0 && q.cut != p.Cut {
		g.notes.add(drawn.Counts, q.name, "its quantity is not the same in all sizes; that of the first was taken", "Check how often it is cut.")
	}
	p.Outlines[q.size] = q.outline
}

// first makes a piece of its first size.
func (g *grouper) first(q *sized, i int) pattern.Piece {
	p := pattern.Piece{Code: g.code(q.letter, i), Name: q.name, Role: g.role(q), Cut: max(q.cut, 1), Pairs: q.pairs, OnFold: q.onFold,
		Grain: q.grain, Fixed: q.fixed, WithoutAllowance: q.bare, Outlines: map[string]pattern.Outline{}}
	if q.cut == 0 {
		g.notes.add(drawn.Counts, q.name, "it does not say how many are cut, so it is cut once", "Say how often it is cut.")
	}
	if p.Pairs && (p.Cut%2 != 0 || p.OnFold) {
		p.Pairs = false
		g.notes.add(drawn.Counts, q.name, "it cannot be cut in pairs, as its number is odd or it lies on the fold", "Check how often it is cut.")
	}
	return p
}

// code is the letter of a piece: its own where it has one that no other has.
func (g *grouper) code(own string, i int) string {
	taken := func(c string) bool {
		return c == "" || slices.ContainsFunc(g.pattern.Pieces, func(p pattern.Piece) bool { return p.Code == c })
	}
	for taken(own) {
		own = pattern.Letters(i)
		i++
	}
	return own
}

// role is what a piece is cut from, by its material.
func (g *grouper) role(q *sized) string {
	name := strings.ToLower(q.material)
	switch known := usual[name]; {
	case name == "":
		name = pattern.Main
	case known != "":
		name = known
	default:
		name = q.material
		g.notes.add(drawn.Counts, q.name, fmt.Sprintf("its material is %q, so that is a use of fabric of its own", shorten(q.material)), "Nothing to do if it is cut from another fabric.")
	}
	if _, ok := g.pattern.Role(name); !ok {
		g.pattern.Roles = append(g.pattern.Roles, pattern.Role{Name: name})
	}
	return name
}

// note keeps words of a piece in the notes of the pattern.
func (g *grouper) note(piece, text string) {
	lines := strings.Split(g.pattern.Notes, "\n")
	text = piece + ": " + text
	if slices.Contains(lines, text) || len(lines) > 500 {
		return
	}
	g.pattern.Notes = strings.TrimPrefix(g.pattern.Notes+"\n"+text, "\n")
	g.notes.add(drawn.Text, piece, "words on it were kept in the notes of the pattern", "Nothing to do.")
}

// letters are sizes by letters, in grading order (common practice): those with a count before the letter,
// and those that write the letter as often.
var letters = func() (out []string) {
	for n := 3; n > 1; n-- {
		out = append(out, strings.Repeat("X", n)+"S", strconv.Itoa(n)+"XS")
	}
	out = append(out, "XS", "S", "M", "L", "XL")
	for n := 2; n < 4; n++ {
		out = append(out, strings.Repeat("X", n)+"L", strconv.Itoa(n)+"XL")
	}
	return append(out, "4XL", "5XL", "6XL")
}()

// sizes lists the sizes: by number or by letter where all are such, else as they come.
func (g *grouper) sizes(all []*sized) {
	var names []string
	numbers, known := map[string]float64{}, true
	for _, q := range all {
		if slices.Contains(names, q.size) {
			continue
		}
		names = append(names, q.size)
		if v, err := strconv.ParseFloat(q.size, 64); err == nil {
			numbers[q.size] = v
		}
		known = known && slices.Contains(letters, strings.ToUpper(q.size))
	}
	rank := func(z string) float64 { return float64(slices.Index(letters, strings.ToUpper(z))) }
	if len(numbers) == len(names) {
		rank, known = func(z string) float64 { return numbers[z] }, true
	}
	if known {
		slices.SortStableFunc(names, func(a, b string) int {
			switch ra, rb := rank(a), rank(b); {
			case ra < rb:
				return -1
			case ra > rb:
				return 1
			}
			return 0
		})
	}
	for _, z := range names {
		g.pattern.Sizes = append(g.pattern.Sizes, pattern.Size{Name: z})
	}
}

// everySize gives pieces that are drawn once to every size, and tells of those that lack some.
func (g *grouper) everySize() {
	for _, p := range g.pattern.Pieces {
		if len(g.pattern.Sizes) == 1 || len(p.Outlines) == len(g.pattern.Sizes) {
			continue
		}
		if len(p.Outlines) > 1 {
			g.notes.add(drawn.Counts, p.Name, "it is not drawn in every size", "Bring in the missing outlines, or take the others of that size out.")
			continue
		}
		for _, o := range p.Outlines {
			for _, z := range g.pattern.Sizes {
				p.Outlines[z.Name] = o
			}
			break
		}
		g.notes.add(drawn.Counts, p.Name, "it is drawn in one size, so it is the same in all", "Check whether one serves for every size.")
	}
}
