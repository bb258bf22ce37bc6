package verb_test

import (
	"strings"
	"testing"

	"tallycloth/cmd/tallycloth/verb"
)

type personLine struct {
	Name, Notes string
	Taken       []struct {
		On, Note string
		Body     map[string]float64 `json:"body_mm"`
	}
	Adjustments []struct {
		Number   int
		Text, On string
		Step     any
	}
}

// TestAPersonsSize: added, measured on two days, sized, taken off the list and put back.
func TestAPersonsSize(t *testing.T) {
	d := newDesk(t).withPatterns()
	var p personLine
	d.answer(&p, "person", "add", "Ida", "--notes", "likes it loose")
	d.answer(&p, "person", "measure", "Ida", "--day", "2024-05-01", "--at", "bust=80", "--at", "height=160")
	d.answer(&p, "person", "measure", "id", "--at", "bust=36 in", "--at", "high bust=34 in", "--at", "hip=40 in")
	if p.Name != "Ida" || p.Notes != "likes it loose" || len(p.Taken) != 2 || p.Taken[1].Body["bust"] != 914.4 || p.Taken[0].Body["height"] != 1600 {
		t.Fatalf("%+v", p)
	}
	var got struct {
		Size   string
		Why    []string
		Levels []struct {
			Level, Size string
			Beyond      float64 `json:"beyond_mm"`
		}
		Options []struct {
			Size, Front string
			Eases       []struct {
				Level    string
				Body     float64 `json:"body_mm"`
				Finished float64 `json:"finished_mm"`
				Ease     float64 `json:"ease_mm"`
				Worn     float64 `json:"worn_percent"`
				Wear     string
			}
		}
	}
	// The table of 1967/68: high bust 34 in is size 4 of the demo tank, hip 40 in size 5.
	d.answer(&got, "person", "size", "Ida", "--pattern", tank)
	if got.Size != "4" || len(got.Levels) != 2 || got.Levels[1].Size != "5" || len(got.Options) != 3 || len(got.Why) == 0 {
		t.Errorf("%+v", got)
	}
	if words := d.done("person", "size", "Ida", "--pattern", tank); !strings.Contains(words, "size 4") || !strings.Contains(words, "Between sizes") {
		t.Errorf("told %s", words)
	}
	d.done("person", "remove", "Ida")
	var all []personLine
	if d.answer(&all, "person", "list"); len(all) != 0 {
		t.Errorf("%+v", all)
	}
	d.done("undo")
	if d.answer(&all, "person", "list"); len(all) != 1 {
		t.Errorf("%+v", all)
	}
	for _, c := range []struct{ says, args []string }{
		{[]string{"five things"}, []string{"person"}},
		{[]string{"Nothing was measured"}, []string{"person", "measure", "Ida"}},
		{[]string{"cannot be", "Round the natural waist"}, []string{"person", "measure", "Ida", "--at", "waist=3"}},
		{[]string{"not measured here"}, []string{"person", "measure", "Ida", "--at", "hat=56"}},
		{[]string{"not a day"}, []string{"person", "measure", "Ida", "--day", "May", "--at", "hip=98"}},
		{[]string{"No person"}, []string{"person", "size", "Otto", "--pattern", tank}},
	} {
		d.refused(verb.Mistyped, c.says, c.args...)
	}
}
