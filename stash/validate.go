package stash

import (
	"fmt"
	"regexp"
	"strings"
	"time"

	"tallycloth/stash/measure"
	"tallycloth/stash/shape"
)

// invalid returns an Error of kind Invalid.
func invalid(do, what string, args ...any) error {
	return &Error{Kind: Invalid, What: fmt.Sprintf(what, args...), Do: do}
}

var colour = regexp.MustCompile(`^(#[0-9a-fA-F]{6})?$`)

// Validate says what cannot be about a fabric: nil, or an Error of kind Invalid.
// A fabric needs an ID, a name and a width; fibres, if any, must reach 100 %.
func (f Fabric) Validate() error {
	switch {
	case f.ID == NoID:
		return invalid("", "The fabric has no number of its own")
	case strings.TrimSpace(f.Name) == "":
		return invalid("Give it a name", "The fabric has no name")
	case f.FullWidth <= 0:
		return invalid("Measure it from selvedge to selvedge", "The width of %s must be more than zero", f.Name)
	case f.SelvedgeLoss < 0 || 2*f.SelvedgeLoss >= f.FullWidth:
		return invalid("Give the loss at one selvedge, usually about 1 cm", "The selvedges of %s would leave nothing of its width", f.Name)
	case f.Weight < 0 || f.RepeatAlong < 0 || f.RepeatAcross < 0 || f.Thickness < 0:
		return invalid("Leave it empty if you do not know it", "Weight, repeat and thickness of %s cannot be negative", f.Name)
	case f.Buy < 0 || f.Buy > measure.LongestLength:
		return invalid("Say how much, such as 1.5 m", "So much of %s cannot be bought", f.Name)
	case f.Direction < SameWayInGarment || f.Direction > SameWayForAll:
		return invalid("Choose one of the three directions", "The direction of %s is not known", f.Name)
	case !colour.MatchString(f.Colour):
		return invalid("Write it as #rrggbb", "The colour %q of %s is not a colour", f.Colour, f.Name)
	}
	for _, g := range []struct {
		name string
		g    Grain
	}{{"lengthwise", f.Lengthwise}, {"crosswise", f.Crosswise}} {
		if err := g.g.validate(f.Name, g.name); err != nil {
			return err
		}
	}
	return f.Fibres.Validate()
}

// validate checks the readings along one grain.
func (g Grain) validate(fabric, grain string) error {
	for _, r := range []struct {
		name        string
		r           Reading
		least, most measure.Percent
	}{
		{"stretch", g.Stretch, 0, measure.MostPercent},
		{"growth", g.Growth, 0, measure.MostPercent},
		{"recovery", g.Recovery, 0, 100 * measure.OnePercent},
		{"narrowing", g.Narrowing, -measure.MostPercent, 100 * measure.OnePercent},
		{"change in washing", g.Shrinkage, -99 * measure.OnePercent, measure.MostPercent},
	} {
		if r.r.Known && (r.r.Value < r.least || r.r.Value > r.most) {
			return invalid("Measure it again", "A %s %s of %s cannot be %s", grain, r.name, fabric, measure.FormatPercent(r.r.Value))
		}
	}
	return nil
}

// largestSide is the longest side a cloth may have; its area then fits an
// int64 and its corners stay within what package shape accepts.
const largestSide = measure.Length(shape.MaxCoordinate)

// Validate says what cannot be about a cloth: nil, or an Error of kind Invalid. An
// outline must be valid and its bounds must be Length × Width.
func (c Cloth) Validate() error {
	switch {
	case c.ID == NoID || c.FabricID == NoID:
		return invalid("", "The cloth has no number of its own, or no fabric")
	case strings.TrimSpace(c.Code) == "":
		return invalid("Give it a short code for its label", "The cloth has no code")
	case c.Length <= 0 || c.Width <= 0:
		return invalid("Measure it again", "Length and width of %s must be more than zero", c.Code)
	case c.Length > largestSide || c.Width > largestSide:
		return invalid("Is it in the unit that is meant? Measure it again", "No piece of cloth may be longer or wider than 536 m")
	case c.CutFrom == c.ID:
		return invalid("", "%s cannot be cut from itself", c.Code)
	case c.Plain():
		return nil
	}
	if err := c.Outline.Validate(); err != nil {
		return &Error{Kind: Invalid, What: fmt.Sprintf("The outline of %s is not closed and simple", c.Code), Do: "Draw it again", Err: err}
	}
	if b := c.Outline.Bounds(); b.Length() != int64(c.Length) || b.Width() != int64(c.Width) {
		return invalid("Take both from the outline", "Length and width of %s do not match its outline", c.Code)
	}
	return nil
}

// Valid says whether d is a calendar day or empty.
func (d Date) Valid() bool {
	if d == "" {
		return true
	}
	_, err := time.Parse("2006-01-02", string(d))
	return err == nil
}

// Validate says what cannot be about a purchase: nil, or an Error of kind Invalid.
func (p Purchase) Validate() error {
	switch {
	case p.ID == NoID:
		return invalid("", "The purchase has no number of its own")
	case p.Date == "" || !p.Date.Valid():
		return invalid("Write it as 2006-01-02", "%q is not a day", p.Date)
	}
	for _, l := range p.Lines {
		switch {
		case l.FabricID == NoID || l.ClothID == NoID:
			return invalid("", "A line of the purchase names no fabric or no cloth")
		case l.Quantity <= 0:
			return invalid("Say how much was bought", "The quantity must be more than zero")
		case l.Price.Minor < 0:
			return invalid("Leave it empty if you do not know it", "A price cannot be negative")
		}
	}
	if p.Postage.Minor < 0 || p.Tax.Minor < 0 {
		return invalid("Leave it empty if you do not know it", "Postage and tax cannot be negative")
	}
	for _, m := range append([]measure.Money{p.Postage, p.Tax}, prices(p.Lines)...) {
		if _, ok := measure.MinorDigits(m.Currency); !ok && m != (measure.Money{}) {
			return invalid("Write its three letters, such as EUR", "%q is not a currency", m.Currency)
		}
	}
	return nil
}

func prices(lines []PurchaseLine) []measure.Money {
	out := make([]measure.Money, len(lines))
	for i, l := range lines {
		out[i] = l.Price
	}
	return out
}
