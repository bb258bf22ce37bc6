package drawn

import (
	"fmt"
	"slices"
	"strings"

	"tallycloth/stash/shape"
)

// Word is what is written in one place of a drawing, a line of it.
type Word struct {
	Text string
	// At are places in the frame of pattern pieces that lie in the writing: its middle, as far as that can be
	// told, then where it begins.
	At     [2]shape.Point
	Height int64 // of its letters, µm; 0 where it is not known
	Group  []string
}

// mostWords are kept; mostLetters is how long a name becomes at most.
const (
	mostWords   = 5_000
	mostLetters = 60
)

// Write takes what is written in a place of the page, in mm: where it begins, its middle and how high its
// letters are. A line of nothing but space is none.
func (c *Collector) Write(text string, from, middle Place, height float64, group []string) {
	text = strings.Join(strings.Fields(text), " ")
	if r := []rune(text); len(r) > mostLetters {
		text = string(r[:mostLetters]) + "…"
	}
	begin, ok := onPiece(from)
	mid, okay := onPiece(middle)
	if text == "" || !ok || !okay || len(c.out.Words) >= mostWords {
		return
	}
	if !(height > 0 && height < 1e6) {
		height = 0
	}
	c.out.Words = append(c.out.Words, Word{Text: text, At: [2]shape.Point{mid, begin}, Height: Micro(height), Group: group})
}

// written is a word in an outline.
type written struct{ word, shape int }

// nameByWords gives outlines that nobody named what is written in them: of what is written once in its layer
// or group, or twice, the largest letters; of equal ones the first. What stands in more outlines is the name of
// the pattern, or says how pieces are cut.
func (d *Drawing) nameByWords() {
	in := d.wordsIn()
	type key struct{ group, text string }
	often := map[key]int{}
	of := func(w written) key {
		return key{strings.Join(d.Shapes[w.shape].Group, "\x00"), strings.ToLower(d.Words[w.word].Text)}
	}
	for _, w := range in {
		often[of(w)]++
	}
	used := make([]bool, len(d.Words))
	best := map[int]int{} // word by shape
	for _, w := range in {
		if f := d.Shapes[w.shape]; f.Given || often[of(w)] > 2 || saysFold(d.Words[w.word].Text) || !hasLetter(d.Words[w.word].Text) {
			continue
		}
		if b, ok := best[w.shape]; !ok || better(d.Words[w.word], often[of(w)], d.Words[b], often[of(written{b, w.shape})]) {
			best[w.shape] = w.word
		}
	}
	for i, w := range best {
		d.Shapes[i].Name, d.Shapes[i].Written = d.Words[w].Text, true
		used[w] = true
	}
	for _, w := range in { // a title that says the same
		used[w.word] = used[w.word] || strings.EqualFold(d.Words[w.word].Text, d.Shapes[w.shape].Name)
	}
	d.tellWords(used)
}

// better says whether one word names an outline rather than another that came before it.
func better(a Word, times int, b Word, before int) bool {
	if (times == 1) != (before == 1) {
		return times == 1
	}
	return a.Height > b.Height
}

func hasLetter(text string) bool {
	return strings.ContainsFunc(text, func(r rune) bool { return strings.ToUpper(string(r)) != strings.ToLower(string(r)) || r > 0x2e80 })
}

// wordsIn finds the outlines around each word: the smallest of its own layer or group, or where that has none
// the smallest of every other.
func (d *Drawing) wordsIn() (out []written) {
	if len(d.Words) == 0 {
		return nil
	}
	var big []int
	boxes := map[int]shape.Box{}
	for i, f := range d.Shapes {
		if f.Usable() && f.Area >= smallestPiece {
			big, boxes[i] = append(big, i), f.Ring.Bounds()
		}
	}
	slices.SortStableFunc(big, func(i, j int) int { return int(min(max(d.Shapes[i].Area-d.Shapes[j].Area, -1), 1)) })
	looks := mostLooks / 10
	for k, w := range d.Words {
		var found []int
		groups := map[string]bool{}
		for _, i := range big {
			f := d.Shapes[i]
			g := strings.Join(f.Group, "\x00")
			if groups[g] {
				continue
			}
			if looks -= len(f.Ring); looks < 0 {
				return out
			}
			if within(f.Ring, boxes[i], w.At) {
				groups[g], found = true, append(found, i)
			}
		}
		if own := slices.IndexFunc(found, func(i int) bool { return slices.Equal(d.Shapes[i].Group, w.Group) }); own >= 0 {
			found = found[own : own+1]
		}
		for _, i := range found {
			out = append(out, written{k, i})
		}
	}
	return out
}

// within says whether one of two points lies in a ring.
func within(r shape.Ring, b shape.Box, at [2]shape.Point) bool {
	for _, p := range at {
		if p.X >= b.Min.X && p.Y >= b.Min.Y && p.X <= b.Max.X && p.Y <= b.Max.Y && r.Contains(p) {
			return true
		}
	}
	return false
}

// tellWords tells what is written and names nothing.
func (d *Drawing) tellWords(used []bool) {
	var left []string
	for i, w := range d.Words {
		if !used[i] && !saysFold(w.Text) && !slices.Contains(left, w.Text) {
			left = append(left, w.Text)
		}
	}
	const do = "Nothing to do if they are notes."
	switch {
	case len(left) == 0:
	case len(left) == 1:
		d.Warnings = append(d.Warnings, Warning{Reason: Text, Name: left[0], What: "words were left out", Do: do})
	default:
		const most = 6
		text := "“" + strings.Join(left[:min(most, len(left))], "”, “") + "”"
		if len(left) > most {
			text += fmt.Sprintf(" and %d more", len(left)-most)
		}
		d.Warnings = append(d.Warnings, Warning{Reason: Text, What: "these words were left out: " + text, Do: do})
	}
}
