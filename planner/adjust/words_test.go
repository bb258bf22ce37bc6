package adjust_test

import (
	"encoding/json"
	"errors"
	"reflect"
	"testing"

	"pgregory.net/rapid"

	"tallycloth/planner/adjust"
	"tallycloth/stash"
	"tallycloth/stash/measure"
)

func exact(system measure.System) func(measure.Length) string {
	return measure.Style{System: system, Kind: measure.PieceLength}.Exact
}

func TestWordsAreReadBack(t *testing.T) {
	for text, want := range map[string]adjust.Step{
		"take in 1 cm at the waist, from the underarm to the hip": {Kind: adjust.TakeIn, Amount: cm, At: at(adjust.Waist), From: at(adjust.Underarm), To: at(adjust.HipLevel)},
		"let out 1/2 in along the inseam":                         {Kind: adjust.TakeIn, Amount: -12700, Seam: "inseam"},
		"take in 5 mm at 3 cm above the hip, to the hem on A, B":  {Kind: adjust.TakeIn, Amount: 5 * mm, At: below(adjust.HipLevel, -3*cm), To: at(adjust.HemLevel), Pieces: []string{"A", "B"}},
		"shorten 2 cm at 10 cm below the underarm":                {Kind: adjust.Lengthen, Amount: -2 * cm, At: below(adjust.Underarm, 10*cm)},
		"Hem 5 cm longer on C":                                    {Kind: adjust.Hem, Amount: 5 * cm, Pieces: []string{"C"}},
		"hem at a length of 95 cm, 130 cm round":                  {Kind: adjust.Hem, Length: 95 * cm, Round: 130 * cm},
		"strap point 1 cm in, 1,5 cm down on A":                   {Kind: adjust.Strap, Out: -cm, Down: 15 * mm, Pieces: []string{"A"}},
		"strap length 31,5 cm":                                    {Kind: adjust.StrapLength, Length: 315 * mm},
		"neckline 2 cm deeper on A and B":                         {Kind: adjust.Neckline, Down: 2 * cm, Pieces: []string{"A", "B"}},
		"split B across at the waist":                             {Kind: adjust.Panels, At: at(adjust.Waist), Pieces: []string{"B"}},
		"mirror the left half of A":                               {Kind: adjust.Mirror, Half: adjust.LeftHalf, Pieces: []string{"A"}},
		"open out A":                                              {Kind: adjust.Mirror, Pieces: []string{"A"}},
	} {
		got, err := adjust.Parse(text, measure.Centimetre)
		if err != nil || !reflect.DeepEqual(got, want) {
			t.Errorf("%q: %+v, %v", text, got, err)
		}
	}
	for _, text := range adjust.Examples() {
		if _, err := adjust.Parse(text, measure.Centimetre); err != nil {
			t.Errorf("the example %q: %v", text, err)
		}
	}
}

func TestWordsThatCannotBeRead(t *testing.T) {
	for _, text := range []string{"", "take", "take in", "take in at the waist", "take in 1 cm at the knee", "take in 1 cm at the waist, sideways", "lengthen 3 cm",
		"hem", "hem 5 cm", "hem shorter", "strap point 1 cm", "strap length", "strap length 3 m", "strap length 30 cm on A", "neckline 1 cm out", "split A", "split A along 1, 2", "split A along 0 0", "mirror A", "mirror the upper half of A", "take in 9 m at the waist"} {
		_, err := adjust.Parse(text, measure.Centimetre)
		var e *stash.Error
		if !errors.As(err, &e) || e.Do == "" {
			t.Errorf("%q: %v does not say what to do", text, err)
		}
	}
}

// Every step that can be meant is read back from its words, and from its JSON.
func TestStepsKeepTheirWords(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		s := anyStep(t)
		if s.Validate() != nil {
			return
		}
		data, err := json.Marshal(s)
		if err != nil {
			t.Fatal(err)
		}
		var back adjust.Step
		if err := json.Unmarshal(data, &back); err != nil || !reflect.DeepEqual(back, s) {
			t.Fatalf("%s became %+v, %v", data, back, err)
		}
		words := s.Words(exact(measure.Metric))
		read, err := adjust.Parse(words, measure.Centimetre)
		if err != nil || read.Words(exact(measure.Metric)) != words {
			t.Fatalf("%q was read as %+v, %v", words, read, err)
		}
	})
}

func FuzzParse(f *testing.F) {
	for _, text := range adjust.Examples() {
		f.Add(text)
	}
	f.Fuzz(func(t *testing.T, text string) {
		s, err := adjust.Parse(text, measure.Inch)
		if err != nil {
			var e *stash.Error
			if !errors.As(err, &e) || e.Do == "" {
				t.Fatalf("%q: %v does not say what to do", text, err)
			}
			return
		}
		if _, err := adjust.Parse(s.Words(exact(measure.Imperial)), measure.Inch); err != nil {
			t.Fatalf("%q was read as %+v, whose words are not: %v", text, s, err)
		}
	})
}
