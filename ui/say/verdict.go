package say

import (
	"fmt"
	"strings"

	"tallycloth/planner/match"
	"tallycloth/stash/measure"
)

// Grade is a verdict in a word or two; lists show it with its mark.
func Grade(g match.Grade) string {
	return []string{"Enough", "Enough, tight", "Enough if", "Can't tell", "Not enough", "Unsuitable"}[g]
}

// Mark is a sign that goes with a verdict, so that colour is never the only signal.
func Mark(g match.Grade) string { return []string{"✓", "≈", "?", "…", "–", "×"}[g] }

// Verdict is the answer in one line: the grade with its first ground.
func (v Voice) Verdict(d match.Verdict) string {
	switch d.Grade {
	case match.EnoughIf:
		return "Enough if " + v.Ifs(d.Ifs)
	case match.NotEnough:
		if d.Short > 0 {
			return "Not enough: " + v.Needed(d.Short) + " short"
		}
		return "Not enough: " + v.first(d)
	case match.Unsuitable, match.CannotTell:
		return Grade(d.Grade) + ": " + v.first(d)
	}
	return Grade(d.Grade)
}

// Ground is what a verdict rests on, for a line under its grade: the condition, how
// short, the first ground against, or the proof.
func (v Voice) Ground(d match.Verdict) string {
	switch d.Grade {
	case match.EnoughIf:
		return v.ifsShort(d.Ifs)
	case match.NotEnough:
		if d.Short > 0 {
			return v.Needed(d.Short) + " short"
		}
		return v.first(d)
	case match.Unsuitable, match.CannotTell:
		return v.first(d)
	}
	switch d.Proof {
	case match.ByLayout:
		return "by a checked layout"
	case match.ByYardage:
		return "by the yardage table"
	}
	return ""
}

// ifsShort joins conditions for a narrow line: "stretches 35 %, washed first".
func (v Voice) ifsShort(ifs []match.If) string {
	var out []string
	for _, i := range ifs {
		text, _, _ := strings.Cut(v.If(i), " (")
		out = append(out, strings.TrimPrefix(strings.TrimPrefix(text, "it "), "is "))
	}
	return strings.Join(out, ", ")
}

// first is the ground that decides: the first one against, else the first.
func (v Voice) first(d match.Verdict) string {
	for _, r := range d.Reasons {
		if r.Bad || r.Missing {
			return v.Reason(r)
		}
	}
	if len(d.Reasons) > 0 {
		return v.Reason(d.Reasons[0])
	}
	return "no reason known"
}

// Ifs joins conditions: "it is cut in one layer and washed first".
func (v Voice) Ifs(ifs []match.If) string {
	var out []string
	for _, i := range ifs {
		out = append(out, v.If(i))
	}
	switch len(out) {
	case 0:
		return "…"
	case 1:
		return out[0]
	}
	return strings.Join(out[:len(out)-1], ", ") + " and " + out[len(out)-1]
}

// If is one condition.
func (v Voice) If(i match.If) string {
	switch i.Condition {
	case match.CutCrosswise:
		return "it is cut crosswise"
	case match.OneLayer:
		return "it is cut in one layer"
	case match.StripsJoined:
		return "the strips are joined"
	case match.StretchAssumed:
		return "it stretches " + Percent(i.Percent)
	case match.RecoveryAssumed:
		return "it recovers " + Percent(i.Percent)
	case match.WeightAssumed:
		return "its weight suits"
	case match.WashFirst:
		if i.Percent != 0 {
			return "it is washed first (" + change(i.Percent, i.Assumed) + ")"
		}
		return "it is washed first"
	case match.AddAllowance:
		return "seam allowance is added"
	}
	return "a condition holds that this window does not know"
}

// change says what washing does to the length of a cloth.
func change(p measure.Percent, assumed bool) string {
	text := "it grows " + Percent(p)
	if p < 0 {
		text = "it shrinks " + Percent(-p)
	}
	if assumed {
		text += ", assumed"
	}
	return text
}

// Reason is one ground of a verdict.
func (v Voice) Reason(r match.Reason) string {
	if r.Missing {
		return missing(r)
	}
	asked, has := r.Asked, r.Has
	assumed := ""
	if r.Assumed {
		assumed = " (assumed, measure it)"
	}
	switch r.What {
	case match.Stretch, match.Recovery:
		write := Percent
		if r.Bad && Percent(measure.Percent(has)) == Percent(measure.Percent(asked)) {
			write = measure.FormatPercent // it is short by less than rounding shows
		}
		return fmt.Sprintf("%s %s %s%s, asked %s", verbOf(r.What), write(measure.Percent(has)), r.Grain, assumed, write(measure.Percent(asked)))
	case match.Weight:
		limit := "at least "
		if (has > asked) == r.Bad { // Asked is the limit that is nearer
			limit = "at most "
		}
		return "weighs " + measure.FormatWeight(measure.Weight(has), v.Units) + assumed + ", asked " + limit + measure.FormatWeight(measure.Weight(asked), v.Units)
	case match.Knit:
		if r.Bad {
			return "woven, the pattern asks for a knit"
		}
		return "a knit, as asked"
	case match.Direction:
		return "it has a direction, so it cannot be cut crosswise"
	case match.Length:
		return needs(r.Bad, v.Needed(measure.Length(asked)), "length", v.Spare(measure.Length(has))) + v.counted(r.Of, v.Length, "raw ends")
	case match.Width:
		return needs(r.Bad, v.Width(v.wholeUp(measure.Length(asked))), "width", v.Width(v.wholeDown(measure.Length(has)))) + v.counted(r.Of, v.Width, "selvedges")
	case match.Outline:
		return "no place found for all pattern pieces on its outline"
	case match.Area:
		return needs(r.Bad, v.Area(measure.Area(asked*1_000_000)), "cloth", v.Area(measure.Area(has*1_000_000)))
	case match.Strips:
		return fmt.Sprintf("the longest strip is %s, the cloth is %s across", v.Fine(measure.Length(asked)), v.Fine(measure.Length(has)))
	case match.Yardage:
		return fmt.Sprintf("the yardage table asks %s, it has %s", v.Length(measure.Length(asked)), v.Length(measure.Length(has)))
	case match.Repeat:
		return "the print repeats every " + v.Fine(measure.Length(asked)) + " and is not matched from one pattern piece to the next"
	}
	return r.What
}

// needs compares what is asked with what there is; where rounding makes a shortage look like
// enough it is said in words.
func needs(short bool, asked, of, has string) string {
	if short && asked == has {
		return fmt.Sprintf("needs %s of %s, has a little less", asked, of)
	}
	return fmt.Sprintf("needs %s of %s, has %s", asked, of, has)
}

// counted says how a length or width that counts comes from the cloth as it lies: " (2.30 m − 4 cm
// raw ends − 6 % shrinkage)"; "" where all of it counts.
func (v Voice) counted(c match.Counted, write func(measure.Length) string, ends string) string {
	text := ""
	if c.Lost > 0 {
		text += " − " + write(c.Lost) + " " + ends
	}
	if c.Washing < 0 {
		text += " − " + Percent(-c.Washing) + " shrinkage"
	}
	if c.Whole == 0 || text == "" {
		return ""
	}
	return " (" + write(c.Whole) + text + ")"
}

func verbOf(what string) string {
	if what == match.Recovery {
		return "recovers"
	}
	return "stretches"
}

func missing(r match.Reason) string {
	switch r.What {
	case match.Outline:
		return "the pattern has neither outlines nor a yardage table for this size"
	case match.Yardage:
		return "no row of the yardage table serves this size"
	case match.Width:
		return "the width of the cloth is not known"
	}
	return "the " + r.What + " of the fabric is not known"
}

// Proof says what a verdict rests on.
func Proof(p match.Proof) string {
	switch p {
	case match.ByLayout:
		return "Proved by a checked layout."
	case match.ByYardage:
		return "An estimate by the yardage table."
	case match.ByBound:
		return "No layout can exist."
	case match.ByProperties:
		return "By what the fabric is."
	case match.BySearch:
		return "Looked for and not found in the time given."
	}
	return ""
}

// Left says what stays free beyond a layout: as much as the grounds of the verdict leave, so that
// a person who takes one from the other comes to the same; "" where nothing does.
func (v Voice) Left(d match.Verdict) string {
	l := v.left(d)
	switch {
	case l == 0 && d.SpareWidth > 0 && d.Grade <= match.EnoughIf:
		return v.Width(v.wholeDown(d.SpareWidth)) + " of width to spare"
	case l == 0:
		return ""
	}
	return v.Length(l) + " to spare"
}

// LeftLength is the length alone, for a column.
func (v Voice) LeftLength(d match.Verdict) string {
	if l := v.left(d); l > 0 {
		return v.Length(l)
	}
	return ""
}

// left is the length to spare, in whole steps.
func (v Voice) left(d match.Verdict) measure.Length {
	if d.Grade > match.EnoughIf || d.SpareLength <= 0 {
		return 0
	}
	for _, r := range d.Reasons {
		if r.What == match.Length && r.Has-r.Asked == int64(d.SpareLength) {
			return max(v.wholeDown(measure.Length(r.Has))-v.wholeUp(measure.Length(r.Asked)), 0)
		}
	}
	return v.wholeDown(d.SpareLength)
}
