package binding

import (
	"fmt"
	"strings"

	"tallycloth/stash/measure"
)

// Lie says how a finish lies to its edge.
type Lie int

// The ways a finish lies.
const (
	Wraps   Lie = iota // round the cut edge
	Stands             // above the edge, into the opening
	TurnsIn            // turned to the inside, as a facing
)

// Recipe is a technique as layers: how many times each width lies in the section.
type Recipe struct {
	Widths  int // finished widths f
	Seams   int // seams s
	Turns   int // turns of cloth c
	Caughts int // edges to be caught x
	Lies    Lie
}

// Width adds the layers up for a finish.
func (r Recipe) Width(f Finish) measure.Length {
	return measure.Length(r.Widths)*f.Width + measure.Length(r.Seams)*f.Seam +
		measure.Length(r.Turns)*f.Turn + measure.Length(r.Caughts)*f.Caught
}

// words of a recipe: how a layer and a way to lie are named.
var (
	layerWords = map[string]func(*Recipe) *int{
		"width": func(r *Recipe) *int { return &r.Widths }, "widths": func(r *Recipe) *int { return &r.Widths },
		"seam": func(r *Recipe) *int { return &r.Seams }, "seams": func(r *Recipe) *int { return &r.Seams },
		"turn": func(r *Recipe) *int { return &r.Turns }, "turns": func(r *Recipe) *int { return &r.Turns },
		"caught edge": func(r *Recipe) *int { return &r.Caughts }, "caught edges": func(r *Recipe) *int { return &r.Caughts },
	}
	countWords = map[string]int{
		"a": 1, "an": 1, "one": 1, "1": 1, "two": 2, "2": 2, "three": 3, "3": 3, "four": 4, "4": 4,
		"five": 5, "5": 5, "six": 6, "6": 6, "seven": 7, "7": 7, "eight": 8, "8": 8,
	}
	lieWords = map[Lie]string{Wraps: "wraps the edge", Stands: "stands above the edge", TurnsIn: "turned in"}
)

// String writes a recipe as ParseRecipe reads it: "2 widths, 2 seams, 1 turn, wraps the edge".
func (r Recipe) String() string {
	var out []string
	add := func(n int, one, many string) {
		switch {
		case n == 1:
			out = append(out, "1 "+one)
		case n > 1:
			out = append(out, fmt.Sprintf("%d %s", n, many))
		}
	}
	add(r.Widths, "width", "widths")
	add(r.Seams, "seam", "seams")
	add(r.Turns, "turn", "turns")
	add(r.Caughts, "caught edge", "caught edges")
	return strings.Join(append(out, lieWords[r.Lies]), ", ")
}

// ParseRecipe reads a technique that a person adds, as layers with commas or "and"
// between them and how it lies at the end: "two widths, two seams, one turn, stands
// above the edge". Without a way to lie it wraps the edge. Errors name the words that
// were not understood; a recipe has at least one width and at most 8 of each layer.
func ParseRecipe(text string) (Recipe, error) {
	if len(text) > 200 {
		return Recipe{}, invalid("the layers are too long to be read", "Name only how many widths, seams, turns and caught edges there are.")
	}
	var r Recipe
	plain := strings.NewReplacer(" and ", ",", "+", ",").Replace(strings.ToLower(text))
	for _, term := range strings.Split(plain, ",") {
		if term = strings.Join(strings.Fields(term), " "); term == "" {
			continue
		}
		if !r.add(term) {
			return Recipe{}, invalid(fmt.Sprintf("%q is no layer of a strip", term),
				"Write for instance: two widths, two seams, one turn, wraps the edge.")
		}
	}
	if r.Widths == 0 {
		return Recipe{}, invalid("the strip has no finished width", "Say how many widths lie in it, for instance: two widths, two seams.")
	}
	return r, nil
}

// add reads one term into r; false when it is not understood or too much.
func (r *Recipe) add(term string) bool {
	for lie, words := range lieWords {
		if term == words {
			r.Lies = lie
			return true
		}
	}
	count, layer, _ := strings.Cut(term, " ")
	n, known := countWords[count]
	field := layerWords[layer]
	if !known || field == nil {
		return false
	}
	*field(r) += n
	return *field(r) <= 8
}
