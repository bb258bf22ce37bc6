package say

import (
	"fmt"
	"strings"

	"tallycloth/planner"
	"tallycloth/planner/garment"
	"tallycloth/stash/measure"
)

// NextStep says what comes next for a garment: while it is sewn the next step of its order of
// work that is not done.
func NextStep(g garment.Garment, steps []garment.StepState) string {
	noting := len(g.Record.Done) > 0 // else nobody keeps account of the steps, and the state says more
	if noting && (g.State == garment.Cut || g.State == garment.Sewing || g.State == garment.Fitted) {
		for i, s := range steps {
			if !s.Done() && i > 0 { // the first is the cutting
				return Step(i, s)
			}
		}
		return "Everything is sewn: mark it finished"
	}
	return Next(g.State)
}

// Step says a step of the order of work with its number, from 0: "3. Stop. Try on."
func Step(i int, s garment.StepState) string {
	text := s.Text
	if s.TryOn {
		text = "Stop. " + text
	}
	return fmt.Sprintf("%d. %s", i+1, text)
}

// StepNoted says what was noted of a step that is done: "done 4 May 2026, take-in 1.2 cm, snug".
func (v Voice) StepNoted(d garment.Done) string {
	out := "done"
	if d.On != "" {
		out += " " + Day(d.On)
	}
	switch {
	case d.Value > 0 && d.Asked != "":
		out += ", " + d.Asked + " " + v.Fine(d.Value)
	case d.Value > 0:
		out += ", " + v.Fine(d.Value)
	}
	if d.Note != "" {
		out += ", " + d.Note
	}
	return out
}

// Days says on which days a garment came to its states.
func Days(g garment.Garment) string {
	var out []string
	for _, r := range g.Record.Reached {
		out = append(out, string(r.State)+" "+Day(r.On))
	}
	return strings.Join(out, ", ")
}

// StripsWhen says when the strips of a garment may be cut to length; "" where that is now.
func StripsWhen(toLength bool) string {
	if toLength {
		return ""
	}
	return "Cut strips to width now and longer than needed; to length only after the first try-on."
}

// AfterTakeIn says what a take-in that was noted does to the strip of an armhole: "" where
// nothing was noted, or it was taken over as an adjustment, which the strips follow.
func (v Voice) AfterTakeIn(g garment.Garment) string {
	p, ok := g.Noted(garment.AsksTakeIn)
	if !ok || g.TakenIn() {
		return ""
	}
	return "Where the side seams came in by " + v.Fine(p) + " at the underarm, each armhole edge is " + v.Fine(garment.Shorter(p, 1, 1)) +
		" shorter: shorten its strip by as much times its ratio."
}

// Strap says how long the straps are as they were fitted: "" while that is not noted.
func (v Voice) Strap(g garment.Garment) string {
	fitted, planned := g.Strap()
	switch d := planned - fitted; {
	case fitted == 0:
		return ""
	case planned == 0:
		return "The strap is " + v.Fine(fitted) + " as fitted."
	case d > 0:
		return "The strap is " + v.Fine(fitted) + " as fitted. Its strip was worked out for " + v.Fine(planned) + ": " + v.Fine(d) + " come off."
	case d < 0:
		return "The strap is " + v.Fine(fitted) + " as fitted. Its strip was worked out for " + v.Fine(planned) + ": see that it is long enough."
	}
	return "The strap is " + v.Fine(fitted) + " as fitted, as its strip was worked out."
}

// LongThread writes a length of thread: whole metres or yards.
func (v Voice) LongThread(l measure.Length) string {
	if v.Units == measure.Imperial {
		return fmt.Sprintf("%.0f yd", float64(l)/float64(measure.Yard))
	}
	return fmt.Sprintf("%.0f m", float64(l)/float64(measure.Metre))
}

// SeamThread says a seam with its stitch and thread: "side seams: three-thread overlock (504),
// 84 cm from the outlines, 14 times as much thread, 13.5 m".
func (v Voice) SeamThread(t garment.SeamThread) string {
	text := fmt.Sprintf("%s: %s (%d), %s", t.Name, t.Stitch.Name, t.Class, v.Needed(t.Length))
	if t.Drawn {
		text += " from the outlines"
	}
	if t.Rows > 1 {
		text += fmt.Sprintf(", %d rows", t.Rows)
	}
	return text + ", " + Ratio(t.Stitch.Ratio) + " times as much thread: " + v.LongThread(t.Thread) + "."
}

// Ratio writes a ratio of thread: "5.5".
func Ratio(hundredths int) string {
	return strings.TrimRight(strings.TrimRight(fmt.Sprintf("%d.%02d", hundredths/100, hundredths%100), "0"), ".")
}

// ThreadRows is a table of the seams of a garment with their thread.
func (v Voice) ThreadRows(t garment.Thread) [][]string {
	rows := [][]string{{"Seam", "Stitch", "Length", "Rows", "Ratio", "Thread"}}
	for _, s := range t.Seams {
		from := ""
		if s.Drawn {
			from = " *"
		}
		rows = append(rows, []string{s.Name, fmt.Sprint(s.Class), v.Length(s.Length) + from, fmt.Sprint(s.Rows), Ratio(s.Stitch.Ratio), v.LongThread(s.Thread)})
	}
	return rows
}

// Thread says what thread a garment takes and how sure that is, a sentence each.
func (v Voice) Thread(t garment.Thread) []string {
	var out []string
	if len(t.Seams) > 0 {
		text := "About " + v.LongThread(t.Total)
		if t.Least < t.Total || t.Most > t.Total {
			text += ", by other published ratios " + v.LongThread(t.Least) + " to " + v.LongThread(t.Most)
		}
		text += fmt.Sprintf("; %s for ends is in it. %s of it runs through needles.", measure.FormatPercent(t.Waste), v.LongThread(t.Needle))
		out = append(out, text)
		source := "Thread per length of seam by stitch (numbers of ISO 4915), as makers of thread print it"
		if t.Memory {
			source += "; for overlock and cover stitches it is a rule of thumb, and what is printed differs by half: measure a seam of your own"
		}
		out = append(out, source+".")
	}
	if len(t.Unknown) > 0 {
		out = append(out, "No length is known of "+strings.Join(t.Unknown, ", ")+": type it.")
	}
	return out
}

// Breaks warns of plain lockstitches on seams that stretch; "" where there are none.
func Breaks(seams []string) string {
	if len(seams) == 0 {
		return ""
	}
	return "A plain lockstitch breaks where a seam must stretch: " + strings.Join(seams, ", ") + ". Take a narrow zigzag, an overlock or a cover stitch, or say that it need not stretch."
}

// Blend says the fibre content of a garment by mass; "" where nothing is known.
func Blend(b garment.Blend) string {
	if b.Grams == 0 {
		return ""
	}
	text := b.Fibres.String()
	if b.Unknown > 0 {
		if text != "" {
			text += ", "
		}
		text += measure.FormatPercent(b.Unknown) + " not known"
	}
	text += fmt.Sprintf(", by mass of %.0f g of fabric", b.Grams)
	if len(b.Assumed) > 0 {
		text += " (weight of " + strings.Join(b.Assumed, ", ") + " assumed)"
	}
	return text + ". Guidance, not a label that any law asks for."
}

// GarmentFabric says a fabric of a garment: "main: Brick jersey A12, 0.86 m²".
func (v Voice) GarmentFabric(f planner.GarmentFabric) string {
	text := f.UsedFor + ": " + f.Fabric.Name + " " + f.Code + ", " + v.Area(f.Area)
	if f.Planned {
		text += " reserved"
	}
	return text
}

// GarmentCost says what a garment takes at what was paid; "" where nothing is known.
func (v Voice) GarmentCost(r planner.GarmentRecord) string {
	if !r.Costed {
		return ""
	}
	text := Totals(r.Cost.Totals, r.Cost.Joined)
	if len(r.Cost.Totals) == 0 {
		text = "No price is noted"
	}
	unwashed := ""
	if r.Cost.Unwashed {
		unwashed = ", measured before washing"
	}
	switch {
	case r.Cost.Planned && r.Cost.Taken > 0 && len(r.Cost.TakenTotals) > 0:
		text = Totals(r.Cost.TakenTotals, r.Cost.TakenJoined) + " by the " + v.Length(r.Cost.Taken) + " of length that it takes" + unwashed + "; " +
			text + " by the area of its pattern pieces alone"
	case r.Cost.Planned:
		text += ", cloth as reserved"
	case r.Cost.Waste > 0:
		text += ", with " + v.Area(r.Cost.Waste) + " of waste"
	}
	if r.Cost.Unpriced > 0 && len(r.Cost.Totals) > 0 {
		text += "; " + Count(r.Cost.Unpriced, "part has", "parts have") + " no price"
	}
	return text + "."
}

// GarmentFit says how the size of a garment sits on whom it is for, a sentence each; nothing
// where that is not known.
func (v Voice) GarmentFit(r planner.GarmentRecord) []string {
	if !r.Fit.Known {
		return nil
	}
	var out []string
	if c := r.Fit.Choice; c.Size != r.Garment.Size {
		text := "size " + c.Size + " would be proposed for " + r.Garment.For + ", and this is size " + r.Garment.Size + "."
		if c.Asked > 0 { // what another fabric stretches may ask for another size
			text = "in this fabric " + text
		}
		out = append(out, Sentence(text))
	}
	return append(out, v.SizeWhy(r.Fit.Choice)...)
}

// FitRows is a table of what the size of a garment does at each level.
func (v Voice) FitRows(r planner.GarmentRecord) [][]string {
	c := r.Fit.Choice
	c.Size, c.Options = r.Garment.Size, c.Options[:0:0]
	c.Options = append(c.Options, r.Fit.Chosen)
	rows := v.EaseRows(c)
	for i := range rows[1:] {
		rows[i+1][0] = r.Fit.Chosen.Eases[i].Level
	}
	return rows
}

// About is pattern, size, variant and person of a garment in a line.
func About(patternName string, g garment.Garment) string {
	return GarmentOf(planner.Wanted{Size: g.Size, Variant: g.Variant, For: g.For}, patternName, 1)
}
