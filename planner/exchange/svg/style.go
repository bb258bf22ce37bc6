package svg

import (
	"regexp"
	"slices"
	"strings"

	"tallycloth/planner/exchange/drawn"
)

// The properties that matter to outlines, and those that tell the lines of one size from others.
var (
	shaping = []string{"display", "visibility", "transform", "clip-path", "mask", "d"}
	lining  = []string{"stroke", "stroke-dasharray", "fill", "marker", "marker-start", "marker-end", "font-size", "text-anchor"}
)

// sheet holds the style rules of a file that set one of these properties.
type sheet struct {
	rules  []rule
	Unread []string // selectors that set one but are not understood
}

type rule struct {
	selector string // "*", "path", ".class", "#id"
	set      map[string]string
}

var (
	cssComment = regexp.MustCompile(`(?s)/\*.*?\*/`)
	simple     = regexp.MustCompile(`^([.#]?[\w-]+|\*)$`)
)

// add reads the text of a style element.
func (s *sheet) add(text string) {
	for _, block := range strings.Split(cssComment.ReplaceAllString(text, ""), "}") {
		selectors, body, ok := strings.Cut(block, "{")
		if !ok {
			continue
		}
		set := shapingOnly(declarations(body))
		if len(set) == 0 {
			continue
		}
		for _, sel := range strings.Split(selectors, ",") {
			if sel = strings.TrimSpace(sel); simple.MatchString(sel) {
				s.rules = append(s.rules, rule{sel, set})
			} else if shapes(set) {
				s.Unread = append(s.Unread, shorten(sel))
			}
		}
	}
}

func declarations(text string) map[string]string {
	out := map[string]string{}
	for _, d := range strings.Split(text, ";") {
		if name, value, ok := strings.Cut(d, ":"); ok {
			value, _, _ = strings.Cut(value, "!important")
			out[strings.ToLower(strings.TrimSpace(name))] = strings.TrimSpace(value)
		}
	}
	return out
}

// shapes says whether one of the properties matters to outlines.
func shapes(set map[string]string) bool {
	for name := range set {
		if slices.Contains(shaping, name) {
			return true
		}
	}
	return false
}

func shapingOnly(set map[string]string) map[string]string {
	for name := range set {
		if !slices.Contains(shaping, name) && !slices.Contains(lining, name) {
			delete(set, name)
		}
	}
	return set
}

// styleOf returns the shaping properties of an element: its attributes, then rules
// from the least to the most specific, then its own style attribute (CSS 2.1 section
// 6.4 without importance). The transform attribute is not among them.
func (s *sheet) styleOf(n *node) map[string]string {
	out := map[string]string{}
	for _, name := range []string{"display", "visibility", "clip-path", "mask", "stroke", "stroke-dasharray", "fill", "marker-start", "marker-end", "font-size", "text-anchor"} {
		if v := n.attr(name); v != "" {
			out[name] = v
		}
	}
	if len(s.rules) > 0 {
		classes := strings.Fields(n.attr("class"))
		for rank := range 3 {
			for _, r := range s.rules {
				if r.rank() == rank && r.matches(n, classes) {
					for name, v := range r.set {
						out[name] = v
					}
				}
			}
		}
	}
	if own := n.attr("style"); own != "" {
		for name, v := range shapingOnly(declarations(own)) {
			out[name] = v
		}
	}
	return out
}

func (r rule) rank() int {
	switch r.selector[0] {
	case '#':
		return 2
	case '.':
		return 1
	}
	return 0
}

func (r rule) matches(n *node, classes []string) bool {
	switch r.selector[0] {
	case '#':
		return r.selector[1:] == n.attr("id")
	case '.':
		return slices.Contains(classes, r.selector[1:])
	}
	return r.selector == "*" || r.selector == n.name
}

// lineOf is how an object's line is drawn, with what it inherits where it says nothing.
func lineOf(style map[string]string, up map[string]string) map[string]string {
	out := map[string]string{}
	for _, name := range lining {
		if out[name] = style[name]; out[name] == "" || out[name] == "inherit" {
			out[name] = up[name]
		}
	}
	return out
}

// line is that in the words of a drawing: the colour of the line, of the area where there is none.
func line(of map[string]string) drawn.Line {
	l := drawn.Line{Colour: strings.ToLower(of["stroke"])}
	if !isSet(l.Colour) {
		l = drawn.Line{Colour: strings.ToLower(of["fill"]), Filled: true}
		if !isSet(l.Colour) {
			l.Colour = ""
		}
		return l
	}
	if d := of["stroke-dasharray"]; isSet(d) {
		l.Dash = strings.Join(strings.FieldsFunc(d, func(r rune) bool { return r == ',' || r == ' ' }), "-")
	}
	return l
}

// invisible says whether neither the line nor the area of an object is painted: editors put boxes like that
// round what they save.
func invisible(of map[string]string) bool { return of["fill"] == "none" && !isSet(of["stroke"]) }

// heads says where the file puts an arrow head on a line: any marker counts as one.
func heads(of map[string]string) [2]bool {
	both := isSet(of["marker"])
	return [2]bool{both || isSet(of["marker-start"]), both || isSet(of["marker-end"])}
}
