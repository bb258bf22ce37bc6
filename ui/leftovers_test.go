package ui

import (
	"context"
	"strings"
	"testing"
	"time"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/test"

	"tallycloth/planner"
	"tallycloth/stash"
	"tallycloth/ui/sample"
	"tallycloth/ui/task"
	"tallycloth/ui/widgets"
)

// A window that is left alone works out what every leftover is good for, and then rests; a
// detail that is opened afterwards shows it at once.
func TestLeftoversAreLookedAtMeanwhile(t *testing.T) {
	studio, err := sample.New(t.Context())
	if err != nil {
		t.Fatal(err)
	}
	app := test.NewTempApp(t)
	app.Settings().SetTheme(ThemeOf(planner.DefaultSettings()))
	w := test.NewTempWindow(t, nil)
	w.Resize(fyne.NewSize(1366, 768))
	handed := make(chan func(), 1000)
	tasks := task.New(func(f func()) { handed <- f })
	s := New(w, Deps{Studio: studio, Tasks: tasks, Quiet: time.Microsecond})
	defer s.Close()
	for tasks.Running("leftovers") || len(rowsOf(s)) == 0 {
		(<-handed)()
	}
	if left, err := studio.UnworkedCloth(t.Context()); err != nil || len(left) != 0 {
		t.Errorf("%d leftovers were not worked out; %v, %s", len(left), err, s.Quiet())
	}
	c := aLeftover(t, studio)
	s.list().Choose(c.Cloth.ID)
	for s.Names().Get("stash.goodfor") == nil {
		(<-handed)()
	}
	if tasks.Running("stash.goodfor") {
		t.Error("what is known is worked out again")
	}
	if text := saysGoodFor(s); !strings.Contains(text, "ood for") && !strings.Contains(text, "enough") || strings.Contains(text, "looked at") {
		t.Errorf("it says %q", text)
	}
}

// Without it, the answer comes when the detail is opened.
func TestLeftoverIsWorkedOutWhenOpened(t *testing.T) {
	b := full(t)
	c := aLeftover(t, b.studio)
	b.list("stash.list").Choose(c.Cloth.ID)
	if g, err := b.studio.GoodFor(context.Background(), c); err != nil || g.Unknown != 0 {
		t.Errorf("%+v, %v", g, err)
	}
	if text := saysGoodFor(b.shell); strings.Contains(text, "looked at") || text == "" {
		t.Errorf("it says %q", text)
	}
}

func (s *Shell) list() *widgets.RowList {
	l, _ := s.Names().Get("stash.list").(*widgets.RowList)
	return l
}

// saysGoodFor is what the detail says a leftover is good for.
func saysGoodFor(s *Shell) string {
	box, _ := s.Names().Get("stash.goodfor").(*fyne.Container)
	if box == nil || len(box.Objects) == 0 {
		return ""
	}
	said, _ := box.Objects[0].(interface{ Said() string })
	return said.Said()
}

func rowsOf(s *Shell) []widgets.Row { return s.list().Rows() }

func aLeftover(t *testing.T, s *planner.Studio) stash.ClothState {
	t.Helper()
	all, err := s.Cloths(context.Background())
	if err != nil {
		t.Fatal(err)
	}
	for _, c := range all {
		if c.Cloth.Leftover() {
			return c
		}
	}
	t.Fatal("the sample has no leftover")
	return stash.ClothState{}
}
