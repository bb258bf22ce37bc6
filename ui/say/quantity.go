package say

import (
	"errors"
	"fmt"
	"strings"
	"time"

	"tallycloth/planner/garment"
	"tallycloth/stash"
	"tallycloth/stash/measure"
)

// Voice writes quantities in a person's system of units.
type Voice struct {
	Units   measure.System
	Classes stash.StretchClasses // words for how far a fabric stretches
}

func (v Voice) style(k measure.Kind) measure.Style { return measure.Style{System: v.Units, Kind: k} }

// Length writes a length along the cloth; zero is "0".
func (v Voice) Length(l measure.Length) string { return v.style(measure.FabricLength).Format(l) }

// Free writes what is there to use, rounded down so that it never promises more.
func (v Voice) Free(l measure.Length) string {
	s := v.style(measure.FabricLength)
	return s.Format(s.Down(l))
}

// Spare writes a length of cloth that is there, rounded down to what a person measures: whole
// centimetres, or 1/8 in.
func (v Voice) Spare(l measure.Length) string { return v.Length(v.wholeDown(l)) }

// Needed writes a length of cloth that is asked for, rounded up as Spare rounds down.
func (v Voice) Needed(l measure.Length) string { return v.Length(v.wholeUp(l)) }

func (v Voice) wholeDown(l measure.Length) measure.Length {
	if v.Units == measure.Imperial {
		return v.style(measure.FabricLength).Down(l)
	}
	return l / measure.Centimetre * measure.Centimetre
}

func (v Voice) wholeUp(l measure.Length) measure.Length {
	if v.Units == measure.Imperial {
		return v.style(measure.FabricLength).Up(l)
	}
	return v.wholeDown(l + measure.Centimetre - 1)
}

// Percent writes a percent in whole ones.
func Percent(p measure.Percent) string {
	if p < 0 {
		return "-" + Percent(-p)
	}
	return measure.FormatPercent((p + measure.OnePercent/2) / measure.OnePercent * measure.OnePercent)
}

// Width writes a width across the cloth.
func (v Voice) Width(l measure.Length) string { return v.style(measure.Width).Format(l) }

// Fine writes a length on a pattern piece or a strip.
func (v Voice) Fine(l measure.Length) string { return v.style(measure.StripLength).Format(l) }

// Mark writes how far a mark lies from a strip's end or centre.
func (v Voice) Mark(l measure.Length) string { return v.style(measure.StripMark).Format(l) }

// Size writes length × width of a cloth.
func (v Voice) Size(c stash.Cloth) string { return v.Length(c.Length) + " × " + v.Width(c.Width) }

// Area writes an area: m² or yd².
func (v Voice) Area(a measure.Area) string {
	if a < 0 {
		return "− " + v.Area(-a)
	}
	if v.Units == measure.Imperial {
		return fmt.Sprintf("%.2f yd²", a.SquareMetres()/0.83612736)
	}
	return fmt.Sprintf("%.2f m²", a.SquareMetres())
}

// Reading writes a percent that may not have been measured: "40 %" or "about 40 %, assumed".
func Reading(r stash.Reading, assumed stash.Reading) string {
	if r.Known {
		return Percent(r.Value)
	}
	if assumed.Known || assumed.Value != 0 {
		return "about " + Percent(assumed.Value) + ", assumed"
	}
	return "not measured"
}

// Construction writes how a fabric is made, as it stands on screen.
func Construction(c stash.Construction) string {
	if c == stash.FrenchTerry {
		return "French terry"
	}
	return string(c)
}

// Stretch writes a stretch as Reading does, with its class: "40 %, stretchy".
func (v Voice) Stretch(r, assumed stash.Reading) string {
	switch {
	case r.Known:
		return Reading(r, assumed) + ", " + v.Classes.Of(r.Value)
	case assumed.Known || assumed.Value != 0:
		return "about " + Percent(assumed.Value) + " (" + v.Classes.Of(assumed.Value) + "), assumed"
	}
	return Reading(r, assumed)
}

// Weight writes a weight, or that it is not known.
func (v Voice) Weight(w measure.Weight) string {
	if w == 0 {
		return "not known"
	}
	return measure.FormatWeight(w, v.Units)
}

// Direction says which ways pattern pieces may point.
func Direction(d stash.Direction) string {
	switch d {
	case stash.EitherWay:
		return "either way"
	case stash.SameWayForAll:
		return "same way for everything"
	}
	return "same way within a garment"
}

// Next says what comes next for a garment.
func Next(s garment.State) string {
	switch s {
	case garment.Wanted:
		return "Find fabric and reserve it"
	case garment.Reserved:
		return "Cut it"
	case garment.Cut:
		return "Sew it up to the first try-on"
	case garment.Sewing:
		return "Try it on"
	case garment.Fitted:
		return "Finish the edges and hems"
	case garment.Finished:
		return "Done"
	}
	return "Given up"
}

// Day writes a date as people read it: 5 March 2026.
func Day(d stash.Date) string {
	t, err := time.Parse("2006-01-02", string(d))
	if err != nil {
		return string(d)
	}
	return t.Format("2 January 2006")
}

// Happened writes a movement as a line of history. What was bought stands under the day of its
// purchase, "" where that is not known; the day it was noted follows where it is another.
func (v Voice) Happened(m stash.Movement, bought stash.Date) string {
	text := string(m.Kind)
	if m.Length != 0 {
		sign := ""
		l := m.Length
		if l < 0 {
			sign, l = "− ", -l
		}
		text += ", " + sign + v.Length(l)
	}
	if m.Note != "" {
		text += ": " + m.Note
	}
	day := stash.On(m.At)
	if m.Kind == stash.Bought && bought != "" && bought != day {
		return ShortDay(bought) + "  " + text + " (noted " + ShortDay(day) + ")"
	}
	return ShortDay(day) + "  " + text
}

// Error makes a sentence of trouble: what is wrong and what to do about it. Trouble
// that nobody foresaw is told in full.
func Error(err error) string {
	if err == nil {
		return ""
	}
	var known *stash.Error
	if errors.As(err, &known) {
		return Sentence(joinSentences(known.What, known.Do))
	}
	var text *measure.TextError
	if errors.As(err, &text) {
		return Sentence(text.Error())
	}
	return Sentence(err.Error())
}

func joinSentences(a, b string) string {
	if b == "" {
		return a
	}
	return strings.TrimSuffix(a, ".") + ". " + b
}

// Sentence starts with a capital letter and ends with a full stop.
func Sentence(s string) string {
	s = strings.TrimSpace(s)
	if s == "" {
		return ""
	}
	r := []rune(s)
	s = strings.ToUpper(string(r[0])) + string(r[1:])
	if !strings.ContainsAny(s[len(s)-1:], ".!?") {
		s += "."
	}
	return s
}

// Count writes "1 length", "3 lengths".
func Count(n int, one, many string) string {
	if n == 1 {
		return "1 " + one
	}
	return fmt.Sprintf("%d %s", n, many)
}

// Stitch writes a setting that worked: "Side seam: narrow zigzag, width 0.5, length 2.5,
// needle 75/11 ball point. Hold taut."
func Stitch(n stash.StitchNote) string {
	var out []string
	add := func(before, s string) {
		if s != "" {
			out = append(out, before+s)
		}
	}
	add("", n.Stitch)
	add("width ", n.Width)
	add("length ", n.Length)
	add("differential feed ", n.Feed)
	add("needle ", n.Needle)
	add("thread ", n.Thread)
	add("tension ", n.Tension)
	if n.Still {
		out = append(out, "need not stretch")
	}
	text := strings.Join(out, ", ")
	if n.Seam != "" {
		seam := n.Seam
		if !strings.HasSuffix(seam, "seam") && !strings.HasSuffix(seam, "hem") {
			seam += " seam"
		}
		text = seam + ": " + text
	}
	text = Sentence(text)
	if n.Note != "" {
		text += " " + Sentence(n.Note)
	}
	return text
}
