package stash

import (
	"encoding/json"
	"fmt"
	"regexp"
	"strings"
	"unicode/utf8"

	"tallycloth/stash/measure"
)

// StretchClass is a word for how far a fabric stretches.
type StretchClass struct {
	Name string
	UpTo measure.Percent // the most that is called so; of the last class without meaning
}

// StretchClasses are words for how far fabrics stretch, by limits. Published limits differ,
// so they are a person's choice. Sets compare with ==; the zero value is UsualStretch.
type StretchClasses struct{ text string }

// UsualStretch is the set a new library starts with: limits as a textbook of pattern making
// prints them (from memory; other published sets call up to 12.5 % or up to 25 % stable).
const UsualStretch = "stable up to 18 %, moderate up to 25 %, stretchy up to 50 %, very stretchy"

// Bounds of a set.
const mostClasses, mostClassName = 8, 24

var (
	classLimit = regexp.MustCompile(`^(.+?)\s+(?:up to|to|≤|<=)\s*([0-9].*)$`)
	digitComma = regexp.MustCompile(`([0-9]),([0-9])`)
)

// ParseStretchClasses reads a set as a person writes it: "firm up to 15 %, lively up to 40 %,
// wild". Limits rise; the last class has none. Empty text is the usual set. The error says
// what cannot be.
func ParseStretchClasses(text string) (StretchClasses, error) {
	if strings.TrimSpace(text) == "" {
		return StretchClasses{}, nil
	}
	const example = "Write them like this: " + UsualStretch
	parts := strings.FieldsFunc(digitComma.ReplaceAllString(text, "$1.$2"), func(r rune) bool { return r == ',' || r == ';' })
	var list []StretchClass
	for i, part := range parts {
		c := StretchClass{Name: strings.Join(strings.Fields(part), " ")}
		if m := classLimit.FindStringSubmatch(c.Name); m != nil {
			p, err := measure.ParsePercent(m[2])
			if err != nil {
				return StretchClasses{}, invalid(example, "%q is no limit in percent", m[2])
			}
			c = StretchClass{m[1], p}
		} else if i < len(parts)-1 {
			return StretchClasses{}, invalid(example, "%q has no limit, and others come after it", c.Name)
		}
		if i == len(parts)-1 && c.UpTo != 0 {
			return StretchClasses{}, invalid("Name what stretches more, such as: very stretchy", "Nothing is said for more than %s", measure.FormatPercent(c.UpTo))
		}
		list = append(list, c)
	}
	if err := validClasses(list); err != nil {
		return StretchClasses{}, err
	}
	return classesOf(list), nil
}

func validClasses(list []StretchClass) error {
	if n := len(list); n < 2 || n > mostClasses {
		return invalid("Name between two and eight", "There are %d classes", n)
	}
	seen := map[string]bool{}
	last := measure.Percent(-1)
	for i, c := range list {
		key := strings.ToLower(c.Name)
		switch {
		case c.Name == "" || utf8.RuneCountInString(c.Name) > mostClassName || !utf8.ValidString(c.Name) || strings.ContainsAny(c.Name, "0123456789%\\\""):
			return invalid("Use one or two words", "%q cannot be the name of a class", c.Name)
		case key == "up" || strings.Contains(" "+key+" ", " up to "):
			return invalid("Write a word, up to, and a percent", "%q is no word for a class", c.Name)
		case seen[key]:
			return invalid("Give each a name of its own", "%q is there twice", c.Name)
		case i < len(list)-1 && (c.UpTo <= last || c.UpTo > measure.MostPercent):
			return invalid("Write them from the least to the most", "The limit of %q is not above the one before it", c.Name)
		}
		seen[key], last = true, c.UpTo
	}
	return nil
}

func classesOf(list []StretchClass) StretchClasses {
	var out []string
	for i, c := range list {
		if i == len(list)-1 {
			out = append(out, c.Name)
		} else {
			out = append(out, c.Name+" up to "+measure.FormatPercent(c.UpTo))
		}
	}
	s := StretchClasses{strings.Join(out, ", ")}
	if s.text == UsualStretch {
		return StretchClasses{}
	}
	return s
}

// String writes the set as ParseStretchClasses reads it.
func (s StretchClasses) String() string {
	if s.text == "" {
		return UsualStretch
	}
	return s.text
}

// List returns the classes from the least stretch to the most.
func (s StretchClasses) List() []StretchClass {
	var out []StretchClass
	for _, part := range strings.Split(s.String(), ", ") {
		name, limit, ok := strings.Cut(part, " up to ")
		c := StretchClass{Name: name}
		if ok {
			c.UpTo, _ = measure.ParsePercent(limit) // written by classesOf
		}
		out = append(out, c)
	}
	return out
}

// Of returns the word for a stretch.
func (s StretchClasses) Of(p measure.Percent) string {
	list := s.List()
	for _, c := range list[:len(list)-1] {
		if p <= c.UpTo {
			return c.Name
		}
	}
	return list[len(list)-1].Name
}

// MarshalJSON writes the set as its text.
func (s StretchClasses) MarshalJSON() ([]byte, error) { return json.Marshal(s.text) }

// UnmarshalJSON reads it. A set that cannot be is an error.
func (s *StretchClasses) UnmarshalJSON(doc []byte) error {
	var text string
	err := json.Unmarshal(doc, &text)
	if err == nil {
		*s, err = ParseStretchClasses(text)
	}
	if err != nil {
		return fmt.Errorf("reading stretch classes: %w", err)
	}
	return nil
}
