package main

import (
	"context"
	"os"
	"regexp"
	"strings"
	"testing"
	"time"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/test"

	"tallycloth/cmd/words/texts"
	"tallycloth/ui/sample"
	"tallycloth/ui/widgets"
)

// listed is what the list of all texts says, to look texts up in.
type listed struct {
	whole []*regexp.Regexp
	words map[string]bool
}

var (
	word = regexp.MustCompile(`\pL{2,}`)
	// apart is what nobody wrote into the program: codes of cloth, of currencies, names of files, words cut short.
	apart = regexp.MustCompile(`\b[0-9A-Z]{3,4}\b|/\S+|\pL+…`)
	digit = regexp.MustCompile(`\d`)
)

// listTexts reads the list, and of this folder what the screens type.
func listTexts(t *testing.T) *listed {
	places, err := texts.Collect("../..")
	if err != nil {
		t.Fatal(err)
	}
	l := &listed{words: map[string]bool{}}
	for _, p := range places {
		for _, s := range p.Texts {
			l.learn(s.Said)
			pattern := strings.ReplaceAll(regexp.QuoteMeta(strings.TrimSpace(s.Said)), "…", ".*")
			if strings.Trim(pattern, ".* ") != "" {
				l.whole = append(l.whole, regexp.MustCompile("^"+pattern+"$"))
			}
		}
	}
	typed, err := os.ReadFile("screens.go")
	if err != nil {
		t.Fatal(err)
	}
	l.learn(string(typed))
	for m := time.January; m <= time.December; m++ {
		l.learn(m.String() + " " + m.String()[:3])
	}
	return l
}

func (l *listed) learn(text string) {
	for _, w := range word.FindAllString(text, -1) {
		l.words[strings.ToLower(w)] = true
	}
}

// has says whether a text stands in the list whole.
func (l *listed) has(text string) bool {
	for _, p := range l.whole {
		if p.MatchString(strings.TrimSpace(text)) {
			return true
		}
	}
	return false
}

// missing are the words of a text that no text of the list has.
func (l *listed) missing(text string) (out []string) {
	for _, w := range word.FindAllString(apart.ReplaceAllString(text, ""), -1) {
		if !l.words[strings.ToLower(w)] {
			out = append(out, w)
		}
	}
	return out
}

// shown tells everything that an object shows as text: labels whole, all else as it is drawn.
func shown(o fyne.CanvasObject, label, text func(string)) {
	switch o := o.(type) {
	case *widgets.Button:
		label(o.Text)
	case *widgets.Check:
		label(o.Text)
	case *widgets.Choice:
		for _, s := range o.Options {
			text(s)
		}
	case *widgets.Entry:
		text(o.PlaceHolder)
	case *widgets.RowList:
		for _, r := range o.Rows() {
			text(r.Title + " " + r.Sub)
			for _, c := range r.Cells {
				text(c.Text + " " + c.Under)
			}
		}
	case *canvas.Text:
		text(o.Text)
	}
	switch o := o.(type) {
	case *fyne.Container:
		for _, in := range o.Objects {
			shown(in, label, text)
		}
	case fyne.Widget:
		for _, in := range test.WidgetRenderer(o).Objects() {
			shown(in, label, text)
		}
	}
}

// TestEveryTextIsListed: whatever the window shows stands in the list of texts, so that who reads
// that list has read the window.
func TestEveryTextIsListed(t *testing.T) {
	list, ctx := listTexts(t), context.Background()
	full, err := demoStudio(ctx)
	if err != nil {
		t.Fatal(err)
	}
	seen := 0
	for i, sc := range screens {
		if i%every > 0 || sc.writes() && !strings.HasPrefix(sc.name, "batch-row") && !sc.empty {
			continue // plans take long; what they say is put together of words that other places show
		}
		studio := full
		if sc.empty {
			studio = sample.Empty()
		}
		err := show(ctx, studio, func() {}, sc, look{theme: "light", text: 100, size: fyne.NewSize(1366, 768), scale: 1, brief: true}, func(s *stage) error {
			label := func(text string) {
				if seen++; !digit.MatchString(text) && word.MatchString(text) && !list.has(text) {
					t.Errorf("%s: the label %q is not in the list", sc.name, text)
				}
			}
			text := func(text string) {
				if seen++; len(list.missing(text)) > 0 {
					t.Errorf("%s: %q of %q is not in the list", sc.name, list.missing(text), text)
				}
			}
			shown(s.window.Content(), label, text)
			for _, o := range s.window.Canvas().Overlays().List() {
				shown(o, label, text)
			}
			return nil
		})
		if err != nil {
			t.Fatal(err)
		}
	}
	if seen < 1000/every {
		t.Errorf("only %d texts were seen", seen)
	}
}
