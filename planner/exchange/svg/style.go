package svg

import (
	"regexp"
	"slices"
	"strings"
)

// The properties that matter to outlines; colours and strokes do not.
var shaping = []string{"display", "visibility", "transform", "clip-path", "mask", "d"}

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
			} else {
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

func shapingOnly(set map[string]string) map[string]string {
	for name := range set {
		if !slices.Contains(shaping, name) {
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
	for _, name := range []string{"display", "visibility", "clip-path", "mask"} {
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
