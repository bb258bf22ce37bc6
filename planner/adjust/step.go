package adjust

import (
	"fmt"

	"tallycloth/stash"
	"tallycloth/stash/measure"
	"tallycloth/stash/shape"
)

// Kind is a kind of adjustment.
type Kind string

// The kinds.
const (
	TakeIn      Kind = "take in"
	Lengthen    Kind = "lengthen"
	Hem         Kind = "hem"
	Strap       Kind = "strap point"
	StrapLength Kind = "strap length"
	Neckline    Kind = "neckline"
	Panels      Kind = "panels"
	Mirror      Kind = "mirror"
)

// Kinds lists them.
func Kinds() []Kind {
	return []Kind{TakeIn, Lengthen, Hem, Strap, StrapLength, Neckline, Panels, Mirror}
}

// The levels a Place may name. Top is where the uppermost stitching line begins.
const (
	Top      = "top"
	Underarm = "underarm"
	Waist    = "waist"
	HipLevel = "hip"
	Crotch   = "crotch"
	HemLevel = "hem"
)

// The halves of a whole pattern piece, seen with the top end of its grain up.
const (
	LeftHalf  = "left"
	RightHalf = "right"
)

// Levels lists them from the top down.
func Levels() []string { return []string{Top, Underarm, Waist, HipLevel, Crotch, HemLevel} }

// Place is a depth on a garment: a level, and how far below it; less than zero is above.
type Place struct {
	Level string         `json:"level,omitempty"`
	Below measure.Length `json:"below,omitempty"`
}

// Said says whether a place was named.
func (p Place) Said() bool { return p.Level != "" }

// Step is one adjustment. Which fields count depends on its kind.
type Step struct {
	Kind Kind `json:"kind"`
	// Amount of a take-in is p, measured level at one seam, less than zero lets out; of
	// Lengthen and Hem how much longer, less than zero shorter.
	Amount measure.Length `json:"amount,omitempty"`
	// At is the level of a take-in (none: all along the seam), the line of Lengthen and of
	// panels parted across.
	At Place `json:"at,omitzero"`
	// From and To are where a take-in has tapered to nothing above and below; none keeps its
	// amount to the end of the seam.
	From Place `json:"from,omitzero"`
	To   Place `json:"to,omitzero"`
	// Seam is the seam taken in, by the name of its edge; "" is the side seam.
	Seam string `json:"seam,omitempty"`
	// Length is what the finished garment measures from its top to the hem, instead of Amount;
	// Round what it measures round the hem, or zero to run the seams on. Of StrapLength, Length is
	// that of the free strap as worn.
	Length measure.Length `json:"length,omitempty"`
	Round  measure.Length `json:"round,omitempty"`
	// Out and Down move a strap point, or the neckline: at the shoulder outwards, at the
	// centre down; less than zero is inwards and up.
	Out  measure.Length `json:"out,omitempty"`
	Down measure.Length `json:"down,omitempty"`
	// Line is drawn over a pattern piece that is parted: points as thousandths of its depth
	// (X, from the top) and of its breadth (Y, from the fold or the left).
	Line []shape.Point `json:"line,omitempty"`
	// Half says which half of a whole piece is mirrored, "left" or "right"; "" opens a piece on
	// the fold out.
	Half string `json:"half,omitempty"`
	// Pieces are the letters of the pattern pieces it is for; none: all that have the place.
	Pieces []string `json:"pieces,omitempty"`
	// AfterCut says that it was found when the cloth was cut already: it changes finished
	// measurements, edges and strips, and the next garment.
	AfterCut bool `json:"aftercut,omitempty"`
}

// most is the most that anything is moved by (ours): more is another pattern.
const most = 60 * measure.Centimetre

// longest is the most a garment is lengthened by at its hem: into a dress.
const longest = 120 * measure.Centimetre

// Validate refuses a step that cannot be meant, and says what to do.
func (s Step) Validate() error {
	for _, p := range []Place{s.At, s.From, s.To} {
		if err := p.validate(); err != nil {
			return err
		}
	}
	switch s.Kind {
	case TakeIn:
		return within(s.Amount, most, "Say how much is taken in or let out at each seam.")
	case Lengthen:
		if !s.At.Said() {
			return invalid("it is not said where the garment becomes longer or shorter", "Name the line, such as the waist.")
		}
		return within(s.Amount, most, "Say how much longer or shorter it becomes.")
	case Hem:
		return s.validateHem()
	case Strap, Neckline:
		return s.validateMoved()
	case StrapLength:
		return s.validateStrap()
	case Panels:
		return s.validatePanels()
	case Mirror:
		switch {
		case len(s.Pieces) != 1:
			return invalid("it is not said which one pattern piece is mirrored", "Name one.")
		case s.Half != "" && s.Half != LeftHalf && s.Half != RightHalf:
			return invalid(fmt.Sprintf("a pattern piece has no %q half", s.Half), "Take the left or the right half, or open a pattern piece on the fold out.")
		}
		return nil
	}
	return invalid(fmt.Sprintf("%q is no adjustment", string(s.Kind)), "Take in, lengthen, change the hem, move a strap point, set the strap length, change the neckline, part into panels or mirror.")
}

func (p Place) validate() error {
	if p.Below > most || p.Below < -most {
		return invalid("a place is farther than 60 cm from its level", "Name a nearer level.")
	}
	if p.Level == "" && p.Below == 0 {
		return nil
	}
	for _, l := range Levels() {
		if p.Level == l {
			return nil
		}
	}
	return invalid(fmt.Sprintf("%q is no level of a garment", p.Level), "Take the top, underarm, waist, hip, crotch or hem, and how far below or above it.")
}

// within refuses nothing and more than can be meant.
func within(l, most measure.Length, do string) error {
	switch {
	case l == 0:
		return invalid("it changes nothing", do)
	case l > most || l < -most:
		return invalid(fmt.Sprintf("%.0f cm are more than can be meant", l.Millimetres()/10), do)
	}
	return nil
}

func (s Step) validateHem() error {
	switch {
	case s.Length < 0 || s.Round < 0 || s.Length > 2*measure.Metre || s.Round > 6*measure.Metre:
		return invalid("no garment measures that at its hem", "Measure the length from the top down to the hem, and the hem all the way round.")
	case s.Length > 0 && s.Amount != 0:
		return invalid("the hem is said in two ways", "Say how much longer it becomes, or how long it is.")
	case s.Length > 0 || s.Amount == 0 && s.Round > 0:
		return nil
	}
	return within(s.Amount, longest, "Say how much longer or shorter it becomes, how long it is, or what it measures round.")
}

func (s Step) validateMoved() error {
	if s.Out == 0 && s.Down == 0 {
		return invalid("it moves nothing", "Say how far outwards or inwards, down or up.")
	}
	for _, l := range []measure.Length{s.Out, s.Down} {
		if l > most/2 || l < -most/2 {
			return invalid("it is moved by more than can be meant", "Move it by less than 30 cm.")
		}
	}
	return nil
}

// longestStrap is how long a strap is at most (ours): one that is tied.
const longestStrap = 2 * measure.Metre

func (s Step) validateStrap() error {
	switch {
	case s.Length <= 0 || s.Length > longestStrap:
		return invalid("no strap is that long", "Measure it along the middle, from where it leaves the garment to where it comes back to it.")
	case len(s.Pieces) > 0:
		return invalid("a strap belongs to no pattern piece", "Name none.")
	}
	return nil
}

func (s Step) validatePanels() error {
	switch {
	case len(s.Pieces) != 1:
		return invalid("it is not said which one pattern piece is parted", "Name one.")
	case s.At.Said() == (len(s.Line) > 0):
		return invalid("it is not said where the pattern piece is parted", "Draw a line over it, or name a level.")
	case len(s.Line) == 1 || len(s.Line) > 40:
		return invalid("a line over a pattern piece takes 2 to 40 points", "Draw it from one edge to another.")
	}
	for _, p := range s.Line {
		if min(p.X, p.Y) < -200 || max(p.X, p.Y) > 1200 {
			return invalid("the line lies off the pattern piece", "Draw it from one edge to another.")
		}
	}
	return nil
}

// Keeps says whether a step can be kept for a person: panels and mirrored pieces belong to
// one garment.
func (s Step) Keeps() bool { return s.Kind != Panels && s.Kind != Mirror }

func invalid(what, do string) error { return &stash.Error{Kind: stash.Invalid, What: what, Do: do} }
