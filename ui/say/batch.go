package say

import (
	"fmt"
	"slices"
	"strings"

	"tallycloth/planner"
	"tallycloth/planner/batch"
	"tallycloth/planner/match"
	"tallycloth/stash"
	"tallycloth/stash/measure"
)

// Wants is how many garments the rows of a batch ask for.
func Wants(rows []planner.Wanted) int {
	n := 0
	for _, r := range rows {
		n += max(r.Count, 1)
	}
	return n
}

// Planning says how far the planning of a batch is: "7 of 12 garments so far; at most 2
// more are possible; 140 layouts tried".
func Planning(p planner.BatchPlan, wanted int) string {
	return fmt.Sprintf("%d of %s so far; %s; %s tried", len(p.Made), Count(wanted, "garment", "garments"), more(p), Count(p.Tried, "layout", "layouts"))
}

// more says how many more garments there could be.
func more(p planner.BatchPlan) string {
	switch n := p.AtMostMore(); n {
	case 0:
		return "no more are possible"
	case 1:
		return "at most 1 more is possible"
	default:
		return fmt.Sprintf("at most %d more are possible", n)
	}
}

// MayBeMore says that planning on may bring more garments.
func MayBeMore(n int) string {
	if n == 1 {
		return "One more garment may be possible: nobody has proved that it is not. Planning goes on from this plan, and keeps it if nothing better comes."
	}
	return fmt.Sprintf("Up to %d more garments may be possible: nobody has proved that they are not. Planning goes on from this plan, and keeps it if nothing better comes.", n)
}

// Planned says what a plan comes to, and how far from the best that can be.
func Planned(p planner.BatchPlan, wanted int) string {
	n := len(p.Made)
	head := fmt.Sprintf("%d of %s can be made", n, Count(wanted, "garment", "garments"))
	switch {
	case n == wanted && n == 1:
		head = "The garment can be made"
	case n == wanted:
		head = fmt.Sprintf("All %d garments can be made", n)
	case n == 0:
		head = fmt.Sprintf("None of %s can be made", Count(wanted, "garment", "garments"))
	}
	if n < wanted {
		head += "; " + more(p)
	}
	if p.Best {
		head += "; by the order chosen no plan is better"
	}
	return head + "."
}

// PlanSum says what is cut for a plan: "3 pieces of cloth are cut, no whole length, 0.42 m²
// of waste".
func (v Voice) PlanSum(p planner.BatchPlan) string {
	whole := "no whole length"
	if n := p.Score.Whole; n > 0 {
		whole = Count(n, "whole length", "whole lengths")
	}
	are := " are cut, "
	if len(p.Cuts) == 1 {
		are = " is cut, "
	}
	return Count(len(p.Cuts), "piece of cloth", "pieces of cloth") + are + whole + ", " + v.Area(Wasted(p)) + " of waste."
}

// Wasted is what a plan wastes on all its cloths.
func Wasted(p planner.BatchPlan) measure.Area {
	var sum measure.Area
	for _, c := range p.Cuts {
		sum += c.Waste
	}
	return sum
}

// ByPriority says how many garments of each priority are made: "3 of 4", or "1: 3 of 4,
// 2: 0 of 2".
func ByPriority(rows []planner.Wanted, p planner.BatchPlan) string {
	wanted, made := map[int]int{}, map[int]int{}
	most := 1
	class := func(r planner.Wanted) int { return max(r.Priority, 1) }
	for _, r := range rows {
		wanted[class(r)] += max(r.Count, 1)
		most = max(most, class(r))
	}
	for _, g := range p.Made {
		made[class(rows[g.Row])]++
	}
	var out []string
	for c := 1; c <= most; c++ {
		if wanted[c] > 0 {
			out = append(out, fmt.Sprintf("%d: %d of %d", c, made[c], wanted[c]))
		}
	}
	if len(out) == 1 {
		_, text, _ := strings.Cut(out[0], ": ")
		return text
	}
	return strings.Join(out, ", ")
}

// GarmentOf names a garment of a plan: "Fennel tank, size 4, cropped, for Ida (2 of 3)".
func GarmentOf(row planner.Wanted, pattern string, number int) string {
	name := pattern + ", size " + row.Size
	if row.Variant != "" {
		name += ", " + row.Variant
	}
	if row.For != "" {
		name += ", for " + row.For
	}
	if n := max(row.Count, 1); n > 1 {
		name += fmt.Sprintf(" (%d of %d)", number, n)
	}
	return name
}

// OtherSize says that another size than the one taken is proposed by her measurements: "" where
// it is the same.
func OtherSize(taken, proposed string) string {
	if taken == proposed {
		return ""
	}
	return " (the measurements say " + proposed + ")"
}

// IfsOf joins the conditions under which a cut gives a garment its parts; "" for none.
func (v Voice) IfsOf(c planner.PlannedCut, garment int) string {
	if ifs := ifsOn(c, garment); len(ifs) > 0 {
		return v.Ifs(ifs)
	}
	return ""
}

// IfsOfShort is IfsOf for a narrow line.
func (v Voice) IfsOfShort(c planner.PlannedCut, garment int) string {
	return v.ifsShort(ifsOn(c, garment))
}

// ifsOn are the conditions of a garment's parts on a cloth, each once.
func ifsOn(c planner.PlannedCut, garment int) []match.If {
	var ifs []match.If
	for _, q := range c.Parts {
		for _, i := range q.Ifs {
			if q.Garment == garment && !slices.Contains(ifs, i) {
				ifs = append(ifs, i)
			}
		}
	}
	return ifs
}

// Rule says what a use of fabric may be cut from.
func Rule(r planner.UseRule, fabric func(stash.ID) string) string {
	switch r.From {
	case planner.GoesWith:
		if r.Within > 0 && r.Within != planner.ColourNear {
			return RuleWords(r.From) + ", " + Nearness(r.Within)
		}
	case planner.NamedFabric:
		var names []string
		for _, id := range r.Fabrics {
			names = append(names, fabric(id))
		}
		return "only " + Or(names)
	}
	return RuleWords(r.From)
}

// Or joins words: "a, b or c".
func Or(words []string) string {
	if len(words) < 2 {
		return strings.Join(words, "")
	}
	return strings.Join(words[:len(words)-1], ", ") + " or " + words[len(words)-1]
}

// RuleWords name a rule.
func RuleWords(from planner.From) string {
	switch from {
	case planner.AnyFabric:
		return "any that suits"
	case planner.GoesWith:
		return "what goes with main"
	case planner.NamedFabric:
		return "only fabrics that I choose"
	case planner.Skipped:
		return "not planned here"
	}
	return "same fabric and lot as main"
}

// Nearness says how near one colour must be to another, with the distance in CIELAB.
func Nearness(within float64) string {
	n := fmt.Sprintf("up to %.0f apart", within)
	switch within {
	case planner.ColourClose:
		return "hardly another colour (" + n + ")"
	case planner.ColourNear:
		return "of one family (" + n + ")"
	case planner.ColourLoose:
		return "related (" + n + ")"
	}
	return n
}

// Orders are the orders in which plans that make the same garments are compared, in the
// words of Order, the usual one first.
func Orders() [][]batch.Criterion {
	w, l, c := batch.FewestWhole, batch.LeastWaste, batch.FewestCloths
	var out [][]batch.Criterion
	for _, o := range [][]batch.Criterion{{w, l, c}, {w, c, l}, {l, w, c}, {l, c, w}, {c, w, l}, {c, l, w}} {
		out = append(out, append([]batch.Criterion{batch.UseFirst}, o...))
	}
	return out
}

// Order says an order of criteria: "few whole lengths, little waste, few cloths".
func Order(o []batch.Criterion) string {
	var out []string
	for _, c := range o {
		switch c {
		case batch.FewestWhole:
			out = append(out, "few whole lengths")
		case batch.LeastWaste:
			out = append(out, "little waste")
		case batch.FewestCloths:
			out = append(out, "few cloths")
		}
	}
	return strings.Join(out, ", then ")
}

// Miss says what stands against one use of a row that a plan does not make: "12 cm short
// on C17; enough on L4, a whole length, if you allow those". It is "" where cloth that may be
// used is enough for this use by itself.
func (v Voice) Miss(m planner.NearestMiss) string {
	if m.None {
		return "no cloth on the shelf may be used for it"
	}
	var out []string
	allowed := stash.NoID
	switch {
	case m.Allowed == nil:
		out = append(out, "no cloth that may be used would serve")
	case m.Allowed.Verdict.Grade <= match.EnoughIf:
		return ""
	default:
		allowed = m.Allowed.Cloth.Cloth.ID
		out = append(out, v.on(*m.Allowed))
	}
	if c := m.Finding.Cloth; c.Cloth.ID != allowed && m.Finding.Verdict.Grade <= match.EnoughIf {
		text := "enough on " + c.Cloth.Code + ", " + c.Fabric.Name
		if planner.WholeLength(c) {
			text += ", a whole length, if you allow those"
		} else {
			text += ", if you allow it"
		}
		out = append(out, text)
	} else if m.Allowed == nil {
		out = append(out, "nearest of the others: "+v.on(m.Finding))
	}
	return strings.Join(out, "; ")
}

// on says a verdict with its cloth.
func (v Voice) on(f planner.Finding) string {
	at := f.Cloth.Cloth.Code + ", " + f.Cloth.Fabric.Name
	if f.Verdict.Short > 0 {
		return v.Ground(f.Verdict) + " on " + at
	}
	return "on " + at + ": " + v.Ground(f.Verdict)
}

// Misses says what stands against a row: each use that finds no cloth; where each would find
// some by itself, that.
func (v Voice) Misses(row int, all []planner.NearestMiss) []string {
	var against, alone []string
	for _, m := range all {
		if m.Row != row {
			continue
		}
		if text := v.Miss(m); text != "" {
			against = append(against, Sentence(m.Role+": "+text))
		} else {
			alone = append(alone, m.Role+" on "+m.Allowed.Cloth.Cloth.Code)
		}
	}
	switch {
	case len(against) > 0:
		return against
	case len(alone) > 1:
		return []string{"By itself each use would find cloth (" + And(alone) + "), but not by the rules together with the others."}
	}
	return []string{"By itself it would find cloth (" + And(alone) + "): keep planning."}
}

// Buying says what to buy at one width: "1.70 m of 150 cm wide (0.3 m less than bought for
// each by itself)".
func (v Voice) Buying(b planner.BuyingWidth) string {
	text := v.Length(b.Buy) + " at " + v.Width(b.Width) + " wide"
	if b.ByTable {
		text += ", by the yardage table"
	}
	if s := b.Saves(); s > 0 {
		text += "; " + v.Length(b.Apart) + " if each is bought by itself, so sharing saves " + v.Length(s)
	}
	return text
}

// ToBuy says which fabric is to be bought: its name, or what it must be.
func (v Voice) ToBuy(c planner.ClothToBuy) string {
	if c.FabricID != stash.NoID {
		return c.Fabric
	}
	return "Fabric for " + c.Role + " (" + v.Asks(c.Asks) + ")"
}
