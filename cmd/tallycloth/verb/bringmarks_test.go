package verb_test

import (
	"strings"
	"testing"

	"tallycloth/cmd/tallycloth/verb"
)

// taken counts the marks of a kind that were taken.
func (b brought) taken(kind string) (n int) {
	for _, m := range b.Marks {
		if m.Kind == kind && m.Taken {
			n++
		}
	}
	return n
}

// TestMarksOnPieces: grain line, notches and dots of a drawing come in, are listed with their reason, and can
// be corrected; what is written in a piece names it.
func TestMarksOnPieces(t *testing.T) {
	d := newDesk(t)
	file := drawing(t, `<rect width="200" height="300"/><text x="20" y="150" font-size="10">Sleeve</text><path d="M150 250V50m-5 8l5-8 5 8"/><path d="M20 100H120"/>
		<path d="M0 100h6"/><path d="M200 100h-6"/><circle cx="100" cy="250" r="3"/>`)
	var b brought
	d.answer(&b, "bring-in", file, "--name", "One")
	if b.taken("grain line") != 1 || b.taken("notch") != 2 || b.taken("dot") != 1 || len(b.Marks) != 5 || b.Marks[0].Why == "" || b.Pattern.Pieces[0].Name != "Sleeve" {
		t.Errorf("%+v", b)
	}
	d.answer(&b, "bring-in", file, "--name", "Two", "--grain", "Sleeve=2 turned", "--line-only", "Sleeve: notch 2")
	if b.taken("notch") != 1 || !b.Marks[1].Taken || b.Marks[0].Taken {
		t.Errorf("%+v", b.Marks)
	}
	d.answer(&b, "bring-in", file, "--name", "Three", "--only-lines")
	if len(b.Marks) != 0 {
		t.Errorf("%+v", b.Marks)
	}
	if said := d.done("bring-in", file, "--name", "Four", "--grain", "Sleeve=1"); !strings.Contains(said, "On Sleeve was recognised: grain line, 2 notches, 1 dot.") {
		t.Errorf("it says %q", said)
	}
	for _, args := range [][]string{{"--grain", "Sleeve=9"}, {"--grain", "Sleeve=sideways"}, {"--grain", "Cuff=up"}, {"--line-only", "Sleeve: notch 9"}, {"--line-only", "Sleeve"}, {"--line-only", "Cuff: dot 1"}} {
		d.refused(verb.Mistyped, []string{args[1][:4]}, append([]string{"bring-in", file, "--name", "None"}, args...)...)
	}
}

// TestFoldOfADrawing: a half at whose edge "place on fold" is written comes in on the fold, unless it is said to
// be whole.
func TestFoldOfADrawing(t *testing.T) {
	d := newDesk(t)
	file := drawing(t, `<path d="M0 0 H100 V200 H20 Z"><title>Front</title></path><text x="-40" y="0" font-size="6" transform="translate(97,150) rotate(-90)">Place on fold</text>`)
	var b brought
	d.answer(&b, "bring-in", file, "--as-drawn", "--name", "Half")
	if len(b.Pattern.Pieces) != 1 || !b.Pattern.Pieces[0].OnFold || b.taken("fold") != 1 || len(b.Warnings) != 1 {
		t.Errorf("%+v", b)
	}
	for _, args := range [][]string{{"--cut", "Front=1"}, {"--line-only", "Front: fold 1"}} {
		d.answer(&b, append([]string{"bring-in", file, "--as-drawn", "--name", args[0]}, args...)...)
		if b.Pattern.Pieces[0].OnFold {
			t.Errorf("%v: %+v", args, b.Pattern)
		}
	}
}
