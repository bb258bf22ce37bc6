package binding

import (
	"fmt"
	"strings"

	"tallycloth/stash/measure"
)

// The kinds of check on a plan.
const (
	CheckJoined  CheckKind = "joined"
	CheckNoCloth CheckKind = "no cloth"
	CheckFewer   CheckKind = "fewer joins"
)

// Checks says in words what a plan of strips comes to: which strips are joined and where,
// which found no cloth. strips are those the plan was made of.
func (p CutPlan) Checks(strips []Strip) []Check {
	missing := map[int]bool{}
	for _, no := range p.Missing {
		missing[no] = true
	}
	var out []Check
	no := 0
	for _, s := range strips {
		for copy := range max(1, s.Job.Count) {
			name := named(s.Job.Name)
			if s.Job.Count > 1 {
				name = fmt.Sprintf("%s %d", name, copy+1)
			}
			if c, ok := p.check(no, name, s, missing[no]); ok {
				out = append(out, c)
			}
			no++
		}
	}
	if len(missing) == 0 && !p.JoinsProved() {
		out = append(out, Check{Kind: CheckFewer, OK: true, Mind: true, Value: float64(p.Fewest),
			Text: "Fewer joins might be possible: this is the best plan found, not one that is proved",
			Do:   "Where you see a longer stretch on the cloth, lay a strip there by hand."})
	}
	return out
}

// check is what there is to say of one strip; false for a strip in one length.
func (p CutPlan) check(no int, name string, s Strip, missing bool) (Check, bool) {
	if missing {
		return Check{Kind: CheckNoCloth, Part: name, Text: fmt.Sprintf("%s: there is no cloth for %s of strip", name, s.say(s.CutLength)),
			Do: "Add another length or leftover, or allow joins in more places.", Value: float64(s.CutLength)}, true
	}
	joins := p.Joins[no]
	if len(joins) == 0 {
		return Check{}, false
	}
	var at []string
	for _, j := range joins {
		at = append(at, s.say(j))
	}
	return Check{Kind: CheckJoined, Part: name, OK: true, Value: float64(len(joins)),
		Text: fmt.Sprintf("%s is joined from %d lengths, at %s from its start", name, len(joins)+1, strings.Join(at, " and "))}, true
}

// Text writes a strip as lines to copy: its size, each part with its ratio, each mark
// from the end and from the centre, and what does not hold.
func (s Strip) Text() string {
	var b strings.Builder
	count := ""
	if s.Job.Count > 1 {
		count = fmt.Sprintf("%d × ", s.Job.Count)
	}
	fmt.Fprintf(&b, "%s: cut %s%s × %s\n", named(s.Job.Name), count, s.say(s.CutWidth), s.say(s.CutLength))
	for _, p := range s.Parts {
		fmt.Fprintf(&b, "  %s: %s for %s (%s, %s)\n", named(p.Segment.Name), s.say(p.Length), s.say(p.Segment.Whole()), percent(p.Ratio), p.Basis)
	}
	mark := measure.Style{System: s.Job.Units, Kind: measure.StripMark}.Format
	for _, r := range s.Table(s.Job.Units) {
		fmt.Fprintf(&b, "  mark %s: %s from the end, %s from the centre\n", r.Name, mark(r.FromEnd), mark(max(r.FromCentre, -r.FromCentre)))
	}
	if s.ClearElastic > 0 {
		fmt.Fprintf(&b, "  clear elastic: %s\n", s.say(s.ClearElastic))
	}
	for _, c := range s.Checks {
		if !c.OK {
			fmt.Fprintf(&b, "  mind: %s. %s\n", c.Text, c.Do)
		}
	}
	return b.String()
}

// Text writes elastic as one line to copy.
func (e ElasticCut) Text(units measure.System) string {
	style := measure.Style{System: units, Kind: measure.StripLength}
	return fmt.Sprintf("elastic: cut %s, a ring of %s; casing %s below its fold", style.Format(e.Cut), style.Format(e.Ring), style.Format(e.Casing))
}
