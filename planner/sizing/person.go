package sizing

import (
	"slices"
	"strings"

	"tallycloth/planner/adjust"
	"tallycloth/planner/pattern"
	"tallycloth/stash"
	"tallycloth/stash/measure"
)

// Person is somebody garments are made for.
type Person struct {
	ID      stash.ID
	Name    string
	Notes   string `json:",omitzero"`
	Taken   []Taken
	Removed bool `json:",omitzero"` // off the list
	// Adjustments are kept for her, to be offered at her next garments.
	Adjustments []Kept `json:",omitempty"`
}

// Kept is an adjustment that is kept for a person.
type Kept struct {
	adjust.Step
	On stash.Date `json:"on,omitempty"` // since when; not known of old ones
}

// Steps are the adjustments that are kept for her.
func (p Person) Steps() []adjust.Step {
	var out []adjust.Step
	for _, k := range p.Adjustments {
		out = append(out, k.Step)
	}
	return out
}

// Taken are measurements of a body taken on one day.
type Taken struct {
	Date stash.Date
	Body map[string]measure.Length // by name, see Places
	Note string                    `json:",omitzero"`
}

// Place is where a body is measured, in our own words after the definitions of ISO 8559-1
// and EN 13402-1; those of waist, hip and limbs are from memory.
type Place struct {
	Name        string
	Where       string
	Girth       bool
	least, most measure.Length
}

// Places lists them from the top down.
func Places() []Place {
	const cm = measure.Centimetre
	return []Place{
		{Height, "Standing upright without shoes, heels together, from the crown of the head to the floor.", false, 40 * cm, 250 * cm},
		{pattern.HighBust, "Round the chest above the bust: close under the arms, level across the back.", true, 35 * cm, 200 * cm},
		{pattern.Bust, "Round the fullest part of the bust, level, under the arms, over a bra that does not shape, breathing quietly.", true, 35 * cm, 220 * cm},
		{Underbust, "Round the ribs straight below the bust, level.", true, 35 * cm, 200 * cm},
		{pattern.Waist, "Round the natural waist, between the lowest rib and the top of the hip bones, belly relaxed.", true, 30 * cm, 220 * cm},
		{pattern.Hip, "Round the fullest part of the seat, level, feet together.", true, 35 * cm, 240 * cm},
		{pattern.Thigh, "Round the thigh at its fullest, just below the seat, level.", true, 15 * cm, 140 * cm},
		{UpperArm, "Round the upper arm at its fullest, the arm hanging down.", true, 8 * cm, 90 * cm},
		{BackWaist, "Down the middle of the back, from the bone at the root of the neck to the waist.", false, 15 * cm, 70 * cm},
		{InsideLeg, "Inside the leg, from the crotch down to the floor.", false, 15 * cm, 130 * cm},
	}
}

// Latest are the measurements known on a day: of each the last one taken until then. An
// empty day takes all.
func (p Person) Latest(day stash.Date) map[string]measure.Length {
	out := map[string]measure.Length{}
	for _, t := range p.Taken {
		if day != "" && t.Date > day {
			continue
		}
		for name, l := range t.Body {
			out[name] = l
		}
	}
	return out
}

// With adds measurements, in the order of their days; those of a day that is there already
// replace what was taken then of the same name.
func (p Person) With(t Taken) Person {
	p.Taken = slices.Clone(p.Taken)
	i, found := slices.BinarySearchFunc(p.Taken, t.Date, func(a Taken, d stash.Date) int { return strings.Compare(string(a.Date), string(d)) })
	if !found {
		p.Taken = slices.Insert(p.Taken, i, t)
		return p
	}
	old := p.Taken[i]
	merged := Taken{Date: t.Date, Note: t.Note, Body: map[string]measure.Length{}}
	if t.Note == "" {
		merged.Note = old.Note
	}
	for _, b := range []map[string]measure.Length{old.Body, t.Body} {
		for name, l := range b {
			merged.Body[name] = l
		}
	}
	p.Taken[i] = merged
	return p
}

// Validate refuses a person without a name, and measurements that no body has.
func (p Person) Validate() error {
	if strings.TrimSpace(p.Name) == "" {
		return invalid("the person has no name", "Type a name, or what you call them.")
	}
	for i, t := range p.Taken {
		if !t.Date.Valid() || t.Date == "" {
			return invalid("“"+string(t.Date)+"” is not a day", "Write it as 2026-03-02.")
		}
		if i > 0 && t.Date <= p.Taken[i-1].Date {
			return invalid("the measurements are not in the order of their days", "Put them in order, each day once.")
		}
		for name, l := range t.Body {
			if err := CheckBody(name, l); err != nil {
				return err
			}
		}
	}
	return nil
}

// CheckBody refuses a measurement that no body has, and one that is not measured here.
func CheckBody(name string, l measure.Length) error {
	for _, at := range Places() {
		if at.Name != name {
			continue
		}
		if l < at.least || l > at.most {
			return invalid("a "+name+" of "+measure.Style{System: measure.Metric, Kind: measure.Width}.Format(l)+" cannot be",
				"Measure again: "+at.Where)
		}
		return nil
	}
	return invalid("“"+name+"” is not measured here", "Leave it out.")
}
