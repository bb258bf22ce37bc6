package verb

import (
	"fmt"
	"io"

	"tallycloth/planner"
	"tallycloth/planner/match"
	"tallycloth/stash/measure"
	"tallycloth/ui/say"
)

// findingFields is the answer for one cloth in JSON.
type findingFields struct {
	Code         string   `json:"code"`
	Fabric       string   `json:"fabric"`
	Verdict      string   `json:"verdict"`
	Proof        string   `json:"proof"`
	SpareLength  mm       `json:"spare_length_mm"`
	SpareWidth   mm       `json:"spare_width_mm"`
	Short        mm       `json:"short_mm"`
	UsedLength   mm       `json:"used_length_mm"` // of the layout, 0 without one
	CutCrosswise bool     `json:"cut_crosswise"`
	Folds        []mm     `json:"folds_mm"` // depth of each fold of the layout
	Reasons      []string `json:"reasons"`
	Conditions   []string `json:"conditions"`
}

func (l *library) fieldsOfFinding(f planner.Finding) findingFields {
	v := f.Verdict
	out := findingFields{
		Code: f.Cloth.Cloth.Code, Fabric: f.Cloth.Fabric.Name, Verdict: grades[v.Grade], Proof: proofs[v.Proof],
		SpareLength: mm(v.SpareLength), SpareWidth: mm(v.SpareWidth), Short: mm(v.Short), Folds: []mm{}, Reasons: []string{}, Conditions: []string{},
	}
	for _, r := range v.Reasons {
		out.Reasons = append(out.Reasons, say.Sentence(l.voice.Reason(r)))
	}
	for _, c := range v.Ifs {
		out.Conditions = append(out.Conditions, l.voice.If(c))
	}
	if v.Layout != nil {
		out.UsedLength, out.CutCrosswise = mm(usedLength(v.Layout)), v.Layout.Frame.Crosswise
		for _, d := range v.Layout.Frame.Folds {
			out.Folds = append(out.Folds, mm(d))
		}
	}
	return out
}

// usedLength is the length of cloth that a layout takes.
func usedLength(l *match.Layout) measure.Length {
	var used measure.Length
	for _, u := range l.Solution.Used {
		used += measure.Length(u)
	}
	return used
}

// serves says whether a verdict lets the cloth be cut for the pattern.
func serves(g match.Grade) bool { return g == match.Enough || g == match.Tight || g == match.EnoughIf }

// line is a finding on one line.
func (l *library) line(f planner.Finding) string {
	said := l.voice.Verdict(f.Verdict)
	if spare := l.voice.Left(f.Verdict); spare != "" {
		said += ", " + spare
	}
	return pad(f.Cloth.Cloth.Code, 8) + pad(f.Cloth.Fabric.Name, 30) + said
}

// no answers with a finding that serves nobody, and ends the verb with that.
func (s *session) no(v any, l *library, f planner.Finding) error {
	if err := s.answer(v, func(w io.Writer) { l.reasons(w, f) }); err != nil {
		return err
	}
	return &answeredNo{}
}

// reasons writes a finding with its grounds and its proof.
func (l *library) reasons(w io.Writer, f planner.Finding) {
	fmt.Fprintln(w, l.line(f))
	for _, r := range append(l.fieldsOfFinding(f).Reasons, say.Proof(f.Verdict.Proof)) {
		if r != "" {
			fmt.Fprintln(w, "  "+r)
		}
	}
}
