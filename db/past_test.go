package db_test

import (
	"context"
	"encoding/json"
	"flag"
	"os"
	"path/filepath"
	"testing"
	"time"

	"tallycloth/db"
	"tallycloth/planner"
	"tallycloth/planner/plannertest"
	"tallycloth/stash"
	"tallycloth/stash/measure"
	"tallycloth/stash/stashtest"

	"pgregory.net/rapid"
)

// hurried is a clock that goes on by a day and a half at each look.
func hurried() func() time.Time {
	t := time.Date(2025, 11, 20, 1, 0, 0, 0, time.UTC)
	return func() time.Time {
		t = t.Add(36 * time.Hour)
		return t
	}
}

// pastQuestions ask for lines of history in every way.
func pastQuestions(t *rapid.T, lines []planner.PastLine) []planner.Past {
	west := time.FixedZone("five hours west", -5*3600)
	out := []planner.Past{
		{}, {Zone: west}, {From: "2025-12-01", To: "2026-01-31", Zone: west}, {From: "2026-01-05"}, {To: "2026-01-05", Zone: time.FixedZone("east", 9*3600)},
		{Kinds: []stash.MovementKind{stash.Bought, stash.Reversed}}, {Words: []string{"JERSEY"}}, {Words: []string{"%"}}, {Words: []string{"_"}},
		{Words: []string{"kept", "C"}}, {Words: []string{"leftover"}}, {Code: "none"},
	}
	if len(lines) > 0 {
		l := rapid.SampledFrom(lines).Draw(t, "line")
		out = append(out, planner.Past{FabricID: l.FabricID}, planner.Past{Code: l.Code}, planner.Past{GarmentID: l.GarmentID},
			planner.Past{Words: []string{l.Code, string(l.Kind)}, Zone: west}, planner.Past{FabricID: l.FabricID, Kinds: []stash.MovementKind{l.Kind}, To: l.Day(nil)})
	}
	return out
}

// answers are what a store says of the past to a question, as text.
func answers(t *rapid.T, ctx context.Context, s planner.Store, p planner.Past) string {
	starts := []stash.Date{"2025-12-01", "2026-01-01", "2026-01-05", "2026-01-06", "2026-02-01", "2026-03-01"}
	must := func(err error) {
		if err != nil {
			t.Fatalf("%+v: %v", p, err)
		}
	}
	extent, err := s.PastExtent(ctx, p)
	must(err)
	count, err := s.PastCount(ctx, p)
	must(err)
	flows, err := s.Flows(ctx, p, starts)
	must(err)
	cut, err := s.CutParts(ctx)
	must(err)
	reserved, err := s.ReservedParts(ctx)
	must(err)
	cloths, err := s.EveryCloth(ctx)
	must(err)
	var pages [][]planner.PastLine
	for before := int64(0); ; {
		page, err := s.Past(ctx, p, before, 4)
		must(err)
		if len(page) == 0 {
			break
		}
		pages, before = append(pages, page), page[len(page)-1].Seq
	}
	text, err := json.MarshalIndent([]any{extent, count, flows, cut, reserved, cloths, pages}, "", " ")
	must(err)
	return string(text)
}

// TestPastLikeMemory: after random acts, undone and redone, the sums that the database makes
// are those over the ledger in memory, and so is every page of history.
func TestPastLikeMemory(t *testing.T) {
	if err := flag.Set("rapid.checks", "40"); err != nil {
		t.Fatal(err)
	}
	empty, _ := open(t)
	template := filepath.Join(t.TempDir(), "empty.db")
	if err := empty.Backup(t.Context(), template); err != nil {
		t.Fatal(err)
	}
	blank, err := os.ReadFile(template)
	if err != nil {
		t.Fatal(err)
	}
	ctx := t.Context()
	rapid.Check(t, func(rt *rapid.T) {
		folder, err := os.MkdirTemp(t.TempDir(), "library-*")
		if err != nil {
			rt.Fatal(err)
		}
		if err := os.WriteFile(filepath.Join(folder, "library.db"), blank, 0o644); err != nil {
			rt.Fatal(err)
		}
		l, err := db.Open(ctx, folder, db.Options{Now: hurried(), NewID: stashtest.IDs()})
		if err != nil {
			rt.Fatal(err)
		}
		defer l.Close()
		m := plannertest.New(hurried(), stashtest.IDs())
		stashtest.Compare(rt, ctx, m.Stash(), l.Stash())
		lines, err := m.Past(ctx, planner.Past{}, 0, 1000)
		if err != nil {
			rt.Fatal(err)
		}
		for _, p := range pastQuestions(rt, lines) {
			if a, b := answers(rt, ctx, m, p), answers(rt, ctx, l, p); a != b {
				rt.Fatalf("%+v: memory says\n%s\nthe library\n%s", p, a, b)
			}
		}
		addsUp(rt, ctx, l, lines)
	})
}

// addsUp compares yardage by month with plain sums over the lines of history, and the balance at
// the end with what lies on the shelf.
func addsUp(t *rapid.T, ctx context.Context, s planner.Store, lines []planner.PastLine) {
	now := time.Date(2026, 5, 1, 12, 0, 0, 0, time.UTC)
	studio := planner.NewStudio(planner.Config{Store: s, Now: func() time.Time { return now }})
	y, err := studio.Yardage(ctx, planner.Past{}, planner.ByMonth)
	if err != nil {
		t.Fatal(err)
	}
	shelf, err := s.Cloths(ctx)
	if err != nil {
		t.Fatal(err)
	}
	var there measure.Area
	for _, c := range shelf {
		there += c.Area
	}
	if y.After().Area != there {
		t.Fatalf("the balance is %d, on the shelf lie %d", y.After().Area, there)
	}
	in, out := map[stash.Date]measure.Area{}, map[stash.Date]measure.Area{}
	for _, l := range lines {
		if l.Kind == stash.Reversed || l.TakenBack {
			continue
		}
		month := l.Day(nil)[:7]
		switch l.Kind {
		case stash.Bought, stash.Added:
			in[month] += l.Area
		case stash.Cut, stash.GivenAway, stash.Discarded:
			out[month] -= l.Area
		}
	}
	for _, span := range y.Spans {
		month := span.From[:7]
		if span.In.Area != in[month] || span.Out().Area != out[month] {
			t.Fatalf("%s: %d in and %d out, by hand %d and %d", month, span.In.Area, span.Out().Area, in[month], out[month])
		}
		delete(in, month)
		delete(out, month)
	}
	if len(in)+len(out) > 0 {
		t.Fatalf("months that are in no span: %v %v", in, out)
	}
}
